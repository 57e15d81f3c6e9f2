/** Who refers to a sheet that an undo would take away, asked of a workbook of two sheets. */
import { describe, expect, it } from 'vitest';
import { looksUp, referencesTo, refersTo, type References } from '../../src/workbook/references.ts';
import type { UndoPlan } from '../../src/workbook/outcome.ts';
import { openBook, type OpenBook } from '../support/office.ts';

const UNDO = {
  title: 'Undo',
  steps: [{ kind: 'add-sheet', sheet: 'KEYS' }],
  before: [],
  after: [],
} as unknown as UndoPlan;

/** `Keys` with a table in A1:B3 would go, `Sheet1` stays. */
async function two(): Promise<OpenBook> {
  const book = openBook();
  await book.run(async (context) => {
    context.workbook.worksheets.add('Keys');
    context.workbook.worksheets.add('Empty');
    await context.sync();
  });
  book.host.userEdit('Keys', 'A1', [['Symbol', 'Bitting'], ['A', '=Keys!A2'], ['B', '']]); // prettier-ignore
  book.model.addTable('Keys', { row: 0, column: 0, rows: 3, columns: 2 }, true, 'user', 'KeyList');
  return book;
}
const ask = (book: OpenBook, undo: Partial<UndoPlan> = {}): Promise<References> =>
  book.run((context) => referencesTo(context, { ...UNDO, ...undo }));
const found = async (book: OpenBook, undo?: Partial<UndoPlan>) =>
  (await ask(book, undo)).found.map(
    ({ at, holds }) => `${at ? `${at.sheet}!${at.address}` : 'name'} ${holds}`,
  );
const sayings = ({ doubts }: References): string[] => doubts.filter((doubt) => doubt.includes('INDIRECT'));

describe('a sheet whose name has quotes in it', () => {
  const going = { sheets: new Set(['my "own"', `owner's "a!b"`]), tables: new Set<string>() };
  it('is referred to like any other', () => {
    for (const formula of [
      `='My "own"'!A1`,
      `=SUM('My "own"'!A1:B2)&"x"`,
      `="x"&'My "own"'!A1`,
      `='Owner''s "a!b"'!A1`,
      `=KeyList['#1]&"x"&'My "own"'!A1`,
    ])
      expect(refersTo(formula, going), formula).toBe(true);
    for (const formula of [`="'My ""own""'!A1"`, `='My own'!A1`, `='Other "x"'!A1&"'My ""own""'!A1"`])
      expect(refersTo(formula, going), formula).toBe(false);
  });
});

describe('a name in a text that is looked up', () => {
  it('may have quotes in it, or be put together of several texts', () => {
    const going = { sheets: new Set(['my "own"', 'keys']), tables: new Set<string>() };
    expect(looksUp(`=INDIRECT("'My ""own""'!A1")`, going)).toBe('names');
    expect(looksUp(`=INDIRECT("'Keys"&"'!A1")`, going)).toBe('names');
    expect(looksUp(`=INDIRECT("'Other ""own""'!A1")`, going)).toBeUndefined();
    expect(looksUp(`=INDIRECT("'Other"&"'!A1")`, going)).toBe('may');
  });
});

describe('what refers to a sheet that goes', () => {
  it('is every formula of the sheets that stay, by sheet, by table, or by a text looked up', async () => {
    const book = await two();
    expect(await found(book)).toEqual([]);
    book.host.userEdit('Sheet1', 'C4', [
      ['=Keys!A2', '=COUNTA(KeyList[Symbol])'],
      ['=INDIRECT("Keys!A2")', '=1+1'],
      ["'=Keys!A2", 'Keys!A2'],
      ['=Sheet1!A1', 5],
    ]); // prettier-ignore
    const read = await ask(book);
    expect(read.found.map(({ at }) => at?.address)).toEqual(['C4', 'D4', 'C5']);
    expect(read.found[0]).toEqual({
      at: { sheet: 'Sheet1', address: 'C4' },
      holds: '=Keys!A2',
      sentence:
        'This formula refers to a sheet that would be taken away, and would turn into #REF!. Change or delete it first.',
    });
    expect(sayings(read)).toEqual([]);
  });

  it('is no cell that the plan itself wrote', async () => {
    const book = await two();
    book.host.userEdit('Sheet1', 'C4', [['=Keys!A2', '=Keys!A3']]);
    const box = { row: 3, column: 2, rows: 1, columns: 1 };
    const wrote = (sheet: string) => ({ after: [{ box: { sheet, ...box }, values: [], formulas: [] }] }) as unknown as Partial<UndoPlan>; // prettier-ignore
    expect(await found(book, wrote('sheet1'))).toEqual(['Sheet1!D4 =Keys!A3']);
    book.host.userEdit('Sheet1', 'C5', [['=Keys!B2', '=Keys!B3']]);
    const last = { after: [{ box: { sheet: 'Sheet1', ...box, row: 4, column: 3 }, values: [], formulas: [] }] } as unknown as Partial<UndoPlan>; // prettier-ignore
    expect(await found(book, last)).toEqual([
      'Sheet1!C4 =Keys!A2',
      'Sheet1!D4 =Keys!A3',
      'Sheet1!C5 =Keys!B2',
    ]);
    book.host.userEdit('Sheet1', 'C5', [['', '']]);
    // of another sheet it says nothing of this one
    expect(await found(book, wrote('Other'))).toEqual(['Sheet1!C4 =Keys!A2', 'Sheet1!D4 =Keys!A3']);
  });

  it('is nothing that refers to a sheet that stays, by its tables either', async () => {
    const book = await two();
    book.host.userEdit('Sheet1', 'A1', [['Stay'], ['1']]);
    book.model.addTable('Sheet1', { row: 0, column: 0, rows: 2, columns: 1 }, true, 'user', 'Staying');
    book.host.userEdit('Sheet1', 'C4', [
      ['=COUNTA(Staying[Stay])', '="a ""Keys!A1"" b"'],
      ['="Keys!A1"', '=Sheet1!A1'],
    ]);
    expect(await found(book)).toEqual([]);
  });

  it('is a name of the workbook or of a sheet, but for those that Excel keeps for itself', async () => {
    const book = await two();
    await book.run(async (context) => {
      const { names, worksheets } = context.workbook;
      names.add('First', worksheets.getItem('Keys').getRange('A2'));
      names.add('Print_Those', worksheets.getItem('Keys').getRange('A2'));
      names.add('Blueprint_Those', worksheets.getItem('Keys').getRange('A3'));
      names.add('Own', worksheets.getItem('Sheet1').getRange('A2'));
      worksheets.getItem('Sheet1').names.add('Second', worksheets.getItem('Keys').getRange('A2'));
      worksheets.getItem('Keys').names.add('Gone', worksheets.getItem('Keys').getRange('A2'));
      await context.sync();
    });
    const { found: all } = await ask(book);
    expect(all.map(({ sentence }) => sentence)).toEqual(
      ['First', 'Blueprint_Those', 'Second'].map(
        (name) => `The name ${name} refers to a sheet that would be taken away. Delete the name first.`,
      ),
    );
    expect(all[0]!.holds).toMatch(/^=Keys!\$A\$2$/);
  });

  it('may be looked up from cells, which nobody can tell', async () => {
    const book = await two();
    book.host.userEdit('Sheet1', 'B2', [['=INDIRECT(A1)'], ['=INDIRECT(A2)'], ['=INDIRECT(A3)']]);
    expect(sayings(await ask(book))).toEqual([
      'Which cells INDIRECT looks up at Sheet1!B2, Sheet1!B3, Sheet1!B4 can’t be told. Check whether it still finds them.',
    ]);
    book.host.userEdit('Sheet1', 'B5', [['=INDIRECT(A4)'], ['=INDIRECT(A5)&INDIRECT("Keys!A2")']]);
    const more = await ask(book);
    expect(sayings(more)).toEqual([
      'Which cells INDIRECT looks up at Sheet1!B2, Sheet1!B3, Sheet1!B4 and 1 more can’t be told. Check whether it still finds them.',
    ]);
    expect(more.found.map(({ at }) => at?.address)).toEqual(['B6']);
    expect(more.found).toHaveLength(1);
  });
});
