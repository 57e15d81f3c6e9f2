/**
 * The workbook that stands in for Excel. All changes go through its methods: each tells the subscribers, and each
 * leaves a way back on the undo stack unless it comes from the file reader or the calculation.
 */
import { contains, intersect } from './address.ts';
import * as content from './content.ts';
import { refuse } from './error.ts';
import * as filters from './filter.ts';
import * as moving from './moving.ts';
import * as names from './names.ts';
import * as results from './results.ts';
import {
  SheetModel,
  type FilterCriteria,
  type FilterState,
  type SheetLayout,
  type SheetProtection,
} from './sheet.ts';
import * as sheetList from './sheetList.ts';
import * as tableOps from './tableOps.ts';
import type { NameModel, TableModel } from './tables.ts';
import type { Area, Cell, CellStyle, CellValue, Change, Origin } from './types.ts';
import { UndoStack, inverse } from './undo.ts';

export type SheetRef = SheetModel | string;
export type Input = string | number | boolean | null;

export interface XmlPart {
  readonly id: string;
  readonly xml: string;
}

/** What calculates the formulas: the host waits for `settle` before it answers a query. */
export interface Engine {
  settle(): Promise<void>;
}

/** The parts of the workbook outside the sheets; each is replaced as a whole, so that undo can put it back. */
export interface BookState {
  sheets: readonly SheetModel[];
  tables: readonly TableModel[];
  names: readonly NameModel[];
  /** Settings by key, as JSON text. */
  settings: ReadonlyMap<string, string>;
  xmlParts: readonly XmlPart[];
}

export interface WorkbookOptions {
  name?: string;
  /** Default: one sheet, `Sheet1`. */
  sheets?: readonly string[];
  /** The year a date typed without one falls in; default 2026, so that tests can be repeated. */
  year?: number;
}

let booksMade = 0;

export class WorkbookModel {
  readonly undoStack = new UndoStack();
  readonly year: number;
  name: string;
  engine?: Engine;
  state: BookState = { sheets: [], tables: [], names: [], settings: new Map(), xmlParts: [] };
  active: SheetModel;
  /** The selected areas on the active sheet, the first one with the active cell. */
  selection: readonly Area[] = [{ row: 0, column: 0, rows: 1, columns: 1 }];

  private readonly listeners = new Set<(change: Change) => void>();
  private serial = 0;
  /** Ids differ between workbooks, as they do in Excel. */
  private readonly bookNumber = ++booksMade;

  constructor(options: WorkbookOptions = {}) {
    this.name = options.name ?? 'Book1.xlsx';
    this.year = options.year ?? 2026;
    const wanted = options.sheets ?? ['Sheet1'];
    this.state.sheets = wanted.map((name) => new SheetModel(this.nextId('S'), name));
    this.active = this.state.sheets[0] ?? refuse('InvalidArgument', 'A workbook needs a sheet.');
  }

  // ---- notices and undo

  /** Tells every change after it was made. Returns the way to stop listening. */
  subscribe(listener: (change: Change) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  emit(change: Change): void {
    this.undoStack.note(change);
    for (const listener of this.listeners) listener(change);
  }

  /** Runs an edit as one undo entry; inner edits join the outer one. */
  edit<T>(label: string, origin: Origin, action: () => T): T {
    if (origin === 'file' || origin === 'calculation') return action();
    this.undoStack.begin(label);
    try {
      return action();
    } finally {
      this.undoStack.end();
    }
  }

  /** Takes back the last entry. Returns its label, or null where there is none. */
  undo(): string | null {
    const entry = this.undoStack.pop();
    if (!entry) return null;
    for (const step of entry.steps.toReversed()) step();
    for (const change of entry.changes.toReversed()) this.emit(inverse(change));
    return entry.label;
  }

  nextId(prefix: string): string {
    this.serial++;
    return `{${prefix}${String(this.bookNumber)}-${String(this.serial).padStart(6, '0')}}`;
  }

  setState(patch: Partial<BookState>): void {
    const before = this.state;
    this.undoStack.record(() => {
      this.state = before;
    });
    this.state = { ...before, ...patch };
  }

  // ---- sheets

  get sheets(): readonly SheetModel[] {
    return this.state.sheets;
  }

  /** By id or by name, whatever its case. */
  findSheet(ref: SheetRef): SheetModel | undefined {
    if (ref instanceof SheetModel) return ref;
    const wanted = ref.toLowerCase();
    return this.state.sheets.find((sheet) => sheet.id === ref || sheet.name.toLowerCase() === wanted);
  }

  sheet(ref: SheetRef): SheetModel {
    return this.findSheet(ref) ?? refuse('ItemNotFound', `There is no sheet "${String(ref)}".`);
  }

  addSheet(name: string | null, origin: Origin, at?: number): SheetModel {
    return this.edit('Add sheet', origin, () => sheetList.add(this, name, origin, at));
  }

  removeSheet(ref: SheetRef, origin: Origin): void {
    sheetList.remove(this, this.sheet(ref), origin);
  }

  renameSheet(ref: SheetRef, name: string, origin: Origin): void {
    this.edit('Rename sheet', origin, () => sheetList.rename(this, this.sheet(ref), name, origin));
  }

  moveSheet(ref: SheetRef, position: number, origin: Origin): void {
    this.edit('Move sheet', origin, () => sheetList.move(this, this.sheet(ref), position, origin));
  }

  showSheet(ref: SheetRef, visibility: SheetLayout['visibility'], origin: Origin): void {
    this.edit('Show sheet', origin, () => sheetList.show(this, this.sheet(ref), visibility, origin));
  }

  /** Replaces parts of a sheet's layout record (widths, merges, frozen panes, page, conditional formats, …). */
  setLayout(ref: SheetRef, patch: Partial<Omit<SheetLayout, 'name' | 'visibility'>>, origin: Origin): void {
    const sheet = this.sheet(ref);
    this.edit('Layout', origin, () => {
      this.replaceLayout(sheet, patch);
      this.emit({ kind: 'sheet', what: 'layout', sheetId: sheet.id, origin });
    });
  }

  /** As `setLayout`, without the notice. */
  replaceLayout(sheet: SheetModel, patch: Partial<SheetLayout>): void {
    const before = sheet.layout;
    this.undoStack.record(() => {
      sheet.layout = before;
    });
    sheet.layout = { ...before, ...patch };
  }

  /** Cannot be undone, as in Excel. */
  protect(ref: SheetRef, protection: SheetProtection | null, origin: Origin): void {
    const sheet = this.sheet(ref);
    sheet.protection = protection;
    this.emit({ kind: 'sheet', what: 'protection', sheetId: sheet.id, origin });
  }

  activate(ref: SheetRef, origin: Origin): void {
    const sheet = this.sheet(ref);
    if (sheet === this.active) return;
    if (sheet.layout.visibility !== 'visible')
      refuse('InvalidOperation', `The sheet "${sheet.name}" is hidden.`);
    this.active = sheet;
    this.selection = [{ row: 0, column: 0, rows: 1, columns: 1 }];
    this.emit({ kind: 'active', sheetId: sheet.id, origin });
  }

  select(ref: SheetRef, areas: Area | readonly Area[], origin: Origin): void {
    const sheet = this.sheet(ref);
    this.activate(sheet, origin);
    const list: readonly Area[] = Array.isArray(areas) ? areas : [areas as Area];
    const first = list[0] ?? refuse('InvalidArgument', 'Nothing to select.');
    this.selection = list;
    this.emit({ kind: 'selection', sheetId: sheet.id, area: first, origin });
  }

  // ---- cells

  cell(ref: SheetRef, row: number, column: number): Cell | undefined {
    return this.sheet(ref).cells.get(row, column);
  }

  /** The content of a cell; null where it is empty. */
  value(ref: SheetRef, row: number, column: number): CellValue {
    return this.sheet(ref).cells.get(row, column)?.value ?? null;
  }

  /** Puts or removes one stored cell as it is: for the file reader and for undo. No notice. */
  put(sheet: SheetModel, row: number, column: number, cell: Cell | undefined): void {
    const before = sheet.cells.set(row, column, cell);
    this.undoStack.record(() => {
      sheet.cells.set(row, column, before);
    });
  }

  /** Types something into a cell: what Excel makes of it depends on the cell's number format. */
  enter(ref: SheetRef, row: number, column: number, input: Input, origin: Origin): void {
    this.enterBlock(ref, { row, column, rows: 1, columns: 1 }, [[input]], origin);
  }

  /** As `enter` for a block; undefined leaves a cell as it is, null and the empty text empty it. One notice. */
  enterBlock(
    ref: SheetRef,
    area: Area,
    inputs: readonly (readonly (Input | undefined)[])[],
    origin: Origin,
  ): void {
    this.edit('Enter', origin, () => content.enterBlock(this, this.sheet(ref), area, inputs, origin));
  }

  /** Changes parts of the style of every cell in the area; whole columns and rows get it as their default. */
  style(ref: SheetRef, area: Area, patch: CellStyle, origin: Origin): void {
    this.styleEach(ref, area, (before) => content.patchedStyle(before, patch), origin);
  }

  /** As `style`, with each cell's whole new style worked out from its present one. */
  styleEach(
    ref: SheetRef,
    area: Area,
    next: (before: CellStyle, row: number, column: number) => CellStyle,
    origin: Origin,
  ): void {
    this.edit('Format', origin, () => content.style(this, this.sheet(ref), area, next, origin));
  }

  clear(ref: SheetRef, area: Area, what: 'all' | 'contents' | 'formats', origin: Origin): void {
    this.edit('Clear', origin, () => content.clear(this, this.sheet(ref), area, what, origin));
  }

  /** Cells copied with their formulas moved along, as by copy and paste. */
  copy(
    from: SheetRef,
    source: Area,
    to: SheetRef,
    target: Area,
    what: content.CopyWhat,
    origin: Origin,
  ): void {
    this.edit('Paste', origin, () =>
      content.copy(this, this.sheet(from), source, this.sheet(to), target, what, origin),
    );
  }

  /** What the calculation makes of a formula; a matrix spills. Blank results become 0, as in Excel. */
  setResult(ref: SheetRef, row: number, column: number, result: results.Result): void {
    this.setResults(ref, [{ row, column, result }]);
  }

  setResults(ref: SheetRef, list: readonly results.CellResult[]): void {
    results.setResults(this, this.sheet(ref), list);
  }

  insertCells(ref: SheetRef, area: Area, shift: 'down' | 'right', origin: Origin): void {
    this.edit('Insert', origin, () => moving.insertCells(this, this.sheet(ref), area, shift, origin));
  }

  deleteCells(ref: SheetRef, area: Area, shift: 'up' | 'left', origin: Origin): void {
    this.edit('Delete', origin, () => moving.deleteCells(this, this.sheet(ref), area, shift, origin));
  }

  insertRows(ref: SheetRef, at: number, count: number, origin: Origin): void {
    this.edit('Insert', origin, () =>
      moving.shiftCells(this, this.sheet(ref), { axis: 'rows', at, count }, origin),
    );
  }

  deleteRows(ref: SheetRef, at: number, count: number, origin: Origin): void {
    this.edit('Delete', origin, () =>
      moving.shiftCells(this, this.sheet(ref), { axis: 'rows', at, count: -count }, origin),
    );
  }

  insertColumns(ref: SheetRef, at: number, count: number, origin: Origin): void {
    this.edit('Insert', origin, () =>
      moving.shiftCells(this, this.sheet(ref), { axis: 'columns', at, count }, origin),
    );
  }

  deleteColumns(ref: SheetRef, at: number, count: number, origin: Origin): void {
    this.edit('Delete', origin, () =>
      moving.shiftCells(this, this.sheet(ref), { axis: 'columns', at, count: -count }, origin),
    );
  }

  /** The area that holds everything, null for an empty sheet; with `valuesOnly`, formats alone do not count. */
  usedArea(ref: SheetRef, valuesOnly = false): Area | null {
    return this.sheet(ref).cells.used(
      (cell) =>
        cell.value !== null || cell.formula !== undefined || (!valuesOnly && cell.style !== undefined),
    );
  }

  // ---- tables

  get tables(): readonly TableModel[] {
    return this.state.tables;
  }

  findTable(nameOrId: string): TableModel | undefined {
    const wanted = nameOrId.toLowerCase();
    return this.state.tables.find((table) => table.id === nameOrId || table.name.toLowerCase() === wanted);
  }

  table(nameOrId: string): TableModel {
    return this.findTable(nameOrId) ?? refuse('ItemNotFound', `There is no table "${nameOrId}".`);
  }

  tableAt(ref: SheetRef, row: number, column: number): TableModel | undefined {
    const id = this.sheet(ref).id;
    return this.state.tables.find((table) => table.sheetId === id && contains(table.area, row, column));
  }

  tablesOn(ref: SheetRef, area?: Area): readonly TableModel[] {
    const id = this.sheet(ref).id;
    return this.state.tables.filter(
      (table) => table.sheetId === id && (!area || intersect(table.area, area)),
    );
  }

  addTable(ref: SheetRef, area: Area, hasHeaders: boolean, origin: Origin, name?: string): TableModel {
    return this.edit('Add table', origin, () =>
      tableOps.add(this, this.sheet(ref), area, hasHeaders, origin, name),
    );
  }

  /** Registers a table as a file describes it: nothing is written into cells. */
  adoptTable(table: Omit<TableModel, 'id'>): TableModel {
    const adopted = { ...table, id: this.nextId('T') };
    this.setState({ tables: [...this.state.tables, adopted] });
    this.emit({
      kind: 'table',
      what: 'added',
      tableId: adopted.id,
      sheetId: adopted.sheetId,
      origin: 'file',
    });
    return adopted;
  }

  renameTable(nameOrId: string, name: string, origin: Origin): void {
    this.edit('Rename table', origin, () => tableOps.rename(this, this.table(nameOrId), name, origin));
  }

  resizeTable(nameOrId: string, area: Area, origin: Origin): void {
    this.edit('Resize table', origin, () => tableOps.resize(this, this.table(nameOrId), area, origin));
  }

  /** Replaces parts of a table's record that touch no cells (style, banding, filter buttons). */
  setTable(
    nameOrId: string,
    patch: Partial<Omit<TableModel, 'id' | 'name' | 'sheetId' | 'area'>>,
    origin: Origin,
  ): void {
    this.edit('Table', origin, () => tableOps.replace(this, this.table(nameOrId), patch, origin));
  }

  showTotals(nameOrId: string, show: boolean, origin: Origin): void {
    this.edit('Totals row', origin, () => tableOps.showTotals(this, this.table(nameOrId), show, origin));
  }

  showHeaders(nameOrId: string, show: boolean, origin: Origin): void {
    this.edit('Header row', origin, () => tableOps.showHeaders(this, this.table(nameOrId), show, origin));
  }

  /** `index` null appends. Cells below the table move down. Returns the first new row's index in the body. */
  addTableRows(nameOrId: string, index: number | null, count: number, origin: Origin): number {
    return this.edit('Add rows', origin, () =>
      tableOps.addRows(this, this.table(nameOrId), index, count, origin),
    );
  }

  deleteTableRows(nameOrId: string, index: number, count: number, origin: Origin): void {
    this.edit('Delete rows', origin, () =>
      tableOps.deleteRows(this, this.table(nameOrId), index, count, origin),
    );
  }

  addTableColumn(nameOrId: string, index: number | null, name: string | null, origin: Origin): number {
    return this.edit('Add column', origin, () =>
      tableOps.addColumn(this, this.table(nameOrId), index, name, origin),
    );
  }

  deleteTableColumn(nameOrId: string, index: number, origin: Origin): void {
    this.edit('Delete column', origin, () =>
      tableOps.deleteColumn(this, this.table(nameOrId), index, origin),
    );
  }

  /** Removes the table with its cells, or (`keepCells`) leaves the cells behind. */
  removeTable(nameOrId: string, keepCells: boolean, origin: Origin): void {
    this.edit('Delete table', origin, () => tableOps.remove(this, this.table(nameOrId), keepCells, origin));
  }

  /** Filters a table's column; null takes the column's filter away. */
  filterTable(nameOrId: string, column: number, criteria: FilterCriteria | null, origin: Origin): void {
    this.edit('Filter', origin, () =>
      filters.filterTable(this, this.table(nameOrId), column, criteria, origin),
    );
  }

  /** Sets or (null) removes the sheet's own filter. */
  filterSheet(ref: SheetRef, state: FilterState | null, origin: Origin): void {
    this.edit('Filter', origin, () => filters.filterSheet(this, this.sheet(ref), state, origin));
  }

  // ---- names, settings, XML parts

  get names(): readonly NameModel[] {
    return this.state.names;
  }

  /** `sheetId` null looks for a name of the whole workbook. */
  findName(name: string, sheetId: string | null): NameModel | undefined {
    const wanted = name.toLowerCase();
    return this.state.names.find((entry) => entry.sheetId === sheetId && entry.name.toLowerCase() === wanted);
  }

  addName(entry: NameModel, origin: Origin): void {
    this.edit('Define name', origin, () => names.add(this, entry, origin));
  }

  setName(name: string, sheetId: string | null, patch: Partial<NameModel>, origin: Origin): void {
    this.edit('Change name', origin, () => names.change(this, name, sheetId, patch, origin));
  }

  removeName(name: string, sheetId: string | null, origin: Origin): void {
    this.edit('Delete name', origin, () => names.remove(this, name, sheetId, origin));
  }

  /** The area a name stands for, where it stands for one. */
  nameArea(entry: NameModel): { sheet: SheetModel; area: Area } | null {
    return names.area(this, entry);
  }

  /** `json` null removes the setting. */
  setSetting(key: string, json: string | null, origin: Origin): void {
    const settings = new Map(this.state.settings);
    if (json === null) settings.delete(key);
    else settings.set(key, json);
    this.setState({ settings });
    this.emit({ kind: 'setting', key, origin });
  }

  addXmlPart(xml: string, origin: Origin, id = this.nextId('X')): XmlPart {
    const part = { id, xml };
    this.setState({ xmlParts: [...this.state.xmlParts, part] });
    this.emit({ kind: 'xmlPart', id, origin });
    return part;
  }

  /** `xml` null removes the part. */
  setXmlPart(id: string, xml: string | null, origin: Origin): void {
    const rest = this.state.xmlParts;
    const xmlParts =
      xml === null
        ? rest.filter((part) => part.id !== id)
        : rest.map((part) => (part.id === id ? { id, xml } : part));
    this.setState({ xmlParts });
    this.emit({ kind: 'xmlPart', id, origin });
  }
}
