/** Keyways, blanks and control cuts named in a grid or in the pane: read, solved, written, and audited from the sheets. */
import { describe, expect, it } from 'vitest';
import { auditSystem } from '../../src/keying/audit.ts';
import { formatBitting, bittingOf } from '../../src/keying/bitting.ts';
import { solveGrid, gridOf, type Solved } from '../../src/keying/grid/index.ts';
import { evenTree, generateSystem } from '../../src/keying/hierarchy.ts';
import { auditInputOf } from '../../src/keying/intended.ts';
import { systemOfSolved } from '../../src/keying/solvedSystem.ts';
import type { Specification } from '../../src/keying/specification.ts';
import { runToEnd } from '../../src/keying/system.ts';
import {
  askedMetal,
  auditInput,
  chartOf,
  NO_WISH,
  operatingKeys,
  planExtension,
  planNewSystem,
  readExtension,
  type Extension,
  type GridChart,
  type MetalGround,
  type MetalWish,
} from '../../src/workbook/index.ts';
import type { CellValue } from '../../src/workbook/reading.ts';
import { openBook, type OpenBook } from '../support/office.ts';
import { at, MADE, put, reading, write, writeSystem } from './book.ts';
import { SPEC, starter } from './school.ts';

const CORES = starter('T-0125-7');
const chart = (cells: readonly (readonly CellValue[])[]): GridChart => {
  const rows = cells.length;
  const read = chartOf({
    box: { sheet: 'Doors', row: 0, column: 0, rows, columns: cells[0]!.length },
    values: cells,
    merged: [],
  });
  if (!read) throw new Error('no grid found');
  return read;
};
const asked = (
  cells: readonly (readonly CellValue[])[],
  wish: Partial<MetalWish> = {},
  ground: Partial<MetalGround> = {},
) => askedMetal(chart(cells), { ...NO_WISH, ...wish }, { spec: SPEC, blanks: [], ...ground });
const ways = (parts: readonly { readonly keyway?: string }[]) => parts.map(({ keyway }) => keyway);

const MIXED: CellValue[][] = [
  ['Keyway', '', '', '', 'K1', '', 'K2'],
  ['Cyl.', 'Door', 'Keyway', 'Pins', 'M', 'A', 'B'],
  ['1', 'Front', 'K1', '', 'x', 'x', ''],
  ['2', 'Store', 'K2', '', '', '', 'x'],
  ['3', 'Shed', '', 5, 'x', '', ''],
];

describe('a grid that names keyways', () => {
  it('has them in a row above its keys and a column beside its doors', () => {
    const read = chart(MIXED);
    expect(read.problems).toEqual([]);
    expect(
      read.keys.map((key) => [key.symbol, key.metal?.blank?.text, key.metal?.blank?.at.address]),
    ).toEqual([
      ['M', 'K1', 'E1'],
      ['A', undefined, undefined],
      ['B', 'K2', 'G1'],
    ]);
    expect(read.cylinders.map((c) => [c.id, c.metal?.blank?.text, c.metal?.cuts?.text])).toEqual([
      ['1', 'K1', undefined],
      ['2', 'K2', undefined],
      ['3', undefined, '5'],
    ]);
  });

  it('may have the row below its keys: no door is called Keyway, and no key K1', () => {
    const below = chart([MIXED[1]!, MIXED[0]!, ...MIXED.slice(2)]);
    expect(below.keys).toMatchObject(
      chart(MIXED).keys.map(({ symbol, metal }) => ({
        symbol,
        ...(metal && { metal: { blank: { text: metal.blank!.text } } }),
      })),
    );
    expect(below.cylinders.map(({ id }) => id)).toEqual(['1', '2', '3']);
  });

  it('takes a column headed Keyway beside unnamed doors for what it is', () => {
    const read = chart([
      ['', '', 'Whole house', 'Office'],
      ['', 'Keyway', 'M', 'A'],
      ['1', 'K1', 'x', 'x'],
      ['2', 'K1', 'x', ''],
      ['3', 'K1', 'x', ''],
    ]);
    expect(read.keys.map(({ symbol }) => symbol)).toEqual(['M', 'A']);
    expect(read.cylinders.map((c) => c.metal?.blank?.text)).toEqual(['K1', 'K1', 'K1']);
  });

  it('refuses two columns or rows about the same thing', () => {
    const twice = chart([
      ['Door', 'Keyway', 'Blank', 'M', 'A'],
      ['Keyway', '', '', 'K1', 'K1'],
      ['1', 'K1', 'K2', 'x', 'x'],
      ['2', 'K1', '', 'x', 'x'],
      ['3', 'K1', '', 'x', 'x'],
      ['Blank', '', '', 'K1', 'K2'],
    ]);
    expect(twice.problems.map((p) => [p.address, p.severity, p.sentence])).toEqual([
      ['C1', 'fault', 'B1 and C1 are about the same thing. Keep one of the two.'],
      ['A6', 'fault', 'A2 and A6 are about the same thing. Keep one of the two.'],
    ]);
  });

  it('refuses one name in merged cells', () => {
    const cells = MIXED;
    const merged = chartOf({
      box: { sheet: 'Doors', row: 0, column: 0, rows: 5, columns: 7 },
      values: cells,
      merged: [{ row: 0, column: 4, rows: 1, columns: 2 }],
    });
    expect(merged?.problems.map((p) => [p.address, p.severity])).toEqual([['E1', 'fault']]);
  });

  it('is filled up from the pane: a keyway for all, others by key and door', () => {
    const read = asked(MIXED, { blank: 'K1', others: 'K3: A; K4 5 cuts: Shed' });
    expect([...read.faults]).toEqual([]);
    expect(ways(read.keys)).toEqual(['K1', 'K3', 'K2']);
    expect(ways(read.cylinders)).toEqual(['K1', 'K2', 'K4']);
    // the spec is read from the bow, which is its stop: the sixth chamber is the last
    expect(read.cylinders[2]!.inUse).toEqual([true, true, true, true, true, false]);
    expect(read.keyway).toBe('K1');
  });

  it('has a sentence for each name that can’t be', () => {
    const blanks = [{ name: 'B1', keyways: ['K1', 'K2'], equivalents: [] }];
    const wrong = (others: string) => asked(MIXED, { others }, { blanks }).faults.get('others');
    expect(wrong('K1: Attic')).toBe(
      '“Attic” is no key and no door of this grid. Correct it, or take it out.',
    );
    expect(wrong('K1: M')).toBe('E1 in the sheet says K1 of M already. Take one of the two away.');
    expect(wrong('K1: A; K2: A')).toBe('A is named twice. Take it out of one of the two.');
    expect(wrong('K1 A')).toBe('“K1 A” names no keyway with its keys and doors. Type K2: A1, Store.');
    expect(wrong('K9: A')).toMatch(/^No blank of the sheet Blanks enters a keyway K9\./);
    const cells = MIXED.map((row) => row.map((cell) => (cell === 'K2' ? 'K7' : cell === 5 ? 'five' : cell)));
    expect(asked(cells, {}, { blanks }).problems.map((p) => [p.address, p.sentence.slice(0, 30)])).toEqual([
      ['G1', 'No blank of the sheet Blanks e'],
      ['C4', 'No blank of the sheet Blanks e'],
      ['D5', '“five” is no number of cuts. T'],
    ]);
  });

  it('refuses control cuts under a spec without cores, in a cell and in the pane', () => {
    const cells = [
      ['Door', 'Control', 'M'],
      ['1', '274153', 'x'],
    ];
    const read = asked(cells, { control: '274153' });
    expect(read.problems.map((p) => p.address)).toEqual(['B2']);
    expect(read.problems[0]!.sentence).toMatch(/^Control cuts belong to interchangeable cores/);
    expect(read.faults.get('control')).toMatch(/^Control cuts belong to interchangeable cores/);
  });

  it('tells a column of control keys from those of operating keys, by the spec', () => {
    const { keys } = chart([
      ['Door', 'M', 'CTR', 'CTR2'],
      ['1', 'x', 'x', ''],
      ['2', 'x', '', 'x'],
    ]);
    const under = (spec: Specification) => {
      const found = operatingKeys(keys, spec);
      return [found.keys.map(({ symbol }) => symbol), found.problems.map((p) => [p.address, p.severity])];
    };
    expect(under(CORES)).toEqual([['M'], [['D1', 'fault']]]);
    expect(under(SPEC)).toEqual([
      ['M', 'CTR', 'CTR2'],
      [
        ['C1', 'warning'],
        ['D1', 'warning'],
      ],
    ]);
  });
});

async function auditCounts(system: string) {
  const book = await reading();
  expect(book.problems.filter((p) => p.severity === 'fault')).toEqual([]);
  const { system: read, marks } = auditInput(book, system)!;
  return runToEnd(auditSystem(auditInputOf(read, marks), { near: false })).counts;
}

describe('a solved grid of two keyways and cores', () => {
  it('is written with its keyways, cuts and control keys, and its audit finds nothing', async () => {
    openBook();
    const cells: CellValue[][] = [
      ['Door', 'Control', 'Pins', 'M', 'A', 'B'],
      ['1', '', '', 'x', 'x', ''],
      ['2', '3575357', '', 'x', '', ''],
      ['3', '', 6, '', '', 'x'],
    ];
    const found = asked(
      cells,
      { blank: 'K1', others: 'K2 6 cuts: B, 3', control: '5753573' },
      { spec: CORES },
    );
    expect([...found.faults, ...found.problems]).toEqual([]);
    const grid = gridOf(CORES, found.keys, found.cylinders, chart(cells).marks);
    const answer = runToEnd(solveGrid(grid));
    if (answer.kind !== 'solved') throw new Error(answer.kind);
    const made = systemOfSolved(grid, answer, { name: 'Cores', keyway: 'K1' });
    if (!made.ok) throw new Error(made.error.code);
    await write(planNewSystem(await reading(), { ...made.value, keyway: 'K1' }, MADE));
    const [system] = (await reading()).systems;
    expect(system!.keyway).toBe('K1');
    expect(system!.keys.map((k) => [k.symbol, k.level, k.keyway, k.record?.cuts])).toEqual([
      ['M', 'CK', 'K1', undefined],
      ['A', 'CK', 'K1', undefined],
      ['B', 'CK', 'K2', 6],
      ['CTR', 'control', 'K1', undefined],
      ['CTR1', 'control', 'K1', undefined],
      ['CTR2', 'control', 'K2', undefined],
    ]);
    expect(system!.cylinders.map((c) => [c.id, c.keyway, formatBitting(CORES, c.control!)])).toEqual([
      ['1', 'K1', '5753573'],
      ['2', 'K1', '3575357'],
      ['3', 'K2', '5753573'],
    ]);
    // of seven chambers one is empty: that furthest from the stop, which the short blank does not reach
    expect(system!.cylinders[2]!.chambers!.filter((set) => set === -1)).toHaveLength(1);
    expect(await auditCounts('Cores')).toEqual({});
  });
});

async function hall(spec: Specification): Promise<OpenBook> {
  const book = openBook();
  const made = runToEnd(
    generateSystem({
      name: 'Hall',
      spec,
      levels: 3,
      grands: evenTree(3, { masters: 2, changeKeys: 3 }),
      order: 'scattered',
      seed: 5,
      keyway: 'K1',
    }),
  );
  if (!made.ok) throw new Error('does not fit');
  await writeSystem({ ...made, keyway: 'K1' });
  return book;
}

async function grown(wish: Partial<MetalWish> = {}): Promise<Extension> {
  const read = readExtension(await reading(), 'Hall', { ...NO_WISH, ...wish });
  if (!read.ok) throw new Error(read.error.map((p) => p.sentence).join(' '));
  return read.value;
}

async function extend(extension: Extension): Promise<Solved> {
  expect([...extension.faults, ...extension.problems]).toEqual([]);
  const { grid, avoid } = extension;
  const answer = runToEnd(solveGrid(grid, { avoid, sameMarks: 'different' }));
  if (answer.kind !== 'solved') throw new Error(answer.kind);
  const { plan } = planExtension(await reading(), extension, answer, MADE);
  expect(plan.conflicts).toEqual([]);
  await write(plan);
  return answer;
}

// The grid's headings stand in D4:L4 (A, AA, AA1–3, AB, AB1–3), with CTR in M4 under a spec of cores; C1–C6 in rows 5–10.
describe('a system that grows by another keyway', () => {
  it.each([
    ['above the grid', { M3: 'K2', A3: 'Keyway' }],
    ['in the grid', { A12: 'Keyway', M12: 'K2' }],
  ])('reads it from a row %s and a column beside it', async (_, row) => {
    const book = await hall(SPEC);
    await put(book, 'Grid', { M4: 'N', N4: 'Keyway', A11: 'C7', M11: 'x', N11: 'K2', ...row });
    const extension = await grown();
    expect(extension.newKeys.map(({ symbol }) => symbol)).toEqual(['N']);
    expect(extension.newCylinders.map(({ id }) => id)).toEqual(['C7']);
    await extend(extension);
    const [system] = (await reading()).systems;
    expect(system!.keys.at(-1)).toMatchObject({ symbol: 'N', keyway: 'K2' });
    expect(system!.cylinders.at(-1)).toMatchObject({ id: 'C7', keyway: 'K2' });
    expect(await auditCounts('Hall')).toEqual({});
  });

  it('takes it from the pane, and says what stands already', async () => {
    const book = await hall(SPEC);
    await put(book, 'Grid', { M4: 'N', A11: 'C7', B11: 'Boiler room', M11: 'x' });
    expect(ways((await grown()).grid.keys).at(-1)).toBe('K1');
    expect((await grown({ others: 'K2: AA1' })).faults.get('others')).toBe(
      'AA1 stands already and stays as it is. Only what is new is named here.',
    );
    await extend(await grown({ others: 'K2: N, Boiler room' }));
    const [system] = (await reading()).systems;
    expect([system!.keys.at(-1)!.keyway, system!.cylinders.at(-1)!.keyway]).toEqual(['K2', 'K2']);
    expect(await auditCounts('Hall')).toEqual({});
  });
});

describe('a system whose grid says otherwise of what stands', () => {
  it('keeps to the sheets Keys and Cylinders, and says so', async () => {
    const book = await hall(SPEC);
    await put(book, 'Grid', { M4: 'Keyway', M5: 'K2', M6: 'k1', A3: 'Keyway', F3: 'K3' });
    const { problems, grid } = await grown();
    expect(problems.map((p) => [p.address, p.severity, p.sentence])).toEqual([
      ['F3', 'warning', 'The sheet Keys says the keyway K1 of AA1, and that stays. Correct one of the two.'],
      [
        'M5',
        'warning',
        'The sheet Cylinders says the keyway K1 of C1, and that stays. Correct one of the two.',
      ],
    ]);
    expect(new Set([...ways(grid.keys), ...ways(grid.cylinders)])).toEqual(new Set(['K1']));
  });
});

describe('a system of cores that grows', () => {
  it('pulls a new core with the control key that it is marked for, and says nothing of the column', async () => {
    const book = await hall(CORES);
    expect(at(book.model, 'Grid', 'M4')).toBe('CTR');
    await put(book, 'Grid', { A11: 'C7', D11: 'x', M11: 'x' });
    await extend(await grown());
    const [system] = (await reading()).systems;
    const controls = system!.keys.filter(({ level }) => level === 'control');
    expect(controls.map(({ symbol }) => symbol)).toEqual(['CTR']);
    expect(system!.cylinders.at(-1)!.control).toEqual(controls[0]!.bitting);
    expect(await auditCounts('Hall')).toEqual({});
  });

  it('gets a further control key for cores of other control cuts', async () => {
    const book = await hall(CORES);
    const own = (await reading()).systems[0]!.cylinders[0]!.control!;
    const other = bittingOf(
      CORES,
      own.map((cut) => (cut >= 5 ? cut - 2 : cut + 2)),
    );
    await put(book, 'Grid', { A11: 'C7', D11: 'x', N4: 'Control', N11: formatBitting(CORES, own) });
    await put(book, 'Grid', { A12: 'C8', D12: 'x', N12: formatBitting(CORES, other) });
    await extend(await grown());
    const [system] = (await reading()).systems;
    expect(system!.keys.at(-1)).toMatchObject({ symbol: 'CTR1', level: 'control', keyway: 'K1' });
    expect(system!.keys.at(-1)!.bitting).toEqual(other);
    expect(system!.cylinders.slice(-2).map(({ control }) => control)).toEqual([own, other]);
    expect(await auditCounts('Hall')).toEqual({});
  });

  it('refuses a core that is marked for one control key and cut for another', async () => {
    const book = await hall(CORES);
    await put(book, 'Grid', { A11: 'C7', D11: 'x', M11: 'x', N4: 'Control', N11: '3575357' });
    expect((await grown()).problems.map((p) => [p.address, p.severity])).toEqual([['N11', 'fault']]);
  });
});
