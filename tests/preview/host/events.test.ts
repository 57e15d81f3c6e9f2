import { describe, expect, it } from 'vitest';
import { openBook, type OpenBook } from '../../support/office.ts';

/** Registers handlers that write down what they hear. */
async function listen(
  book: OpenBook,
  add: (context: Excel.RequestContext, hear: (args: unknown) => Promise<void>) => void,
): Promise<Record<string, unknown>[]> {
  const heard: Record<string, unknown>[] = [];
  await book.run(async (context) => {
    add(context, (args) => {
      heard.push({ ...(args as Record<string, unknown>) });
      return Promise.resolve();
    });
    await context.sync();
  });
  return heard;
}

describe('events', () => {
  it('tell a single cell before and after, and who did it', async () => {
    const book = openBook();
    book.model.enter('Sheet1', 0, 0, 'old', 'file');
    const heard = await listen(book, (context, hear) => {
      context.workbook.worksheets.getItem('Sheet1').onChanged.add(hear);
    });
    book.host.userEdit('Sheet1', 'A1', 'new');
    expect(heard).toHaveLength(0);
    await book.settled();
    expect(heard).toHaveLength(1);
    expect(heard[0]).toMatchObject({
      type: 'WorksheetChanged',
      changeType: 'RangeEdited',
      address: 'A1',
      source: 'Local',
      triggerSource: 'Unknown',
      worksheetId: book.model.sheet('Sheet1').id,
      details: { valueBefore: 'old', valueAfter: 'new', valueTypeBefore: 'String', valueTypeAfter: 'String' },
    });
  });

  it('mark what the add-in itself did', async () => {
    const book = openBook();
    const heard = await listen(book, (context, hear) => {
      context.workbook.worksheets.getItem('Sheet1').onChanged.add(hear);
    });
    await book.run(async (context) => {
      context.workbook.worksheets.getItem('Sheet1').getRange('B2:C3').values = [
        [1, 2],
        [3, 4],
      ];
      await context.sync();
    });
    await book.settled();
    expect(heard).toHaveLength(1);
    expect(heard[0]).toMatchObject({ address: 'B2:C3', triggerSource: 'ThisLocalAddin' });
    expect(heard[0]?.['details']).toBeUndefined();
  });

  it('come after the answer to the request that caused them', async () => {
    const book = openBook();
    const order: string[] = [];
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.onChanged.add(() => {
        order.push('event');
        return Promise.resolve();
      });
      await context.sync();
      sheet.getRange('A1').values = [[1]];
      await context.sync();
      order.push('answer');
    });
    await book.settled();
    expect(order).toEqual(['answer', 'event']);
  });

  it('reach the collection and the table as well as the sheet', async () => {
    const book = openBook({ sheets: ['Sheet1', 'Other'] });
    book.model.enterBlock(
      'Other',
      { row: 0, column: 0, rows: 2, columns: 2 },
      [
        ['x', 'y'],
        [1, 2],
      ],
      'file',
    );
    const table = book.model.addTable('Other', { row: 0, column: 0, rows: 2, columns: 2 }, true, 'file');
    const heard = await listen(book, (context, hear) => {
      context.workbook.worksheets.onChanged.add(hear);
      context.workbook.tables.getItem(table.name).onChanged.add(hear);
      context.workbook.worksheets.getItem('Sheet1').onChanged.add(hear);
    });
    book.host.userEdit('Other', 'B2:C2', [[9, 9]]);
    await book.settled();
    expect(heard.map((event) => [event['type'], event['address']])).toEqual([
      ['WorksheetChanged', 'B2:C2'],
      ['TableChanged', 'B2'],
    ]);
    expect(heard[1]?.['tableId']).toBe(table.id);
  });

  it('tell inserted and deleted rows', async () => {
    const book = openBook();
    const heard = await listen(book, (context, hear) => {
      context.workbook.worksheets.getItem('Sheet1').onChanged.add(hear);
    });
    book.model.insertRows('Sheet1', 1, 2, 'user');
    book.model.deleteCells('Sheet1', { row: 0, column: 0, rows: 1, columns: 1 }, 'up', 'user');
    await book.settled();
    expect(heard.map((event) => [event['changeType'], event['address']])).toEqual([
      ['RowInserted', '2:3'],
      ['CellDeleted', 'A1'],
    ]);
    expect(heard[1]?.['changeDirectionState']).toMatchObject({ deleteShiftDirection: 'Up' });
  });

  it('stay silent about the calculation, but for onCalculated', async () => {
    const book = openBook();
    book.model.enter('Sheet1', 0, 0, '=1', 'file');
    const changed = await listen(book, (context, hear) => {
      context.workbook.worksheets.getItem('Sheet1').onChanged.add(hear);
    });
    const calculated = await listen(book, (context, hear) => {
      context.workbook.worksheets.getItem('Sheet1').onCalculated.add(hear);
    });
    book.model.setResult('Sheet1', 0, 0, 1);
    await book.settled();
    expect([changed.length, calculated.length]).toEqual([0, 1]);
  });

  it('tell selections of sheet, collection, workbook and table', async () => {
    const book = openBook();
    book.model.enterBlock('Sheet1', { row: 0, column: 0, rows: 2, columns: 1 }, [['x'], [1]], 'file');
    book.model.addTable('Sheet1', { row: 0, column: 0, rows: 2, columns: 1 }, true, 'file', 'T');
    const heard = await listen(book, (context, hear) => {
      context.workbook.onSelectionChanged.add((args) => hear({ type: 'Workbook', has: 'workbook' in args }));
      context.workbook.worksheets.onSelectionChanged.add(hear);
      context.workbook.worksheets.getItem('Sheet1').onSelectionChanged.add(hear);
      context.workbook.tables.getItem('T').onSelectionChanged.add(hear);
    });
    book.host.userSelect('Sheet1', 'A2:B3');
    await book.settled();
    expect(heard.map((event) => [event['type'], event['address']])).toEqual([
      ['Workbook', undefined],
      ['WorksheetSelectionChanged', 'A2:B3'],
      ['WorksheetSelectionChanged', 'A2:B3'],
      ['TableSelectionChanged', 'A2'],
    ]);
  });

  it('tell sheets coming, going, renamed, moved, hidden and activated', async () => {
    const book = openBook({ sheets: ['One', 'Two'] }, { sets: { ExcelApi: '1.17', ExcelApiOnline: '1.1' } });
    const heard = await listen(book, (context, hear) => {
      const { worksheets } = context.workbook;
      worksheets.onAdded.add(hear);
      worksheets.onDeleted.add(hear);
      worksheets.onNameChanged.add(hear);
      worksheets.onMoved.add(hear);
      worksheets.onVisibilityChanged.add(hear);
      worksheets.onActivated.add(hear);
      worksheets.onDeactivated.add(hear);
    });
    const two = book.model.sheet('Two').id;
    book.model.addSheet('Three', 'user');
    book.model.renameSheet('Two', 'Second', 'user');
    book.model.moveSheet('Second', 0, 'user');
    book.model.activate('Three', 'user');
    book.model.showSheet('One', 'hidden', 'user');
    await book.settled();
    book.model.removeSheet('Second', 'user');
    await book.settled();
    expect(heard.map((event) => event['type'])).toEqual([
      'WorksheetAdded',
      'WorksheetNameChanged',
      'WorksheetMoved',
      'WorksheetDeactivated',
      'WorksheetActivated',
      'WorksheetVisibilityChanged',
      'WorksheetDeleted',
    ]);
    expect(heard[1]).toMatchObject({ nameBefore: 'Two', nameAfter: 'Second', worksheetId: two });
    expect(heard[2]).toMatchObject({ positionBefore: 1, positionAfter: 0 });
  });

  it('tell tables coming and going', async () => {
    const book = openBook();
    const heard = await listen(book, (context, hear) => {
      context.workbook.tables.onAdded.add(hear);
      context.workbook.tables.onDeleted.add(hear);
    });
    book.model.addTable('Sheet1', { row: 0, column: 0, rows: 2, columns: 1 }, true, 'user', 'T');
    await book.settled();
    book.model.removeTable('T', false, 'user');
    await book.settled();
    expect(heard.map((event) => event['type'])).toEqual(['TableAdded', 'TableDeleted']);
    expect(heard[1]?.['tableName']).toBe('T');
  });

  it('end when the handler is removed, and while events are off', async () => {
    const book = openBook();
    const heard: unknown[] = [];
    let added: OfficeExtension.EventHandlerResult<Excel.WorksheetChangedEventArgs> | null = null;
    await book.run(async (context) => {
      added = context.workbook.worksheets.getItem('Sheet1').onChanged.add((args) => {
        heard.push(args.address);
        return Promise.resolve();
      });
      await context.sync();
      context.runtime.enableEvents = false;
      await context.sync();
    });
    book.host.userEdit('Sheet1', 'A1', 1);
    await book.settled();
    expect(heard).toEqual([]);
    await book.run(async (context) => {
      context.runtime.enableEvents = true;
      await context.sync();
    });
    book.host.userEdit('Sheet1', 'A2', 1);
    await book.settled();
    expect(heard).toEqual(['A2']);
    const result = added as unknown as OfficeExtension.EventHandlerResult<Excel.WorksheetChangedEventArgs>;
    await Excel.run(result.context, async (context) => {
      result.remove();
      await context.sync();
    });
    expect(book.host.registrations.size).toBe(0);
    book.host.userEdit('Sheet1', 'A3', 1);
    await book.settled();
    expect(heard).toEqual(['A2']);
  });
});
