/** Worksheet functions: from caliper readings back to a code. */
import { decodeReadings, type Decoding } from '../src/keying/decode.ts';
import { fitSpacing } from '../src/keying/fitSpacing.ts';
import { fitSpecs } from '../src/keying/fitSpecs.ts';
import { findingIn } from '../src/keying/shownIn.ts';
import type { Specification } from '../src/keying/specification.ts';
import type { Length } from '../src/keying/units.ts';
import { sayAll } from '../src/keying/sayAll.ts';
import { BLANK, eachRow, isBlank, lineOf, refuse } from './cells.ts';
import { cutsOf, lengthIn, specIn, specsIn, unitIn } from './specs.ts';

/** Decodes the readings of one key, or undefined where all cells are blank. */
function decoded(spec: Specification, readings: unknown, unit: unknown): Decoding | undefined {
  const cells = lineOf(readings, 'The readings');
  if (cells.every(isBlank)) return undefined;
  const asked = unitIn(unit, spec);
  const lengths = cells.map((cell, i) =>
    isBlank(cell)
      ? refuse(`Reading ${i + 1} is blank; ${spec.name} has ${cutsOf(spec)}.`)
      : lengthIn(cell, asked, `Reading ${i + 1}`),
  );
  const found = decodeReadings(spec, lengths);
  return found.ok ? found.value : refuse(`${lengths.length} readings; ${spec.name} has ${cutsOf(spec)}.`);
}

/** Sure cuts by their symbols, every doubtful one as `?`. */
function asCode(spec: Specification, { cuts }: Decoding): string {
  const wide = spec.depths.some((d) => d.symbol.length > 1);
  return cuts.map((c) => (c.suspect || c.ambiguous ? '?' : c.symbol)).join(wide ? '-' : '');
}

/**
 * The code of a key from its root depths as read with a caliper. A doubtful cut is a question mark, never a guess.
 *
 * Readings go along the code, from its first symbol, not from the stop. A cut is doubtful outside the spec's tolerance, or where the second-nearest depth is less than twice the tolerance farther off than the nearest. DECODEWHY says what is doubtful.
 * @customfunction DECODE
 * @param readings Row or column of root depths, one for each cut in the order of the code.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @param [unit] Unit of the readings, "in" or "mm"; the spec's own if left out.
 * @returns The code as text, with ? for a doubtful cut; blank where all readings are.
 * @example =KEYROW.DECODE({0.28,0.189,0.242,0.297,0.225,0.261},"S-018-6") → "274153"
 * @example =KEYROW.DECODE({0.28,0.198,0.242,0.297,0.225,0.261},"S-018-6") → "2?4153"
 * @errors #VALUE! where a reading is missing or not a length.
 * @source Root depth tolerance of ±0.002 in by default: common practice.
 */
export function decode(readings: unknown[][], spec: string, specs?: unknown[][], unit?: string): string {
  const found = specIn(spec, specs);
  const decoding = decoded(found, readings, unit);
  return decoding ? asCode(found, decoding) : BLANK;
}

/**
 * What is doubtful about a decoded key, in plain words; OK when nothing is.
 *
 * Cuts in the answer count along the code, from its first symbol. An offset that all cuts share is reported too: the key may be worn, or the stop or the caliper out of true.
 * @customfunction DECODEWHY
 * @param readings Row or column of root depths, one for each cut in the order of the code.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @param [unit] Unit of the readings, "in" or "mm"; the spec's own if left out.
 * @returns OK or what is doubtful; blank where all readings are.
 * @example =KEYROW.DECODEWHY({0.279,0.189,0.243,0.297,0.225,0.261},"S-018-6") → "OK"
 * @errors #VALUE! where a reading is missing or not a length.
 * @source Root depth tolerance of ±0.002 in by default: common practice.
 */
export function decodeWhy(readings: unknown[][], spec: string, specs?: unknown[][], unit?: string): string {
  const found = specIn(spec, specs);
  const decoding = decoded(found, readings, unit);
  if (!decoding) return BLANK;
  const shown = unitIn(unit, found);
  return sayAll(decoding.findings.map((f) => findingIn(f, shown))).join(' ') || 'OK';
}

/**
 * DECODE for a block of readings, one key a row. It spills, so it stands outside tables.
 * @customfunction DECODES
 * @param readings Block of root depths: a row for each key, its cuts in the order of the code.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @param [unit] Unit of the readings, "in" or "mm"; the spec's own if left out.
 * @returns A column of codes with ? for each doubtful cut; blank for a blank row.
 * @example =KEYROW.DECODES({8,7.5,7,6.5,6;8,7.5,7,6.25,6},"M-050-5") → {"76543";"765?3"}
 * @errors #VALUE! where the spec can't be read; in one row where a reading is missing or not a length.
 * @source Root depth tolerance of ±0.002 in by default: common practice.
 */
export function decodes(
  readings: unknown[][],
  spec: string,
  specs?: unknown[][],
  unit?: string,
): unknown[][] {
  const found = specIn(spec, specs);
  return eachRow(readings, (row) => {
    const decoding = decoded(found, [row], unit);
    return decoding ? asCode(found, decoding) : BLANK;
  });
}

/**
 * The spec that a measured key was most likely cut by: its name, and how well it fits.
 *
 * Tries every spec of the range with that many cuts, or the starters where no range is given. Readings of the spaces tell specs apart that have the same depths. Where the root depths are blank the spaces alone are compared, in any order; specs that share a spacing are then named together.
 * @customfunction FITSPEC
 * @param readings Row or column of root depths, one for each cut in the order of the code; blank where only the spaces are known.
 * @param [specs] Range of the Specs table with its header row; the starter specs if left out.
 * @param [centres] Row or column of distances from the stop to the centre of each cut, in the same order; not used if left out.
 * @param [unit] Unit of the readings, "in" or "mm"; inches if left out.
 * @returns Name of the spec and how it fits: well, with reserve, or not; blank where all readings are.
 * @example =KEYROW.FITSPEC({0.28,0.189,0.242,0.297,0.225,0.261}) → "S-018-6: fits well"
 * @example =KEYROW.FITSPEC({8,7.5,7,6.5,6},,,"mm") → "M-050-5: fits well"
 * @example =KEYROW.FITSPEC("",,{0.237,0.393,0.549,0.706,0.861,1.017}) → "S-018-6: fits well by its spaces"
 * @errors #VALUE! where a reading is missing or not a length, no spec has that many cuts, or there are as many centres as no key has.
 * @source Root mean square of the deviations against that of an even spread, increment ÷ √12.
 */
export function fitSpec(
  readings: unknown[][],
  specs?: unknown[][],
  centres?: unknown[][],
  unit?: string,
): string {
  const roots = lineOf(readings, 'The readings');
  const asked = unitIn(unit, { unit: 'in' });
  const read = (cells: unknown[], what: string): Length[] =>
    cells.map((cell, i) =>
      isBlank(cell) ? refuse(`${what} ${i + 1} is blank.`) : lengthIn(cell, asked, `${what} ${i + 1}`),
    );
  const spaces = isBlank(centres) ? [] : lineOf(centres, 'The centres');
  const measured = spaces.every(isBlank) ? undefined : read(spaces, 'Centre');
  if (roots.every(isBlank)) return measured ? bestSpaced(specsIn(specs), measured) : BLANK;
  if (measured && measured.length !== roots.length)
    return refuse(`${measured.length} centres for ${roots.length} readings; give one for each.`);
  const [best] = fitSpecs(specsIn(specs), {
    roots: read(roots, 'Reading'),
    ...(measured && { centres: measured }),
  });
  if (!best) return refuse(`No spec has ${roots.length} cuts.`);
  return `${best.spec.name}: ${VERDICTS[best.verdict]}`;
}

const VERDICTS = { good: 'fits well', fair: 'fits with reserve', poor: 'does not fit' };

/** The specs that fit measured spaces best, all those that fit them alike. */
function bestSpaced(specs: readonly Specification[], centres: readonly Length[]): string {
  const fits = fitSpacing(specs, centres);
  const [best] = fits;
  if (!best) return refuse(`No spec has ${centres.length} cuts.`);
  const alike = fits.filter(({ error, offset }) => error === best.error && offset === best.offset);
  return `${alike.map(({ spec }) => spec.name).join(', ')}: ${VERDICTS[best.verdict]} by ${alike.length > 1 ? 'their' : 'its'} spaces`;
}
