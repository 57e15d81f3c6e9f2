/** Codes that lost the zero at their front because a sheet took them for numbers: put back as text, when told to. */
import { parseBitting } from '../keying/bitting.ts';
import { columnOf } from './columns.ts';
import { findTable } from './find.ts';
import { TABLES } from './names.ts';
import { changeCells } from './namedCells.ts';
import { parseAddress, type Place } from './places.ts';
import type { WritePlan } from './plan.ts';
import { PlanBuilder } from './planTable.ts';
import type { BookReading, SystemReading } from './reading.ts';

/** One code with its zero back. */
export interface Mend {
  readonly at: Place;
  readonly symbol: string;
  readonly from: string;
  readonly to: string;
}

/**
 * Codes of a system's keys that can be read once their lost zero is back.
 * @example zerosLost(book, system) → [{ symbol: 'SKD4', from: '27413', to: '027413', at: … }]
 */
export function zerosLost(book: BookReading, { spec, keys }: SystemReading): Mend[] {
  const table = findTable(book.tables, TABLES.Keys);
  if (!table || !spec) return [];
  const column = columnOf(table, 'Bitting');
  return keys.flatMap((row): Mend[] => {
    const index = parseAddress(row.at.bitting.address)!.row - table.box.row - 1;
    const code = table.values[index]?.[column];
    if (typeof code !== 'number') return [];
    const read = parseBitting(spec, code);
    const lost = read.ok ? undefined : read.error.find((fault) => fault.code === 'lost-zero');
    return lost ? [{ at: row.at.bitting, symbol: row.symbol, from: String(code), to: lost.suggestion }] : [];
  });
}

/**
 * Writes the codes as text; what the cells hold is shown beside and kept for undo.
 * @example describePlan(planMends(book, zerosLost(book, system))).sentence → 'Changes 1 cell of Keys; …'
 */
export function planMends(book: BookReading, mends: readonly Mend[]): WritePlan {
  const builder = new PlanBuilder(book);
  const table = findTable(book.tables, TABLES.Keys);
  if (!table) builder.conflict('The sheet Keys is gone. Read the book again.');
  else
    changeCells(
      builder,
      table,
      mends.map(({ at, symbol, from, to }) => ({ at, what: `Bitting of ${symbol}`, from, to })),
    );
  return builder.plan(mends.length === 1 ? 'Put the lost zero back' : 'Put lost zeros back');
}
