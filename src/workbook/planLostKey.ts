/**
 * What the loss of a key changes, as one plan: the old bittings retired, new rows below them, cylinders pinned anew,
 * and a work order. The cells that change are our own and are named one by one; what they held is kept for undo.
 * The copy of the work order that leaves the house has no bitting on it.
 */
import { doorOf } from '../keying/access.ts';
import { formatDepthSet } from '../keying/chamberText.ts';
import { formatBitting } from '../keying/bitting.ts';
import type { FreshResult } from '../keying/freshBittings.ts';
import type { Phase } from '../keying/lostKey.ts';
import { givesAway } from '../keying/secrecy.ts';
import { columnOf } from './columns.ts';
import { findTable } from './find.ts';
import { TABLES } from './names.ts';
import { changeCells, type NamedChange } from './namedCells.ts';
import { parseAddress, place, type Place } from './places.ts';
import type { ColumnFormat, WritePlan } from './plan.ts';
import { freeTableName } from './planReceipt.ts';
import { appendOrCreate } from './planRows.ts';
import { createSheet, PlanBuilder } from './planTable.ts';
import type { BookReading, CylinderRow, KeyRow, SystemReading, TableReading } from './reading.ts';
import { secretsIn } from './secretCells.ts';
import { KEY_COLUMNS, keyRow } from './tableKeys.ts';

export type Fresh = Extract<FreshResult, { ok: true }>;

export interface LostKeyPlanInput {
  readonly made: string;
  readonly system: SystemReading;
  readonly fresh: Fresh;
  readonly phases: readonly Phase[];
  /** Which work orders are written. */
  readonly orders: { readonly shop: boolean; readonly tenant: boolean };
}

/** Rows of the system that could be read, numbered as the keying room numbers them. */
const keyRowsOf = (system: SystemReading): KeyRow[] => system.keys.filter((row) => row.record);
const cylinderRowsOf = (system: SystemReading): CylinderRow[] =>
  system.cylinders.filter((row) => row.chambers);

/** The whole change as a plan; nothing of it happens before it is confirmed. */
export function planLostKey(book: BookReading, input: LostKeyPlanInput): WritePlan {
  const builder = new PlanBuilder(book);
  const { system, fresh, made } = input;
  const keys = keyRowsOf(system);
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
  const cylinders = cylinderRowsOf(system);
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

interface OrderColumn {
  readonly heading: string;
  readonly format: ColumnFormat;
  readonly width: number;
}
const text = (heading: string, width: number): OrderColumn => ({ heading, format: 'text', width });

/** Cylinders phase by phase, with room to tick off; the shop's copy has the depths and the new bitting. */
function addOrder(builder: PlanBuilder, input: LostKeyPlanInput, symbol: string, secret: boolean): void {
  const { system, fresh, phases, made } = input;
  const spec = system.spec!;
  const rows = cylinderRowsOf(system);
  const chambersOf = new Map(fresh.cylinders.map((c) => [c.cylinder, c.chambers]));
  const bittings = new Map(
    fresh.keys.map(({ record }) => [record.symbol, formatBitting(spec, record.bitting)]),
  );
  const secrets = secretsIn(builder.book);
  const safe = (cell: string): string => (!secret && givesAway(secrets, cell) ? '(left out)' : cell);
  const columns: OrderColumn[] = [
    { heading: 'Phase', format: 'general', width: 8 },
    text('Door', 12),
    text('Location', 26),
    text('Cylinder', 12),
    text('Keyset', 12),
    ...(secret ? [text('New bitting', 14), ...spec.centres.map((_, i) => text(`Ch ${i + 1}`, 8))] : []),
    text('Done on', 12),
    text('Signature', 22),
  ];
  const sheet = builder.sheetName(secret ? 'Work order' : 'Work order, tenant', `Work order ${symbol}`);
  const steps = phases.map(
    ({ title, doors, stillExposed }, i) =>
      `Phase ${i + 1}: ${title}, ${doors} ${doors === 1 ? 'door' : 'doors'}, then ${stillExposed.doors} still exposed`,
  );
  createSheet(
    builder,
    {
      table: freeTableName('KeyrowOrder', takenTables(builder)),
      sheet,
      title: `Work order: key ${symbol} is lost`,
      line: `${steps.join('. ')}. Written ${made}.${secret ? ' SECRET: whoever has a bitting can cut the key.' : ''} Prove each new key in its lock before the old one is taken back; doors on exit routes stay free to leave throughout.`,
      columns,
      rows: phases.flatMap((phase, p) =>
        phase.cylinders.map((c) => {
          const row = rows[c]!;
          return [
            p + 1,
            safe(doorOf(row)),
            safe(row.location ?? ''),
            safe(row.id),
            safe(row.symbol),
            ...(secret
              ? [
                  bittings.get(row.symbol) ?? '',
                  ...(chambersOf.get(c) ?? []).map((set) => formatDepthSet(spec, set)),
                ]
              : []),
            '',
            '',
          ];
        }),
      ),
      frozen: 2,
    },
    sheet,
  );
}

/** Names of tables that are there or that this plan adds. */
const takenTables = (builder: PlanBuilder): string[] => [
  ...builder.book.tableNames,
  ...builder.steps.flatMap((step) => (step.kind === 'add-table' ? [step.name] : [])),
];
