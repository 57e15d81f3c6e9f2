/** The shop's schedule: calls with hostile cells. */
import fc from 'fast-check';
import * as k from '../../src/keying/index.ts';
import type { ScheduleKey } from '../../src/keying/index.ts';
import { any, options, of, withText, type Calls } from './given.ts';
import { finite, text } from './hostile.ts';

const cell = fc.oneof(
  {
    weight: 3,
    arbitrary: fc.constantFrom('Door', 'Keyset', 'Qty', 'Total', 'Keys', 'WEST WING', '', '101', 'AA1'),
  },
  { weight: 2, arbitrary: text },
  { weight: 1, arbitrary: finite },
  { weight: 1, arbitrary: fc.boolean() },
);
const cells = fc.array(fc.array(cell, { minLength: 4, maxLength: 4 }), { maxLength: 7 });
const columns = fc.record(
  {
    headerRow: fc.nat({ max: 3 }),
    door: fc.nat({ max: 4 }),
    symbol: fc.nat({ max: 5 }),
    quantity: fc.nat({ max: 3 }),
    keys: fc.nat({ max: 3 }),
  },
  { requiredKeys: ['headerRow', 'door'] },
);
const merged = fc.array(
  fc.record({
    row: fc.nat({ max: 8 }),
    column: fc.nat({ max: 5 }),
    rows: fc.nat({ max: 9 }),
    columns: fc.nat({ max: 5 }),
  }),
  { maxLength: 2 },
);
const schedule = fc.tuple(cells, columns, merged).map(([c, at, m]) => k.readLines(c, at, m));
const keys: fc.Arbitrary<ScheduleKey[]> = fc.array(
  fc.record({ symbol: fc.oneof(text, fc.constant('AA1')), copies: fc.constantFrom(undefined, 0, 3) }),
  { maxLength: 4 },
);
const checked = fc.tuple(schedule, keys, any.list, options).map(([s, given, cylinders, o]) => ({
  s,
  found: () => k.checkSchedule(s, { keys: given, cylinders, options: o }),
}));

export const SCHEDULE_CALLS: Readonly<Record<string, Calls>> = {
  checkSchedule: of(checked, (g) => g.found()),
  findSchedule: of(cells, k.findSchedule),
  givesAway: of(fc.tuple(any.list, text), ([list, t]) => k.givesAway(k.secretsOf([...list, '274153']), t)),
  levelsOfSymbols: of(any.list, k.levelsOfSymbols),
  readLines: of(fc.tuple(cells, columns, merged), ([c, at, m]) => k.readLines(c, at, m)),
  sayScheduleFinding: of(checked, (g) => g.found().map((f) => k.sayScheduleFinding(f))),
  scheduleSeverity: of(checked, (g) => g.found().map(k.scheduleSeverity)),
  scheduleTotals: of(fc.tuple(schedule, keys), ([s, given]) => k.scheduleTotals(s.lines, given)),
  secretsOf: withText((t) => [...k.secretsOf([t]).codes]),
  stampingOf: of(fc.tuple(schedule, keys, text), ([s, given, before]) =>
    k.stampingOf(k.scheduleTotals(s.lines, given).keys, { before }),
  ),
  tidySymbol: of(fc.tuple(text, options), ([t, o]) => k.tidySymbol(t, o)),
};
