/** Filters of tables and sheets: which rows they hide. Values and one or two comparisons; other kinds hide nothing. */
import { displayText } from './format.ts';
import type { FilterCriteria, FilterState, SheetModel } from './sheet.ts';
import { bodyArea, type TableModel } from './tables.ts';
import type { Cell, Origin } from './types.ts';
import type { WorkbookModel } from './workbook.ts';

export function filterTable(
  model: WorkbookModel,
  table: TableModel,
  column: number,
  criteria: FilterCriteria | null,
  origin: Origin,
): void {
  const filter = new Map(table.filter);
  if (criteria) filter.set(column, criteria);
  else filter.delete(column);
  model.setState({ tables: model.tables.map((other) => (other === table ? { ...table, filter } : other)) });
  applyFilters(model, model.sheet(table.sheetId));
  model.emit({ kind: 'table', what: 'changed', tableId: table.id, sheetId: table.sheetId, origin });
  model.emit({ kind: 'sheet', what: 'layout', sheetId: table.sheetId, origin });
}

export function filterSheet(
  model: WorkbookModel,
  sheet: SheetModel,
  autoFilter: FilterState | null,
  origin: Origin,
): void {
  model.replaceLayout(sheet, { autoFilter });
  applyFilters(model, sheet);
  model.emit({ kind: 'sheet', what: 'layout', sheetId: sheet.id, origin });
}

/** Works out anew which rows the sheet's filters hide. */
export function applyFilters(model: WorkbookModel, sheet: SheetModel): void {
  const states: FilterState[] = model
    .tablesOn(sheet)
    .map((table) => ({ area: bodyArea(table), criteria: table.filter }));
  const own = sheet.layout.autoFilter;
  if (own) states.push({ ...own, area: { ...own.area, row: own.area.row + 1, rows: own.area.rows - 1 } });
  const filteredRows = new Set<number>();
  for (const { area, criteria } of states) {
    if (criteria.size === 0) continue;
    for (let row = area.row; row < area.row + area.rows; row++) {
      for (const [offset, wanted] of criteria) {
        if (!passes(sheet.cells.get(row, area.column + offset), wanted)) filteredRows.add(row);
      }
    }
  }
  if (filteredRows.size > 0 || sheet.layout.filteredRows.size > 0)
    model.replaceLayout(sheet, { filteredRows });
}

function passes(cell: Cell | undefined, criteria: FilterCriteria): boolean {
  const text = displayText(cell?.value ?? null, cell?.style?.numberFormat);
  if (criteria.filterOn === 'Values') {
    return (criteria.values ?? []).some((value) => value.toLowerCase() === text.toLowerCase());
  }
  if (criteria.filterOn !== 'Custom') return true;
  const first = criteria.criterion1 === undefined || compares(cell, text, criteria.criterion1);
  if (criteria.criterion2 === undefined) return first;
  const second = compares(cell, text, criteria.criterion2);
  return criteria.operator === 'Or' ? first || second : first && second;
}

function compares(cell: Cell | undefined, text: string, criterion: string): boolean {
  const [, operator = '=', operand = ''] = /^(<>|<=|>=|=|<|>)?(.*)$/s.exec(criterion) ?? [];
  const value = cell?.value;
  const number = operand.trim() === '' ? NaN : Number(operand);
  if (operator === '=' || operator === '<>') {
    const pattern = operand
      .replace(/[.+^${}()|[\]\\]/g, '\\$&')
      .replaceAll('*', '.*')
      .replaceAll('?', '.');
    const equal =
      new RegExp(`^${pattern}$`, 'is').test(text) || (typeof value === 'number' && value === number);
    return operator === '=' ? equal : !equal;
  }
  const order =
    typeof value === 'number' && !Number.isNaN(number)
      ? Math.sign(value - number)
      : typeof value === 'string' && Number.isNaN(number)
        ? value.localeCompare(operand, 'en-US', { sensitivity: 'accent' })
        : null;
  if (order === null) return false;
  if (operator === '<') return order < 0;
  if (operator === '<=') return order <= 0;
  return operator === '>' ? order > 0 : order >= 0;
}
