/** Notes of writes that were broken off, as they stand in the settings: what is told of them, and what is taken back. */
import { describe, expect, it } from 'vitest';
import {
  leaveLeftover,
  readLeftover,
  takeLeftoverBack,
  type Leftover,
} from '../../src/workbook/applyLeftover.ts';
import type { Note } from '../../src/workbook/applyJournal.ts';
import type { CellValue } from '../../src/workbook/index.ts';
import { openBook, type OpenBook } from '../support/office.ts';
import { at } from './book.ts';
import { notesLeft } from './deepPicture.ts';
import { box, png } from './tiny.ts';

const NOTE: Note = { title: 'Tiny', undoing: false, sheets: [], tables: [], blocks: [] };
let number = 0;
/** Leaves notes as another pane would. */
const leave = (book: OpenBook, ...notes: readonly (Partial<Note> | string)[]) =>
  book.run(async (context) => {
    for (const note of notes)
      context.workbook.settings.add(
        `KeyrowWriting ${++number}`,
        typeof note === 'string' ? note : JSON.stringify({ ...NOTE, ...note }),
      );
    await context.sync();
  });
async function left(): Promise<Leftover | undefined> {
  const read = await readLeftover();
  if (!read.ok) throw new Error(read.error.sentence);
  return read.value;
}
const told = async (): Promise<string> => (await left())!.sentence;
const back = async (): Promise<string> => (await takeLeftoverBack((await left())!)).sentence;
const cells = ({ model }: OpenBook, ...addresses: string[]) =>
  addresses.map((address) => at(model, 'Sheet1', address));

describe('a write that was broken off', () => {
  it('is none where there is no note', async () => {
    const book = openBook();
    expect(await left()).toBeUndefined();
    await book.run(async (context) => {
      context.workbook.settings.add('Another', JSON.stringify(NOTE));
      await context.sync();
    });
    expect(await left()).toBeUndefined();
  });

  it('is told with how much of it is there', async () => {
    const book = openBook();
    book.model.addSheet('NEW', 'user');
    book.host.userEdit('Sheet1', 'A1', [['a', ''], ['', 'b']]); // prettier-ignore
    await leave(book, {
      sheets: ['New', 'Other'],
      blocks: [
        { box: box(0, 0, 2, 2), filled: 4, empty: true },
        // more than was planned there, and a sheet that isn't there
        { box: box(0, 0, 1, 1), filled: 0, empty: true },
        { box: box(0, 0, 1, 1, 'Other'), filled: 1_500, empty: true },
      ],
    });
    expect(await told()).toBe(
      '“Tiny” was begun in this workbook, and its end was not noted. 1 of 2 new sheets and 2 of 1,504 cells hold something now. If another window is still writing, wait for it. Take it back, or leave it as it is.',
    );
  });

  it('is told in fewer words where it adds no sheet, or was being taken back', async () => {
    const book = openBook();
    await leave(book, { undoing: true, blocks: [{ box: box(0, 0, 1, 1), filled: 1, empty: true }] });
    expect(await told()).toBe(
      'Taking back “Tiny” was begun in this workbook, and its end was not noted. 0 of 1 cell hold something now. If another window is still writing, wait for it. Take it back, or leave it as it is.',
    );
    const one = openBook();
    await leave(one, { sheets: ['New'] });
    expect(await told()).toContain('0 of 1 new sheet and 0 of 0 cells hold');
  });

  it('is told of where its note was garbled, and where there are several', async () => {
    for (const garbled of ['{', '"x"', '7', JSON.stringify({ title: 'x' })]) {
      const book = openBook();
      await leave(book, garbled);
      expect(await told(), garbled).toBe(
        'A write was begun in this workbook, and its end was not noted. If another window is still writing, wait for it. Its note can’t be read: leave it as it is.',
      );
    }
    const book = openBook();
    await leave(book, {}, {});
    expect(await told()).toContain('cells hold something now. 1 further write too. If');
    await leave(book, '{');
    expect(await told()).toContain(' 2 further writes too. ');
  });

  it('can be left as it is', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'A1', 'a');
    await leave(book, { blocks: [{ box: box(0, 0, 1, 1), filled: 1, empty: true }] }, '{');
    expect(await leaveLeftover((await left())!)).toEqual({
      outcome: 'done',
      sentence: 'Left as it is.',
      cells: 0,
      oneUndo: false,
    });
    expect(notesLeft(book.model)).toEqual([]);
    expect(cells(book, 'A1')).toEqual(['a']);
  });

  it('stays noted where Excel refuses', async () => {
    const book = openBook();
    await leave(book, {});
    const leftover = (await left())!;
    book.host.intercept = () => ({ error: 'AccessDenied' });
    const sentence = 'The sheet or the workbook is protected. Take the protection off and try again.';
    expect(await takeLeftoverBack(leftover)).toEqual({
      outcome: 'refused',
      sentence: `It was not all taken back. ${sentence}`,
      reasons: [{ sentence }],
    });
    book.host.intercept = null;
    expect(notesLeft(book.model)).toHaveLength(1);
  });
});

describe('taking it back', () => {
  it('empties cells that were empty, and gives others their content and format', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'A1', [
      ['ours', 'ours'],
      ['ours', 'ours'],
      ['ours', ''],
    ]);
    const before: [CellValue[][], string[][]] = [[['=1', 7], [true, '007']], [['@', '0.0'], ['General', 'General']]]; // prettier-ignore
    await leave(book, {
      blocks: [
        { box: box(2, 0, 1, 1), filled: 1, empty: true },
        { box: box(0, 0, 2, 2), filled: 4, empty: false, before: { cells: before[0], formats: before[1] } },
      ],
    });
    expect(await back()).toBe('Taken back: “Tiny”.');
    expect(cells(book, 'A1', 'B1', 'A2', 'B2', 'A3')).toEqual(['=1', 7, true, '007', null]);
    expect(book.model.cell('Sheet1', 0, 0)?.formula).toBeUndefined();
    expect(book.model.cell('Sheet1', 0, 1)?.style?.numberFormat).toBe('0.0');
    expect(notesLeft(book.model)).toEqual([]);
  });

  it('keeps cells of which more are filled than the plan had', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'B2', [['ours', 'mine']]);
    await leave(book, { blocks: [{ box: box(1, 1, 1, 2), filled: 1, empty: true }] });
    expect(await back()).toBe('Taken back: “Tiny”. Sheet1!B2:C2 was kept: there is something else in it.');
    expect(cells(book, 'B2', 'C2')).toEqual(['ours', 'mine']);
  });

  it('names cells whose old content nobody has, and sheets that are gone', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'A1', 'ours');
    const unknown = (row: number, sheet = 'Sheet1') => ({
      box: box(row, 0, 1, 2, sheet),
      filled: 2,
      empty: false,
    });
    await leave(book, { blocks: [0, 1].map((row) => unknown(row)) });
    expect(await back()).toBe(
      'Taken back: “Tiny”. Check Sheet1!A1:B1, Sheet1!A2:B2: cells there held something before that is not kept outside the sheet. Excel’s own undo or an earlier version of the file has it.',
    );
    expect(cells(book, 'A1')).toEqual(['ours']);
    await leave(book, { blocks: [0, 1, 2, 3, 4].map((row) => unknown(row)) });
    expect(await back()).toContain(
      'Check Sheet1!A1:B1, Sheet1!A2:B2, Sheet1!A3:B3, Sheet1!A4:B4, Sheet1!A5:B5: cells',
    );
    await leave(book, { blocks: [0, 1, 2, 3, 4, 5, 6].map((row) => unknown(row)) });
    expect(await back()).toContain(
      'Check Sheet1!A1:B1, Sheet1!A2:B2, Sheet1!A3:B3, Sheet1!A4:B4, Sheet1!A5:B5 and 2 more places: cells',
    );
    await leave(book, { blocks: [unknown(0, 'Doors'), unknown(1, 'Doors'), unknown(0, 'My rooms')] });
    expect(await back()).toBe(
      'Taken back: “Tiny”. Check Doors, My rooms: no sheet has that name now, so nothing was taken back there. If it was renamed, look through it under its new name.',
    );
  });

  it('takes added sheets away, the last first, with nothing else on them', async () => {
    const book = openBook();
    const added = async () => {
      book.model.addSheet('New', 'user');
      book.host.userEdit('New', 'B2', [['Key'], ['a'], ['']]);
      await book.run(async (context) => {
        context.workbook.tables.add('New!B2:B4', true).name = 'KeyrowNew';
        await context.sync();
      });
    };
    const note = { sheets: ['NEW'], blocks: [{ box: box(1, 1, 3, 1, 'New'), filled: 2, empty: true }] };
    const names = () => book.model.sheets.map(({ name }) => name);
    await added();
    await leave(book, note);
    expect(await back()).toBe('Taken back: “Tiny”.');
    expect(names()).toEqual(['Sheet1']);
    const keptFor = async (act: () => unknown) => {
      await added();
      await act();
      await leave(book, note);
      const sentence = await back();
      expect(names()).toEqual(['Sheet1', 'New']);
      book.model.removeSheet('New', 'user');
      return sentence;
    };
    expect(await keptFor(() => { book.host.userEdit('New', 'D9', 'mine'); })).toBe(
      'Taken back: “Tiny”. The sheet NEW was kept: there is something else on it at D9.',
    ); // prettier-ignore
    expect(await keptFor(() => { book.host.userEdit('New', 'B4', 'mine'); })).toBe(
      'Taken back: “Tiny”. The sheet NEW was kept: there is something else on it within B2:B4.',
    ); // prettier-ignore
    expect(await keptFor(() => { book.model.renameTable('KeyrowNew', 'Shop', 'user'); })).toBe(
      'Taken back: “Tiny”. The sheet NEW was kept: there is something else on it.',
    ); // prettier-ignore
    expect(await keptFor(() => { book.model.setLayout('New', { pictures: [{ id: 'P1', name: 'Mine', base64: '', format: 'PNG', left: 0, top: 0, width: 5, height: 5 } as never] }, 'user'); })).toContain('was kept'); // prettier-ignore
    // what was written elsewhere at a place tells nothing of the same place here
    const wider = {
      ...note,
      blocks: [
        ...note.blocks,
        { box: box(1, 5, 1, 1, 'New'), filled: 1, empty: true },
        { box: box(8, 3, 1, 1), filled: 0, empty: true },
      ],
    };
    await added();
    book.host.userEdit('New', 'F2', 'a');
    book.host.userEdit('Sheet1', 'D9', 'mine');
    await leave(book, wider);
    expect(await back()).toBe('Taken back: “Tiny”. Sheet1!D9 was kept: there is something else in it.');
    expect(names()).toEqual(['Sheet1']);
    await added();
    book.host.userEdit('New', 'D9', 'mine');
    await leave(book, wider);
    expect(await back()).toContain('The sheet NEW was kept: there is something else on it at D9.');
    book.model.removeSheet('New', 'user');
    // one that is not there any more is no matter
    await leave(book, note);
    expect(await back()).toBe('Taken back: “Tiny”.');
  });

  it('shrinks a table that grew, and none that was changed since', async () => {
    const book = openBook();
    book.host.userEdit('Sheet1', 'A1', [['Key'], ['a'], ['']]);
    await book.run(async (context) => {
      context.workbook.tables.add('Sheet1!A1:A3', true).name = 'Shop';
      await context.sync();
    });
    const grew = (to: ReturnType<typeof box>, name = 'Shop') =>
      leave(book, { tables: [{ name, from: box(0, 0, 2, 1), to }] });
    const rows = () => book.model.table('Shop').area.rows;
    await grew(box(0, 0, 4, 1));
    expect(await back()).toBe('Taken back: “Tiny”.');
    expect(rows()).toBe(3);
    await grew(box(0, 0, 3, 1), 'Gone');
    expect(await back()).toBe('Taken back: “Tiny”.');
    await grew(box(0, 0, 3, 1));
    await back();
    expect(rows()).toBe(2);
  });

  it('takes a picture of ours with its row, and names one that may be the old one', async () => {
    const book = openBook();
    const draw = (name: string, left: number, top: number) =>
      book.run(async (context) => {
        const shape = context.workbook.worksheets.getItem('Sheet1').shapes.addImage(png(2));
        shape.name = name;
        shape.left = left;
        shape.top = top;
        shape.lockAspectRatio = false;
        shape.width = 20;
        shape.height = 20;
        context.workbook.worksheets.getItem('Sheet1').getRange('A3').format.rowHeight = 100;
        await context.sync();
      });
    const pictures = () => book.model.sheet('Sheet1').layout.pictures.map(({ name }) => name);
    // the rows above and below stay as they are, 15 points high; row 3 begins at 30 points and is 100 high; a column is 48 wide
    await draw('Keyrow One', 4, 34);
    await draw('Mine', 6, 40);
    await draw('Keyrow beside', 60, 34);
    await draw('Keyrow above', 4, 10);
    await draw('Keyrow below', 4, 131);
    await leave(book, {
      blocks: [{ box: box(2, 1, 1, 1), filled: 1, empty: true }],
      pictures: [{ sheet: 'SHEET1', row: 2, column: 0 }],
    });
    expect(await back()).toBe('Taken back: “Tiny”.');
    expect(pictures()).toEqual(['Mine', 'Keyrow beside', 'Keyrow above', 'Keyrow below']);
    expect(book.model.sheet('Sheet1').layout.rowHeights.get(2) ?? 15).toBe(15);
    await draw('Keyrow One', 4, 34);
    const changed = { blocks: [{ box: box(2, 1, 1, 1), filled: 1, empty: false, before: { cells: [['x']], formats: [['General']] } }] }; // prettier-ignore
    await leave(book, { ...changed, pictures: [{ sheet: 'Sheet1', row: 2, column: 0 }] });
    expect(await back()).toMatch(
      /^Taken back: “Tiny”\. Check the picture at Sheet1!A3: it may be the new one\.$/,
    );
    expect(pictures()).toContain('Keyrow One');
    await leave(book, { ...changed, pictures: [{ sheet: 'Sheet1', row: 9, column: 0 }, { sheet: 'Gone', row: 2, column: 0 }] }); // prettier-ignore
    expect(await back()).toBe('Taken back: “Tiny”.');
  });

  it('is told of every note', async () => {
    const book = openBook();
    await leave(book, {}, { title: 'Other' }, '{');
    expect(await back()).toBe('Taken back: “Tiny”, “Other”, “a write”.');
  });
});
