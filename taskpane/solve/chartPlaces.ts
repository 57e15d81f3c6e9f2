/** From names in an answer back to the cells of the chart that it was solved from. */
import type { GridChart, Place } from '../../src/workbook/index.ts';
import type { Places } from './UnsolvedView.tsx';

const fold = (name: string): string => name.trim().toUpperCase();

/** The row of the one cell and the column of the other. @example crossCell('D4', 'B9') → 'D9' */
export const crossCell = (key: string, cylinder: string): string =>
  `${key.replace(/\d+$/, '')}${cylinder.replace(/^[A-Z]+/, '')}`;

export function chartPlaces({
  keys,
  cylinders,
  marks,
  layout,
}: Pick<GridChart, 'keys' | 'cylinders' | 'marks' | 'layout'>): Places {
  const columns = new Map(keys.map(({ symbol, at }) => [fold(symbol), at]));
  const rows = new Map(cylinders.map((cylinder) => [fold(cylinder.id), cylinder]));
  const marked = new Map(marks.map(({ key, cylinder, at }) => [`${fold(key)} ${fold(cylinder)}`, at]));
  return {
    keyAt: (symbol) => columns.get(fold(symbol)),
    cylinderAt: (id) => rows.get(fold(id))?.at,
    crossing(symbol, id): Place | undefined {
      const mark = marked.get(`${fold(symbol)} ${fold(id)}`);
      const key = columns.get(fold(symbol));
      const row = rows.get(fold(id))?.at;
      if (mark || !key || !row || layout.list !== undefined) return mark ?? row;
      return { sheet: row.sheet, address: crossCell(key.address, row.address) };
    },
    isMarked: (symbol, id) => marked.has(`${fold(symbol)} ${fold(id)}`),
    nameOf: (id) => rows.get(fold(id))?.door || id,
  };
}
