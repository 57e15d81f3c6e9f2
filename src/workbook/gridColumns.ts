/** Columns for further keys at the right of a grid, and where its keys and cylinders stand. */
import { fold } from './names.ts';
import { reportFilled, reportObstacles, contentOf } from './planRows.ts';
import type { PlanBuilder } from './planTable.ts';
import type { SystemReading, TableReading } from './reading.ts';
import { MARK } from './tableGrid.ts';

/** Zero-based sheet column of a key. */
export const columnIn = ({ grid }: SystemReading, key: string): number | undefined =>
  [...(grid?.keys ?? [])].find(([symbol]) => fold(symbol) === fold(key))?.[1];

/** Zero-based sheet row of a cylinder. */
export const rowIn = ({ grid }: SystemReading, cylinder: string): number | undefined =>
  [...(grid?.cylinders ?? [])].find(([id]) => fold(id) === fold(cylinder))?.[1];

export interface GridColumn {
  /** Symbol of the key. */
  readonly heading: string;
  /** Zero-based sheet rows that are marked. */
  readonly rows: ReadonlySet<number>;
}

/** Widens the table by the columns; what stands beside it is a conflict. */
export function addGridColumns(
  builder: PlanBuilder,
  table: TableReading,
  columns: readonly GridColumn[],
): void {
  if (columns.length === 0) return;
  reportObstacles(builder, table);
  const { box } = table;
  const added = { ...box, column: box.column + box.columns, columns: columns.length };
  reportFilled(builder, added);
  builder.steps.push(
    {
      kind: 'write',
      sheet: added.sheet,
      row: added.row,
      column: added.column,
      cells: Array.from({ length: box.rows }, (_, r) =>
        columns.map(({ heading, rows }) => (r === 0 ? heading : rows.has(box.row + r) ? MARK : '')),
      ),
      formats: columns.map(() => 'text'),
      expected: contentOf(builder, added),
    },
    {
      kind: 'resize-table',
      name: table.name,
      from: box,
      to: { ...box, columns: box.columns + columns.length },
    },
  );
  for (const { heading } of columns)
    builder.effects.push({
      kind: 'column',
      sheet: table.sheet,
      rows: box.rows,
      what: 'new column',
      heading,
      beside: table.headers.at(-1) ?? 'the grid',
    });
}
