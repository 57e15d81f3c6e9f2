/**
 * The sheets `Order` and `Stamping`: what a supplier orders from. Derived, so that a new run replaces them. No bitting
 * is on either, and a symbol that reads like one is not stamped.
 */
import { givesAway } from '../keying/secrecy.ts';
import { stampingOf, type ScheduleTotals, type StampOptions } from '../keying/scheduleTotals.ts';
import type { ColumnSpec } from './columns.ts';
import { findTable } from './find.ts';
import { TABLES } from './names.ts';
import type { CellInput, WritePlan } from './plan.ts';
import { replaceOrCreate } from './planRows.ts';
import { PlanBuilder } from './planTable.ts';
import type { BookReading } from './reading.ts';
import { secretsIn } from './secretCells.ts';
import { authorisedSentence, readAuthorised } from './tableAuthorised.ts';

export interface OrderInput {
  /** '' where the workbook has no system yet. */
  readonly system: string;
  /** Sheet of the schedule. */
  readonly from: string;
  readonly made: string;
  readonly totals: ScheduleTotals;
  readonly stamp?: StampOptions;
}

const ORDER_COLUMNS: readonly ColumnSpec[] = [
  { heading: 'What', format: 'text', width: 10, needed: true },
  { heading: 'Quantity', format: 'general', width: 12 },
  { heading: 'Type', format: 'text', width: 18 },
  { heading: 'Length', format: 'text', width: 12 },
  { heading: 'Cam or tailpiece', format: 'text', width: 20 },
  { heading: 'Finish', format: 'text', width: 12 },
  { heading: 'Keyset', format: 'text', width: 14 },
  { heading: 'Doors', format: 'text', width: 36 },
  { heading: 'Note', format: 'text', width: 30 },
];

const STAMP_COLUMNS: readonly ColumnSpec[] = [
  { heading: 'Stamp on', format: 'text', width: 13, needed: true },
  { heading: 'Keyset', format: 'text', width: 14 },
  { heading: 'Text', format: 'text', width: 22 },
  { heading: 'Pieces', format: 'general', width: 10 },
  { heading: 'Done', format: 'text', width: 8 },
  { heading: 'Note', format: 'text', width: 36 },
];

const MOST_DOORS = 12;
const LIKE_A_BITTING = 'Not stamped: the symbol reads like a bitting.';

/** Replaces both sheets, or adds them. */
export function planOrder(book: BookReading, input: OrderInput): WritePlan {
  const builder = new PlanBuilder(book);
  const { totals, made, from } = input;
  const authorised = authorisedSentence(readAuthorised(book, input.system || undefined));
  const of = input.system ? ` for ${input.system}` : '';
  const foot = { left: `Order${of}`, right: made };
  replaceOrCreate(builder, findTable(book.tables, TABLES.Order), {
    table: TABLES.Order,
    sheet: 'Order',
    title: 'Order',
    line: `${totals.cylinderCount} cylinders and ${totals.keyCount} keys${of}, counted ${made} from ${from}. ${authorised}`,
    columns: ORDER_COLUMNS,
    rows: [...cylinderRows(totals), ...keyRows(totals)],
    frozen: 1,
    foot,
  });
  replaceOrCreate(builder, findTable(book.tables, TABLES.Stamping), {
    table: TABLES.Stamping,
    sheet: 'Stamping',
    title: 'Stamping',
    line: `Symbol and copy number${of}, never a bitting; made ${made}. Stamp cylinders where only the open door shows it.`,
    columns: STAMP_COLUMNS,
    rows: stampRows(book, input),
    frozen: 2,
    foot: { ...foot, left: `Stamping${of}` },
  });
  return builder.plan('Write the order and the stamping');
}

const doorsShown = (doors: readonly string[]): string =>
  doors.length > MOST_DOORS
    ? `${doors.slice(0, MOST_DOORS).join(', ')} and ${doors.length - MOST_DOORS} more`
    : doors.join(', ');

const cylinderRows = (totals: ScheduleTotals): CellInput[][] =>
  totals.cylinders.map(({ text, symbol, quantity, doors }) => [
    'Cylinder',
    quantity,
    text.type,
    text.length,
    text.cam,
    text.finish,
    symbol,
    doorsShown(doors),
    symbol === '' ? 'Not keyed yet.' : '',
  ]);

const keyRows = (totals: ScheduleTotals): CellInput[][] =>
  totals.keys.map(({ symbol, level, copies, from }) => [
    'Key',
    copies ?? '',
    level && level !== 'CK' ? level : '',
    '',
    '',
    '',
    symbol,
    '',
    copies === undefined
      ? 'How many? No number is recorded.'
      : from === 'schedule'
        ? 'Number from the schedule.'
        : '',
  ]);

function stampRows(book: BookReading, { totals, stamp }: OrderInput): CellInput[][] {
  const secrets = secretsIn(book);
  const row = (on: string, symbol: string, text: string, pieces: number): CellInput[] =>
    givesAway(secrets, text) ? [on, '', '', pieces, '', LIKE_A_BITTING] : [on, symbol, text, pieces, '', ''];
  const keys = stampingOf(totals.keys, stamp).flatMap(({ symbol, stamps }) =>
    stamps.map((text) => row('Key', symbol, text, 1)),
  );
  const cylinders = new Map<string, number>();
  for (const { symbol, quantity } of totals.cylinders)
    if (symbol !== '') cylinders.set(symbol, (cylinders.get(symbol) ?? 0) + quantity);
  return [...keys, ...[...cylinders].map(([symbol, pieces]) => row('Cylinder', symbol, symbol, pieces))];
}
