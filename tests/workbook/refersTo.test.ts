/** Formulas that refer to sheets and tables, and formulas that follow a renamed sheet: by the syntax of references. */
import { describe, expect, it } from 'vitest';
import { looksUp, refersTo } from '../../src/workbook/references.ts';
import { knownSheets, knownTables, namesNow, NamesNow, sheetOf } from '../../src/workbook/sheetIds.ts';

const GOING = { sheets: new Set(['keys', "owner's keys", 'tür 2']), tables: new Set(['keyrowkeys']) };

describe('formulas that refer to what goes', () => {
  it.each([
    '=Keys!A1',
    '=1+KEYS!$A$1',
    "='Keys'!A1",
    "=SUM('Tür 2'!A1:A9)",
    "='Owner''s keys'!A1",
    "=''''&'Owner''s keys'!A1",
    '=Specs:Keys!A1',
    '=Keys:Specs!A1',
    "='Keys:Specs'!A1",
    '=Other!A1+Keys!A1',
    '="a"&Keys!A1&"b"',
    '=KeyrowKeys[Symbol]',
    '=ROWS(keyrowkeys)',
    '=1*KeyrowKeys',
    '=IF(A1,KeyrowKeys[#All],1)',
    '=2KeyrowKeys',
    '=12.5KeyrowKeys',
    '=KeyrowKeys+SUM(1)',
    '="a""b""c"&Keys!A1',
  ])('%s does', (formula) => {
    expect(refersTo(formula, GOING)).toBe(true);
  });

  it.each([
    '=Key!A1',
    '=Keys2!A1',
    '=MyKeys!A1',
    '="Keys!A1"',
    '="say ""Keys!A1"""',
    '="KeyrowKeys"',
    '=KeyrowKeys2',
    '=KeyrowKeys!A1',
    '=KeyrowKeys (1)',
    '=MyKeyrowKeys',
    "='Keys 2'!A1",
    "='Owner''s'!A1",
    '=A1',
    '="unclosed Keys!A1',
    '!',
    "'!",
    '="a""b""Keys!A1"',
  ])('%s does not', (formula) => {
    expect(refersTo(formula, GOING)).toBe(false);
  });

  it.each([
    ['=INDIRECT("Keys!A1")', 'names'],
    ["=indirect (\"'Owner''s keys'!A1\")", 'names'],
    ['=ROWS(INDIRECT("KeyrowKeys"))', 'names'],
    ['=INDIRECT("Keys"&"!A1")', 'names'],
    ['=INDIRECT("Keys!A1', 'names'],
    ['=INDIRECT("a""b""c"&A1)', 'may'],
    ['=INDIRECTLY(A1)', undefined],
    ['=INDIRECT( "Other!A1" ,TRUE)', undefined],
    ['=INDIRECT(A1)', 'may'],
    ['=INDIRECT(A1&"!B2")', 'may'],
    ['=INDIRECT("Other!A1")', undefined],
    ['="Keys!A1"', undefined],
    ['=Keys!A1', undefined],
    ['=SUM(1)', undefined],
  ] as const)('%s looks them up: %s', (formula, wanted) => {
    expect(looksUp(formula, GOING)).toBe(wanted);
  });
});

const box = (sheet: string) => ({ sheet, row: 0, column: 0, rows: 1, columns: 1 });
const remembered = (sheet: string, formula: string, value: string | number = 0) => ({
  step: 0,
  box: box(sheet),
  formulas: [[formula]],
  values: [[value]],
  numberFormats: [['General']],
  types: [['Double']],
});

describe('sheets under their names of now', () => {
  const names = new NamesNow([['Keys', 'My locks']], ['Gone', 'Lost']);

  it('are those of every step', () => {
    const steps = [
      { kind: 'add-sheet', sheet: 'KEYS' },
      { kind: 'add-table', name: 'T', box: box('Keys') },
      { kind: 'resize-table', name: 'T', from: box('Keys'), to: box('keys') },
      { kind: 'foot', sheet: 'Doors', foot: { left: '', right: '' }, before: { left: '', right: '' } },
    ] as const;
    expect(steps.map(sheetOf)).toEqual(['KEYS', 'Keys', 'Keys', 'Doors']);
    expect(names.steps(steps)).toEqual([
      { kind: 'add-sheet', sheet: 'My locks' },
      { kind: 'add-table', name: 'T', box: box('My locks') },
      { kind: 'resize-table', name: 'T', from: box('My locks'), to: box('My locks') },
      steps[3],
    ]);
    expect(names.isGone('gone')).toBe(true);
    expect(names.isGone('Keys')).toBe(false);
    expect(new NamesNow([], []).steps(steps)).toBe(steps);
  });

  it('are those of an undo, with its contents before and after', () => {
    const undo = {
      title: 'T',
      steps: [{ kind: 'add-sheet', sheet: 'Keys' }],
      before: [remembered('Doors', '=Keys!A1')],
      after: [remembered('Keys', '=Doors!A1+Keys!B2')],
      added: [{ step: 0, sheet: 'Keys', id: '{1}' }],
      sheets: [{ sheet: 'Keys', id: '{1}' }],
      tables: [],
      pictures: [],
    } as const;
    expect(names.undo(undo)).toEqual({
      ...undo,
      steps: [{ kind: 'add-sheet', sheet: 'My locks' }],
      before: [remembered('Doors', "='My locks'!A1")],
      after: [remembered('My locks', "=Doors!A1+'My locks'!B2")],
      added: [{ step: 0, sheet: 'My locks', id: '{1}' }],
    });
    expect(new NamesNow([], []).contents(undo.before)).toBe(undo.before);
  });

  it('stay out of texts and of formulas longer than Excel takes', () => {
    const kept = [
      remembered('Doors', '=Keys!A1', '=Keys!A1'),
      remembered('Doors', `=Keys!A1&"${'x'.repeat(8_192)}"`),
    ];
    expect(names.contents(kept)).toEqual(kept);
  });

  it.each([
    ['Locks', '=Locks!A1'],
    ['Locks.2', '=Locks.2!A1'],
    ['Türen', '=Türen!A1'],
    ['2026', "='2026'!A1"],
    ['A1', "='A1'!A1"],
    ['ABC12', "='ABC12'!A1"],
    ['R1C1', "='R1C1'!A1"],
    ['r', "='r'!A1"],
    ['C7', "='C7'!A1"],
    ['Race', '=Race!A1'],
    ['Cabin', '=Cabin!A1'],
    ['my_A1', '=my_A1!A1'],
    ['C12', "='C12'!A1"],
    ['C', "='C'!A1"],
    ['a b', "='a b'!A1"],
    ["o'c", "='o''c'!A1"],
  ])('are quoted where %s has to be', (now, wanted) => {
    const [content] = new NamesNow([['Keys', now]], []).contents([remembered('Doors', '=Keys!A1')]);
    expect(content!.formulas).toEqual([[wanted]]);
  });

  it('are those of references through several sheets, and of names with quotes in them', () => {
    const both = new NamesNow(
      [
        ['Keys', 'Locks'],
        ["Owner's", 'Own'],
      ],
      [],
    );
    const after = (formula: string): unknown =>
      both.contents([remembered('Doors', formula)])[0]!.formulas[0]![0];
    expect(after('=SUM(Keys:Doors!A1)')).toBe('=SUM(Locks:Doors!A1)');
    expect(after('=SUM(Doors:Keys!A1)')).toBe('=SUM(Doors:Locks!A1)');
    expect(after("=SUM('Doors 2:Keys'!A1)")).toBe("=SUM('Doors 2:Locks'!A1)");
    expect(after("='Owner''s'!A1+1")).toBe('=Own!A1+1');
    expect(after("='Doors'!A1")).toBe("='Doors'!A1");
    const full = `=Keys!A1&"${'x'.repeat(8_192 - 11)}"`;
    expect(full).toHaveLength(8_192);
    expect(after(full)).toMatch(/^=Locks!A1&"x+"$/);
    const number = { ...remembered('Doors', ''), formulas: [[5]], values: [[5]] };
    expect(both.contents([number])).toEqual([number]);
  });

  it('are those of tables too, in steps and in formulas', () => {
    const tables = new NamesNow([], [], [['KeyrowKeys', 'Locks']]);
    const steps = [
      { kind: 'add-table', name: 'KEYROWKEYS', box: box('Keys') },
      { kind: 'resize-table', name: 'KeyrowKeys', from: box('Keys'), to: box('Keys') },
      { kind: 'resize-table', name: 'KeyrowSpecs', from: box('Specs'), to: box('Specs') },
    ] as const;
    expect(tables.steps(steps)).toEqual([
      { ...steps[0], name: 'Locks' },
      { ...steps[1], name: 'Locks' },
      steps[2],
    ]);
    const after = (formula: string): unknown =>
      tables.contents([remembered('Doors', formula)])[0]!.formulas[0]![0];
    for (const [formula, wanted] of [
      ['=SUM(KeyrowKeys[Copies])', '=SUM(Locks[Copies])'],
      ['=ROWS(keyrowkeys)', '=ROWS(Locks)'],
      ['=KeyrowKeys[[#This Row],[Bitting]]&"KeyrowKeys"', '=Locks[[#This Row],[Bitting]]&"KeyrowKeys"'],
      [
        '=KEYROW.CHECK([@Bitting],[@Spec],KeyrowSpecs[#All])',
        '=KEYROW.CHECK([@Bitting],[@Spec],KeyrowSpecs[#All])',
      ],
      ['=KeyrowKeys!A1+KeyrowKeys2[A]+My.KeyrowKeys', '=KeyrowKeys!A1+KeyrowKeys2[A]+My.KeyrowKeys'],
    ] as const)
      expect(after(formula)).toBe(wanted);
  });

  it('are asked of Excel by their ids', async () => {
    const asked: string[] = [];
    const worksheets = {
      items: [
        { id: '{1}', name: 'Locks' },
        { id: '{2}', name: 'Doors' },
      ],
      load: (what: string) => asked.push(what),
    };
    const tables = {
      items: [
        { id: '{4}', name: 'Locks' },
        { id: '{5}', name: 'KeyrowSpecs' },
      ],
      load: (what: string) => asked.push(what),
    };
    const context = { workbook: { worksheets, tables }, sync: () => Promise.resolve() };
    const now = await namesNow(
      context as unknown as Excel.RequestContext,
      [
        { sheet: 'Keys', id: '{1}' },
        { sheet: 'Doors', id: '{2}' },
        { sheet: 'Pins', id: '{3}' },
      ],
      [
        { table: 'KeyrowKeys', id: '{4}' },
        { table: 'KeyrowSpecs', id: '{5}' },
        { table: 'KeyrowPins', id: '{6}' },
      ],
    );
    expect(asked).toEqual(['items/name,items/id', 'items/name,items/id']);
    expect(['keyrowkeys', 'KeyrowSpecs', 'KeyrowPins'].map(now.ofTable)).toEqual([
      'Locks',
      'KeyrowSpecs',
      'KeyrowPins',
    ]);
    expect(['KeyrowKeys', 'KeyrowSpecs', 'KEYROWPINS'].map(now.isTableGone)).toEqual([false, false, true]);
    expect(['Keys', 'Doors', 'Pins'].map(now.of)).toEqual(['Locks', 'Doors', 'Pins']);
    expect(now.gone).toEqual(['Pins']);
    expect(['Keys', 'Doors', 'PINS'].map(now.isGone)).toEqual([false, false, true]);
    const same = await namesNow(
      context as unknown as Excel.RequestContext,
      [{ sheet: 'Doors', id: '{2}' }],
      [{ table: 'KeyrowSpecs', id: '{5}' }],
    );
    const steps = [{ kind: 'add-sheet', sheet: 'Doors' }] as const;
    // nothing was renamed, so nothing is made anew
    expect(same.steps(steps)).toBe(steps);
  });

  it('are known by the ids of our tables', () => {
    const tables = [
      { name: 'KeyrowKeys', id: '{1}' },
      { name: 'Prices', id: '{2}' },
    ] as unknown as Excel.Table[];
    expect(knownTables(tables)).toEqual([{ table: 'KeyrowKeys', id: '{1}' }]);
  });

  it('are known by the ids of the sheets that there are', () => {
    const sheets = [
      { name: 'KEYS', id: '{1}' },
      { name: 'Ｄoors', id: '{2}' },
      { name: 'Other', id: '{3}' },
    ] as unknown as Excel.Worksheet[];
    const steps = [
      { kind: 'add-sheet', sheet: 'Keys' },
      { kind: 'add-table', name: 'T', box: box('Keys') },
      { kind: 'add-sheet', sheet: 'Doors' },
    ] as const;
    expect(knownSheets(steps, sheets)).toEqual([{ sheet: 'Keys', id: '{1}' }]);
  });
});
