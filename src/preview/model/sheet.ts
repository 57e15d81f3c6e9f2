/** A sheet: its cells and an immutable record of everything else, replaced as a whole so that undo is simple. */
import { CellStore } from './cells.ts';
import type { Area, CellStyle, SheetVisibility } from './types.ts';

export type { SheetVisibility } from './types.ts';

export interface FrozenPanes {
  rows: number;
  columns: number;
}

/** Excel's filter criteria as given (`filterOn`, `values`, `criterion1`, …), by column offset in the filtered area. */
export interface FilterCriteria {
  filterOn: string;
  values?: readonly string[];
  criterion1?: string;
  criterion2?: string;
  operator?: 'And' | 'Or';
}

export interface FilterState {
  area: Area;
  criteria: ReadonlyMap<number, FilterCriteria>;
}

export type ConditionalRule =
  | { kind: 'custom'; formula: string }
  | { kind: 'cellValue'; operator: string; formula1: string; formula2?: string }
  | { kind: 'text'; operator: string; text: string }
  | { kind: 'other'; type: string; bag: Readonly<Record<string, unknown>> };

export interface ConditionalFormat {
  readonly id: string;
  readonly areas: readonly Area[];
  readonly rule: ConditionalRule;
  readonly style: CellStyle;
  readonly priority: number;
  readonly stopIfTrue: boolean;
}

/** `rule` is Excel's object (`{ list: { source, inCellDropDown } }`, `{ wholeNumber: … }`, …). */
export interface Validation {
  readonly areas: readonly Area[];
  readonly type: string;
  readonly rule: Readonly<Record<string, unknown>>;
  readonly ignoreBlanks: boolean;
  readonly errorAlert: Readonly<Record<string, unknown>> | null;
  readonly prompt: Readonly<Record<string, unknown>> | null;
}

/** A picture; positions and sizes in points. */
export interface Picture {
  readonly id: string;
  readonly name: string;
  readonly base64: string;
  readonly format: 'PNG' | 'JPEG';
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly altText: string;
  readonly altTitle?: string;
  /** Excel's word: `TwoCell`, `OneCell`, `Absolute`. */
  readonly placement?: string;
  readonly lockAspectRatio?: boolean;
}

/** A chart as far as an add-in can ask where its numbers come from; it is not drawn. */
export interface Chart {
  readonly id: string;
  readonly name: string;
  /** Sources of values and categories as formulas: `Keys!$A$5:$A$9`. */
  readonly series: readonly { readonly name: string; readonly values: string; readonly categories: string }[];
}

/** A pivot table as far as an add-in can ask where its numbers come from; what it shows is cells like others. */
export interface Pivot {
  readonly id: string;
  readonly name: string;
  /** A range or a table: `Keys!$A$5:$F$9`, `KeyrowKeys`; empty where it is neither. */
  readonly source: string;
}

export interface Comment {
  readonly id: string;
  readonly row: number;
  readonly column: number;
  readonly text: string;
}

export interface HyperLink {
  readonly address?: string;
  readonly documentReference?: string;
  readonly screenTip?: string;
  readonly textToDisplay?: string;
}

export interface PageLayout {
  readonly orientation: 'portrait' | 'landscape';
  readonly printArea: readonly Area[];
  readonly titleRows: { start: number; count: number } | null;
  readonly titleColumns: { start: number; count: number } | null;
  readonly zoom: Readonly<Record<string, unknown>>;
  readonly headersFooters: Readonly<Record<string, string>>;
  /** Whatever else was set: margins, paper size, centring. */
  readonly bag: Readonly<Record<string, unknown>>;
}

export interface SheetLayout {
  readonly name: string;
  readonly visibility: SheetVisibility;
  /** `#RRGGBB`, or empty for none. */
  readonly tabColor: string;
  readonly showGridlines: boolean;
  /** Pixels at 96 dpi; the file format's width is pixels / 7, the API's is pixels × 0.75. Default 64. */
  readonly columnWidths: ReadonlyMap<number, number>;
  /** Points; default 15. */
  readonly rowHeights: ReadonlyMap<number, number>;
  readonly hiddenRows: ReadonlySet<number>;
  readonly hiddenColumns: ReadonlySet<number>;
  /** Rows a filter hides; recomputed by `applyFilters`. */
  readonly filteredRows: ReadonlySet<number>;
  readonly columnStyles: ReadonlyMap<number, CellStyle>;
  readonly rowStyles: ReadonlyMap<number, CellStyle>;
  readonly merges: readonly Area[];
  readonly frozen: FrozenPanes;
  /** The sheet's own filter; tables have theirs. */
  readonly autoFilter: FilterState | null;
  readonly conditionalFormats: readonly ConditionalFormat[];
  readonly validations: readonly Validation[];
  readonly pictures: readonly Picture[];
  readonly charts: readonly Chart[];
  readonly pivots: readonly Pivot[];
  readonly comments: readonly Comment[];
  /** Keyed `row,column` of the link's top left cell. */
  readonly links: readonly { area: Area; link: HyperLink }[];
  readonly page: PageLayout;
  readonly customProperties: ReadonlyMap<string, string>;
}

/** Excel's options as given; absent ones are false, except selection, which is allowed. */
export interface SheetProtection {
  readonly options: Readonly<Record<string, unknown>>;
  /** Plain text where the sheet was protected in this session. */
  readonly password?: string;
  /** Whether the opened file has a password hash whose text nobody knows. */
  readonly sealed?: boolean;
}

export const DEFAULT_COLUMN_PIXELS = 64;
export const DEFAULT_ROW_POINTS = 15;

export function emptyLayout(name: string): SheetLayout {
  return {
    name,
    visibility: 'visible',
    tabColor: '',
    showGridlines: true,
    columnWidths: new Map(),
    rowHeights: new Map(),
    hiddenRows: new Set(),
    hiddenColumns: new Set(),
    filteredRows: new Set(),
    columnStyles: new Map(),
    rowStyles: new Map(),
    merges: [],
    frozen: { rows: 0, columns: 0 },
    autoFilter: null,
    conditionalFormats: [],
    validations: [],
    pictures: [],
    charts: [],
    pivots: [],
    comments: [],
    links: [],
    page: {
      orientation: 'portrait',
      printArea: [],
      titleRows: null,
      titleColumns: null,
      zoom: { scale: 100 },
      headersFooters: {},
      bag: {},
    },
    customProperties: new Map(),
  };
}

export class SheetModel {
  readonly cells = new CellStore();
  layout: SheetLayout;
  protection: SheetProtection | null = null;

  constructor(
    readonly id: string,
    name: string,
  ) {
    this.layout = emptyLayout(name);
  }

  get name(): string {
    return this.layout.name;
  }

  /** The style a cell has: its own, or its row's, or its column's. */
  styleAt(row: number, column: number): CellStyle {
    return (
      this.cells.get(row, column)?.style ??
      this.layout.rowStyles.get(row) ??
      this.layout.columnStyles.get(column) ??
      NO_STYLE
    );
  }

  /** Whether a row is hidden, by hand or by a filter. */
  isRowHidden(row: number): boolean {
    return this.layout.hiddenRows.has(row) || this.layout.filteredRows.has(row);
  }
}

const NO_STYLE: CellStyle = Object.freeze({});
