/**
 * Small plans put back after a failure, and undone: what was there stands again, what somebody else did meanwhile is
 * kept and named, and what can't be put back is told.
 */
import { describe, expect, it } from 'vitest';
import { applyPlan, undoPlan } from '../../src/workbook/apply.ts';
import { sameCells } from '../../src/workbook/check.ts';
import { asBefore, NotAsWritten, reasonOf, Renamed } from '../../src/workbook/takeBack.ts';
import { removeSheet, removeUnconfirmed } from '../../src/workbook/takeBackSheets.ts';
import { Trace } from '../../src/workbook/takeBackTrace.ts';
import { ProgrammerError } from '../../src/keying/result.ts';
import type { Remembered } from '../../src/workbook/outcome.ts';
import type { ApplyOutcome, ApplyProgress, Conflict, PlanStep } from '../../src/workbook/index.ts';
import { openBook, type OpenBook } from '../support/office.ts';
import { at, undoOf } from './book.ts';
import { deepPicture, notesLeft } from './deepPicture.ts';
import { block, box, png, reasons, tiny } from './tiny.ts';

/** Calls back before the request that writes into a cell whose text is this one, once. */
function before(
  book: OpenBook,
  text: string,
  act: () => 'pass' | { error: string; afterActions?: number },
): void {
  let done = false;
  book.host.intercept = (_, body) => {
    if (done || !JSON.stringify(body).includes(`"${text}"`)) return 'pass';
    done = true;
    return act();
  };
}
const refuse = { error: 'GeneralException' } as const;
const BROKEN = 'Excel reported an internal error. Try again; if it stays, save, close and reopen the book.';
const kept = (outcome: ApplyOutcome) => (outcome.outcome === 'rolled-back' ? outcome.kept : undefined);
const names = ({ model }: OpenBook) => model.sheets.map(({ name }) => name);

describe('a write that fails', () => {
  it('leaves every kind of cell as it was, its format too', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'A1', [
      ['#N/A'],
      ["'#N/A"],
      ['=1+1'],
      ["'007"],
      [12],
      [true],
      ['text'],
      [''],
    ]);
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      // a number and a formula may stand in a cell of text format
      sheet.getRange('A3').numberFormat = [['@']];
      sheet.getRange('A5').numberFormat = [['@']];
      sheet.getRange('A7').numberFormat = [['0.00']];
      await context.sync();
    });
    const was = deepPicture(book.model);
    const cells = ['A1', 'A2', 'A3', 'A4', 'A5', 'A6', 'A7', 'A8'];
    const held = await book.run(async (context) => {
      const range = context.workbook.worksheets.getItem('Sheet1').getRange('A1:A8');
      range.load('formulas');
      await context.sync();
      return range.formulas as (string | number | boolean)[][];
    });
    before(book, 'second', () => refuse);
    const outcome = await applyPlan(
      tiny(
        block(
          cells.map((cell) => [`new ${cell}`]),
          { expected: held },
        ),
        block([['second']], { column: 3 }),
      ),
    );
    book.host.intercept = null;
    expect(outcome).toMatchObject({
      outcome: 'rolled-back',
      stopped: false,
      sentence: `${BROKEN} The workbook is as it was before.`,
    });
    expect(kept(outcome)).toBeUndefined();
    expect(deepPicture(book.model)).toEqual(was);
    expect(notesLeft(book.model)).toEqual([]);
  });

  it('keeps what somebody typed over it meanwhile, and says what was there before', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'B2', [
      ['old', 'stays'],
      ['put', ''],
    ]);
    before(book, 'second', () => {
      book.host.userEdit('Sheet1', 'B2', 'theirs');
      book.host.userEdit('Sheet1', 'C3', 'too');
      return refuse;
    });
    const outcome = await applyPlan(
      tiny(
        block([['a', 'b'], ['c', 'd']], { row: 1, column: 1, expected: [['old', 'stays'], ['put', '']] }),
        block([['second']], { row: 8 }),
      ),
    ); // prettier-ignore
    book.host.intercept = null;
    expect(kept(outcome)).toEqual([
      {
        at: { sheet: 'Sheet1', address: 'B2' },
        holds: 'theirs',
        sentence: 'This cell was changed meanwhile and is left as it is. Before, it held “old”.',
      },
      {
        at: { sheet: 'Sheet1', address: 'C3' },
        holds: 'too',
        sentence: 'This cell was changed meanwhile and is left as it is. Before, it was empty.',
      },
    ]);
    expect(outcome.sentence).toBe(
      `${BROKEN} The workbook is as it was before, except for what was changed meanwhile at Sheet1!B2, Sheet1!C3: that was left alone. Check it.`,
    );
    const now = ['B2', 'C2', 'B3', 'C3', 'A9'].map((cell) => at(book.model, 'Sheet1', cell));
    expect(now).toEqual(['theirs', 'stays', 'put', 'too', null]);
  });

  it('touches nothing that was not begun, whoever changed it', async () => {
    const book = openBook();
    before(book, 'second', () => {
      book.host.userEdit('Sheet1', 'D1', 'theirs');
      return { ...refuse, afterActions: 0 };
    });
    const outcome = await applyPlan(
      tiny(block([['first']]), block([['second']], { row: 2 }), block([['third']], { column: 3 })),
    );
    book.host.intercept = null;
    expect(kept(outcome)).toBeUndefined();
    expect([at(book.model, 'Sheet1', 'A1'), at(book.model, 'Sheet1', 'A3')]).toEqual([null, null]);
    expect(at(book.model, 'Sheet1', 'D1')).toBe('theirs');
  });

  it('takes its own sheet away, but not one that somebody typed on', async () => {
    const book = openBook();
    const steps: PlanStep[] = [
      { kind: 'add-sheet', sheet: 'New' },
      block([['ours']], { sheet: 'New' }),
      block([['second']], { row: 8 }),
    ];
    before(book, 'second', () => refuse);
    expect((await applyPlan(tiny(...steps))).outcome).toBe('rolled-back');
    expect(names(book)).toEqual(['Sheet1']);
    before(book, 'second', () => {
      book.host.userEdit('New', 'C3', 'note');
      return refuse;
    });
    const outcome = await applyPlan(tiny(...steps));
    book.host.intercept = null;
    expect(names(book)).toEqual(['Sheet1', 'New']);
    expect(kept(outcome)).toEqual([
      {
        at: { sheet: 'New', address: 'C3' },
        holds: 'note',
        sentence:
          'This cell was filled or changed meanwhile, so the sheet is kept. Move it, then delete the sheet.',
      },
    ]);
  });

  it('shrinks a table again that it grew, and empties what the table filled by itself', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'A1', [
      ['Key', 'Twice'],
      ['a', 'x'],
    ]);
    await book.run(async (context) => {
      context.workbook.tables.add('Sheet1!A1:B2', true).name = 'Shop';
      await context.sync();
    });
    const was = deepPicture(book.model);
    before(book, 'second', () => refuse);
    const outcome = await applyPlan(
      tiny(
        block([['b']], { row: 2 }),
        { kind: 'resize-table', name: 'Shop', from: box(0, 0, 2, 2), to: box(0, 0, 3, 2) },
        block([['second']], { row: 2, column: 1 }),
      ),
    );
    book.host.intercept = null;
    expect(outcome.outcome).toBe('rolled-back');
    expect(deepPicture(book.model)).toEqual(was);
  });

  it('shows the old foot of a report again', async () => {
    const book = openBook();
    const foot = (right: string) => ({ left: 'Doors', right });
    before(book, 'second', () => refuse);
    await applyPlan(
      tiny({ kind: 'foot', sheet: 'Sheet1', foot: foot('B'), before: foot('A') }, block([['second']])),
    );
    book.host.intercept = null;
    const page = () => book.model.sheet('Sheet1').layout.page.headersFooters['rightFooter'];
    expect(page()).toBe('A');
    // one that was not begun is left as it is
    before(book, 'second', () => refuse);
    await applyPlan(
      tiny(block([['second']]), { kind: 'foot', sheet: 'Sheet1', foot: foot('D'), before: foot('C') }),
    );
    expect(page()).toBe('A');
  });

  it('tells which of the shop’s sheets was deleted meanwhile', async () => {
    const book = openBook();
    for (const name of ['Doors', 'Rooms', 'Keys']) book.model.addSheet(name, 'user');
    const steps = ['Doors', 'Rooms', 'Keys'].map((sheet) => block([[`in ${sheet}`]], { sheet }));
    const fail = (...gone: string[]) =>
      before(book, 'last', () => {
        for (const name of gone) book.model.removeSheet(name, 'user');
        return refuse;
      });
    fail('Doors');
    const one = await applyPlan(tiny(...steps, block([['last']], { row: 9 })));
    expect(one.sentence).toBe(
      `${BROKEN} The workbook is as it was before. Check what is missing: Doors was deleted meanwhile. An earlier version of the file has it.`,
    );
    expect(kept(one)).toEqual([
      {
        sentence:
          'The sheet Doors was deleted meanwhile, so nothing could be put back there. An earlier version of the file has it.',
      },
    ]);
    expect(at(book.model, 'Rooms', 'A1')).toBeNull();
    // a sheet that the plan had not come to is no matter, nor one of its own
    fail('Rooms', 'Keys', 'New');
    const two = await applyPlan(
      tiny(
        { kind: 'add-sheet', sheet: 'New' },
        block([['x']], { sheet: 'Rooms' }),
        block([['last']], { row: 9 }),
        block([['y']], { sheet: 'Keys' }),
      ),
    );
    expect(two.sentence).toContain('Check what is missing: Rooms was deleted meanwhile.');
    for (const name of ['Doors', 'Rooms']) book.model.addSheet(name, 'user');
    fail('Doors', 'Rooms');
    const three = await applyPlan(tiny(...steps.slice(0, 2), block([['last']], { row: 9 })));
    book.host.intercept = null;
    expect(three.sentence).toContain(
      'Check what is missing: Doors, Rooms were deleted meanwhile. An earlier version of the file has them.',
    );
  });

  it('that can’t be put back in three tries names the places, and leaves its note', async () => {
    const broken = async (...steps: readonly PlanStep[]) => {
      const book = openBook();
      let tries = 0;
      before(book, 'last', () => {
        book.host.intercept = (_, body) => {
          // each try begins by asking what the sheets are called
          if (!JSON.stringify(body).includes('"Worksheets"')) return 'pass';
          tries++;
          return { error: 'AccessDenied' };
        };
        return refuse;
      });
      const outcome = await applyPlan(tiny(...steps, block([['last']], { row: 20 })));
      book.host.intercept = null;
      return { outcome, tries, notes: notesLeft(book.model).length };
    };
    const locked = 'The sheet or the workbook is protected. Take the protection off and try again.';
    const { outcome, tries, notes } = await broken(block([['a', 'b']]));
    expect(outcome).toEqual({
      outcome: 'broken',
      places: [box(0, 0, 1, 2), box(20, 0, 1, 1)],
      sentence: `${BROKEN} Taking it back failed too: ${locked} Check Sheet1!A1:B1, Sheet1!A21, or close the workbook without saving.`,
    });
    expect([tries, notes]).toEqual([3, 1]);
    const many = await broken(...[0, 1, 2, 3].map((row) => block([[`${row}`]], { row })));
    expect(many.outcome.sentence).toMatch(
      /Check Sheet1!A1, Sheet1!A2, Sheet1!A3, Sheet1!A4, Sheet1!A21, or close/,
    );
    const more = await broken(...[0, 1, 2, 3, 4, 5].map((row) => block([[`${row}`]], { row })));
    expect(more.outcome.sentence).toMatch(
      /Check Sheet1!A1, Sheet1!A2, Sheet1!A3, Sheet1!A4, Sheet1!A5 and 2 more places, or close/,
    );
  });

  it('of a sheet alone that can’t be taken back has no place to name', async () => {
    const book = openBook();
    before(book, 'KeyrowNew', () => {
      book.host.intercept = () => refuse;
      return refuse;
    });
    const outcome = await applyPlan(
      tiny(
        { kind: 'add-sheet', sheet: 'New' },
        { kind: 'add-table', name: 'KeyrowNew', box: box(0, 0, 2, 1, 'New') },
      ),
    );
    book.host.intercept = null;
    expect(outcome).toEqual({
      outcome: 'broken',
      places: [],
      sentence: `${BROKEN} Taking it back failed too: ${BROKEN} Close the workbook without saving.`,
    });
  });

  it('takes an empty sheet of its own away', async () => {
    const book = openBook();
    before(book, 'KeyrowNew', () => refuse);
    const outcome = await applyPlan(
      tiny(
        { kind: 'add-sheet', sheet: 'New' },
        { kind: 'add-table', name: 'KeyrowNew', box: box(0, 0, 2, 1, 'New') },
      ),
    );
    expect(outcome.outcome).toBe('rolled-back');
    expect(names(book)).toEqual(['Sheet1']);
  });

  it('takes nothing for its own that it had not written there', async () => {
    const book = openBook();
    const steps: PlanStep[] = [
      { kind: 'add-sheet', sheet: 'One' },
      { kind: 'add-sheet', sheet: 'Two' },
      block([['x']], { sheet: 'One', row: 1, column: 2 }),
      block([['second']], { row: 8 }),
      block([['third']], { sheet: 'One', column: 3 }),
    ];
    const typed = async (sheet: string, cell: string, text: string) => {
      before(book, 'second', () => {
        book.host.userEdit(sheet, cell, text);
        return refuse;
      });
      const outcome = await applyPlan(tiny(...steps));
      book.host.intercept = null;
      const left = names(book).slice(1);
      for (const name of left) book.model.removeSheet(name, 'user');
      return { left, at: kept(outcome)?.map(({ at: place }) => `${place!.sheet}!${place!.address}`) };
    };
    // the text of the first block, at its place, on the other sheet; and the text of a block that was not begun
    expect(await typed('Two', 'C2', 'x')).toEqual({ left: ['Two'], at: ['Two!C2'] });
    expect(await typed('One', 'D1', 'third')).toEqual({ left: ['One'], at: ['One!D1'] });
    expect(await typed('One', 'C2', 'y')).toEqual({ left: ['One'], at: ['One!C2'] });
    expect(await typed('One', 'C2', 'x')).toEqual({ left: [], at: undefined });
  });

  it('gives a cell its format back that holds the same text as before', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'A1', [
      ['same', 'other'],
      ['same', 'b'],
    ]);
    const was = deepPicture(book.model);
    before(book, 'second', () => refuse);
    await applyPlan(
      tiny(
        block([['same', 'other'], ['same', 'b']], { expected: [['same', 'other'], ['same', 'b']] }),
        block([['second']], { row: 8 }),
      ),
    ); // prettier-ignore
    book.host.intercept = null;
    expect(deepPicture(book.model)).toEqual(was);
  });

  it('looks whether it all stands again, and tries once more where somebody typed meanwhile', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'A1', 'old');
    before(book, 'second', () => {
      let restored = false;
      book.host.intercept = (_, body) => {
        if (restored) {
          book.host.intercept = null;
          book.host.userEdit('Sheet1', 'A1', 'theirs');
        }
        restored = JSON.stringify(body).includes('"old"') || JSON.stringify(body).includes('"\'old"');
        return 'pass';
      };
      return refuse;
    });
    const outcome = await applyPlan(
      tiny(block([['a']], { expected: [['old']] }), block([['second']], { row: 8 })),
    );
    expect(kept(outcome)).toMatchObject([{ at: { address: 'A1' }, holds: 'theirs' }]);
    expect(at(book.model, 'Sheet1', 'A1')).toBe('theirs');
  });

  it('gives up where somebody types wherever it puts something back', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'A1', [['old', 'old', 'old', 'old']]);
    before(book, 'second', () => {
      const cells = ['A1', 'B1', 'C1'];
      let restored = false;
      book.host.intercept = (_, body) => {
        if (restored && cells.length > 0) book.host.userEdit('Sheet1', cells.shift()!, 'theirs');
        restored = JSON.stringify(body).includes('"old"') || JSON.stringify(body).includes('"\'old"');
        return 'pass';
      };
      return refuse;
    });
    const outcome = await applyPlan(
      tiny(
        block([['a', 'b', 'c', 'd']], { expected: [['old', 'old', 'old', 'old']] }),
        block([['second']], { row: 8 }),
      ),
    );
    book.host.intercept = null;
    expect(outcome.outcome).toBe('broken');
    expect(outcome.sentence).toContain(
      'Taking it back failed too: What was written at Sheet1!A1:D1 reads otherwise by now. Check Sheet1!A1:D1, Sheet1!A9,',
    );
    const held = ['A1', 'B1', 'C1', 'D1'].map((cell) => at(book.model, 'Sheet1', cell));
    expect(held).toEqual(['theirs', 'theirs', 'theirs', 'old']);
  });

  it('suspects no sheet that was there before of being its own', async () => {
    const book = openBook();
    book.model.addSheet('Doors', 'user');
    before(book, 'New', () => ({ ...refuse, afterActions: 0 }));
    const outcome = await applyPlan(tiny({ kind: 'add-sheet', sheet: 'New' }));
    book.host.intercept = null;
    expect(outcome).toMatchObject({
      outcome: 'rolled-back',
      sentence: `${BROKEN} The workbook is as it was before.`,
    });
    expect(names(book)).toEqual(['Sheet1', 'Doors']);
  });

  it('makes a table as narrow again as it was', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'A1', [['Key'], ['a']]);
    await book.run(async (context) => {
      context.workbook.tables.add('Sheet1!A1:A2', true).name = 'Shop';
      await context.sync();
    });
    const was = deepPicture(book.model);
    before(book, 'second', () => refuse);
    await applyPlan(
      tiny(
        block([['Note']], { column: 1 }),
        { kind: 'resize-table', name: 'Shop', from: box(0, 0, 2, 1), to: box(0, 0, 2, 2) },
        block([['second']], { row: 9 }),
      ),
    );
    book.host.intercept = null;
    expect(deepPicture(book.model)).toEqual(was);
  });

  it('has no picture to take back that it had not come to', async () => {
    const book = openBook();
    const picture: PlanStep = { kind: 'picture', sheet: 'Sheet1', row: 3, column: 0, name: 'Keyrow P', alt: '', base64: png(2), width: 9, height: 9, rowHeight: 40 }; // prettier-ignore
    const fail = async (...steps: readonly PlanStep[]) => {
      before(book, 'second', () => refuse);
      const { outcome } = await applyPlan(tiny(...steps));
      book.host.intercept = null;
      return [outcome, book.model.sheet('Sheet1').layout.pictures.length, names(book).length];
    };
    expect(await fail(block([['second']]), picture)).toEqual(['rolled-back', 0, 1]);
    expect(await fail(picture, block([['second']]))).toEqual(['rolled-back', 0, 1]);
    // on a sheet of its own it goes with that
    const add: PlanStep = { kind: 'add-sheet', sheet: 'New' };
    expect(await fail(add, { ...picture, sheet: 'New' }, block([['second']]))).toEqual(['rolled-back', 0, 1]);
    expect(await fail(add, block([['second']]), { ...picture, sheet: 'New' })).toEqual(['rolled-back', 0, 1]);
  });

  it('that is stopped says so', async () => {
    const book = openBook();
    const stop = new AbortController();
    before(book, 'first', () => {
      stop.abort();
      return 'pass';
    });
    const outcome = await applyPlan(tiny(block([['first']]), block([['second']], { row: 3 })), {
      signal: stop.signal,
    });
    expect(outcome).toMatchObject({
      outcome: 'rolled-back',
      stopped: true,
      sentence: 'Stopped. The workbook is as it was before.',
    });
    expect(at(book.model, 'Sheet1', 'A1')).toBeNull();
    const early = await applyPlan(tiny(block([['first']])), { signal: stop.signal });
    expect(early).toEqual({
      outcome: 'rolled-back',
      sentence: 'Stopped; nothing was written.',
      stopped: true,
    });
    expect(notesLeft(book.model)).toEqual([]);
  });

  it('reads otherwise than it was written', async () => {
    const book = openBook();
    const steps = [0, 1, 2, 3].map((row) => block([[`cell ${row}`]], { row }));
    before(book, 'cell 3', () => {
      for (const cell of ['A1', 'A2', 'A3']) book.host.userEdit('Sheet1', cell, 'theirs');
      return 'pass';
    });
    const outcome = await applyPlan(tiny(...steps));
    expect(outcome.sentence).toContain(
      'What was written at Sheet1!A1, Sheet1!A2, Sheet1!A3 reads otherwise by now. The workbook is as it was before, except for what was changed meanwhile at Sheet1!A3, Sheet1!A2, Sheet1!A1: that was left alone. Check it.',
    );
    expect(['A1', 'A4'].map((cell) => at(book.model, 'Sheet1', cell))).toEqual(['theirs', null]);
  });

  it('finds the sheet that it wrote on renamed', async () => {
    const book = openBook();
    before(book, 'second', () => {
      book.model.renameSheet('Sheet1', 'Mine', 'user');
      return 'pass';
    });
    const outcome = await applyPlan(tiny(block([['first']]), block([['second']], { row: 3 })));
    expect(outcome.sentence).toBe(
      'The sheet Sheet1 was renamed while it was being written. Read the book again, then try once more. The workbook is as it was before.',
    );
    expect(at(book.model, 'Mine', 'A1')).toBeNull();
  });
});

describe('an undo', () => {
  it('lists the cells that were changed since, and changes none', async () => {
    const book = openBook();
    const undo = undoOf(await applyPlan(tiny(block([['a', 'b']]), block([['c']], { row: 4 }))));
    book.host.userEdit('Sheet1', 'B1', 'theirs');
    const outcome = await undoPlan(undo);
    expect(outcome).toEqual({
      outcome: 'refused',
      sentence: 'Nothing was taken back: cells were changed since. See the list.',
      reasons: [
        {
          at: { sheet: 'Sheet1', address: 'B1' },
          holds: 'theirs',
          sentence: 'This cell was changed since, so it is not taken back.',
        },
      ],
    });
    expect(at(book.model, 'Sheet1', 'A5')).toBe('c');
    book.host.userEdit('Sheet1', 'B1', 'b');
    expect((await undoPlan(undo)).outcome).toBe('done');
    expect(['A1', 'B1', 'A5'].map((cell) => at(book.model, 'Sheet1', cell))).toEqual([null, null, null]);
  });

  it('lists everything on an added sheet that isn’t the plan’s, each once', async () => {
    const book = openBook();
    const undo = undoOf(
      await applyPlan(
        tiny(
          { kind: 'add-sheet', sheet: 'New' },
          block([['Key'], ['a']], { sheet: 'New' }),
          { kind: 'add-table', name: 'KeyrowNew', box: box(0, 0, 2, 1, 'New') },
          block([['beside']], { column: 6 }),
        ),
      ),
    );
    book.host.userEdit('New', 'A2', 'changed');
    book.host.userEdit('New', 'D4', [['Shop'], ['x']]);
    await book.run(async (context) => {
      context.workbook.tables.add('New!D4:D5', true).name = 'Shop';
      await context.sync();
    });
    book.model.setLayout('New', { charts: [{ id: 'G1', name: 'A chart', series: [] }] }, 'user');
    await book.run(async (context) => {
      context.workbook.worksheets.getItem('New').shapes.addImage(png(2)).name = 'Mine';
      await context.sync();
    });
    const outcome = await undoPlan(undo);
    const keptSheet = 'so the sheet is kept. Move it, then delete the sheet.';
    expect(outcome.sentence).toBe('Nothing was taken back: cells were changed since. See the list.');
    expect(reasons(outcome)).toEqual([
      'This cell was changed since, so it is not taken back.',
      `The table Shop on New isn’t ours, ${keptSheet}`,
      `This cell was filled or changed meanwhile, ${keptSheet}`,
      `This cell was filled or changed meanwhile, ${keptSheet}`,
      '“Mine” was put on the sheet New since; taking the sheet away would lose it. Move it first.',
      `There is a chart on New, ${keptSheet}`,
    ]);
    // a cell at the same place on another sheet is none of them
    book.host.userEdit('Sheet1', 'D4', 'x');
    expect(reasons(await undoPlan(undo))).toHaveLength(6);
    // nor is a cell of this sheet one of ours because of what was written at its place on another
    book.host.userEdit('New', 'G1', 'beside');
    expect(reasons(await undoPlan(undo))).toHaveLength(7);
  });

  it('says once what stands in its way twice', async () => {
    const book = openBook();
    const undo = undoOf(
      await applyPlan(tiny({ kind: 'add-sheet', sheet: 'New' }, block([['a']], { sheet: 'New' }))),
    );
    const rule = (id: string) => ({
      id,
      areas: [{ row: 0, column: 0, rows: 9, columns: 1 }],
      rule: { kind: 'custom' as const, formula: '=A1=New!$A$1' },
      style: {},
      priority: 0,
      stopIfTrue: false,
    });
    book.model.setLayout('Sheet1', { conditionalFormats: [rule('C1'), rule('C2')] }, 'user');
    expect(reasons(await undoPlan(undo))).toEqual([
      'A conditional format on Sheet1 refers to a sheet that would be taken away. Change or delete it first.',
    ]);
    // but of two cells that refer to it each
    book.model.setLayout('Sheet1', { conditionalFormats: [] }, 'user');
    book.host.userEdit('Sheet1', 'C3', [['=New!A1', '=New!A1']]);
    expect(reasons(await undoPlan(undo))).toHaveLength(2);
  });

  it('needs the sheets and tables that it wrote to', async () => {
    const book = openBook();
    book.model.addSheet('Doors', 'user');
    book.host.userEdit('Doors', 'A1', [['Key'], ['a']]);
    await book.run(async (context) => {
      context.workbook.tables.add('Doors!A1:A2', true).name = 'Shop';
      await context.sync();
    });
    const grow: PlanStep = { kind: 'resize-table', name: 'Shop', from: box(0, 0, 2, 1, 'Doors'), to: box(0, 0, 3, 1, 'Doors') }; // prettier-ignore
    const undo = undoOf(
      await applyPlan(tiny(block([['b']], { sheet: 'Doors', row: 2 }), grow, block([['c']]))),
    );
    book.model.protect('Doors', { options: {} }, 'user');
    expect(reasons(await undoPlan(undo))).toEqual([
      'The sheet Doors is protected: take the protection off first.',
    ]);
    book.model.protect('Doors', null, 'user');
    book.model.addTableRows('Shop', null, 1, 'user');
    expect(reasons(await undoPlan(undo))).toEqual([
      'The table on Doors was moved or has other rows by now. Read the book again.',
    ]);
    book.model.deleteTableRows('Shop', 2, 1, 'user');
    book.model.removeSheet('Doors', 'user');
    expect(reasons(await undoPlan(undo))).toEqual([
      'The sheet Doors was deleted since, and a sheet of its name would be another one. Take the rest back by hand, or open an earlier version of the file.',
    ]);
    expect(at(book.model, 'Sheet1', 'A1')).toBe('c');
  });

  it('needs an added sheet to be open, and the structure of the workbook', async () => {
    const book = openBook();
    const undo = undoOf(
      await applyPlan(tiny({ kind: 'add-sheet', sheet: 'New' }, block([['a']], { sheet: 'New' }))),
    );
    book.model.protect('New', { options: {} }, 'user');
    expect(reasons(await undoPlan(undo))).toEqual([
      'The sheet New is protected: take the protection off first.',
    ]);
    book.model.protect('New', null, 'user');
    await book.run(async (context) => {
      context.workbook.protection.protect();
      await context.sync();
    });
    expect(reasons(await undoPlan(undo))).toEqual([
      'The workbook’s structure is protected: take that protection off first.',
    ]);
    expect(names(book)).toEqual(['Sheet1', 'New']);
  });

  it('is not barred by the table that it added itself', async () => {
    const book = openBook();
    const steps: PlanStep[] = [
      { kind: 'add-sheet', sheet: 'New' },
      block([['Key'], ['a']], { sheet: 'New' }),
      { kind: 'add-table', name: 'KeyrowNew', box: box(0, 0, 2, 1, 'New') },
    ];
    const undo = undoOf(await applyPlan(tiny(...steps)));
    expect((await undoPlan(undo)).sentence).toBe('Taken back: Tiny.');
    expect(names(book)).toEqual(['Sheet1']);
    expect(book.model.tables).toEqual([]);
  });

  /** Calls back when everything was looked at and nothing is taken back yet. */
  const looked = (blocks: number, act: () => void) => {
    let checked = 0;
    return {
      onProgress: ({ stage }: ApplyProgress) => {
        if (stage === 'checking' && ++checked === blocks) act();
      },
    };
  };

  it('keeps what is typed while it goes on, and says so', async () => {
    const book = openBook();
    const undo = undoOf(await applyPlan(tiny(block([['a']]), block([['b']], { row: 5 }))));
    const outcome = await undoPlan(
      undo,
      looked(2, () => {
        book.host.userEdit('Sheet1', 'A1', 'theirs');
      }),
    );
    expect(outcome).toMatchObject({
      outcome: 'done',
      sentence:
        'Taken back: Tiny. The workbook is as it was before, except for what was changed meanwhile at Sheet1!A1: that was left alone. Check it.',
    });
    expect([at(book.model, 'Sheet1', 'A1'), at(book.model, 'Sheet1', 'A6')]).toEqual(['theirs', null]);
  });

  it('that breaks off names the places and leaves its note', async () => {
    const book = openBook();
    const undo = undoOf(await applyPlan(tiny(block([['a']]))));
    const outcome = await undoPlan(
      undo,
      looked(1, () => {
        book.host.intercept = (_, body) => (JSON.stringify(body).includes('"Worksheets"') ? refuse : 'pass');
      }),
    );
    book.host.intercept = null;
    expect(outcome).toEqual({
      outcome: 'broken',
      places: [box(0, 0, 1, 1)],
      sentence: `Taking it back failed too: ${BROKEN} Check Sheet1!A1, or close the workbook without saving.`,
    });
    expect(notesLeft(book.model)).toHaveLength(1);
  });

  it('is no matter of a filter on a sheet of its own, but needs it to be open', async () => {
    const book = openBook();
    const steps: PlanStep[] = [
      { kind: 'add-sheet', sheet: 'New' },
      block([['Key'], ['a'], ['b']], { sheet: 'New' }),
      { kind: 'add-table', name: 'KeyrowNew', box: box(0, 0, 3, 1, 'New') },
    ];
    const undo = undoOf(await applyPlan(tiny(...steps)));
    book.model.filterTable('KeyrowNew', 0, { filterOn: 'Values', values: ['a'] }, 'user');
    expect((await undoPlan(undo)).outcome).toBe('done');
    const bare = undoOf(await applyPlan(tiny({ kind: 'add-sheet', sheet: 'Bare' })));
    book.model.protect('Bare', { options: {} }, 'user');
    expect(reasons(await undoPlan(bare))).toEqual([
      'The sheet Bare is protected: take the protection off first.',
    ]);
  });

  it('goes in one step where Excel groups what is undone', async () => {
    for (const [ExcelApi, oneUndo] of [['1.20', true], ['1.19', false]] as const) {
      const book = openBook({}, { sets: { ExcelApi } });
      const outcome = await applyPlan(tiny(block([['a']]), block([['b']], { row: 5 })));
      expect(outcome, ExcelApi).toMatchObject({ outcome: 'done', oneUndo });
      book.model.undo();
      // one step takes both back, or less than both
      expect(at(book.model, 'Sheet1', 'A1'), ExcelApi).toBe(oneUndo ? null : 'a');
    }
  }); // prettier-ignore
});

describe('in words', () => {
  it('a failure says what it was', () => {
    const place = (n: number) => ({ sheet: 'S', address: `A${n}` });
    expect(reasonOf(new ProgrammerError('no such thing'))).toBe('The add-in made a mistake (no such thing).');
    expect(reasonOf(new Renamed('sheet Keys'))).toMatch(/^The sheet Keys was renamed while/);
    expect(reasonOf(new Renamed('table KeyrowKeys', 'removed'))).toMatch(
      /^The table KeyrowKeys was removed while/,
    );
    expect(reasonOf(new NotAsWritten([1, 2, 3].map(place)))).toBe(
      'What was written at S!A1, S!A2, S!A3 reads otherwise by now.',
    );
    expect(reasonOf(new NotAsWritten([1, 2, 3, 4, 5].map(place)))).toContain(
      'at S!A1, S!A2, S!A3 and 2 more reads',
    );
    expect(reasonOf({ code: 'GeneralException' })).toBe(BROKEN);
  });

  it('what was put back is named, or the sheets that were added', () => {
    expect(asBefore([])).toBe('The workbook is as it was before.');
    expect(asBefore([{ sentence: 'x' }])).toContain('changed meanwhile at the sheets that were added: that');
    expect(asBefore([{ sentence: 'x', at: { sheet: 'S', address: 'A1' } }, { sentence: 'y' }])).toContain(
      'meanwhile at S!A1: that',
    );
  });
});

describe('two contents of a box', () => {
  const cells = (formulas: (string | number)[][], more: Partial<Remembered> = {}): Remembered => ({
    step: 0,
    box: box(0, 0, formulas.length, formulas[0]!.length),
    formulas,
    values: formulas,
    numberFormats: formulas.map((row) => row.map(() => 'General')),
    types: formulas.map((row) => row.map(() => 'String')),
    ...more,
  });

  it('are the same by their formulas and kinds, whatever a formula comes to', () => {
    const two = cells([['a', 'b'], ['c', 'd']]); // prettier-ignore
    expect(sameCells(two, cells([['a', 'b'], ['c', 'd']]))).toBe(true); // prettier-ignore
    expect(sameCells(two, cells([['a', 'b'], ['c', 'x']]))).toBe(false); // prettier-ignore
    expect(sameCells(two, cells([['x', 'b'], ['c', 'd']]))).toBe(false); // prettier-ignore
    expect(sameCells(cells([['a', 'b']]), two)).toBe(false);
    // a formula and a text that reads like one
    const formula = cells([['=1']], { values: [[1]] });
    expect(sameCells(formula, cells([['=1']]))).toBe(false);
    expect(sameCells(cells([['=1']]), formula)).toBe(false);
    expect(sameCells(formula, cells([['=1']], { values: [[2]], types: [['Double']] }))).toBe(true);
    // an error and a text that reads like one
    expect(sameCells(cells([['#N/A']]), cells([['#N/A']], { types: [['Error']] }))).toBe(false);
  });

  it('are compared but for the cells that are passed over', () => {
    const two = cells([['a', 'b'], ['c', 'd']]); // prettier-ignore
    const other = cells([['a', 'x'], ['c', 'd']]); // prettier-ignore
    expect(sameCells(two, other, [{ row: 0, column: 1 }])).toBe(true);
    expect(sameCells(two, other, [{ row: 0, column: 0 }])).toBe(false);
    expect(sameCells(two, other, [{ row: 1, column: 1 }])).toBe(false);
    expect(sameCells(two, other)).toBe(false);
  });
});

describe('the trace of a write', () => {
  const step = (kind: 'write' | 'resize-table'): PlanStep =>
    kind === 'write' ? block([['a']]) : { kind, name: 'Shop', from: box(0, 0, 2, 1), to: box(0, 0, 3, 1) };
  const at0 = (index: number, row = 0) => ({ step: index, box: box(row, 0, 1, 1) });

  it('knows what was begun, and what was not', () => {
    const trace = new Trace();
    expect(trace.hasBegun(0)).toBe(false);
    trace.begin(step('write'), 0);
    expect([trace.hasBegun(0), trace.hasBegun(1)]).toEqual([true, false]);
    trace.begin(step('write'), 1);
    trace.refused(1);
    expect([trace.hasBegun(0), trace.hasBegun(1)]).toEqual([true, false]);
    trace.beginBlock(at0(0, 5));
    expect([
      trace.hasBegunBlock(at0(0, 5)),
      trace.hasBegunBlock(at0(0)),
      trace.hasBegunBlock(at0(1, 5)),
    ]).toEqual([true, false, false]);
  });

  it('reckons with a table that filled cells by itself when it grew', () => {
    const trace = new Trace();
    expect(trace.mayHaveChanged(at0(3))).toBe(false);
    trace.begin(step('write'), 0);
    expect(trace.mayHaveChanged(at0(3))).toBe(false);
    trace.begin(step('resize-table'), 2);
    trace.begin(step('resize-table'), 4);
    expect([0, 2, 3, 5].map((index) => trace.mayHaveChanged(at0(index)))).toEqual([false, false, true, true]);
    trace.beginBlock(at0(0));
    expect(trace.mayHaveChanged(at0(0))).toBe(true);
  });

  it('knows sheets by their ids, those that were there and those that were added', () => {
    const trace = new Trace();
    expect([...trace.idsKnown()]).toEqual([]);
    trace.setOutFrom(['{1}', '{2}']);
    trace.know([{ sheet: 'Doors', id: '{1}' }]);
    expect(trace.keyOf('Doors')).toBe('{1}');
    expect(trace.keyOf('New')).toBe('New');
    trace.confirm(3, 'New', '{9}');
    expect(trace.keyOf('New')).toBe('{9}');
    expect([...trace.idsKnown()]).toEqual(['{1}', '{2}', '{9}']);
    expect(trace.added()).toEqual([{ step: 3, sheet: 'New', id: '{9}' }]);
    expect(trace.sheetOf(3)).toMatchObject({ id: '{9}' });
    expect(trace.sheetOf(2)).toBeUndefined();
    expect(trace.knownSheets()).toEqual([
      { sheet: 'Doors', id: '{1}' },
      { sheet: 'New', id: '{9}' },
    ]);
    trace.keepPicture({ step: 4, rowHeight: 15 });
    expect([trace.pictureOf(4), trace.pictureOf(3), trace.pictures()]).toEqual([
      { step: 4, rowHeight: 15 },
      undefined,
      [{ step: 4, rowHeight: 15 }],
    ]);
  });

  it('of a whole plan has all of it begun', () => {
    const undo = {
      title: 'Tiny',
      steps: [step('write'), step('resize-table')],
      before: [],
      after: [],
      added: [{ step: 0, sheet: 'New', id: '{9}' }],
      sheets: [{ sheet: 'Doors', id: '{1}' }],
      tables: [{ table: 'KeyrowKeys', id: '{2}' }],
      pictures: [{ step: 1, rowHeight: 15 }],
    };
    const trace = Trace.whole(undo);
    expect([trace.hasBegun(1), trace.hasBegunBlock(at0(0)), trace.keyOf('Doors')]).toEqual([
      true,
      true,
      '{1}',
    ]);
    expect(trace.added()).toEqual(undo.added);
    expect(trace.pictures()).toEqual(undo.pictures);
    expect([trace.tableKeyOf('KeyrowKeys'), trace.tableKeyOf('Shop')]).toEqual(['{2}', 'Shop']);
    expect(trace.knownTables()).toEqual(undo.tables);
  });
});

describe('a sheet to be taken away', () => {
  /** Runs with the sheets Sheet1, Empty, Filled and Other, and tells which are left. */
  async function removing(
    act: (context: Excel.RequestContext, id: (name: string) => string) => Promise<Conflict[]>,
  ) {
    const book = openBook();
    for (const name of ['Empty', 'Filled', 'Other']) book.model.addSheet(name, 'user');
    book.host.userEdit('Sheet1', 'A1', 'x');
    book.host.userEdit('Filled', 'B2', 'note');
    const found = await book.run(async (context) => {
      const { worksheets } = context.workbook;
      worksheets.load('items/name,items/id');
      await context.sync();
      return await act(context, (name) => worksheets.items.find((sheet) => sheet.name === name)!.id);
    });
    return { found: found.map(({ sentence }) => sentence), left: names(book) };
  }
  const ALL = ['Sheet1', 'Empty', 'Filled', 'Other'];
  const own = { tables: new Set<string>(), pictures: new Set<string>() };

  it('goes where every filled cell is ours, and is no matter where it is gone', async () => {
    const ours = (row: number, column: number) => row === 1 && column === 1;
    expect(await removing((context, id) => removeSheet(context, id('Filled'), ours, own))).toEqual({
      found: [],
      left: ['Sheet1', 'Empty', 'Other'],
    });
    expect(await removing((context, id) => removeSheet(context, id('Filled'), () => false, own))).toEqual({
      found: [
        'This cell was filled or changed meanwhile, so the sheet is kept. Move it, then delete the sheet.',
      ],
      left: ALL,
    });
    expect(await removing((context) => removeSheet(context, '{gone}', () => false, own))).toEqual({
      found: [],
      left: ALL,
    });
    expect(
      (await removing((context, id) => removeSheet(context, id('Empty'), () => false, own))).left,
    ).toEqual(['Sheet1', 'Filled', 'Other']);
  });

  it('that may be ours goes only while it is empty', async () => {
    const none = new Set<string>();
    expect(await removing((context) => removeUnconfirmed(context, 'Empty', none))).toEqual({
      found: [],
      left: ['Sheet1', 'Filled', 'Other'],
    });
    expect(await removing((context) => removeUnconfirmed(context, 'Filled', none))).toEqual({
      found: [],
      left: ALL,
    });
  });

  it('that may have another name by now is told of where it is empty and nobody knew it', async () => {
    const sentence = (name: string) =>
      `The empty sheet ${name} may have been added by this write and renamed since. Delete it if nobody needs it.`;
    const unknown = (...known: string[]) =>
      removing((context, id) => removeUnconfirmed(context, 'New', new Set(known.map(id))));
    expect(await unknown('Sheet1', 'Other')).toEqual({ found: [sentence('Empty')], left: ALL });
    expect((await unknown('Sheet1')).found).toEqual([sentence('Empty'), sentence('Other')]);
    expect((await unknown('Sheet1', 'Empty', 'Other')).found).toEqual([]);
  });
});
