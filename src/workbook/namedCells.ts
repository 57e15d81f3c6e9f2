/** Changes of single cells that the user named in a plan: old content shown beside the new, and kept for undo. */
import { formatDepthSet } from '../keying/chamberText.ts';
import type { Chambers } from '../keying/system.ts';
import type { Specification } from '../keying/specification.ts';
import { isFormula, sliceCells } from './cells.ts';
import { parseAddress, type Place } from './places.ts';
import type { ColumnFormat } from './plan.ts';
import { contentOf, reportObstacles } from './planRows.ts';
import type { PlanBuilder } from './planTable.ts';
import type { CylinderRow, TableReading } from './reading.ts';

export interface NamedChange {
  readonly at: Place;
  /** "Ch 3 of Store" */
  readonly what: string;
  readonly from: string;
  readonly to: string;
}

/** Writes each cell by itself; a formula is never written over, and a cell that holds something else by now bars the plan. */
export function changeCells(
  builder: PlanBuilder,
  table: TableReading,
  changes: readonly NamedChange[],
  format: ColumnFormat = 'text',
): void {
  if (changes.length === 0) return;
  if (!builder.conflicts.some(({ at }) => at?.sheet === table.sheet)) reportObstacles(builder, table);
  for (const { at, to } of changes) {
    const cell = parseAddress(at.address)!;
    const box = { ...cell, sheet: at.sheet };
    const now = contentOf(builder, box);
    const held = now[0]![0]!;
    if (isFormula(held, valueAt(builder, box))) {
      builder.conflict(
        'This cell holds a formula, which is not written over. Put its value there first.',
        at,
        String(held),
      );
      continue;
    }
    builder.steps.push({
      kind: 'write',
      sheet: at.sheet,
      row: cell.row,
      column: cell.column,
      cells: [[to]],
      formats: [format],
      expected: now,
    });
  }
  builder.effects.push({ kind: 'cells', sheet: table.sheet, rows: changes.length, what: 'cells changed' });
}

function valueAt(builder: PlanBuilder, box: Parameters<typeof contentOf>[1]): string | number | boolean {
  const sheet = builder.book.sheets.find((s) => s.name === box.sheet);
  return sheet?.used && sheet.values ? sliceCells(sheet.values, sheet.used, box)[0]![0]! : '';
}

/** The chamber cells of a cylinder that a new pinning changes. */
export function chamberChanges(spec: Specification, row: CylinderRow, chambers: Chambers): NamedChange[] {
  return chambers.flatMap((set, i) => {
    const before = row.chambers?.[i];
    const at = row.at.chambers[i];
    if (!at || before === set) return [];
    return [
      {
        at,
        what: `Ch ${i + 1} of ${row.door ?? row.id}`,
        from: before === undefined ? '' : formatDepthSet(spec, before),
        to: formatDepthSet(spec, set),
      },
    ];
  });
}
