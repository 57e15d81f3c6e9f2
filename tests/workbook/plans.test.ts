/** Plans as data, built from readings without Excel. */
import { describe, expect, it } from 'vitest';
import { describePlan, planCheckColumn, planNewSystem, planSpecs } from '../../src/workbook/index.ts';
import type { BookReading, TargetReading, WritePlan } from '../../src/workbook/index.ts';
import { large, school, SPEC, starter } from './school.ts';

const EMPTY: BookReading = {
  specs: [],
  systems: [],
  problems: [],
  tables: [],
  sheets: [{ name: 'Sheet1', visible: true, protected: false }],
  structureProtected: false,
  tableNames: [],
  summary: { specs: 0, systems: 0, keys: 0, cylinders: 0, marks: 0, faults: 0, warnings: 0 },
};
const MADE = { made: '24 Nov 2026' };

const cellsOf = (plan: WritePlan, sheet: string) =>
  plan.steps.flatMap((step) => (step.kind === 'write' && step.sheet === sheet ? step.cells : []));

describe('a new system in an empty workbook', () => {
  const plan = planNewSystem(EMPTY, school(), MADE);

  it('says in a sentence what it does', () => {
    expect(describePlan(plan).sentence).toBe(
      'Adds the sheet Specs with 1 row; adds the sheet Systems with 1 row; adds the sheet Keys with 7 rows; ' +
        'adds the sheet Cylinders with 4 rows; adds the sheet Grid with 4 rows; touches nothing else.',
    );
  });

  it('writes bittings and headings as text', () => {
    const formats = plan.steps.flatMap((s) =>
      s.kind === 'write' && s.sheet === 'Keys' && s.row === 4 ? [s.formats] : [],
    );
    expect(formats[0]?.[4]).toBe('text');
    const headings = plan.steps.find((s) => s.kind === 'write' && s.sheet === 'Grid' && s.row === 3);
    expect(headings).toMatchObject({ formats: Array.from({ length: 10 }, () => 'text') });
  });

  it('marks each cylinder for its own key and those above it', () => {
    expect(cellsOf(plan, 'Grid').slice(3, 5)).toEqual([
      ['C1', '0101', 'AA1', '●', '●', '', '●', '', '', ''],
      ['C2', '0102', 'AA2', '●', '●', '', '', '●', '', ''],
    ]);
  });

  it('marks sheets with bittings as secret', () => {
    for (const sheet of ['Systems', 'Keys', 'Cylinders'])
      expect(cellsOf(plan, sheet)[1]?.[0]).toContain('SECRET');
  });

  it('counts the cells that it writes', () => {
    const { cells, sheetsAdded } = describePlan(plan);
    expect(sheetsAdded).toBe(5);
    // title and line on five sheets, then header and rows: 22·2, 18·2, 12·8, 18·5, 10·5
    expect(cells).toBe(5 * 2 + 22 * 2 + 18 * 2 + 12 * 8 + 18 * 5 + 10 * 5);
  });
});

describe('what stands in the way of a new system', () => {
  it('is two keys of one symbol, also in different case', () => {
    const made = school();
    const twice = {
      ...made,
      system: { ...made.system, keys: [...made.system.keys, { ...made.system.keys[3]!, symbol: 'aa1' }] },
    };
    const plan = planNewSystem(EMPTY, twice, MADE);
    expect(plan.conflicts.map((c) => c.sentence)).toEqual(['There are two keys aa1. Rename one of them.']);
    expect(plan.steps).toEqual([]);
    expect(describePlan(plan).sentence).toBe('Can’t run: 1 thing in the way.');
  });

  it('is a spec of the same name with other dimensions', () => {
    const book: BookReading = {
      ...EMPTY,
      specs: [
        { name: SPEC.name, spec: { ...SPEC, macs: SPEC.macs + 1 }, at: { sheet: 'Specs', address: 'A5' } },
      ],
    };
    const [conflict] = planNewSystem(book, school(), MADE).conflicts;
    expect(conflict).toEqual({
      sentence: 'There is a spec S-018-6 with other dimensions. Give the new one another name.',
      at: { sheet: 'Specs', address: 'A5' },
    });
  });

  it('is a key called like a column of the grid', () => {
    const made = school();
    const keys = made.system.keys.map((key, i) => (i === 3 ? { ...key, symbol: 'Door' } : key));
    const plan = planNewSystem(EMPTY, { ...made, system: { ...made.system, keys } }, MADE);
    expect(plan.conflicts[0]?.sentence).toContain('the grid has a column of that name');
  });

  it('is a protected workbook', () => {
    const plan = planNewSystem({ ...EMPTY, structureProtected: true }, school(), MADE);
    expect(plan.conflicts[0]?.sentence).toContain('structure is protected');
  });
});

describe('a sheet name that the shop uses itself', () => {
  it('is left to the shop', () => {
    const book: BookReading = { ...EMPTY, sheets: [{ name: 'keys', visible: true, protected: false }] };
    const plan = planNewSystem(book, school(), MADE);
    expect(plan.effects.map((e) => e.sheet)).toContain('Keys (Keyrow)');
    expect(plan.conflicts).toEqual([]);
  });
});

describe('a grid of thousands of keys', () => {
  it('leaves out keys that say no more than their symbol', () => {
    const plan = planNewSystem(EMPTY, large(1000), MADE);
    const grid = cellsOf(plan, 'Grid');
    expect(grid[2]).toEqual(['Cylinder', 'Door', 'Symbol']);
    expect(String(grid[1]?.[0])).toContain('1,000 change keys');
  });

  it('keeps a key that opens another door as well', () => {
    const made = large(1000);
    const marks = [...made.marks, { key: 'K7', cylinder: 'L9' }];
    const grid = cellsOf(planNewSystem(EMPTY, { ...made, marks }, MADE), 'Grid');
    expect(grid[2]).toEqual(['Cylinder', 'Door', 'Symbol', 'K7']);
    expect(grid[2 + 7]).toEqual(['L7', '', 'K7', '●']);
    expect(grid[2 + 9]).toEqual(['L9', '', 'K9', '●']);
  });
});

describe('specs', () => {
  it('that are there already are nothing to write', () => {
    const book: BookReading = {
      ...EMPTY,
      specs: [{ name: SPEC.name, spec: SPEC, at: { sheet: 'Specs', address: 'A5' } }],
    };
    const plan = planSpecs(book, [SPEC], MADE);
    expect(plan).toMatchObject({ steps: [], conflicts: [] });
    expect(describePlan(plan).sentence).toBe('There is nothing to write.');
  });
});

describe('a check column', () => {
  const target: TargetReading = {
    box: { sheet: 'Doors', row: 2, column: 1, rows: 3, columns: 2 },
    headers: ['Door', 'Code'],
    values: [
      ['101', '213456'],
      ['102', '999'],
    ],
    right: ['', '', ''],
    protected: false,
    filtered: false,
    merged: false,
    totals: false,
  };
  const book: BookReading = {
    ...EMPTY,
    specs: [{ name: SPEC.name, spec: SPEC, at: { sheet: 'Specs', address: 'A5' } }],
  };

  it('points at each code from the cell beside it', () => {
    const plan = planCheckColumn(book, target, { codes: 1, spec: SPEC.name });
    expect(describePlan(plan).sentence).toBe(
      'Adds the column Bitting check to the right of Doors!B3:C5, 2 cells; touches nothing else.',
    );
    expect(cellsOf(plan, 'Doors')).toEqual([
      ['Bitting check'],
      [{ formula: '=KEYROW.WHY(C4,"S-018-6",KeyrowSpecs[#All])' }],
      [{ formula: '=KEYROW.WHY(C5,"S-018-6",KeyrowSpecs[#All])' }],
    ]);
  });

  it('names the column in a table, whatever its heading holds', () => {
    const table = { ...target, table: 'Doors', headers: ['Door', "Key [#] code's"] };
    const plan = planCheckColumn(book, table, { codes: 1, spec: SPEC.name });
    expect(cellsOf(plan, 'Doors')[1]).toEqual([
      // escapes of structured references as Excel documents them: an apostrophe before [ ] # and '
      { formula: `=KEYROW.WHY(Doors[@[Key '['#'] code''s]],"S-018-6",KeyrowSpecs[#All])` },
    ]);
  });

  it('never goes over a filled cell', () => {
    const plan = planCheckColumn(book, { ...target, right: ['', 'note', ''] }, { codes: 1, spec: SPEC.name });
    expect(plan.steps).toEqual([]);
    expect(plan.conflicts).toEqual([
      {
        sentence:
          'The check would go here, but the cell is not empty. Move its content or insert an empty column.',
        at: { sheet: 'Doors', address: 'D4' },
        holds: 'note',
      },
    ]);
  });

  it('brings a starter spec along', () => {
    const plan = planCheckColumn(EMPTY, target, { codes: 1, spec: starter('S-025-5').name });
    expect(plan.effects.map((e) => e.sheet)).toEqual(['Specs', 'Doors']);
  });

  it('refuses a spec that isn’t there', () => {
    expect(planCheckColumn(EMPTY, target, { codes: 1, spec: 'None' }).conflicts).toHaveLength(1);
  });
});

describe('a new sheet with formulas', () => {
  it('writes no cell twice, since the result of a formula is not what a blank wrote', () => {
    const plan = planNewSystem(EMPTY, school(), MADE);
    const seen = new Set<string>();
    for (const step of plan.steps) {
      if (step.kind !== 'write') continue;
      step.cells.forEach((row, r) =>
        row.forEach((_, c) => {
          const cell = `${step.sheet} ${step.row + r} ${step.column + c}`;
          expect(seen.has(cell), cell).toBe(false);
          seen.add(cell);
        }),
      );
    }
  });
});
