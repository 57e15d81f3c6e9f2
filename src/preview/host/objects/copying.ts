/** `copyFrom`. */
import { MAX_COLUMNS, MAX_ROWS, type Area } from '../../model/index.ts';
import type { Book } from '../book.ts';
import type { RangeObject } from './range.ts';

export function copyInto(
  book: Book,
  from: RangeObject,
  to: RangeObject,
  what: 'All' | 'Formulas' | 'Values' | 'Formats',
): void {
  const source = bounded(book, from);
  const target = to.place();
  const tiles = (whole: number, part: number): number => (whole > part && whole % part === 0 ? whole : part);
  const whole = target.rows === MAX_ROWS || target.columns === MAX_COLUMNS;
  const area: Area = {
    row: target.row,
    column: target.column,
    rows: whole ? source.rows : tiles(target.rows, source.rows),
    columns: whole ? source.columns : tiles(target.columns, source.columns),
  };
  const act = what === 'Formats' ? 'allowFormatCells' : 'content';
  book.guard(to.sheet, area, act);
  const words = { All: 'all', Formulas: 'formulas', Values: 'values', Formats: 'formats' } as const;
  book.model.copy(from.sheet, source, to.sheet, area, words[what], 'addin');
}

/** Whole rows and columns are copied as far as they are used. */
function bounded(book: Book, range: RangeObject): Area {
  const area = range.place();
  if (area.rows < MAX_ROWS && area.columns < MAX_COLUMNS) return { ...area };
  const used = book.model.usedArea(range.sheet);
  const rows = Math.min(area.rows, used ? used.row + used.rows : 1);
  const columns = Math.min(area.columns, used ? used.column + used.columns : 1);
  return { ...area, rows: Math.max(1, rows), columns: Math.max(1, columns) };
}
