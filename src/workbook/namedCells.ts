/** Changes of single cells that the user named in a plan: old content shown beside the new, and kept for undo. */
import { formatDepthSet } from '../keying/chamberText.ts';
import type { Chambers } from '../keying/system.ts';
import type { Specification } from '../keying/specification.ts';
import { isFormula, sliceCells } from './cells.ts';
import { parseAddress, type Box, type Place } from './places.ts';
import type { ColumnFormat } from './plan.ts';
import { contentOf, reportObstacles } from './planRows.ts';
import type { PlanBuilder } from './planTable.ts';
import type { CellValue, CylinderRow, TableReading } from './reading.ts';

export interface NamedChange {
  readonly at: Place;
  /** "Ch 3 of Store" */
  readonly what: string;
  readonly from: string;
  readonly to: string;
}

/**
 * Writes the cells, neighbours in a row together; a formula is never written over, and a cell that holds something
 * else by now bars the plan.
 */
export function changeCells(
  builder: PlanBuilder,
  table: TableReading,
  changes: readonly NamedChange[],
  format: ColumnFormat = 'text',
): void {
  if (changes.length === 0) return;
  reportObstacles(builder, table);
  const sound = changes.flatMap(({ at, to }): Change[] => {
    const box: Box = { ...parseAddress(at.address)!, sheet: at.sheet };
    const held = contentOf(builder, box)[0]![0]!;
    if (!isFormula(held, valueAt(builder, box))) return [{ box, held, to }];
    builder.conflict(
      'This cell holds a formula, which is not written over. Put its value there first.',
      at,
      String(held),
    );
    return [];
  });
  for (const run of sideBySide(sound))
    builder.steps.push({
      kind: 'write',
      sheet: run[0]!.box.sheet,
      row: run[0]!.box.row,
      column: run[0]!.box.column,
      cells: [run.map(({ to }) => to)],
      formats: run.map(() => format),
      expected: [run.map(({ held }) => held)],
    });
  builder.effects.push({ kind: 'cells', sheet: table.sheet, rows: changes.length, what: 'cells changed' });
}

interface Change {
  readonly box: Box;
  readonly held: CellValue;
  readonly to: string;
}

/** Runs of neighbours in a row, so that a large change takes few requests. */
function sideBySide(changes: readonly Change[]): Change[][] {
  const runs: Change[][] = [];
  for (const change of [...changes].sort((a, b) => a.box.row - b.box.row || a.box.column - b.box.column)) {
    const last = runs.at(-1)?.at(-1);
    if (last?.box.row === change.box.row && last.box.column + 1 === change.box.column)
      runs.at(-1)!.push(change);
    else runs.push([change]);
  }
  return runs;
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
