/**
 * From checked rows to a cutting list: one line a bitting. Rows that ask for the same key on the same blank are cut
 * once: one original to code, the rest duplicated from it after it is proved. A row that can't be cut stays in the
 * list with the reason and without cuts; nothing is dropped.
 */
import { formatBitting, type Bitting } from './bitting.ts';
import type { BittingFinding } from './findings.ts';
import { sayReading } from './importWording.ts';
import type { ImportRow } from './importRows.ts';
import { sayAll } from './sayAll.ts';
import { foldName } from './specTable.ts';
import { findingIn } from './shownIn.ts';
import type { Specification } from './specification.ts';

export interface CuttingLine {
  /** Marks of all rows that ask for this key, each once. */
  readonly marks: readonly string[];
  /** The codes as they came, each way of writing once. */
  readonly originals: readonly string[];
  /** Missing where the line can't be cut. */
  readonly bitting?: Bitting;
  readonly blank: string;
  /** Keys in all; undefined where a row's quantity is no number. */
  readonly keys: number | undefined;
  readonly remarks: readonly string[];
  /** Rows of the list (index in the rows given). */
  readonly rows: readonly number[];
}

/** Findings that metal can't get round: such a code is not cut. All others are for the person to weigh. */
const BARRING: ReadonlySet<BittingFinding['code']> = new Set<BittingFinding['code']>([
  'length',
  'unknown-depth',
  'lost-zero',
  'not-a-code',
  'macs',
]);

/** Whether a code with these findings is left uncut. */
export const barsCutting = (findings: readonly BittingFinding[]): boolean =>
  findings.some((finding) => BARRING.has(finding.code));

/** Blanks as they hang on the board: B2 before B10. */
const byName = new Intl.Collator('en', { numeric: true, sensitivity: 'accent' }).compare;

/**
 * Lines by blank, so that whoever cuts takes each from the board once, and of a blank in the order of their first row;
 * what isn't cut comes last. `findings[i]` belongs to `rows[i]`. Remarks say lengths in the spec's unit.
 * @example cuttingLines(spec, rows, findings)[0] → { marks: ['AA1', 'AA2'], keys: 5, … }
 */
export function cuttingLines(
  spec: Specification,
  rows: readonly ImportRow[],
  findings: readonly (readonly BittingFinding[] | undefined)[],
): CuttingLine[] {
  const lines = new Map<string, ImportRow[]>();
  const remarks = new Map<number, string[]>();
  rows.forEach((row, i) => {
    const found = findings[i] ?? [];
    const cut = row.code.bitting && !barsCutting(found);
    const key = cut ? `${formatBitting(spec, row.code.bitting!)} ${foldName(row.blank)}` : `row ${i}`;
    remarks.set(row.index, remarksOf(spec, row, found, cut === true));
    const there = lines.get(key);
    if (there) there.push(row);
    else lines.set(key, [row]);
  });
  return [...lines]
    .map(([key, asked]) => lineOf(asked, remarks, !key.startsWith('row ')))
    .sort((a, b) => uncut(a) - uncut(b) || (a.bitting ? byName(a.blank, b.blank) : 0));
}

const uncut = ({ bitting }: CuttingLine): number => (bitting ? 0 : 1);

function lineOf(
  asked: readonly ImportRow[],
  remarks: ReadonlyMap<number, readonly string[]>,
  cut: boolean,
): CuttingLine {
  const [first] = asked;
  const each = (text: (row: ImportRow) => string): string[] => [
    ...new Set(asked.map(text).filter((t) => t !== '')),
  ];
  const keys = asked.map((row) => row.quantity);
  return {
    marks: each((row) => row.mark),
    originals: each((row) => row.code.original),
    ...(cut && { bitting: first!.code.bitting! }),
    blank: first!.blank,
    keys: keys.every((n) => n !== undefined) ? keys.reduce((sum, n) => sum + n, 0) : undefined,
    remarks: [...new Set(asked.flatMap((row) => remarks.get(row.index) ?? []))],
    rows: asked.map((row) => row.index),
  };
}

function remarksOf(
  { unit }: Specification,
  row: ImportRow,
  findings: readonly BittingFinding[],
  cut: boolean,
): string[] {
  const { code, reference, quantity, quantityText, note } = row;
  const read = sayReading(code);
  // several rows for the same key are what this list is made of
  const told = findings.filter((f) => f.code !== 'duplicate');
  return [
    ...(cut ? [] : ['NOT CUT.']),
    ...(code.kind === 'empty'
      ? [reference === '' ? 'There is no code here.' : 'Only a reference: look its bitting up.']
      : []),
    ...(read === '' ? [] : [read]),
    ...sayAll(told.map((finding) => findingIn(finding, unit))),
    ...(quantity === undefined ? [`“${quantityText}” is no number of keys: fill in how many.`] : []),
    ...(reference === '' ? [] : [`Reference ${reference}.`]),
    ...(note === '' ? [] : [note]),
  ];
}
