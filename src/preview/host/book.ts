/** What all host objects share: the workbook, the live ranges, protection, and the makers of other objects. */
import {
  MAX_COLUMNS,
  MAX_ROWS,
  parseArea,
  splitSheet,
  type Area,
  type CellValue,
  type SheetModel,
  type TableModel,
  type WorkbookModel,
} from '../model/index.ts';
import { badArgument, fail } from './error.ts';
import type { RangeObject } from './objects/range.ts';
import type { RangeAreasObject } from './objects/rangeAreas.ts';
import type { TableObject } from './objects/table.ts';
import type { TablesObject } from './objects/tables.ts';
import type { WorksheetObject } from './objects/worksheet.ts';

/** Makes objects; set once by `wiring.ts`, so that the object files need not import each other in circles. */
export interface Makers {
  range(book: Book, sheet: SheetModel, area: Area): RangeObject;
  rangeAreas(book: Book, sheet: SheetModel, areas: readonly Area[]): RangeAreasObject;
  sheet(book: Book, sheet: SheetModel): WorksheetObject;
  table(book: Book, table: TableModel): TableObject;
  tables(book: Book, sheet: SheetModel | null, ids?: readonly string[]): TablesObject;
}

export type GuardedAct =
  | 'content'
  | 'allowFormatCells'
  | 'allowFormatColumns'
  | 'allowFormatRows'
  | 'allowInsertColumns'
  | 'allowInsertRows'
  | 'allowDeleteColumns'
  | 'allowDeleteRows'
  | 'allowAutoFilter'
  | 'allowSort'
  | 'allowEditObjects'
  | 'allowInsertHyperlinks'
  | 'table';

/** Ranges that move with their cells: those of the running request and those office.js keeps hold of. */
export interface LiveRange {
  readonly sheet: SheetModel;
  area: Area;
  gone: boolean;
}

export class Book {
  readonly live = new Set<LiveRange>();
  /** Content of a single cell just before it was written, for the details of its change event. */
  before: { sheetId: string; row: number; column: number; value: CellValue } | null = null;
  structureProtected = false;
  eventsEnabled = true;
  calculationMode: 'Automatic' | 'AutomaticExceptTables' | 'Manual' = 'Automatic';

  constructor(
    readonly model: WorkbookModel,
    readonly makers: Makers,
  ) {}

  range(sheet: SheetModel, area: Area): RangeObject {
    return this.makers.range(this, sheet, area);
  }

  wholeSheet(sheet: SheetModel): RangeObject {
    return this.range(sheet, { row: 0, column: 0, rows: MAX_ROWS, columns: MAX_COLUMNS });
  }

  /** Reads an address or a name, on the sheet given; an address of another sheet is refused. */
  parseRange(text: string, sheet: SheetModel): RangeObject {
    const { sheet: prefix, rest } = splitSheet(text);
    const named = prefix === null ? null : (this.model.findSheet(prefix) ?? badArgument());
    if (named && named !== sheet) badArgument();
    const area = parseArea(rest);
    if (area) return this.range(sheet, area);
    const name = this.model.findName(rest, sheet.id) ?? this.model.findName(rest, null);
    const target = name ? this.model.nameArea(name) : null;
    return target ? this.range(target.sheet, target.area) : badArgument();
  }

  /** Reads `Sheet1!A1:B2`, on the active sheet where none is named. */
  parseAnywhere(text: string): RangeObject {
    const { sheet } = splitSheet(text);
    return this.parseRange(
      text,
      sheet === null ? this.model.active : (this.model.findSheet(sheet) ?? badArgument()),
    );
  }

  requireSheet(sheet: SheetModel): SheetModel {
    return this.model.sheets.includes(sheet) ? sheet : fail('ItemNotFound');
  }

  guardStructure(): void {
    if (this.structureProtected) fail('AccessDenied', 'The workbook is protected.');
  }

  /** Refuses what the protection of the sheet does not allow. */
  guard(sheet: SheetModel, area: Area, act: GuardedAct): void {
    const protection = sheet.protection;
    if (!protection) return;
    const refuse = (): never =>
      fail('AccessDenied', 'You cannot perform the requested operation. The worksheet is protected.');
    if (act === 'table') refuse();
    else if (act !== 'content') {
      if (protection.options[act] !== true) refuse();
    } else if (this.hasLocked(sheet, area)) refuse();
  }

  private hasLocked(sheet: SheetModel, area: Area): boolean {
    if (area.rows === MAX_ROWS || area.columns === MAX_COLUMNS) {
      const { columnStyles } = sheet.layout;
      for (let c = area.column; c < area.column + Math.min(area.columns, 1000); c++) {
        if (columnStyles.get(c)?.locked !== false) return true;
      }
      return sheet.cells.in(area).some(({ cell }) => cell.style?.locked !== false);
    }
    for (let row = area.row; row < area.row + area.rows; row++) {
      for (let column = area.column; column < area.column + area.columns; column++) {
        if (sheet.styleAt(row, column).locked !== false) return true;
      }
    }
    return false;
  }
}
