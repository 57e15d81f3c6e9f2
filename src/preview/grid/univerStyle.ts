/** The model's styles ↔ the grid component's. */
import type { IBorderData, IStyleData, Nullable } from '@univerjs/core';
import type { BorderEdge, CellStyle } from '../model/types.ts';

/** The component's numbers for alignment, wrapping and border weights. */
const HORIZONTAL = { left: 1, center: 2, right: 3 } as const;
const VERTICAL = { top: 1, center: 2, bottom: 3 } as const;
const WRAP = 3;
const BORDERS = { thin: 1, medium: 8, thick: 13 } as const;
const EDGES: Record<BorderEdge, 't' | 'b' | 'l' | 'r'> = { top: 't', bottom: 'b', left: 'l', right: 'r' };

type StyleUpdate = { [key in keyof IStyleData]: IStyleData[key] | null };

/** A style for the component. Every property is named, since it merges: what is missing would stay. */
export function toUniverStyle(style: CellStyle | undefined): IStyleData {
  const own = style ?? {};
  const borders = own.borders ?? {};
  const bd: Record<string, unknown> = {};
  for (const [edge, key] of Object.entries(EDGES)) {
    const line = borders[edge as BorderEdge];
    bd[key] = line === undefined ? null : { s: BORDERS[line.style], cl: { rgb: line.color } };
  }
  const update: StyleUpdate = {
    n:
      own.numberFormat === undefined || own.numberFormat === 'General' ? null : { pattern: own.numberFormat },
    bl: own.bold ? 1 : null,
    it: own.italic ? 1 : null,
    ul: own.underline ? { s: 1 } : null,
    ff: own.fontName ?? null,
    fs: own.fontSize ?? null,
    cl: own.fontColor === undefined ? null : { rgb: own.fontColor },
    bg: own.fill === undefined ? null : { rgb: own.fill },
    ht: own.horizontal === undefined || own.horizontal === 'general' ? null : HORIZONTAL[own.horizontal],
    vt: own.vertical === undefined ? null : VERTICAL[own.vertical],
    tb: own.wrap ? WRAP : null,
    bd: own.borders === undefined ? null : (bd as unknown as IBorderData),
  };
  return update as unknown as IStyleData;
}

/** As {@link toUniverStyle} for a cell that has no style yet: only what is set. */
export function newUniverStyle(style: CellStyle | undefined): IStyleData | undefined {
  if (style === undefined) return undefined;
  const set = Object.entries(toUniverStyle(style)).filter(([, value]) => value !== null);
  return set.length === 0 ? undefined : (Object.fromEntries(set) as IStyleData);
}

const nameOf = <T extends string>(numbers: Readonly<Record<T, number>>, number: unknown): T | undefined =>
  (Object.keys(numbers) as T[]).find((name) => numbers[name] === number);

/** `#RRGGBB` out of the spellings the component uses. */
function hex(color: Nullable<string>): string | undefined {
  if (!color) return undefined;
  const plain = /^#([0-9a-f]{6})$/i.exec(color)?.[1];
  if (plain !== undefined) return `#${plain.toUpperCase()}`;
  const rgb = /^rgba?\(\s*(\d+)\s*,\s*(\d+)\s*,\s*(\d+)/.exec(color);
  if (rgb === null) return undefined;
  return `#${rgb
    .slice(1, 4)
    .map((part) => Number(part).toString(16).padStart(2, '0'))
    .join('')
    .toUpperCase()}`;
}

/** The component's style as the model's; what the model has no word for is left out. */
export function fromUniverStyle(style: Nullable<IStyleData>): CellStyle {
  if (!style) return {};
  const out: CellStyle = {};
  const pattern = style.n?.pattern;
  if (pattern !== undefined && pattern !== 'General' && pattern !== '') out.numberFormat = pattern;
  if (style.bl === 1) out.bold = true;
  if (style.it === 1) out.italic = true;
  if (style.ul?.s === 1) out.underline = true;
  if (typeof style.ff === 'string') out.fontName = style.ff;
  if (typeof style.fs === 'number') out.fontSize = style.fs;
  const [color, fill] = [hex(style.cl?.rgb), hex(style.bg?.rgb)];
  if (color !== undefined) out.fontColor = color;
  if (fill !== undefined) out.fill = fill;
  const horizontal = nameOf(HORIZONTAL, style.ht);
  if (horizontal !== undefined) out.horizontal = horizontal;
  const vertical = nameOf(VERTICAL, style.vt);
  if (vertical !== undefined) out.vertical = vertical;
  if (style.tb === WRAP) out.wrap = true;
  const borders: NonNullable<CellStyle['borders']> = {};
  for (const [edge, key] of Object.entries(EDGES)) {
    const line = style.bd?.[key];
    if (line === null || line === undefined || line.s === 0) continue;
    const weight = line.s >= 12 ? 'thick' : line.s >= 8 ? 'medium' : 'thin';
    borders[edge as BorderEdge] = { style: weight, color: hex(line.cl?.rgb) ?? '#000000' };
  }
  if (Object.keys(borders).length > 0) out.borders = borders;
  return out;
}

const keys = new WeakMap<CellStyle, string>();
const shownKeys = new WeakMap<IStyleData, string>();

/** What both sides can say of a style, as text to compare. Locking is the model's alone. */
export function styleKey(style: CellStyle | undefined): string {
  if (style === undefined) return '{}';
  let key = keys.get(style);
  if (key === undefined) keys.set(style, (key = JSON.stringify(fromUniverStyle(toUniverStyle(style)))));
  return key;
}

/** As {@link styleKey} for a style on show. Both sides replace styles and never change them in place. */
export function shownKey(style: Nullable<IStyleData>): string {
  if (!style) return '{}';
  let key = shownKeys.get(style);
  if (key === undefined) shownKeys.set(style, (key = JSON.stringify(fromUniverStyle(style))));
  return key;
}
