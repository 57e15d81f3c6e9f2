/**
 * Interchangeable cores in a grid. The control cuts may operate no core and be no key's, else a key would pull a core;
 * and the deepest operating cut has to leave room for the build-up pin: control + addition − deepest ≥ the thinnest.
 */
import type { Bitting } from '../bitting.ts';
import { controlChoices } from '../core.ts';
import { depthSetOf } from '../depthSet.ts';
import type { Specification } from '../specification.ts';
import type { Grid } from './chart.ts';
import type { ProofReason } from './result.ts';

/** The control cuts of a core, at its pinned chambers only. */
interface ControlLine {
  readonly control: Bitting;
  readonly pinned: number;
}

export function controlLines(
  { cylinders }: Grid,
  pinnedOf: (cylinder: number) => number,
): readonly ControlLine[] {
  const lines = new Map<string, ControlLine>();
  cylinders.forEach(({ control }, c) => {
    if (control) lines.set(`${control.join()} ${pinnedOf(c)}`, { control, pinned: pinnedOf(c) });
  });
  return [...lines.values()];
}

/** Whether a key with these cuts would pull a core. */
export const pullsOne = (lines: readonly ControlLine[], cuts: ArrayLike<number>): boolean =>
  lines.some(({ control, pinned }) =>
    control.every((cut, i) => ((pinned >>> i) & 1) === 0 || cuts[i] === cut),
  );

/** Depths that leave a build-up and a top pin over them at a control cut, as bits; every one without a core's stack. */
export function depthsUnder(spec: Specification, control: number): number {
  const all = (1 << spec.depths.length) - 1;
  if (!spec.core) return all;
  let bits = 0;
  for (let depth = 0; depth < spec.depths.length; depth++)
    if (controlChoices(spec, depthSetOf([depth])).includes(control)) bits |= 1 << depth;
  return bits;
}

/** What is wrong with control lines whatever the new keys will be. */
export function controlProblem(
  grid: Grid,
  pinnedOf: (cylinder: number) => number,
): (ProofReason & { readonly code: 'control-without-room' | 'control-is-a-key' }) | undefined {
  const { spec, keys, cylinders } = grid;
  for (const [c, { id, control, chambers }] of cylinders.entries()) {
    if (!control || chambers) continue;
    const pinned = pinnedOf(c);
    const narrow = control.findIndex((cut, i) => (pinned >>> i) & 1 && depthsUnder(spec, cut) === 0);
    if (narrow >= 0) return { code: 'control-without-room', cylinder: id, chamber: narrow + 1 };
    const same = keys.find(({ bitting }) => bitting && pullsOne([{ control, pinned }], bitting));
    if (same) return { code: 'control-is-a-key', key: same.symbol, cylinder: id };
  }
  return undefined;
}
