/** Which cells on show differ from the model, and what to set so that they don't. */
import type { ICellData, Nullable, Styles, Worksheet } from '@univerjs/core';
import { MAX_COLUMNS } from '../model/address.ts';
import type { SheetModel } from '../model/sheet.ts';
import type { Area, CellStyle } from '../model/types.ts';
import type { Matrix } from './results.ts';
import { NUMBER, TEXT } from './snapshot.ts';
import { newUniverStyle, shownKey, styleKey, toUniverStyle } from './univerStyle.ts';

/** Areas up to this size are gone through cell by cell; larger ones by what is stored. */
const SMALL = 4096;

export interface CellUpdate {
  /** Cells whose content changes, with their formats; undefined where there is none. */
  readonly content: Matrix<ICellData> | undefined;
  /** Cells of which the format alone changes. */
  readonly formats: Matrix<ICellData> | undefined;
}

/** The update for an area. `contentOf` gives a cell as it should be on show. */
export function cellDifferences(
  sheet: SheetModel,
  shown: Worksheet,
  styles: Styles,
  area: Area | 'all',
  contentOf: (row: number, column: number) => ICellData,
): CellUpdate {
  let content: Matrix<ICellData> | undefined;
  let formats: Matrix<ICellData> | undefined;
  for (const [row, column] of placesIn(sheet, shown, area)) {
    const data = shown.getCellMatrix().getValue(row, column);
    const update = difference(sheet.cells.get(row, column)?.style, data, contentOf(row, column), styles);
    if (update === undefined) continue;
    const into = 'v' in update ? (content ??= {}) : (formats ??= {});
    (into[row] ??= {})[column] = update;
  }
  return { content, formats };
}

/** The places that hold something in the model or on show. */
function* placesIn(sheet: SheetModel, shown: Worksheet, area: Area | 'all'): Generator<[number, number]> {
  const {
    row: top,
    column: left,
    rows,
    columns,
  } = area === 'all' ? { row: 0, column: 0, rows: Infinity, columns: Infinity } : area;
  if (rows * columns <= SMALL) {
    for (let row = top; row < top + rows; row++)
      for (let column = left; column < left + columns; column++) yield [row, column];
    return;
  }
  const within = (row: number, column: number): boolean =>
    row >= top && column >= left && row < top + rows && column < left + columns;
  const seen = new Set<number>();
  for (const { row, column } of sheet.cells.all()) {
    if (!within(row, column)) continue;
    seen.add(row * MAX_COLUMNS + column);
    yield [row, column];
  }
  const rest: [number, number][] = [];
  shown.getCellMatrix().forValue((row, column) => {
    if (within(row, column) && !seen.has(row * MAX_COLUMNS + column)) rest.push([row, column]);
  });
  yield* rest;
}

function difference(
  style: CellStyle | undefined,
  shown: Nullable<ICellData>,
  wanted: ICellData,
  styles: Styles,
): ICellData | undefined {
  const update: ICellData = {};
  const sameFormula = (shown?.f ?? undefined) === (wanted.f ?? undefined);
  // A formula's result is the engine's own business, and so is a cell it spills into.
  const sameValue = (wanted.f !== undefined && sameFormula) || isSameValue(shown, wanted);
  if (!sameFormula || !sameValue || shown?.p || (wanted.f === undefined && shown?.si))
    Object.assign(update, {
      v: wanted.v ?? null,
      t: wanted.t ?? null,
      f: wanted.f ?? null,
      si: null,
      p: null,
    });
  const own = shown?.s === undefined || shown.s === null ? undefined : styles.getStyleByCell(shown);
  if (styleKey(style) !== shownKey(own))
    update.s = own ? toUniverStyle(style) : (newUniverStyle(style) ?? null);
  return Object.keys(update).length === 0 ? undefined : update;
}

function isSameValue(shown: Nullable<ICellData>, wanted: ICellData): boolean {
  const [a, b] = [shown?.v ?? null, wanted.v ?? null];
  if (a === null || b === null || a === '') return (a === '' ? null : a) === b;
  return a === b && (shown?.t ?? (typeof a === 'number' ? NUMBER : TEXT)) === wanted.t;
}
