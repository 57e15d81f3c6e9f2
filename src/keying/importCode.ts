/**
 * One cell of a list from elsewhere → a bitting, with everything that was taken for something else said as a note.
 * The cell itself stays beside it exactly as it came. Where a code can't be told for sure it is not told at all: a
 * date that was a code, a number that lost zeros and a blind code stay what they are until a person decides.
 */
import {
  formatBitting,
  isTooLong,
  parseBitting,
  reverseBitting,
  type Bitting,
  type BittingFault,
} from './bitting.ts';
import { codesBehind, dateOfSerial, readDate, type WrittenDate } from './importDates.ts';
import { isSheetError } from './sheetError.ts';
import { positions, type Order, type Specification } from './specification.ts';

/** A number that the sheet shows as a date. */
export interface DateCell {
  readonly serial: number;
  readonly shown: string;
}
export type ImportCell = string | number | boolean | DateCell;

export type ImportNote =
  | { readonly code: 'look-alike'; readonly from: string; readonly to: string; readonly at: number }
  | { readonly code: 'full-width' }
  | { readonly code: 'stray-space' }
  | { readonly code: 'zero-restored'; readonly text: string }
  | { readonly code: 'was-date'; readonly shown: string; readonly suggestions: readonly string[] }
  | { readonly code: 'blind-code' };

export interface CodeReading {
  /** `reference`: a blind code, or anything else with letters that are no cuts; it has no bitting. */
  readonly kind: 'bitting' | 'reference' | 'empty' | 'unreadable';
  /** What the cell showed, character for character. */
  readonly original: string;
  /** In the order of the spec. */
  readonly bitting?: Bitting;
  readonly faults: readonly BittingFault[];
  readonly notes: readonly ImportNote[];
}

export interface ReadingOptions {
  /** How the list reads its codes; the spec's own order where left out. */
  readonly order?: Order;
  /** Take O for 0 and l for 1 (and back) where the spec has only the other. Default true; every one is noted. */
  readonly lookAlikes?: boolean;
  /** Put back zeros that a number lost at its front. Default false: the suggestion is only shown. */
  readonly lostZeros?: boolean;
}

const NOTHING: readonly never[] = [];

/** What the cell shows. */
export const shownText = (cell: ImportCell): string => (typeof cell === 'object' ? cell.shown : String(cell));

/**
 * Reads one cell.
 * @example readCode(spec, ' 2-7-4-l-5-3 ') → bitting 274153; notes: stray-space, look-alike l for 1 at cut 4
 * @example readCode(spec, 'KX 1042') → { kind: 'reference', … }
 */
export function readCode(spec: Specification, cell: ImportCell, options: ReadingOptions = {}): CodeReading {
  if (typeof cell === 'object') return wasDate(spec, cell.shown, dateOfSerial(cell.serial));
  const original = String(cell);
  if (typeof cell === 'boolean') return unreadable(original, [{ code: 'not-a-code', text: original }]);
  // nearly every row of a long list is plain
  const plain =
    typeof cell === 'string' && cell.length === positions(spec) ? parseBitting(spec, cell) : undefined;
  if (plain?.ok) return asBitting(spec, original, plain.value, plainNotes(cell as string), options);
  const notes: ImportNote[] = [];
  const text = typeof cell === 'number' ? cell : cleanText(cell, notes);
  if (text === '') return { kind: 'empty', original, faults: NOTHING, notes: NOTHING };
  // letters and all, an error of the sheet's is no blind code
  if (typeof text === 'string' && isSheetError(text))
    return unreadable(original, [{ code: 'not-a-code', text }]);
  const date = typeof text === 'string' ? readDate(text) : undefined;
  if (date) return wasDate(spec, original, date);
  const parsed = parseBitting(spec, text);
  if (!parsed.ok && isTooLong(text)) return unreadable(original, parsed.error);
  if (parsed.ok) return asBitting(spec, original, parsed.value, notes, options);
  return withRepairs(spec, original, text, parsed.error, notes, options);
}

function withRepairs(
  spec: Specification,
  original: string,
  text: string | number,
  faults: readonly BittingFault[],
  notes: readonly ImportNote[],
  options: ReadingOptions,
): CodeReading {
  const lost = faults.find((f) => f.code === 'lost-zero');
  if (lost && options.lostZeros === true) {
    const again = parseBitting(spec, lost.suggestion);
    if (again.ok) {
      const restored: ImportNote = { code: 'zero-restored', text: lost.suggestion };
      return asBitting(spec, original, again.value, [...notes, restored], options);
    }
  }
  if (typeof text === 'string' && options.lookAlikes !== false) {
    const { changed, replaced } = withLookAlikes(spec, text);
    const again = replaced.length > 0 ? parseBitting(spec, changed) : undefined;
    if (again?.ok) return asBitting(spec, original, again.value, [...notes, ...replaced], options);
  }
  if (typeof text === 'string' && isReference(spec, text, faults))
    return { kind: 'reference', original, faults: NOTHING, notes: [...notes, { code: 'blind-code' }] };
  return { kind: 'unreadable', original, faults, notes };
}

function asBitting(
  spec: Specification,
  original: string,
  read: Bitting,
  notes: readonly ImportNote[],
  { order = spec.order }: ReadingOptions,
): CodeReading {
  const bitting = order === spec.order ? read : reverseBitting(read);
  return { kind: 'bitting', original, bitting, faults: NOTHING, notes };
}

const unreadable = (original: string, faults: readonly BittingFault[]): CodeReading => ({
  kind: 'unreadable',
  original,
  faults,
  notes: NOTHING,
});

const wasDate = (spec: Specification, shown: string, date: WrittenDate): CodeReading => ({
  kind: 'unreadable',
  original: shown,
  faults: [{ code: 'not-a-code', text: shown }],
  notes: [{ code: 'was-date', shown, suggestions: codesBehind(spec, date) }],
});

const plainNotes = (text: string): readonly ImportNote[] =>
  /^[!-~]*$/.test(text) ? NOTHING : [{ code: 'full-width' }];

/** Characters that nobody sees: zero-width spaces and joiners, soft hyphen, byte order mark. */
const UNSEEN = /[\u00AD\u200B-\u200F\u2060\uFEFF]/g;

/** Trimmed and in its plain form; what that took away is noted. */
function cleanText(text: string, notes: ImportNote[]): string {
  const seen = text.replace(UNSEEN, '');
  const plain = seen.normalize('NFKC').trim();
  if (/[\uFF00-\uFFEF]/.test(seen)) notes.push({ code: 'full-width' });
  if (seen !== text || seen !== seen.trim() || /\u00A0/.test(seen)) notes.push({ code: 'stray-space' });
  return plain;
}

/** Pairs that look alike in print or handwriting, and letters of other alphabets that look like O. */
const ALIKE: Readonly<Record<string, string>> = {
  O: '0',
  o: '0',
  '\u041E': '0',
  '\u043E': '0',
  '\u039F': '0',
  '\u03BF': '0',
  l: '1',
  I: '1',
  i: '1',
  '|': '1',
  '\u0406': '1',
  '0': 'O',
  '1': 'I',
};

/** The text with every symbol that the spec lacks replaced by its look-alike, where the spec has that one. */
export function withLookAlikes(
  spec: Specification,
  text: string,
): { readonly changed: string; readonly replaced: readonly ImportNote[] } {
  const symbols = new Set(spec.depths.map((d) => d.symbol.toUpperCase()));
  const replaced: ImportNote[] = [];
  let at = 0;
  const changed = [...text].map((character) => {
    const alike = ALIKE[character];
    if (/[\p{L}\p{N}]/u.test(character) || alike !== undefined) at++;
    if (alike === undefined || symbols.has(character.toUpperCase())) return character;
    const to = symbols.has(alike) ? alike : alike === 'I' && symbols.has('L') ? 'L' : undefined;
    if (to === undefined) return character;
    replaced.push({ code: 'look-alike', from: character, to, at });
    return to;
  });
  return { changed: changed.join(''), replaced };
}

/**
 * Whether unreadable text is a reference rather than a mistyped bitting: it has letters that are no depths, and isn't
 * just one symbol away from a code of the right length. A letter in front of digits is how blind codes are written.
 */
function isReference(spec: Specification, text: string, faults: readonly BittingFault[]): boolean {
  const symbols = new Set(spec.depths.map((d) => d.symbol.toUpperCase()));
  const strange = [...text.toUpperCase()].some((c) => /\p{L}/u.test(c) && !symbols.has(c));
  const [only] = faults;
  return strange && !(faults.length === 1 && only?.code === 'unknown-depth' && only.at > 1);
}

/** The canonical form of a reading, or '' where it has none. @example canonicalCode(spec, reading) → '274153' */
export const canonicalCode = (spec: Specification, { bitting }: CodeReading): string =>
  bitting ? formatBitting(spec, bitting) : '';
