/** Defined names of the workbook or of a sheet. */
import {
  MAX_COLUMNS,
  MAX_ROWS,
  columnLetters,
  parseArea,
  quoteSheet,
  splitSheet,
  type Area,
  type NameModel,
  type SheetModel,
} from '../../model/index.ts';
import { asFlag, asText, isNothing } from '../args.ts';
import type { Book } from '../book.ts';
import { badArgument, fail } from '../error.ts';
import { HostCollection, HostObject } from '../object.ts';
import { RangeObject } from './range.ts';
import type { WorksheetObject } from './worksheet.ts';

/** `Sheet1!$A$1:$B$2`. */
export function absoluteAddress(sheet: SheetModel, area: Area): string {
  const cell = (row: number, column: number): string => `$${columnLetters(column)}$${String(row + 1)}`;
  const { row, column, rows, columns } = area;
  const prefix = `${quoteSheet(sheet.name)}!`;
  if (rows === MAX_ROWS) return `${prefix}$${columnLetters(column)}:$${columnLetters(column + columns - 1)}`;
  if (columns === MAX_COLUMNS) return `${prefix}$${String(row + 1)}:$${String(row + rows)}`;
  const last = cell(row + rows - 1, column + columns - 1);
  return prefix + cell(row, column) + (rows * columns > 1 ? `:${last}` : '');
}

export class NamesObject extends HostCollection<NameObject> {
  constructor(
    private readonly book: Book,
    private readonly sheet: SheetModel | null,
  ) {
    super();
  }

  private get scope(): string | null {
    return this.sheet?.id ?? null;
  }

  override items(): NameObject[] {
    return this.book.model.names
      .filter((entry) => entry.sheetId === this.scope && !entry.name.startsWith('_xlnm.'))
      .map((entry) => new NameObject(this.book, entry.name, entry.sheetId));
  }

  override find(key: unknown): NameObject | null {
    const entry = typeof key === 'string' ? this.book.model.findName(key, this.scope) : undefined;
    return entry ? new NameObject(this.book, entry.name, entry.sheetId) : null;
  }

  Add(name: unknown, reference: unknown, comment: unknown): NameObject {
    const entry: NameModel = {
      name: asText(name),
      sheetId: this.scope,
      formula: this.formula(reference),
      visible: true,
      comment: isNothing(comment) ? '' : asText(comment),
    };
    this.book.model.addName(entry, 'addin');
    return new NameObject(this.book, entry.name, entry.sheetId);
  }

  private formula(reference: unknown): string {
    if (reference instanceof RangeObject) return `=${absoluteAddress(reference.sheet, reference.place())}`;
    const text = asText(reference);
    if (text === '') badArgument();
    if (text.startsWith('=')) return text;
    const { sheet, rest } = splitSheet(text);
    const area = parseArea(rest);
    const home = sheet === null ? (this.sheet ?? this.book.model.active) : this.book.model.findSheet(sheet);
    return area && home ? `=${absoluteAddress(home, area)}` : `="${text.replaceAll('"', '""')}"`;
  }
}

export class NameObject extends HostObject {
  override readonly scalars = ['comment', 'formula', 'name', 'scope', 'type', 'value', 'visible'];

  constructor(
    private readonly book: Book,
    private readonly name: string,
    private readonly sheetId: string | null,
  ) {
    super();
  }

  override identity(): Record<string, unknown> {
    return { _Id: this.name };
  }

  private get entry(): NameModel {
    return this.book.model.findName(this.name, this.sheetId) ?? fail('ItemNotFound');
  }

  get _Id(): string {
    return this.name;
  }

  get Name(): string {
    return this.entry.name;
  }

  get Scope(): string {
    return this.sheetId === null ? 'Workbook' : 'Worksheet';
  }

  get Comment(): string {
    return this.entry.comment;
  }

  set Comment(value: unknown) {
    this.book.model.setName(this.name, this.sheetId, { comment: asText(value) }, 'addin');
  }

  get Visible(): boolean {
    return this.entry.visible;
  }

  set Visible(value: unknown) {
    this.book.model.setName(this.name, this.sheetId, { visible: asFlag(value) }, 'addin');
  }

  get Formula(): string {
    return this.entry.formula;
  }

  set Formula(value: unknown) {
    const formula = asText(value);
    this.book.model.setName(
      this.name,
      this.sheetId,
      { formula: formula.startsWith('=') ? formula : badArgument() },
      'addin',
    );
  }

  get Type(): string {
    const { formula } = this.entry;
    if (this.book.model.nameArea(this.entry)) return 'Range';
    if (/^="/.test(formula)) return 'String';
    if (/^=(TRUE|FALSE)$/i.test(formula)) return 'Boolean';
    if (formula.includes('#REF!')) return 'Error';
    const number = Number(formula.slice(1));
    return Number.isNaN(number) ? 'String' : Number.isInteger(number) ? 'Integer' : 'Double';
  }

  get Value(): unknown {
    const body = this.entry.formula.slice(1);
    if (this.Type === 'Integer' || this.Type === 'Double') return Number(body);
    if (this.Type === 'Boolean') return body.toUpperCase() === 'TRUE';
    if (this.Type === 'Error') return '#REF!';
    return body.startsWith('"') ? body.slice(1, -1).replaceAll('""', '"') : body;
  }

  get WorksheetOrNullObject(): WorksheetObject | null {
    const sheet = this.sheetId === null ? undefined : this.book.model.findSheet(this.sheetId);
    return sheet ? this.book.makers.sheet(this.book, sheet) : null;
  }

  get Worksheet(): WorksheetObject {
    return this.WorksheetOrNullObject ?? fail('ItemNotFound');
  }

  GetRangeOrNullObject(): RangeObject | null {
    const target = this.book.model.nameArea(this.entry);
    return target ? this.book.range(target.sheet, target.area) : null;
  }

  GetRange(): RangeObject {
    return this.GetRangeOrNullObject() ?? fail('ItemNotFound');
  }

  Delete(): void {
    this.book.model.removeName(this.name, this.sheetId, 'addin');
  }
}
