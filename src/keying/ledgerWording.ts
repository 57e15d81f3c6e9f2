/** The words for what is found in a ledger. Each sentence says what is wrong and what to do. */
import { formatDay } from './calendar.ts';
import { copyName } from './ledger.ts';
import type { LedgerFinding } from './ledgerFindings.ts';
import type { Words } from './words.ts';

const name = ({ symbol, copy }: { readonly symbol: string; readonly copy: number }): string =>
  copyName(symbol, copy);

const CORRECT = 'Add a row that corrects the wrong one';

const WORDS: Words<LedgerFinding> = {
  'issued-twice': (f) =>
    `${name(f)} is issued to ${f.holder}, but ${f.other} has it and no return is recorded. Add the return, or correct one of the two.`,
  'issued-while-lost': (f) =>
    `${name(f)} is issued while it counts as lost. Add a row that it was found, or correct this one.`,
  'returned-without-issue': (f) =>
    `${name(f)} is returned, but by these rows nobody had it. Add the issue that is missing, with its own date.`,
  'returned-by-other': (f) =>
    `${name(f)} is returned by ${f.holder}, but ${f.other} had it. If it went from hand to hand, add a row that it was transferred.`,
  'returned-while-lost': (f) =>
    `${name(f)} is returned after it was reported lost. It counts as found; decide whether its locks are changed all the same.`,
  'transferred-without-issue': (f) =>
    `${name(f)} is transferred, but by these rows nobody had it. Record the issue first.`,
  'lost-twice': (f) => `${name(f)} is reported lost a second time. Check the copy number.`,
  'found-not-lost': (f) => `${name(f)} is found, but it was not lost. ${CORRECT}.`,
  'after-destroyed': (f) =>
    `${name(f)} is ${f.event} after it was destroyed. Check the copy number, then ${CORRECT.toLowerCase()}.`,
  'unknown-key': (f) =>
    `There is no key ${f.symbol} in the sheet Keys. Check the symbol, or add the key there.`,
  'unknown-copy': (f) =>
    `There is no copy ${f.copy} of ${f.symbol}: the sheet Keys says ${f.cut} ${f.cut === 1 ? 'was' : 'were'} cut. Check the number, or correct the count of copies.`,
  'holder-missing': (f) => `${name(f)} is ${f.event}, but the row doesn’t say to whom. ${CORRECT}.`,
  'unknown-holder': (f) =>
    `${f.holder} is not in the sheet Holders. Add the name there, or correct it with a further row.`,
  'holder-left': (f) =>
    `${name(f)} goes to ${f.holder}, who left on ${formatDay(f.left)}. Check the name and the date.`,
  'due-before-issue': (f) =>
    `${name(f)} is due back on ${formatDay(f.due)}, before it was issued. ${CORRECT}.`,
  'signature-open': (f) =>
    `${f.holder} has not signed for ${name(f)} yet. Write a receipt and have it signed.`,
  'out-of-order': (f) =>
    `This row of ${name(f)} stands below one of ${formatDay(f.after)}. It counts from its own date; check that the date is right.`,
  'number-repeated': (f) =>
    `The number ${f.number} is given twice, so a correction can’t tell the rows apart. Give the later row the next free number.`,
  'corrects-unknown': (f) =>
    `This row corrects number ${f.number}, but there is no such row above it. Correct the number.`,
  'corrected-twice': (f) =>
    `Number ${f.number} is corrected by two rows; the later one counts. To change a correction, name the correcting row instead.`,
  'struck-nothing': () =>
    'This row strikes another, but doesn’t say which. Type that row’s number under Corrects.',
};

/** A finding as a sentence. */
export function sayLedger(finding: LedgerFinding): string {
  const say = WORDS[finding.code] as (finding: LedgerFinding) => string;
  return say(finding);
}
