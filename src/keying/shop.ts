/**
 * What a shop has on its shelf and bench: cutters, blanks, set-ups. Each is a small table of the shop's own; which of
 * them suit a spec is worked out from geometry alone, never from names.
 */
import { eatenFlat, EATEN_LIMIT, geometricMacs, wideningPasses, type Cutter } from './geometry.ts';
import { foldKeyway, type Entering } from './keyways.ts';
import { positions, type Specification } from './specification.ts';
import { foldName } from './specTable.ts';
import { lengthOf, type Length } from './units.ts';

/** A cutter wheel or punch of the shop's. */
export interface ShopCutter extends Cutter {
  readonly name: string;
}

export interface ShopBlank {
  readonly name: string;
  /** Keyways that it enters. */
  readonly keyways: readonly string[];
  /** Most cuts that it has room for; none = not stated. */
  readonly cuts?: number;
  /** Blanks that may be taken instead, by name. */
  readonly equivalents: readonly string[];
}

export interface ShopSetup {
  readonly spec: string;
  readonly cutter?: string;
  /** How the key is held in the vice, and against what it is stopped. */
  readonly hold: string;
  readonly stop: string;
  readonly note?: string;
}

export interface CutterFit {
  readonly cutter: ShopCutter;
  /** `fits`: makes the root width in one pass. `widens`: in several. `too-wide`: leaves a wider flat than the spec's. `too-narrow`: would take over a hundred passes. */
  readonly fit: 'fits' | 'widens' | 'too-wide' | 'too-narrow';
  /** Passes a cut, as offsets from its centre; a cutter that is too wide makes one. */
  readonly offsets: readonly Length[];
  /** Cutter's flat less the spec's root width; negative where it is narrower. */
  readonly wider: Length;
  /** Cutter's included angle less the spec's, in degrees. */
  readonly angleOff: number;
  /** Most steps between neighbours before this cutter eats a flat. */
  readonly macs: number;
  /** Fewest steps at which it does, and how much is eaten there; none where it never does. */
  readonly eats?: { readonly from: number; readonly by: Length };
  /** Neighbours that the spec allows are eaten: codes within its MACS can't all be cut with it. */
  readonly limits: boolean;
}

/**
 * How each cutter suits a spec: those that do without limit first, one pass before several, then by how little they fall short.
 * @example cutterFits(spec, [{ name: 'Wheel', flat: inches(0.04), angle: 90 }])[0].fit → 'widens'
 */
export function cutterFits(spec: Specification, cutters: readonly ShopCutter[]): CutterFit[] {
  return cutters
    .map((cutter) => fitOf(spec, cutter))
    .sort(
      (a, b) =>
        Number(a.limits) - Number(b.limits) ||
        Number(a.fit === 'too-narrow') - Number(b.fit === 'too-narrow') ||
        Number(a.fit === 'too-wide') - Number(b.fit === 'too-wide') ||
        Math.abs(a.angleOff) - Math.abs(b.angleOff) ||
        a.offsets.length - b.offsets.length ||
        b.macs - a.macs,
    );
}

function fitOf(spec: Specification, cutter: ShopCutter): CutterFit {
  const widening = wideningPasses(spec, cutter);
  const macs = geometricMacs(spec, cutter);
  const from = macs + 1;
  const by = from < spec.depths.length ? eatenAt(spec, from, cutter) : undefined;
  return {
    cutter,
    fit: widening.kind === 'widen' ? 'widens' : widening.kind,
    offsets: widening.kind === 'widen' ? widening.offsets : [lengthOf(0)],
    wider: lengthOf(cutter.flat - spec.rootWidth),
    angleOff: cutter.angle - spec.angle,
    macs,
    ...(by !== undefined && by > EATEN_LIMIT && { eats: { from, by } }),
    limits: macs < spec.macs || widening.kind === 'too-narrow',
  };
}

/** The most that neighbours so many steps apart eat with a cutter: the closest pair and the largest drop decide. */
function eatenAt(spec: Specification, steps: number, cutter: Cutter): Length {
  const closest = Math.min(...spec.centres.slice(1).map((centre, i) => centre - spec.centres[i]!));
  const drop = Math.max(...spec.depths.slice(steps).map((deep, i) => spec.depths[i]!.root - deep.root));
  return eatenFlat(spec, lengthOf(drop), lengthOf(closest), cutter);
}

export interface BlankFit {
  readonly blank: ShopBlank;
  /** Why it is here: it enters the keyway itself, or is named as an equivalent of one that does. */
  readonly by: 'keyway' | 'equivalent';
  /** Too short for the spec's cuts: how many it lacks. */
  readonly lacks: number;
}

/**
 * The blanks that enter a keyway, then their equivalents, those long enough first. An equivalent that has no row of
 * its own is shown with what is known of it: its name.
 * @example blanksFor(spec, 'K1', blanks).map((b) => b.blank.name) → ['B1', 'B1-brass']
 */
export function blanksFor(spec: Specification, keyway: string, blanks: readonly ShopBlank[]): BlankFit[] {
  const cuts = positions(spec);
  const lacks = (blank: ShopBlank): number => Math.max(0, cuts - (blank.cuts ?? cuts));
  const entering = blanks.filter((blank) => blank.keyways.some((k) => foldName(k) === foldName(keyway)));
  const found = new Map(
    entering.map((blank): [string, BlankFit] => [
      foldName(blank.name),
      { blank, by: 'keyway', lacks: lacks(blank) },
    ]),
  );
  for (const name of equivalentNames(entering, blanks)) {
    if (found.has(foldName(name))) continue;
    const blank = blanks.find((b) => foldName(b.name) === foldName(name)) ?? {
      name,
      keyways: [],
      equivalents: [],
    };
    found.set(foldName(name), { blank, by: 'equivalent', lacks: lacks(blank) });
  }
  return [...found.values()].sort((a, b) => a.lacks - b.lacks);
}

/**
 * Which keyways a key enters besides its own, by the keyway in its row or by the name of its blank. A keyway that
 * several blanks enter opens only what all of them do: a key for K1 is taken to be on a plain blank for K1 where the
 * shop has one beside a blank that enters K1 and K2. None where there is nothing to add.
 * @example [{ name: 'B12', keyways: ['K12', 'K1', 'K2'] }, { name: 'B1', keyways: ['K1'] }, …]
 *   → { K12: ['K1', 'K2'], B12: ['K12', 'K1', 'K2'], B1: ['K1'], … }
 */
export function enteringOf(blanks: readonly ShopBlank[]): Entering | undefined {
  const found = new Map<string, readonly string[]>();
  for (const { name, keyways } of blanks) {
    const names = keyways.map(foldKeyway);
    for (const own of [...names, foldKeyway(name)])
      found.set(own, found.get(own)?.filter((k) => names.includes(k)) ?? names);
  }
  const added = [...found].flatMap(([own, names]): [string, string[]][] => {
    const others = [...new Set(names)].filter((name) => name !== own);
    return others.length > 0 ? [[own, others]] : [];
  });
  return added.length === 0 ? undefined : Object.fromEntries(added);
}

/**
 * The blanks that may be taken instead of one, on whichever of the two rows that is stated.
 * @example equivalentsOf('B1', blanks) → ['B1-brass']
 */
export function equivalentsOf(name: string, blanks: readonly ShopBlank[]): string[] {
  const own = blanks.filter((blank) => foldName(blank.name) === foldName(name));
  const found = new Map(
    equivalentNames(own, blanks).map((other): [string, string] => [foldName(other), other]),
  );
  found.delete(foldName(name));
  return [...found.values()];
}

/** Equivalence is stated on either of the two rows. */
function equivalentNames(entering: readonly ShopBlank[], blanks: readonly ShopBlank[]): string[] {
  const names = new Set(entering.map((blank) => foldName(blank.name)));
  return [
    ...entering.flatMap((blank) => blank.equivalents),
    ...blanks
      .filter((blank) => blank.equivalents.some((name) => names.has(foldName(name))))
      .map((blank) => blank.name),
  ];
}

/** The set-up of a spec: the first row that names it. */
export const setupFor = (spec: Specification, setups: readonly ShopSetup[]): ShopSetup | undefined =>
  setups.find((setup) => foldName(setup.spec) === foldName(spec.name));
