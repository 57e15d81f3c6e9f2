/** Worksheet functions: where the cuts lie and how deep they are. */
import { centreAt, cutsFromStop, rootDepths as rootsOf } from '../src/keying/cuts.ts';
import { positions } from '../src/keying/specification.ts';
import { toUnit } from '../src/keying/units.ts';
import { BLANK, isBlank, refuse, textOrNumber, wholeNumberIn } from './cells.ts';
import { bittingIn } from './keys.ts';
import { inUnit, specIn, unitIn } from './specs.ts';

/**
 * Distance from the gauge's stop to the centre of a cut.
 *
 * The position counts from the stop (shoulder or tip), not along the code: where the code reads the other way, its first symbol is the last position.
 * @customfunction CUTCENTRE
 * @param position Which cut, counted from the gauge's stop: 1 is nearest to it.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @param [unit] Unit of the answer, "in" or "mm"; the spec's own if left out.
 * @returns The distance, in the unit.
 * @example =KEYROW.CUTCENTRE(2,"S-018-6") → 0.393
 * @example =KEYROW.CUTCENTRE(2,"S-018-6",,"mm") → 9.9822
 * @errors #VALUE! where the position is not a whole number from 1 to the spec's number of cuts.
 * @source Key bitting specification: first cut and spacing, or its list of centres.
 */
export function cutCentre(
  position: unknown,
  spec: string,
  specs?: unknown[][],
  unit?: string,
): number | string {
  if (isBlank(position)) return BLANK;
  const found = specIn(spec, specs);
  const p = wholeNumberIn(position, 'The position', 1, positions(found));
  return toUnit(centreAt(found, p), unitIn(unit, found));
}

/**
 * Distances from the gauge's stop to the centres of all cuts, as a row that starts at the stop.
 *
 * They count from the stop (shoulder or tip), not along the code.
 * @customfunction CUTCENTRES
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @param [unit] Unit of the answer, "in" or "mm"; the spec's own if left out.
 * @returns A row of distances, in the unit.
 * @example =KEYROW.CUTCENTRES("S-018-6") → {0.237,0.393,0.549,0.705,0.861,1.017}
 * @errors #VALUE! where the spec is not known.
 * @source Key bitting specification: first cut and spacing, or its list of centres.
 */
export function cutCentres(spec: string, specs?: unknown[][], unit?: string): number[][] {
  const found = specIn(spec, specs);
  return [found.centres.map(inUnit(unitIn(unit, found)))];
}

/**
 * Root depth of one depth symbol: blade bottom to the bottom of the cut, as a caliper reads it.
 *
 * The symbol is one of the code's depth symbols, not a place along the code.
 * @customfunction ROOTDEPTH
 * @param symbol The depth symbol, such as 4 or "C".
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @param [unit] Unit of the answer, "in" or "mm"; the spec's own if left out.
 * @returns The root depth, in the unit.
 * @example =KEYROW.ROOTDEPTH("2","S-018-6") → 0.279
 * @example =KEYROW.ROOTDEPTH(7,"M-050-5") → 8
 * @errors #VALUE! where the spec has no such depth.
 * @source Key bitting specification: table of depths.
 */
export function rootDepth(
  symbol: unknown,
  spec: string,
  specs?: unknown[][],
  unit?: string,
): number | string {
  if (isBlank(symbol)) return BLANK;
  const found = specIn(spec, specs);
  const wanted = String(textOrNumber(symbol, 'The depth')).normalize('NFKC').trim().toUpperCase();
  const depth = found.depths.find((d) => d.symbol.toUpperCase() === wanted);
  if (!depth)
    return refuse(
      `“${wanted}” is not a depth of ${found.name}; its depths are ${found.depths.map((d) => d.symbol).join(' ')}.`,
    );
  return toUnit(depth.root, unitIn(unit, found));
}

/**
 * Root depths of all cuts of a code, as a row in the order of the code.
 *
 * They count along the code, from its first symbol, not from the stop.
 * @customfunction ROOTDEPTHS
 * @param code The code, best as text.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @param [unit] Unit of the answer, "in" or "mm"; the spec's own if left out.
 * @returns A row of root depths, in the unit.
 * @example =KEYROW.ROOTDEPTHS("274153","S-018-6") → {0.279,0.189,0.243,0.297,0.225,0.261}
 * @errors #VALUE! where the code can't be read.
 * @source Key bitting specification: table of depths.
 */
export function rootDepths(code: unknown, spec: string, specs?: unknown[][], unit?: string): unknown[][] {
  if (isBlank(code)) return [[BLANK]];
  const found = specIn(spec, specs);
  return [rootsOf(found, bittingIn(found, code)).map(inUnit(unitIn(unit, found)))];
}

/**
 * The cuts of a code as they are made: a table that starts at the gauge's stop, with position, symbol, centre and root depth.
 *
 * Rows count from the stop (shoulder or tip). The second column says which symbol of the code each cut is.
 * @customfunction CUTLIST
 * @param code The code, best as text.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @param [unit] Unit of the answer, "in" or "mm"; the spec's own if left out.
 * @returns A header and a row for each cut; lengths in the unit.
 * @example =KEYROW.CUTLIST("12345","M-050-5") → {"Position","Code place","Depth","Centre","Root depth";1,5,"5",5.5,7;2,4,"4",9.5,6.5;3,3,"3",13.5,6;4,2,"2",17.5,5.5;5,1,"1",21.5,5}
 * @errors #VALUE! where the code can't be read.
 * @source Key bitting specification.
 */
export function cutList(code: unknown, spec: string, specs?: unknown[][], unit?: string): unknown[][] {
  if (isBlank(code)) return [[BLANK]];
  const found = specIn(spec, specs);
  const shown = inUnit(unitIn(unit, found));
  const rows = cutsFromStop(found, bittingIn(found, code)).map((cut) => [
    cut.position,
    cut.symbolNumber,
    cut.symbol,
    shown(cut.centre),
    shown(cut.root),
  ]);
  return [['Position', 'Code place', 'Depth', 'Centre', 'Root depth'], ...rows];
}
