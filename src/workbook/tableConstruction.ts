/**
 * Sheet `Construction`: cylinders under a construction key, a row for each chamber that changes: how it is pinned until
 * hand-over and afterwards, what leaves, by which keys, and when it was handed over.
 */
import { parseDepthSet } from '../keying/chamberText.ts';
import { NONE, type DepthSet } from '../keying/depthSet.ts';
import { missingColumns, type ColumnSpec } from './columns.ts';
import { countField, neededText, readRows, textField } from './fields.ts';
import { findTable, systemNamed } from './find.ts';
import { fold, TABLES } from './names.ts';
import type { Place } from './places.ts';
import { chamberProblems } from './problems.ts';
import type { BookReading, Problem } from './reading.ts';

export const CONSTRUCTION_COLUMNS = [
  { heading: 'System', format: 'text', width: 16, needed: true },
  { heading: 'Symbol', format: 'text', width: 10, needed: true },
  { heading: 'Bitting', format: 'text', width: 14 },
  { heading: 'Cylinder', format: 'text', width: 12, needed: true },
  { heading: 'Door', format: 'text', width: 14 },
  { heading: 'Chamber', format: 'text', width: 11, needed: true },
  { heading: 'Before', format: 'text', width: 12, needed: true },
  { heading: 'After', format: 'text', width: 12, needed: true },
  { heading: 'Leaves', format: 'text', width: 30 },
  { heading: 'Changed by', format: 'text', width: 24 },
  { heading: 'Handed over', format: 'text', width: 14, needed: true },
] as const satisfies readonly ColumnSpec[];

const FIELDS = {
  system: { heading: 'System', schema: neededText('system name') },
  symbol: { heading: 'Symbol', schema: neededText('key symbol') },
  cylinder: { heading: 'Cylinder', schema: neededText('cylinder number') },
  chamber: { heading: 'Chamber', schema: countField(undefined, 1) },
  before: { heading: 'Before', schema: textField },
  after: { heading: 'After', schema: textField },
  handed: { heading: 'Handed over', schema: textField },
};

/** One chamber of one cylinder, not handed over yet. */
export interface OpenChamber {
  readonly cylinder: string;
  /** From 1. */
  readonly chamber: number;
  readonly before: DepthSet;
  readonly after: DepthSet;
  /** Where the date of hand-over goes. */
  readonly handed: Place;
}

/** A construction key that still operates cylinders. */
export interface OpenConstruction {
  readonly system: string;
  readonly symbol: string;
  readonly chambers: readonly OpenChamber[];
  readonly problems: readonly Problem[];
}

/** Construction keys with cylinders that were not handed over, in the order of the sheet. */
export function openConstructions(book: BookReading): OpenConstruction[] {
  const table = findTable(book.tables, TABLES.Construction);
  if (!table || missingColumns(table, CONSTRUCTION_COLUMNS).length > 0) return [];
  const { rows, problems } = readRows(table, FIELDS);
  const found = new Map<
    string,
    { system: string; symbol: string; chambers: OpenChamber[]; problems: Problem[] }
  >();
  for (const row of rows) {
    const { system, symbol, cylinder, chamber, before, after, handed } = row.values;
    if (!system || !symbol || handed) continue;
    const name = `${fold(system)} ${fold(symbol)}`;
    const open = found.get(name) ?? { system, symbol, chambers: [], problems: [] };
    found.set(name, open);
    const line = String(row.row + 1);
    open.problems.push(...problems.filter(({ address }) => /\d+$/.exec(address)![0] === line));
    const spec = systemNamed(book, system)?.spec;
    const fault = (at: Place, sentence: string): void =>
      void open.problems.push({ ...at, severity: 'fault', sentence });
    if (!spec) {
      fault(
        row.at('system'),
        `There is no system ${system} with a sound spec, so this row can’t be handed over. Correct the name or the spec.`,
      );
      continue;
    }
    if (!cylinder || chamber === undefined) {
      const { address } = row.at('chamber');
      if (chamber === undefined && !open.problems.some((one) => one.address === address))
        fault(row.at('chamber'), 'Type which chamber this is, counted from 1.');
      continue;
    }
    const set = (text: string | undefined, at: Place): DepthSet => {
      const read = parseDepthSet(spec, text ?? '');
      if (read.ok) return read.value;
      open.problems.push(...chamberProblems(at, read.error));
      return NONE;
    };
    open.chambers.push({
      cylinder,
      chamber,
      before: set(before, row.at('before')),
      after: set(after, row.at('after')),
      handed: row.at('handed'),
    });
  }
  return [...found.values()];
}
