/** The words of the codes screen: reasons with their counts, guesses with how sure they are, sentences of a row. */
import type { BittingFinding } from '../../src/keying/findings.ts';
import type { ColumnRole } from '../../src/keying/importColumns.ts';
import { shownText, type ImportCell } from '../../src/keying/importCode.ts';
import type { OrderGuess, SpecGuess, Sureness } from '../../src/keying/importSpec.ts';
import { sayReading } from '../../src/keying/importWording.ts';
import type { ImportRow } from '../../src/keying/importRows.ts';
import { sayAll } from '../../src/keying/sayAll.ts';
import { findingIn } from '../../src/keying/shownIn.ts';
import type { Unit } from '../../src/keying/units.ts';
import { reasonLine } from '../check/reasons.ts';
import { counted, grouped } from '../pictures/numbers.ts';
import type { CodesReport, Reason } from './codesJob.ts';

const READ: Partial<Record<Reason, readonly [one: string, many: string]>> = {
  'blind-code': ['is a blind code or reference', 'are blind codes or references'],
  'was-date': ['is a date that may have been a code', 'are dates that may have been codes'],
  empty: ['has no code', 'have no code'],
  quantity: ['has no readable quantity', 'have no readable quantity'],
  'look-alike': ['has look-alike letters', 'have look-alike letters'],
  'zero-restored': ['had its lost zeros put back', 'had their lost zeros put back'],
  'full-width': ['has full-width characters', 'have full-width characters'],
  'stray-space': ['has stray spaces', 'have stray spaces'],
};

/** @example reasonOf({ reason: 'macs', rows: 4 }) → '4 break the adjacent-cut limit' */
export function reasonOf({ reason, rows }: CodesReport['reasons'][number]): string {
  const words = READ[reason];
  return words
    ? `${grouped(rows)} ${rows === 1 ? words[0] : words[1]}`
    : reasonLine({ code: reason as BittingFinding['code'], cells: rows });
}

/** @example countsOf(report) → '40 rows: 36 plain, 3 to look at, 1 not cut.' */
export function countsOf({ rows, plain, doubtful, barred }: CodesReport): string {
  const parts = [
    `${grouped(plain)} plain`,
    ...(doubtful > 0 ? [`${grouped(doubtful)} to look at`] : []),
    ...(barred > 0 ? [`${grouped(barred)} can’t be cut`] : []),
  ];
  return `${counted(rows.length, 'row')}: ${parts.join(', ')}.`;
}

/** Everything about one row, led by its mark. */
export function rowSentence(row: ImportRow, findings: readonly BittingFinding[] = [], unit?: Unit): string {
  const parts = [
    ...(row.code.kind === 'empty' ? ['There is no code here.'] : []),
    sayReading(row.code),
    ...sayAll(findings.map((finding) => findingIn(finding, unit))),
    ...(row.quantity === undefined ? [`“${row.quantityText}” is no number of keys.`] : []),
  ].filter(Boolean);
  const lead = [row.mark, row.code.original].filter(Boolean).join(' · ');
  return lead === '' ? parts.join(' ') : `${lead}. ${parts.join(' ')}`;
}

const SURE: Record<Sureness, string> = { sure: 'Sure', likely: 'Likely', doubtful: 'Not sure' };

/** @example saySpecGuess(guess) → 'Sure: 39 of 40 codes fit it within MACS.' */
export function saySpecGuess({ sure, codes, within, read }: SpecGuess): string {
  if (codes === 0) return 'Not sure: the list has no codes that could tell.';
  const beyond = read - within;
  return `${SURE[sure]}: ${grouped(within)} of ${counted(codes, 'code')} ${codes === 1 ? 'fits' : 'fit'} it within MACS${beyond > 0 ? `, ${grouped(beyond)} more beyond it` : ''}.`;
}

/**
 * The spec that a list fits better by far than the one chosen; '' where there is none.
 * @example sayBetterSpec(guesses, 'M-050-5') → 'S-018-6 fits better: 588 of 813 codes within MACS, against 63.'
 */
export function sayBetterSpec(guesses: readonly SpecGuess[], chosen: string): string {
  const mine = guesses.find(({ spec }) => spec.name === chosen);
  const [best] = guesses;
  if (!mine || !best || best === mine || best.within < MUCH * Math.max(1, mine.within)) return '';
  return `${best.spec.name} fits better: ${grouped(best.within)} of ${counted(best.codes, 'code')} within MACS, against ${grouped(mine.within)}.`;
}

/** How many times as many codes another spec must explain before it is pointed out. */
const MUCH = 2;

/** @example sayOrderGuess(guess, undefined) → 'Sure: 12 codes are keys of this workbook that way.' */
export function sayOrderGuess({ sure, own, reversed }: OrderGuess, stated: boolean): string {
  if (stated) return 'Stated by the heading of the codes.';
  const more = Math.max(own, reversed);
  return more === 0
    ? 'Not sure: MACS reads the same from both ends, and none of these codes is a key of this workbook. Assumed as in the spec.'
    : `${SURE[sure]}: ${counted(more, 'code')} ${more === 1 ? 'is a key' : 'are keys'} of this workbook that way, ${grouped(Math.min(own, reversed))} the other.`;
}

export const ROLE_WORDS: Record<ColumnRole, string> = {
  code: 'Code, or one of its cuts',
  mark: 'Mark',
  quantity: 'Number of keys',
  blank: 'Blank',
  reference: 'Blind code or reference',
  note: 'Note',
  none: 'Not used',
};

/** The first few cells of a column, to recognise it by. @example samplesOf(rows, 1) → '274153, 354635, …' */
export function samplesOf(rows: readonly (readonly ImportCell[])[], column: number): string {
  const filled = rows.map((row) => shownText(row[column] ?? '').trim()).filter(Boolean);
  return filled.slice(0, 3).join(', ') + (filled.length > 3 ? ', …' : '') || 'empty';
}
