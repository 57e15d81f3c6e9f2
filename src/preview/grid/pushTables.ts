/** Tables of the model as the grid component's tables: banding and filter buttons. */
import { totalsArea, type TableModel } from '../model/tables.ts';
import type { WorkbookModel } from '../model/workbook.ts';
import type { Push } from './pushLayout.ts';
import { range } from './snapshot.ts';

/** What of a table the component shows. */
function shownAs(table: TableModel): string {
  return JSON.stringify([
    table.name,
    table.area,
    table.columns.map((column) => column.name),
    table.showHeaders,
    table.showFilterButton,
    table.showTotals,
    table.sheetId,
  ]);
}

/** Remembers what is on show and replaces what changed. The component's table of a user has an id of its own. */
export class TableView {
  private readonly shown = new Map<string, { key: string; viewId: string; sheetId: string }>();
  private readonly models = new Map<string, string>();
  private serial = 0;

  /** The model's id of a table that the component knows as `viewId`. */
  modelId(viewId: string): string {
    return this.models.get(viewId) ?? viewId;
  }

  adopt(viewId: string, table: TableModel): void {
    this.shown.set(table.id, { key: shownAs(table), viewId, sheetId: table.sheetId });
    this.models.set(viewId, table.id);
  }

  push(model: WorkbookModel, push: Push): void {
    for (const [id, { key, viewId, sheetId }] of this.shown) {
      const table = model.findTable(id);
      if (table !== undefined && shownAs(table) === key) continue;
      this.shown.delete(id);
      this.models.delete(viewId);
      if (model.findSheet(sheetId) !== undefined)
        push('sheet.mutation.delete-table', { subUnitId: sheetId, tableId: viewId });
    }
    for (const table of model.tables) {
      // The component's tables always have a header row and buttons in it, so others are left as plain cells.
      if (this.shown.has(table.id) || !table.showHeaders || !table.showFilterButton) continue;
      const viewId = `${table.id}-${String(++this.serial)}`;
      this.adopt(viewId, table);
      const rows = table.area.rows - (totalsArea(table) === null ? 0 : 1);
      push('sheet.mutation.add-table', {
        subUnitId: table.sheetId,
        tableId: viewId,
        name: table.name,
        range: range({ ...table.area, rows }),
        header: table.columns.map((column) => column.name),
        options: {},
      });
    }
  }
}
