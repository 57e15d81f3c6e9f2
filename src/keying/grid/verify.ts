/** From a solved state to an answer: cuts and chambers in the grid's order, the audit that has to pass, the cost. */
import { auditSystem } from '../audit.ts';
import { bittingOf, type Bitting } from '../bitting.ts';
import { depthsIn, EVERY, NONE } from '../depthSet.ts';
import { pinnedFor } from '../cylinder.ts';
import { isThin } from '../pinning.ts';
import { assert } from '../result.ts';
import type { Chambers, Steps } from '../system.ts';
import type { Grid, SolveOptions } from './chart.ts';
import type { Prepared } from './prepare.ts';
import type { CylinderCost, GridCost, Solved } from './result.ts';
import type { GridState } from './state.ts';

/** Makes the answer and proves it by the exhaustive audit: every key and avoided bitting, every cylinder. */
export function* answerOf(
  grid: Grid,
  options: SolveOptions,
  prepared: Prepared,
  state: GridState,
  steps: number,
): Steps<Solved> {
  const { spec } = grid;
  const bittings = grid.keys.map(
    ({ bitting }, k) => bitting ?? bittingOf(spec, state.cutsOf(prepared.keyClass[k]!)),
  );
  const chambers = grid.cylinders.map((cylinder, c): Chambers => {
    if (cylinder.chambers) return cylinder.chambers;
    const marked = grid.marks[c]!;
    // Pinned for nobody: a chamber without a depth never shears.
    if (marked.length === 0) return spec.centres.map(() => NONE);
    return pinnedFor(
      spec,
      marked.map((k) => bittings[k]!),
      cylinder.inUse,
    );
  });
  const cost = yield* proved(grid, options, bittings, chambers);
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

function* proved(
  grid: Grid,
  options: SolveOptions,
  bittings: readonly Bitting[],
  chambers: readonly Chambers[],
): Steps<GridCost> {
  const { spec } = grid;
  const known = new Set(bittings.map((cuts) => cuts.join()));
  const avoid = (options.avoid ?? []).filter((cuts) => !known.has(cuts.join()));
  const keys = bittings.map((bitting, k) => ({ symbol: `${k}`, bitting }));
  const report = yield* auditSystem(
    {
      spec,
      keys,
      cylinders: chambers.map((sets, c) => ({ id: `${c}`, chambers: sets })),
      intended: grid.marks,
    },
    { near: false, cap: 1 },
  );
  assert(
    !report.counts.interchange && !report.counts['lock-out'],
    `the solved grid fails its audit: ${JSON.stringify(report.findings)}`,
  );
  const fresh = grid.cylinders.flatMap(({ chambers: given }, c) => (given ? [] : [c]));
  const avoided = yield* auditSystem(
    {
      spec,
      keys: avoid.map((bitting, k) => ({ symbol: `avoided ${k}`, bitting })),
      cylinders: fresh.map((c) => ({ id: `${c}`, chambers: chambers[c]! })),
      intended: fresh.map(() => []),
    },
    { near: false, cap: 1 },
  );
  assert(
    !avoided.counts.interchange,
    `the solved grid admits an avoided bitting: ${JSON.stringify(avoided.findings)}`,
  );
  for (const c of fresh)
    for (const set of chambers[c]!) {
      if (set === EVERY) continue;
      const depths = depthsIn(set, spec.depths.length);
      depths.forEach((depth, n) =>
        assert(n === 0 || !isThin(spec, depths[n - 1]!, depth), `thin master pin in cylinder ${c}`),
      );
    }
  return costOf(grid, chambers, report.perCylinder);
}

function costOf(
  { spec, cylinders }: Grid,
  chambers: readonly Chambers[],
  counts: readonly { readonly operating: number; readonly incidental: number }[],
): GridCost {
  const perCylinder = cylinders.map(({ id }, c): CylinderCost => {
    const { masterPins } = pinsOf(chambers[c]!, spec.depths.length);
    return { id, combinations: counts[c]!.operating, incidental: counts[c]!.incidental, masterPins };
  });
  const sum = (of: (c: number) => number): number => cylinders.reduce((total, _, c) => total + of(c), 0);
  return {
    masterPins: sum((c) => perCylinder[c]!.masterPins),
    extraMasterPins: sum((c) => pinsOf(chambers[c]!, spec.depths.length).extra),
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
