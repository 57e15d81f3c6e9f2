/**
 * A system grown by what its grid asks for: rows appended to Keys and Cylinders, the grid widened over what was typed
 * beside it, and named changes for cylinders that are re-pinned and chambers of the key bitting array that grow.
 */
import { controlKeysFor } from '../keying/controlKeys.ts';
import type { GridCylinder, Solved } from '../keying/grid/index.ts';
import { levelsOf, ownKeys } from '../keying/solvedSystem.ts';
import { parentSymbol } from '../keying/symbol.ts';
import type { CylinderRecord, KeyRecord } from '../keying/system.ts';
import { columnOf } from './columns.ts';
import type { Extension } from './extension.ts';
import { findTable } from './find.ts';
import { fold, TABLES } from './names.ts';
import { changeCells, chamberChanges, type NamedChange } from './namedCells.ts';
import { parseAddress, place } from './places.ts';
import type { WritePlan } from './plan.ts';
import { appendOrCreate, reportObstacles } from './planRows.ts';
import { PlanBuilder } from './planTable.ts';
import type { BookReading } from './reading.ts';
import { CYLINDER_COLUMNS, cylinderRow } from './tableCylinders.ts';
import { KEY_COLUMNS, keyRow } from './tableKeys.ts';

export interface ExtensionPlan {
  readonly plan: WritePlan;
  /** Cells of rows that were there before, with what they hold now. */
  readonly changes: readonly NamedChange[];
}

/** `solved` answers `extension.grid`, with some existing cylinders freed where they are to be re-pinned. */
export function planExtension(
  book: BookReading,
  extension: Extension,
  solved: Solved,
  { made }: { readonly made: string },
): ExtensionPlan {
  const builder = new PlanBuilder(book);
  const { system } = extension;
  const spec = extension.grid.spec;
  const cylinders = newCylinders(extension, solved);
  const operating = newKeys(extension, solved);
  const controls = controlKeysFor(cylinders, {
    keys: [...extension.audit.system.keys, ...operating],
    keyway: system.keyway,
    enters: extension.grid.enters,
  });
  const keys = [...operating, ...controls.keys];
  const beside = { system: system.name };
  const content = { title: '', line: `Extended ${made}.`, frozen: 2 };
  appendOrCreate(builder, findTable(book.tables, TABLES.Keys), {
    ...content,
    table: TABLES.Keys,
    sheet: 'Keys',
    columns: KEY_COLUMNS,
    rows: keys.map((key) => keyRow(key, spec, beside)),
  });
  const cylinderTable = findTable(book.tables, TABLES.Cylinders)!;
  appendOrCreate(builder, cylinderTable, {
    ...content,
    table: TABLES.Cylinders,
    sheet: 'Cylinders',
    columns: CYLINDER_COLUMNS,
    rows: cylinders.map((cylinder) => cylinderRow(cylinder, spec, beside)),
  });
  const repinned = solved.cylinders.flatMap(({ id, chambers }) => {
    const row = system.cylinders.find((c) => fold(c.id) === fold(id));
    return row ? chamberChanges(spec, row, chambers) : [];
  });
  changeCells(builder, cylinderTable, repinned);
  const widened = arrayChanges(book, extension, operating);
  const systems = findTable(book.tables, TABLES.Systems)!;
  changeCells(builder, systems, widened);
  growGrid(builder, extension);
  return { plan: builder.plan(`Extend ${system.name}`), changes: [...repinned, ...widened] };
}

function newKeys({ grid, newKeys: asked, system }: Extension, solved: Solved): KeyRecord[] {
  const levels = levelsOf(grid);
  const there = new Map(system.keys.map((key) => [fold(key.symbol), key.symbol]));
  return asked.map(({ symbol }) => {
    const k = grid.keys.findIndex((key) => key.symbol === symbol);
    const above = parentSymbol(symbol);
    const parent = above === undefined ? undefined : there.get(fold(above));
    const { keyway, cuts } = grid.keys[k]!;
    return {
      symbol,
      level: levels[k]!,
      bitting: solved.keys[k]!.bitting,
      status: 'issued',
      ...(parent !== undefined && { parent }),
      ...(keyway !== undefined && { keyway }),
      ...(cuts !== undefined && { cuts }),
    };
  });
}

function newCylinders({ grid, newCylinders: asked }: Extension, solved: Solved): CylinderRecord[] {
  const own = ownKeys(grid);
  return asked.map(({ id, door, symbol }) => {
    const c = grid.cylinders.findIndex((cylinder) => cylinder.id === id);
    return {
      id,
      symbol: symbol || grid.keys[own[c]!]!.symbol,
      chambers: solved.cylinders[c]!.chambers,
      ...(door !== undefined && { door }),
      ...pickCore(grid.cylinders[c]!),
    };
  });
}

const pickCore = ({ control, keyway }: GridCylinder): Pick<CylinderRecord, 'control' | 'keyway'> => ({
  ...(control && { control }),
  ...(keyway !== undefined && { keyway }),
});

/** Cells of the array that gain a depth which a new key has and the array hasn't. */
function arrayChanges(book: BookReading, { system }: Extension, keys: readonly KeyRecord[]): NamedChange[] {
  const table = findTable(book.tables, TABLES.Systems)!;
  const row = parseAddress(system.at.address)!.row;
  const { spec, array, topMaster } = system;
  if (!spec || !array) return [];
  return array.flatMap((choices, i): NamedChange[] => {
    const gained = [...new Set(keys.map((key) => key.bitting[i]!))]
      .filter((cut) => cut !== topMaster?.[i] && !choices.includes(cut))
      .sort((a, b) => a - b);
    const column = columnOf(table, `Array ${i + 1}`);
    if (gained.length === 0 || column < 0) return [];
    const symbols = (depths: readonly number[]): string =>
      depths.map((depth) => spec.depths[depth]!.symbol).join(' ');
    return [
      {
        at: place(table.sheet, row, table.box.column + column),
        what: `Array ${i + 1} of ${system.name}`,
        from: symbols(choices),
        to: symbols([...choices, ...gained]),
      },
    ];
  });
}

/** Takes columns and rows that were typed beside the grid into its table. */
function growGrid(builder: PlanBuilder, { table, box }: Extension): void {
  if (box.rows === table.box.rows && box.columns === table.box.columns) return;
  reportObstacles(builder, table);
  builder.steps.push({ kind: 'resize-table', name: table.name, from: table.box, to: box });
  builder.effects.push({
    kind: 'cells',
    sheet: table.sheet,
    rows: box.rows * box.columns - table.box.rows * table.box.columns,
    what: 'taken into the grid',
  });
}
