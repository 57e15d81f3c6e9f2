/** `worksheet.pageLayout`: what Excel prints and how. */
import { MAX_COLUMNS, MAX_ROWS, type SheetModel } from '../../model/index.ts';
import { asFlag, asNumber, asOneOf, asRecord, asText } from '../args.ts';
import type { Book } from '../book.ts';
import { badArgument, fail } from '../error.ts';
import { HostObject } from '../object.ts';
import { RangeObject } from './range.ts';
import type { RangeAreasObject } from './rangeAreas.ts';

import { HeadersFootersObject } from './headersFooters.ts';

const DEFAULTS = {
  BlackAndWhite: false,
  BottomMargin: 54,
  CenterHorizontally: false,
  CenterVertically: false,
  DraftMode: false,
  FooterMargin: 21.6,
  HeaderMargin: 21.6,
  LeftMargin: 50.4,
  PaperSize: 'Letter',
  PrintGridlines: false,
  PrintHeadings: false,
  PrintOrder: 'DownThenOver',
  RightMargin: 50.4,
  TopMargin: 54,
} as const;

export class PageLayoutObject extends HostObject {
  override readonly scalars = [
    'blackAndWhite',
    'bottomMargin',
    'centerHorizontally',
    'centerVertically',
    'leftMargin',
    'orientation',
    'paperSize',
    'printGridlines',
    'printHeadings',
    'rightMargin',
    'topMargin',
    'zoom',
  ];

  constructor(
    private readonly book: Book,
    private readonly sheet: SheetModel,
  ) {
    super();
  }

  private get page(): SheetModel['layout']['page'] {
    return this.sheet.layout.page;
  }

  private change(patch: Partial<SheetModel['layout']['page']>): void {
    this.book.model.setLayout(this.sheet, { page: { ...this.page, ...patch } }, 'addin');
  }

  private read(key: keyof typeof DEFAULTS): unknown {
    return this.page.bag[key] ?? DEFAULTS[key];
  }

  private keep(key: keyof typeof DEFAULTS, value: unknown): void {
    const fallback = DEFAULTS[key];
    const checked =
      typeof fallback === 'number'
        ? asNumber(value)
        : typeof fallback === 'boolean'
          ? asFlag(value)
          : asText(value);
    if (typeof checked === 'number' && checked < 0) badArgument();
    this.change({ bag: { ...this.page.bag, [key]: checked } });
  }

  get Orientation(): string {
    return this.page.orientation === 'portrait' ? 'Portrait' : 'Landscape';
  }

  set Orientation(value: unknown) {
    this.change({
      orientation: asOneOf(value, ['Portrait', 'Landscape']) === 'Portrait' ? 'portrait' : 'landscape',
    });
  }

  get Zoom(): unknown {
    return this.page.zoom;
  }

  set Zoom(value: unknown) {
    this.change({ zoom: asRecord(value) });
  }

  get HeadersFooters(): HeadersFootersObject {
    return new HeadersFootersObject(this.book, this.sheet);
  }

  get BlackAndWhite(): unknown {
    return this.read('BlackAndWhite');
  }

  set BlackAndWhite(value: unknown) {
    this.keep('BlackAndWhite', value);
  }

  get BottomMargin(): unknown {
    return this.read('BottomMargin');
  }

  set BottomMargin(value: unknown) {
    this.keep('BottomMargin', value);
  }

  get TopMargin(): unknown {
    return this.read('TopMargin');
  }

  set TopMargin(value: unknown) {
    this.keep('TopMargin', value);
  }

  get LeftMargin(): unknown {
    return this.read('LeftMargin');
  }

  set LeftMargin(value: unknown) {
    this.keep('LeftMargin', value);
  }

  get RightMargin(): unknown {
    return this.read('RightMargin');
  }

  set RightMargin(value: unknown) {
    this.keep('RightMargin', value);
  }

  get HeaderMargin(): unknown {
    return this.read('HeaderMargin');
  }

  set HeaderMargin(value: unknown) {
    this.keep('HeaderMargin', value);
  }

  get FooterMargin(): unknown {
    return this.read('FooterMargin');
  }

  set FooterMargin(value: unknown) {
    this.keep('FooterMargin', value);
  }

  get CenterHorizontally(): unknown {
    return this.read('CenterHorizontally');
  }

  set CenterHorizontally(value: unknown) {
    this.keep('CenterHorizontally', value);
  }

  get CenterVertically(): unknown {
    return this.read('CenterVertically');
  }

  set CenterVertically(value: unknown) {
    this.keep('CenterVertically', value);
  }

  get PrintGridlines(): unknown {
    return this.read('PrintGridlines');
  }

  set PrintGridlines(value: unknown) {
    this.keep('PrintGridlines', value);
  }

  get PrintHeadings(): unknown {
    return this.read('PrintHeadings');
  }

  set PrintHeadings(value: unknown) {
    this.keep('PrintHeadings', value);
  }

  get PaperSize(): unknown {
    return this.read('PaperSize');
  }

  set PaperSize(value: unknown) {
    this.keep('PaperSize', value);
  }

  get PrintOrder(): unknown {
    return this.read('PrintOrder');
  }

  set PrintOrder(value: unknown) {
    this.keep('PrintOrder', value);
  }

  private range(value: unknown): RangeObject {
    const range = value instanceof RangeObject ? value : this.book.parseRange(asText(value), this.sheet);
    return range.sheet === this.sheet ? range : badArgument();
  }

  SetPrintMargins(unit: unknown, margins: unknown): void {
    const points = { Points: 1, Inches: 72, Centimeters: 72 / 2.54 }[
      asOneOf(unit, ['Points', 'Inches', 'Centimeters'])
    ];
    const given = asRecord(margins);
    for (const side of ['Top', 'Bottom', 'Left', 'Right', 'Header', 'Footer'] as const) {
      const value = given[side.toLowerCase()];
      if (value !== undefined && value !== null) this.keep(`${side}Margin`, asNumber(value) * points);
    }
  }

  SetPrintArea(value: unknown): void {
    this.change({ printArea: [{ ...this.range(value).place() }] });
  }

  GetPrintAreaOrNullObject(): RangeAreasObject | null {
    const { printArea } = this.page;
    return printArea.length > 0 ? this.book.makers.rangeAreas(this.book, this.sheet, printArea) : null;
  }

  GetPrintArea(): RangeAreasObject {
    return this.GetPrintAreaOrNullObject() ?? fail('ItemNotFound');
  }

  SetPrintTitleRows(value: unknown): void {
    const { row, rows } = this.range(value).place();
    this.change({ titleRows: { start: row, count: rows } });
  }

  GetPrintTitleRowsOrNullObject(): RangeObject | null {
    const titles = this.page.titleRows;
    if (!titles) return null;
    return this.book.range(this.sheet, {
      row: titles.start,
      column: 0,
      rows: titles.count,
      columns: MAX_COLUMNS,
    });
  }

  GetPrintTitleRows(): RangeObject {
    return this.GetPrintTitleRowsOrNullObject() ?? fail('ItemNotFound');
  }

  SetPrintTitleColumns(value: unknown): void {
    const { column, columns } = this.range(value).place();
    this.change({ titleColumns: { start: column, count: columns } });
  }

  GetPrintTitleColumnsOrNullObject(): RangeObject | null {
    const titles = this.page.titleColumns;
    if (!titles) return null;
    return this.book.range(this.sheet, {
      row: 0,
      column: titles.start,
      rows: MAX_ROWS,
      columns: titles.count,
    });
  }

  GetPrintTitleColumns(): RangeObject {
    return this.GetPrintTitleColumnsOrNullObject() ?? fail('ItemNotFound');
  }
}
