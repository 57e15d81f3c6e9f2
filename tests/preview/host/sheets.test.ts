import { describe, expect, it } from 'vitest';
import { errorCode, openBook } from '../../support/office.ts';

/** A 2 × 3 pixel PNG, header only: the host reads no further. */
const PNG = btoa(
  '\x89PNG\r\n\x1a\n\0\0\0\rIHDR' + '\0\0\0\x02' + '\0\0\0\x03' + '\x08\x06\0\0\0' + '\0\0\0\0'.repeat(6),
);

describe('sheets', () => {
  it('are added, renamed, ordered, hidden, coloured and deleted', async () => {
    const book = openBook({ sheets: ['One', 'Two'] });
    await book.run(async (context) => {
      const { worksheets } = context.workbook;
      const three = worksheets.add('Three');
      three.position = 0;
      three.tabColor = '#00ff00';
      three.showGridlines = false;
      worksheets.getItem('Two').visibility = 'Hidden';
      worksheets.getItem('one').name = 'First';
      worksheets.load('items/name,items/visibility,items/position');
      three.load('tabColor,showGridlines,id');
      const visible = worksheets.getCount(true);
      const next = three.getNext().load('name');
      await context.sync();
      expect(worksheets.items.map((sheet) => [sheet.name, sheet.visibility])).toEqual([
        ['Three', 'Visible'],
        ['First', 'Visible'],
        ['Two', 'Hidden'],
      ]);
      expect([three.tabColor, three.showGridlines, visible.value, next.name]).toEqual([
        '#00FF00',
        false,
        2,
        'First',
      ]);
      three.delete();
      const gone = worksheets.getItemOrNullObject('Three');
      await context.sync();
      expect(gone.isNullObject).toBe(true);
    });
    expect(book.model.active.name).toBe('First');
  });

  it.each([
    ['ItemAlreadyExists', 'one'],
    ['InvalidArgument', 'a/b'],
    ['InvalidArgument', 'x'.repeat(32)],
    ['InvalidArgument', ''],
  ])('refuse with %s the name %j', async (code, name) => {
    const book = openBook({ sheets: ['One'] });
    const got = await errorCode(() =>
      book.run(async (context) => {
        context.workbook.worksheets.add(name);
        await context.sync();
      }),
    );
    expect(got).toBe(code);
  });

  it('keep the last visible one', async () => {
    const book = openBook({ sheets: ['One', 'Two'] });
    const code = await errorCode(() =>
      book.run(async (context) => {
        context.workbook.worksheets.getItem('Two').visibility = 'VeryHidden';
        context.workbook.worksheets.getItem('One').delete();
        await context.sync();
      }),
    );
    expect(code).toBe('InvalidOperation');
    expect(book.model.sheets).toHaveLength(2);
  });

  it('leave #REF! behind in formulas when they go', async () => {
    const book = openBook({ sheets: ['One', 'Two'] });
    book.model.enter('One', 0, 0, '=Two!B2+1', 'user');
    await book.run(async (context) => {
      context.workbook.worksheets.getItem('Two').delete();
      await context.sync();
    });
    expect(book.model.cell('One', 0, 0)?.formula).toBe('=#REF!+1');
  });

  it('freeze and unfreeze', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const { freezePanes } = context.workbook.worksheets.getItem('Sheet1');
      freezePanes.freezeAt('A1:B3');
      const location = freezePanes.getLocationOrNullObject().load('address');
      await context.sync();
      expect(location.address).toBe('Sheet1!A1:B3');
      freezePanes.unfreeze();
      const none = freezePanes.getLocationOrNullObject();
      await context.sync();
      expect(none.isNullObject).toBe(true);
    });
  });

  it('have a page layout', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const { pageLayout } = context.workbook.worksheets.getItem('Sheet1');
      pageLayout.orientation = 'Landscape';
      pageLayout.zoom = { horizontalFitToPages: 1 };
      pageLayout.setPrintArea('A1:D20');
      pageLayout.setPrintTitleRows('$1:$2');
      pageLayout.setPrintMargins('Inches', { top: 1 });
      pageLayout.headersFooters.defaultForAllPages.leftFooter = 'Page &P';
      pageLayout.load('orientation,zoom,topMargin');
      const area = pageLayout.getPrintAreaOrNullObject().load('address');
      const titles = pageLayout.getPrintTitleRowsOrNullObject().load('address');
      const columns = pageLayout.getPrintTitleColumnsOrNullObject();
      const footer = pageLayout.headersFooters.defaultForAllPages.load('leftFooter,rightFooter');
      await context.sync();
      expect(pageLayout.orientation).toBe('Landscape');
      expect(pageLayout.zoom).toEqual({ horizontalFitToPages: 1 });
      expect(pageLayout.topMargin).toBe(72);
      expect([area.address, titles.address]).toEqual(['Sheet1!A1:D20', 'Sheet1!1:2']);
      expect(columns.isNullObject).toBe(true);
      expect([footer.leftFooter, footer.rightFooter]).toEqual(['Page &P', '']);
    });
  });

  it('hold pictures', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const { shapes } = context.workbook.worksheets.getItem('Sheet1');
      const shape = shapes.addImage(PNG);
      shape.name = 'Grid';
      shape.left = 30;
      shape.altTextDescription = 'the grid';
      shape.load('width,height,type,name,left');
      shapes.load('items/name');
      await context.sync();
      expect([shape.width, shape.height, shape.type, shape.left]).toEqual([1.5, 2.25, 'Image', 30]);
      expect(shapes.items.map((one) => one.name)).toEqual(['Grid']);
      shape.delete();
      await context.sync();
    });
    expect(book.model.sheet('Sheet1').layout.pictures).toEqual([]);
    const code = await errorCode(() =>
      book.run(async (context) => {
        context.workbook.worksheets.getItem('Sheet1').shapes.addImage(btoa('<svg/>'));
        await context.sync();
      }),
    );
    expect(code).toBe('InvalidArgument');
  });

  it('keep custom properties', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const { customProperties } = context.workbook.worksheets.getItem('Sheet1');
      customProperties.add('owner', 'keyrow');
      customProperties.add('OWNER', 'again');
      customProperties.load('items/key,items/value');
      const none = customProperties.getItemOrNullObject('nothing');
      await context.sync();
      expect(customProperties.items.map((item) => [item.key, item.value])).toEqual([['owner', 'again']]);
      expect(none.isNullObject).toBe(true);
    });
  });

  it('filter a plain range', async () => {
    const book = openBook();
    book.model.enterBlock(
      'Sheet1',
      { row: 0, column: 0, rows: 3, columns: 1 },
      [['h'], ['a'], ['b']],
      'user',
    );
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.autoFilter.apply('A1:A3', 0, { filterOn: 'Values', values: ['b'] });
      sheet.autoFilter.load('enabled,isDataFiltered');
      const hidden = sheet.getRange('A2').load('rowHidden');
      await context.sync();
      expect([sheet.autoFilter.enabled, sheet.autoFilter.isDataFiltered, hidden.rowHidden]).toEqual([
        true,
        true,
        true,
      ]);
      sheet.autoFilter.remove();
      hidden.load('rowHidden');
      await context.sync();
      expect(hidden.rowHidden).toBe(false);
    });
  });
});

describe('the workbook', () => {
  it('keeps names of its own and of sheets', async () => {
    const book = openBook({ sheets: ['Sheet1', 'My keys'] });
    await book.run(async (context) => {
      const keys = context.workbook.worksheets.getItem('My keys');
      context.workbook.names.add('Rate', '=1.5', 'how much');
      context.workbook.names.add('Spot', keys.getRange('B2:C3'));
      keys.names.add('Spot', 'A1');
      const rate = context.workbook.names.getItem('rate').load('name,type,value,formula,comment,scope');
      const spot = context.workbook.names.getItem('Spot').load('formula,type,value');
      const range = context.workbook.names.getItem('Spot').getRange().load('address');
      const local = keys.names.getItem('Spot').load('scope,formula');
      const byName = keys.getRange('Spot').load('address');
      const none = context.workbook.names.getItem('Rate').getRangeOrNullObject();
      await context.sync();
      expect(rate.toJSON()).toMatchObject({
        name: 'Rate',
        type: 'Double',
        value: 1.5,
        comment: 'how much',
        scope: 'Workbook',
      });
      expect([spot.formula, spot.type, range.address]).toEqual([
        "='My keys'!$B$2:$C$3",
        'Range',
        "'My keys'!B2:C3",
      ]);
      expect([local.scope, byName.address, none.isNullObject]).toEqual(['Worksheet', "'My keys'!A1", true]);
    });
    for (const [code, name] of [
      ['ItemAlreadyExists', 'rate'],
      ['InvalidArgument', 'B7'],
    ] as const) {
      const got = await errorCode(() =>
        book.run(async (context) => {
          context.workbook.names.add(name, '=1');
          await context.sync();
        }),
      );
      expect(got).toBe(code);
    }
  });

  it('keeps settings as JSON', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const { settings } = context.workbook;
      settings.add('map', { a: [1, 'x'] });
      settings.add('gone', 1);
      settings.getItem('gone').delete();
      const map = settings.getItem('map').load('key,value');
      const none = settings.getItemOrNullObject('gone');
      const count = settings.getCount();
      await context.sync();
      expect([map.key, map.value]).toEqual(['map', { a: [1, 'x'] }]);
      expect([none.isNullObject, count.value]).toEqual([true, 1]);
    });
  });

  it('keeps custom XML parts by namespace', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const { customXmlParts } = context.workbook;
      const part = customXmlParts.add('<?xml version="1.0"?><k:data xmlns:k="urn:keys"><k:a/></k:data>');
      customXmlParts.add('<other xmlns="urn:other"/>');
      const only = customXmlParts
        .getByNamespace('urn:keys')
        .getOnlyItemOrNullObject()
        .load('id,namespaceUri');
      const none = customXmlParts.getByNamespace('urn:nothing').getOnlyItemOrNullObject();
      part.setXml('<k:data xmlns:k="urn:keys"/>');
      const xml = part.getXml();
      await context.sync();
      expect(only.namespaceUri).toBe('urn:keys');
      expect(xml.value).toBe('<k:data xmlns:k="urn:keys"/>');
      expect(none.isNullObject).toBe(true);
      part.delete();
      await context.sync();
    });
    expect(book.model.state.xmlParts).toHaveLength(1);
    const code = await errorCode(() =>
      book.run(async (context) => {
        context.workbook.customXmlParts.add('no xml');
        await context.sync();
      }),
    );
    expect(code).toBe('InvalidArgument');
  });

  it('has an application that calculates and suspends', async () => {
    const book = openBook();
    const calls: string[] = [];
    book.model.subscribe((change) => calls.push(change.kind));
    await book.run(async (context) => {
      const { application } = context.workbook;
      application.suspendScreenUpdatingUntilNextSync();
      application.suspendApiCalculationUntilNextSync();
      application.calculationMode = 'Manual';
      application.calculate('Full');
      application.load('calculationMode');
      await context.sync();
      expect(application.calculationMode).toBe('Manual');
    });
    expect(calls).toEqual(['calculate']);
  });

  it('waits for the calculation before it tells values', async () => {
    const book = openBook();
    book.model.engine = {
      settle: async () => {
        await new Promise((resolve) => setTimeout(resolve, 5));
        if (book.model.cell('Sheet1', 0, 0)?.formula) book.model.setResult('Sheet1', 0, 0, 42);
      },
    };
    await book.run(async (context) => {
      const range = context.workbook.worksheets.getItem('Sheet1').getRange('A1');
      range.formulas = [['=6*7']];
      range.load('values');
      await context.sync();
      expect(range.values).toEqual([[42]]);
    });
  });
});
