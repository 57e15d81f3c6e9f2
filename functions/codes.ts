/** Worksheet functions: is a code good, why not, and how is it written. */
import { formatBitting, packBitting, parseBitting } from '../src/keying/bitting.ts';
import { severityOf, type BittingFinding } from '../src/keying/findings.ts';
import { checkBitting, DEFAULT_RULES, isUsable, type BittingContext } from '../src/keying/rules.ts';
import type { Specification } from '../src/keying/specification.ts';
import { sayAll } from '../src/keying/sayAll.ts';
import { BLANK, eachCell, isBlank, rowsOf, switchIn, textOrNumber } from './cells.ts';
import { bittingIn } from './keys.ts';
import { specIn } from './specs.ts';

type Check = (cell: unknown) => readonly BittingFinding[];

/** Everything that is wrong with a code: how it is written, then the rules that are on by default. */
function checkWith(spec: Specification, master: unknown): Check {
  const context: BittingContext = isBlank(master)
    ? {}
    : { master: { symbol: 'given', bitting: bittingIn(spec, master, 'The master') } };
  return (cell) => {
    const read = parseBitting(spec, textOrNumber(cell, 'The code'));
    return read.ok ? checkBitting(spec, read.value, DEFAULT_RULES, context) : read.error;
  };
}

/** Adds a finding to every code that stands in the range more than once. */
function withRepeats(spec: Specification, codes: unknown, check: Check): Check {
  const counts = new Map<number, number>();
  const packed = (cell: unknown): number | undefined => {
    if (isBlank(cell) || (typeof cell !== 'string' && typeof cell !== 'number')) return undefined;
    const read = parseBitting(spec, cell);
    return read.ok ? packBitting(spec, read.value) : undefined;
  };
  for (const cell of rowsOf(codes).flat()) {
    const key = packed(cell);
    if (key !== undefined) counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  return (cell) => {
    const times = counts.get(packed(cell) ?? -1) ?? 0;
    const repeat: BittingFinding[] =
      times > 1
        ? [{ code: 'duplicate', of: times === 2 ? 'another place' : `${times - 1} other places` }]
        : [];
    return [...check(cell), ...repeat];
  };
}

/** As no fault from `checkWith`; without a master nothing has to be listed to know that. */
function goodWith(spec: Specification, master: unknown): (cell: unknown) => boolean {
  if (!isBlank(master)) {
    const check = checkWith(spec, master);
    return (cell) => isGood(check(cell));
  }
  return (cell) => {
    const read = parseBitting(spec, textOrNumber(cell, 'The code'));
    return read.ok && isUsable(spec, read.value);
  };
}

const isGood = (findings: readonly BittingFinding[]): boolean =>
  findings.every((f) => severityOf(f) !== 'fault');

function inWords(findings: readonly BittingFinding[]): string {
  if (findings.length === 0) return 'OK';
  const words = sayAll(findings).join(' ');
  return isGood(findings) ? `OK, but: ${words}` : words;
}

/**
 * Whether a code is good: it can be read, has the right length and known depths, keeps within MACS and has no rule against it.
 *
 * The rules are the usual ones: neighbours within MACS, three different depths or more, no more than three equal cuts side by side, and whole steps from the master if one is named. A warning alone leaves it TRUE; WHY says it. A code that stands as a number is taken as its digits, and one with digits missing is FALSE.
 * @customfunction CHECK
 * @param code The code, best as text.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @param [master] Code of the top master key, for whole steps from it (parity); not checked if left out.
 * @returns TRUE or FALSE; blank for a blank code.
 * @example =KEYROW.CHECK("274153","S-018-6") → TRUE
 * @example =KEYROW.CHECK("2-8-4-1-5-3","S-018-6") → FALSE
 * @errors #VALUE! where the spec or the master can't be read, or the code is an error.
 * @source Rules: common practice. MACS: the spec.
 */
export function check(code: unknown, spec: string, specs?: unknown[][], master?: unknown): boolean | string {
  return isBlank(code) ? BLANK : goodWith(specIn(spec, specs), master)(code);
}

/**
 * What is wrong with a code, in plain words; OK when nothing is.
 *
 * Cuts in the answer count along the code, from its first symbol. An answer that starts with "OK, but" is a warning.
 * @customfunction WHY
 * @param code The code, best as text.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @param [master] Code of the top master key, for whole steps from it (parity); not checked if left out.
 * @returns OK or the reasons; blank for a blank code.
 * @example =KEYROW.WHY("241536","S-018-6") → "OK"
 * @example =KEYROW.WHY("283456","S-018-6") → "The 2 and 8 at cuts 1 and 2 differ by 6 steps; this spec allows 5. Choose depths closer together."
 * @errors #VALUE! where the spec or the master can't be read, or the code is an error.
 * @source Rules: common practice. MACS: the spec.
 */
export function why(code: unknown, spec: string, specs?: unknown[][], master?: unknown): string {
  return isBlank(code) ? BLANK : inWords(checkWith(specIn(spec, specs), master)(code));
}

/**
 * CHECK for a whole range of codes at once. It spills, so it stands outside tables.
 * @customfunction CHECKS
 * @param codes Range of codes, such as a whole column.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @param [master] Code of the top master key, for whole steps from it (parity); not checked if left out.
 * @param [unique] TRUE: a code that stands in the range twice is FALSE as well.
 * @returns TRUE or FALSE in the shape of the range; blank for a blank code.
 * @example =KEYROW.CHECKS({"241536";"";"283456"},"S-018-6") → {TRUE;"";FALSE}
 * @example =KEYROW.CHECKS({"241536";"135246";"2-4-1-5-3-6"},"S-018-6",,,TRUE) → {FALSE;TRUE;FALSE}
 * @errors #VALUE! where the spec or the master can't be read; in one cell where that code is an error.
 * @source Rules: common practice. MACS: the spec.
 */
export function checks(
  codes: unknown[][],
  spec: string,
  specs?: unknown[][],
  master?: unknown,
  unique?: unknown,
): unknown[][] {
  const found = specIn(spec, specs);
  if (!switchIn(unique, 'Unique')) return eachCell(codes, goodWith(found, master));
  const check = withRepeats(found, codes, checkWith(found, master));
  return eachCell(codes, (cell) => isGood(check(cell)));
}

/**
 * WHY for a whole range of codes at once. It spills, so it stands outside tables.
 * @customfunction WHYS
 * @param codes Range of codes, such as a whole column.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @param [master] Code of the top master key, for whole steps from it (parity); not checked if left out.
 * @param [unique] TRUE: a code that stands in the range twice is reported as well.
 * @returns OK or the reasons, in the shape of the range; blank for a blank code.
 * @example =KEYROW.WHYS({"241536","222231"},"S-018-6") → {"OK","Cuts 1 to 4 are all 2: 4 equal cuts side by side, and at most 3 are allowed. Change one of them."}
 * @errors #VALUE! where the spec or the master can't be read; in one cell where that code is an error.
 * @source Rules: common practice. MACS: the spec.
 */
export function whys(
  codes: unknown[][],
  spec: string,
  specs?: unknown[][],
  master?: unknown,
  unique?: unknown,
): unknown[][] {
  const check = checkOf(codes, spec, specs, master, unique);
  return eachCell(codes, (cell) => inWords(check(cell)));
}

function checkOf(codes: unknown, name: string, specs: unknown, master: unknown, unique: unknown): Check {
  const spec = specIn(name, specs);
  const check = checkWith(spec, master);
  return switchIn(unique, 'Unique') ? withRepeats(spec, codes, check) : check;
}

/**
 * A code in its usual form: symbols run together, or with hyphens where a symbol has two characters.
 * @customfunction BITTING
 * @param code The code as it came: "2-7-4-1-5-3", "2 7 4 1 5 3", 274153.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @returns The code as text; blank for a blank code.
 * @example =KEYROW.BITTING("2-7-4-1-5-3","S-018-6") → "274153"
 * @example =KEYROW.BITTING(274153,"S-018-6") → "274153"
 * @errors #VALUE! where the code can't be read, or digits are missing: leading zeros that a cell dropped are reported, never filled in.
 * @source Key bitting specification: symbols of the depths.
 */
export function bitting(code: unknown, spec: string, specs?: unknown[][]): string {
  if (isBlank(code)) return BLANK;
  const found = specIn(spec, specs);
  return formatBitting(found, bittingIn(found, code));
}

/**
 * BITTING for a whole range of codes at once. It spills, so it stands outside tables.
 * @customfunction BITTINGS
 * @param codes Range of codes, such as a whole column.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @returns The codes as text in the shape of the range; blank for a blank code.
 * @example =KEYROW.BITTINGS({"2 4 1 5 3 6";"";"2/8/3/4/5/6"},"S-018-6") → {"241536";"";"283456"}
 * @errors #VALUE! where the spec can't be read; in one cell where that code can't be.
 * @source Key bitting specification: symbols of the depths.
 */
export function bittings(codes: unknown[][], spec: string, specs?: unknown[][]): unknown[][] {
  const found = specIn(spec, specs);
  return eachCell(codes, (cell) => formatBitting(found, bittingIn(found, cell)));
}
