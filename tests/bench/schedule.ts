/** Reading and checking a schedule of 5,000 rows, ours and as one would first write it. */
import { checkSchedule, type ScheduleKey } from '../../src/keying/scheduleCheck.ts';
import { findSchedule, type SheetCell } from '../../src/keying/scheduleColumns.ts';
import { readLines } from '../../src/keying/scheduleRead.ts';
import { randomOf } from './random.ts';
import type { Comparison } from './table.ts';

const ROWS = 5000;
const KEYS = 2400;
const symbolOf = (n: number): string => `A${'ABCDEFGHJK'[n % 10]!}${Math.floor(n / 10) + 1}`;

function sheet(): SheetCell[][] {
  const random = randomOf(5);
  const rows = Array.from({ length: ROWS }, (_, i): SheetCell[] => [
    `D${random(40) === 0 ? i - 1 : i}`,
    `Room ${i}`,
    symbolOf(random(KEYS + 60)),
    1,
    i % 9 === 0 ? 'fire door' : '',
  ]);
  return [['DOOR SCHEDULE'], [], ['Door', 'Location', 'Keyset', 'Qty', 'Remarks'], ...rows];
}

/** Rows whose keyset has no key and rows whose door stands above, each found by going through the lists again. */
function naive(cells: readonly (readonly SheetCell[])[], keys: readonly ScheduleKey[]): number {
  const rows = cells.slice(3);
  const without = rows.filter((row) => !keys.some((key) => key.symbol === row[2]));
  const twice = rows.filter((row, i) => rows.slice(0, i).some((above) => above[0] === row[0]));
  return without.length + twice.length;
}

export function scheduleComparisons(): Comparison[] {
  const cells = sheet();
  const keys: ScheduleKey[] = ['A', ...[...'ABCDEFGHJK'].map((c) => `A${c}`)]
    .map((symbol): ScheduleKey => ({ symbol, level: symbol === 'A' ? 'GMK' : 'MK', status: 'issued' }))
    .concat(
      Array.from({ length: KEYS }, (_, n): ScheduleKey => ({
        symbol: symbolOf(n),
        level: 'CK',
        status: 'issued',
      })),
    );
  return [
    {
      what: `Schedule read and checked, ${ROWS.toLocaleString('en-US')} rows`,
      items: ROWS,
      unit: 'rows',
      ours: () => {
        const { columns } = findSchedule(cells)!;
        const found = checkSchedule(readLines(cells, columns), { keys, cylinders: [] });
        return found.filter((f) => f.code === 'keyset-without-key' || f.code === 'door-twice').length;
      },
      naive: () => naive(cells, keys),
      against: 'two of its twenty checks, each by going through the lists again',
      same: (a, b) => a === b,
    },
  ];
}
