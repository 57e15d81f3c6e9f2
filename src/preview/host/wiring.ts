/** Ties the object files together. */
import type { Makers } from './book.ts';
import { RangeObject } from './objects/range.ts';
import { RangeAreasObject } from './objects/rangeAreas.ts';
import { TableObject } from './objects/table.ts';
import { TablesObject } from './objects/tables.ts';
import { WorksheetObject } from './objects/worksheet.ts';

export const MAKERS: Makers = {
  range: (book, sheet, area) => new RangeObject(book, sheet, area),
  rangeAreas: (book, sheet, areas) => new RangeAreasObject(book, sheet, areas),
  sheet: (book, sheet) => new WorksheetObject(book, sheet),
  table: (book, table) => new TableObject(book, table.id),
  tables: (book, sheet, ids) => new TablesObject(book, sheet, ids ?? null),
};
