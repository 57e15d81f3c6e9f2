/**
 * Construction keying in the sheets, in two plans. The first puts the cylinders into the state until hand-over: the key
 * in Keys, its column in the grid, the chambers that get a further pin, and a sheet that keeps how they are to stand
 * afterwards. The second is the one-way change: chambers and marks as the sheet keeps them, the key retired when it
 * operates nothing any more, so that its bitting is never issued again.
 */
import type { Bitting } from '../keying/bitting.ts';
import { formatBitting } from '../keying/bitting.ts';
import { formatDepthSet } from '../keying/chamberText.ts';
import type { ConstructionCylinder, OneWay } from '../keying/construction.ts';
import { shownIn } from '../keying/shownIn.ts';
import { formatLength, subtract, type Unit } from '../keying/units.ts';
import type { Specification } from '../keying/specification.ts';
import { columnOf } from './columns.ts';
import { findTable, systemNamed } from './find.ts';
import { addGridColumns, rowIn } from './gridColumns.ts';
import { chamberChanges, changeCells, type NamedChange } from './namedCells.ts';
import { fold, TABLES } from './names.ts';
import { parseAddress, place } from './places.ts';
import type { WritePlan } from './plan.ts';
import { appendOrCreate, contentOf } from './planRows.ts';
import { PlanBuilder } from './planTable.ts';
import type { BookReading } from './reading.ts';
import { CONSTRUCTION_COLUMNS, type OpenConstruction } from './tableConstruction.ts';
import { KEY_COLUMNS, keyRow } from './tableKeys.ts';

export interface ConstructionInput {
  readonly system: string;
  readonly symbol: string;
  readonly bitting: Bitting;
  /** Keyway of its blank; the system's when left out. */
  readonly keyway?: string;
  readonly oneWay: OneWay;
  readonly cylinders: readonly ConstructionCylinder[];
  /** Unit of the lengths; none = the spec's own. */
  readonly unit?: Unit | undefined;
}

interface Planned {
  readonly plan: WritePlan;
  readonly changes: readonly NamedChange[];
}

/** What a cylinder loses. @example leavesWords(spec, { chamber: 3, from: 4, to: 6 }) → 'a pin of 0.036 in (2 steps)' */
export function leavesWords(
  spec: Specification,
  { from, to }: ConstructionCylinder['leaves'][number],
): string {
  const [shallow, deep] = [Math.min(from, to), Math.max(from, to)];
  const length = subtract(spec.depths[shallow]!.root, spec.depths[deep]!.root);
  const steps = deep - shallow;
  return `a pin of ${formatLength(length, spec.unit)} (${steps} ${steps === 1 ? 'step' : 'steps'})`;
}

/** Puts the construction key to work. */
export function planConstruction(
  book: BookReading,
  input: ConstructionInput,
  { made }: { readonly made: string },
): Planned {
  const builder = new PlanBuilder(book);
  const title = `Construction key ${input.symbol} for ${input.system}`;
  const system = systemNamed(book, input.system);
  const spec = system?.spec;
  const cylinderTable = findTable(book.tables, TABLES.Cylinders);
  const keyTable = findTable(book.tables, TABLES.Keys);
  if (!system || !spec || !cylinderTable || !keyTable) {
    builder.conflict(`${input.system} can’t be read any more. Read it again.`);
    return { plan: builder.plan(title), changes: [] };
  }
  const pins: NamedChange[] = [];
  const rows: string[][] = [];
  const marked = new Set<number>();
  const gridTable = system.grid && findTable(book.tables, system.grid.table);
  for (const { id, before, after, leaves, changedBy } of input.cylinders) {
    const row = system.cylinders.find((cylinder) => fold(cylinder.id) === fold(id));
    if (!row || row.chambers?.join() !== after.join()) {
      builder.conflict(
        `Cylinder ${id} is no longer pinned as it was when the construction key was found. Go back and find it again.`,
        row?.at.row,
      );
      continue;
    }
    pins.push(...chamberChanges(spec, row, before));
    const line = rowIn(system, id);
    if (line !== undefined) marked.add(line);
    else if (gridTable)
      builder.conflict(
        `The grid of ${system.name} has no row for ${id}, so the construction key could not be marked and the audit would report it. Give it a row first.`,
        system.at,
      );
    for (const leaving of leaves)
      rows.push([
        system.name,
        input.symbol,
        formatBitting(spec, input.bitting),
        id,
        row.door ?? '',
        String(leaving.chamber),
        formatDepthSet(spec, before[leaving.chamber - 1]!),
        formatDepthSet(spec, after[leaving.chamber - 1]!),
        leavesWords(shownIn(spec, input.unit), leaving),
        input.oneWay === 'repin' ? 're-pinned at hand-over' : changedBy.join(', '),
        '',
      ]);
  }
  if (!gridTable)
    builder.conflict(
      `${system.name} has no grid, so the construction key could not be marked and the audit would report it. Give the system a grid first.`,
      system.at,
    );
  const keyway = input.keyway ?? system.keyway;
  appendOrCreate(builder, keyTable, {
    table: TABLES.Keys,
    sheet: 'Keys',
    title: '',
    line: '',
    columns: KEY_COLUMNS,
    rows: [
      keyRow(
        {
          symbol: input.symbol,
          level: 'single',
          bitting: input.bitting,
          status: 'issued',
          ...(keyway !== undefined && { keyway }),
        },
        spec,
        { system: system.name },
      ),
    ],
    frozen: 2,
  });
  changeCells(builder, cylinderTable, pins);
  if (gridTable) addGridColumns(builder, gridTable, [{ heading: input.symbol, rows: marked }]);
  appendOrCreate(builder, findTable(book.tables, TABLES.Construction), {
    table: TABLES.Construction,
    sheet: 'Construction',
    title: 'Cylinders under a construction key',
    line: `One row a chamber that changes at hand-over. First written ${made}. SECRET: whoever has a bitting can cut the key.`,
    columns: CONSTRUCTION_COLUMNS,
    rows,
    frozen: 2,
  });
  return { plan: builder.plan(title), changes: pins };
}

/**
 * The one-way change for some cylinders of a construction key: written when they have been turned by the owner's keys,
 * or re-pinned. `made` is the date as it shall stand in the sheet.
 */
export function planHandOver(
  book: BookReading,
  open: OpenConstruction,
  cylinders: readonly string[],
  { made }: { readonly made: string },
): Planned {
  const builder = new PlanBuilder(book);
  const title = `Hand over ${open.system}`;
  const system = systemNamed(book, open.system);
  const spec = system?.spec;
  const cylinderTable = findTable(book.tables, TABLES.Cylinders);
  const constructionTable = findTable(book.tables, TABLES.Construction);
  for (const { sentence, sheet, address } of open.problems) builder.conflict(sentence, { sheet, address });
  if (!system || !spec || !cylinderTable || !constructionTable) {
    builder.conflict(`${open.system} can’t be read any more. Read it again.`);
    return { plan: builder.plan(title), changes: [] };
  }
  const wanted = new Set(cylinders.map(fold));
  const pins: NamedChange[] = [];
  const marks: NamedChange[] = [];
  const dates: NamedChange[] = [];
  for (const { cylinder, chamber, before, after, handed } of open.chambers) {
    if (!wanted.has(fold(cylinder))) continue;
    const row = system.cylinders.find((each) => fold(each.id) === fold(cylinder));
    const now = row?.chambers?.[chamber - 1];
    if (!row?.chambers || (now !== before && now !== after)) {
      builder.conflict(
        `Chamber ${chamber} of ${row?.door ?? cylinder} is pinned neither as it was for the construction key nor as it shall be afterwards. Look at it, and correct the sheet that is wrong.`,
        row?.at.chambers[chamber - 1] ?? row?.at.row ?? handed,
      );
      continue;
    }
    pins.push(
      ...chamberChanges(
        spec,
        row,
        row.chambers.map((set, i) => (i === chamber - 1 ? after : set)),
      ),
    );
    dates.push({ at: handed, what: `Handed over, ${row.door ?? row.id}`, from: '', to: made });
  }
  for (const { key, cylinder, at } of system.grid?.marks ?? [])
    if (fold(key) === fold(open.symbol) && wanted.has(fold(cylinder)))
      marks.push({
        at,
        what: `Mark of ${open.symbol} for ${cylinder}`,
        from: String(contentOf(builder, { ...parseAddress(at.address)!, sheet: at.sheet })[0]![0]!),
        to: '',
      });
  const left = open.chambers.some(({ cylinder }) => !wanted.has(fold(cylinder)));
  const retired = left ? [] : retirement(builder, book, open);
  changeCells(builder, cylinderTable, pins);
  const gridTable = system.grid && findTable(book.tables, system.grid.table);
  if (gridTable) changeCells(builder, gridTable, marks);
  const keyTable = findTable(book.tables, TABLES.Keys);
  if (keyTable) changeCells(builder, keyTable, retired);
  changeCells(builder, constructionTable, dates);
  return { plan: builder.plan(title), changes: [...pins, ...marks, ...retired, ...dates] };
}

/** The status of the construction key, which operates nothing any more. */
function retirement(builder: PlanBuilder, book: BookReading, open: OpenConstruction): NamedChange[] {
  const table = findTable(book.tables, TABLES.Keys);
  const row = systemNamed(book, open.system)?.keys.find(
    (key) => fold(key.symbol) === fold(open.symbol) && (key.status === 'issued' || key.status === 'reserved'),
  );
  const column = table ? columnOf(table, 'Status') : -1;
  if (!table || !row || column < 0) return [];
  const at = place(table.sheet, parseAddress(row.at.row.address)!.row, table.box.column + column);
  const held = contentOf(builder, { ...parseAddress(at.address)!, sheet: at.sheet })[0]![0]!;
  return [{ at, what: `Status of ${open.symbol}`, from: String(held), to: 'retired' }];
}
