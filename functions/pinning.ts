/** Worksheet functions: pin stacks of plain and master-keyed cylinders. Cores are in cores.ts. */
import { formatDepthSet } from '../src/keying/chamberText.ts';
import { EVERY, type DepthSet } from '../src/keying/depthSet.ts';
import { pinStack as stackOf, type PinStack } from '../src/keying/pinning.ts';
import type { Specification } from '../src/keying/specification.ts';
import { formatNumber, toUnit, type Length, type Unit } from '../src/keying/units.ts';
import { BLANK, isBlank, optionalText, refuse } from './cells.ts';
import { chamberIn, chambersIn } from './keys.ts';
import { specIn, unitIn } from './specs.ts';

const EMPTY_CHAMBER = 'empty';

/** The pins of a chamber, or undefined where it is empty. Refuses where the spec can't tell lengths. */
function stackIn(spec: Specification, set: DepthSet, where: string): PinStack | undefined {
  if (spec.core)
    return refuse(
      `${spec.name} is an interchangeable core; use CORESTACK, which also takes the control cut.`,
    );
  const stack = stackOf(spec, set);
  if (stack && stack.bottom.length === undefined)
    return refuse(
      `${where}: ${spec.name} has no plug diameter and no pin for this depth; fill in Plug diameter or Pins in the Specs table.`,
    );
  return stack;
}

/** `bottom`, `master` (the first), `master 2` …, `top`; undefined where it has no such pin. */
function partOf(spec: Specification, stack: PinStack, part: string): Length | undefined {
  const folded = part.toLowerCase();
  if (folded === 'bottom') return stack.bottom.length;
  const master = /^master(?:\s*(\d+))?$/.exec(folded);
  if (master) return stack.masters[Number(master[1] ?? 1) - 1]?.length;
  if (folded !== 'top')
    return refuse(`The part is “${part}”; it must be bottom, master, master 2 (and so on) or top.`);
  if (stack.top === undefined)
    return refuse(`${spec.name} has no target stack, so the top pin isn't known; fill in Target stack.`);
  return stack.tooTall ? refuse(`The pins below leave no room for a top pin in ${spec.name}.`) : stack.top;
}

function inWords(spec: Specification, stack: PinStack, unit: Unit): string {
  const shown = (length: Length | undefined): string =>
    length === undefined ? '?' : formatNumber(length, unit);
  const masters = stack.masters.map((pin) => `master ${shown(pin.length)}`);
  const top = stack.top === undefined ? 'top not known (no target stack)' : `top ${shown(stack.top)}`;
  const pins = [`bottom ${shown(stack.bottom.length)}`, ...masters, top].join(' + ');
  return `${pins} ${unit}${faultsOf(spec, stack)
    .map((f) => `; ${f}`)
    .join('')}`;
}

function faultsOf(spec: Specification, stack: PinStack): string[] {
  const symbol = (index: number): string => spec.depths[index]!.symbol;
  const thin = stack.thin.map(
    (pin) =>
      `the master pin between ${symbol(pin.from)} and ${symbol(pin.to)} is too thin (${pin.steps} of at least ${spec.step} steps)`,
  );
  return stack.tooTall ? [...thin, 'the pins leave no room for a top pin'] : thin;
}

/**
 * Pins of one chamber: a bottom pin for the shallowest depth, a master pin for each further one, a top pin up to the target stack.
 *
 * Left alone it gives the whole stack as text, faults included; with a part it gives that pin's length as a number, even where the pin is too thin: PINSTACKWHY checks the chamber. An empty chamber ("any") is "empty".
 * @customfunction PINSTACK
 * @param depths Depths of the chamber as text with spaces, such as "2 6"; "any" for an empty chamber.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @param [part] "bottom", "master" (the first above the bottom pin), "master 2" and so on, or "top".
 * @param [unit] Unit of the answer, "in" or "mm"; the spec's own if left out.
 * @returns The stack as text, or the length of one pin; blank where the chamber is blank or has no such pin.
 * @example =KEYROW.PINSTACK("2 6","S-018-6") → "bottom 0.221 + master 0.072 + top 0.207 in"
 * @example =KEYROW.PINSTACK("2 6","S-018-6",,"master") → 0.072
 * @errors #VALUE! where the depths can't be read, or the spec has no plug diameter, pin table or target stack to work with.
 * @source Bottom pin = plug diameter − root depth, or the spec's own pin table; master pins are the differences.
 */
export function pinStack(
  depths: unknown,
  spec: string,
  specs?: unknown[][],
  part?: string,
  unit?: string,
): number | string {
  if (isBlank(depths)) return BLANK;
  const found = specIn(spec, specs);
  const shown = unitIn(unit, found);
  const wanted = optionalText(part, 'The part');
  const stack = stackIn(found, chamberIn(found, depths, 'The chamber'), 'The chamber');
  if (!stack) return wanted === undefined ? EMPTY_CHAMBER : BLANK;
  if (wanted === undefined) return inWords(found, stack, shown);
  const length = partOf(found, stack, wanted);
  return length === undefined ? BLANK : toUnit(length, shown);
}

/**
 * What is wrong with the pins of one chamber, in plain words; OK when nothing is.
 * @customfunction PINSTACKWHY
 * @param depths Depths of the chamber as text with spaces, such as "2 6"; "any" for an empty chamber.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @returns OK or the reasons; blank for a blank chamber.
 * @example =KEYROW.PINSTACKWHY("2 6","S-018-6") → "OK"
 * @example =KEYROW.PINSTACKWHY("2 3","S-018-6") → "The master pin between 2 and 3 is too thin (1 of at least 2 steps)."
 * @errors #VALUE! where the depths can't be read, or the spec has no plug diameter or pin table.
 * @source Thinnest master pin 0.023 in: trade-association magazine, July/August 2017.
 */
export function pinStackWhy(depths: unknown, spec: string, specs?: unknown[][]): string {
  if (isBlank(depths)) return BLANK;
  const found = specIn(spec, specs);
  const stack = stackIn(found, chamberIn(found, depths, 'The chamber'), 'The chamber');
  const faults = stack ? faultsOf(found, stack) : [];
  const sentences = faults.map((f) => `${f[0]!.toUpperCase()}${f.slice(1)}.`);
  return sentences.join(' ') || 'OK';
}

/**
 * Pins of a whole cylinder as a table: a row for each chamber, a column for each pin. It spills, so it stands outside tables.
 *
 * Chambers count along the code, from its first symbol, not from the stop.
 * @customfunction PINSTACKS
 * @param chambers Row or column with the depths of each chamber in the order of the code, such as "2 6"; "any" for an empty one.
 * @param spec Name of the spec.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @param [unit] Unit of the answer, "in" or "mm"; the spec's own if left out.
 * @returns A header and a row for each chamber; lengths in the unit, blank where there is no such pin.
 * @example =KEYROW.PINSTACKS({"1 3","2","any","4","6"},"S-025-5") → {"Chamber","Depths","Bottom","Master","Top";1,"1 3",0.18,0.05,0.23;2,"2",0.205,"",0.255;3,"any","","","";4,"4",0.255,"",0.205;5,"6",0.305,"",0.155}
 * @errors #VALUE! where a chamber can't be read, or the spec has no plug diameter, pin table or target stack to work with.
 * @source Bottom pin = plug diameter − root depth, or the spec's own pin table; master pins are the differences.
 */
export function pinStacks(
  chambers: unknown[][],
  spec: string,
  specs?: unknown[][],
  unit?: string,
): unknown[][] {
  const found = specIn(spec, specs);
  const shown = unitIn(unit, found);
  const sets = chambersIn(found, chambers);
  if (!sets) return [[BLANK]];
  const stacks = sets.map((set, i) => stackIn(found, set, `Chamber ${i + 1}`));
  const most = Math.max(1, ...stacks.map((s) => s?.masters.length ?? 0));
  const names = Array.from({ length: most }, (_, i) => (i === 0 ? 'Master' : `Master ${i + 1}`));
  const cell = (length: Length | undefined): number | string =>
    length === undefined ? BLANK : toUnit(length, shown);
  const rows = stacks.map((stack, i) => [
    i + 1,
    formatDepthSet(found, sets[i] ?? EVERY),
    cell(stack?.bottom.length),
    ...names.map((_, k) => cell(stack?.masters[k]?.length)),
    stack ? cell(partOf(found, stack, 'top')) : BLANK,
  ]);
  return [['Chamber', 'Depths', 'Bottom', ...names, 'Top'], ...rows];
}
