/** Puts our formulas back where they went wrong; what the cells hold instead is kept for undo. */
import { columnOf } from './columns.ts';
import { brokenFormulas, formulaColumnsOf, type BrokenFormula } from './ownFormulas.ts';
import { parseAddress, type Box } from './places.ts';
import type { WritePlan } from './plan.ts';
import { contentOf, formulaIn, reportObstacles } from './planRows.ts';
import { formulaBlock, PlanBuilder } from './planTable.ts';
import type { BookReading, TableReading } from './reading.ts';

/**
 * Writes every broken formula anew, with the headings as they stand now. A column that a formula needs and that is
 * gone bars the plan.
 * @example describePlan(planRepair(book)).sentence → 'Changes 2 cells of Keys; touches nothing else.'
 */
export function planRepair(book: BookReading): WritePlan {
  const builder = new PlanBuilder(book);
  const all = brokenFormulas(book);
  for (const table of book.tables) {
    const broken = all.filter((b) => b.table === table.name);
    if (broken.length > 0) repairTable(builder, table, broken);
  }
  return builder.plan('Put formulas back');
}

function repairTable(builder: PlanBuilder, table: TableReading, broken: readonly BrokenFormula[]): void {
  reportObstacles(builder, table);
  const columns = formulaColumnsOf(table) ?? [];
  const at = columns.map((column) => columnOf(table, column.heading));
  for (const { heading, formula: wanted } of columns) {
    const cells = broken.filter((b) => b.heading === heading);
    if (wanted === undefined || cells.length === 0) continue;
    const formula = formulaIn(builder, table, columns, at, wanted);
    if (formula === undefined) continue;
    for (const box of runsDown(cells.map((b) => ({ ...parseAddress(b.at.address)!, sheet: table.sheet }))))
      builder.steps.push(
        formulaBlock(box.sheet, box.row, box.column, formula, box.rows, contentOf(builder, box)),
      );
  }
  builder.effects.push({ kind: 'cells', sheet: table.sheet, rows: broken.length, what: 'formulas put back' });
}

/** Cells of one column, top to bottom, as boxes of neighbours. */
function runsDown(cells: readonly Box[]): Box[] {
  const runs: Box[] = [];
  for (const cell of cells) {
    const last = runs.at(-1);
    if (last && last.row + last.rows === cell.row) runs[runs.length - 1] = { ...last, rows: last.rows + 1 };
    else runs.push(cell);
  }
  return runs;
}
