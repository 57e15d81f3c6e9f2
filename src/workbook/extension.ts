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
import { isInUse, type KeyRecord } from '../keying/system.ts';
import { err, ok, type Result } from '../keying/result.ts';
import { auditInput, type SystemAudit } from './auditInput.ts';
import { readCells, type NewCylinder, type ReadCells } from './extensionCells.ts';
import { findTable, systemNamed } from './find.ts';
import { askedMetal, NO_WISH, type AskedMetal, type MetalWish } from './gridAsked.ts';
import type { ChartKey, ChartMark } from './gridChart.ts';
import { retiredUnder } from './knownKeys.ts';
import { fold } from './names.ts';
import type { Box, Place } from './places.ts';
import type { BookReading, Problem, SystemReading, TableReading } from './reading.ts';
import { readShop } from './tableShop.ts';

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
  /** Fields of the pane that can't be read. */
  readonly faults: AskedMetal['faults'];
  /** Existing keys and cylinders fixed, the new ones open. */
  readonly grid: Grid;
  /** Bittings that were in use and are nobody's now: never issued again. */
  readonly avoid: readonly Bitting[];
}

/** Why a system isn't extended, or what it would be extended by. */
export function readExtension(
  book: BookReading,
  name: string,
  wish: MetalWish = NO_WISH,
): Result<Extension, readonly Problem[]> {
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
  const live = audit.system.keys.filter((key) => key.level !== 'control' && isInUse(key));
  const read = readCells(book, table, live, audit.system);
  const marks = allMarks(audit, live, read);
  const metal = askedMetal({ keys: read.newKeys, cylinders: read.newCylinders }, wish, {
    spec,
    blanks: readShop(book).blanks,
    // what is new is of the system's keyway, and its cores are pulled by the control key that the others have
    keyway: system.keyway,
    control: audit.system.cylinders.find((cylinder) => cylinder.control)?.control,
    standing: new Set([
      ...audit.system.keys.map(({ symbol }) => fold(symbol)),
      ...audit.system.cylinders.flatMap(({ id, door }) => [fold(id), ...(door ? [fold(door)] : [])]),
    ]),
  });
  const grid = gridOf(
    spec,
    [...live.map(fixedKey), ...metal.keys],
    [...audit.system.cylinders.map(fixedCylinder), ...metal.cylinders],
    marks,
    audit.system.enters,
  );
  const kept = new Set(live.map(({ bitting }) => bitting.join()));
  return ok({
    system,
    audit,
    table,
    box: read.box,
    newKeys: read.newKeys,
    newCylinders: read.newCylinders,
    marks,
    cells: read.cells,
    problems: [...read.problems, ...metal.problems],
    faults: metal.faults,
    grid,
    avoid: [
      ...system.keys.flatMap(({ bitting, status }) => (bitting && status !== 'free' ? [bitting] : [])),
      ...[system.keyway, ...metal.keys.map(({ keyway }) => keyway)].flatMap((keyway, k, all) =>
        all.indexOf(keyway) === k ? retiredUnder(book, spec, keyway) : [],
      ),
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

/** As the audit takes it: the grid's marks, and the hierarchy where the grid has no column or no row. */
function allMarks(audit: SystemAudit, live: readonly KeyRecord[], read: ReadCells): Mark[] {
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
