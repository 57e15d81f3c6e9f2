/** From names in an answer back to the cells of the chart that it was solved from. */
import type { GridChart, Place } from '../../src/workbook/index.ts';
import type { Places } from './UnsolvedView.tsx';
import { foldSymbol } from '../../src/keying/system.ts';

/** The row of the one cell and the column of the other. @example crossCell('D4', 'B9') → 'D9' */
export const crossCell = (key: string, cylinder: string): string =>
  `${key.replace(/\d+$/, '')}${cylinder.replace(/^[A-Z]+/, '')}`;

export function chartPlaces({
  keys,
  cylinders,
  marks,
  layout,
}: Pick<GridChart, 'keys' | 'cylinders' | 'marks' | 'layout'>): Places {
  const columns = new Map(keys.map(({ symbol, at }) => [foldSymbol(symbol), at]));
  const rows = new Map(cylinders.map((cylinder) => [foldSymbol(cylinder.id), cylinder]));
  const marked = new Map(
    marks.map(({ key, cylinder, at }) => [`${foldSymbol(key)} ${foldSymbol(cylinder)}`, at]),
  );
  return {
    keyAt: (symbol) => columns.get(foldSymbol(symbol)),
    cylinderAt: (id) => rows.get(foldSymbol(id))?.at,
    crossing(symbol, id): Place | undefined {
      const mark = marked.get(`${foldSymbol(symbol)} ${foldSymbol(id)}`);
      const key = columns.get(foldSymbol(symbol));
      const row = rows.get(foldSymbol(id))?.at;
      if (mark || !key || !row || layout.list !== undefined) return mark ?? row;
      return { sheet: row.sheet, address: crossCell(key.address, row.address) };
    },
    isMarked: (symbol, id) => marked.has(`${foldSymbol(symbol)} ${foldSymbol(id)}`),
    nameOf: (id) => rows.get(foldSymbol(id))?.door || id,
  };
}
