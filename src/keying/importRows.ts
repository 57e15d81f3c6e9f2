/** A list from elsewhere, row by row: cells → what is to be made. Every row of the list comes out, in its order. */
import { readCode, shownText, type CodeReading, type ImportCell, type ReadingOptions } from './importCode.ts';
import { joinCuts, type ColumnRole } from './importColumns.ts';
import type { Specification } from './specification.ts';
import type { Steps } from './system.ts';

export interface ImportRow {
  /** From 0 in the rows given, the header left out. */
  readonly index: number;
  readonly mark: string;
  readonly code: CodeReading;
  /** A blind code or order number, kept as it came. */
  readonly reference: string;
  readonly blank: string;
  /** Keys wanted; 1 where the list says nothing. Undefined where it says something that is no number of keys. */
  readonly quantity: number | undefined;
  readonly quantityText: string;
  readonly note: string;
}

export interface ImportInput {
  readonly spec: Specification;
  /** Without the header row. */
  readonly rows: readonly (readonly ImportCell[])[];
  readonly roles: readonly ColumnRole[];
  readonly options: ReadingOptions;
}

/** Rows read between two looks at the clock. */
const BATCH = 4_000;

/**
 * Reads every row. A row without any cell filled is left out, since it says nothing.
 * @example runToEnd(readImport({ spec, rows: [['AA1', '274153', 2]], roles: ['mark', 'code', 'quantity'], options: {} }))
 */
export function* readImport({ spec, rows, roles, options }: ImportInput): Steps<ImportRow[]> {
  const at = (role: ColumnRole): number[] => roles.flatMap((r, c) => (r === role ? [c] : []));
  const [codes, notes] = [at('code'), at('note')];
  const [mark, quantity, blank, reference] = [
    at('mark')[0],
    at('quantity')[0],
    at('blank')[0],
    at('reference')[0],
  ];
  const read: ImportRow[] = [];
  for (let index = 0; index < rows.length; index++) {
    if (index % BATCH === 0) yield { stage: 'Reading codes', done: index, total: rows.length };
    const cells = rows[index]!;
    if (cells.every(isEmpty)) continue;
    const code =
      codes.length > 1 ? joinCuts(codes.map((c) => cells[c] ?? '')) : (cells[codes[0] ?? -1] ?? '');
    const quantityText = textAt(cells, quantity);
    read.push({
      index,
      mark: textAt(cells, mark),
      code: readCode(spec, code, options),
      reference: textAt(cells, reference),
      blank: textAt(cells, blank),
      quantity: countOf(quantityText),
      quantityText,
      note: notes.length === 0 ? '' : notesIn(cells, notes),
    });
  }
  return read;
}

const isEmpty = (cell: ImportCell): boolean => typeof cell === 'string' && cell.trim() === '';

const textAt = (cells: readonly ImportCell[], column: number | undefined): string =>
  column === undefined ? '' : shownText(cells[column] ?? '').trim();

const notesIn = (cells: readonly ImportCell[], columns: readonly number[]): string =>
  columns
    .map((c) => textAt(cells, c))
    .filter(Boolean)
    .join('; ');

/** @example countOf('2 pcs') → 2; countOf('') → 1; countOf('some') → undefined */
function countOf(text: string): number | undefined {
  if (text === '' || text === '1') return 1;
  const match = /^(\d{1,5})(?:\.0+)?\s*(?:x|×|pcs?|pieces?|keys?)?\.?$/i.exec(text.normalize('NFKC'));
  return match ? Number(match[1]) : undefined;
}

/** What a row is called in a sentence about another one. @example nameOf(row) → 'AA1', or 'row 14' without a mark */
export const rowName = ({ mark, index }: Pick<ImportRow, 'mark' | 'index'>, firstRow = 1): string =>
  mark === '' ? `row ${firstRow + index}` : mark;
