/** `range.format`: alignment, sizes, and below it fill, font, borders and protection. */
import {
  DEFAULT_COLUMN_PIXELS,
  DEFAULT_ROW_POINTS,
  MAX_COLUMNS,
  MAX_ROWS,
  displayText,
  type Area,
  type CellStyle,
  type SheetModel,
} from '../../model/index.ts';
import { asColour, asFlag, asNumber, asOneOf, asText, asWhole } from '../args.ts';
import type { Book } from '../book.ts';
import { badArgument } from '../error.ts';
import { HostObject } from '../object.ts';
import { BordersObject } from './borders.ts';
import { POINTS_PER_PIXEL } from './geometry.ts';

/** A format as cells share it. */
abstract class Format extends HostObject {
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
        for (const key of keys) delete next[key];
        return next;
      };
      this.book.model.styleEach(this.sheet, area, without, 'addin');
    }
  }
}

const HORIZONTAL = { general: 'General', left: 'Left', center: 'Center', right: 'Right' } as const;
const VERTICAL = { top: 'Top', center: 'Center', bottom: 'Bottom' } as const;

export class RangeFormatObject extends Format {
  override readonly scalars = [
    'columnWidth',
    'horizontalAlignment',
    'indentLevel',
    'rowHeight',
    'shrinkToFit',
    'textOrientation',
    'verticalAlignment',
    'wrapText',
  ];

  get Fill(): FillObject {
    return new FillObject(this.book, this.sheet, this.areas);
  }

  get Font(): FontObject {
    return new FontObject(this.book, this.sheet, this.areas);
  }

  get Borders(): BordersObject {
    return new BordersObject(this.book, this.sheet, this.areas);
  }

  get Protection(): FormatProtectionObject {
    return new FormatProtectionObject(this.book, this.sheet, this.areas);
  }

  get HorizontalAlignment(): string | null {
    const word = this.shared((style) => style.horizontal ?? 'general');
    return word && HORIZONTAL[word];
  }

  set HorizontalAlignment(value: unknown) {
    const word = asOneOf(value, [
      'General',
      'Left',
      'Center',
      'Right',
      'CenterAcrossSelection',
      'Justify',
      'Fill',
      'Distributed',
    ]);
    const kept = { General: 'general', Left: 'left', Right: 'right', Center: 'center' } as const;
    this.patch({ horizontal: word in kept ? kept[word as keyof typeof kept] : 'center' });
  }

  get VerticalAlignment(): string | null {
    const word = this.shared((style) => style.vertical ?? 'bottom');
    return word && VERTICAL[word];
  }

  set VerticalAlignment(value: unknown) {
    const word = asOneOf(value, ['Top', 'Center', 'Bottom', 'Justify', 'Distributed']);
    this.patch({ vertical: word === 'Top' ? 'top' : word === 'Bottom' ? 'bottom' : 'center' });
  }

  get WrapText(): boolean | null {
    return this.shared((style) => style.wrap ?? false);
  }

  set WrapText(value: unknown) {
    this.patch({ wrap: asFlag(value) });
  }

  get IndentLevel(): number | null {
    return this.shared((style) => style.indent ?? 0);
  }

  set IndentLevel(value: unknown) {
    const indent = asWhole(value);
    this.patch({ indent: indent >= 0 && indent <= 250 ? indent : badArgument() });
  }

  get ShrinkToFit(): boolean | null {
    return this.shared((style) => style.shrink ?? false);
  }

  set ShrinkToFit(value: unknown) {
    this.patch({ shrink: asFlag(value) });
  }

  get TextOrientation(): number | null {
    return this.shared((style) => style.rotation ?? 0);
  }

  set TextOrientation(value: unknown) {
    const rotation = asWhole(value);
    this.patch({
      rotation: (rotation >= -90 && rotation <= 90) || rotation === 180 ? rotation : badArgument(),
    });
  }

  get ColumnWidth(): number | null {
    const pixels = this.sizes('columns', this.sheet.layout.columnWidths, DEFAULT_COLUMN_PIXELS);
    return pixels === null ? null : pixels * POINTS_PER_PIXEL;
  }

  set ColumnWidth(value: unknown) {
    const points = asNumber(value);
    if (points < 0 || points > 1342) badArgument();
    this.resize('columns', Math.round(points / POINTS_PER_PIXEL));
  }

  get RowHeight(): number | null {
    return this.sizes('rows', this.sheet.layout.rowHeights, DEFAULT_ROW_POINTS);
  }

  set RowHeight(value: unknown) {
    const points = asNumber(value);
    if (points < 0 || points > 409.5) badArgument();
    this.resize('rows', points);
  }

  private sizes(axis: 'rows' | 'columns', own: ReadonlyMap<number, number>, fallback: number): number | null {
    let first: number | null = null;
    for (const area of this.areas) {
      const [start, count] = axis === 'rows' ? [area.row, area.rows] : [area.column, area.columns];
      const limit = own.size === 0 ? 1 : count;
      for (let index = start; index < start + limit; index++) {
        const size = own.get(index) ?? fallback;
        if (first !== null && first !== size) return null;
        first = size;
      }
    }
    return first;
  }

  private resize(axis: 'rows' | 'columns', size: number): void {
    const rows = axis === 'rows';
    const sizes = new Map(rows ? this.sheet.layout.rowHeights : this.sheet.layout.columnWidths);
    for (const area of this.areas) {
      this.book.guard(this.sheet, area, rows ? 'allowFormatRows' : 'allowFormatColumns');
      const [start, count] = rows ? [area.row, area.rows] : [area.column, area.columns];
      for (let index = start; index < start + count; index++) sizes.set(index, size);
    }
    this.book.model.setLayout(this.sheet, rows ? { rowHeights: sizes } : { columnWidths: sizes }, 'addin');
  }

  /** Widths guessed from the length of the text: seven pixels a character and a margin. */
  AutofitColumns(): void {
    const columnWidths = new Map(this.sheet.layout.columnWidths);
    for (const area of this.areas) {
      this.book.guard(this.sheet, area, 'allowFormatColumns');
      const longest = new Map<number, number>();
      for (const { column, cell } of this.sheet.cells.in(area)) {
        const { length } = displayText(cell.value, cell.style?.numberFormat);
        longest.set(column, Math.max(length, longest.get(column) ?? 0));
      }
      for (const [column, length] of longest) if (length > 0) columnWidths.set(column, length * 7 + 12);
    }
    this.book.model.setLayout(this.sheet, { columnWidths }, 'addin');
  }

  AutofitRows(): void {
    const rowHeights = new Map(this.sheet.layout.rowHeights);
    for (const area of this.areas) {
      this.book.guard(this.sheet, area, 'allowFormatRows');
      for (const row of [...rowHeights.keys()])
        if (row >= area.row && row < area.row + area.rows) rowHeights.delete(row);
    }
    this.book.model.setLayout(this.sheet, { rowHeights }, 'addin');
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
