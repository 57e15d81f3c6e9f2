/** The layout of a sheet as the grid component shows it, after the user dragged, hid, merged or froze something. */
import type { Worksheet } from '@univerjs/core';
import { DEFAULT_COLUMN_PIXELS, type SheetLayout } from '../model/sheet.ts';
import { areaOf } from './snapshot.ts';

/** @param layout the model's present layout, which keeps what the component does not tell apart */
export function layoutOnShow(shown: Worksheet, layout: SheetLayout): Partial<SheetLayout> {
  const config = shown.getConfig();
  const columnWidths = new Map(layout.columnWidths);
  const hiddenColumns = new Set<number>();
  for (const [key, data] of Object.entries(config.columnData)) {
    const column = Number(key);
    if (data?.w !== undefined && data.w !== (columnWidths.get(column) ?? DEFAULT_COLUMN_PIXELS))
      columnWidths.set(column, data.w);
    if (data?.hd === 1) hiddenColumns.add(column);
  }
  const rowHeights = new Map(layout.rowHeights);
  const hiddenRows = new Set<number>();
  for (const [key, data] of Object.entries(config.rowData)) {
    const row = Number(key);
    // `ia` 0: set by hand, not grown to fit the text.
    if (data?.h !== undefined && data.ia === 0) rowHeights.set(row, (data.h * 3) / 4);
    if (data?.hd === 1 && !layout.filteredRows.has(row)) hiddenRows.add(row);
  }
  return {
    columnWidths,
    hiddenColumns,
    rowHeights,
    hiddenRows,
    merges: config.mergeData.map(areaOf),
    frozen: { rows: Math.max(0, config.freeze.ySplit), columns: Math.max(0, config.freeze.xSplit) },
    showGridlines: config.showGridlines === 1,
    tabColor: config.tabColor || '',
  };
}
