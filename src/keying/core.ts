/**
 * Interchangeable cores: two shear lines in one stack of pins. The operating line works as in any cylinder; at the
 * control line, one control sleeve higher, the control key pulls the core out. Stack from below, in steps: bottom,
 * masters up to the deepest operating cut, build-up = control cut + addition − deepest operating cut, and
 * top = total − control cut − addition (core service manual, section on pinning). Index 0 has a physical bottom pin.
 */
import { carries, FULL_REACH, type Reach } from './blankReach.ts';
import { depthsIn, EVERY, hasDepth, NONE, type DepthSet } from './depthSet.ts';
import { pinStack, type Pin, type ThinPin } from './pinning.ts';
import { assert } from './result.ts';
import { increment, type Specification } from './specification.ts';
import type { Chambers } from './system.ts';
import { lengthOf, type Length } from './units.ts';

export interface CorePinStack {
  readonly bottom: Pin;
  readonly masters: readonly Pin[];
  readonly buildUp: Pin;
  readonly top: Pin;
  /** Steps of all pins together: the spec's total. */
  readonly total: number;
  readonly thin: readonly ThinPin[];
  /** The build-up pin is thinner than the thinnest pin (or there is no room for one at all). */
  readonly thinBuildUp: boolean;
  /** The top pin is thinner than the thinnest pin. */
  readonly tooTall: boolean;
}

/**
 * The pins of one chamber of a core with a control cut, or undefined where the chamber is empty.
 * @example total 23, addition 10, depths {2, 6}, control 5 → bottom 2, master 4, build-up 9, top 8
 */
export function coreStack(spec: Specification, set: DepthSet, control: number): CorePinStack | undefined {
  assert(spec.core, `${spec.name} is not a spec of interchangeable cores`);
  const operating = pinStack(spec, set);
  if (!operating) return undefined;
  const { total, addition } = spec.core;
  const buildUp = control + addition - operating.total.steps;
  const top = total - control - addition;
  return {
    bottom: operating.bottom,
    masters: operating.masters,
    buildUp: { steps: buildUp, length: stepsLength(spec, buildUp) },
    top: { steps: top, length: stepsLength(spec, top) },
    total: operating.total.steps + buildUp + top,
    thin: operating.thin,
    thinBuildUp: buildUp < spec.step,
    tooTall: top < spec.step,
  };
}

/** Core pins are made in whole steps of the increment. */
const stepsLength = (spec: Specification, steps: number): Length => lengthOf(steps * increment(spec.depths));

/** Whether a key works the control line of a core: its cut equals the control cut at every pinned chamber. */
export function worksControlLine(
  chambers: Chambers,
  control: readonly number[],
  cuts: readonly number[],
  reach: Reach = FULL_REACH,
): boolean {
  return chambers.every((set, i) => set === EVERY || (carries(reach, i) && cuts[i] === control[i]));
}

/** Whether the control bitting of a core also operates it, which must never be. */
export const controlIsIncidental = (chambers: Chambers, control: readonly number[]): boolean =>
  chambers.every((set, i) => hasDepth(set, control[i]!));

export interface CoreFault {
  /** Counted from 1 in the order of the code; 0 for a fault of the whole core. */
  readonly chamber: number;
  readonly fault: 'thin-master-pin' | 'thin-build-up' | 'stack-too-tall' | 'control-is-incidental';
  readonly steps: number;
}

/** Everything wrong with the pins of one chamber, counted from 1. */
export function stackFaults(stack: CorePinStack, chamber: number): CoreFault[] {
  const faults: CoreFault[] = [];
  for (const { steps } of stack.thin) faults.push({ chamber, fault: 'thin-master-pin', steps });
  if (stack.thinBuildUp) faults.push({ chamber, fault: 'thin-build-up', steps: stack.buildUp.steps });
  if (stack.tooTall) faults.push({ chamber, fault: 'stack-too-tall', steps: stack.top.steps });
  return faults;
}

/** Everything wrong with both shear lines of one core. */
export function coreFaults(spec: Specification, chambers: Chambers, control: readonly number[]): CoreFault[] {
  const faults: CoreFault[] = [];
  chambers.forEach((set, i) => {
    const stack = coreStack(spec, set, control[i]!);
    if (!stack) return;
    faults.push(...stackFaults(stack, i + 1));
  });
  const pinned = chambers.some((set) => set !== EVERY && set !== NONE);
  if (pinned && controlIsIncidental(chambers, control))
    faults.push({ chamber: 0, fault: 'control-is-incidental', steps: 0 });
  return faults;
}

/**
 * Control cuts that leave room for build-up and top pins at a chamber, whatever the keys of the system: every depth
 * whose build-up over the deepest operating cut and whose top pin are both at least the thinnest.
 */
export function controlChoices(spec: Specification, set: DepthSet): number[] {
  return depthsIn(EVERY, spec.depths.length).filter((control) => {
    const stack = coreStack(spec, set, control);
    return !stack || (!stack.thinBuildUp && !stack.tooTall);
  });
}
