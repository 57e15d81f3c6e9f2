/**
 * Proposes the control bitting of interchangeable cores. It may not operate any core nor equal a key; the surest way
 * is a cut that no key of the system has at that chamber (one off the top master's parity), which keeps it apart
 * from keys made later too. Where the array leaves no such depth (one-step systems), it is tried against every core.
 */
import type { KeyBittingArray } from './array.ts';
import { bittingOf, type Bitting } from './bitting.ts';
import type { CapacityProblem } from './capacityProblem.ts';
import { controlChoices, controlIsIncidental } from './core.ts';
import { depthSetOf, hasDepth } from './depthSet.ts';
import { mix } from './progression.ts';
import { err, ok, type Result } from './result.ts';
import { isUsable, type Rules } from './rules.ts';
import type { Specification } from './specification.ts';
import type { Chambers } from './system.ts';

export interface ControlContext {
  readonly spec: Specification;
  readonly topMaster: Bitting;
  readonly array: KeyBittingArray;
  readonly cores: readonly Chambers[];
  /** Keys of the system, in use or not: none may pull a core. */
  readonly keys: readonly Bitting[];
  readonly rules: Rules;
  readonly seed: number;
}

const MOST_DRAWS = 20_000;

/** A control bitting, seeded and repeatable. */
export function proposeControl(context: ControlContext): Result<Bitting, CapacityProblem> {
  const { spec, topMaster, array, cores, keys, rules, seed } = context;
  const operating = array.map((choices, i) => depthSetOf([topMaster[i]!, ...choices]));
  const choices = operating.map((set) => controlChoices(spec, set));
  const taken = new Set(keys.map((cuts) => cuts.join()));
  if (choices.some((list) => list.length === 0)) return err({ code: 'no-control-key', tried: 0 });
  const apartPossible = operating.some((set, i) => choices[i]!.some((cut) => !hasDepth(set, cut)));
  for (let draw = 0; draw < MOST_DRAWS; draw++) {
    const cuts = choices.map((list, i) => list[mix(draw * 16 + i, seed, 13) % list.length]!);
    const apart = cuts.some((cut, i) => !hasDepth(operating[i]!, cut));
    if ((apartPossible && !apart) || taken.has(cuts.join()) || !isUsable(spec, cuts, rules)) continue;
    const control = bittingOf(spec, cuts);
    if (!cores.some((chambers) => controlIsIncidental(chambers, control))) return ok(control);
  }
  return err({ code: 'no-control-key', tried: MOST_DRAWS });
}
