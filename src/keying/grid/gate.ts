/**
 * The gate that every solution has to pass: the exhaustive audit of all keys and all cylinders, of the avoided bittings
 * against the new cylinders, and of both lines of the cores. A solution that fails is a mistake of ours.
 */
import { auditSystem, type AuditInput, type AuditReport } from '../audit.ts';
import type { Bitting } from '../bitting.ts';
import { depthCount, depthsIn, EVERY } from '../depthSet.ts';
import { isThin } from '../pinning.ts';
import { assert } from '../result.ts';
import { DEFAULT_RULES, isUsable } from '../rules.ts';
import type { Chambers, Steps } from '../system.ts';
import type { Grid, SolveOptions } from './chart.ts';
import type { FindingCode } from '../auditFindings.ts';

const PAIRS: readonly FindingCode[] = ['interchange', 'lock-out', 'wrong-keyway', 'too-few-cuts'];
const CORES: readonly FindingCode[] = [
  'control-operates',
  'control-is-incidental',
  'thin-build-up',
  'stack-too-tall',
];

/** Throws unless the solution is right; the report of all keys against all cylinders comes back. */
export function* auditGate(
  grid: Grid,
  options: SolveOptions,
  bittings: readonly Bitting[],
  chambers: readonly Chambers[],
): Steps<AuditReport> {
  const { spec, enters } = grid;
  const keys = grid.keys.map(({ keyway, cuts }, k) => ({
    symbol: `${k}`,
    bitting: bittings[k]!,
    ...(keyway !== undefined && { keyway }),
    ...(cuts !== undefined && { cuts }),
  }));
  const cylinders = grid.cylinders.map(({ keyway }, c) => ({
    id: `${c}`,
    chambers: chambers[c]!,
    ...(keyway !== undefined && { keyway }),
  }));
  const isFresh = (c: number): boolean => grid.cylinders[c]!.chambers === undefined;
  const run = function* (
    part: Omit<AuditInput, 'spec'>,
    codes: readonly FindingCode[],
    what: string,
  ): Steps<AuditReport> {
    const report = yield* auditSystem({ spec, ...(enters && { enters }), ...part }, { near: false, cap: 1 });
    const wrong = codes.filter((code) => report.counts[code]);
    assert(wrong.length === 0, `${what}: ${wrong.join()} ${JSON.stringify(report.findings)}`);
    return report;
  };
  const nobody = (list: readonly unknown[]): number[][] => list.map(() => []);

  const report = yield* run({ keys, cylinders, intended: grid.marks }, PAIRS, 'the solved grid fails');
  const known = new Set(bittings.map((cuts) => cuts.join()));
  const avoid = (options.avoid ?? [])
    .filter((cuts) => !known.has(cuts.join()))
    .map((bitting, k) => ({ symbol: `avoided ${k}`, bitting }));
  const fresh = cylinders.filter((_, c) => isFresh(c));
  yield* run({ keys: avoid, cylinders: fresh, intended: nobody(fresh) }, PAIRS, 'an avoided bitting gets in');
  const cores = grid.cylinders.flatMap(({ control }, c) =>
    control ? [{ ...cylinders[c]!, control, fresh: isFresh(c) }] : [],
  );
  const freshCores = cores.filter((core) => core.fresh);
  yield* run({ keys, cylinders: freshCores, intended: nobody(freshCores) }, CORES, 'a core is wrong');
  const newKeys = keys.filter((_, k) => !grid.keys[k]!.bitting);
  yield* run(
    { keys: newKeys, cylinders: cores, intended: nobody(cores) },
    ['control-operates'],
    'a new key pulls a core',
  );
  checkNewKeys(grid, options, bittings);
  checkPins(grid, options, chambers);
  return report;
}

/** New keys within the rules, none avoided, and as far apart as asked for. */
function checkNewKeys({ spec, keys }: Grid, options: SolveOptions, bittings: readonly Bitting[]): void {
  const avoided = new Set((options.avoid ?? []).map((cuts) => cuts.join()));
  keys.forEach(({ bitting, symbol }, k) => {
    if (bitting) return;
    assert(
      isUsable(spec, bittings[k]!, options.rules ?? DEFAULT_RULES),
      `the bitting of ${symbol} is not usable`,
    );
    assert(!avoided.has(bittings[k]!.join()), `the bitting of ${symbol} was to be avoided`);
  });
}

/** No pin too thin, no more depths in a chamber than asked for. */
function checkPins(
  { spec, cylinders }: Grid,
  { mostDepths }: SolveOptions,
  chambers: readonly Chambers[],
): void {
  cylinders.forEach(({ id, chambers: given }, c) => {
    if (given) return;
    for (const set of chambers[c]!) {
      if (set === EVERY) continue;
      const depths = depthsIn(set, spec.depths.length);
      depths.forEach((depth, n) =>
        assert(n === 0 || !isThin(spec, depths[n - 1]!, depth), `thin master pin in cylinder ${id}`),
      );
      assert(depthCount(set, spec.depths.length) <= (mostDepths ?? Infinity), `too many depths in ${id}`);
    }
  });
}
