/**
 * Reports as sheets, laid out for printing. The customer's has doors, keysets and keys, and no bitting: every text is
 * compared with all bittings of the workbook before it goes in. The shop's has the bittings and says SECRET on every
 * page. Both are derived: a new run replaces their rows.
 */
import { givesAway, type Secrets } from '../keying/secrecy.ts';
import { sortKeySymbols } from '../keying/symbol.ts';
import { formatDepthSet } from '../keying/chamberText.ts';
import { MOST_POSITIONS } from '../keying/specification.ts';
import { formatBitting } from '../keying/bitting.ts';
import { columnOf, type ColumnSpec } from './columns.ts';
import { findTable, systemNamed } from './find.ts';
import { fold, TABLES } from './names.ts';
import type { CellInput, WritePlan } from './plan.ts';
import { replaceOrCreate } from './planRows.ts';
import { PlanBuilder } from './planTable.ts';
import type { BookReading, KeyRow, SystemReading } from './reading.ts';
import type { ScheduleReading } from './schedule.ts';
import { secretsIn } from './secretCells.ts';
import { authorisedSentence, readAuthorised } from './tableAuthorised.ts';

export interface ReportInput {
  readonly system: string;
  readonly made: string;
  /** As the shop counts: `B`, `3`. */
  readonly revision: string;
  /** Doors from the shop's schedule; without it they come from the sheet Cylinders. */
  readonly schedule?: ScheduleReading;
}

const text = (heading: string, width: number, needed?: true): ColumnSpec => ({
  heading,
  format: 'text',
  width,
  ...(needed && { needed }),
});
const count = (heading: string, width: number): ColumnSpec => ({ heading, format: 'general', width });

const CUSTOMER_DOOR_COLUMNS: readonly ColumnSpec[] = [
  text('Zone', 32),
  text('Door', 10, true),
  text('Location', 26),
  text('Side', 9),
  text('Hardware', 13),
  text('Cylinder', 16),
  text('Finish', 12),
  text('Keyset', 14),
  count('Cylinders', 13),
  text('Remarks', 34),
];

const CUSTOMER_KEY_COLUMNS: readonly ColumnSpec[] = [
  text('Key', 12, true),
  text('Level', 10),
  text('Under', 10),
  count('Keys', 8),
  count('Doors', 8),
  text('Received by', 26),
  text('Date', 14),
];

/** What stands in the place of a text that gives a bitting away. */
export const LEFT_OUT = '(left out)';

export interface CustomerReport {
  readonly plan: WritePlan;
  /** Texts that were left out since they give a bitting away. */
  readonly leftOut: number;
}

/** The customer's two sheets. Not even a remark that quotes a bitting gets through. */
export function planCustomerReport(book: BookReading, input: ReportInput): CustomerReport {
  const builder = new PlanBuilder(book);
  const secrets = secretsIn(book);
  const system = systemNamed(book, input.system);
  let leftOut = 0;
  const shown = (cell: CellInput): CellInput => {
    if (typeof cell !== 'string' || !givesAway(secrets, cell)) return cell;
    leftOut++;
    return LEFT_OUT;
  };
  const doors = input.schedule ? doorsOfSchedule(input.schedule) : doorsOfSystem(system);
  const line = `${lineOf(input)} Without bittings. ${authorisedSentence(readAuthorised(book, input.system))}`;
  const foot = footOf(input, 'Keying schedule');
  const table = findTable(book.tables, TABLES.CustomerDoors);
  // a column that nobody fills is only in the way on paper; one that is there already has to be emptied
  const used = CUSTOMER_DOOR_COLUMNS.flatMap(({ heading, needed }, c) =>
    needed || doors.some((row) => row[c] !== '') || (table && columnOf(table, heading) >= 0) ? [c] : [],
  );
  replaceOrCreate(builder, table, {
    table: TABLES.CustomerDoors,
    sheet: 'Customer doors',
    title: 'Doors and their keysets',
    line: sentence(secrets, line),
    columns: used.map((c) => CUSTOMER_DOOR_COLUMNS[c]!),
    rows: doors.map((row) => used.map((c) => shown(row[c]!))),
    frozen: 2,
    foot,
  });
  replaceOrCreate(builder, findTable(book.tables, TABLES.CustomerKeys), {
    table: TABLES.CustomerKeys,
    sheet: 'Customer keys',
    title: 'Keys',
    line: sentence(secrets, line),
    columns: CUSTOMER_KEY_COLUMNS,
    rows: customerKeys(system).map((row) => row.map(shown)),
    frozen: 1,
    foot,
  });
  return { plan: builder.plan('Write the customer’s report'), leftOut };
}

const sentence = (secrets: Secrets, line: string): string =>
  givesAway(secrets, line) ? 'Without bittings.' : line;

const lineOf = ({ system, made, revision }: ReportInput): string =>
  `${system}. Revision ${revision || '–'} of ${made}.`;

const footOf = ({ system, made, revision }: ReportInput, what: string) => ({
  left: `${what}, ${system}`,
  right: `Revision ${revision || '–'}, ${made}`,
});

const doorsOfSchedule = ({ schedule }: ScheduleReading): CellInput[][] =>
  schedule.lines.map(({ door, symbol, quantity, text: t }) => [
    t.zone ?? '',
    door,
    t.location ?? '',
    t.side ?? '',
    t.hardware ?? '',
    [t.type, t.length, t.cam].filter(Boolean).join(', '),
    t.finish ?? '',
    symbol.trim(),
    quantity,
    t.remarks ?? '',
  ]);

const doorsOfSystem = (system: SystemReading | undefined): CellInput[][] =>
  (system?.cylinders ?? []).map(({ door, id, location, symbol }) => [
    '', door ?? id, location ?? '', '', '', '', '', symbol, 1, '',
  ]); // prettier-ignore

const LIVE = new Set(['issued', 'reserved']);

const liveKeys = (system: SystemReading | undefined): KeyRow[] => {
  const live = (system?.keys ?? []).filter((key) => LIVE.has(key.status ?? 'reserved'));
  const order = new Map(
    sortKeySymbols(live.map((key) => key.symbol)).map((symbol, i) => [symbol, i] as const),
  );
  return live.sort((a, b) => order.get(a.symbol)! - order.get(b.symbol)!);
};

function customerKeys(system: SystemReading | undefined): CellInput[][] {
  const doors = new Map<string, number>();
  for (const { symbol } of system?.cylinders ?? [])
    doors.set(fold(symbol), (doors.get(fold(symbol)) ?? 0) + 1);
  return liveKeys(system)
    .filter((key) => key.status === 'issued')
    .map(({ symbol, level, parent, copies }) => [
      symbol,
      level === 'single' ? 'Single' : level === 'control' ? 'Control' : (level ?? ''),
      parent ?? '',
      copies ?? '',
      doors.get(fold(symbol)) ?? '',
      '',
      '',
    ]);
}

const CHAMBERS = Array.from({ length: MOST_POSITIONS }, (_, i) => i + 1);

const SHOP_DOOR_COLUMNS: readonly ColumnSpec[] = [
  text('Door', 10, true),
  text('Location', 26),
  text('Cylinder', 12),
  text('Keyset', 12),
  text('Bitting', 14),
  ...CHAMBERS.map((c) => text(`Ch ${c}`, 8)),
  text('Control', 12),
];

const SHOP_KEY_COLUMNS: readonly ColumnSpec[] = [
  text('Key', 12, true),
  text('Level', 10),
  text('Under', 10),
  text('Bitting', 14),
  text('Status', 10),
  text('Keyway', 10),
  count('Keys', 8),
];

const SECRET = 'SECRET: whoever has a bitting can cut the key. Not for the customer.';

/** The shop's two sheets, with all bittings, marked as secret on every page. */
export function planShopReport(book: BookReading, input: ReportInput): WritePlan {
  const builder = new PlanBuilder(book);
  const system = systemNamed(book, input.system);
  if (!system) builder.conflict(`There is no system ${input.system} in this workbook any more.`);
  const line = `${SECRET} ${lineOf(input)}`;
  const foot = footOf(input, 'SECRET: bittings');
  replaceOrCreate(builder, findTable(book.tables, TABLES.ShopDoors), {
    table: TABLES.ShopDoors,
    sheet: 'Shop cylinders',
    title: 'SECRET: cylinders with their pinning',
    line,
    columns: SHOP_DOOR_COLUMNS,
    rows: shopDoors(system),
    frozen: 1,
    foot,
  });
  replaceOrCreate(builder, findTable(book.tables, TABLES.ShopKeys), {
    table: TABLES.ShopKeys,
    sheet: 'Shop keys',
    title: 'SECRET: keys with their bittings',
    line,
    columns: SHOP_KEY_COLUMNS,
    rows: liveKeys(system).map((key) => [
      key.symbol,
      key.level ?? '',
      key.parent ?? '',
      key.bittingText,
      key.status ?? '',
      key.keyway ?? '',
      key.copies ?? '',
    ]),
    frozen: 1,
    foot,
  });
  return builder.plan('Write the shop’s report');
}

function shopDoors(system: SystemReading | undefined): CellInput[][] {
  const bittings = new Map(liveKeys(system).map((key) => [fold(key.symbol), key.bittingText] as const));
  const spec = system?.spec;
  return (system?.cylinders ?? []).map((cylinder) => [
    cylinder.door ?? '',
    cylinder.location ?? '',
    cylinder.id,
    cylinder.symbol,
    bittings.get(fold(cylinder.symbol)) ?? '',
    ...CHAMBERS.map((c) => {
      const set = cylinder.chambers?.[c - 1];
      return spec && set !== undefined && c <= spec.centres.length ? formatDepthSet(spec, set) : '';
    }),
    spec && cylinder.control ? formatBitting(spec, cylinder.control) : '',
  ]);
}
