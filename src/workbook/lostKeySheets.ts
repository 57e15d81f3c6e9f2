/**
 * Sheets that go with the change after a loss: the work order, for the shop with bittings and for others without, and
 * the keys to be called back with their holders.
 */
import { doorOf } from '../keying/access.ts';
import { formatBitting } from '../keying/bitting.ts';
import { formatDay } from '../keying/calendar.ts';
import { formatDepthSet } from '../keying/chamberText.ts';
import { givesAway } from '../keying/secrecy.ts';
import { auditedCylinders } from './auditInput.ts';
import type { ColumnFormat } from './plan.ts';
import type { LostKeyPlanInput, RecallLine } from './planLostKey.ts';
import { freeTableName } from './planReceipt.ts';
import { createSheet, type PlanBuilder } from './planTable.ts';
import { secretsIn } from './secretCells.ts';

interface OrderColumn {
  readonly heading: string;
  readonly format: ColumnFormat;
  readonly width: number;
}
const text = (heading: string, width: number): OrderColumn => ({ heading, format: 'text', width });

/** Cylinders phase by phase, with room to tick off; the shop's copy has the depths and the new bitting. */
export function addOrder(
  builder: PlanBuilder,
  input: LostKeyPlanInput,
  symbol: string,
  secret: boolean,
): void {
  const { system, fresh, phases, made, zones } = input;
  const spec = system.spec!;
  const rows = auditedCylinders(system);
  const chambersOf = new Map(fresh.cylinders.map((c) => [c.cylinder, c.chambers]));
  const bittings = new Map(
    fresh.keys.map(({ record }) => [record.symbol, formatBitting(spec, record.bitting)]),
  );
  const secrets = secretsIn(builder.book);
  const safe = (cell: string): string => (!secret && givesAway(secrets, cell) ? '(left out)' : cell);
  const columns: OrderColumn[] = [
    { heading: 'Phase', format: 'general', width: 9 },
    text('Door', 12),
    ...(zones ? [text('Zone', 26)] : []),
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
            ...(zones ? [safe(zones.zoneOf(doorOf(row)) ?? '')] : []),
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

const RECALL_COLUMNS = [
  text('Holder', 26),
  text('Department', 20),
  text('Key', 12),
  { heading: 'Copy', format: 'general' as const, width: 8 },
  text('Issued', 12),
  text('Taken back on', 15),
  text('New key given', 15),
  text('Signature', 22),
];

/** Who has to give which key back, with room to tick off. It has no bitting: it goes from door to door. */
export function addRecall(
  builder: PlanBuilder,
  lines: readonly RecallLine[],
  symbol: string,
  made: string,
): void {
  const sheet = builder.sheetName('Keys to call back', `Keys to call back ${symbol}`);
  createSheet(
    builder,
    {
      table: freeTableName('KeyrowRecall', takenTables(builder)),
      sheet,
      title: `Keys to call back: key ${symbol} is lost`,
      line: `${lines.length === 0 ? 'By the ledger none of these keys is in anybody’s hands.' : 'Their doors change, so these keys open nothing when the work is done.'} Written ${made}. Names are personal data: keep this sheet in the house.`,
      columns: RECALL_COLUMNS,
      rows: lines.map(({ holder, department, symbol: key, copy, since }) => [
        holder,
        department,
        key,
        copy,
        since === undefined ? '' : formatDay(since),
        '',
        '',
        '',
      ]),
      frozen: 1,
    },
    sheet,
  );
}

/** Names of tables that are there or that this plan adds. */
const takenTables = (builder: PlanBuilder): string[] => [
  ...builder.book.tableNames,
  ...builder.steps.flatMap((step) => (step.kind === 'add-table' ? [step.name] : [])),
];
