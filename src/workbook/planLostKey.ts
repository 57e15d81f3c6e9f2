/**
 * What the loss of a key changes, as one plan: the old bittings retired, new rows below them, cylinders pinned anew,
 * and a work order. The cells that change are our own and are named one by one; what they held is kept for undo.
 * The copy of the work order that leaves the house has no bitting on it.
 */
import type { Day } from '../keying/calendar.ts';
import { formatDepthSet } from '../keying/chamberText.ts';
import { formatBitting } from '../keying/bitting.ts';
import type { FreshResult } from '../keying/freshBittings.ts';
import type { Phase } from '../keying/lostKey.ts';
import { auditedCylinders, auditedKeys } from './auditInput.ts';
import { columnOf } from './columns.ts';
import type { DoorZones } from './doorZones.ts';
import { findTable } from './find.ts';
import { TABLES } from './names.ts';
import { changeCells, type NamedChange } from './namedCells.ts';
import { parseAddress, place, type Place } from './places.ts';
import { addOrder, addRecall } from './lostKeySheets.ts';
import type { WritePlan } from './plan.ts';
import { appendOrCreate } from './planRows.ts';
import { PlanBuilder } from './planTable.ts';
import type { BookReading, SystemReading, TableReading } from './reading.ts';
import { KEY_COLUMNS, keyRow } from './tableKeys.ts';

export type Fresh = Extract<FreshResult, { ok: true }>;

export interface LostKeyPlanInput {
  readonly made: string;
  readonly system: SystemReading;
  readonly fresh: Fresh;
  readonly phases: readonly Phase[];
  /** Which work orders are written. */
  readonly orders: { readonly shop: boolean; readonly tenant: boolean };
  /** Copies in hands that are to be called back; left out where no list of them is wanted. */
  readonly recall?: readonly RecallLine[];
  /** Where the doors are, by the shop's schedule. */
  readonly zones?: DoorZones;
}

export interface RecallLine {
  readonly holder: string;
  readonly department: string;
  readonly symbol: string;
  readonly copy: number;
  readonly since?: Day;
}

/** The whole change as a plan; nothing of it happens before it is confirmed. */
export function planLostKey(book: BookReading, input: LostKeyPlanInput): WritePlan {
  const builder = new PlanBuilder(book);
  const { system, fresh, made } = input;
  const keys = auditedKeys(system);
  const lost = keys[fresh.scope.lost]!;
  const keyTable = findTable(book.tables, TABLES.Keys);
  const cylinderTable = findTable(book.tables, TABLES.Cylinders);
  const { spec } = system;
  if (!spec || !keyTable || !cylinderTable) {
    builder.conflict(
      'The sheets Keys and Cylinders, or the spec of this system, are gone. Read the book again.',
    );
    return builder.plan(`Change what ${lost.symbol} opens`);
  }
  const changes = new Changes(builder);
  for (const k of fresh.scope.replaced) changes.put(keyTable, keys[k]!.at.row, 'Status', 'retired');
  const cylinders = auditedCylinders(system);
  for (const { cylinder, chambers } of fresh.cylinders)
    chambers.forEach((set, i) =>
      changes.put(cylinderTable, cylinders[cylinder]!.at.row, `Ch ${i + 1}`, formatDepthSet(spec, set)),
    );
  const systemTable = findTable(book.tables, TABLES.Systems);
  if (fresh.topMaster && systemTable) {
    changes.put(systemTable, system.at, 'Top master', formatBitting(spec, fresh.topMaster));
    fresh.array?.forEach((choices, i) =>
      changes.put(
        systemTable,
        system.at,
        `Array ${i + 1}`,
        choices.map((d) => spec.depths[d]!.symbol).join(' '),
      ),
    );
  }
  changes.finish();
  appendOrCreate(builder, keyTable, {
    table: TABLES.Keys,
    sheet: 'Keys',
    title: 'Keys',
    line: '',
    columns: KEY_COLUMNS,
    rows: fresh.keys.map(({ replaces, record }) =>
      withNote(
        keyRow(record, spec, { system: system.name, copies: keys[replaces]!.copies }),
        `${made}: in place of the bitting retired when ${lost.symbol} was lost`,
      ),
    ),
    frozen: 2,
  });
  if (input.orders.shop) addOrder(builder, input, lost.symbol, true);
  if (input.orders.tenant) addOrder(builder, input, lost.symbol, false);
  if (input.recall) addRecall(builder, input.recall, lost.symbol, made);
  return builder.plan(`Change what ${lost.symbol} opens`);
}

const withNote = <T>(cells: readonly T[], note: string): (T | string)[] => [...cells.slice(0, -1), note];

/** The cells of our tables that change, gathered table by table. */
class Changes {
  private readonly cells = new Map<TableReading, NamedChange[]>();

  constructor(private readonly builder: PlanBuilder) {}

  put(table: TableReading, row: Place, heading: string, to: string): void {
    const column = columnOf(table, heading);
    const at = parseAddress(row.address);
    if (column < 0 || !at) {
      this.builder.conflict(
        `The table on ${table.sheet} has no column “${heading}”. Add it, or give the renamed column its name back.`,
        row,
      );
      return;
    }
    const from = String(table.formulas[at.row - table.box.row - 1]?.[column] ?? '');
    if (from === to) return;
    const changes = this.cells.get(table) ?? [];
    this.cells.set(table, changes);
    changes.push({ at: place(table.sheet, at.row, table.box.column + column), what: heading, from, to });
  }

  /** Hands the changes to the builder, with whatever stands in their way. */
  finish(): void {
    for (const [table, changes] of this.cells) changeCells(this.builder, table, changes);
  }
}
