/** Fill, font and protection of cells, and what all formats of a range have in common. */
import { MAX_COLUMNS, MAX_ROWS, type Area, type CellStyle, type SheetModel } from '../../model/index.ts';
import { asColour, asFlag, asNumber, asOneOf, asText } from '../args.ts';
import type { Book } from '../book.ts';
import { badArgument } from '../error.ts';
import { HostObject } from '../object.ts';

/** A format as cells share it. */
export abstract class Format extends HostObject {
  constructor(
    protected readonly book: Book,
    protected readonly sheet: SheetModel,
    protected readonly areas: readonly Area[],
  ) {
    super();
  }

  /** The value all cells share, null where they differ. */
  protected shared<T>(read: (style: CellStyle) => T): T | null {
    let first: { value: T } | null = null;
    for (const style of this.styles()) {
      const value = read(style);
      if (first === null) first = { value };
      else if (first.value !== value) return null;
    }
    return first ? first.value : null;
  }

  private *styles(): Generator<CellStyle> {
    for (const area of this.areas) {
      if (area.rows === MAX_ROWS || area.columns === MAX_COLUMNS) {
        const { columnStyles, rowStyles } = this.sheet.layout;
        if (area.rows === MAX_ROWS) {
          for (let c = area.column; c < area.column + area.columns; c++) yield columnStyles.get(c) ?? {};
        } else for (let r = area.row; r < area.row + area.rows; r++) yield rowStyles.get(r) ?? {};
        for (const { row, column } of this.sheet.cells.in(area)) yield this.sheet.styleAt(row, column);
        continue;
      }
      for (let row = area.row; row < area.row + area.rows; row++) {
        for (let column = area.column; column < area.column + area.columns; column++) {
          yield this.sheet.styleAt(row, column);
        }
      }
    }
  }

  protected patch(style: CellStyle): void {
    for (const area of this.areas) {
      this.book.guard(this.sheet, area, 'allowFormatCells');
      this.book.model.style(this.sheet, area, style, 'addin');
    }
  }

  protected drop(...keys: (keyof CellStyle)[]): void {
    for (const area of this.areas) {
      this.book.guard(this.sheet, area, 'allowFormatCells');
      const without = (style: CellStyle): CellStyle => {
        const next = { ...style };
        for (const key of keys) Reflect.deleteProperty(next, key);
        return next;
      };
      this.book.model.styleEach(this.sheet, area, without, 'addin');
    }
  }
}

export class FillObject extends Format {
  override readonly scalars = ['color'];

  get Color(): string | null {
    return this.shared((style) => style.fill ?? '#FFFFFF');
  }

  set Color(value: unknown) {
    this.patch({ fill: asColour(value) });
  }

  Clear(): void {
    this.drop('fill');
  }
}

export class FontObject extends Format {
  override readonly scalars = ['bold', 'color', 'italic', 'name', 'size', 'strikethrough', 'underline'];

  get Bold(): boolean | null {
    return this.shared((style) => style.bold ?? false);
  }

  set Bold(value: unknown) {
    this.patch({ bold: asFlag(value) });
  }

  get Italic(): boolean | null {
    return this.shared((style) => style.italic ?? false);
  }

  set Italic(value: unknown) {
    this.patch({ italic: asFlag(value) });
  }

  get Strikethrough(): boolean | null {
    return this.shared((style) => style.strikethrough ?? false);
  }

  set Strikethrough(value: unknown) {
    this.patch({ strikethrough: asFlag(value) });
  }

  get Underline(): string | null {
    return this.shared((style) => (style.underline ? 'Single' : 'None'));
  }

  set Underline(value: unknown) {
    const word = asOneOf(value, ['None', 'Single', 'Double', 'SingleAccountant', 'DoubleAccountant']);
    this.patch({ underline: word !== 'None' });
  }

  get Color(): string | null {
    return this.shared((style) => style.fontColor ?? '#000000');
  }

  set Color(value: unknown) {
    this.patch({ fontColor: asColour(value) });
  }

  get Name(): string | null {
    return this.shared((style) => style.fontName ?? 'Calibri');
  }

  set Name(value: unknown) {
    this.patch({ fontName: asText(value) });
  }

  get Size(): number | null {
    return this.shared((style) => style.fontSize ?? 11);
  }

  set Size(value: unknown) {
    const size = asNumber(value);
    this.patch({ fontSize: size >= 1 && size <= 409 ? size : badArgument() });
  }
}

export class FormatProtectionObject extends Format {
  override readonly scalars = ['formulaHidden', 'locked'];

  get Locked(): boolean | null {
    return this.shared((style) => style.locked ?? true);
  }

  set Locked(value: unknown) {
    this.unprotected();
    this.patch({ locked: asFlag(value) });
  }

  get FormulaHidden(): boolean | null {
    return this.shared((style) => style.formulaHidden ?? false);
  }

  set FormulaHidden(value: unknown) {
    this.unprotected();
    this.patch({ formulaHidden: asFlag(value) });
  }

  /** No option of a protected sheet allows changing what is locked. */
  private unprotected(): void {
    for (const area of this.areas) this.book.guard(this.sheet, area, 'table');
  }
}
