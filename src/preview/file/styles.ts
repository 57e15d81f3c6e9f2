/**
 * The style table of a file: each format as the model's `CellStyle`, and new formats appended when the model asks
 * for one the file lacks. A new format starts from an old one and replaces only the groups that differ, so what the
 * model has no word for (rotation, indent, gradients, theme fonts) stays.
 */
import type { BorderEdge, CellStyle } from '../model/types.ts';
import { canonical } from './canonicalStyle.ts';
import { argb, readColor } from './colors.ts';
import { BUILT_IN_FORMATS, builtInNumber } from './numberFormats.ts';
import {
  attributeText,
  childOf,
  childrenOf,
  escapeXml,
  flag,
  parseXml,
  withAttribute,
  type XmlNode,
} from './xml.ts';

const EDGES: readonly BorderEdge[] = ['left', 'right', 'top', 'bottom'];
/** The edges in the order the schema wants them. */
const EDGE_ORDER = ['left', 'right', 'top', 'bottom', 'diagonal'];

type Border = NonNullable<CellStyle['borders']>;

function borderWeight(style: string): 'thin' | 'medium' | 'thick' {
  if (style === 'thick' || style === 'double') return 'thick';
  return style.startsWith('medium') || style === 'slantDashDot' ? 'medium' : 'thin';
}

const HORIZONTAL = ['general', 'left', 'center', 'right'] as const;

/** Reads and extends `xl/styles.xml`. */
export class StyleTable {
  private readonly root: XmlNode;
  private readonly fonts: XmlNode[];
  private readonly fills: XmlNode[];
  private readonly borders: XmlNode[];
  private readonly formats: XmlNode[];
  private readonly patterns = new Map<number, string>();
  private readonly read = new Map<number, CellStyle | undefined>();
  private readonly added: Record<'numFmts' | 'fonts' | 'fills' | 'borders' | 'cellXfs' | 'dxfs', string[]> = {
    numFmts: [],
    fonts: [],
    fills: [],
    borders: [],
    cellXfs: [],
    dxfs: [],
  };
  private readonly derived = new Map<string, number>();

  constructor(
    private readonly xml: string,
    private readonly theme: readonly string[],
  ) {
    this.root = parseXml(xml, 'xl/styles.xml');
    const list = (group: string, item: string): XmlNode[] => childrenOf(childOf(this.root, group), item);
    this.fonts = list('fonts', 'font');
    this.fills = list('fills', 'fill');
    this.borders = list('borders', 'border');
    this.formats = list('cellXfs', 'xf');
    for (const format of list('numFmts', 'numFmt'))
      this.patterns.set(Number(format.attributes['numFmtId']), format.attributes['formatCode'] ?? 'General');
  }

  /** What a conditional format's style (`dxfId`) changes. */
  differenceOf(index: number): CellStyle {
    const style: CellStyle = {};
    const node = childrenOf(childOf(this.root, 'dxfs'), 'dxf')[index];
    if (node === undefined) return style;
    this.readFont(style, childOf(node, 'font'));
    const fill = childOf(childOf(node, 'fill'), 'patternFill');
    const color = readColor(childOf(fill, 'bgColor') ?? childOf(fill, 'fgColor'), this.theme);
    if (color !== undefined) style.fill = color;
    const borders = this.readBorders(childOf(node, 'border'));
    if (Object.keys(borders).length > 0) style.borders = borders;
    return style;
  }

  /** Appends a conditional format's style and gives its number. */
  addDifference(style: CellStyle): number {
    const color = style.fontColor === undefined ? undefined : argb(style.fontColor);
    const font =
      (style.bold ? '<b/>' : '') +
      (style.italic ? '<i/>' : '') +
      (style.underline ? '<u/>' : '') +
      (color === undefined ? '' : `<color rgb="${color}"/>`);
    const fill = style.fill === undefined ? undefined : argb(style.fill);
    const xml =
      (font === '' ? '' : `<font>${font}</font>`) +
      (fill === undefined ? '' : `<fill><patternFill><bgColor rgb="${fill}"/></patternFill></fill>`) +
      (style.borders === undefined ? '' : this.borderXml(style.borders, {}, undefined));
    return this.add('dxfs', `<dxf>${xml}</dxf>`, childrenOf(childOf(this.root, 'dxfs'), 'dxf').length);
  }

  /** The style of format number `index`; undefined for the plain one. */
  styleOf(index: number): CellStyle | undefined {
    if (!this.read.has(index)) {
      const style = this.readStyle(index);
      this.read.set(index, Object.keys(style).length > 0 ? style : undefined);
    }
    const style = this.read.get(index);
    return style === undefined ? undefined : { ...style };
  }

  private readStyle(index: number): CellStyle {
    const xf = this.formats[index];
    if (xf === undefined) return {};
    const style: CellStyle = {};
    const pattern = this.patternOf(Number(xf.attributes['numFmtId'] ?? 0));
    if (pattern !== 'General') style.numberFormat = pattern;
    this.readFont(style, this.fonts[Number(xf.attributes['fontId'] ?? 0)]);
    const fill = childOf(this.fills[Number(xf.attributes['fillId'] ?? 0)], 'patternFill');
    const fillColor =
      fill?.attributes['patternType'] === 'solid'
        ? readColor(childOf(fill, 'fgColor'), this.theme)
        : undefined;
    if (fillColor !== undefined) style.fill = fillColor;
    const borders = this.readBorders(this.borders[Number(xf.attributes['borderId'] ?? 0)]);
    if (Object.keys(borders).length > 0) style.borders = borders;
    const alignment = childOf(xf, 'alignment')?.attributes ?? {};
    const horizontal = HORIZONTAL.find((name) => name === alignment['horizontal']);
    if (horizontal !== undefined && horizontal !== 'general') style.horizontal = horizontal;
    const vertical = alignment['vertical'];
    if (vertical === 'top' || vertical === 'center') style.vertical = vertical;
    if (flag(alignment['wrapText'])) style.wrap = true;
    if (!flag(childOf(xf, 'protection')?.attributes['locked'], true)) style.locked = false;
    return style;
  }

  private patternOf(number: number): string {
    return this.patterns.get(number) ?? BUILT_IN_FORMATS[number] ?? 'General';
  }

  private readFont(style: CellStyle, font: XmlNode | undefined): void {
    if (font === undefined) return;
    const on = (name: string): boolean => {
      const node = childOf(font, name);
      return node !== undefined && node.attributes['val'] !== 'none' && flag(node.attributes['val'], true);
    };
    if (on('b')) style.bold = true;
    if (on('i')) style.italic = true;
    const line = childOf(font, 'u');
    if (line !== undefined && line.attributes['val'] !== 'none') style.underline = true;
    const plain = this.fonts[0];
    const name = childOf(font, 'name')?.attributes['val'];
    if (name !== undefined && name !== childOf(plain, 'name')?.attributes['val']) style.fontName = name;
    const size = childOf(font, 'sz')?.attributes['val'];
    if (size !== undefined && size !== childOf(plain, 'sz')?.attributes['val']) style.fontSize = Number(size);
    const color = childOf(font, 'color');
    if (color !== undefined && color.attributes['theme'] !== '1') {
      const value = readColor(color, this.theme);
      if (value !== undefined) style.fontColor = value;
    }
  }

  private readBorders(node: XmlNode | undefined): Border {
    const borders: Border = {};
    for (const edge of EDGES) {
      // Right-to-left aware writers say start and end.
      const own =
        childOf(node, edge) ?? childOf(node, edge === 'left' ? 'start' : edge === 'right' ? 'end' : '');
      const style = own?.attributes['style'];
      if (style === undefined || style === 'none') continue;
      borders[edge] = {
        style: borderWeight(style),
        color: readColor(childOf(own, 'color'), this.theme) ?? '#000000',
      };
    }
    return borders;
  }

  /**
   * The number of a format that looks like `style`, appended where the table has none.
   *
   * @param base the format to start from (what the cell had in the file)
   */
  formatFor(style: CellStyle | undefined, base = 0): number {
    const wanted = style ?? {};
    const old = this.styleOf(base) ?? {};
    const key = `${String(base)} ${JSON.stringify(canonical(wanted))}`;
    const known = this.derived.get(key);
    if (known !== undefined) return known;
    const same = JSON.stringify(canonical(old)) === JSON.stringify(canonical(wanted));
    const number = same && this.formats[base] !== undefined ? base : this.append(wanted, old, base);
    this.derived.set(key, number);
    return number;
  }

  private append(wanted: CellStyle, old: CellStyle, base: number): number {
    const xf = this.formats[base];
    const attributes: Record<string, string> = {
      numFmtId: '0',
      fontId: '0',
      fillId: '0',
      borderId: '0',
      xfId: '0',
      ...xf?.attributes,
    };
    const differs = (...keys: (keyof CellStyle)[]): boolean =>
      keys.some(
        (key) =>
          JSON.stringify(canonical({ [key]: old[key] })) !==
          JSON.stringify(canonical({ [key]: wanted[key] })),
      );
    if (differs('numberFormat')) {
      attributes['numFmtId'] = String(this.formatNumber(wanted.numberFormat ?? 'General'));
      attributes['applyNumberFormat'] = '1';
    }
    if (differs('bold', 'italic', 'underline', 'fontName', 'fontSize', 'fontColor')) {
      const font = this.fontXml(wanted, this.fonts[Number(attributes['fontId'])] ?? this.fonts[0]);
      attributes['fontId'] = String(this.add('fonts', font, this.fonts.length));
      attributes['applyFont'] = '1';
    }
    if (differs('fill')) {
      const color = wanted.fill === undefined ? undefined : argb(wanted.fill);
      const fill = `<fill><patternFill patternType="solid"><fgColor rgb="${color ?? ''}"/><bgColor indexed="64"/></patternFill></fill>`;
      attributes['fillId'] = color === undefined ? '0' : String(this.add('fills', fill, this.fills.length));
      attributes['applyFill'] = '1';
    }
    if (differs('borders')) {
      const border = this.borderXml(
        wanted.borders ?? {},
        old.borders ?? {},
        this.borders[Number(attributes['borderId'])],
      );
      attributes['borderId'] = String(this.add('borders', border, this.borders.length));
      attributes['applyBorder'] = '1';
    }
    const alignment: Record<string, string> = { ...childOf(xf, 'alignment')?.attributes };
    if (differs('horizontal'))
      set(alignment, 'horizontal', wanted.horizontal === 'general' ? undefined : wanted.horizontal);
    if (differs('vertical'))
      set(alignment, 'vertical', wanted.vertical === 'bottom' ? undefined : wanted.vertical);
    if (differs('wrap')) set(alignment, 'wrapText', wanted.wrap ? '1' : undefined);
    const protection: Record<string, string> = { ...childOf(xf, 'protection')?.attributes };
    if (differs('locked')) set(protection, 'locked', wanted.locked === false ? '0' : undefined);
    if (Object.keys(alignment).length > 0) attributes['applyAlignment'] = '1';
    if (Object.keys(protection).length > 0) attributes['applyProtection'] = '1';
    const inner = element('alignment', alignment) + element('protection', protection);
    const head = `<xf${attributeText(attributes)}`;
    return this.add('cellXfs', inner === '' ? `${head}/>` : `${head}>${inner}</xf>`, this.formats.length);
  }

  private add(
    group: 'fonts' | 'fills' | 'borders' | 'cellXfs' | 'dxfs',
    xml: string,
    before: number,
  ): number {
    const list = this.added[group];
    const at = list.indexOf(xml);
    return before + (at >= 0 ? at : list.push(xml) - 1);
  }

  private formatNumber(pattern: string): number {
    const known = builtInNumber(pattern);
    if (known !== undefined && !this.patterns.has(known)) return known;
    for (const [number, own] of this.patterns) if (own === pattern) return number;
    const number = Math.max(163, ...this.patterns.keys()) + 1;
    this.patterns.set(number, pattern);
    this.added.numFmts.push(`<numFmt numFmtId="${String(number)}" formatCode="${escapeXml(pattern)}"/>`);
    return number;
  }

  private fontXml(style: CellStyle, from: XmlNode | undefined): string {
    const plain = this.fonts[0];
    const value = (node: XmlNode | undefined, name: string): string | undefined =>
      childOf(node, name)?.attributes['val'];
    const own: Record<string, string> = {
      b: style.bold ? '<b/>' : '',
      i: style.italic ? '<i/>' : '',
      u: style.underline ? '<u/>' : '',
      sz: `<sz val="${String(style.fontSize ?? value(plain, 'sz') ?? 11)}"/>`,
      color:
        style.fontColor === undefined
          ? '<color theme="1"/>'
          : `<color rgb="${argb(style.fontColor) ?? 'FF000000'}"/>`,
      name: `<name val="${escapeXml(style.fontName ?? value(plain, 'name') ?? 'Calibri')}"/>`,
    };
    const kept = (name: string): string => {
      const node = childOf(from, name);
      return node === undefined ? '' : this.xml.slice(node.start, node.end);
    };
    // A scheme ties the font to the theme and would override the name given.
    const scheme = style.fontName === undefined ? kept('scheme') : '';
    const order = [
      'b',
      'i',
      'strike',
      'outline',
      'shadow',
      'u',
      'vertAlign',
      'sz',
      'color',
      'name',
      'family',
      'charset',
    ];
    return `<font>${order.map((name) => own[name] ?? kept(name)).join('')}${scheme}</font>`;
  }

  private borderXml(wanted: Border, old: Border, from: XmlNode | undefined): string {
    const parts = EDGE_ORDER.map((edge) => {
      const next = wanted[edge as BorderEdge];
      const kept = childOf(from, edge);
      if (kept !== undefined && JSON.stringify(next) === JSON.stringify(old[edge as BorderEdge]))
        return this.xml.slice(kept.start, kept.end);
      if (next === undefined) return `<${edge}/>`;
      return `<${edge} style="${next.style}"><color rgb="${argb(next.color) ?? 'FF000000'}"/></${edge}>`;
    });
    return `<border${attributeText(from?.attributes ?? {})}>${parts.join('')}</border>`;
  }

  get changed(): boolean {
    return Object.values(this.added).some((list) => list.length > 0);
  }

  /** The part with everything appended. */
  toXml(): string {
    let xml = this.xml;
    const groups = ['dxfs', 'cellXfs', 'borders', 'fills', 'fonts', 'numFmts'] as const;
    // From the back, so that earlier offsets stay true.
    for (const name of groups) {
      const list = this.added[name];
      if (list.length === 0) continue;
      const node = childOf(this.root, name);
      if (node === undefined) {
        const at = name === 'numFmts' ? this.root.contentStart : this.root.contentEnd;
        xml = `${xml.slice(0, at)}<${name} count="${String(list.length)}">${list.join('')}</${name}>${xml.slice(at)}`;
        continue;
      }
      const body = xml.slice(node.contentStart, node.contentEnd) + list.join('');
      const open = withAttribute(
        xml.slice(node.start, node.contentStart),
        'count',
        String(node.children.length + list.length),
      );
      xml = `${xml.slice(0, node.start)}${open.replace(/\s*\/>$/, '>')}${body}</${name}>${xml.slice(node.end)}`;
    }
    return xml;
  }
}

function set(record: Record<string, string>, key: string, value: string | undefined): void {
  if (value === undefined) Reflect.deleteProperty(record, key);
  else record[key] = value;
}

function element(name: string, attributes: Readonly<Record<string, string>>): string {
  return Object.keys(attributes).length === 0 ? '' : `<${name}${attributeText(attributes)}/>`;
}
