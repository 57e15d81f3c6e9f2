/** The schedule's screens, without a browser: columns by role, the verdict, the spellings on offer. */
import { describe, expect, it } from 'vitest';
import { withRole } from '../../taskpane/schedule/ColumnMap.tsx';
import { shownBlanks } from '../../taskpane/schedule/FixList.tsx';
import { offeredFixes, verdict } from '../../taskpane/schedule/ScheduleResult.tsx';
import type { ScheduleFindingLine } from '../../src/workbook/index.ts';

describe('columns', () => {
  const columns = { headerRow: 4, door: 0, symbol: 3 };
  it('have one role each', () => {
    expect(withRole(columns, 'location', 3)).toEqual({ headerRow: 4, door: 0, location: 3 });
    expect(withRole(columns, 'symbol', -1)).toEqual({ headerRow: 4, door: 0 });
    expect(withRole(columns, 'door', 2)).toEqual({ headerRow: 4, door: 2, symbol: 3 });
  });
  it('never lose that of the doors', () => {
    expect(withRole(columns, 'location', 0)).toMatchObject({ door: 0 });
    expect(withRole(columns, 'door', -1)).toMatchObject({ door: 0 });
  });
});

const at = { sheet: 'Doors', address: 'D7' };
const LINES: readonly ScheduleFindingLine[] = [
  { severity: 'fault', sentence: '', at, finding: { code: 'no-door', row: 6, role: 'symbol' } },
  {
    severity: 'warning',
    sentence: '',
    at,
    finding: {
      code: 'symbol-untidy',
      why: 'spaces',
      fix: { from: 'AA1 ', to: 'AA1' },
      row: 6,
      role: 'symbol',
    },
  },
  { severity: 'note', sentence: '', finding: { code: 'spare-keys', count: 2 } },
];

describe('the verdict', () => {
  it('counts faults and warnings, and leaves notes out', () => {
    expect(verdict(LINES, 60)).toBe('1 fault and 1 warning in 60 rows.');
    expect(verdict(LINES.slice(2), 1204)).toBe('Nothing wrong in 1,204 rows.');
  });
});

describe('spellings', () => {
  it('are offered with their cell, blanks made visible', () => {
    expect(offeredFixes(LINES)).toEqual([
      { at, why: 'spaces', fix: { row: 6, role: 'symbol', from: 'AA1 ', to: 'AA1' } },
    ]);
    expect(shownBlanks('AA1\u00A0 ')).toBe('AA1␣␣');
  });
});
