/** Which keys never turn in a cylinder, whatever the cuts: the blank doesn't enter it, or is too short for its chambers. */
import { carries, reachOf } from '../blankReach.ts';
import { entersKeyway } from '../keyways.ts';
import type { Grid } from './chart.ts';
import type { ProofReason } from './result.ts';

/** Some blank of the grid is short, or some keyway is named. */
export const hasBlanks = ({ keys, cylinders }: Grid): boolean =>
  keys.some(({ cuts, keyway }) => cuts !== undefined || keyway !== undefined) &&
  (keys.some(({ cuts }) => cuts !== undefined) || cylinders.some(({ keyway }) => keyway !== undefined));

/** Chambers of a key's blank, as bits. */
export const reachOfKey = ({ spec, keys }: Grid, k: number): number => reachOf(spec, keys[k]!.cuts);

/** Why key k never turns in cylinder c, whose pinned chambers are given as bits; undefined where it may. */
export function whyShut(grid: Grid, k: number, c: number, pinned: number): ProofReason | undefined {
  const key = grid.keys[k]!;
  const cylinder = grid.cylinders[c]!;
  const names = { key: key.symbol, cylinder: cylinder.id };
  if (!entersKeyway(grid.enters, key.keyway, cylinder.keyway))
    return { code: 'blank-does-not-enter', ...names };
  const reach = reachOf(grid.spec, key.cuts);
  const beyond = grid.spec.centres.findIndex((_, i) => (pinned >>> i) & 1 && !carries(reach, i));
  return beyond < 0 ? undefined : { code: 'blank-too-short', ...names, chamber: beyond + 1 };
}
