/** Styles compared by what they mean, not by how they are spelt. */
import type { CellStyle } from '../model/types.ts';

/** The same style in one spelling: defaults left out, keys in order. */
export function canonical(style: CellStyle): object {
  const out: Record<string, unknown> = {};
  for (const key of Object.keys(style).sort() as (keyof CellStyle)[]) {
    const value = style[key];
    if (value === undefined || value === false ? key !== 'locked' || value === undefined : false) continue;
    if (key === 'locked' && value === true) continue;
    if (key === 'numberFormat' && value === 'General') continue;
    if (key === 'horizontal' && value === 'general') continue;
    if (key === 'vertical' && value === 'bottom') continue;
    if (key === 'borders') {
      const edges = Object.entries(style.borders ?? {}).sort(([a], [b]) => a.localeCompare(b));
      if (edges.length > 0)
        out[key] = edges.map(([edge, line]) => [edge, line.style, line.color.toUpperCase()]);
      continue;
    }
    out[key] = key === 'fill' || key === 'fontColor' ? String(value).toUpperCase() : value;
  }
  return out;
}
