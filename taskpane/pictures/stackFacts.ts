/** The pins of a whole cylinder as one list a chamber, from the bottom up; drawing and table are made from it. */
import { depthsIn, EVERY } from '../../src/keying/depthSet.ts';
import { coreFaults, coreStack } from '../../src/keying/core.ts';
import type { SystemFinding } from '../../src/keying/findings.ts';
import { pinStack } from '../../src/keying/pinning.ts';
import type { Specification } from '../../src/keying/specification.ts';
import type { CylinderRecord } from '../../src/keying/system.ts';
import type { Length } from '../../src/keying/units.ts';

export type StackCylinder = Pick<CylinderRecord, 'id' | 'door' | 'chambers' | 'control'>;

export const PIN_ROLES = ['bottom', 'master', 'build-up', 'top'] as const;
export type PinRole = (typeof PIN_ROLES)[number];

export interface StackPin {
  readonly role: PinRole;
  /** A top pin that fills up a length has no steps. */
  readonly steps?: number;
  readonly length?: Length;
  readonly thin: boolean;
}

export interface StackChamber {
  /** Counted from 1 in the order of the code. */
  readonly chamber: number;
  /** Depths at which it shears, shallow to deep; none in an empty chamber, which admits every depth. */
  readonly depths: readonly number[];
  readonly empty: boolean;
  /** From the bottom up. */
  readonly pins: readonly StackPin[];
}

export function stackChambers(spec: Specification, { chambers, control }: StackCylinder): StackChamber[] {
  return chambers.map((set, i) => ({
    chamber: i + 1,
    depths: set === EVERY ? [] : depthsIn(set, spec.depths.length),
    empty: set === EVERY,
    pins: spec.core && control ? corePins(spec, set, control[i]!) : plainPins(spec, set),
  }));
}

function plainPins(spec: Specification, set: Parameters<typeof pinStack>[1]): StackPin[] {
  const stack = pinStack(spec, set);
  if (!stack) return [];
  return [
    { role: 'bottom', ...stack.bottom, thin: false },
    ...mastersOf(stack, depthsIn(set, spec.depths.length)),
    ...(stack.top === undefined || stack.tooTall
      ? []
      : [{ role: 'top' as const, length: stack.top, thin: false }]),
  ];
}

function corePins(spec: Specification, set: Parameters<typeof coreStack>[1], control: number): StackPin[] {
  const stack = coreStack(spec, set, control);
  if (!stack) return [];
  return [
    { role: 'bottom', ...stack.bottom, thin: false },
    ...mastersOf(stack, depthsIn(set, spec.depths.length)),
    { role: 'build-up', ...stack.buildUp, thin: stack.thinBuildUp },
    { role: 'top', ...stack.top, thin: stack.tooTall },
  ];
}

type Masters = Pick<NonNullable<ReturnType<typeof pinStack>>, 'masters' | 'thin'>;

const mastersOf = ({ masters, thin }: Masters, depths: readonly number[]): StackPin[] =>
  masters.map((pin, k) => ({
    role: 'master',
    ...pin,
    thin: thin.some(({ from }) => from === depths[k]),
  }));

/** A finding and the chamber that it speaks of; 0 = the whole cylinder. */
export interface StackFinding {
  readonly chamber: number;
  readonly finding: SystemFinding;
}

/** Everything wrong with the stacks of a cylinder, chamber by chamber. */
export function stackFindings(spec: Specification, cylinder: StackCylinder): StackFinding[] {
  const { id, door, chambers, control } = cylinder;
  const named = { cylinder: door ?? id };
  if (spec.core && control)
    return coreFaults(spec, chambers, control).map(({ chamber, fault, steps }) => {
      switch (fault) {
        case 'thin-master-pin':
        case 'thin-build-up':
          return { chamber, finding: { code: fault, ...named, chamber, steps, step: spec.step } };
        case 'stack-too-tall':
          return { chamber, finding: { code: fault, ...named, chamber } };
        case 'control-is-incidental':
          return { chamber, finding: { code: fault, ...named } };
      }
    });
  return chambers.flatMap((set, i) => {
    const chamber = i + 1;
    const stack = pinStack(spec, set);
    if (!stack) return [];
    const found: StackFinding[] = stack.thin.map(({ steps }) => ({
      chamber,
      finding: { code: 'thin-master-pin', ...named, chamber, steps, step: spec.step },
    }));
    if (stack.tooTall) found.push({ chamber, finding: { code: 'stack-too-tall', ...named, chamber } });
    return found;
  });
}
