/**
 * Synthetic key-by-door grids, invented and seeded.
 *
 * Irregular: every ordinary key has a door of its own (one in ten has two); one key opens every door; one key in
 * twelve or so is heavy (cleaners, trades) and wants a random 5 to 30 % of the doors whatever they are; one door in
 * twenty is a common door of two to eight ordinary keys. So that a solution is plausible, bittings are drawn first
 * (they are thrown away) and a mark is only made where with them the door still admits no key that isn't marked.
 * Nothing of the structure is told to the solver.
 *
 * Hierarchy: grand masters, masters and change keys, each under the one above; a share of the doors is cross-keyed:
 * marked for another group's change key and the keys above it.
 */
import type { Grid } from '../../src/keying/grid/index.ts';
import type { Specification } from '../../src/keying/specification.ts';
import { randomOf } from './random.ts';

type Random = (below: number) => number;

export function irregularChart(spec: Specification, n: number, seed: number, heavyShare = 0.08): Grid {
  const random = randomOf(seed * 7919 + n);
  const p = spec.centres.length;
  const depths = spec.depths.map((_, i) => i).filter((i) => i % spec.step === 0);
  const top = Array.from({ length: p }, () => depths[random(depths.length)]!);
  const draw = (i: number): number => {
    for (;;) {
      const depth = depths[random(depths.length)]!;
      if (depth !== top[i]) return depth;
    }
  };
  const heavyCount = Math.round(n * heavyShare);
  const ordinary = n - heavyCount - 1;
  const bittings: number[][] = [top];
  const shares: number[] = [];
  for (let h = 0; h < heavyCount; h++) {
    const cuts = [...top];
    for (let t = 0; t < 3; t++) {
      const i = random(p);
      cuts[i] = draw(i);
    }
    bittings.push(cuts);
    shares.push(0.05 + random(26) / 100);
  }
  const clusters: number[][] = [];
  const doorsCommon = Math.round(n * 0.05);
  while (bittings.length < n) {
    const base = top.map((_, i) => draw(i));
    const size = clusters.length < doorsCommon ? 2 + random(7) : 1;
    const [a, b] = [random(p), random(p)];
    const members: number[] = [];
    for (let m = 0; m < size && bittings.length < n; m++) {
      const cuts = [...base];
      if (m > 0) {
        cuts[a] = draw(a);
        cuts[b] = draw(b);
      }
      members.push(bittings.length);
      bittings.push(cuts);
    }
    if (size > 1) clusters.push(members);
  }
  const doors: number[][] = [];
  const first = n - ordinary;
  for (let k = first; k < n; k++)
    for (let copy = random(10) === 0 ? 2 : 1; copy > 0; copy--) doors.push([0, k]);
  for (const members of clusters) doors.push([0, ...members]);
  const marks = doors.map((door) => plantMarks(door, bittings, shares, random));
  return {
    spec,
    keys: bittings.map((_, k) => ({ symbol: k === 0 ? 'M' : k <= heavyCount ? `H${k}` : `K${k}` })),
    cylinders: marks.map((_, c) => ({ id: `D${c + 1}` })),
    marks,
  };
}

/** The door's own keys, whoever gets in with them, and those heavy keys that let nobody else in. */
function plantMarks(door: number[], bittings: number[][], shares: number[], random: Random): number[] {
  const sets = bittings[0]!.map((_, i) => door.reduce((bits, k) => bits | (1 << bittings[k]![i]!), 0));
  const marked = new Set(door);
  const admitted = (all: number[]): number[] =>
    bittings.flatMap((cuts, k) =>
      !marked.has(k) && cuts.every((cut, i) => (all[i]! >>> cut) & 1) ? [k] : [],
    );
  for (const k of admitted(sets)) marked.add(k);
  const wanting = shares.flatMap((share, h) => (random(1000) < share * 1000 ? [h + 1] : []));
  for (let i = wanting.length - 1; i > 0; i--) {
    const j = random(i + 1);
    [wanting[i], wanting[j]] = [wanting[j]!, wanting[i]!];
  }
  for (const h of wanting) {
    const wider = sets.map((bits, i) => bits | (1 << bittings[h]![i]!));
    marked.add(h);
    if (admitted(wider).length > 0) marked.delete(h);
    else wider.forEach((bits, i) => (sets[i] = bits));
  }
  return [...marked].sort((a, b) => a - b);
}

export function hierarchyChart(
  spec: Specification,
  levels: 3 | 4,
  doors: number,
  crossShare: number,
  seed: number,
): Grid {
  const random = randomOf(seed);
  const grands = levels === 4 ? 5 : 1;
  const mastersEach = levels === 4 ? 8 : 40;
  const symbols: string[] = ['T'];
  const grandOf: number[] = [];
  const masters: { key: number; above: number[] }[] = [];
  for (let g = 0; g < grands; g++) {
    const above = [0];
    if (levels === 4) above.push(symbols.push(`G${g + 1}`) - 1);
    for (let m = 0; m < mastersEach; m++) {
      const key = symbols.push(`M${g + 1}.${m + 1}`) - 1;
      masters.push({ key, above });
      grandOf.push(g);
    }
  }
  const groups: number[][] = masters.map(() => []);
  const marks: number[][] = [];
  for (let c = 0; c < doors; c++) {
    const m = c % masters.length;
    const key = symbols.push(`K${c + 1}`) - 1;
    groups[m]!.push(key);
    marks.push([...masters[m]!.above, masters[m]!.key, key]);
  }
  for (let c = 0; c < doors; c++) {
    if (random(1000) >= crossShare * 1000) continue;
    const m = random(masters.length);
    const key = groups[m]![random(groups[m]!.length)]!;
    marks[c] = [...new Set([...marks[c]!, ...masters[m]!.above, masters[m]!.key, key])];
  }
  return {
    spec,
    keys: symbols.map((symbol) => ({ symbol })),
    cylinders: marks.map((_, c) => ({ id: `D${c + 1}` })),
    marks: marks.map((list) => [...list].sort((a, b) => a - b)),
  };
}
