/**
 * Proposes a top master key: seeded, usable, with room. What a top master leaves open differs a lot: its cuts fix
 * which depths may be used under it, and a cut at the end of the range makes many changes break MACS. So some usable
 * bittings are drawn, the changes under each are sampled, and the roomiest come first.
 */
import { defaultArray, theoreticalChanges } from './array.ts';
import { bittingOf, type Bitting } from './bitting.ts';
import { mix } from './progression.ts';
import { positions, type Specification } from './specification.ts';
import type { UsableTest } from './usable.ts';

const DRAWN = 32;
/** Bittings drawn before none is found. */
export const MOST_DRAWS = 20_000;
const SAMPLES = 200;

/**
 * Top masters that pass `usable`, the roomiest first; none where no drawn bitting passes.
 * @example topMasterProposals(spec, usable, 1)[0] is the same bitting each time
 */
export function topMasterProposals(spec: Specification, usable: UsableTest, seed: number): Bitting[] {
  const found: { bitting: Bitting; room: number }[] = [];
  const seen = new Set<string>();
  for (let draw = 0; draw < MOST_DRAWS && found.length < DRAWN; draw++) {
    const cuts = Array.from(
      { length: positions(spec) },
      (_, i) => mix(draw * 16 + i, seed, 11) % spec.depths.length,
    );
    const name = cuts.join();
    if (seen.has(name) || !usable(cuts)) continue;
    seen.add(name);
    const bitting = bittingOf(spec, cuts);
    found.push({ bitting, room: roomUnder(spec, bitting, usable, seed) });
  }
  return found.sort((a, b) => b.room - a.room).map(({ bitting }) => bitting);
}

/** Usable changes under a top master, estimated from a sample. */
function roomUnder(spec: Specification, topMaster: Bitting, usable: UsableTest, seed: number): number {
  const array = defaultArray(spec, topMaster);
  if (array.some((choices) => choices.length === 0)) return 0;
  let passed = 0;
  for (let sample = 0; sample < SAMPLES; sample++) {
    const cuts = array.map((choices, i) => choices[mix(sample * 16 + i, seed, 12) % choices.length]!);
    if (usable(cuts)) passed++;
  }
  return (theoreticalChanges(array) * passed) / SAMPLES;
}
