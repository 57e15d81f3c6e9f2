/** From a grid to what the search works on: classes of keys and cylinders, domains, rules. */
import { operates } from '../cylinder.ts';
import { packBitting } from '../bitting.ts';
import { EVERY } from '../depthSet.ts';
import { foldKeyway } from '../keyways.ts';
import { isThin } from '../pinning.ts';
import { DEFAULT_RULES, isUsable } from '../rules.ts';
import { positions } from '../specification.ts';
import type { Grid, SolveOptions } from './chart.ts';
import { controlLines, depthsUnder, pullsOne } from './controls.ts';
import type { Instance } from './instance.ts';
import { hasBlanks, reachOfKey, whyShut } from './shut.ts';

export interface Prepared {
  readonly instance: Instance;
  /** Class of each key of the grid. */
  readonly keyClass: readonly number[];
  /** Class of each cylinder of the grid; −1 for one without a mark. */
  readonly cylinderClass: readonly number[];
  /** Keys of the grid in each class; none for an avoided bitting. */
  readonly keysIn: readonly (readonly number[])[];
  readonly cylindersIn: readonly (readonly number[])[];
}

/** Depths that may be used at each chamber, as bits. */
export type Domain = readonly number[];

/** Every depth of the spec, at every chamber. */
export function wholeDomain({ spec }: Grid): number[] {
  return spec.centres.map(() => (1 << spec.depths.length) - 1);
}

export function prepareGrid(grid: Grid, options: SolveOptions, domain: Domain): Prepared {
  const { spec } = grid;
  const p = positions(spec);
  const distinct = options.sameMarks === 'different';
  const rowOf: number[][] = grid.keys.map(() => []);
  const { cylinderClass, cylindersIn } = classifyCylinders(grid);
  cylindersIn.forEach((members, c) => {
    for (const k of grid.marks[members[0]!]!) rowOf[k]!.push(c);
  });
  const { keyClass, keysIn, fixedCuts } = classifyKeys(grid, rowOf, distinct);
  const known = new Set(fixedCuts.flatMap((cuts) => (cuts ? [packBitting(spec, cuts)] : [])));
  const controls = grid.cylinders.flatMap(({ control }) => (control ? [control] : []));
  for (const cuts of [...(options.avoid ?? []), ...controls]) {
    if (known.has(packBitting(spec, cuts))) continue;
    known.add(packBitting(spec, cuts));
    keysIn.push([]);
    fixedCuts.push(cuts);
  }
  const cylindersOf = keysIn.map((members) => (members.length === 0 ? [] : rowOf[members[0]!]!));
  const keysOf = cylindersIn.map((): number[] => []);
  cylindersOf.forEach((row, k) => {
    for (const c of row) keysOf[c]!.push(k);
  });
  const fixedSets = cylindersIn.map((members) => grid.cylinders[members[0]!]!.chambers);
  const near = nearDepths(grid);
  const inUse = cylindersIn.map((members) => usedBits(grid, members[0]!));
  const limits = cylindersIn.map(([c], at) => depthLimits(grid, c!, inUse[at]!));
  const domains = domainsOf(domain, fixedCuts, limits, cylindersOf, p);
  const lines = controlLines(grid, (c) => usedBits(grid, c));
  const rules = options.rules ?? DEFAULT_RULES;
  const avoided = new Set((options.avoid ?? []).map((cuts) => packBitting(spec, cuts)));
  const scratch = new Array<number>(p).fill(0);
  return {
    keyClass,
    cylinderClass,
    keysIn,
    cylindersIn,
    instance: {
      spec,
      positions: p,
      depths: spec.depths.length,
      keys: keysIn.length,
      cylinders: cylindersIn.length,
      fixedCuts,
      fixedSets,
      inUse,
      keysOf,
      cylindersOf,
      domain: domains,
      near,
      thinMatters: thinMatters(domain, near, fixedCuts),
      shut: shutPairs(grid, keysIn, cylindersIn, inUse),
      avoided: keysIn.map((members) => members.length === 0),
      reach: keysIn.map(([k]) => (k === undefined ? -1 : reachOfKey(grid, k))),
      mostDepths: options.mostDepths ?? spec.depths.length,
      minimumDifference: options.minimumDifference ?? 1,
      distinct,
      usable(cuts) {
        for (let i = 0; i < p; i++) scratch[i] = cuts[i]!;
        if (!isUsable(spec, scratch, rules) || (lines.length > 0 && pullsOne(lines, scratch))) return false;
        return avoided.size === 0 || !avoided.has(packBitting(spec, scratch));
      },
    },
  };
}

function classifyCylinders(grid: Grid): { cylinderClass: number[]; cylindersIn: number[][] } {
  const classes = new Map<string, number>();
  const cylindersIn: number[][] = [];
  const cylinderClass = grid.cylinders.map((cylinder, c) => {
    const marks = grid.marks[c]!;
    // Without a mark an existing cylinder still counts: no new key may operate it.
    if (marks.length === 0 && !cylinder.chambers) return -1;
    const { chambers, keyway, control } = cylinder;
    const metal = `${chambers?.join() ?? ''} ${usedBits(grid, c)} ${control?.join() ?? ''}`;
    const name = `${metal} ${foldKeyway(keyway)} ${marks.join()}`;
    let at = classes.get(name);
    if (at === undefined) {
      at = cylindersIn.push([]) - 1;
      classes.set(name, at);
    }
    cylindersIn[at]!.push(c);
    return at;
  });
  return { cylinderClass, cylindersIn };
}

function classifyKeys(
  grid: Grid,
  rowOf: readonly (readonly number[])[],
  distinct: boolean,
): { keyClass: number[]; keysIn: number[][]; fixedCuts: (readonly number[] | undefined)[] } {
  const classes = new Map<string, number>();
  const keysIn: number[][] = [];
  const fixedCuts: (readonly number[] | undefined)[] = [];
  const keyClass = grid.keys.map(({ bitting, keyway, cuts }, k) => {
    const blank = `${foldKeyway(keyway)} ${cuts ?? ''}`;
    const name = `${bitting?.join() ?? ''} ${blank} ${rowOf[k]!.join()}${distinct && !bitting ? ` ${k}` : ''}`;
    let at = classes.get(name);
    if (at === undefined) {
      at = keysIn.push([]) - 1;
      classes.set(name, at);
      fixedCuts.push(bitting);
    }
    keysIn[at]!.push(k);
    return at;
  });
  return { keyClass, keysIn, fixedCuts };
}

/** Chambers of a cylinder that are pinned, as bits. */
export function usedBits({ spec, cylinders }: Grid, c: number): number {
  const { inUse, chambers } = cylinders[c]!;
  let bits = 0;
  for (let i = 0; i < positions(spec); i++)
    if (chambers ? chambers[i] !== EVERY : inUse?.[i] !== false) bits |= 1 << i;
  return bits;
}

function nearDepths({ spec }: Grid): Int32Array {
  const near = new Int32Array(spec.depths.length);
  spec.depths.forEach((_, a) => {
    spec.depths.forEach((__, b) => {
      if (a !== b && isThin(spec, a, b)) near[a] = near[a]! | (1 << b);
    });
  });
  return near;
}

function domainsOf(
  domain: Domain,
  fixedCuts: readonly (readonly number[] | undefined)[],
  limits: readonly (readonly number[] | undefined)[],
  cylindersOf: readonly (readonly number[])[],
  p: number,
): Int32Array {
  const domains = new Int32Array(fixedCuts.length * p);
  fixedCuts.forEach((cuts, k) => {
    for (let i = 0; i < p; i++) {
      let bits = cuts ? 1 << cuts[i]! : domain[i]!;
      if (!cuts) for (const c of cylindersOf[k]!) bits &= limits[c]?.[i] ?? -1;
      domains[k * p + i] = bits;
    }
  });
  return domains;
}

/** Depths at which a cylinder's chambers may shear, as bits: an existing one's, or what a control cut leaves room for. */
function depthLimits({ spec, cylinders }: Grid, c: number, pinned: number): readonly number[] | undefined {
  const { chambers, control } = cylinders[c]!;
  if (chambers || !control || !spec.core) return chambers;
  return control.map((cut, i) => ((pinned >>> i) & 1 ? depthsUnder(spec, cut) : -1));
}

function shutPairs(
  grid: Grid,
  keysIn: readonly (readonly number[])[],
  cylindersIn: readonly (readonly number[])[],
  inUse: readonly number[],
): Uint8Array | undefined {
  if (!hasBlanks(grid)) return undefined;
  const shut = new Uint8Array(keysIn.length * cylindersIn.length);
  keysIn.forEach(([k], key) => {
    if (k !== undefined)
      cylindersIn.forEach(([c], at) => {
        if (whyShut(grid, k, c!, inUse[at]!)) shut[key * cylindersIn.length + at] = 1;
      });
  });
  return shut;
}

function thinMatters(
  domain: Domain,
  near: Int32Array,
  fixedCuts: readonly (readonly number[] | undefined)[],
): boolean {
  return domain.some((bits, i) => {
    const all = fixedCuts.reduce((sum, cuts) => (cuts ? sum | (1 << cuts[i]!) : sum), bits);
    for (let depth = 0; depth < near.length; depth++)
      if ((all >>> depth) & 1 && (near[depth]! & all) !== 0) return true;
    return false;
  });
}

/** Existing keys against existing cylinders: what is wrong before anything new is tried. */
export function fixedFaults(grid: Grid): { key: number; cylinder: number; operates: boolean }[] {
  const wrong: { key: number; cylinder: number; operates: boolean }[] = [];
  grid.cylinders.forEach(({ chambers }, c) => {
    if (!chambers) return;
    const marked = new Set(grid.marks[c]);
    grid.keys.forEach(({ bitting }, k) => {
      if (!bitting) return;
      const does = !whyShut(grid, k, c, usedBits(grid, c)) && operates(chambers, bitting);
      if (does !== marked.has(k)) wrong.push({ key: k, cylinder: c, operates: does });
    });
  });
  return wrong;
}
