/**
 * Solves a key-by-door grid: finds bittings within the spec and its rules, and pins each cylinder for exactly the
 * keys marked for it, so that every key operates its cylinders and no other; or proves that there is none; or says how
 * far it got. Cheap proofs first, complete search where the grid is small, then the structured search. Deterministic:
 * the budget counts steps, so the same seed gives the same answer on any machine.
 */
import type { Steps } from '../system.ts';
import { tooMany } from './bounds.ts';
import type { Grid, SolveOptions } from './chart.ts';
import type { Work } from './construct.ts';
import { tooFarApart } from './apart.ts';
import { searchEverything } from './everything.ts';
import { fixedProblem } from './fixed.ts';
import { skippedLevels } from './levels.ts';
import { prepareGrid, wholeDomain, type Prepared } from './prepare.ts';
import { savePins } from './thrift.ts';
import { repinFor } from './repin.ts';
import type { Impossible, NotFound, ProofReason, ProofScope, Solved, SolveResult } from './result.ts';
import { dealShortage, domainUnder, searchGrid, type Attempt } from './search.ts';
import { shrink } from './shrink.ts';
import { answerOf, pinsIn } from './verify.ts';

export const DEFAULT_BUDGET = 2_000_000;
/** Small grids: the structured search has this share of the budget first, then a complete search up to the other. */
const QUICK_SHARE = 0.02;
const EXACT_SHARE = 0.7;
/** Grids with more keys aren't searched completely. */
const MOST_KEYS_EXACT = 40;
const MOST_VIOLATIONS = 200;
/** A solution is made cheaper in so many steps at most, and in so great a share of what is left of the budget. */
const THRIFT_STEPS = 200_000;
const THRIFT_SHARE = 0.5;

/**
 * @example runToEnd(solveGrid(gridOf(spec, ['M', 'A', 'B'], ['1', '2'], marks))).kind → 'solved'
 */
export function* solveGrid(grid: Grid, options: SolveOptions = {}): Steps<SolveResult> {
  const work: Work = { steps: 0 };
  const answer = yield* solveOnce(grid, options, work, options.budget ?? DEFAULT_BUDGET);
  if (answer.kind === 'solved' || !grid.cylinders.some(({ chambers }) => chambers)) return answer;
  const repin = yield* repinFor(
    grid,
    answer,
    (freed, budget) => solveOnce(freed, options, work, work.steps + budget),
    options.budget ?? DEFAULT_BUDGET,
  );
  return repin ? { ...answer, repin, steps: work.steps } : answer;
}

/** One grid as it stands, with existing keys and cylinders fixed. */
export function* solveOnce(grid: Grid, options: SolveOptions, work: Work, until: number): Steps<SolveResult> {
  const whole = prepareGrid(grid, options, wholeDomain(grid));
  const scope: ProofScope = options.constant?.length || options.topMaster ? 'this-deal' : 'any';
  const fixed = fixedProblem(grid, whole.instance, whole);
  if (fixed) return { ...fixed, steps: work.steps };
  const asked = options.topMaster
    ? prepareGrid(grid, options, domainUnder(grid, options, options.topMaster))
    : whole;
  const apart = tooFarApart(grid, options, asked);
  if (apart)
    return {
      kind: 'impossible',
      reason: apart.reason,
      scope,
      keys: apart.keys.map((k) => nameOfKey(grid, asked, k)),
      cylinders: apart.cylinders.map((c) => grid.cylinders[asked.cylindersIn[c]![0]!]!.id),
      minimal: false,
      steps: work.steps,
    };
  const counted = tooMany(asked.instance);
  if (counted) {
    const reason: ProofReason =
      counted.code === 'too-many-keys'
        ? { code: counted.code, needed: counted.needed, possible: counted.possible }
        : {
            code: counted.code,
            master: nameOfKey(grid, whole, counted.master!),
            needed: counted.needed,
            possible: counted.possible,
          };
    const keys = [...(counted.master === undefined ? [] : [counted.master]), ...counted.keys];
    return {
      kind: 'impossible',
      reason,
      scope: options.topMaster ? 'this-deal' : 'any',
      keys: keys.map((k) => nameOfKey(grid, whole, k)),
      cylinders: counted.cylinders.map((c) => grid.cylinders[whole.cylindersIn[c]![0]!]!.id),
      minimal: false,
      steps: work.steps,
    };
  }
  const start = work.steps;
  const small = whole.instance.keys <= MOST_KEYS_EXACT;
  if (small) {
    const quick = yield* inProgress(
      'searching',
      until,
      work,
      searchGrid(grid, options, work, start + (until - start) * QUICK_SHARE),
    );
    if (quick?.solved) return yield* answer(grid, options, quick, work, until);
    const found = yield* inProgress(
      'trying everything',
      until,
      work,
      searchEverything(grid, options, work, start + (until - start) * EXACT_SHARE),
    );
    if (found.kind === 'solved') return yield* answer(grid, options, found, work, until);
    if (found.kind === 'none') return yield* exhausted(grid, options, scope, work, until);
  }
  const attempt = yield* inProgress('searching', until, work, searchGrid(grid, options, work, until));
  if (attempt?.solved) return yield* answer(grid, options, attempt, work, until);
  return notFound(grid, attempt, work.steps);
}

/** Saves pins where it can, and answers with what the audit has passed. */
function* answer(
  grid: Grid,
  options: SolveOptions,
  { prepared, state }: Pick<Attempt, 'prepared' | 'state'>,
  work: Work,
  until: number,
): Steps<Solved> {
  const asFound = pinsIn(prepared, state);
  const stop = work.steps + Math.min(THRIFT_STEPS, Math.floor((until - work.steps) * THRIFT_SHARE));
  yield* inProgress('saving pins', until, work, savePins(state, prepared, work, stop));
  return yield* answerOf(grid, options, prepared, state, work.steps, asFound);
}

function* exhausted(
  grid: Grid,
  options: SolveOptions,
  scope: ProofScope,
  work: Work,
  until: number,
): Steps<Impossible> {
  const steps = work.steps;
  const core = yield* inProgress(
    'narrowing down the conflict',
    until,
    work,
    shrink(grid, options, work, until),
  );
  return {
    kind: 'impossible',
    reason: { code: 'search-exhausted', steps },
    scope,
    keys: core.keys.map((k) => grid.keys[k]!.symbol),
    cylinders: core.cylinders.map((c) => grid.cylinders[c]!.id),
    minimal: core.minimal,
    steps: work.steps,
  };
}

/** Passes on the inner work's figure (what is still wrong) as progress in steps of the budget. */
function* inProgress<T>(
  stage: string,
  until: number,
  work: Work,
  inner: Generator<number, T, void>,
): Steps<T> {
  for (;;) {
    const next = inner.next();
    if (next.done) return next.value;
    yield { stage: `${stage}: ${next.value} left`, done: Math.min(work.steps, until), total: until };
  }
}

const nameOfKey = (grid: Grid, { keysIn }: Prepared, k: number): string => {
  const member = keysIn[k]![0];
  return member === undefined ? 'an avoided bitting' : grid.keys[member]!.symbol;
};

function notFound(grid: Grid, attempt: Attempt | undefined, steps: number): NotFound {
  const shortage = attempt && dealShortage(grid, attempt);
  const hints = [...(shortage ? [shortage] : []), ...skippedLevels(grid)];
  if (!attempt)
    return {
      kind: 'not-found',
      steps,
      left: 0,
      unplaced: grid.keys.length,
      violations: [],
      keysRight: 0,
      keys: grid.keys.length,
      hints,
    };
  const { state, prepared } = attempt;
  const { cylinders } = state.instance;
  const wrong = new Set<number>();
  const violations = state.conflicts.map((pair) => {
    const k = Math.floor(pair / cylinders);
    wrong.add(k);
    return {
      key: nameOfKey(grid, prepared, k),
      cylinder: grid.cylinders[prepared.cylindersIn[pair % cylinders]![0]!]!.id,
    };
  });
  const right = grid.keys.filter(
    (_, k) => !wrong.has(prepared.keyClass[k]!) && state.isPlaced(prepared.keyClass[k]!),
  );
  return {
    kind: 'not-found',
    steps,
    left: violations.length,
    unplaced: state.unplaced,
    violations: violations.slice(0, MOST_VIOLATIONS),
    keysRight: right.length,
    keys: grid.keys.length,
    hints,
  };
}
