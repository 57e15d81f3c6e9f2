/** `range.format`: alignment, sizes, and below it fill, font, borders and protection. */
import { DEFAULT_COLUMN_PIXELS, DEFAULT_ROW_POINTS, displayText } from '../../model/index.ts';
import { asFlag, asNumber, asOneOf, asWhole } from '../args.ts';
import { badArgument } from '../error.ts';
import { BordersObject } from './borders.ts';
import { POINTS_PER_PIXEL } from './geometry.ts';

import { FillObject, FontObject, Format, FormatProtectionObject } from './cellFormats.ts';

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
