/**
 * The spec that a function works with: by its name in the range of the workbook's own Specs table, else a starter.
 *
 * A formula that is filled down 100,000 rows hands the same table over 100,000 times, each time as a new array. So
 * the last few tables are kept with what was read from them, and a table is known again by comparing its cells:
 * cheaper than reading it, and never mistaken.
 */
import { positions, type Specification } from '../src/keying/specification.ts';
import { foldName, readSpecTable, type Cell, type SpecTable } from '../src/keying/specTable.ts';
import { saySpecFault } from '../src/keying/specWording.ts';
import { starterSpec, STARTER_SPECS } from '../src/keying/starters.ts';
import { parseLength, toUnit, UNITS, type Length, type Unit } from '../src/keying/units.ts';
import { isBlank, optionalText, refuse, rowsOf, textOrNumber } from './cells.ts';

interface RememberedTable {
  readonly cells: readonly (readonly unknown[])[];
  readonly table: SpecTable;
  /** Specs already found, by the name as written. */
  readonly found: Map<string, Specification>;
}

const KEPT_TABLES = 4;
const remembered: RememberedTable[] = [];

/**
 * The spec of that name. Refuses a blank name, a name that isn't there, and a table or row with a fault.
 * @example specIn('S-018-6', null) → the starter
 */
export function specIn(name: unknown, specs: unknown): Specification {
  const wanted = optionalText(name, 'The spec');
  if (wanted === undefined)
    return refuse(
      'The spec is missing; give the name of a row in the Specs table, or of a starter such as S-018-6.',
    );
  if (specs === null || specs === undefined) return starterSpec(wanted) ?? refuseName(wanted);
  const entry = tableIn(specs);
  const known = entry.found.get(wanted);
  if (known) return known;
  const spec = lookUp(wanted, entry.table);
  entry.found.set(wanted, spec);
  return spec;
}

function lookUp(wanted: string, table: SpecTable): Specification {
  const header = table.faults.find((f) => f.row === 0);
  if (header)
    return refuse(
      `The range of specs can't be read. ${saySpecFault(header)} The range includes the header row, such as KeyrowSpecs[#All].`,
    );
  const folded = foldName(wanted);
  const spec = table.specs.get(folded);
  if (spec) return spec;
  const row = table.rows.find((r) => foldName(r.name) === folded);
  if (!row) return starterSpec(wanted) ?? refuseName(wanted, table);
  const words = table.faults.filter((f) => f.row === row.row).map(saySpecFault);
  return refuse(`Row ${row.row + 1} of the range of specs, ${row.name}: ${words.join(' ')}`);
}

/** All sound specs of a range, or the starters where none is given. Refuses a range whose header can't be read. */
export function specsIn(specs: unknown): readonly Specification[] {
  if (specs === null || specs === undefined) return STARTER_SPECS;
  const { table } = tableIn(specs);
  const header = table.faults.find((f) => f.row === 0);
  return header
    ? refuse(`The range of specs can't be read. ${saySpecFault(header)}`)
    : [...table.specs.values()];
}

function refuseName(wanted: string, table?: SpecTable): never {
  const names = table ? table.rows.map((r) => r.name) : STARTER_SPECS.map((s) => s.name);
  const hint = table
    ? `The range holds ${names.join(', ') || 'no spec'}.`
    : `For a spec of your own give the range of the table too, such as KeyrowSpecs[#All]; the starters are ${names.join(', ')}.`;
  return refuse(`There is no spec called “${wanted}”. ${hint}`);
}

function tableIn(specs: unknown): RememberedTable {
  const cells = rowsOf(specs);
  const at = remembered.findIndex((entry) => sameCells(entry.cells, cells));
  if (at === 0) return remembered[0]!;
  const [entry] =
    at > 0
      ? remembered.splice(at, 1)
      : [
          {
            cells: cells.map((row) => [...row]),
            table: readSpecTable(cells.map((row) => row.map(plainCell))),
            found: new Map<string, Specification>(),
          },
        ];
  remembered.unshift(entry!);
  remembered.length = Math.min(remembered.length, KEPT_TABLES);
  return entry!;
}

function sameCells(a: readonly (readonly unknown[])[], b: readonly (readonly unknown[])[]): boolean {
  if (a.length !== b.length) return false;
  for (let r = 0; r < a.length; r++) {
    const x = a[r]!;
    const y = b[r]!;
    if (x.length !== y.length) return false;
    for (let c = 0; c < x.length; c++) if (x[c] !== y[c] && plainCell(x[c]) !== plainCell(y[c])) return false;
  }
  return true;
}

const plainCell = (cell: unknown): Cell =>
  typeof cell === 'string' || typeof cell === 'number' || typeof cell === 'boolean'
    ? cell
    : isBlank(cell)
      ? null
      : '#ERROR';

/** The unit asked for, else the spec's. */
export function unitIn(cell: unknown, spec: Pick<Specification, 'unit'>): Unit {
  const text = optionalText(cell, 'The unit')?.toLowerCase();
  if (text === undefined) return spec.unit;
  return UNITS.find((u) => u === text) ?? refuse(`The unit is “${text}”; it must be in (inches) or mm.`);
}

/** A length from a cell, in the unit unless the cell writes one. */
export function lengthIn(cell: unknown, unit: Unit, what: string): Length {
  const value = textOrNumber(cell, what);
  const parsed = parseLength(value, unit);
  return parsed.ok ? parsed.value : refuse(`${what} is “${value}”; it must be a length, such as 0.237.`);
}

/** Lengths for the cells of a row. */
export const inUnit =
  (unit: Unit) =>
  (length: Length): number =>
    toUnit(length, unit);

/** How many cuts, for a sentence: `6 cuts`. */
export const cutsOf = (spec: Specification): string => `${positions(spec)} cuts`;
