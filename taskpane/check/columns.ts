/** Where the codes of a target stand: names of its columns for a choice, and the place of each row's code. */
import { boxAddress, cellAddress, type Place, type TargetReading } from '../../src/workbook/index.ts';
import type { CodeCell } from './checkRows.ts';

/** Sheet row of the first value: below the header, where the block has one. */
const firstRow = ({ box, values }: TargetReading): number => box.row + box.rows - values.length;

/** @example codePlace(target, 2, 0) → { sheet: 'Doors', address: 'C5' } */
export const codePlace = (target: TargetReading, column: number, index: number): Place => ({
  sheet: target.box.sheet,
  address: cellAddress(firstRow(target) + index, target.box.column + column),
});

/** The heading of a column, else its letter. */
export function columnName(target: TargetReading, column: number): string {
  const header = target.headers[column]?.trim();
  return header || `Column ${cellAddress(0, target.box.column + column).replace(/\d+$/, '')}`;
}

export const targetName = ({ box, table }: TargetReading): string =>
  table ? `table ${table}` : `${box.sheet}!${boxAddress(box)}`;

/** The cells of a column, named by their row in the sheet. */
export function codeCells(target: TargetReading, column: number): CodeCell[] {
  const first = firstRow(target);
  return target.values.map((row, i) => ({ name: `row ${first + i + 1}`, value: row[column] ?? '' }));
}
