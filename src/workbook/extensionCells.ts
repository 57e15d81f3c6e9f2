/**
 * The cells of a system's grid with what was typed beside, below and above them: which columns are keys and which rows
 * cylinders of the system, which are new, and what is said of these.
 */
import { formatBitting, parseBitting } from '../keying/bitting.ts';
import { isInUse, type KeyRecord, type KeySystem } from '../keying/system.ts';
import { sliceCells, type Cells } from './cells.ts';
import { columnOf } from './columns.ts';
import { isBlank } from './fields.ts';
import { isControlSymbol } from './gridAsked.ts';
import type { ChartCylinder, ChartKey, ChartMark } from './gridChart.ts';
import { columnsAbout, firstOf, isKeyRow, metalAt, rowsAbout, type Metal } from './gridMetal.ts';
import { fold } from './names.ts';
import { place, type Box, type Place } from './places.ts';
import type { BookReading, CellValue, Problem, TableReading } from './reading.ts';
import { GRID_ROW_COLUMNS, isKeyHeading, MARK, readMark } from './tableGrid.ts';

export interface NewCylinder extends ChartCylinder {
  /** As typed in the grid's row; blank where none is. */
  readonly symbol: string;
}

export interface ReadCells {
  /** The grid with the columns and rows that were typed beside and below it. */
  readonly box: Box;
  readonly newKeys: ChartKey[];
  readonly newCylinders: NewCylinder[];
  readonly cells: ChartMark[];
  readonly problems: Problem[];
  /** Folded symbols with a column, and folded ids with a row. */
  readonly columns: ReadonlySet<string>;
  readonly rows: ReadonlySet<string>;
}

interface Grown {
  readonly cells: Cells;
  readonly box: Box;
  /** The sheet's rows above the headings. */
  readonly above: Cells;
}

/** The grid's cells with columns typed to the right of it and rows typed below it. */
function grown(book: BookReading, table: TableReading): Grown {
  const sheet = book.sheets.find((s) => s.name === table.sheet);
  const { box } = table;
  if (!sheet?.used || !sheet.values) return { cells: [table.headers, ...table.values], box, above: [] };
  const { used, values } = sheet;
  const at = (row: number, column: number): CellValue => values[row - used.row]?.[column - used.column] ?? '';
  let { rows, columns } = box;
  while (!isBlank(at(box.row, box.column + columns))) columns++;
  const cylinder = box.column + Math.max(0, columnOf(table, 'Cylinder'));
  // a totals row is no cylinder
  while (!table.totals && !isBlank(at(box.row + rows, cylinder))) rows++;
  const whole: Box = { ...box, rows, columns };
  const above = sliceCells(values, used, { ...whole, row: 0, rows: box.row });
  return { cells: sliceCells(values, used, whole), box: whole, above };
}

/** `live` are the keys that turn cylinders now. */
export function readCells(
  book: BookReading,
  table: TableReading,
  live: readonly KeyRecord[],
  system: KeySystem,
): ReadCells {
  const { cells, box, above } = grown(book, table);
  const problems: Problem[] = [];
  const text = (r: number, c: number): string => (c < 0 ? '' : String(cells[r]?.[c] ?? '').trim());
  const at = (r: number, c: number): Place => place(box.sheet, box.row + r, box.column + c);
  const fault = (r: number, c: number, sentence: string): void => {
    problems.push({ ...at(r, c), severity: 'fault', sentence });
  };
  const [cylinderAt = -1, doorAt = -1, symbolAt = -1] = GRID_ROW_COLUMNS.map(({ heading }) =>
    columnOf(table, heading),
  );
  const found = readColumns({ cells, live, system, beside: [cylinderAt, doorAt, symbolAt] }, fault);
  const { columns, pulling, named } = found;
  const aboutCylinders = columnsAbout(cells[0] ?? []);
  const aboutKeys = firstOf(
    rowsAbout([...above, ...cells], {
      keys: [...columns.keys(), ...pulling.keys()],
      cylinder: cylinderAt,
      door: doorAt,
    }),
  );
  const ofKey = (column: number): Metal | undefined =>
    metalAt(
      [...above, ...cells],
      aboutKeys,
      (row) => [row, column],
      (row, c) => at(row - above.length, c),
    );
  const newKeys = found.newKeys.map(({ symbol, column }): ChartKey => {
    const metal = ofKey(column);
    return { symbol, at: at(0, column), ...(metal && { metal }) };
  });
  const keywayOf = new Map(live.map(({ symbol, keyway }) => [symbol, keyway]));
  for (const [c, symbol] of columns)
    if (keywayOf.has(symbol)) problems.push(...kept(ofKey(c), symbol, keywayOf.get(symbol), 'Keys'));
  const there = new Map(system.cylinders.map((cylinder) => [fold(cylinder.id), cylinder]));
  const rows = new Set<string>();
  const newCylinders: NewCylinder[] = [];
  const marks: ChartMark[] = [];
  for (let r = 1; r < box.rows; r++) {
    const id = text(r, cylinderAt);
    if (id === '' || isKeyRow(id)) continue;
    if (rows.has(fold(id))) {
      fault(r, cylinderAt, `Cylinder “${id}” has two rows. Take one away.`);
      continue;
    }
    rows.add(fold(id));
    const cylinder = there.get(fold(id));
    const marksBefore = marks.length;
    for (const [c, key] of columns) {
      const cell = cells[r]?.[c] ?? '';
      const mark = readMark(cell);
      if (mark === true) marks.push({ key, cylinder: cylinder?.id ?? id, at: at(r, c) });
      else if (mark === undefined)
        fault(r, c, `“${String(cell)}” is no mark. Type ${MARK} or x where ${key} must operate ${id}.`);
    }
    const said = metalAt(cells, aboutCylinders, (c) => [r, c], at);
    if (cylinder) {
      problems.push(...kept(said, id, cylinder.keyway, 'Cylinders'));
      continue;
    }
    const door = text(r, doorAt);
    const symbol = text(r, symbolAt);
    if (marks.length === marksBefore && symbol === '') {
      fault(r, cylinderAt, `The new cylinder “${id}” is marked for no key. Mark those that must operate it.`);
      continue;
    }
    const pullers = [...pulling].flatMap(([c, key]) =>
      readMark(cells[r]?.[c] ?? '') === true ? [{ key, at: at(r, c) }] : [],
    );
    const metal = withPuller(id, said, pullers, system, problems);
    newCylinders.push({
      id,
      symbol,
      at: at(r, cylinderAt),
      ...(door && { door }),
      ...(metal && { metal }),
    });
  }
  return { box, newKeys, newCylinders, cells: marks, problems, columns: named, rows };
}

/** What the grid says of a key or cylinder that stands, where its own sheet says something else. */
function kept(said: Metal | undefined, name: string, now: string | undefined, sheet: string): Problem[] {
  const { blank } = said ?? {};
  if (!blank || fold(blank.text) === fold(now ?? '')) return [];
  return [
    {
      ...blank.at,
      severity: 'warning',
      sentence: `The sheet ${sheet} says ${now ? `the keyway ${now}` : 'no keyway'} of ${name}, and that stays. Correct one of the two.`,
    },
  ];
}

interface Columns {
  /** Symbol of each key that turns cylinders, by column. */
  readonly columns: ReadonlyMap<number, string>;
  /** Control keys of the system, by column. */
  readonly pulling: ReadonlyMap<number, KeyRecord>;
  readonly newKeys: readonly { readonly symbol: string; readonly column: number }[];
  /** Folded symbols with a column. */
  readonly named: ReadonlySet<string>;
}

interface ColumnsGround {
  readonly cells: Cells;
  readonly live: readonly KeyRecord[];
  readonly system: KeySystem;
  /** Columns about the rows. */
  readonly beside: readonly number[];
}

function readColumns(
  { cells, live, system: { keys, spec }, beside }: ColumnsGround,
  fault: (row: number, column: number, sentence: string) => void,
): Columns {
  const known = new Map(live.map((key) => [fold(key.symbol), key.symbol]));
  const gone = new Set(keys.map((key) => fold(key.symbol)));
  const controls = new Map(
    keys.filter((key) => key.level === 'control' && isInUse(key)).map((key) => [fold(key.symbol), key]),
  );
  const columns = new Map<number, string>();
  const pulling = new Map<number, KeyRecord>();
  const named = new Set<string>();
  const newKeys: { symbol: string; column: number }[] = [];
  (cells[0] ?? []).forEach((cell, c) => {
    const heading = String(cell).trim();
    if (beside.includes(c) || heading === '') return;
    const control = controls.get(fold(heading));
    const isKey = known.has(fold(heading)) || control !== undefined;
    const marked = cells.slice(1).some((row) => readMark(row[c] ?? '') === true);
    if (!isKey && (!isKeyHeading(heading) || !marked)) return;
    if (named.has(fold(heading))) return fault(0, c, `Key “${heading}” has two columns. Take one away.`);
    named.add(fold(heading));
    if (control) pulling.set(c, control);
    else if (isKey) columns.set(c, known.get(fold(heading))!);
    else if (gone.has(fold(heading)))
      fault(
        0,
        c,
        `“${heading}” is the symbol of a key that is void or retired. Give the new key another symbol.`,
      );
    else if (spec.core && isControlSymbol(heading))
      fault(
        0,
        c,
        `“${heading}” is no control key of this system yet. Clear this column, and type the control cuts of the new cores in a column Control: their key is made.`,
      );
    else {
      columns.set(c, heading);
      newKeys.push({ symbol: heading, column: c });
    }
  });
  return { columns, pulling, newKeys, named };
}

/** A new core that is marked for a control key of the system has that key's cuts. */
function withPuller(
  id: string,
  said: Metal | undefined,
  pullers: readonly { readonly key: KeyRecord; readonly at: Place }[],
  { spec }: KeySystem,
  problems: Problem[],
): Metal | undefined {
  const [puller, other] = pullers;
  if (!puller) return said;
  if (other)
    problems.push({
      ...other.at,
      severity: 'fault',
      sentence: `${id} is marked for two control keys, and a core is pulled by one. Take one mark away.`,
    });
  const text = formatBitting(spec, puller.key.bitting);
  const cell = said?.control && parseBitting(spec, said.control.text);
  if (cell?.ok && cell.value.join() !== puller.key.bitting.join())
    problems.push({
      ...said!.control!.at,
      severity: 'fault',
      sentence: `These are not the cuts of ${puller.key.symbol}, which ${id} is marked for. Correct them, or take the mark away.`,
    });
  return said?.control ? said : { ...said, control: { text, at: puller.at } };
}
