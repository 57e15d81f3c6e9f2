/**
 * Bitting: the cuts of one key. Inside the program it is a short array of depth indices (steps from the shallowest
 * cut) in the order of the code; `positionOfSymbol` turns the order of the code into positions from the stop.
 *
 * `parseBitting` takes the ways in which people write codes, `formatBitting` gives the canonical one, and the two
 * are inverse on every bitting (a property test holds that).
 */
import { assert, err, ok, type Result } from './result.ts';
import { positions, type Specification } from './specification.ts';

declare const bitting: unique symbol;
/** Depth indices in code order, one for each cut. */
export type Bitting = readonly number[] & { readonly [bitting]: true };

export type BittingFault =
  | { readonly code: 'length'; readonly found: number; readonly expected: number }
  /** A bare number one digit short: a spreadsheet drops leading zeros. `suggestion` is the code with them back. */
  | {
      readonly code: 'lost-zero';
      readonly found: number;
      readonly expected: number;
      readonly suggestion: string;
    }
  | {
      readonly code: 'unknown-depth';
      readonly symbol: string;
      readonly at: number;
      readonly allowed: readonly string[];
    }
  | { readonly code: 'not-a-code'; readonly text: string };

/** Depth indices to a bitting. Throws where one is not a depth of the spec: that is our mistake. */
export function bittingOf(spec: Specification, indices: readonly number[]): Bitting {
  assert(indices.length === positions(spec), `a bitting of ${spec.name} has ${positions(spec)} cuts`);
  for (const i of indices) assert(spec.depths[i] !== undefined, `no depth at index ${i}`);
  return indices as Bitting;
}

interface Reader {
  readonly bySymbol: ReadonlyMap<string, number>;
  readonly width: number;
  readonly symbols: readonly string[];
  /** Depth index by character code, for symbols of one character; -1 = no depth. */
  readonly byCode: Int8Array;
}

/** Symbol look-up made once a spec, since a column of 100,000 codes shares it. */
const readers = new WeakMap<Specification, Reader>();

function readerOf(spec: Specification): Reader {
  let reader = readers.get(spec);
  if (!reader) {
    const symbols = spec.depths.map((d) => d.symbol);
    reader = {
      bySymbol: new Map(symbols.map((s, i) => [s.toUpperCase(), i])),
      width: Math.max(...symbols.map((s) => s.length)),
      symbols,
      byCode: codeTable(symbols),
    };
    readers.set(spec, reader);
  }
  return reader;
}

function codeTable(symbols: readonly string[]): Int8Array {
  const table = new Int8Array(128).fill(-1);
  symbols.forEach((symbol, index) => {
    if (symbol.length !== 1) return;
    for (const form of [symbol.toUpperCase(), symbol.toLowerCase()]) table[form.charCodeAt(0)] = index;
  });
  return table;
}

/** No code is so long, however its cuts are set apart: it has eight of them at most. */
const LONGEST_CODE = 200;

/** Whether a cell holds more than any code. */
export const isTooLong = (cell: string | number): boolean =>
  typeof cell === 'string' && cell.length > LONGEST_CODE && cell.trim().length > LONGEST_CODE;

/** The plain way to write a code, which nearly every row of a long list has; undefined = look closer. */
function plainIndices(
  { byCode, width }: Reader,
  input: string | number,
  expected: number,
): number[] | undefined {
  if (typeof input !== 'string' || width !== 1 || input.length !== expected) return undefined;
  const indices = new Array<number>(expected);
  for (let i = 0; i < expected; i++) {
    const index = byCode[input.charCodeAt(i)] ?? -1;
    if (index < 0) return undefined;
    indices[i] = index;
  }
  return indices;
}

/**
 * Reads a code against a spec. Accepts `274153`, `2 7 4 1 5 3`, `2-7-4-1-5-3`, `2,7,4…`, `2/7/4…`, letters in either
 * case, full-width digits, two-character symbols with separators, and a number from a cell. Leading zeros are kept
 * where the cell kept them; where it evidently didn't, the fault says so and what was probably meant.
 * @example parseBitting(spec, '2-7-4-1-5-3') → ok([2, 7, 4, 1, 5, 3]) when symbol 0 is the shallowest
 */
export function parseBitting(
  spec: Specification,
  input: string | number,
): Result<Bitting, readonly BittingFault[]> {
  const reader = readerOf(spec);
  const expected = positions(spec);
  const plain = plainIndices(reader, input, expected);
  if (plain) return ok(plain as readonly number[] as Bitting);
  // letter by letter, a full cell would give as many findings
  if (isTooLong(input)) return err([{ code: 'not-a-code', text: String(input) }]);
  const text = typeof input === 'number' ? numberText(input) : input.normalize('NFKC').trim();
  const tokens = text === undefined ? undefined : splitCode(text, reader);
  if (tokens === undefined) return err([{ code: 'not-a-code', text: String(input) }]);
  const indices: number[] = [];
  const faults: BittingFault[] = [];
  tokens.forEach((token, i) => {
    const index = reader.bySymbol.get(token.toUpperCase());
    if (index === undefined)
      faults.push({ code: 'unknown-depth', symbol: token, at: i + 1, allowed: reader.symbols });
    else indices.push(index);
  });
  if (tokens.length !== expected) faults.unshift(lengthFault(reader, text!, tokens.length, expected));
  return faults.length > 0 ? err(faults) : ok(indices as readonly number[] as Bitting);
}

/** The tokens of a code in the order written, or undefined where the text can't be one. */
function splitCode(text: string, reader: Reader): string[] | undefined {
  if (/[\s,;:./|_–—-]/.test(text)) {
    const parts = text.split(/[\s,;:./|_–—-]+/);
    // a sign in front, or a separator that separates nothing
    if (parts.some((p) => !/^[0-9A-Za-z]+$/.test(p))) return undefined;
    if (reader.width > 1) return parts;
    // "274 153" or "27-41-53" are groups set apart for reading; "1/2/2003" is a date that somebody kept as text
    const alike = parts.every((p) => p.length === parts[0]!.length);
    return alike || /^[0-9A-Za-z\s]+$/.test(text) ? parts.flatMap((p) => [...p]) : undefined;
  }
  if (!/^[0-9A-Za-z]+$/.test(text)) return undefined;
  return text.length % reader.width === 0
    ? Array.from({ length: text.length / reader.width }, (_, i) =>
        text.slice(i * reader.width, (i + 1) * reader.width),
      )
    : [text];
}

const numberText = (n: number): string | undefined =>
  Number.isSafeInteger(n) && n >= 0 ? String(n) : undefined;

function lengthFault(reader: Reader, text: string, found: number, expected: number): BittingFault {
  const missing = expected - found;
  if (missing >= 1 && missing <= 2 && reader.width === 1 && reader.bySymbol.has('0') && /^\d+$/.test(text))
    return { code: 'lost-zero', found, expected, suggestion: '0'.repeat(missing) + text };
  return { code: 'length', found, expected };
}

/**
 * The canonical way to write a bitting: symbols run together where each is one character, else with hyphens.
 * @example formatBitting(spec, bitting) → '274153'
 */
export function formatBitting(spec: Specification, cuts: readonly number[]): string {
  const reader = readerOf(spec);
  return cuts.map((i) => reader.symbols[i] ?? '?').join(reader.width === 1 ? '' : '-');
}

/** The same key read from the other end. */
export function reverseBitting(cuts: Bitting): Bitting {
  return [...cuts].reverse() as readonly number[] as Bitting;
}

/** A number that two bittings of one spec share only if they are the same key: for look-ups. At most 26^8 < 2^53. */
export function packBitting(spec: Specification, cuts: readonly number[]): number {
  let packed = 0;
  for (const i of cuts) packed = packed * spec.depths.length + i;
  return packed;
}

/** The inverse of `packBitting`. */
export function unpackBitting(spec: Specification, packed: number): Bitting {
  const base = spec.depths.length;
  const cuts = new Array<number>(positions(spec)).fill(0);
  let rest = packed;
  for (let i = cuts.length - 1; i >= 0; i--) {
    cuts[i] = rest % base;
    rest = Math.floor(rest / base);
  }
  return bittingOf(spec, cuts);
}
