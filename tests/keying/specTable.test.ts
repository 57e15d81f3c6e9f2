import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatDepthSet, parseDepthSet } from '../../src/keying/chamberText.ts';
import { depthSetOf, EVERY, NONE } from '../../src/keying/depthSet.ts';
import {
  foldName,
  readSpecTable,
  sameDimensions,
  SPEC_COLUMNS,
  specTableRow,
  type Cell,
  type SpecColumn,
} from '../../src/keying/specTable.ts';
import { saySpecFault } from '../../src/keying/specWording.ts';
import { makeSpecification, type Depth, type Specification } from '../../src/keying/specification.ts';
import { starterSpec } from '../../src/keying/starters.ts';
import { inches, lengthOf } from '../../src/keying/units.ts';

/** Ten depths from 0.315 in by 0.018 in, six cuts from 0.237 in by 0.156 in: common practice. */
const GOOD: Record<SpecColumn, Cell> = {
  Name: 'House 6',
  Title: 'Six cuts, the shop’s own',
  Unit: 'in',
  Gauge: 'shoulder',
  Order: 'bow-to-tip',
  Cuts: 6,
  'First cut': 0.237,
  Spacing: 0.156,
  Centres: '',
  Depths: '0=0.315; 1=0.297; 2=0.279; 3=0.261; 4=0.243; 5=0.225; 6=0.207; 7=0.189; 8=0.171; 9=0.153',
  'Root width': 0.054,
  Angle: 90,
  MACS: 5,
  Step: '',
  Tolerance: '',
  'Blade height': '',
  'Plug diameter': 0.5,
  'Target stack': '',
  'Core total': '',
  'Core addition': '',
  Pins: '',
  Source: '',
};

const tableOf = (...rows: Partial<Record<SpecColumn, Cell>>[]): Cell[][] => [
  [...SPEC_COLUMNS],
  ...rows.map((row) => SPEC_COLUMNS.map((c) => ({ ...GOOD, ...row })[c])),
];
const faultsOf = (cells: Cell[][]) => readSpecTable(cells).faults.map((f) => [f.row, f.column, f.fault.code]);

describe('the Specs table', () => {
  it('reads a row with the defaults of the trade', () => {
    const spec = readSpecTable(tableOf({})).specs.get('house 6')!;
    expect(spec.centres.map(Number)).toEqual(
      [0.237, 0.393, 0.549, 0.705, 0.861, 1.017].map((x) => inches(x) as number),
    );
    expect(spec.depths[9]).toEqual({ symbol: '9', root: inches(0.153) });
    expect(spec.step).toBe(2); // 0.018 in is below 0.023 in: two-step (common practice)
    expect(spec.tolerance).toBe(inches(0.002)); // common practice
    expect(spec).not.toHaveProperty('core');
  });

  it('finds headers in any order and case, and leaves the shop’s own columns and blank rows alone', () => {
    const [header, row] = tableOf({});
    const mixed: Cell[][] = [
      ['Notes', ...[...header!].reverse().map((h) => ` ${String(h).toUpperCase()} `)],
      ['', ...header!.map(() => null)],
      ['ask first', ...[...row!].reverse()],
    ];
    const table = readSpecTable(mixed);
    expect(table.faults).toEqual([]);
    expect(table.rows.map((r) => [r.row, r.name])).toEqual([[2, 'House 6']]);
    expect(table.specs.get('house 6')).toEqual(readSpecTable(tableOf({})).specs.get('house 6'));
  });

  it('takes uneven depths, letters, an explicit list of centres and pins', () => {
    const spec = readSpecTable(
      tableOf({
        Cuts: 5,
        'First cut': null,
        Spacing: null,
        Centres: '0.2; 0.35; 0.5; 0.66; 0.8',
        Depths: 'A: .3\nB: 0,28; C=0.25',
        MACS: '2',
        Pins: 'c=0.26 in',
        Angle: '86°',
      }),
    ).specs.get('house 6')!;
    expect(spec.centres[3]).toBe(inches(0.66));
    expect(spec.depths).toEqual([
      { symbol: 'A', root: inches(0.3) },
      { symbol: 'B', root: inches(0.28) },
      { symbol: 'C', root: inches(0.25), pin: inches(0.26) },
    ]);
    expect(spec.angle).toBe(86);
  });

  it.each<[Partial<Record<SpecColumn, Cell>>, SpecColumn, string]>([
    [{ Name: '' }, 'Name', 'cell-blank'],
    [{ Unit: 'cm' }, 'Unit', 'cell-not-choice'],
    [{ Gauge: 'handle' }, 'Gauge', 'cell-not-choice'],
    [{ Cuts: 'six' }, 'Cuts', 'cell-not-number'],
    [{ Cuts: 12 }, 'Cuts', 'positions-out-of-range'],
    [{ Cuts: true }, 'Cuts', 'cell-not-number'],
    [{ 'First cut': '' }, 'First cut', 'centres-missing'],
    [{ 'First cut': 'wide' }, 'First cut', 'cell-not-length'],
    [{ Spacing: 0 }, 'Spacing', 'centres-not-rising'],
    [{ Centres: '0.2; 0.3' }, 'Centres', 'centres-twice'],
    [{ Depths: '0.315, 0.297' }, 'Depths', 'list-not-depths'],
    [{ Depths: '0=0.315; 0=0.297' }, 'Depths', 'list-symbol-repeated'],
    [{ Depths: '0=0.315; 1=0.315; 2=0.3', MACS: 2 }, 'Depths', 'depth-root-repeated'],
    [{ 'Root width': -1 }, 'Root width', 'not-positive'],
    [{ MACS: 2.5 }, 'MACS', 'macs-bad'],
    [{ Step: 99 }, 'Step', 'step-bad'],
    [{ 'Core total': 16 }, 'Core addition', 'core-half'],
    [{ 'Core addition': 7 }, 'Core total', 'core-half'],
    [{ 'Core total': 0, 'Core addition': 7 }, 'Core total', 'core-bad'],
    [{ 'Core total': 16, 'Core addition': 0 }, 'Core addition', 'core-bad'],
    [{ 'First cut': 0 }, 'First cut', 'centres-not-rising'],
    [{ 'First cut': '', Spacing: '', Centres: '0.2; 0.3' }, 'Centres', 'centres-count'],
    [{ 'First cut': '', Centres: '0.2; 0.3' }, 'Centres', 'centres-twice'],
    [{ Spacing: '', Centres: '0.2; 0.3' }, 'Centres', 'centres-twice'],
    [
      { 'First cut': '', Spacing: '', Centres: '0.3; 0.2; 0.4; 0.5; 0.6; 0.7' },
      'Centres',
      'centres-not-rising',
    ],
    [{ Angle: 180 }, 'Angle', 'angle-too-wide'],
    [{ Angle: -1 }, 'Angle', 'not-positive'],
    [{ Tolerance: -0.001 }, 'Tolerance', 'not-positive'],
    [{ Tolerance: 'tight' }, 'Tolerance', 'cell-not-length'],
    [{ 'Core total': 'many', 'Core addition': 7 }, 'Core total', 'cell-not-number'],
    [{ 'First cut': true }, 'First cut', 'cell-not-length'],
    [{ Pins: 'X=0.2' }, 'Pins', 'pin-without-depth'],
  ])('reports %j in the column %s', (change, column, code) => {
    const table = readSpecTable(tableOf({ Name: 'Another' }, change));
    expect(table.faults.map((f) => [f.row, f.column, f.fault.code])).toEqual([[2, column, code]]);
    expect(table.faults[0]!.at).toBe(SPEC_COLUMNS.indexOf(column));
    expect([...table.specs.keys()]).toEqual(['another']);
    expect(saySpecFault(table.faults[0]!)).toMatch(new RegExp(`.*(${column}|centre|Centre).*[.]$`));
  });

  it('reports every fault of a row', () => {
    const found = faultsOf(tableOf({ Unit: '', Cuts: 'x', Angle: 'steep' }));
    expect(found.map(([, column]) => column)).toEqual(['Unit', 'Cuts', 'Angle']);
  });

  it('reports a missing and a repeated column once, and reads no row', () => {
    const without = tableOf({}).map((row) => row.filter((_, i) => i !== SPEC_COLUMNS.indexOf('MACS')));
    expect(faultsOf(without)).toEqual([[0, 'MACS', 'column-missing']]);
    const twice = tableOf({}).map((row, i) => [...row, i === 0 ? 'unit' : 'mm']);
    expect(faultsOf(twice)).toEqual([[0, 'Unit', 'column-repeated']]);
    expect(readSpecTable(twice).specs.size).toBe(0);
    expect(faultsOf([])).toEqual([[0, 'Name', 'table-empty']]);
  });

  it('writes uneven centres as a list, and pins and core where the spec has them', () => {
    const row = (change: Partial<Record<SpecColumn, Cell>>) => {
      const cells = specTableRow(readSpecTable(tableOf(change)).specs.get('house 6')!);
      return Object.fromEntries(SPEC_COLUMNS.map((column, i) => [column, cells[i]]));
    };
    expect(row({})).toMatchObject({
      'First cut': 0.237,
      Spacing: 0.156,
      Centres: '',
      Pins: '',
      Source: '',
      'Core total': '',
      'Core addition': '',
      'Blade height': '',
    });
    const uneven = {
      'First cut': '',
      Spacing: '',
      Centres: '0.237; 0.393; 0.549; 0.705; 0.861; 1',
      Pins: '0=0.185; 9=0.347',
      'Core total': 16,
      'Core addition': 7,
      Source: 'a data sheet',
    };
    expect(row(uneven)).toMatchObject(uneven);
  });

  it('finds a repeated column at the very left, and names with odd spaces', () => {
    const twice = tableOf({}).map((row, i) => [i === 0 ? 'first  CUT' : 0.2, ...row]);
    expect(readSpecTable(twice).faults).toEqual([
      {
        row: 0,
        column: 'First cut',
        at: 1 + SPEC_COLUMNS.indexOf('First cut'),
        fault: { code: 'column-repeated' },
      },
    ]);
    expect(readSpecTable([[null, ''], ['x']]).faults).toEqual([
      { row: 0, column: 'Name', at: -1, fault: { code: 'table-empty' } },
    ]);
    expect(
      readSpecTable([
        [null, 'Name'],
        [null, 'x'],
      ]).faults.map((f) => f.fault.code),
    ).not.toContain('table-empty');
  });

  it('gives no spec for a repeated name', () => {
    const table = readSpecTable(tableOf({}, { Name: 'Other' }, { Name: ' HOUSE 6', MACS: 4 }));
    expect(table.faults.map((f) => [f.row, f.fault.code])).toEqual([
      [1, 'name-repeated'],
      [3, 'name-repeated'],
    ]);
    expect([...table.specs.keys()]).toEqual(['other']);
    expect(table.faults.map((f) => f.at)).toEqual([0, 0]);
    expect(table.rows.map((r) => [r.name, 'spec' in r])).toEqual([
      ['House 6', false],
      ['Other', true],
      ['HOUSE 6', false],
    ]);
  });

  it('keeps reserved names for their own dimensions', () => {
    const starter = starterSpec('S-018-6')!;
    const header = [...SPEC_COLUMNS];
    const changed = specTableRow({ ...starter, name: 's-018-6', title: 'ours', macs: 4 });
    expect(faultsOf([header, changed])).toEqual([[1, 'Name', 'name-reserved']]);
    const renamed = { ...starter, title: 'renamed' };
    const same = readSpecTable([header, specTableRow(renamed)]);
    expect(same.faults).toEqual([]);
    expect(same.specs.get('s-018-6')).toEqual(renamed);
  });

  it('writes what it reads back, for any specification', () => {
    fc.assert(
      fc.property(anySpecification(), (spec) => {
        const table = readSpecTable([[...SPEC_COLUMNS], specTableRow(spec)]);
        expect(table.faults).toEqual([]);
        expect([...table.specs.values()]).toEqual([spec]);
      }),
    );
  });
});

/** Any specification, even or uneven, in either unit, down to the nanometre. */
function anySpecification(): fc.Arbitrary<Specification> {
  const length = fc.integer({ min: 1, max: 20_000_000 }).map(lengthOf);
  const symbols = fc.uniqueArray(fc.stringMatching(/^[0-9A-Z]{1,2}$/), { minLength: 2, maxLength: 26 });
  const roots = fc.uniqueArray(length, { minLength: 26, maxLength: 26 });
  const pins = fc.array(fc.option(length, { nil: undefined }), { minLength: 26, maxLength: 26 });
  const depths = fc.tuple(symbols, roots, pins).map(([s, r, p]) =>
    s.map((symbol, i): Depth => {
      const pin = p[i];
      return pin === undefined ? { symbol, root: r[i]! } : { symbol, root: r[i]!, pin };
    }),
  );
  const centres = fc.oneof(
    fc.record({ first: length, spacing: length, positions: fc.integer({ min: 4, max: 8 }) }),
    fc
      .uniqueArray(length, { minLength: 4, maxLength: 8 })
      .map((c) => ({ centres: c.sort((a, b) => a - b), positions: c.length })),
  );
  const text = fc.string({ minLength: 1 }).map((t) => `n${t.trim()}`);
  return fc
    .tuple(
      fc.record({
        name: text,
        title: text,
        unit: fc.constantFrom('in' as const, 'mm' as const),
        gauge: fc.constantFrom('shoulder' as const, 'tip' as const),
        order: fc.constantFrom('bow-to-tip' as const, 'tip-to-bow' as const),
        depths,
        rootWidth: length,
        angle: fc.integer({ min: 1, max: 179 }),
        macs: fc.constant(1),
        step: fc.constant(1),
        tolerance: length,
      }),
      centres,
      fc.record(
        {
          targetStack: length,
          source: text,
          core: fc.record({
            total: fc.integer({ min: 1, max: 40 }),
            addition: fc.integer({ min: 1, max: 20 }),
          }),
        },
        { requiredKeys: [] },
      ),
    )
    .map(([base, where, optional]) => {
      const { core, ...rest } = optional;
      // a core has even steps only: 0.3 mm each here
      const sorted = [...base.depths].sort((a, b) => b.root - a.root);
      const even = sorted.map((d, i) => ({
        ...d,
        root: lengthOf(1_000_000 + (sorted.length - i) * 300_000),
      }));
      const made = makeSpecification({ ...base, ...where, ...rest, ...(core && { core, depths: even }) });
      if (!made.ok) throw new Error(JSON.stringify(made.error));
      return made.value;
    });
}

describe('the depths of a chamber', () => {
  const spec = readSpecTable(tableOf({})).specs.get('house 6')!;

  it('reads depths set apart, in any order, and an empty chamber', () => {
    for (const text of ['2 6', '2/6', ' 6, 2 ', '2-6', '２ ６'])
      expect(parseDepthSet(spec, text)).toEqual({ ok: true, value: depthSetOf([2, 6]) });
    expect(parseDepthSet(spec, 'Any')).toEqual({ ok: true, value: EVERY });
    expect(parseDepthSet(spec, 4)).toEqual({ ok: true, value: depthSetOf([4]) });
  });

  it.each([
    ['', 'chamber-blank'],
    ['26', 'chamber-run-together'],
    ['2 2', 'chamber-depth-repeated'],
    ['2 X', 'chamber-depth-unknown'],
    ['2?', 'chamber-not-depths'],
    ['-', 'chamber-not-depths'],
  ])('refuses %j: %s', (text, code) => {
    const read = parseDepthSet(spec, text);
    expect(read.ok ? [] : read.error.map((f) => f.code)).toEqual([code]);
  });

  it('refuses a number that a date or a run of depths has become', () => {
    expect(parseDepthSet(spec, 26)).toMatchObject({ error: [{ suggestion: '2 6' }] });
    expect(parseDepthSet(spec, 45_809.5).ok).toBe(false);
  });

  it('writes what it reads back, for any chamber', () => {
    fc.assert(
      fc.property(fc.subarray([0, 1, 2, 3, 4, 5, 6, 7, 8, 9], { minLength: 1 }), (indices) => {
        const set = depthSetOf(indices);
        expect(parseDepthSet(spec, formatDepthSet(spec, set))).toEqual({ ok: true, value: set });
      }),
    );
    expect(formatDepthSet(spec, EVERY)).toBe('any');
    expect(formatDepthSet(spec, NONE)).toBe('');
  });
});

describe('where a fault of the table is', () => {
  it('is its cell: row, column and the place of the column, −1 where that is missing', () => {
    const [header, row] = tableOf({});
    const without = (column: SpecColumn) => {
      const at = SPEC_COLUMNS.indexOf(column);
      return [header!, row!].map((cells) => cells.filter((_, i) => i !== at));
    };
    expect(readSpecTable(without('Depths')).faults).toEqual([
      { row: 0, column: 'Depths', at: -1, fault: { code: 'column-missing' } },
    ]);
    expect(readSpecTable(without('Title')).faults).toEqual([]);
    expect(readSpecTable(without('Tolerance')).specs.get('house 6')).toEqual(
      readSpecTable(tableOf({})).specs.get('house 6'),
    );
    const moved = tableOf({}, { Name: ' HOUSE 6 ' }).map((cells) => ['x', ...cells]);
    expect(readSpecTable(moved).faults).toEqual([
      { row: 1, column: 'Name', at: 1, fault: { code: 'name-repeated', name: 'House 6', row: 2 } },
      { row: 2, column: 'Name', at: 1, fault: { code: 'name-repeated', name: 'HOUSE 6', row: 1 } },
    ]);
    expect(readSpecTable([[], ['x']])).toEqual({
      specs: new Map(),
      rows: [],
      faults: [{ row: 0, column: 'Name', at: -1, fault: { code: 'table-empty' } }],
    });
  });

  it('is none of two rows without a name but that they have none', () => {
    const { faults } = readSpecTable(tableOf({ Name: '' }, { Name: ' ' }));
    expect(faults.map((f) => [f.row, f.column, f.fault.code])).toEqual([
      [1, 'Name', 'cell-blank'],
      [2, 'Name', 'cell-blank'],
    ]);
  });
});

describe('names and dimensions', () => {
  it('are the same in whatever case, width and blanks at the ends', () => {
    expect(foldName(' Ｈouse 6\u00A0')).toBe('house 6');
  });

  it('are the same dimensions in whatever order they are written down, and under any name', () => {
    const spec = starterSpec('S-018-6')!;
    const turned = Object.fromEntries(Object.entries(spec).reverse()) as unknown as Specification;
    expect(sameDimensions(spec, { ...turned, name: 'other', title: 'x', source: 'y' })).toBe(true);
    expect(sameDimensions(spec, { ...spec, macs: spec.macs + 1 })).toBe(false);
    expect(sameDimensions(spec, { ...spec, depths: spec.depths.slice(1) })).toBe(false);
  });
});
