/** What is remembered of an opened file, so that saving can tell what changed since. */
import type { SheetLayout, SheetProtection } from '../model/sheet.ts';
import type { Shift } from '../model/shift.ts';
import type { NameModel, TableModel } from '../model/tables.ts';
import type { Cell } from '../model/types.ts';
import type { WorkbookModel } from '../model/workbook.ts';
import type { ZipPackage } from './zip.ts';

/** A sheet as it was when opened. Cells are shared with the model, which replaces but never changes them. */
export interface SheetBaseline {
  readonly part: string;
  readonly relationId: string;
  /** The number the file knows the sheet by, which outlives renaming and moving. */
  readonly sheetNumber: string;
  readonly layout: SheetLayout;
  readonly protection: SheetProtection | null;
  /** By `row * 16384 + column`. */
  readonly cells: ReadonlyMap<number, Cell>;
  readonly rows: ReadonlyMap<number, Readonly<Record<string, string>>>;
  /** Format numbers of whole columns. */
  readonly columnFormats: ReadonlyMap<number, number>;
}

export interface TableBaseline {
  readonly part: string;
  readonly relationId: string;
  readonly table: TableModel;
}

export interface XlsxBook {
  readonly model: WorkbookModel;
  readonly zip: ZipPackage;
  readonly workbookPart: string;
  readonly stylesPart: string | undefined;
  readonly theme: readonly string[];
  /** By the model's sheet id. */
  readonly sheets: ReadonlyMap<string, SheetBaseline>;
  /** By the model's table id. */
  readonly tables: ReadonlyMap<string, TableBaseline>;
  /** By the model's id: the part and its text. */
  readonly xmlParts: ReadonlyMap<string, { readonly part: string; readonly xml: string }>;
  readonly names: readonly NameModel[];
  /** Order of the model's sheets when opened. */
  readonly order: readonly string[];
  /** The settings read from the file, as JSON. */
  readonly settings: ReadonlyMap<string, string>;
  /** Lines inserted and deleted since, by sheet, in order. */
  readonly shifts: ReadonlyMap<string, readonly Shift[]>;
  /** What could not be taken over exactly, for a notice to the user. */
  readonly notes: readonly FileNote[];
}

/** `date1904`: dates count from 1904, so they would show four years early. */
export type FileNote = 'date1904' | 'macros';
