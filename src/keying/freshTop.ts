/**
 * A new top master over keys that stay. The keys right below the top hold its cuts everywhere but in their own
 * positions, so the new one keeps those and moves in theirs, by whole steps: each chamber still holds two depths at
 * most. It may keep a cut of the old one here and there, where the keys below use up all others, as long as the old
 * one finds no cylinder that has all its cuts.
 */
import type { AccessMap } from './access.ts';
import type { Bitting } from './bitting.ts';
import { bittingOf, packBitting } from './bitting.ts';
import { depthsIn } from './depthSet.ts';
import { keyClassesOf, type KeyClass } from './keyClasses.ts';
import { entersKeyway } from './keyways.ts';
import { repinned, type LostKeyScope } from './lostKey.ts';
import { inOrder, totalSpace } from './progression.ts';
import { DEFAULT_RULES, isUsable } from './rules.ts';
import type { Chambers, KeySystem, Steps } from './system.ts';

export interface FreshTopRequest {
  readonly system: KeySystem;
  readonly access: AccessMap;
  /** Number of the top master that is lost. */
  readonly top: number;
  readonly scope: LostKeyScope;
  /** For each chamber whether it belongs to the level right below the top. */
  readonly moving: readonly boolean[];
  readonly seed: number;
}

/** Candidates looked at before the search is given up. */
const MOST_TRIED = 20_000;
const TRIED_A_STEP = 50;

/** A bitting for the new top master; undefined where none was found. */
export function* freshTop(request: FreshTopRequest): Steps<Bitting | undefined> {
  const { system, access, top, scope, moving, seed } = request;
  const { spec, keys, cylinders } = system;
  const old = keys[top]!.bitting;
  const space = totalSpace(
    spec.centres.flatMap((_, chamber) =>
      moving[chamber]
        ? [
            {
              chamber,
              master: old[chamber]!,
              choices: spec.depths.flatMap((_d, d) => ((d - old[chamber]!) % spec.step === 0 ? [d] : [])),
            },
          ]
        : [],
    ),
  );
  const used = new Set(
    keys.flatMap(({ bitting, status }) => (status === 'free' ? [] : [packBitting(spec, bitting)])),
  );
  const classes = classesOf(system);
  const changing = [...scope.exposed, ...scope.along];
  const others = changing.map((c) => ({
    cylinder: cylinders[c]!,
    meant: new Set(access.input.intended[c] ?? []),
    staying: (access.input.intended[c] ?? [])
      .filter((k) => k !== top && keys[k]!.level !== 'control')
      .map((k) => keys[k]!.bitting),
  }));
  const cuts = [...old] as number[];
  let tried = 0;
  for (const n of inOrder(space.size, 'scattered', seed)) {
    if (tried++ === MOST_TRIED) return undefined;
    if (tried % TRIED_A_STEP === 1)
      yield { stage: 'choosing-keys', done: tried - 1, total: Math.min(space.size, MOST_TRIED) };
    space.at(n, cuts);
    if (!isUsable(spec, cuts, DEFAULT_RULES) || used.has(packBitting(spec, cuts))) continue;
    const bitting = bittingOf(spec, [...cuts]);
    const fits = others.every(({ cylinder, meant, staying }) => {
      const chambers = repinned(system, cylinder.chambers, [...staying, bitting]);
      return isSound(chambers, spec.depths.length, spec.step) && letsInOnly(chambers, cylinder.keyway, meant);
    });
    if (fits) return bitting;
  }
  return undefined;

  /** No key in the list opens the cylinder but those that are meant to; the old top master is in the list. */
  function letsInOnly(chambers: Chambers, keyway: string | undefined, meant: ReadonlySet<number>): boolean {
    let alone = true;
    for (const { keyway: blank, index: tree } of classes)
      if (entersKeyway(access.input.enters, blank, keyway))
        tree.eachOperating(chambers, (k) => {
          if (k === top || !meant.has(k)) alone = false;
        });
    return alone;
  }
}

/** No two depths of a chamber nearer than a step: their master pin would be too thin. */
function isSound(chambers: Chambers, depths: number, step: number): boolean {
  return chambers.every((set) => {
    const list = depthsIn(set, depths);
    return list.length === depths || list.every((d, i) => i === 0 || d - list[i - 1]! >= step);
  });
}

/** Control keys turn no plug and are left out, like free bittings. */
const classesOf = ({ spec, keys }: KeySystem): KeyClass[] =>
  keyClassesOf({
    spec,
    keys: keys.map((key) => (key.level === 'control' ? { ...key, status: 'free' } : key)),
  });
