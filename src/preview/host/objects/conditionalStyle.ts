/** The look a conditional format gives its cells. */
import { type CellStyle } from '../../model/index.ts';
import { asColour, asFlag, asOneOf, asText } from '../args.ts';
import { apiNotFound } from '../error.ts';
import { HostCollection, HostObject } from '../object.ts';
import { SIDES, type Side } from './borders.ts';

import type { ConditionalFormatObject } from './conditionalFormats.ts';

export class ConditionalStyleObject extends HostObject {
  override readonly scalars = ['numberFormat'];

  constructor(private readonly format: ConditionalFormatObject) {
    super();
  }

  get NumberFormat(): string | null {
    return this.format.model.style.numberFormat ?? null;
  }

  set NumberFormat(value: unknown) {
    patch(this.format, { numberFormat: asText(value) });
  }

  get Fill(): ConditionalFillObject {
    return new ConditionalFillObject(this.format);
  }

  get Font(): ConditionalFontObject {
    return new ConditionalFontObject(this.format);
  }

  get Borders(): ConditionalBordersObject {
    return new ConditionalBordersObject(this.format);
  }
}

function patch(format: ConditionalFormatObject, style: CellStyle): void {
  format.change({ style: { ...format.model.style, ...style } });
}

class ConditionalFillObject extends HostObject {
  override readonly scalars = ['color'];

  constructor(private readonly format: ConditionalFormatObject) {
    super();
  }

  get Color(): string | null {
    return this.format.model.style.fill ?? null;
  }

  set Color(value: unknown) {
    patch(this.format, { fill: asColour(value) });
  }

  Clear(): void {
    const style = { ...this.format.model.style };
    delete style.fill;
    this.format.change({ style });
  }
}

class ConditionalFontObject extends HostObject {
  override readonly scalars = ['bold', 'color', 'italic', 'strikethrough', 'underline'];

  constructor(private readonly format: ConditionalFormatObject) {
    super();
  }

  get Color(): string | null {
    return this.format.model.style.fontColor ?? null;
  }

  set Color(value: unknown) {
    patch(this.format, { fontColor: asColour(value) });
  }

  get Bold(): boolean | null {
    return this.format.model.style.bold ?? null;
  }

  set Bold(value: unknown) {
    patch(this.format, { bold: asFlag(value) });
  }

  get Italic(): boolean | null {
    return this.format.model.style.italic ?? null;
  }

  set Italic(value: unknown) {
    patch(this.format, { italic: asFlag(value) });
  }

  get Strikethrough(): boolean | null {
    return this.format.model.style.strikethrough ?? null;
  }

  set Strikethrough(value: unknown) {
    patch(this.format, { strikethrough: asFlag(value) });
  }

  get Underline(): string | null {
    const { underline } = this.format.model.style;
    return underline === undefined ? null : underline ? 'Single' : 'None';
  }

  set Underline(value: unknown) {
    patch(this.format, { underline: asOneOf(value, ['None', 'Single', 'Double']) !== 'None' });
  }
}

const EDGES = { EdgeTop: 'top', EdgeBottom: 'bottom', EdgeLeft: 'left', EdgeRight: 'right' } as const;

class ConditionalBordersObject extends HostCollection<ConditionalBorderObject> {
  constructor(private readonly format: ConditionalFormatObject) {
    super();
  }

  override items(): ConditionalBorderObject[] {
    return SIDES.slice(0, 4).map((side) => new ConditionalBorderObject(this.format, side));
  }

  override find(key: unknown): ConditionalBorderObject {
    return new ConditionalBorderObject(this.format, asOneOf(key, SIDES));
  }

  get Top(): ConditionalBorderObject {
    return this.find('EdgeTop');
  }

  get Bottom(): ConditionalBorderObject {
    return this.find('EdgeBottom');
  }

  get Left(): ConditionalBorderObject {
    return this.find('EdgeLeft');
  }

  get Right(): ConditionalBorderObject {
    return this.find('EdgeRight');
  }
}

class ConditionalBorderObject extends HostObject {
  override readonly scalars = ['color', 'sideIndex', 'style'];
  private readonly edge: 'top' | 'bottom' | 'left' | 'right';

  constructor(
    private readonly format: ConditionalFormatObject,
    private readonly side: Side,
  ) {
    super();
    this.edge = side in EDGES ? EDGES[side as keyof typeof EDGES] : apiNotFound(`Conditional border ${side}`);
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

  get Style(): string {
    return this.format.model.style.borders?.[this.edge] ? 'Continuous' : 'None';
  }

  set Style(value: unknown) {
    const borders = { ...this.format.model.style.borders };
    if (asText(value) === 'None') Reflect.deleteProperty(borders, this.edge);
    else borders[this.edge] = { style: 'thin', color: borders[this.edge]?.color ?? '#000000' };
    patch(this.format, { borders });
  }

  get Color(): string {
    return this.format.model.style.borders?.[this.edge]?.color ?? '#000000';
  }

  set Color(value: unknown) {
    const { borders } = this.format.model.style;
    patch(this.format, {
      borders: { ...borders, [this.edge]: { style: 'thin' as const, color: asColour(value) } },
    });
  }
}
