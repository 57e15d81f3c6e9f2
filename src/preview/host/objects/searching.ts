/** Finding cells by text, and the special cells of a range. */
import { bounding, intersect, type Area, type Cell, type SheetModel } from '../../model/index.ts';
import type { Book } from '../book.ts';
import { apiNotFound } from '../error.ts';
import { valueType, wireText } from '../values.ts';

/** Cells whose shown text holds the words, row by row. */
export function findIn(
  sheet: SheetModel,
  area: Area,
  text: string,
  criteria: Readonly<Record<string, unknown>>,
): Area[] {
  const fold = (words: string): string => (criteria['matchCase'] === true ? words : words.toLowerCase());
  const wanted = fold(text);
  const found = sheet.cells
    .in(area)
    .filter(({ cell }) => {
      const shown = fold(wireText(cell));
      return criteria['completeMatch'] === true ? shown === wanted : wanted !== '' && shown.includes(wanted);
    })
    .sort((a, b) => a.row - b.row || a.column - b.column)
    .map(({ row, column }) => ({ row, column, rows: 1, columns: 1 }));
  return criteria['searchDirection'] === 'Backwards' ? found.reverse() : found;
}

const TYPE_NAMES: Readonly<Record<string, readonly string[]>> = {
  All: ['Double', 'String', 'Boolean', 'Error'],
  Errors: ['Error'],
  ErrorsLogical: ['Error', 'Boolean'],
  ErrorsNumbers: ['Error', 'Double'],
  ErrorsText: ['Error', 'String'],
  ErrorsLogicalNumber: ['Error', 'Boolean', 'Double'],
  ErrorsLogicalText: ['Error', 'Boolean', 'String'],
  ErrorsNumberText: ['Error', 'Double', 'String'],
  Logical: ['Boolean'],
  LogicalNumbers: ['Boolean', 'Double'],
  LogicalText: ['Boolean', 'String'],
  LogicalNumbersText: ['Boolean', 'Double', 'String'],
  Numbers: ['Double'],
  NumbersText: ['Double', 'String'],
  Text: ['String'],
};

/** The areas `getSpecialCells` gives, within the used range or that of the rules, joined along rows and then down. */
export function specialAreas(
  book: Book,
  sheet: SheetModel,
  area: Area,
  type: string,
  valueTypes: string,
): Area[] {
  const ruled = sheet.layout.validations.flatMap(({ areas }) => areas);
  const used = book.model.usedArea(sheet);
  const scope =
    type === 'DataValidations'
      ? ruled.length > 0 && intersect(area, ruled.reduce(bounding))
      : type === 'Visible'
        ? used
          ? intersect(area, bounding(used, area))
          : area
        : used && intersect(area, used);
  if (!scope) return [];
  const wanted = TYPE_NAMES[valueTypes] ?? [];
  const ofType = (cell: Cell): boolean => wanted.includes(valueType(cell.value));
  const tests: Readonly<Record<string, (cell: Cell | undefined, row: number, column: number) => boolean>> = {
    Blanks: (cell) => cell === undefined || (cell.value === null && cell.formula === undefined),
    Constants: (cell) =>
      cell !== undefined &&
      cell.value !== null &&
      cell.formula === undefined &&
      !cell.spilledFrom &&
      ofType(cell),
    Formulas: (cell) => cell?.formula !== undefined && (valueTypes === 'All' || ofType(cell)),
    DataValidations: (_, row, column) =>
      ruled.some((own) => intersect(own, { row, column, rows: 1, columns: 1 })),
    Visible: (_, row, column) => !sheet.isRowHidden(row) && !sheet.layout.hiddenColumns.has(column),
  };
  const test = tests[type] ?? apiNotFound(`Range.getSpecialCells(${type})`);
  const areas: Area[] = [];
  let open: Area[] = [];
  for (let row = scope.row; row < scope.row + scope.rows; row++) {
    const runs: Area[] = [];
    for (let column = scope.column; column < scope.column + scope.columns; column++) {
      if (!test(sheet.cells.get(row, column), row, column)) continue;
      const last = runs.at(-1);
      if (last && last.column + last.columns === column) last.columns++;
      else runs.push({ row, column, rows: 1, columns: 1 });
    }
    open = runs.map((run) => {
      const above = open.find(
        (old) => old.row + old.rows === row && old.column === run.column && old.columns === run.columns,
      );
      if (above) {
        above.rows++;
        return above;
      }
      areas.push(run);
      return run;
    });
  }
  return areas;
}
