/**
 * A system that shall grow: its keys and cylinders stand as they are, and whatever its grid has a column or a row for
 * beyond them is new. New columns and rows may stand in the grid or right beside and below it, as people type them.
 *
 * A system is never extended blind (a trade association's technical standard on extending systems): without a key
 * bitting array and a complete list of the bittings in use, keys are keyed singly or a new system is begun.
 */
import { formatBitting, type Bitting } from '../keying/bitting.ts';
import { fixedCylinder, fixedKey, gridOf, type Grid } from '../keying/grid/index.ts';
import { intendedByHierarchy, type Mark } from '../keying/intended.ts';
import type { CylinderRecord, KeyRecord } from '../keying/system.ts';
import { err, ok, type Result } from '../keying/result.ts';
import { auditInput, type SystemAudit } from './auditInput.ts';
import { sliceCells } from './cells.ts';
import { columnOf } from './columns.ts';
import { isBlank } from './fields.ts';
import { findTable, systemNamed } from './find.ts';
import type { ChartCylinder, ChartKey, ChartMark } from './gridChart.ts';
import { retiredUnder } from './knownKeys.ts';
import { fold } from './names.ts';
import { place, type Box, type Place } from './places.ts';
import type { BookReading, CellValue, Problem, SystemReading, TableReading } from './reading.ts';
import { GRID_ROW_COLUMNS, isKeyHeading, MARK, readMark } from './tableGrid.ts';

export interface NewCylinder extends ChartCylinder {
  /** As typed in the grid's row; blank where none is. */
  readonly symbol: string;
}

export interface Extension {
  readonly system: SystemReading;
  readonly audit: SystemAudit;
  readonly table: TableReading;
  /** The grid with the columns and rows that were typed beside and below it. */
  readonly box: Box;
  readonly newKeys: readonly ChartKey[];
  readonly newCylinders: readonly NewCylinder[];
  /** Every pair that must operate: what the system has, and what is marked anew. */
  readonly marks: readonly Mark[];
  /** Those of them that stand in a cell of the grid. */
  readonly cells: readonly ChartMark[];
  readonly problems: readonly Problem[];
  /** Existing keys and cylinders fixed, the new ones open. */
  readonly grid: Grid;
  /** Bittings that were in use and are nobody's now: never issued again. */
  readonly avoid: readonly Bitting[];
}

/** Why a system isn't extended, or what it would be extended by. */
export function readExtension(book: BookReading, name: string): Result<Extension, readonly Problem[]> {
  const system = systemNamed(book, name);
  const audit = system && auditInput(book, name);
  const spec = system?.spec;
  if (!system || !audit || !spec)
    return err([refusal(system?.at, `The spec of ${name} can’t be read. Mend it in the sheet Specs first.`)]);
  const blind = blindness(system, audit);
  if (blind.length > 0) return err(blind);
  const table = system.grid && findTable(book.tables, system.grid.table);
  if (!table)
    return err([
      refusal(
        system.at,
        'This system has no grid to mark new doors and keys in. Type its name under Grid, or key the new doors singly.',
      ),
    ]);
  const { cells, box } = grown(book, table);
  const live = audit.system.keys.filter(
    (key) => key.level !== 'control' && (key.status === 'issued' || key.status === 'reserved'),
  );
  const read = readCells(cells, box, table, live, audit.system.cylinders, audit.system.keys);
  const marks = allMarks(audit, live, read);
  // what is new is of the system's keyway, and its cores are pulled by the control key that the others have
  const own = { ...(system.keyway !== undefined && { keyway: system.keyway }) };
  const control = audit.system.cylinders.find((cylinder) => cylinder.control)?.control;
  const core = { ...own, ...(control && { control }) };
  const grid = gridOf(
    spec,
    [...live.map(fixedKey), ...read.newKeys.map(({ symbol }) => ({ symbol, ...own }))],
    [...audit.system.cylinders.map(fixedCylinder), ...read.newCylinders.map(({ id }) => ({ id, ...core }))],
    marks,
    audit.system.enters,
  );
  const kept = new Set(live.map(({ bitting }) => bitting.join()));
  return ok({
    system,
    audit,
    table,
    box,
    newKeys: read.newKeys,
    newCylinders: read.newCylinders,
    marks,
    cells: read.cells,
    problems: read.problems,
    grid,
    avoid: [
      ...system.keys.flatMap(({ bitting, status }) => (bitting && status !== 'free' ? [bitting] : [])),
      ...retiredUnder(book, spec, system.keyway),
    ].filter((bitting, i, all) => {
      const cuts = bitting.join();
      return !kept.has(cuts) && all.findIndex((other) => other.join() === cuts) === i;
    }),
  });
}

const refusal = (at: Place | undefined, sentence: string): Problem => ({
  ...(at ?? { sheet: '', address: '' }),
  severity: 'fault',
  sentence,
});

const NEVER_BLIND =
  'A system is not extended blind: without it nobody knows which bittings are free. Supply it, key the new doors singly, or begin a new system.';

/** What a sound extension needs and this system lacks. */
export function blindness(system: SystemReading, audit: SystemAudit): Problem[] {
  const problems: Problem[] = [];
  const { array, topMaster, spec } = system;
  if (!array)
    problems.push(
      refusal(system.at, `${system.name} has no key bitting array that can be read. ${NEVER_BLIND}`),
    );
  if (system.keys.length === 0)
    problems.push(refusal(system.at, `${system.name} has no list of the bittings in use. ${NEVER_BLIND}`));
  for (const row of system.keys)
    if (!row.record)
      problems.push(
        refusal(
          row.at.bitting,
          `The bitting of ${row.symbol || 'this key'} can’t be read, so the list of bittings in use is not complete. ${NEVER_BLIND}`,
        ),
      );
  for (const row of system.cylinders)
    if (!row.chambers)
      problems.push(
        refusal(
          row.at.chambers[0] ?? row.at.row,
          `The pinning of cylinder ${row.id} can’t be read, so nobody knows which new keys would operate it. Supply it, or take the row out.`,
        ),
      );
  if (array && spec)
    for (const key of audit.system.keys) {
      // single keys stand outside the hierarchy, and outside its array
      if (key.level === 'control' || key.level === 'single' || key.status === 'free') continue;
      const chamber = key.bitting.findIndex((cut, i) => cut !== topMaster?.[i] && !array[i]!.includes(cut));
      if (chamber < 0) continue;
      const row = system.keys.find((r) => r.record === key);
      problems.push(
        refusal(
          row?.at.bitting ?? system.at,
          `${key.symbol} (${formatBitting(spec, key.bitting)}) has a cut at position ${chamber + 1} that the key bitting array doesn’t hold: one of the two is not this system’s. Correct it first.`,
        ),
      );
    }
  return problems;
}

/** The grid's cells with columns typed to the right of it and rows typed below it. */
function grown(
  book: BookReading,
  table: TableReading,
): { readonly cells: readonly (readonly CellValue[])[]; readonly box: Box } {
  const sheet = book.sheets.find((s) => s.name === table.sheet);
  const { box } = table;
  if (!sheet?.used || !sheet.values) return { cells: [table.headers, ...table.values], box };
  const { used, values } = sheet;
  const at = (row: number, column: number): CellValue => values[row - used.row]?.[column - used.column] ?? '';
  let { rows, columns } = box;
  while (!isBlank(at(box.row, box.column + columns))) columns++;
  const cylinder = box.column + Math.max(0, columnOf(table, 'Cylinder'));
  // a totals row is no cylinder
  while (!table.totals && !isBlank(at(box.row + rows, cylinder))) rows++;
  const whole: Box = { ...box, rows, columns };
  return { cells: sliceCells(values, used, whole), box: whole };
}

interface Read {
  readonly newKeys: ChartKey[];
  readonly newCylinders: NewCylinder[];
  readonly cells: ChartMark[];
  readonly problems: Problem[];
  /** Folded symbols with a column, and folded ids with a row. */
  readonly columns: ReadonlySet<string>;
  readonly rows: ReadonlySet<string>;
}

function readCells(
  cells: readonly (readonly CellValue[])[],
  box: Box,
  table: TableReading,
  live: readonly KeyRecord[],
  cylinders: readonly CylinderRecord[],
  all: readonly KeyRecord[],
): Read {
  const problems: Problem[] = [];
  const text = (r: number, c: number): string => (c < 0 ? '' : String(cells[r]?.[c] ?? '').trim());
  const at = (r: number, c: number): Place => place(box.sheet, box.row + r, box.column + c);
  const fault = (r: number, c: number, sentence: string): void => {
    problems.push({ ...at(r, c), severity: 'fault', sentence });
  };
  const known = new Map(live.map((key) => [fold(key.symbol), key.symbol]));
  const gone = new Set(all.map((key) => fold(key.symbol)));
  const [cylinderAt, doorAt, symbolAt] = GRID_ROW_COLUMNS.map(({ heading }) => columnOf(table, heading));
  const columns = new Map<number, string>();
  const named = new Set<string>();
  const newKeys: ChartKey[] = [];
  for (let c = 0; c < box.columns; c++) {
    const heading = text(0, c);
    if (c === cylinderAt || c === doorAt || c === symbolAt || heading === '') continue;
    const isKey = known.has(fold(heading));
    const marked = cells.slice(1).some((row) => readMark(row[c] ?? '') === true);
    if (!isKey && (!isKeyHeading(heading) || !marked)) continue;
    if (named.has(fold(heading))) {
      fault(0, c, `Key “${heading}” has two columns. Take one away.`);
      continue;
    }
    named.add(fold(heading));
    if (!isKey && gone.has(fold(heading))) {
      fault(
        0,
        c,
        `“${heading}” is the symbol of a key that is void or retired. Give the new key another symbol.`,
      );
      continue;
    }
    columns.set(c, known.get(fold(heading)) ?? heading);
    if (!isKey) newKeys.push({ symbol: heading, at: at(0, c) });
  }
  const there = new Map(cylinders.map((cylinder) => [fold(cylinder.id), cylinder.id]));
  const rows = new Set<string>();
  const newCylinders: NewCylinder[] = [];
  const marks: ChartMark[] = [];
  for (let r = 1; r < box.rows; r++) {
    const id = text(r, cylinderAt ?? -1);
    if (id === '') continue;
    if (rows.has(fold(id))) {
      fault(r, cylinderAt ?? 0, `Cylinder “${id}” has two rows. Take one away.`);
      continue;
    }
    rows.add(fold(id));
    const cylinder = there.get(fold(id)) ?? id;
    const marksBefore = marks.length;
    for (const [c, key] of columns) {
      const cell = cells[r]?.[c] ?? '';
      const mark = readMark(cell);
      if (mark === true) marks.push({ key, cylinder, at: at(r, c) });
      else if (mark === undefined)
        fault(r, c, `“${String(cell)}” is no mark. Type ${MARK} or x where ${key} must operate ${id}.`);
    }
    if (there.has(fold(id))) continue;
    const door = text(r, doorAt ?? -1);
    const symbol = text(r, symbolAt ?? -1);
    if (marks.length === marksBefore && symbol === '') {
      fault(
        r,
        cylinderAt ?? 0,
        `The new cylinder “${id}” is marked for no key. Mark those that must operate it.`,
      );
      continue;
    }
    newCylinders.push({ id, symbol, at: at(r, cylinderAt ?? 0), ...(door && { door }) });
  }
  return { newKeys, newCylinders, cells: marks, problems, columns: named, rows };
}

/** As the audit takes it: the grid's marks, and the hierarchy where the grid has no column or no row. */
function allMarks(audit: SystemAudit, live: readonly KeyRecord[], read: Read): Mark[] {
  const seen = new Set<string>();
  const marks: Mark[] = [];
  const add = (key: string, cylinder: string): void => {
    const name = `${fold(key)} ${fold(cylinder)}`;
    if (seen.has(name)) return;
    seen.add(name);
    marks.push({ key, cylinder });
  };
  for (const { key, cylinder } of read.cells) add(key, cylinder);
  for (const { key, cylinder } of audit.marks) {
    const inGrid = read.columns.has(fold(key)) && read.rows.has(fold(cylinder));
    if (!inGrid) add(key, cylinder);
  }
  intendedByHierarchy(live, read.newCylinders).forEach((numbers, c) => {
    for (const k of numbers)
      if (!read.columns.has(fold(live[k]!.symbol))) add(live[k]!.symbol, read.newCylinders[c]!.id);
  });
  return marks;
}
