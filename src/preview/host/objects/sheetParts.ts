/** Frozen panes and protection of a sheet, and protection of the workbook. */
import { type SheetModel } from '../../model/index.ts';
import { asRecord, asText, asWhole, isNothing, optionalText } from '../args.ts';
import type { Book } from '../book.ts';
import { fail } from '../error.ts';
import { HostObject } from '../object.ts';
import { RangeObject } from './range.ts';

export class FreezePanesObject extends HostObject {
  constructor(
    private readonly book: Book,
    private readonly sheet: SheetModel,
  ) {
    super();
  }

  private freeze(rows: number, columns: number): void {
    if (rows < 0 || columns < 0) fail('InvalidArgument');
    this.book.model.setLayout(this.sheet, { frozen: { rows, columns } }, 'addin');
  }

  FreezeRows(count: unknown): void {
    this.freeze(isNothing(count) ? 1 : asWhole(count), 0);
  }

  FreezeColumns(count: unknown): void {
    this.freeze(0, isNothing(count) ? 1 : asWhole(count));
  }

  FreezeAt(range: unknown): void {
    const area = (
      range instanceof RangeObject ? range : this.book.parseRange(asText(range), this.sheet)
    ).place();
    this.freeze(area.row + area.rows, area.column + area.columns);
  }

  Unfreeze(): void {
    this.freeze(0, 0);
  }

  GetLocationOrNullObject(): RangeObject | null {
    const { rows, columns } = this.sheet.layout.frozen;
    if (rows === 0 && columns === 0) return null;
    const area = { row: 0, column: 0, rows: rows || 1_048_576, columns: columns || 16_384 };
    return this.book.range(this.sheet, area);
  }

  GetLocation(): RangeObject {
    return this.GetLocationOrNullObject() ?? fail('ItemNotFound');
  }
}

const OPTIONS = {
  allowAutoFilter: false,
  allowDeleteColumns: false,
  allowDeleteRows: false,
  allowEditObjects: false,
  allowEditScenarios: false,
  allowFormatCells: false,
  allowFormatColumns: false,
  allowFormatRows: false,
  allowInsertColumns: false,
  allowInsertHyperlinks: false,
  allowInsertRows: false,
  allowPivotTables: false,
  allowSort: false,
  selectionMode: 'Normal',
} as const;

export class SheetProtectionObject extends HostObject {
  override readonly scalars = ['options', 'protected'];

  constructor(
    private readonly book: Book,
    private readonly sheet: SheetModel,
  ) {
    super();
  }

  get Protected(): boolean {
    return this.sheet.protection !== null;
  }

  get Options(): unknown {
    return this.sheet.protection ? { ...OPTIONS, ...this.sheet.protection.options } : null;
  }

  Protect(options: unknown, password: unknown): void {
    if (this.sheet.protection) fail('InvalidOperation', 'The worksheet is already protected.');
    const given = isNothing(options) ? {} : asRecord(options);
    const secret = optionalText(password);
    this.book.model.protect(
      this.sheet,
      {
        options: { ...OPTIONS, ...given },
        ...(secret === null || secret === '' ? {} : { password: secret }),
      },
      'addin',
    );
  }

  Unprotect(password: unknown): void {
    const { protection } = this.sheet;
    if (!protection) return;
    const secret = optionalText(password) ?? '';
    if (protection.sealed === true || (protection.password ?? '') !== secret) {
      fail('AccessDenied', 'The password you supplied is not correct.');
    }
    this.book.model.protect(this.sheet, null, 'addin');
  }
}

export class WorkbookProtectionObject extends HostObject {
  override readonly scalars = ['protected'];

  constructor(private readonly book: Book) {
    super();
  }

  get Protected(): boolean {
    return this.book.structureProtected;
  }

  Protect(): void {
    if (this.book.structureProtected) fail('InvalidOperation', 'The workbook is already protected.');
    this.book.structureProtected = true;
  }

  Unprotect(): void {
    this.book.structureProtected = false;
  }
}
