/** A system's grid with what was typed beside, below and above it, in sheets made by hand. */
import { describe, expect, it } from 'vitest';
import { blindness, readExtension } from '../../src/workbook/extension.ts';
import { readCells } from '../../src/workbook/extensionCells.ts';
import { NO_WISH } from '../../src/workbook/gridAsked.ts';
import { auditInput } from '../../src/workbook/auditInput.ts';
import { isInUse } from '../../src/keying/system.ts';
import type { BookReading, CellValue, TableReading } from '../../src/workbook/reading.ts';
import { bookOf, tableOf, told } from './byHand.ts';

type Rows = readonly (readonly CellValue[])[];
const CHAMBERS = [1, 2, 3, 4, 5, 6].map((c) => `Ch ${c}`);
/** The top master 0 1 2 3 4 5 in an array of three depths in the first chamber alone. */
const SYSTEMS = tableOf('KeyrowSystems', 'Systems', [
  ['System', 'Spec', 'Keyway', 'Top master', 'Array 1', 'Grid'],
  ['Hall', 'S-018-6', 'K1', '012345', '2 4 6 8', 'KeyrowGrid1'],
]);
const KEY_HEADINGS = ['System', 'Symbol', 'Bitting', 'Level', 'Parent', 'Status', 'Keyway'];
const key = (symbol: string, bitting: string, level = 'CK', status = 'issued', keyway = 'K1') =>
  ['Hall', symbol, bitting, level, level === 'CK' ? 'M' : '', status, keyway] as const;
const KEYS: Rows = [
  key('M', '012345', 'MK'),
  key('A', '212345'),
  key('B', '412345', 'CK', 'reserved', ''),
  key('OLD', '612345', 'CK', 'retired'),
  key('S9', '998877', 'single', 'void'),
];
const keysTable = (rows: Rows = KEYS) => tableOf('KeyrowKeys', 'Keys', [KEY_HEADINGS, ...rows]);
const CYLINDERS: Rows = [
  ['Hall', 'C1', 'Front', 'A', 'K1', '0 2', '1', '2', '3', '4', '5'],
  ['Hall', 'C2', '', 'B', '', '0 4', '1', '2', '3', '4', '5'],
];
const cylindersTable = (rows: Rows = CYLINDERS) =>
  tableOf('KeyrowCylinders', 'Cylinders', [
    ['System', 'Cylinder', 'Door', 'Symbol', 'Keyway', ...CHAMBERS],
    ...rows,
  ]);

/** The grid's own cells, as they stand at B4 of its sheet. */
const GRID: Rows = [
  ['Cylinder', 'Door', 'Symbol', 'M', 'A', 'B'],
  ['C1', 'Front', 'A', 'x', 'x', ''],
  ['C2', '', 'B', 'x', '', 'x'],
];

interface Sheets {
  readonly keys?: Rows;
  readonly cylinders?: Rows;
  readonly systems?: TableReading;
  readonly totals?: boolean;
  readonly more?: readonly TableReading[];
}

/** A book whose grid is `rows` of the sheet, of which the table has as many rows and columns as `GRID`. */
function bookWith(
  rows: Rows,
  above: Rows = [],
  { keys, cylinders, systems, totals, more = [] }: Sheets = {},
): BookReading {
  const table = tableOf('KeyrowGrid1', 'Grid', rows.slice(0, 3).map((row) => row.slice(0, 6)), { ...(totals && { totals }) }); // prettier-ignore
  const book = bookOf(systems ?? SYSTEMS, keysTable(keys), cylindersTable(cylinders), table, ...more);
  // the sheet is used from B2 on: two rows above the headings
  const blank = Array.from({ length: 2 - above.length }, () => [] as CellValue[]);
  const values = [...blank, ...above, ...rows];
  const width = Math.max(...values.map((row) => row.length));
  const used = { sheet: 'Grid', row: 1, column: 1, rows: values.length, columns: width };
  return {
    ...book,
    sheets: book.sheets.map((sheet) => (sheet.name === 'Grid' ? { ...sheet, used, values } : sheet)),
  };
}

function cellsOf(book: BookReading) {
  const { system } = auditInput(book, 'Hall')!;
  const table = book.tables.find(({ name }) => name === 'KeyrowGrid1')!;
  return readCells(
    book,
    table,
    system.keys.filter((k) => k.level !== 'control' && isInUse(k)),
    system,
  );
}
const read = (rows: Rows, above?: Rows, sheets?: Sheets) => cellsOf(bookWith(rows, above, sheets));
const with_ = (...more: Rows): Rows => [...GRID, ...more];
const beside = (columns: Rows, rows: Rows = GRID): Rows =>
  rows.map((row, r) => [...row, ...(columns[r] ?? [])]);
const at = (address: string) => ({ sheet: 'Grid', address });

describe('the cells of a grid that nothing was typed beside', () => {
  it('are its marks and nothing new', () => {
    const found = read(GRID);
    expect(found).toStrictEqual({
      box: { sheet: 'Grid', row: 3, column: 1, rows: 3, columns: 6 },
      newKeys: [],
      newCylinders: [],
      cells: [
        { key: 'M', cylinder: 'C1', at: at('E5') },
        { key: 'A', cylinder: 'C1', at: at('F5') },
        { key: 'M', cylinder: 'C2', at: at('E6') },
        { key: 'B', cylinder: 'C2', at: at('G6') },
      ],
      problems: [],
      columns: new Set(['m', 'a', 'b']),
      rows: new Set(['c1', 'c2']),
    });
  });

  it('are those of the table where the sheet was not read', () => {
    const book = bookWith(GRID);
    const bare = {
      ...book,
      sheets: book.sheets.map(({ name, visible, protected: p }) => ({ name, visible, protected: p })),
    };
    expect(cellsOf(bare)).toStrictEqual(cellsOf(book));
    expect(cellsOf({ ...book, sheets: [] })).toStrictEqual(cellsOf(book));
  });
});

describe('what is typed beside and below a grid', () => {
  it('is a new key where a column has marks, and a new cylinder where a row has', () => {
    const rows = beside([['N', 'Note'], ['x', 'see'], ['', ''], ['x', '']], with_(['C3', ' Shed ', ' C ', 'x', '', ''])); // prettier-ignore
    const found = read(rows);
    expect(found.box).toStrictEqual({ sheet: 'Grid', row: 3, column: 1, rows: 4, columns: 8 });
    expect(found.newKeys).toStrictEqual([{ symbol: 'N', at: at('H4') }]);
    expect(found.newCylinders).toStrictEqual([{ id: 'C3', symbol: 'C', door: 'Shed', at: at('B7') }]);
    expect(found.cells.map(({ key: k, cylinder, at: cell }) => `${k} ${cylinder} ${cell.address}`)).toEqual([
      'M C1 E5',
      'A C1 F5',
      'N C1 H5',
      'M C2 E6',
      'B C2 G6',
      'M C3 E7',
      'N C3 H7',
    ]);
    expect(found.problems).toEqual([]);
    expect([[...found.columns], [...found.rows]]).toEqual([
      ['m', 'a', 'b', 'n'],
      ['c1', 'c2', 'c3'],
    ]);
    // a gap ends it
    const gap = read(beside([['', 'Z'], ['', 'x']], [...with_(['', '', '', '', '', '']), ['C4', '', '', 'x', '', '']])); // prettier-ignore
    expect([gap.newKeys, gap.newCylinders]).toEqual([[], []]);
    // what stands below a totals row is no cylinder
    expect(read(with_(['Total', '', '', 'x', '', '']), [], { totals: true }).newCylinders).toEqual([]);
  });

  it('is named in any case, and may name no door and no symbol', () => {
    const found = read(beside([['n '], ['x'], [''], ['x']], with_(['C3', '', '', '', '', ''], ['c1', '', '', '', '', '']))); // prettier-ignore
    expect(found.newKeys).toStrictEqual([{ symbol: 'n', at: at('H4') }]);
    expect(found.newCylinders).toStrictEqual([{ id: 'C3', symbol: '', at: at('B7') }]);
    expect(told(found.problems)).toEqual(['fault Grid!B8 Cylinder “c1” has two rows. Take one away.']);
    // a cylinder that no key is marked for may be told by its symbol
    expect(read(with_(['C3', '', 'A', '', '', ''])).newCylinders).toHaveLength(1);
    expect(told(read(with_(['C3', 'Shed', '', '', '', ''])).problems)).toEqual([
      'fault Grid!B7 The new cylinder “C3” is marked for no key. Mark those that must operate it.',
    ]);
  });

  it('is told where it can’t be: names that stand twice or are gone, cells that are no marks', () => {
    const rows = beside([['a', 'OLD', 's9', 'N', 'n'], ['x', 'x', 'x', '?', 'x'], ['', '', '', 'x', '']]); // prettier-ignore
    const found = read(rows);
    const gone = (symbol: string): string =>
      `“${symbol}” is the symbol of a key that is void or retired. Give the new key another symbol.`;
    expect(told(found.problems)).toEqual([
      'fault Grid!H4 Key “a” has two columns. Take one away.',
      `fault Grid!I4 ${gone('OLD')}`,
      `fault Grid!J4 ${gone('s9')}`,
      'fault Grid!L4 Key “n” has two columns. Take one away.',
      'fault Grid!K5 “?” is no mark. Type ● or x where N must operate C1.',
    ]);
    expect(found.newKeys.map(({ symbol }) => symbol)).toEqual(['N']);
    // headings of what is no key may have marks below them
    expect(read(beside([['Location'], ['x'], ['']])).problems).toEqual([]); // prettier-ignore
  });
});

describe('what a grid says that its keys and cylinders are made of', () => {
  it('goes with what is new, from a column of its own and a row above or in the grid', () => {
    const rows = beside([['N', 'Keyway', 'Pins'], ['x', 'K1', ''], ['', '', ''], ['', 'K2', 5]], with_(['C3', '', '', 'x', '', ''])); // prettier-ignore
    const above = [['', 'Keyway', '', '', '', '', 'K3']];
    const found = read(rows, above);
    expect(found.problems).toEqual([]);
    expect(found.newKeys).toStrictEqual([{ symbol: 'N', at: at('H4'), metal: { blank: { text: 'K3', at: at('H3') } } }]); // prettier-ignore
    expect(found.newCylinders).toStrictEqual([
      {
        id: 'C3',
        symbol: '',
        at: at('B7'),
        metal: { blank: { text: 'K2', at: at('I7') }, cuts: { text: '5', at: at('J7') } },
      },
    ]);
    const inside = read(beside([['N'], ['x'], [''], ['K4']], with_(['Keyway', '', '', '', '', '']))); // prettier-ignore
    expect(inside.newKeys[0]!.metal).toStrictEqual({ blank: { text: 'K4', at: at('H7') } });
    expect(inside.newCylinders).toEqual([]);
  });

  it('is only compared with what stands, which stays', () => {
    const rows = beside([['Keyway'], ['K2'], ['K1']]);
    const above = [['Keyway', '', '', 'k1', 'K5', 'K6']];
    expect(told(read(rows, above).problems)).toEqual([
      'warning Grid!F3 The sheet Keys says the keyway K1 of A, and that stays. Correct one of the two.',
      'warning Grid!G3 The sheet Keys says no keyway of B, and that stays. Correct one of the two.',
      'warning Grid!H5 The sheet Cylinders says the keyway K1 of C1, and that stays. Correct one of the two.',
      'warning Grid!H6 The sheet Cylinders says no keyway of C2, and that stays. Correct one of the two.',
    ]);
  });
});

describe('what is no key and no cylinder beside a grid', () => {
  it('is a column that nothing is marked in, whatever stands above it', () => {
    const found = read(beside([['Remark', '1'], ['see', ''], ['', '']])); // prettier-ignore
    expect([found.newKeys, found.problems]).toEqual([[], []]);
    expect(found.box.columns).toBe(8);
    // without cores a key may be called anything
    expect(read(beside([['CTR'], ['x'], ['']])).newKeys.map(({ symbol }) => symbol)).toEqual(['CTR']); // prettier-ignore
    // the columns about the rows are no keys, even of that name
    const keys = [...KEYS, key('Door', '812345')];
    expect([...read(GRID, [], { keys }).columns]).toEqual(['m', 'a', 'b']);
  });

  it('is a row that names none', () => {
    const empty: Rows = [GRID[0]!, ['', '', '', '', '', ''], GRID[2]!];
    expect([...read(empty).rows]).toEqual(['c2']);
    expect(read(empty).problems).toEqual([]);
    const keyRow: Rows = [GRID[0]!, ['Keyway', '', '', 'K1', 'K1', ''], GRID[2]!];
    expect([...read(keyRow).rows]).toEqual(['c2']);
  });

  it('is told by the columns that the grid has, wherever they stand', () => {
    const turned: Rows = [
      ['M', 'A', 'B', 'N', 'Note', 'Cylinder'],
      ['x', 'x', '', 'x', '', 'C1'],
      ['x', '', 'x', '', '', 'C2'],
      ['x', '', '', '', '', 'C3'],
    ];
    const found = read(turned);
    expect(found.newCylinders).toStrictEqual([{ id: 'C3', symbol: '', at: at('G7') }]);
    expect(found.newKeys).toStrictEqual([{ symbol: 'N', at: at('E4') }]);
    expect(found.cells).toHaveLength(6);
  });
});

describe('a grid of cores', () => {
  const PINS = ['3', '5', '7', '5', '3', '5', '7'];
  const systems = tableOf('KeyrowSystems', 'Systems', [
    ['System', 'Spec', 'Top master', 'Array 1', 'Grid'],
    ['Hall', 'T-0125-7', '3575357', '5 7', 'KeyrowGrid1'],
  ]);
  const core = (symbol: string, bitting: string, level = 'control', status = 'issued') =>
    ['Hall', symbol, bitting, level, '', status] as const;
  const keys: Rows = [
    core('M', '3575357', 'MK'),
    core('CTR', '5753573'),
    core('CTR1', '7535753'),
    core('CTR0', '5757575', 'control', 'retired'),
  ];
  const cylinders = tableOf('KeyrowCylinders', 'Cylinders', [
    ['System', 'Cylinder', 'Symbol', ...CHAMBERS, 'Ch 7', 'Control'],
    ['Hall', 'C1', 'M', ...PINS, '5753573'],
  ]);
  const HEADINGS = ['Cylinder', 'Door', 'Symbol', 'M', 'ctr', 'CTR1'];
  const book = (...rows: Rows): BookReading => {
    const whole: Rows = [HEADINGS, ['C1', '', 'M', 'x', 'x', ''], ['', '', '', '', '', '']];
    const made = bookWith([...whole.slice(0, 2), ...rows], [], { systems, keys });
    const tables = made.tables.map((table) => (table.name === cylinders.name ? cylinders : table));
    return { ...bookOf(...tables), sheets: made.sheets };
  };
  const CONTROL = (symbol: string, cell: string) => ({ control: { text: symbol, at: at(cell) } });

  it('takes the control cuts of a new core from the control key that it is marked for', () => {
    const found = cellsOf(book(['C2', '', '', 'x', 'x', ''], ['C3', '', '', 'x', '', 'x'], ['C4', '', '', 'x', '-', ''])); // prettier-ignore
    expect(found.problems).toEqual([]);
    expect(found.newCylinders.map(({ id, metal }) => [id, metal])).toStrictEqual([
      ['C2', CONTROL('5753573', 'F6')],
      ['C3', CONTROL('7535753', 'G7')],
      ['C4', undefined],
    ]);
    // a control key turns nothing, so its marks are none of a key's
    expect(found.cells.map(({ key: k, cylinder }) => `${k} ${cylinder}`)).toEqual([
      'M C1',
      'M C2',
      'M C3',
      'M C4',
    ]);
    expect(found.newKeys).toEqual([]);
    expect([...found.columns]).toEqual(['m', 'ctr', 'ctr1']);
  });

  it('refuses a core of two control keys, or of other cuts than its key’s', () => {
    const both = cellsOf(book(['C2', '', '', 'x', 'x', 'x'], ['', '', '', '', '', '']));
    expect(told(both.problems)).toEqual([
      'fault Grid!G6 C2 is marked for two control keys, and a core is pulled by one. Take one mark away.',
    ]);
    const typed = (cuts: string) => {
      const made = book(['C2', '', '', 'x', 'x', '', cuts], ['', '', '', '', '', '']);
      const sheets = made.sheets.map((sheet) =>
        sheet.values
          ? { ...sheet, values: sheet.values.map((row, r) => (r === 2 ? [...row, 'Control'] : row)) }
          : sheet,
      );
      return cellsOf({ ...made, sheets });
    };
    expect(told(typed('7535753').problems)).toEqual([
      'fault Grid!H6 These are not the cuts of CTR, which C2 is marked for. Correct them, or take the mark away.',
    ]); // prettier-ignore
    const same = typed('5-7-5-3-5-7-3');
    expect(same.problems).toEqual([]);
    expect(same.newCylinders[0]!.metal).toStrictEqual(CONTROL('5-7-5-3-5-7-3', 'H6'));
    // what can't be read is told where the cuts are read
    expect(typed('x').problems).toEqual([]);
  });

  it('has no column for a control key that isn’t there', () => {
    const made = book(['C2', '', '', 'x', 'x', '', 'x'], ['', '', '', '', '', '']);
    const headed = (heading: string) =>
      cellsOf({
        ...made,
        sheets: made.sheets.map((sheet) =>
          sheet.values
            ? { ...sheet, values: sheet.values.map((row, r) => (r === 2 ? [...row, heading] : row)) }
            : sheet,
        ),
      });
    expect(told(headed('CTR7').problems)).toEqual([
      'fault Grid!H4 “CTR7” is no control key of this system yet. Clear this column, and type the control cuts of the new cores in a column Control: their key is made.',
    ]);
    expect(told(headed('CTR0').problems)).toEqual([
      'fault Grid!H4 “CTR0” is the symbol of a key that is void or retired. Give the new key another symbol.',
    ]);
    expect(headed('N').newKeys.map(({ symbol }) => symbol)).toEqual(['N']);
  });

  it('grows with the control cuts that its cores have, and its control keys stay out of the grid', () => {
    const found = readExtension(book(['C2', '', '', 'x', '', ''], ['', '', '', '', '', '']), 'Hall');
    if (!found.ok) throw new Error(told(found.error).join());
    const { grid } = found.value;
    // their columns are theirs, marked or not
    const quiet = cellsOf(book(['C2', '', '', 'x', '', ''], ['', '', '', '', '', '']));
    expect([...quiet.columns]).toEqual(['m', 'ctr', 'ctr1']);
    expect(grid.keys.map(({ symbol }) => symbol)).toEqual(['M']);
    expect(grid.cylinders.map(({ control }) => control?.join(''))).toEqual(['5753573', '5753573']);
  });
});

describe('a system that shall grow', () => {
  const grow = (rows: Rows, sheets?: Sheets, wish = NO_WISH) =>
    readExtension(bookWith(rows, [], sheets), 'hall', wish);
  const refused = (rows: Rows, sheets?: Sheets): string[] => {
    const found = grow(rows, sheets);
    return found.ok ? [] : told(found.error);
  };
  const BLIND =
    'A system is not extended blind: without it nobody knows which bittings are free. Supply it, key the new doors singly, or begin a new system.';

  it('keeps what stands, takes what is new from its grid, and avoids what was in use', () => {
    const rows = beside([['N'], ['x'], [''], ['x']], with_(['C3', '', 'A', '', '', ''])); // prettier-ignore
    const found = grow(rows);
    if (!found.ok) throw new Error(told(found.error).join());
    const { grid, avoid, marks, newKeys, newCylinders, system, problems } = found.value;
    expect([system.name, problems, found.value.faults.size]).toEqual(['Hall', [], 0]);
    expect(newKeys.map(({ symbol }) => symbol)).toEqual(['N']);
    expect(newCylinders.map(({ id }) => id)).toEqual(['C3']);
    expect(grid.keys.map(({ symbol }) => symbol)).toEqual(['M', 'A', 'B', 'N']);
    expect(grid.cylinders.map(({ id }) => id)).toEqual(['C1', 'C2', 'C3']);
    expect(grid.keys.at(-1)).toMatchObject({ keyway: 'K1' });
    // marks of the grid; C3 by its symbol A would be M's and A's too, but both have a column, so its cells count
    expect(marks.map(({ key: k, cylinder }) => `${k} ${cylinder}`)).toEqual([
      'M C1', 'A C1', 'N C1', 'M C2', 'B C2', 'N C3',
    ]); // prettier-ignore
    // the bittings of the retired and the void key, each once, and none that is in use
    expect(avoid.map((cuts) => cuts.join(''))).toEqual(['612345', '998877']);
  });

  it('is asked nothing of what stands, and says what is wrong with a cell', () => {
    const rows = beside([['N', 'Pins'], ['x', ''], ['', ''], ['x', 'five']], with_(['C3', '', '', '', '', ''])); // prettier-ignore
    const others = (text: string) => {
      const found = grow(rows, {}, { ...NO_WISH, others: text });
      if (!found.ok) throw new Error(told(found.error).join());
      return found.value;
    };
    for (const name of ['a', 'OLD', 'c1', 'Front'])
      expect(others(`K2: ${name}`).faults.get('others')).toBe(
        `${name} stands already and stays as it is. Only what is new is named here.`,
      );
    expect(others('K2: Attic').faults.get('others')).toContain('is no key and no door');
    expect(told(others('').problems)).toEqual([
      'fault Grid!I7 “five” is no number of cuts. Type one from 1 to 6.',
    ]);
  });

  it('avoids what was retired under the keyways of its new keys, once, and nothing that is free', () => {
    const works = tableOf('KeyrowSystems', 'Systems', [SYSTEMS.headers, SYSTEMS.values[0]!, ['Works', 'S-018-6', '', '', '', '']]); // prettier-ignore
    const retired = (symbol: string, bitting: string, keyway: string) =>
      ['Works', symbol, bitting, 'CK', '', 'retired', keyway] as const;
    const keys = [
      ...KEYS,
      key('F', '812345', 'CK', 'free'),
      retired('W1', '112233', 'K3'),
      retired('W2', '223344', 'K1'),
      retired('W3', '334455', 'K4'),
      retired('W4', '223344', 'K1'),
      retired('W5', '212345', 'K1'),
    ];
    const rows = beside([['N', 'Z'], ['x', 'x'], ['', '']]); // prettier-ignore
    const avoided = (others: string) => {
      const found = grow(rows, { systems: works, keys }, { ...NO_WISH, others });
      if (!found.ok) throw new Error(told(found.error).join());
      return found.value.avoid.map((cuts) => cuts.join(''));
    };
    expect(avoided('')).toEqual(['612345', '998877', '223344']);
    expect(avoided('K3: Z')).toEqual(['612345', '998877', '223344', '112233']);
  });

  it('leaves out the marks of a key that is gone', () => {
    const rows: Rows = GRID.map((row, r) => row.with(5, ['OLD', 'x', ''][r]!));
    const found = grow(rows);
    if (!found.ok) throw new Error(told(found.error).join());
    expect(found.value.marks.map(({ key: k }) => k)).not.toContain('OLD');
    expect(told(found.value.problems)[0]).toContain('OLD');
  });

  it('is meant by the hierarchy where the grid has no column or no row', () => {
    const narrow: Rows = [
      ['Cylinder', 'Door', 'Symbol', 'M', 'Note', ''],
      ['C1', '', 'A', '', '', ''],
      ['C3', '', 'A', '', '', ''],
    ];
    const found = grow(narrow);
    if (!found.ok) throw new Error(told(found.error).join());
    expect(found.value.marks.map(({ key: k, cylinder }) => `${k} ${cylinder}`)).toEqual([
      // A has no column; C2 no row; M has a column and is not marked there
      'A C1', 'M C2', 'B C2', 'A C3',
    ]); // prettier-ignore
  });

  it('is refused without a spec, an array, keys, or a grid', () => {
    const systems = (row: readonly CellValue[]) =>
      tableOf('KeyrowSystems', 'Systems', [SYSTEMS.headers, row]);
    expect(refused(GRID, { systems: systems(['Hall', 'S-9', 'K1']) })).toEqual([
      'fault Systems!B5 The spec of hall can’t be read. Mend it in the sheet Specs first.',
    ]);
    const unknown = readExtension(bookWith(GRID), 'Nowhere');
    expect(unknown.ok ? [] : unknown.error).toEqual([
      {
        sheet: '',
        address: '',
        severity: 'fault',
        sentence: 'The spec of Nowhere can’t be read. Mend it in the sheet Specs first.',
      },
    ]);
    expect(
      refused(GRID, { systems: systems(['Hall', 'S-018-6', 'K1', '012345', '', 'KeyrowGrid1']), keys: [] }),
    ).toEqual([
      `fault Systems!B5 Hall has no key bitting array that can be read. ${BLIND}`,
      `fault Systems!B5 Hall has no list of the bittings in use. ${BLIND}`,
    ]);
    expect(
      refused(GRID, { systems: systems(['Hall', 'S-018-6', 'K1', '012345', '', 'KeyrowGrid1']) }),
    ).toEqual([`fault Systems!B5 Hall has no key bitting array that can be read. ${BLIND}`]);
    expect(refused(GRID, { systems: systems(['Hall', 'S-018-6', 'K1', '012345', '2 4']) })).toEqual([
      expect.stringMatching(/^fault Keys!D8 OLD \(612345\) has a cut at position 1/),
    ]);
    expect(refused(GRID, { systems: systems(['Hall', 'S-018-6', 'K1', '012345', '2 4 6 8']) })).toEqual([
      'fault Systems!B5 This system has no grid to mark new doors and keys in. Type its name under Grid, or key the new doors singly.',
    ]);
  });

  it('is refused where a row can’t be read, or isn’t the array’s', () => {
    const keys = [
      ...KEYS,
      key('BAD', '01234x'),
      key('', '2'),
      key('C', '212346'),
      key('F', '777777', 'CK', 'free'),
    ];
    const cylinders = [...CYLINDERS, ['Hall', 'C9', '', 'A', '', 'x'], ['Nowhere', 'C8', '', 'A']];
    expect(refused(GRID, { keys, cylinders })).toEqual([
      `fault Keys!D10 The bitting of BAD can’t be read, so the list of bittings in use is not complete. ${BLIND}`,
      `fault Keys!D11 The bitting of this key can’t be read, so the list of bittings in use is not complete. ${BLIND}`,
      'fault Cylinders!G7 The pinning of cylinder C9 can’t be read, so nobody knows which new keys would operate it. Supply it, or take the row out.',
      'fault Keys!D12 C (212346) has a cut at position 6 that the key bitting array doesn’t hold: one of the two is not this system’s. Correct it first.',
    ]);
    // a top master that isn't known is none that a cut may be
    const headless = tableOf('KeyrowSystems', 'Systems', [
      SYSTEMS.headers,
      ['Hall', 'S-018-6', 'K1', '', '2 4 6 8', 'KeyrowGrid1'],
    ]);
    const book = bookWith(GRID, [], { systems: headless });
    const found = blindness(book.systems[0]!, auditInput(book, 'Hall')!);
    expect(found.map(({ address, sentence }) => `${address} ${sentence.slice(0, 34)}`)).toEqual([
      'D5 M (012345) has a cut at position 1',
      'D6 A (212345) has a cut at position 2',
      'D7 B (412345) has a cut at position 2',
      'D8 OLD (612345) has a cut at position',
    ]);
  });
});
