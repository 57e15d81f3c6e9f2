/** `range.format.borders`: the edges and inner lines of a range, kept on the cells beside them. */
import type { Area, BorderEdge, CellStyle, SheetModel } from '../../model/index.ts';
import { asColour, asOneOf } from '../args.ts';
import type { Book } from '../book.ts';
import { apiNotFound, badArgument } from '../error.ts';
import { HostCollection, HostObject } from '../object.ts';

export const SIDES = [
  'EdgeTop',
  'EdgeBottom',
  'EdgeLeft',
  'EdgeRight',
  'InsideVertical',
  'InsideHorizontal',
  'DiagonalDown',
  'DiagonalUp',
] as const;
export type Side = (typeof SIDES)[number];

type Line = NonNullable<NonNullable<CellStyle['borders']>[BorderEdge]>;

const WEIGHTS = { thin: 'Thin', medium: 'Medium', thick: 'Thick' } as const;

export class BordersObject extends HostCollection<BorderObject> {
  constructor(
    private readonly book: Book,
    private readonly sheet: SheetModel,
    private readonly areas: readonly Area[],
  ) {
    super();
  }

  override items(): BorderObject[] {
    return SIDES.map((side) => new BorderObject(this.book, this.sheet, this.areas, side));
  }

  override find(key: unknown): BorderObject {
    return new BorderObject(this.book, this.sheet, this.areas, asOneOf(key, SIDES));
  }
}

export class BorderObject extends HostObject {
  override readonly scalars = ['color', 'sideIndex', 'style', 'weight'];

  constructor(
    private readonly book: Book,
    private readonly sheet: SheetModel,
    private readonly areas: readonly Area[],
    private readonly side: Side,
  ) {
    super();
  }

  override identity(): Record<string, unknown> {
    return { Id: this.side };
  }

  get Id(): string {
    return this.side;
  }

  get SideIndex(): string {
    return this.side;
  }

  get Style(): string | null {
    return this.shared((line) => (line ? 'Continuous' : 'None'));
  }

  set Style(value: unknown) {
    const word = asOneOf(value, [
      'None',
      'Continuous',
      'Dash',
      'DashDot',
      'DashDotDot',
      'Dot',
      'Double',
      'SlantDashDot',
    ]);
    this.change((line) => (word === 'None' ? undefined : (line ?? { style: 'thin', color: '#000000' })));
  }

  get Weight(): string | null {
    return this.shared((line) => WEIGHTS[line?.style ?? 'thin']);
  }

  set Weight(value: unknown) {
    const word = asOneOf(value, ['Hairline', 'Thin', 'Medium', 'Thick']);
    const style = word === 'Medium' ? 'medium' : word === 'Thick' ? 'thick' : 'thin';
    this.change((line) => ({ style, color: line?.color ?? '#000000' }));
  }

  get Color(): string | null {
    return this.shared((line) => line?.color ?? '#000000');
  }

  set Color(value: unknown) {
    const color = asColour(value);
    this.change((line) => ({ style: line?.style ?? 'thin', color }));
  }

  /** The cells that carry this side, and the edge of each. */
  private strip(area: Area): { area: Area; edge: BorderEdge } | null {
    const { row, column, rows, columns } = area;
    switch (this.side) {
      case 'EdgeTop':
        return { area: { ...area, rows: 1 }, edge: 'top' };
      case 'EdgeBottom':
        return { area: { ...area, row: row + rows - 1, rows: 1 }, edge: 'bottom' };
      case 'EdgeLeft':
        return { area: { ...area, columns: 1 }, edge: 'left' };
      case 'EdgeRight':
        return { area: { ...area, column: column + columns - 1, columns: 1 }, edge: 'right' };
      case 'InsideVertical':
        return columns > 1 ? { area: { ...area, columns: columns - 1 }, edge: 'right' } : null;
      case 'InsideHorizontal':
        return rows > 1 ? { area: { ...area, rows: rows - 1 }, edge: 'bottom' } : null;
      default:
        return null;
    }
  }

  private shared<T>(read: (line: Line | undefined) => T): T | null {
    let first: { value: T } | null = null;
    for (const whole of this.areas) {
      const strip = this.strip(whole);
      if (!strip) continue;
      const { area, edge } = strip;
      if (area.rows * area.columns > 1_000_000) return read(undefined);
      for (let row = area.row; row < area.row + area.rows; row++) {
        for (let column = area.column; column < area.column + area.columns; column++) {
          const value = read(this.sheet.styleAt(row, column).borders?.[edge]);
          if (first !== null && first.value !== value) return null;
          first = { value };
        }
      }
    }
    return first ? first.value : read(undefined);
  }

  private change(next: (line: Line | undefined) => Line | undefined): void {
    if (this.side.startsWith('Diagonal')) apiNotFound('Diagonal borders');
    for (const whole of this.areas) {
      this.book.guard(this.sheet, whole, 'allowFormatCells');
      const strip = this.strip(whole);
      if (!strip) continue;
      const { area, edge } = strip;
      if (area.rows * area.columns > 1_100_000) badArgument();
      this.book.model.styleEach(
        this.sheet,
        area,
        (before) => {
          const borders = { ...before.borders };
          const line = next(before.borders?.[edge]);
          if (line) borders[edge] = line;
          else Reflect.deleteProperty(borders, edge);
          return { ...before, borders };
        },
        'addin',
      );
    }
  }
}
