/**
 * The depths of one chamber as a cell of the sheet holds them: `2 6` or `2/6`, and `any` for an empty chamber,
 * which admits every depth. Depths are set apart, never run together: a spreadsheet drops a leading zero, so `06`
 * and `6` would become the same chamber.
 */
import { isTooLong } from './bitting.ts';
import { depthsIn, depthSetOf, EVERY, NONE, type DepthSet } from './depthSet.ts';
import { err, ok, type Result } from './result.ts';
import type { Specification } from './specification.ts';

export type ChamberFault =
  | { readonly code: 'chamber-blank' }
  | { readonly code: 'chamber-not-depths'; readonly text: string }
  /** Depths without a space between them. `suggestion` is what was probably meant. */
  | { readonly code: 'chamber-run-together'; readonly text: string; readonly suggestion: string }
  | { readonly code: 'chamber-depth-repeated'; readonly symbol: string }
  | {
      readonly code: 'chamber-depth-unknown';
      readonly symbol: string;
      readonly allowed: readonly string[];
    };

const EMPTY_CHAMBER = 'any';
const SEPARATORS = /[\s,;:/|+·–-]+/;

/** Symbol look-up made once a spec. */
const indices = new WeakMap<Specification, ReadonlyMap<string, number>>();

function indexBySymbol(spec: Specification): ReadonlyMap<string, number> {
  let found = indices.get(spec);
  if (!found) {
    found = new Map(spec.depths.map((d, i) => [d.symbol.toUpperCase(), i]));
    indices.set(spec, found);
  }
  return found;
}

/**
 * Reads the depths of one chamber from text or a number cell, or says everything that is wrong with them.
 * @example parseDepthSet(spec, '2 6') → ok(depthSetOf([2, 6])) when symbol 0 is the shallowest
 * @example parseDepthSet(spec, 'any') → ok(EVERY)
 */
export function parseDepthSet(
  spec: Specification,
  input: string | number,
): Result<DepthSet, readonly ChamberFault[]> {
  const text = String(input).normalize('NFKC').trim();
  if (text === '') return err([{ code: 'chamber-blank' }]);
  if (text.toLowerCase() === EMPTY_CHAMBER) return ok(EVERY);
  if (isTooLong(text)) return err([{ code: 'chamber-not-depths', text }]);
  const bySymbol = indexBySymbol(spec);
  const tokens = text.toUpperCase().split(SEPARATORS).filter(Boolean);
  const unreadable = tokens.length === 0 || tokens.some((t) => !/^[0-9A-Z]+$/.test(t));
  if (unreadable) return err([{ code: 'chamber-not-depths', text }]);
  if (tokens.length === 1 && !bySymbol.has(tokens[0]!)) {
    const letters = [...tokens[0]!];
    if (letters.length > 1 && letters.every((c) => bySymbol.has(c)))
      return err([{ code: 'chamber-run-together', text, suggestion: letters.join(' ') }]);
  }
  const faults: ChamberFault[] = [];
  const found = new Set<number>();
  for (const symbol of tokens) {
    const index = bySymbol.get(symbol);
    if (index === undefined)
      faults.push({ code: 'chamber-depth-unknown', symbol, allowed: spec.depths.map((d) => d.symbol) });
    else if (found.has(index)) faults.push({ code: 'chamber-depth-repeated', symbol });
    else found.add(index);
  }
  return faults.length > 0 ? err(faults) : ok(depthSetOf(found));
}

/**
 * Reads the depths of one chamber in the sequence in which they are written, as a key bitting array holds them; a
 * blank cell is a chamber without a choice.
 * @example parseDepthList(spec, '6 2') → ok([6, 2]) when symbol 0 is the shallowest; parseDepthList(spec, '') → ok([])
 */
export function parseDepthList(
  spec: Specification,
  input: string | number,
): Result<readonly number[], readonly ChamberFault[]> {
  const text = String(input).normalize('NFKC').trim();
  if (text === '') return ok([]);
  const read = parseDepthSet(spec, text);
  if (!read.ok) return read;
  if (read.value === EVERY) return err([{ code: 'chamber-not-depths', text }]);
  const bySymbol = indexBySymbol(spec);
  return ok(
    text
      .toUpperCase()
      .split(SEPARATORS)
      .filter(Boolean)
      .map((symbol) => bySymbol.get(symbol)!),
  );
}

/** As an array's cell holds them. @example formatDepthList(spec, [6, 2]) → '6 2' */
export const formatDepthList = (spec: Specification, depths: readonly number[]): string =>
  depths.map((i) => spec.depths[i]?.symbol ?? '').join(' ');

/**
 * The canonical way to write a chamber, from the shallowest depth to the deepest. A chamber that is not pinned yet
 * (no depth at all) is blank. @example formatDepthSet(spec, depthSetOf([6, 2])) → '2 6'
 */
export function formatDepthSet(spec: Specification, set: DepthSet): string {
  if (set === EVERY) return EMPTY_CHAMBER;
  if (set === NONE) return '';
  return depthsIn(set, spec.depths.length)
    .map((i) => spec.depths[i]!.symbol)
    .join(' ');
}
