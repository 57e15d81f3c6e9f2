/** Small plans carried out: what is told on the way, what is refused with which words, and how a new sheet looks. */
import { describe, expect, it } from 'vitest';
import { applyPlan, undoPlan } from '../../src/workbook/apply.ts';
import type { ApplyProgress, PlanStep, WriteBlock } from '../../src/workbook/index.ts';
import { openBook, type OpenBook } from '../support/office.ts';
import { at, undoOf } from './book.ts';
import { notesLeft } from './deepPicture.ts';
import { block, box, reasons, tiny } from './tiny.ts';

describe('carrying out', () => {
  it('writes texts, numbers and formulas, and counts their cells', async () => {
    const { model } = openBook();
    const plan = tiny(
      block([['007', '=1'], ['a', 'b'], ['c', 'd']]), // prettier-ignore
      block([[3, '=2']], { row: 4, formats: ['general', 'general'] }),
      block([[{ formula: '=1+1' }]], { row: 5, formats: ['general'] }),
    );
    const outcome = await applyPlan({
      ...plan,
      effects: [{ kind: 'cells', sheet: 'Sheet1', rows: 9, what: 'cells changed' }],
    });
    expect(outcome).toMatchObject({ outcome: 'done', cells: 9, sentence: 'Changed 9 cells of Sheet1.' });
    expect(undoOf(outcome).title).toBe('Tiny');
    expect([at(model, 'Sheet1', 'A1'), at(model, 'Sheet1', 'B1'), at(model, 'Sheet1', 'A5')]).toEqual(['007', '=1', 3]); // prettier-ignore
    expect(at(model, 'Sheet1', 'B5')).toBe('=2');
    expect(model.cell('Sheet1', 4, 1)?.formula).toBeUndefined();
    expect(model.cell('Sheet1', 5, 0)?.formula).toBe('=1+1');
    expect(notesLeft(model)).toEqual([]);
    const back = await undoPlan(undoOf(outcome));
    expect(back).toMatchObject({ outcome: 'done', cells: 9, oneUndo: false });
    expect(back.sentence).toBe('Taken back: Tiny.');
  });

  it('tells how far it is: each block is checked, written and read back', async () => {
    openBook();
    const told: ApplyProgress[] = [];
    const outcome = await applyPlan(tiny(block([['a']]), block([['b']], { row: 1 })), {
      onProgress: (progress) => told.push(progress),
    });
    const stages = ['checking', 'checking', 'writing', 'writing', 'reading back', 'reading back'];
    expect(told).toEqual(stages.map((stage, i) => ({ stage, done: i + 1, total: 6 })));
    const back: ApplyProgress[] = [];
    await undoPlan(undoOf(outcome), { onProgress: (progress) => back.push(progress) });
    const stagesBack = ['checking', 'checking', 'taking back', 'taking back'];
    expect(back).toEqual(stagesBack.map((stage, i) => ({ stage, done: i + 1, total: 4 })));
  });

  it('never says more than the whole', async () => {
    openBook();
    const told: ApplyProgress[] = [];
    // a sheet that is taken back tells nothing of its own
    await applyPlan(tiny({ kind: 'add-sheet', sheet: 'New' }, block([['a']], { sheet: 'New' })), {
      onProgress: (progress) => told.push(progress),
    });
    expect(told.map(({ done }) => done)).toEqual([1, 2]);
    expect(told.every(({ total }) => total === 4)).toBe(true);
  });
});

describe('the note in the settings', () => {
  /** What notes there were whenever Excel was asked for something. */
  function watched(
    book: OpenBook,
  ): () => { title: string; undoing: boolean; blocks: { before?: object }[] }[] {
    const seen = new Map<string, string>();
    book.host.intercept = () => {
      for (const [key, json] of book.model.state.settings)
        if (key.startsWith('KeyrowWriting')) seen.set(json, key);
      return 'pass';
    };
    return () =>
      [...seen.keys()].map((json) => {
        const said: unknown = JSON.parse(json);
        return (typeof said === 'string' ? JSON.parse(said) : said) as ReturnType<
          ReturnType<typeof watched>
        >[0];
      });
  }

  it('says what is being written, then with what was there before; and whether it is taken back', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'A1', 'old');
    const notes = watched(book);
    const outcome = await applyPlan(tiny(block([['new']], { expected: [['old']] })));
    expect(notes()).toMatchObject([
      { title: 'Tiny', undoing: false, blocks: [{ filled: 1, empty: false }] },
      { title: 'Tiny', undoing: false, blocks: [{ before: { cells: [['old']], formats: [['General']] } }] },
    ]);
    expect(notes()[0]!.blocks[0]).not.toHaveProperty('before');
    const later = watched(book);
    await undoPlan(undoOf(outcome));
    expect(later().map(({ undoing }) => undoing)).toContain(true);
    expect(later().some(({ undoing }) => !undoing)).toBe(false);
    expect(notesLeft(book.model)).toEqual([]);
  });

  it('has nothing of what stood on a sheet with a table of ours, and is not in the way of later ones', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'A1', [['Key', 'old'], ['a', 'old']]); // prettier-ignore
    const addTable = (name: string) =>
      book.run(async (context) => {
        context.workbook.tables.add('Sheet1!A1:A2', true).name = name;
        await context.sync();
      });
    const kept = async () => {
      const notes = watched(book);
      undoOf(await applyPlan(tiny(block([['old']], { row: 1, column: 1, expected: [['old']] }))));
      return notes().some(({ blocks }) => blocks[0]!.before);
    };
    await addTable('Shop');
    expect(await kept()).toBe(true);
    book.model.renameTable('Shop', 'KeyrowKeys', 'user');
    expect(await kept()).toBe(false);
  });

  it('bars a second write, and a taking back', async () => {
    const book = openBook();
    const undo = undoOf(await applyPlan(tiny(block([['a']]))));
    const leave = (value: string) =>
      book.run(async (context) => {
        context.workbook.settings.add('KeyrowWriting other', value);
        await context.sync();
      });
    const busy = (what: string) => [
      `“${what}” is being written by another window, or was broken off. Wait for it, or go to the start page to take it back or to leave it.`,
    ];
    const note = { title: 'Theirs', undoing: false, sheets: [], tables: [], blocks: [] };
    await leave(JSON.stringify(note));
    const second = await applyPlan(tiny(block([['b']], { row: 3 })));
    expect(second.sentence).toBe(
      'Nothing was written: another write is under way or was broken off. See the list.',
    );
    expect(reasons(second)).toEqual(busy('Theirs'));
    const back = await undoPlan(undo);
    expect(back.sentence).toBe('Nothing was taken back: something is in the way. See the list.');
    expect(reasons(back)).toEqual(busy('Theirs'));
    await leave('garbled');
    expect(reasons(await applyPlan(tiny(block([['b']], { row: 3 }))))).toEqual(busy('A write'));
    expect(at(book.model, 'Sheet1', 'A4')).toBeNull();
    expect(at(book.model, 'Sheet1', 'A1')).toBe('a');
    // its own note is gone, the other's stays
    expect(notesLeft(book.model)).toHaveLength(1);
  });
});

describe('a plan that is refused', () => {
  it('names what was in its way from the start', async () => {
    openBook();
    const conflict = { sentence: 'No.' };
    expect(await applyPlan({ ...tiny(), conflicts: [conflict] })).toEqual({
      outcome: 'refused',
      sentence: 'Nothing was written: something is in the way. See the list.',
      reasons: [conflict],
    });
  });

  it('says that the workbook changed, and every reason', async () => {
    const { host, model } = openBook();
    host.userEdit('Sheet1', 'B2', 'theirs');
    const outcome = await applyPlan(tiny(block([['a', 'b'], ['c', 'd']]))); // prettier-ignore
    expect(outcome).toEqual({
      outcome: 'refused',
      sentence: 'Nothing was written: the workbook is not as it was when the plan was made. See the list.',
      reasons: [
        {
          at: { sheet: 'Sheet1', address: 'B2' },
          holds: 'theirs',
          sentence: 'This cell has changed since the book was read. Read it again and make the plan anew.',
        },
      ],
    });
    expect(notesLeft(model)).toEqual([]);
    expect(at(model, 'Sheet1', 'A1')).toBeNull();
  });

  it('says so where Excel itself does', async () => {
    const { host } = openBook();
    host.intercept = (index) => (index === 0 ? { error: 'AccessDenied' } : 'pass');
    const sentence = 'The sheet or the workbook is protected. Take the protection off and try again.';
    expect(await applyPlan(tiny(block([['a']])))).toEqual({
      outcome: 'refused',
      sentence: `Nothing was written. ${sentence}`,
      reasons: [{ sentence }],
    });
    host.intercept = null;
    const undo = undoOf(await applyPlan(tiny(block([['a']]))));
    const first = host.requestCount;
    host.intercept = (index) => (index === first ? { error: 'AccessDenied' } : 'pass');
    expect(await undoPlan(undo)).toEqual({
      outcome: 'refused',
      sentence: `Nothing was taken back. ${sentence}`,
      reasons: [{ sentence }],
    });
  });

  it('has a text longer than a cell holds: 32,767 characters', async () => {
    const { model } = openBook();
    const long = (length: number) => 'x'.repeat(length);
    expect((await applyPlan(tiny(block([[long(32_767)]])))).outcome).toBe('done');
    const outcome = await applyPlan(tiny(block([['a', 1], [2, long(32_768)]], { row: 3, column: 2, formats: ['general', 'text'] }))); // prettier-ignore
    expect(outcome).toMatchObject({
      outcome: 'refused',
      reasons: [
        {
          at: { sheet: 'Sheet1', address: 'D5' },
          sentence: `“${long(30)}…”, which was to go here, has 32,768 characters, and a cell holds 32,767. Shorten it.`,
        },
      ],
    });
    expect(at(model, 'Sheet1', 'C4')).toBeNull();
  });

  it('would write into merged cells', async () => {
    const book = openBook();
    await book.run(async (context) => {
      context.workbook.worksheets.getItem('Sheet1').getRange('A2:B2').merge();
      await context.sync();
    });
    expect(await applyPlan(tiny(block([['a'], ['b'], ['c']])))).toMatchObject({
      outcome: 'refused',
      reasons: [
        {
          at: { sheet: 'Sheet1', address: 'A1' },
          sentence: 'There are merged cells within A1:A3. Unmerge them first.',
        },
      ],
    });
    expect((await applyPlan(tiny(block([['a']])))).outcome).toBe('done');
  });

  it('meets a protected workbook, where it adds a sheet', async () => {
    const book = openBook();
    await book.run(async (context) => {
      context.workbook.protection.protect();
      await context.sync();
    });
    expect(reasons(await applyPlan(tiny({ kind: 'add-sheet', sheet: 'New' })))).toEqual([
      'The workbook’s structure is protected: take that protection off first.',
    ]);
    expect((await applyPlan(tiny(block([['a']])))).outcome).toBe('done');
  });

  it('meets sheets and tables that came, went or changed', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'A1', [['Key', 'Count'], ['a', 1], ['', '']]); // prettier-ignore
    await book.run(async (context) => {
      const table = context.workbook.tables.add('Sheet1!A1:B2', true);
      table.name = 'Shop';
      context.workbook.worksheets.add('Other');
      await context.sync();
    });
    const why = async (...steps: readonly PlanStep[]) => reasons(await applyPlan(tiny(...steps)));
    expect(await why({ kind: 'add-sheet', sheet: 'OTHER' })).toEqual([
      'A sheet OTHER was added since the book was read. Read it again.',
    ]);
    expect(await why({ kind: 'add-table', name: 'SHOP', box: box(5, 0, 2, 1) })).toEqual([
      'A table SHOP was added since the book was read. Read it again.',
    ]);
    expect(await why(block([['a']], { sheet: 'Gone' }))).toEqual([
      'The sheet Gone is gone or was renamed. Read the book again.',
    ]);
    const grow = (from: ReturnType<typeof box>, name = 'Shop'): PlanStep => ({
      kind: 'resize-table',
      name,
      from,
      to: { ...from, rows: from.rows + 1 },
    });
    expect(await why(grow(box(0, 0, 2, 2), 'None'))).toEqual([
      'The table None is gone. Read the book again.',
    ]);
    const moved = ['The table on Sheet1 was moved or has other rows by now. Read the book again.'];
    expect(await why(grow(box(0, 0, 3, 2)))).toEqual(moved);
    expect(await why(grow(box(1, 0, 2, 2)))).toEqual(moved);
    expect(await why(grow(box(0, 0, 2, 2, 'Other')))).toEqual([
      'The table on Other was moved or has other rows by now. Read the book again.',
    ]);
    book.model.showTotals('Shop', true, 'user');
    expect(await why(grow(box(0, 0, 2, 2)))).toEqual([
      'The table on Sheet1 has a totals row: switch it off first.',
    ]);
    book.model.protect('Sheet1', { options: {} }, 'user');
    expect(await why(block([['x']], { row: 8 }))).toEqual([
      'The sheet Sheet1 is protected: take the protection off first.',
    ]);
    expect(
      await why({ kind: 'picture', sheet: 'Sheet1', row: 8, column: 0, name: 'P', alt: '', base64: '', width: 1, height: 1, rowHeight: 20 }),
    ).toEqual(['The sheet Sheet1 is protected: take the protection off first.']); // prettier-ignore
    expect((await applyPlan(tiny(block([['x']], { sheet: 'Other' })))).outcome).toBe('done');
  });

  it('would miss rows that a filter hides, of the sheet or of a table beside', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'A4', [['Key'], ['a'], ['b']]);
    await book.run(async (context) => {
      const table = context.workbook.tables.add('Sheet1!A4:A6', true);
      table.name = 'Shop';
      context.workbook.worksheets.add('Other');
      await context.sync();
    });
    book.model.filterTable('Shop', 0, { filterOn: 'Values', values: ['a'] }, 'user');
    const why = async (row: number, more: Partial<WriteBlock> = {}) =>
      reasons(await applyPlan(tiny(block([['x']], { row, column: 3, ...more }))));
    const barred = ['The table on Sheet1 is filtered: clear the filter first.'];
    // the table is A4:A6; the row right above and the one right below count, since it may grow
    expect(await why(1)).toEqual(['done']);
    expect(await why(2)).toEqual(barred);
    expect(await why(4)).toEqual(barred);
    expect(await why(6)).toEqual(barred);
    expect(await why(7)).toEqual(['done']);
    expect(await why(4, { sheet: 'Other' })).toEqual(['done']);
    // two blocks, one of them beside the table
    const both = tiny(block([['x']], { row: 20, column: 5 }), block([['x']], { row: 4, column: 5 }));
    expect(reasons(await applyPlan(both))).toEqual(barred);
    expect((await applyPlan(tiny({ kind: 'add-sheet', sheet: 'New' }, block([['x']], { sheet: 'New', row: 4 })))).outcome).toBe('done'); // prettier-ignore
    book.model.filterTable('Shop', 0, null, 'user');
    expect(await why(4, { column: 6 })).toEqual(['done']);
    book.host.userEdit('Other', 'A1', [['K'], ['a'], ['b']]);
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Other');
      sheet.autoFilter.apply(sheet.getRange('A1:A3'), 0, { filterOn: 'Values', values: ['a'] });
      await context.sync();
    });
    expect(await why(12, { sheet: 'Other' })).toEqual([
      'The sheet Other is filtered, and writing would miss its hidden rows: clear the filter first.',
    ]);
    expect(await why(12)).toEqual(['done']);
  });
});

describe('a new sheet', () => {
  const layout = {
    printArea: 'A:C',
    titleRows: '2:4',
    landscape: true,
    freeze: { rows: 4, columns: 1 },
    widths: [8, 20],
  };
  async function laidOut(more: object = {}): Promise<OpenBook> {
    const book = openBook();
    const outcome = await applyPlan(
      tiny(
        { kind: 'add-sheet', sheet: 'New' },
        block([['Title'], ['Line']], { sheet: 'New' }),
        block([['Key', 'Count']], { sheet: 'New', row: 3 }),
        { kind: 'layout', sheet: 'New', layout: { ...layout, ...more } },
      ),
    );
    expect(outcome.outcome).toBe('done');
    return book;
  }
  const on = (row: number, column: number, rows = 1, columns = 1) => box(row, column, rows, columns, 'New');

  it('has its title large, its line in italics, its widths, panes and page', async () => {
    const { model } = await laidOut();
    const { layout: sheet } = model.sheet('New');
    expect(model.cell('New', 0, 0)?.style).toMatchObject({ bold: true, fontSize: 14 });
    expect(model.cell('New', 1, 0)?.style).toMatchObject({ italic: true });
    expect(model.cell('New', 1, 0)?.style?.bold).toBeUndefined();
    expect(model.cell('New', 0, 0)?.style?.italic).toBeUndefined();
    // 8 × 5.25 + 4 = 46 points and 20 × 5.25 + 4 = 109; a pixel is three quarters of a point
    expect([...sheet.columnWidths].map(([column, pixels]) => [column, Math.round(pixels * 0.75)])).toEqual([
      [0, 46],
      [1, 109],
    ]);
    expect(sheet.frozen).toMatchObject({ rows: 4, columns: 1 });
    expect(sheet.page).toMatchObject({ orientation: 'landscape', titleRows: { start: 1, count: 3 } });
    expect(sheet.page.printArea).toMatchObject([{ column: 0, columns: 3 }]);
    expect(sheet.page.zoom).not.toHaveProperty('horizontalFitToPages');
    expect(JSON.stringify(sheet.page.headersFooters)).not.toContain('Page');
    expect((await laidOut({ landscape: false })).model.sheet('New').layout.page.orientation).toBe('portrait');
  });

  it('has what a sheet for the bench has', async () => {
    const { model } = await laidOut({
      onePageWide: true,
      centred: [on(3, 1)],
      banners: [on(1, 0, 1, 2)],
      middle: on(3, 0, 1, 2),
      large: [on(3, 0)],
      wrapped: [on(3, 1)],
      choices: [{ box: on(4, 0, 2, 1), from: ['good', 'bad'] }],
      heights: [{ row: 4, rows: 2, points: 30 }],
    });
    const sheet = model.sheet('New').layout;
    expect(model.cell('New', 3, 0)?.style).toMatchObject({ fontSize: 16, bold: true, vertical: 'center' });
    expect(model.cell('New', 3, 0)?.style?.wrap).toBeUndefined();
    expect(model.cell('New', 3, 1)?.style).toMatchObject({
      horizontal: 'center',
      wrap: true,
      vertical: 'center',
    });
    expect(model.cell('New', 1, 0)?.style).toMatchObject({ wrap: true, vertical: 'top' });
    expect(sheet.merges).toEqual([{ row: 1, column: 0, rows: 1, columns: 2 }]);
    expect(sheet.page.zoom).toMatchObject({ horizontalFitToPages: 1 });
    expect(sheet.validations).toMatchObject([
      {
        type: 'List',
        rule: { list: { inCellDropDown: true, source: 'good,bad' } },
        errorAlert: { showAlert: false, title: '', message: '', style: 'Information' },
        areas: [{ row: 4, column: 0, rows: 2, columns: 1 }],
      },
    ]);
    expect([sheet.rowHeights.get(4), sheet.rowHeights.get(5), sheet.rowHeights.get(6)]).toEqual([30, 30, undefined]); // prettier-ignore
    const plain = (await laidOut()).model;
    expect(plain.cell('New', 3, 0)?.style?.vertical).toBeUndefined();
  });

  it('has a foot, in which an ampersand is one', async () => {
    const { model } = await laidOut({ foot: { left: 'Nuts & bolts', right: 'Revision B' } });
    const { page } = model.sheet('New').layout;
    expect(page.headersFooters).toMatchObject({
      leftFooter: 'Nuts && bolts',
      centerFooter: 'Page &P of &N',
      rightFooter: 'Revision B',
    });
    expect(page.zoom).toMatchObject({ horizontalFitToPages: 1 });
  });

  it('comes whole where there is no printer', async () => {
    const book = openBook();
    book.host.intercept = (_, body) =>
      JSON.stringify(body).includes('SetPrintArea') ? { error: 'GeneralException' } : 'pass';
    const outcome = await applyPlan(
      tiny({ kind: 'add-sheet', sheet: 'New' }, { kind: 'layout', sheet: 'New', layout }),
    );
    expect(outcome.outcome).toBe('done');
    expect(book.model.sheet('New').layout.frozen).toMatchObject({ rows: 4 });
  });

  it('has a table with filter buttons, or a plain one with a bold header', async () => {
    const { model } = openBook();
    const sheet = (name: string, plain?: true): PlanStep[] => [
      { kind: 'add-sheet', sheet: name },
      block([['Key'], ['a']], { sheet: name }),
      { kind: 'add-table', name: `Keyrow${name}`, box: box(0, 0, 2, 1, name), ...(plain && { plain }) },
    ];
    expect((await applyPlan(tiny(...sheet('One'), ...sheet('Two', true)))).outcome).toBe('done');
    expect(model.table('KeyrowOne')).toMatchObject({ showFilterButton: true, style: 'TableStyleLight15' });
    expect(model.cell('One', 0, 0)?.style?.bold).toBeUndefined();
    expect(model.table('KeyrowTwo').showFilterButton).toBe(false);
    expect(model.cell('Two', 0, 0)?.style?.bold).toBe(true);
    expect(model.cell('Two', 1, 0)?.style?.bold).toBeUndefined();
  });
});

describe('the foot of a report', () => {
  const step: PlanStep = {
    kind: 'foot',
    sheet: 'Sheet1',
    foot: { left: 'Doors', right: 'Revision B' },
    before: { left: 'Doors', right: 'Revision A' },
  };
  /** Refuses the first requests for a footer; tells how many there were, and what the foot is then. */
  async function refused(times: number): Promise<[string, number, string | undefined]> {
    const book = openBook();
    let asked = 0;
    book.host.intercept = (_, body) =>
      JSON.stringify(body).includes('Revision B') && ++asked <= times
        ? { error: 'GeneralException' }
        : 'pass';
    const { outcome } = await applyPlan(tiny(step));
    return [outcome, asked, book.model.sheet('Sheet1').layout.page.headersFooters['rightFooter']];
  }

  it('is asked for once more where that failed in passing, and given up where there is no printer', async () => {
    expect(await refused(0)).toEqual(['done', 1, 'Revision B']);
    expect(await refused(1)).toEqual(['done', 2, 'Revision B']);
    const [outcome, asked, foot] = await refused(2);
    expect([outcome, asked]).toEqual(['done', 2]);
    expect(foot).not.toBe('Revision B');
  });
});

describe('a note that could not be taken away', () => {
  it('counts as over, and goes with the next write', async () => {
    const book = openBook();
    const dropping = (body: unknown) => JSON.stringify(body).includes('GetItemOrNullObject');
    book.host.intercept = (_, body) =>
      dropping(body) && JSON.stringify(body).includes('KeyrowWriting')
        ? { error: 'GeneralException' }
        : 'pass';
    expect((await applyPlan(tiny(block([['a']])))).outcome).toBe('done');
    expect(notesLeft(book.model)).toHaveLength(1);
    book.host.intercept = null;
    // one of another pane's beside it is not touched by that
    expect((await applyPlan(tiny(block([['b']], { row: 3 })))).outcome).toBe('done');
    expect(notesLeft(book.model)).toEqual([]);
  });

  it('of a write whose beginning Excel refused is taken away too', async () => {
    const book = openBook();
    let first = true;
    book.host.intercept = () => {
      if (!first) return 'pass';
      first = false;
      return { error: 'GeneralException', afterActions: Infinity };
    };
    expect((await applyPlan(tiny(block([['a']])))).outcome).toBe('refused');
    expect(notesLeft(book.model)).toEqual([]);
  });
});
