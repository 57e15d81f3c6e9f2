/**
 * A receipt to be printed and signed: which keys, who gave and who took them. It names symbols and copy numbers and
 * has no bitting on it, since it leaves the house. Its fields are those of a published key register: key, date of
 * issue, issuer and receiver with their signatures, date of return, receiver of the return (US Army correspondence
 * course MP1001, The Physical Security Plan, p. 3-2).
 */
import { formatDay, type Day } from '../keying/calendar.ts';
import { fold } from './names.ts';
import type { ColumnSpec } from './columns.ts';
import type { CellInput, WritePlan } from './plan.ts';
import { createSheet, HEADER_ROW, PlanBuilder } from './planTable.ts';
import { readLedger } from './readLedger.ts';
import type { BookReading } from './reading.ts';

export interface ReceiptCopy {
  readonly system: string;
  readonly symbol: string;
  readonly copy: number;
  readonly issued?: Day;
  readonly due?: Day;
}

export interface ReceiptInput {
  readonly made: string;
  readonly holder: string;
  readonly copies: readonly ReceiptCopy[];
  readonly givenBy?: string;
}

const COLUMNS = [
  { heading: 'Key', format: 'text', width: 12 },
  { heading: 'Copy', format: 'general', width: 8 },
  { heading: 'System', format: 'text', width: 18 },
  { heading: 'Issued', format: 'text', width: 12 },
  { heading: 'Due back', format: 'text', width: 12 },
  { heading: 'Returned', format: 'text', width: 12 },
  { heading: 'Taken back by', format: 'text', width: 20 },
  { heading: 'Signature', format: 'text', width: 22 },
] as const satisfies readonly ColumnSpec[];

/** A free table name: KeyrowReceipt1, KeyrowReceipt2 … */
export function freeTableName(stem: string, taken: readonly string[]): string {
  const folded = new Set(taken.map(fold));
  for (let n = 1; ; n++) if (!folded.has(fold(stem + n))) return stem + n;
}

/** Adds a sheet of its own for one holder's receipt. */
export function planReceipt(book: BookReading, input: ReceiptInput): WritePlan {
  const { made, holder, copies, givenBy } = input;
  const builder = new PlanBuilder(book);
  const person = readLedger(book).people.find((p) => fold(p.name) === fold(holder));
  if (copies.length === 0) builder.conflict(`${holder} has no key to sign for.`);
  const sheet = builder.sheetName('Receipt', `Receipt ${holder}`);
  createSheet(
    builder,
    {
      table: freeTableName('KeyrowReceipt', book.tableNames),
      sheet,
      title: `Receipt for keys: ${holder}`,
      line: [
        person?.department,
        `Written ${made}`,
        'Copies must not be made. Report a loss at once. Give the keys back when they are due or when you leave',
      ]
        .filter(Boolean)
        .join('. ')
        .concat('.'),
      columns: COLUMNS,
      rows: copies.map(({ symbol, copy, system, issued, due }) => [
        symbol,
        copy,
        system,
        issued === undefined ? '' : formatDay(issued),
        due === undefined ? '' : formatDay(due),
        '',
        '',
        '',
      ]),
      frozen: 1,
    },
    sheet,
  );
  addSignatures(builder, sheet, HEADER_ROW + 1 + Math.max(1, copies.length) + 1, holder, givenBy ?? '');
  return builder.plan(`Receipt for ${holder}`);
}

/** Two lines to sign on, below the table. */
function addSignatures(
  builder: PlanBuilder,
  sheet: string,
  row: number,
  holder: string,
  givenBy: string,
): void {
  const line = '_'.repeat(28);
  const cells: CellInput[][] = [
    ['Given by', '', givenBy, '', 'Date and time', '', 'Signature', line],
    ['', '', '', '', '', '', '', ''],
    ['Received by', '', holder, '', 'Date and time', '', 'Signature', line],
  ];
  builder.steps.push({
    kind: 'write',
    sheet,
    row: row + 1,
    column: 0,
    cells,
    formats: COLUMNS.map(() => 'text'),
    expected: 'empty',
  });
}
