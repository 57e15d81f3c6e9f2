/** A schedule's cells, once its columns are known: rows, problems and zones with their places. */
import { describe, expect, it } from 'vitest';
import { sayScheduleFinding } from '../../src/keying/scheduleWording.ts';
import type { ScheduleFinding } from '../../src/keying/scheduleFindings.ts';
import { zonesIn } from '../../src/workbook/doorZones.ts';
import type { CellValue } from '../../src/workbook/reading.ts';
import { scheduleCell, understand, type ScheduleColumns } from '../../src/workbook/schedule.ts';
import { scheduleFindingLines } from '../../src/workbook/scheduleAgainst.ts';
import { bookOf, tableOf } from './byHand.ts';

const COLUMNS: ScheduleColumns = { headerRow: 0, door: 1, location: 2, symbol: 3, quantity: 4, cylinder: 5 };
const HEADERS = ['No.', 'Door', 'Location', 'Keyset', 'Qty', 'Cylinder'];
/** The sheet is used from C11 on. */
const read = (rows: readonly (readonly CellValue[])[], columns = COLUMNS) =>
  understand(
    {
      box: { sheet: 'Doors', row: 10, column: 2, rows: rows.length + 1, columns: 6 },
      values: [HEADERS, ...rows],
      formulas: [],
      merged: [],
      protected: false,
      filtered: false,
    },
    { columns, headers: HEADERS },
  );
const at = (address: string) => ({ sheet: 'Doors', address });

describe('a schedule that is understood', () => {
  it('has a row a door with its place, and only what is typed', () => {
    const found = read([
      [1, '101', ' Hall ', ' AA1 ', 2, 'C1'],
      [2, '102', '', ' ', '', ''],
    ]);
    expect(found.rows).toStrictEqual([
      { door: '101', quantity: 2, at: at('D12'), location: 'Hall', symbol: 'AA1', cylinder: 'C1' },
      { door: '102', quantity: 1, at: at('D13') },
    ]);
    expect(found.guess).toStrictEqual({ sheet: 'Doors', columns: COLUMNS, headers: HEADERS, rows: 2 });
  });

  it('says each problem at its cell, and no note louder than a warning', () => {
    const { problems, schedule } = read([[1, '101', '', '#N/A', 'two', '']]);
    expect(schedule.findings.map(({ code }) => code)).toEqual(['cell-error', 'not-a-number']);
    expect(problems.map(({ address, severity }) => [address, severity])).toEqual([
      ['F12', 'fault'],
      ['G12', 'fault'],
    ]);
    expect(problems.map(({ sentence }) => sentence)).toEqual(schedule.findings.map(sayScheduleFinding));
  });

  it('has the cell of a role, or that of the door where the role has no column', () => {
    const box = { sheet: 'Doors', row: 10, column: 2, rows: 2, columns: 6 };
    expect([scheduleCell(box, COLUMNS, 3, 'symbol'), scheduleCell(box, COLUMNS, 3, 'hand')]).toEqual([
      at('F14'),
      at('D14'),
    ]);
  });
});

describe('zones of doors', () => {
  it('come from headings of sections or a column, the first of a door', () => {
    const sections = read([
      ['', 'WEST WING', '', '', '', ''],
      ['', '101', '', 'AA1', '', ''],
      ['', 'EAST WING', '', '', '', ''],
      ['', '102', '', 'AA2', '', ''],
      ['', '101', '', 'AA3', '', ''],
    ]);
    const zones = zonesIn(sections)!;
    expect(zones.sheet).toBe('Doors');
    expect([' 101', '102', '103'].map(zones.zoneOf)).toEqual(['WEST WING', 'EAST WING', undefined]);
    expect(zonesIn(read([['', '101', '', 'AA1', '', '']]))).toBeUndefined();
    // a line without a door has no zone to give
    const nobody = read([['', '', 'Hall', 'AA1', 2, 'West']], { headerRow: 0, door: 1, symbol: 3, zone: 5 });
    expect(zonesIn(nobody)).toBeUndefined();
  });
});

describe('findings of a schedule as lines', () => {
  const system = bookOf(
    tableOf('KeyrowSystems', 'Systems', [['System', 'Spec'], ['School', 'S-018-6']]), // prettier-ignore
    tableOf('KeyrowKeys', 'Keys', [['System', 'Symbol', 'Bitting'], ['School', 'AA1', ''], ['School', 'AA2', '']]), // prettier-ignore
  ).systems[0]!;

  it('have faults first, and each its cell where it has one', () => {
    const findings: ScheduleFinding[] = [
      { code: 'spare-keys', count: 2 },
      { code: 'symbol-own', symbol: 'X', doors: 1, row: 2, role: 'symbol' },
      { code: 'key-without-door', key: 1, symbol: 'AA2' },
      { code: 'no-door', row: 1, role: 'door' },
      { code: 'key-without-door', key: 9, symbol: 'Z' },
    ];
    const lines = scheduleFindingLines(read([]), findings, system);
    expect(lines.map(({ finding, at: cell }) => [finding.code, cell?.sheet, cell?.address])).toEqual([
      ['no-door', 'Doors', 'D12'],
      ['key-without-door', 'Keys', 'C6'],
      ['key-without-door', undefined, undefined],
      ['spare-keys', undefined, undefined],
      ['symbol-own', 'Doors', 'F13'],
    ]);
    expect(lines.map(({ severity }) => severity)).toEqual(['fault', 'warning', 'warning', 'note', 'note']);
    expect(lines[0]!.sentence).toBe(sayScheduleFinding(findings[3]!));
    expect('at' in lines[2]!).toBe(false);
    expect(scheduleFindingLines(read([]), findings.slice(2, 3))[0]).not.toHaveProperty('at');
  });
});
