/** From a solved state to an answer: cuts and chambers in the grid's order, the audit that has to pass, the cost. */
import { bittingOf, type Bitting } from '../bitting.ts';
import { pinnedFor } from '../cylinder.ts';
import { depthsIn, EVERY, NONE, type DepthSet } from '../depthSet.ts';
import type { Chambers, Steps } from '../system.ts';
import type { Grid, SolveOptions } from './chart.ts';
import { auditGate } from './gate.ts';
import type { Prepared } from './prepare.ts';
import type { CylinderCost, GridCost, PinCount, Solved } from './result.ts';
import type { GridState } from './state.ts';

/** Makes the answer and has it pass the audit. */
export function* answerOf(
  grid: Grid,
  options: SolveOptions,
  prepared: Prepared,
  state: GridState,
  steps: number,
  asFound: PinCount,
): Steps<Solved> {
  const { spec } = grid;
  const bittings = grid.keys.map(
    ({ bitting }, k) => bitting ?? bittingOf(spec, state.cutsOf(prepared.keyClass[k]!)),
  );
  const chambers = chambersOf(grid, bittings);
  const { perCylinder } = yield* auditGate(grid, options, bittings, chambers);
  const cost = costOf(grid, chambers, perCylinder, asFound);
  return {
    kind: 'solved',
    keys: grid.keys.map(({ symbol, bitting }, k) => ({
      symbol,
      bitting: bittings[k]!,
      fixed: bitting !== undefined,
    })),
    cylinders: grid.cylinders.map(({ id, chambers: given }, c) => ({
      id,
      chambers: chambers[c]!,
      fixed: given !== undefined,
    })),
    cost,
    alike: prepared.keysIn
      .filter((members) => members.length > 1)
      .map((members) => members.map((k) => grid.keys[k]!.symbol)),
    unmarked: grid.cylinders.flatMap(({ id }, c) => (grid.marks[c]!.length === 0 ? [id] : [])),
    steps,
  };
}

/** Each new cylinder pinned for the keys marked for it. */
function chambersOf({ spec, cylinders, marks }: Grid, bittings: readonly Bitting[]): Chambers[] {
  return cylinders.map((cylinder, c) => {
    if (cylinder.chambers) return cylinder.chambers;
    // Pinned for nobody: a chamber without a depth never shears.
    if (marks[c]!.length === 0) return spec.centres.map(() => NONE);
    return pinnedFor(
      spec,
      marks[c]!.map((k) => bittings[k]!),
      cylinder.inUse,
    );
  });
}

/** Master pins of a state that is solved. */
export function pinsIn({ cylindersIn }: Prepared, { sets, instance }: GridState): PinCount {
  const { positions: p, depths } = instance;
  const total = { masterPins: 0, extraMasterPins: 0 };
  cylindersIn.forEach((members, c) => {
    const { masterPins, extra } = pinsOf(
      Array.from(sets.subarray(c * p, (c + 1) * p)) as number[] as DepthSet[],
      depths,
    );
    total.masterPins += masterPins * members.length;
    total.extraMasterPins += extra * members.length;
  });
  return total;
}

function costOf(
  { spec, cylinders }: Grid,
  chambers: readonly Chambers[],
  counts: readonly { readonly operating: number; readonly incidental: number }[],
  asFound: PinCount,
): GridCost {
  const perCylinder = cylinders.map(({ id }, c): CylinderCost => {
    const { masterPins } = pinsOf(chambers[c]!, spec.depths.length);
    return { id, combinations: counts[c]!.operating, incidental: counts[c]!.incidental, masterPins };
  });
  const sum = (of: (c: number) => number): number => cylinders.reduce((total, _, c) => total + of(c), 0);
  return {
    masterPins: sum((c) => perCylinder[c]!.masterPins),
    extraMasterPins: sum((c) => pinsOf(chambers[c]!, spec.depths.length).extra),
    asFound,
    mostCombinations: perCylinder.reduce((most, { combinations }) => Math.max(most, combinations), 0),
    incidental: sum((c) => perCylinder[c]!.incidental),
    perCylinder,
  };
}

/** Master pins of a cylinder, and those beyond one a chamber. */
export function pinsOf(chambers: Chambers, depths: number): { masterPins: number; extra: number } {
  let masterPins = 0;
  let extra = 0;
  for (const set of chambers) {
    if (set === EVERY || set === NONE) continue;
    const pins = depthsIn(set, depths).length - 1;
    masterPins += pins;
    extra += Math.max(0, pins - 1);
  }
  return { masterPins, extra };
}
