/** Cell content as it goes over the wire. */
import { displayText, type Cell, type CellValue } from '../model/index.ts';

/** Empty cells are the empty text, errors their code. */
export function wireValue(value: CellValue): string | number | boolean {
  if (value === null) return '';
  return typeof value === 'object' ? value.error : value;
}

export function wireFormula(cell: Cell | undefined): string | number | boolean {
  return cell?.formula ?? wireValue(cell?.value ?? null);
}

export function wireText(cell: Cell | undefined): string {
  return displayText(cell?.value ?? null, cell?.style?.numberFormat);
}

/** Excel's `RangeValueType`. */
export function valueType(value: CellValue): string {
  if (value === null) return 'Empty';
  if (typeof value === 'number') return 'Double';
  if (typeof value === 'boolean') return 'Boolean';
  return typeof value === 'string' ? 'String' : 'Error';
}
