/** Small specs, random grids and a plain double loop, for the tests of grid solving. */
import { depthsIn } from '../../../src/keying/depthSet.ts';
import type { Grid, Solved } from '../../../src/keying/grid/index.ts';
import { makeSpecification, type Specification } from '../../../src/keying/specification.ts';
import { inches, lengthOf } from '../../../src/keying/units.ts';
import { NO_RULES } from '../../../src/keying/rules.ts';

/** A spec with so many positions and depths at 0.025 in, so progressed in single steps unless told otherwise. */
export function smallSpec(positions: number, depths: number, step = 1, macs = depths - 1): Specification {
  const made = makeSpecification({
    name: 'SMALL',
    title: 'for tests',
    unit: 'in',
    gauge: 'shoulder',
    order: 'bow-to-tip',
    positions,
    first: inches(0.25),
    spacing: inches(0.156),
    depths: Array.from({ length: depths }, (_, i) => ({
      symbol: `${i + 1}`,
      root: lengthOf(8_128_000 - i * 635_000),
    })),
    rootWidth: inches(0.05),
    angle: 90,
    macs,
    step,
  });
  if (!made.ok) throw new Error(JSON.stringify(made.error));
  return made.value;
}

export const noRules = NO_RULES;

export function randomOf(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return Math.floor((((t ^ (t >>> 14)) >>> 0) / 4294967296) * below);
  };
}

/** Every cylinder has at least one mark; others with the given chance in percent. */
export function randomGrid(
  spec: Specification,
  keys: number,
  cylinders: number,
  percent: number,
  seed: number,
): Grid {
  const random = randomOf(seed);
  return plainGrid(
    spec,
    keys,
    Array.from({ length: cylinders }, () => {
      const marked = Array.from({ length: keys }, (_, k) => k).filter(() => random(100) < percent);
      return marked.length > 0 ? marked : [random(keys)];
    }),
  );
}

export function plainGrid(spec: Specification, keys: number, marks: readonly (readonly number[])[]): Grid {
  return {
    spec,
    keys: Array.from({ length: keys }, (_, k) => ({ symbol: `K${k + 1}` })),
    cylinders: marks.map((_, c) => ({ id: `C${c + 1}` })),
    marks,
  };
}

/** Everything that is wrong with a solution, by looking at each pair and each chamber; empty when nothing is. */
export function wrongWith(grid: Grid, solved: Solved): string[] {
  const wrong: string[] = [];
  const { spec } = grid;
  grid.cylinders.forEach(({ id, chambers: given, inUse }, c) => {
    const { chambers } = solved.cylinders[c]!;
    if (given && given.join() !== chambers.join()) wrong.push(`${id} changed`);
    solved.keys.forEach(({ bitting, symbol }, k) => {
      let opens = true;
      for (let i = 0; i < chambers.length; i++) if (((chambers[i]! >>> bitting[i]!) & 1) === 0) opens = false;
      if (opens !== grid.marks[c]!.includes(k))
        wrong.push(`${symbol} ${opens ? 'operates' : "doesn't operate"} ${id}`);
    });
    if (given || grid.marks[c]!.length === 0) return;
    chambers.forEach((set, i) => {
      if (inUse?.[i] === false) {
        if (set !== -1) wrong.push(`${id} chamber ${i + 1} is pinned`);
        return;
      }
      const depths = depthsIn(set, spec.depths.length);
      const cuts = new Set(grid.marks[c]!.map((k) => solved.keys[k]!.bitting[i]!));
      if (depths.length !== cuts.size || depths.some((d) => !cuts.has(d)))
        wrong.push(`${id} chamber ${i + 1} differs from its keys`);
      depths.forEach((d, n) => {
        if (n > 0 && d - depths[n - 1]! < spec.step) wrong.push(`${id} chamber ${i + 1} has a thin pin`);
      });
    });
  });
  grid.keys.forEach(({ bitting }, k) => {
    if (bitting && bitting.join() !== solved.keys[k]!.bitting.join())
      wrong.push(`${solved.keys[k]!.symbol} changed`);
  });
  return wrong;
}
