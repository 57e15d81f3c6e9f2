/** Worksheet functions: pin stacks of interchangeable cores, which have two shear lines. Counted in steps. */
import {
  coreFaults,
  coreStack as stackOf,
  stackFaults,
  type CoreFault,
  type CorePinStack,
} from '../src/keying/core.ts';
import type { Specification } from '../src/keying/specification.ts';
import { BLANK, isBlank, optionalText, refuse } from './cells.ts';
import { bittingIn, chamberIn, chambersIn } from './keys.ts';
import { specIn } from './specs.ts';

function coreIn(name: unknown, specs: unknown): Specification {
  const spec = specIn(name, specs);
  return spec.core
    ? spec
    : refuse(
        `${spec.name} is not an interchangeable core: it has no Core total and Core addition. Use PINSTACK.`,
      );
}

function partOf(stack: CorePinStack, part: string): number | undefined {
  const folded = part.toLowerCase().replace(/[\s-]+/g, ' ');
  const master = /^master(?: ?(\d+))?$/.exec(folded);
  if (master) return stack.masters[Number(master[1] ?? 1) - 1]?.steps;
  switch (folded) {
    case 'bottom':
      return stack.bottom.steps;
    case 'build up':
      return stack.buildUp.steps;
    case 'top':
      return stack.top.steps;
    default:
      return refuse(
        `The part is “${part}”; it must be bottom, master, master 2 (and so on), build-up or top.`,
      );
  }
}

/** Each fault as a clause that follows the pins or a chamber's number. */
const FAULT_WORDS: Record<CoreFault['fault'], (f: CoreFault, spec: Specification) => string> = {
  'thin-master-pin': (f, spec) => `a master pin of ${f.steps} is too thin; the least is ${spec.step}`,
  'thin-build-up': (f, spec) =>
    `a build-up pin of ${f.steps} is too thin; the least is ${spec.step}. Choose another control cut`,
  'stack-too-tall': (f, spec) => `only ${f.steps} is left for the top pin; the least is ${spec.step}`,
  'control-is-incidental': () =>
    'The control key also operates the core as an ordinary key; change a control cut',
};

/**
 * Pins of one chamber of an interchangeable core, in steps: bottom, masters, build-up pin up to the control line, top pin.
 *
 * Left alone it gives the whole stack as text, faults included; with a part it gives that pin's steps as a number, even where the pin is too thin: CORESTACKWHY checks the whole core.
 * The control cut is the control key's cut in this chamber. A bottom pin of 0 steps is a pin too.
 * @customfunction CORESTACK
 * @param depths Operating depths of the chamber as text with spaces, such as "2 6"; "any" for an empty chamber.
 * @param control Depth symbol of the control cut in this chamber.
 * @param spec Name of a spec with Core total and Core addition.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @param [part] "bottom", "master" (the first above the bottom pin), "master 2" and so on, "build-up" or "top".
 * @returns The stack as text, or the steps of one pin; blank where the chamber is blank or has no such pin.
 * @example =KEYROW.CORESTACK("2 6","5","T-0125-7") → "bottom 2 + master 4 + build-up 9 + top 8 = 23"
 * @example =KEYROW.CORESTACK("2 6","5","T-0125-7",,"build-up") → 9
 * @errors #VALUE! where the depths or the control cut can't be read, the spec is no core, or a pin would have less than nothing left.
 * @source Core service manual, section on pinning: build-up = control cut + addition − deepest operating cut; top = total − control cut − addition.
 */
export function coreStack(
  depths: unknown,
  control: unknown,
  spec: string,
  specs?: unknown[][],
  part?: string,
): number | string {
  if (isBlank(depths)) return BLANK;
  const found = coreIn(spec, specs);
  const wanted = optionalText(part, 'The part');
  const symbol = optionalText(control, 'The control cut') ?? refuse('The control cut is blank; fill it in.');
  const cut = found.depths.findIndex((d) => d.symbol.toUpperCase() === symbol.toUpperCase());
  if (cut < 0) return refuse(`The control cut is “${symbol}”, which is not a depth of ${found.name}.`);
  const stack = stackOf(found, chamberIn(found, depths, 'The chamber'), cut);
  if (!stack) return wanted === undefined ? 'empty' : BLANK;
  if (stack.buildUp.steps < 0 || stack.top.steps < 0)
    return refuse(
      `Control cut ${symbol} leaves ${stack.buildUp.steps < 0 ? 'no room for a build-up pin' : 'no room for a top pin'}; choose another.`,
    );
  if (wanted !== undefined) return partOf(stack, wanted) ?? BLANK;
  const pins = [
    `bottom ${stack.bottom.steps}`,
    ...stack.masters.map((pin) => `master ${pin.steps}`),
    `build-up ${stack.buildUp.steps}`,
    `top ${stack.top.steps}`,
  ];
  const faults = stackFaults(stack, 1).map((f) => `; ${FAULT_WORDS[f.fault](f, found)}`);
  return `${pins.join(' + ')} = ${stack.total}${faults.join('')}`;
}

/**
 * What is wrong with a whole interchangeable core, in plain words; OK when nothing is.
 *
 * Chambers count along the code, from its first symbol, not from the stop.
 * @customfunction CORESTACKWHY
 * @param chambers Row or column with the operating depths of each chamber in the order of the code; "any" for an empty one.
 * @param control Code of the control key.
 * @param spec Name of a spec with Core total and Core addition.
 * @param [specs] Range of the Specs table with its header row; may be left out for a starter spec.
 * @returns OK or the reasons; blank where all chambers are.
 * @example =KEYROW.CORESTACKWHY({"2 6","3 5","1","4","0 2","5","3"},"5-4-3-2-4-3-1","T-0125-7") → "OK"
 * @errors #VALUE! where a chamber or the control key can't be read, or the spec is no core.
 * @source Core service manual, section on pinning.
 */
export function coreStackWhy(
  chambers: unknown[][],
  control: unknown,
  spec: string,
  specs?: unknown[][],
): string {
  const found = coreIn(spec, specs);
  const sets = chambersIn(found, chambers);
  if (!sets) return BLANK;
  const faults = coreFaults(found, sets, bittingIn(found, control ?? '', 'The control key'));
  return (
    faults
      .map((f) => `${f.chamber > 0 ? `Chamber ${f.chamber}: ` : ''}${FAULT_WORDS[f.fault](f, found)}.`)
      .join(' ') || 'OK'
  );
}
