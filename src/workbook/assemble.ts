/**
 * Puts the tables Systems, Keys, Cylinders and the grids together into systems. Rows whose system isn't in the
 * sheet Systems are kept and reported: they belong to a system of that name without a spec.
 */
import { missingColumns, type ColumnSpec } from './columns.ts';
import { fold, isGrid, TABLES } from './names.ts';
import { findTable, specNamed } from './find.ts';
import type {
  CylinderRow,
  GridReading,
  KeyRow,
  Problem,
  SpecReading,
  SystemReading,
  TableReading,
} from './reading.ts';
import { CYLINDER_COLUMNS, readCylinders } from './tableCylinders.ts';
import { GRID_ROW_COLUMNS, readGrid } from './tableGrid.ts';
import { KEY_COLUMNS, readKeys } from './tableKeys.ts';
import { readSystems, SYSTEM_COLUMNS, type SystemRow } from './tableSystems.ts';

/** Systems in the order of their sheet; whatever is wrong with any row goes to `problems`. */
export function readAllSystems(
  tables: readonly TableReading[],
  specs: readonly SpecReading[],
  problems: Problem[],
): SystemReading[] {
  /** Rows of a table, or none where it is missing or has lost a column. */
  function take<T>(
    name: string,
    columns: readonly ColumnSpec[],
    read: (table: TableReading) => { readonly rows: readonly T[]; readonly problems: readonly Problem[] },
  ): readonly T[] {
    const table = findTable(tables, name);
    if (!table) return [];
    const missing = missingColumns(table, columns);
    problems.push(...missing);
    if (missing.length > 0) return [];
    const found = read(table);
    problems.push(...found.problems);
    return found.rows;
  }
  const rows = take(TABLES.Systems, SYSTEM_COLUMNS, (t) => readSystems(t, (name) => specNamed(specs, name)));
  const byName = new Map<string, SystemRow>();
  for (const row of rows) {
    if (byName.has(fold(row.name)))
      problems.push({
        ...row.at,
        severity: 'fault',
        sentence: `There is another system “${row.name}” above. Give one of them another name.`,
      });
    else byName.set(fold(row.name), row);
  }
  const specOf = (system: string): SystemRow['spec'] => byName.get(fold(system))?.spec;
  const keys = take(TABLES.Keys, KEY_COLUMNS, (t) =>
    readKeys(t, (system, spec) => specOf(system) ?? specNamed(specs, spec)),
  );
  const cylinders = take(TABLES.Cylinders, CYLINDER_COLUMNS, (t) => readCylinders(t, specOf));
  reportStrays(byName, keys, cylinders, problems);
  reportRepeats(keys, cylinders, problems);
  const keysOf = groupBySystem(keys);
  const cylindersOf = groupBySystem(cylinders);
  return [...byName.values()].map((row) => {
    const { grid: gridName, ...rest } = row;
    const own = keysOf.get(fold(row.name)) ?? [];
    const grid = gridName && readGridNamed(gridName, row, own, tables, problems);
    return { ...rest, keys: own, cylinders: cylindersOf.get(fold(row.name)) ?? [], ...(grid && { grid }) };
  });
}

function readGridNamed(
  name: string,
  row: SystemRow,
  keys: readonly KeyRow[],
  tables: readonly TableReading[],
  problems: Problem[],
): GridReading | undefined {
  const table = isGrid(name) ? findTable(tables, name) : undefined;
  if (!table) {
    problems.push({
      ...row.at,
      severity: 'fault',
      sentence: `The grid ${name} of this system is gone. Write a new one, or clear the cell under Grid.`,
    });
    return undefined;
  }
  const missing = missingColumns(table, GRID_ROW_COLUMNS);
  problems.push(...missing);
  if (missing.length > 0) return undefined;
  const symbols = new Set(keys.map((key) => fold(key.symbol)));
  const read = readGrid(table, (header) => symbols.has(fold(header)));
  problems.push(...read.problems);
  return read.grid;
}

function groupBySystem<T extends { readonly system: string }>(rows: readonly T[]): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const row of rows) {
    const group = groups.get(fold(row.system));
    if (group) group.push(row);
    else groups.set(fold(row.system), [row]);
  }
  return groups;
}

function reportStrays(
  known: ReadonlyMap<string, SystemRow>,
  keys: readonly KeyRow[],
  cylinders: readonly CylinderRow[],
  problems: Problem[],
): void {
  for (const row of [...keys, ...cylinders]) {
    if (known.has(fold(row.system))) continue;
    const sentence =
      row.system === ''
        ? 'This row names no system, so it is not checked. Type the name of its system.'
        : `There is no system “${row.system}” in the sheet Systems, so this row is not checked. Correct the name or add the system.`;
    problems.push({ ...row.at.system, severity: 'fault', sentence });
  }
}

function reportRepeats(
  keys: readonly KeyRow[],
  cylinders: readonly CylinderRow[],
  problems: Problem[],
): void {
  const seen = new Map<string, string>();
  const report = (kind: string, row: KeyRow | CylinderRow, name: string): void => {
    if (name === '') return;
    const id = `${kind} ${fold(row.system)} ${fold(name)}`;
    const first = seen.get(id);
    if (first === undefined) seen.set(id, row.at.row.address);
    else
      problems.push({
        ...row.at.row,
        severity: 'fault',
        sentence: `There is another ${kind} “${name}” of this system at ${first}. Give one of them another name.`,
      });
  };
  // a symbol may stand on bittings that are retired as well
  for (const key of keys)
    if (key.status === 'issued' || key.status === 'reserved') report('key', key, key.symbol);
  for (const cylinder of cylinders) report('cylinder', cylinder, cylinder.id);
}
