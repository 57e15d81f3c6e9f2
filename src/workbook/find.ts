/** Look-ups in a reading. */
import { foldName } from '../keying/specTable.ts';
import type { Specification } from '../keying/specification.ts';
import { fold } from './names.ts';
import type { BookReading, SpecReading, SystemReading, TableReading } from './reading.ts';

/** `findTable(book, 'KeyrowKeys')` whatever the case. */
export const findTable = (tables: readonly TableReading[], name: string): TableReading | undefined =>
  tables.find((table) => fold(table.name) === fold(name));

/** The sound spec of a name. */
export function specNamed(specs: readonly SpecReading[], name: string): Specification | undefined {
  return specs.find((s) => s.spec !== undefined && foldName(s.name) === foldName(name))?.spec;
}

/** The system of a name, whatever the case. */
export const systemNamed = (book: BookReading, name: string): SystemReading | undefined =>
  book.systems.find((system) => fold(system.name) === fold(name));
