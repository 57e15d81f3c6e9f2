/**
 * Key bitting array: for each chamber the change depths in the sequence of progression, with the top master key
 * (TMK) on top. A change depth lies a whole number of steps from the TMK's cut and is never that cut, so that no
 * master pin is thinner than the thinnest one and each chamber of a master-keyed cylinder holds two depths at most.
 * The shop may edit the array in its sheet; `arrayFaults` says everything that is wrong with it.
 */
import type { Bitting } from './bitting.ts';
import { positions, type Specification } from './specification.ts';

/** Depth indices for each chamber in code order. A chamber without choices stays the TMK's (constant). */
export type KeyBittingArray = readonly (readonly number[])[];

/** Faults of an edited array. `chamber` counts the code's symbols from 1. */
export type ArrayFault =
  | { readonly code: 'array-length'; readonly found: number; readonly expected: number }
  | { readonly code: 'array-unknown-depth'; readonly chamber: number; readonly index: number }
  | { readonly code: 'array-master-cut'; readonly chamber: number; readonly symbol: string }
  | { readonly code: 'array-repeated'; readonly chamber: number; readonly symbol: string }
  | {
      readonly code: 'array-thin';
      readonly chamber: number;
      readonly symbol: string;
      readonly steps: number;
      readonly step: number;
    }
  | {
      readonly code: 'array-parity';
      readonly chamber: number;
      readonly symbol: string;
      readonly steps: number;
      readonly step: number;
    };

export interface ArrayOptions {
  /** Fewest steps between two cuts of one chamber; the spec's own when left out. */
  readonly step?: number;
  /** Chambers that stay the TMK's, counted from 0 in code order (partial position progression). */
  readonly constants?: readonly number[];
}

/**
 * The widest array under a TMK: every depth a whole number of steps from its cut, shallow to deep, without it.
 * @example TMK 2 at a chamber of depths 0–9, step 2 → [0, 4, 6, 8]
 */
export function defaultArray(
  spec: Specification,
  topMaster: Bitting,
  { step = spec.step, constants = [] }: ArrayOptions = {},
): KeyBittingArray {
  return topMaster.map((cut, chamber) =>
    constants.includes(chamber)
      ? []
      : spec.depths.flatMap((_, i) => (i !== cut && (i - cut) % step === 0 ? [i] : [])),
  );
}

/** Everything wrong with an array under a TMK; none when it may be used. */
export function arrayFaults(
  spec: Specification,
  topMaster: Bitting,
  array: KeyBittingArray,
  step: number = spec.step,
): ArrayFault[] {
  if (array.length !== positions(spec))
    return [{ code: 'array-length', found: array.length, expected: positions(spec) }];
  return array.flatMap((choices, i) => chamberFaults(spec, choices, topMaster[i]!, i + 1, step));
}

function chamberFaults(
  spec: Specification,
  choices: readonly number[],
  master: number,
  chamber: number,
  step: number,
): ArrayFault[] {
  const faults: ArrayFault[] = [];
  const seen = new Set<number>();
  for (const index of choices) {
    const symbol = spec.depths[index]?.symbol;
    if (symbol === undefined) {
      faults.push({ code: 'array-unknown-depth', chamber, index });
      continue;
    }
    if (seen.has(index)) faults.push({ code: 'array-repeated', chamber, symbol });
    seen.add(index);
    const steps = Math.abs(index - master);
    if (steps === 0) faults.push({ code: 'array-master-cut', chamber, symbol });
    else if (steps < step) faults.push({ code: 'array-thin', chamber, symbol, steps, step });
    else if (steps % step !== 0) faults.push({ code: 'array-parity', chamber, symbol, steps, step });
  }
  return faults;
}

/**
 * Theoretical changes of total position progression: the product of the choices, chambers without any left out.
 * @example six chambers of four choices → 4096
 */
export function theoreticalChanges(array: KeyBittingArray): number {
  return array.reduce((product, choices) => product * Math.max(1, choices.length), 1);
}
