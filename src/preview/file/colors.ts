/**
 * A file's colours (theme with tint, palette index, or plain) as `#RRGGBB`.
 * Source: ECMA-376 part 1, 18.3.1.15 (tint) and 18.8.27 (the default palette).
 */
import { childOf, parseXml, type XmlNode } from './xml.ts';

const PALETTE =
  `000000 FFFFFF FF0000 00FF00 0000FF FFFF00 FF00FF 00FFFF 000000 FFFFFF FF0000 00FF00 0000FF FFFF00 FF00FF 00FFFF
800000 008000 000080 808000 800080 008080 C0C0C0 808080 9999FF 993366 FFFFCC CCFFFF 660066 FF8080 0066CC CCCCFF
000080 FF00FF FFFF00 00FFFF 800080 800000 008080 0000FF 00CCFF CCFFFF CCFFCC FFFF99 99CCFF FF99CC CC99FF FFCC99
3366FF 33CCCC 99CC00 FFCC00 FF9900 FF6600 666699 969696 003366 339966 003300 333300 993300 993366 333399 333333`.split(
    /\s+/,
  );

const DEFAULT_THEME =
  'FFFFFF 000000 EEECE1 1F497D 4F81BD C0504D 9BBB59 8064A2 4BACC6 F79646 0000FF 800080'.split(' ');
/** Files count light before dark; the theme part lists dark before light. */
const THEME_ORDER = 'lt1 dk1 lt2 dk2 accent1 accent2 accent3 accent4 accent5 accent6 hlink folHlink'.split(
  ' ',
);

/** The twelve theme colours in the order cells refer to them. */
export function readTheme(xml: string | undefined, part: string): string[] {
  if (xml === undefined) return DEFAULT_THEME;
  const scheme = childOf(childOf(parseXml(xml, part), 'themeElements'), 'clrScheme');
  return THEME_ORDER.map((name, i) => {
    const color = childOf(scheme, name)?.children[0];
    const value = color?.attributes['lastClr'] ?? color?.attributes['val'];
    return value !== undefined && /^[0-9A-Fa-f]{6}$/.test(value) ? value : (DEFAULT_THEME[i] ?? '000000');
  });
}

/** Lightens (`tint` > 0) or darkens by moving the luminance, hue and saturation kept. */
export function applyTint(hex: string, tint: number): string {
  if (tint === 0) return hex;
  const [r, g, b] = [0, 2, 4].map((i) => parseInt(hex.slice(i, i + 2), 16) / 255) as [number, number, number];
  const max = Math.max(r, g, b);
  const min = Math.min(r, g, b);
  const spread = max - min;
  const light = (max + min) / 2;
  const saturation = spread === 0 ? 0 : spread / (1 - Math.abs(2 * light - 1));
  const sector =
    spread === 0
      ? 0
      : max === r
        ? ((((g - b) / spread) % 6) + 6) % 6
        : max === g
          ? (b - r) / spread + 2
          : (r - g) / spread + 4;
  const moved = tint < 0 ? light * (1 + tint) : light * (1 - tint) + tint;
  const chroma = (1 - Math.abs(2 * moved - 1)) * saturation;
  const x = chroma * (1 - Math.abs((sector % 2) - 1));
  const low = moved - chroma / 2;
  const table = [
    [chroma, x, 0],
    [x, chroma, 0],
    [0, chroma, x],
    [0, x, chroma],
    [x, 0, chroma],
    [chroma, 0, x],
  ];
  return (table[Math.floor(sector) % 6] ?? [0, 0, 0])
    .map((part) =>
      Math.round((part + low) * 255)
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')
    .toUpperCase();
}

/** A `<color>`, `<fgColor>` … element as `#RRGGBB`; undefined where it says "automatic" or nothing. */
export function readColor(node: XmlNode | undefined, theme: readonly string[]): string | undefined {
  if (node === undefined) return undefined;
  const { rgb, theme: index, indexed, tint } = node.attributes;
  const base =
    rgb !== undefined
      ? rgb.slice(-6)
      : index !== undefined
        ? theme[Number(index)]
        : PALETTE[Number(indexed ?? -1)];
  if (base === undefined || !/^[0-9A-Fa-f]{6}$/.test(base)) return undefined;
  return `#${applyTint(base, Number(tint ?? 0)).toUpperCase()}`;
}

/** `#RRGGBB` as the file's `FFRRGGBB`; undefined for anything else. */
export function argb(color: string): string | undefined {
  const hex = /^#?([0-9A-Fa-f]{6})$/.exec(color)?.[1];
  return hex === undefined ? undefined : `FF${hex.toUpperCase()}`;
}
