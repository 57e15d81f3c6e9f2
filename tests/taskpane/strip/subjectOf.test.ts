import { describe, expect, it } from 'vitest';
import { depthSetOf } from '../../../src/keying/depthSet.ts';
import type { BookReading, CylinderRow, KeyRow, Place, SystemReading } from '../../../src/workbook/index.ts';
import { subjectOf } from '../../../taskpane/strip/subjectOf.ts';
import { key, starter } from '../../support/keys.ts';

const spec = starter('S-018-6');
const at = (address: string): Place => ({ sheet: 'Keys', address });

function keyRow(symbol: string, code: string, parent: string | undefined, row: number): KeyRow {
  const bitting = key(spec, code);
  const level = parent === undefined ? ('MK' as const) : ('CK' as const);
  const under = parent === undefined ? {} : { parent };
  return {
    system: 'School',
    symbol,
    bittingText: code,
    bitting,
    level,
    status: 'issued',
    specName: spec.name,
    record: { symbol, level, bitting, status: 'issued', ...under },
    at: { row: at(`A${row}`), system: at(`A${row}`), symbol: at(`B${row}`), bitting: at(`C${row}`) },
    ...under,
  };
}

function cylinderRow(
  id: string,
  symbol: string,
  chambers: readonly (readonly number[])[],
  row: number,
): CylinderRow {
  return {
    system: 'School',
    id,
    symbol,
    door: `Room ${id}`,
    chambers: chambers.map(depthSetOf),
    at: {
      row: at(`K${row}`),
      system: at(`J${row}`),
      symbol: at(`L${row}`),
      chambers: chambers.map((_, i) => at(`${'MNOPQR'[i]!}${row}`)),
    },
  };
}

// AA is the master; 101 is pinned for AA and AA1; 102 for AA2 alone, so that AA is locked out of it
const aa = keyRow('AA', '274153', undefined, 2);
const aa1 = keyRow('AA1', '472335', 'AA', 3);
const aa2 = keyRow('AA2', '494331', 'AA', 4);
const c101 = cylinderRow('101', 'AA1', [[2, 4], [7], [2, 4], [1, 3], [3, 5], [3, 5]], 2);
const c102 = cylinderRow('102', 'AA2', [[4], [9], [4], [3], [3], [1]], 3);
const system: SystemReading = {
  name: 'School',
  specName: spec.name,
  spec,
  keys: [aa, aa1, aa2],
  cylinders: [c101, c102],
  at: at('A1'),
};
const book: BookReading = {
  specs: [],
  systems: [system],
  problems: [{ ...at('C9'), severity: 'fault', sentence: 'The code has 5 cuts; this spec has 6.' }],
  tables: [],
  sheets: [],
  structureProtected: false,
  tableNames: [],
  summary: { specs: 1, systems: 1, keys: 3, cylinders: 2, marks: 0, faults: 1, warnings: 0 },
};

describe('from the selected cell to the strip', () => {
  it('finds the doors of a key, those it is locked out of too', () => {
    const subject = subjectOf(book, { kind: 'key', system, key: aa, at: at('C2') });
    expect(subject).toMatchObject({
      kind: 'key',
      symbol: 'AA',
      doors: [
        { name: 'Room 101', state: 'opens' },
        { name: 'Room 102', state: 'lock-out' },
      ],
    });
  });

  it('finds the keys of a cylinder', () => {
    const subject = subjectOf(book, { kind: 'cylinder', system, cylinder: c102, at: at('K3') });
    expect(subject).toMatchObject({
      kind: 'cylinder',
      cylinder: { id: '102', door: 'Room 102' },
      keys: [
        { name: 'AA', state: 'lock-out' },
        { name: 'AA2', state: 'opens' },
      ],
    });
  });

  it('tells why at a cell of the grid, and refuses a blank of another keyway', () => {
    const cell = { kind: 'grid', system, key: aa2, cylinder: c101, marked: false, at: at('C2') } as const;
    expect(subjectOf(book, cell)).toMatchObject({
      kind: 'grid-cell',
      why: { symbol: 'AA2', state: 'closed' },
    });
    const other = { ...aa1, record: { ...aa1.record!, keyway: 'K1' } };
    expect(subjectOf(book, { ...cell, key: other, cylinder: { ...c101, keyway: 'K2' } })).toMatchObject({
      why: { wrongKeyway: { key: 'K1', cylinder: 'K2' }, state: 'lock-out' },
    });
  });

  it('takes a head of the grid for its key or its cylinder', () => {
    const head = { kind: 'grid', system, marked: false, at: at('C1') } as const;
    expect(subjectOf(book, { ...head, key: aa })).toMatchObject({ kind: 'key', symbol: 'AA' });
    expect(subjectOf(book, { ...head, cylinder: c101 })).toMatchObject({ kind: 'cylinder' });
    expect(subjectOf(book, head)).toEqual({ kind: 'nothing' });
  });

  it('says what is wrong with a row that can’t be read', () => {
    const unread: KeyRow = {
      system: 'School',
      symbol: 'AA9',
      bittingText: '27415',
      specName: spec.name,
      at: keyRow('AA9', '274153', 'AA', 9).at,
    };
    expect(subjectOf(book, { kind: 'key', system, key: unread, at: at('C9') })).toEqual({
      kind: 'unreadable',
      name: 'AA9',
      sentence: 'The code has 5 cuts; this spec has 6.',
    });
  });

  it('finds a bitting that another key of the system already has', () => {
    const twin = keyRow('AA7', '472335', 'AA', 7);
    const both = { ...system, keys: [aa, aa1, twin] };
    const subject = subjectOf(
      { ...book, systems: [both] },
      { kind: 'key', system: both, key: twin, at: at('C7') },
    );
    expect(subject).toMatchObject({
      findings: expect.arrayContaining([{ code: 'already-used', symbol: 'AA1', status: 'issued' }]),
    });
  });
});
