/**
 * A newly made system as a plan: a row in Systems, its keys and cylinders below those that are there, and a grid of
 * its own. A system of that name that is there already is a conflict: nothing is ever extended or written over blind.
 */
import { intendedByHierarchy } from '../keying/intended.ts';
import { isInUse, type KeySystem } from '../keying/system.ts';
import { columnOf } from './columns.ts';
import { findTable, systemNamed } from './find.ts';
import { fold, freeGridName, TABLES } from './names.ts';
import { place } from './places.ts';
import type { WritePlan } from './plan.ts';
import { addSpecs } from './planSpecs.ts';
import { appendOrCreate } from './planRows.ts';
import { createSheet, PlanBuilder } from './planTable.ts';
import type { BookReading } from './reading.ts';
import { CYLINDER_COLUMNS, cylinderRow } from './tableCylinders.ts';
import { GRID_ROW_COLUMNS, gridColumns, gridRow } from './tableGrid.ts';
import { KEY_COLUMNS, keyRow } from './tableKeys.ts';
import { SYSTEM_COLUMNS, systemRow } from './tableSystems.ts';

/** A system as it came out of the generator, with what the shop wants beside it. */
export interface NewSystem {
  readonly system: KeySystem;
  /** Which key must operate which cylinder. */
  readonly marks: readonly { readonly key: string; readonly cylinder: string }[];
  readonly keyway?: string;
  /** Number of keys to cut, by symbol. */
  readonly copies?: ReadonlyMap<string, number>;
  /** By cylinder id. */
  readonly locations?: ReadonlyMap<string, string>;
  readonly deal?: string;
  readonly seed?: number;
  readonly rules?: string;
  readonly note?: string;
}

export interface NewSystemOptions {
  /** Date as it shall stand in the sheet: the room knows no clock. */
  readonly made: string;
  /** Left out for keys without a master, where the symbols say everything. */
  readonly grid?: boolean;
}

const SECRET = 'SECRET: whoever has a bitting can cut the key.';

/**
 * Adds the spec where it isn't there, a row to Systems, keys, cylinders and a grid.
 * @example describePlan(planNewSystem(book, made, { made: '24 Nov 2026' })).sentence
 *   → 'Adds the sheet Specs with 1 row; adds the sheet Systems with 1 row; …; touches nothing else.'
 */
export function planNewSystem(book: BookReading, made: NewSystem, options: NewSystemOptions): WritePlan {
  const builder = new PlanBuilder(book);
  const { system } = made;
  const from = `Written ${options.made} with the system ${system.name}.`;
  reportNames(builder, system);
  addSpecs(builder, [system.spec], options.made);
  const hasCylinders = system.cylinders.length > 0;
  const hasGrid = hasCylinders && options.grid !== false;
  const grid = freeGridName(book.tableNames);
  const levels = new Set(system.keys.map((k) => k.level).filter((l) => l !== 'control' && l !== 'single'));
  appendOrCreate(builder, findTable(book.tables, TABLES.Systems), {
    table: TABLES.Systems,
    sheet: 'Systems',
    title: 'Keying systems',
    line: `One row a system, with its top master and key bitting array. First written ${options.made}. ${SECRET}`,
    columns: SYSTEM_COLUMNS,
    rows: [systemRow(system, { ...made, levels: levels.size, ...(hasGrid && { grid }) })],
    frozen: 1,
  });
  appendOrCreate(builder, findTable(book.tables, TABLES.Keys), {
    table: TABLES.Keys,
    sheet: 'Keys',
    title: 'Keys',
    line: `One row a key. ${from} ${SECRET}`,
    columns: KEY_COLUMNS,
    rows: system.keys.map((key) =>
      keyRow(key, system.spec, { system: system.name, copies: made.copies?.get(key.symbol) }),
    ),
    frozen: 2,
  });
  if (hasCylinders) {
    appendOrCreate(builder, findTable(book.tables, TABLES.Cylinders), {
      table: TABLES.Cylinders,
      sheet: 'Cylinders',
      title: 'Cylinders',
      line: `One row a cylinder; under Ch 1, Ch 2 … the depths at which the chamber shears, “any” for an empty one. ${from} ${SECRET}`,
      columns: CYLINDER_COLUMNS,
      rows: system.cylinders.map((cylinder) =>
        cylinderRow(cylinder, system.spec, {
          system: system.name,
          location: made.locations?.get(cylinder.id),
        }),
      ),
      frozen: 2,
    });
    if (hasGrid) addGrid(builder, made, grid, from);
  }
  return builder.plan(`Make the system ${system.name}`);
}

/** Large grids are unreadable: beyond this only the keys that say more than the hierarchy get a column. */
const MOST_GRID_KEYS = 400;
const MOST_GRID_CELLS = 100_000;

function addGrid(builder: PlanBuilder, made: NewSystem, table: string, from: string): void {
  const { system } = made;
  const marked = new Map<string, Set<string>>(system.cylinders.map((c) => [c.id, new Set<string>()]));
  for (const { key, cylinder } of made.marks) marked.get(cylinder)?.add(key);
  const all = system.keys.filter(isInUse).map((key) => key.symbol);
  const large = all.length > MOST_GRID_KEYS || all.length * system.cylinders.length > MOST_GRID_CELLS;
  const keys = large ? keysWithNews(system, marked) : all;
  const left = all.length - keys.length;
  const omitted =
    left === 0
      ? ''
      : ` ${left.toLocaleString('en-US')} change keys that operate just the cylinders of their own symbol have no column.`;
  createSheet(
    builder,
    {
      table,
      sheet: 'Grid',
      title: `Key-by-door grid of ${system.name}`,
      line: `A dot where the key must operate the cylinder. ${from}${omitted}`,
      columns: gridColumns(keys),
      rows: system.cylinders.map((cylinder) => gridRow(cylinder, keys, marked.get(cylinder.id)!)),
      frozen: GRID_ROW_COLUMNS.length,
      centredFrom: GRID_ROW_COLUMNS.length,
    },
    builder.sheetName('Grid', `Grid ${system.name}`),
  );
}

/** Masters, and keys whose marks differ from what the hierarchy says. */
function keysWithNews(system: KeySystem, marked: ReadonlyMap<string, ReadonlySet<string>>): string[] {
  const live = system.keys.filter(isInUse);
  const news = new Set(live.filter((k) => k.level !== 'CK' && k.level !== 'single').map((k) => k.symbol));
  intendedByHierarchy(live, system.cylinders).forEach((indices, c) => {
    const expected = new Set(indices.map((k) => live[k]!.symbol));
    const keys = marked.get(system.cylinders[c]!.id) ?? new Set<string>();
    for (const key of keys) if (!expected.has(key)) news.add(key);
    for (const key of expected) if (!keys.has(key)) news.add(key);
  });
  return live.map((key) => key.symbol).filter((symbol) => news.has(symbol));
}

/** A symbol may stand on a retired bitting too, but on one that is in use or kept for use only once. */

function reportNames(builder: PlanBuilder, system: KeySystem): void {
  const there = systemNamed(builder.book, system.name);
  if (there)
    builder.conflict(
      `There is a system ${there.name} already, and it is not written over. Give the new one another name.`,
      there.at,
    );
  for (const kind of ['Keys', 'Cylinders'] as const) {
    const table = findTable(builder.book.tables, TABLES[kind]);
    const column = table ? columnOf(table, 'System') : -1;
    const row =
      table?.values.findIndex((cells) => fold(String(cells[column] ?? '')) === fold(system.name)) ?? -1;
    if (!there && table && column >= 0 && row >= 0)
      builder.conflict(
        `The sheet ${table.sheet} has rows of a system ${system.name} already. Give the new one another name.`,
        place(table.sheet, table.box.row + 1 + row, table.box.column + column),
      );
  }
  if (system.name.trim() === '') builder.conflict('The system has no name. Give it one.');
  const reserved = new Set(GRID_ROW_COLUMNS.map((c) => fold(c.heading)));
  const twice = (what: string, names: readonly string[]): void => {
    const seen = new Set<string>();
    for (const name of names) {
      if (name.trim() === '') builder.conflict(`A ${what} has no name. Give it one.`);
      // Excel takes two headings that differ in case only for the same
      else if (seen.has(fold(name))) builder.conflict(`There are two ${what}s ${name}. Rename one of them.`);
      else if (what === 'key' && reserved.has(fold(name)))
        builder.conflict(`A key can’t be called ${name}: the grid has a column of that name. Rename it.`);
      seen.add(fold(name));
    }
  };
  twice(
    'key',
    system.keys.filter(isInUse).map((key) => key.symbol),
  );
  twice(
    'cylinder',
    system.cylinders.map((cylinder) => cylinder.id),
  );
}
