/** The workbook and the application: where every request begins. */
import { asFlag, asOneOf } from '../args.ts';
import type { Book } from '../book.ts';
import { fail } from '../error.ts';
import { HostObject } from '../object.ts';
import { NamesObject } from './names.ts';
import type { RangeObject } from './range.ts';
import type { RangeAreasObject } from './rangeAreas.ts';
import { WorkbookProtectionObject } from './sheetParts.ts';
import { SettingsObject, XmlPartsObject } from './stores.ts';
import type { TablesObject } from './tables.ts';
import { WorksheetsObject } from './worksheet.ts';

export class WorkbookObject extends HostObject {
  override readonly scalars = ['autoSave', 'isDirty', 'name', 'readOnly'];

  constructor(private readonly book: Book) {
    super();
  }

  get Name(): string {
    return this.book.model.name;
  }

  get IsDirty(): boolean {
    return this.book.model.undoStack.length > 0;
  }

  get AutoSave(): boolean {
    return false;
  }

  get ReadOnly(): boolean {
    return false;
  }

  get Application(): ApplicationObject {
    return new ApplicationObject(this.book);
  }

  get Worksheets(): WorksheetsObject {
    return new WorksheetsObject(this.book);
  }

  get Tables(): TablesObject {
    return this.book.makers.tables(this.book, null);
  }

  get Names(): NamesObject {
    return new NamesObject(this.book, null);
  }

  get Settings(): SettingsObject {
    return new SettingsObject(this.book);
  }

  get CustomXmlParts(): XmlPartsObject {
    return new XmlPartsObject(this.book);
  }

  get Protection(): WorkbookProtectionObject {
    return new WorkbookProtectionObject(this.book);
  }

  get _Runtime(): RuntimeObject {
    return new RuntimeObject(this.book);
  }

  /** One area; several selected ones are refused, as by Excel. */
  GetSelectedRange(): RangeObject {
    const [first, ...more] = this.book.model.selection;
    if (!first || more.length > 0)
      fail('InvalidSelection', 'The current selection is invalid for this operation.');
    return this.book.range(this.book.model.active, first);
  }

  GetSelectedRanges(): RangeAreasObject {
    return this.book.makers.rangeAreas(this.book, this.book.model.active, this.book.model.selection);
  }

  GetActiveCell(): RangeObject {
    const first = this.book.model.selection[0] ?? fail('ItemNotFound');
    return this.book.range(this.book.model.active, { ...first, rows: 1, columns: 1 });
  }

  _RemoveAllReferences(): void {
    this.book.live.clear();
  }

  _GetRangeForEventByReferenceId(): never {
    return fail('ApiNotFound', 'Ranges of events are not kept here; use the address.');
  }

  _SetOsfControlContainerReadyForCustomFunctions(): void {
    // worksheet functions are calculated by the grid, not by the add-in's runtime
  }
}

export class ApplicationObject extends HostObject {
  override readonly scalars = [
    'calculationMode',
    'calculationState',
    'decimalSeparator',
    'thousandsSeparator',
  ];

  constructor(private readonly book: Book) {
    super();
  }

  get CalculationMode(): string {
    return this.book.calculationMode;
  }

  set CalculationMode(value: unknown) {
    this.book.calculationMode = asOneOf(value, ['Automatic', 'AutomaticExceptTables', 'Manual']);
  }

  get CalculationState(): string {
    return 'Done';
  }

  get DecimalSeparator(): string {
    return '.';
  }

  get ThousandsSeparator(): string {
    return ',';
  }

  Calculate(type: unknown): void {
    asOneOf(type, ['Recalculate', 'Full', 'FullRebuild']);
    this.book.model.emit({ kind: 'calculate', origin: 'addin' });
  }

  SuspendApiCalculationUntilNextSync(): void {
    // calculation settles between requests here anyway
  }

  SuspendScreenUpdatingUntilNextSync(): void {
    // the grid draws between requests here anyway
  }
}

export class RuntimeObject extends HostObject {
  override readonly scalars = ['enableEvents'];

  constructor(private readonly book: Book) {
    super();
  }

  get EnableEvents(): boolean {
    return this.book.eventsEnabled;
  }

  set EnableEvents(value: unknown) {
    this.book.eventsEnabled = asFlag(value);
  }
}
