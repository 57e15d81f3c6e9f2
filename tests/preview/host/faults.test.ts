import { describe, expect, it } from 'vitest';
import { errorCode, openBook, type OpenBook } from '../../support/office.ts';

async function write(book: OpenBook, address: string, values: unknown[][]): Promise<void> {
  await book.run(async (context) => {
    context.workbook.worksheets.getItem('Sheet1').getRange(address).values = values;
    await context.sync();
  });
}

describe('protection', () => {
  it('refuses writes to locked cells and lets unlocked ones through', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.getRange('B1:B9').format.protection.locked = false;
      sheet.protection.protect({ allowFormatCells: true });
      sheet.protection.load('protected,options');
      await context.sync();
      expect(sheet.protection.protected).toBe(true);
      expect(sheet.protection.options).toMatchObject({ allowFormatCells: true, allowInsertRows: false });
    });
    expect(await errorCode(() => write(book, 'A1', [[1]]))).toBe('AccessDenied');
    expect(await errorCode(() => write(book, 'A1:B1', [[1, 2]]))).toBe('AccessDenied');
    await write(book, 'B1', [[2]]);
    expect(book.model.value('Sheet1', 0, 1)).toBe(2);
    expect(() => book.host.userEdit('Sheet1', 'A1', 1)).toThrow('protected');
  });

  it.each([
    ['format', (sheet: Excel.Worksheet) => (sheet.getRange('B1').format.font.bold = true)],
    ['insert rows', (sheet: Excel.Worksheet) => sheet.getRange('1:1').insert('Down')],
    ['add a table', (sheet: Excel.Worksheet) => sheet.tables.add('A1:B2', true)],
    ['widen a column', (sheet: Excel.Worksheet) => (sheet.getRange('A:A').format.columnWidth = 90)],
    ['unlock', (sheet: Excel.Worksheet) => (sheet.getRange('A1').format.protection.locked = false)],
    ['clear', (sheet: Excel.Worksheet) => sheet.getRange('A1').clear('Contents')],
  ])('refuses to %s', async (_, act) => {
    const book = openBook();
    const code = await errorCode(() =>
      book.run(async (context) => {
        const sheet = context.workbook.worksheets.getItem('Sheet1');
        sheet.protection.protect();
        act(sheet);
        await context.sync();
      }),
    );
    expect(code).toBe('AccessDenied');
  });

  it('cannot be doubled, and needs its password to go', async () => {
    const book = openBook();
    const act = (work: (protection: Excel.WorksheetProtection) => unknown): Promise<void> =>
      book.run(async (context) => {
        work(context.workbook.worksheets.getItem('Sheet1').protection);
        await context.sync();
      });
    await act((protection) => {
      protection.protect({}, 'open');
    });
    expect(await errorCode(() => act((protection) => protection.protect()))).toBe('InvalidOperation');
    expect(await errorCode(() => act((protection) => protection.unprotect('shut')))).toBe('AccessDenied');
    await act((protection) => {
      protection.unprotect('open');
    });
    expect(book.model.sheet('Sheet1').protection).toBeNull();
  });

  it('of the workbook keeps its sheets', async () => {
    const book = openBook();
    const code = await errorCode(() =>
      book.run(async (context) => {
        context.workbook.protection.protect();
        context.workbook.worksheets.add('New');
        await context.sync();
      }),
    );
    expect(code).toBe('AccessDenied');
  });
});

describe('limits', () => {
  it('refuses requests and answers that are too big', async () => {
    const book = openBook({}, { requestLimit: 10_000, responseLimit: 20_000 });
    const rows = Array.from({ length: 1000 }, (_, i) => [`some text ${String(i)}`]);
    expect(await errorCode(() => write(book, 'A1:A1000', rows))).toBe('RequestPayloadSizeLimitExceeded');
    expect(book.model.usedArea('Sheet1')).toBeNull();
    book.model.enterBlock('Sheet1', { row: 0, column: 0, rows: 1000, columns: 1 }, rows, 'file');
    const code = await errorCode(() =>
      book.run(async (context) => {
        context.workbook.worksheets.getItem('Sheet1').getRange('A1:C1000').load('values,formulas,text');
        await context.sync();
      }),
    );
    expect(code).toBe('ResponsePayloadSizeLimitExceeded');
  });

  it('reads nothing of whole columns and refuses more than five million cells', async () => {
    const book = openBook();
    await book.run(async (context) => {
      const column = context.workbook.worksheets.getItem('Sheet1').getRange('A:A').load('values,address');
      await context.sync();
      expect([column.values, column.address]).toEqual([null, 'Sheet1!A:A']);
    });
    const code = await errorCode(() =>
      book.run(async (context) => {
        context.workbook.worksheets.getItem('Sheet1').getRange('A1:Z200000').load('values');
        await context.sync();
      }),
    );
    expect(code).toBe('RangeExceedsLimit');
  });

  it('takes 50,000 cells in one write', async () => {
    const book = openBook();
    const rows = Array.from({ length: 5000 }, (_, i) => Array.from({ length: 10 }, (__, j) => i * 10 + j));
    await write(book, 'A1:J5000', rows);
    expect(book.model.value('Sheet1', 4999, 9)).toBe(49_999);
    // a quadratic host would need minutes and run into the test's time limit
  });
});

describe('faults', () => {
  it('fails a chosen request with a chosen code, before anything happens', async () => {
    const book = openBook();
    let writes = 0;
    book.host.intercept = (_, body) => {
      if (!body.Actions.some((action) => action.Name === 'Values')) return 'pass';
      return ++writes === 2 ? { error: 'GeneralException' } : 'pass';
    };
    await write(book, 'A1', [[1]]);
    expect(await errorCode(() => write(book, 'A2', [[2]]))).toBe('GeneralException');
    await write(book, 'A3', [[3]]);
    expect([0, 1, 2].map((row) => book.model.value('Sheet1', row, 0))).toEqual([1, null, 3]);
  });

  it('fails a request after some or all of its actions', async () => {
    const book = openBook();
    book.host.intercept = () => ({ error: 'GeneralException', afterActions: Infinity });
    expect(await errorCode(() => write(book, 'A1', [[1]]))).toBe('GeneralException');
    expect(book.model.value('Sheet1', 0, 0)).toBe(1);
  });

  it('loses an answer', async () => {
    const book = openBook();
    book.host.intercept = () => 'drop';
    const outcome = await Promise.race([
      write(book, 'A1', [[1]]).then(() => 'answered'),
      new Promise((resolve) => setTimeout(resolve, 50, 'silence')),
    ]);
    expect(outcome).toBe('silence');
    expect(book.model.value('Sheet1', 0, 0)).toBeNull();
  });

  it('delays an answer', async () => {
    const book = openBook();
    book.host.intercept = () => ({ delay: 60 });
    const start = performance.now();
    await write(book, 'A1', [[1]]);
    expect(performance.now() - start).toBeGreaterThanOrEqual(55);
  });

  it('refuses while a user types in a cell, or waits where the add-in asked to', async () => {
    const sets = { ExcelApi: '1.17', DelayForCellEdit: '1.1' };
    const book = openBook({}, { sets });
    book.host.setCellEditMode(true);
    expect(await errorCode(() => write(book, 'A1', [[1]]))).toBe('InvalidOperationInCellEditMode');
    const waiting = Excel.run({ delayForCellEdit: true }, async (context) => {
      context.workbook.worksheets.getItem('Sheet1').getRange('A1').values = [[2]];
      await context.sync();
    });
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(book.model.value('Sheet1', 0, 0)).toBeNull();
    book.host.setCellEditMode(false);
    await waiting;
    expect(book.model.value('Sheet1', 0, 0)).toBe(2);
  });
});

describe('undo', () => {
  it('takes back a request as one step', async () => {
    const book = openBook();
    book.model.enter('Sheet1', 0, 0, 'before', 'file');
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.getRange('A1:B2').values = [
        ['x', 'y'],
        [1, 2],
      ];
      sheet.getRange('A1:B2').format.fill.color = 'red';
      sheet.tables.add('A1:B2', true).name = 'T';
      context.workbook.names.add('N', '=1');
      context.workbook.settings.add('k', 1);
      sheet.getRange('1:1').insert('Down');
      await context.sync();
    });
    expect(book.model.undoStack.length).toBe(1);
    book.model.undo();
    expect(book.model.cell('Sheet1', 0, 0)).toEqual({ value: 'before' });
    expect(book.model.usedArea('Sheet1')).toEqual({ row: 0, column: 0, rows: 1, columns: 1 });
    expect([book.model.tables.length, book.model.names.length, book.model.state.settings.size]).toEqual([
      0, 0, 0,
    ]);
    expect(book.model.undo()).toBeNull();
  });

  it('takes back an undo group of several requests as one step', async () => {
    const book = openBook();
    const options = { mergeUndoGroup: true } as Excel.RunOptions;
    await Excel.run(options, async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      for (const row of ['A1', 'A2', 'A3']) {
        sheet.getRange(row).values = [[row]];
        await context.sync();
      }
    });
    expect(book.model.undoStack.length).toBe(1);
    book.model.undo();
    expect(book.model.usedArea('Sheet1')).toBeNull();
  });

  it('keeps user edits and requests apart, and tells views what went back', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'A1', 1);
    await write(book, 'A2', [[2]]);
    const changes: string[] = [];
    book.model.subscribe((change) => changes.push(change.kind));
    book.model.undo();
    expect([book.model.value('Sheet1', 0, 0), book.model.value('Sheet1', 1, 0)]).toEqual([1, null]);
    expect(changes).toEqual(['cells']);
    book.model.undo();
    expect(book.model.value('Sheet1', 0, 0)).toBeNull();
  });

  it('ends at a deleted sheet', async () => {
    const book = openBook({ sheets: ['Sheet1', 'Other'] });
    await write(book, 'A1', [[1]]);
    await book.run(async (context) => {
      context.workbook.worksheets.getItem('Other').delete();
      await context.sync();
    });
    expect(book.model.undo()).toBeNull();
    expect(book.model.value('Sheet1', 0, 0)).toBe(1);
  });
});
