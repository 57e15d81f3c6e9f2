/** Sheets. */
import { MAX_COLUMNS, MAX_ROWS, parseArea, type SheetModel } from '../../model/index.ts';
import { asColour, asFlag, asOneOf, asRecord, asText, asWhole, isNothing } from '../args.ts';
import type { Book } from '../book.ts';
import { badArgument, fail } from '../error.ts';
import { HostCollection, HostObject } from '../object.ts';
import { SheetAutoFilterObject } from './autoFilter.ts';
import { ChartsObject, CommentsObject } from './charts.ts';
import { NamesObject } from './names.ts';
import { PageLayoutObject } from './pageLayout.ts';
import { PivotsObject } from './pivots.ts';
import type { RangeObject } from './range.ts';
import type { RangeAreasObject } from './rangeAreas.ts';
import { findIn } from './searching.ts';
import { ShapesObject } from './shapes.ts';
import { FreezePanesObject, SheetProtectionObject } from './sheetParts.ts';
import { CustomPropertiesObject } from './stores.ts';
import type { TablesObject } from './tables.ts';

const VISIBILITY = { visible: 'Visible', hidden: 'Hidden', veryHidden: 'VeryHidden' } as const;

export class WorksheetObject extends HostObject {
  override readonly scalars = [
    'id',
    'name',
    'position',
    'showGridlines',
    'showHeadings',
    'standardHeight',
    'standardWidth',
    'tabColor',
    'visibility',
  ];

  constructor(
    private readonly book: Book,
    private readonly model: SheetModel,
  ) {
    super();
  }

  override identity(): Record<string, unknown> {
    return { Id: this.model.id };
  }

  get sheet(): SheetModel {
    return this.book.requireSheet(this.model);
  }

  get Id(): string {
    return this.sheet.id;
  }

  get Name(): string {
    return this.sheet.name;
  }

  set Name(value: unknown) {
    this.book.guardStructure();
    this.book.model.renameSheet(this.sheet, asText(value), 'addin');
  }

  get Position(): number {
    return this.book.model.sheets.indexOf(this.sheet);
  }

  set Position(value: unknown) {
    this.book.guardStructure();
    this.book.model.moveSheet(this.sheet, asWhole(value), 'addin');
  }

  get Visibility(): string {
    return VISIBILITY[this.sheet.layout.visibility];
  }

  set Visibility(value: unknown) {
    this.book.guardStructure();
    const word = asOneOf(value, ['Visible', 'Hidden', 'VeryHidden']);
    const kept = word === 'Visible' ? 'visible' : word === 'Hidden' ? 'hidden' : 'veryHidden';
    this.book.model.showSheet(this.sheet, kept, 'addin');
  }

  get TabColor(): string {
    return this.sheet.layout.tabColor;
  }

  set TabColor(value: unknown) {
    this.book.model.setLayout(this.sheet, { tabColor: value === '' ? '' : asColour(value) }, 'addin');
  }

  get ShowGridlines(): boolean {
    return this.sheet.layout.showGridlines;
  }

  set ShowGridlines(value: unknown) {
    this.book.model.setLayout(this.sheet, { showGridlines: asFlag(value) }, 'addin');
  }

  /** The name under which office.js sets it. */
  set Gridlines(value: unknown) {
    this.ShowGridlines = value;
  }

  get ShowHeadings(): boolean {
    return true;
  }

  get StandardWidth(): number {
    return 8.43;
  }

  get StandardHeight(): number {
    return 15;
  }

  get Tables(): TablesObject {
    return this.book.makers.tables(this.book, this.sheet);
  }

  get Names(): NamesObject {
    return new NamesObject(this.book, this.sheet);
  }

  get Protection(): SheetProtectionObject {
    return new SheetProtectionObject(this.book, this.sheet);
  }

  get FreezePanes(): FreezePanesObject {
    return new FreezePanesObject(this.book, this.sheet);
  }

  get PageLayout(): PageLayoutObject {
    return new PageLayoutObject(this.book, this.sheet);
  }

  get AutoFilter(): SheetAutoFilterObject {
    return new SheetAutoFilterObject(this.book, this.sheet);
  }

  get CustomProperties(): CustomPropertiesObject {
    return new CustomPropertiesObject(this.book, this.sheet);
  }

  get Charts(): ChartsObject {
    return new ChartsObject(this.sheet);
  }

  get PivotTables(): PivotsObject {
    return new PivotsObject(this.sheet);
  }

  get Comments(): CommentsObject {
    return new CommentsObject(this.sheet);
  }

  get Shapes(): ShapesObject {
    return new ShapesObject(this.book, this.sheet);
  }

  GetRange(address: unknown): RangeObject {
    if (isNothing(address) || address === '') return this.book.wholeSheet(this.sheet);
    return this.book.parseRange(asText(address), this.sheet);
  }

  GetRanges(addresses: unknown): RangeAreasObject {
    const areas = asText(addresses)
      .split(',')
      .map((part) => parseArea(part.trim()) ?? badArgument());
    return this.book.makers.rangeAreas(this.book, this.sheet, areas);
  }

  GetCell(row: unknown, column: unknown): RangeObject {
    return this.book.range(this.sheet, { row: asWhole(row), column: asWhole(column), rows: 1, columns: 1 });
  }

  GetRangeByIndexes(row: unknown, column: unknown, rows: unknown, columns: unknown): RangeObject {
    const area = {
      row: asWhole(row),
      column: asWhole(column),
      rows: asWhole(rows),
      columns: asWhole(columns),
    };
    return this.book.range(this.sheet, area);
  }

  GetUsedRangeOrNullObject(valuesOnly: unknown): RangeObject | null {
    const used = this.book.model.usedArea(this.sheet, valuesOnly === true);
    return used ? this.book.range(this.sheet, used) : null;
  }

  GetUsedRange(valuesOnly: unknown): RangeObject {
    return this.GetUsedRangeOrNullObject(valuesOnly) ?? this.GetCell(0, 0);
  }

  FindAllOrNullObject(text: unknown, criteria: unknown): RangeAreasObject | null {
    const whole = { row: 0, column: 0, rows: MAX_ROWS, columns: MAX_COLUMNS };
    const found = findIn(this.sheet, whole, asText(text), isNothing(criteria) ? {} : asRecord(criteria));
    return found.length > 0 ? this.book.makers.rangeAreas(this.book, this.sheet, found) : null;
  }

  FindAll(text: unknown, criteria: unknown): RangeAreasObject {
    return this.FindAllOrNullObject(text, criteria) ?? fail('ItemNotFound');
  }

  private neighbour(step: 1 | -1, visibleOnly: unknown): WorksheetObject | null {
    const { sheets } = this.book.model;
    for (let at = sheets.indexOf(this.sheet) + step; at >= 0 && at < sheets.length; at += step) {
      const sheet = sheets[at];
      if (sheet && (visibleOnly !== true || sheet.layout.visibility === 'visible')) {
        return new WorksheetObject(this.book, sheet);
      }
    }
    return null;
  }

  GetNextOrNullObject(visibleOnly: unknown): WorksheetObject | null {
    return this.neighbour(1, visibleOnly);
  }

  GetNext(visibleOnly: unknown): WorksheetObject {
    return this.neighbour(1, visibleOnly) ?? fail('ItemNotFound');
  }

  GetPreviousOrNullObject(visibleOnly: unknown): WorksheetObject | null {
    return this.neighbour(-1, visibleOnly);
  }

  GetPrevious(visibleOnly: unknown): WorksheetObject {
    return this.neighbour(-1, visibleOnly) ?? fail('ItemNotFound');
  }

  Activate(): void {
    this.book.model.activate(this.sheet, 'addin');
  }

  Calculate(): void {
    this.book.model.emit({ kind: 'calculate', origin: 'addin' });
  }

  Delete(): void {
    this.book.guardStructure();
    if (this.sheet.layout.visibility === 'veryHidden')
      fail('InvalidOperation', 'A very hidden sheet cannot be deleted.');
    this.book.model.removeSheet(this.sheet, 'addin');
  }
}

export class WorksheetsObject extends HostCollection<WorksheetObject> {
  constructor(private readonly book: Book) {
    super();
  }

  private wrap(sheet: SheetModel | undefined): WorksheetObject | null {
    return sheet ? new WorksheetObject(this.book, sheet) : null;
  }

  override items(): WorksheetObject[] {
    return this.book.model.sheets.map((sheet) => new WorksheetObject(this.book, sheet));
  }

  override find(key: unknown): WorksheetObject | null {
    return typeof key === 'string' ? this.wrap(this.book.model.findSheet(key)) : null;
  }

  override GetCount(visibleOnly?: unknown): number {
    return this.shown(visibleOnly).length;
  }

  private shown(visibleOnly: unknown): readonly SheetModel[] {
    const { sheets } = this.book.model;
    return visibleOnly === true ? sheets.filter((sheet) => sheet.layout.visibility === 'visible') : sheets;
  }

  Add(name: unknown): WorksheetObject {
    this.book.guardStructure();
    const wanted = isNothing(name) ? null : asText(name);
    return new WorksheetObject(this.book, this.book.model.addSheet(wanted, 'addin'));
  }

  GetActiveWorksheet(): WorksheetObject {
    return new WorksheetObject(this.book, this.book.model.active);
  }

  GetFirst(visibleOnly: unknown): WorksheetObject {
    return this.wrap(this.shown(visibleOnly)[0]) ?? fail('ItemNotFound');
  }

  GetLast(visibleOnly: unknown): WorksheetObject {
    return this.wrap(this.shown(visibleOnly).at(-1)) ?? fail('ItemNotFound');
  }
}
