/** What solving a grid can answer: a solution that the audit has passed, a proof that there is none, or how far it got. */
import type { Bitting } from '../bitting.ts';
import type { Chambers } from '../system.ts';

/** Whether a proof holds for every bitting, or only for one dealing of the positions or one parity. */
export type ProofScope = 'any' | 'this-deal';

/** Why there is no solution; the numbers go with the code, the names with `keys` and `cylinders` of the answer. */
export type ProofReason =
  /** More different keys than usable bittings. */
  | { readonly code: 'too-many-keys'; readonly needed: number; readonly possible: number }
  /** More keys under one master than any bittings under it can tell apart (the largest rank of the order "fits where"). */
  | {
      readonly code: 'too-many-under-master';
      readonly master: string;
      readonly needed: number;
      readonly possible: number;
    }
  /** An existing key has to operate an existing cylinder and doesn't. */
  | { readonly code: 'fixed-lock-out'; readonly key: string; readonly cylinder: string }
  /** An existing key operates an existing cylinder and must not. */
  | { readonly code: 'fixed-interchange'; readonly key: string; readonly cylinder: string }
  /** No usable bitting operates the existing cylinders that a new key is marked for, and no other existing one. */
  | { readonly code: 'no-bitting-for-key'; readonly key: string }
  /** Existing keys marked for a new cylinder let another existing (or avoided) key in. */
  | { readonly code: 'fixed-keys-admit'; readonly key: string; readonly cylinder: string }
  /** Two existing keys of one cylinder make a master pin that is too thin. */
  | { readonly code: 'fixed-keys-thin'; readonly cylinder: string; readonly chamber: number }
  /** Existing keys of a new cylinder have more different cuts in a chamber than it may hold depths. */
  | {
      readonly code: 'fixed-keys-crowd';
      readonly cylinder: string;
      readonly chamber: number;
      readonly most: number;
    }
  /** A key is marked for a cylinder that its blank doesn't enter. */
  | { readonly code: 'blank-does-not-enter'; readonly key: string; readonly cylinder: string }
  /** A key is marked for a cylinder with a pinned chamber that its blank has no cut for. */
  | {
      readonly code: 'blank-too-short';
      readonly key: string;
      readonly cylinder: string;
      readonly chamber: number;
    }
  /** An existing key has the control cuts of a new core at its pinned chambers. */
  | { readonly code: 'control-is-a-key'; readonly key: string; readonly cylinder: string }
  /** A control cut leaves no room for pins in a chamber, whatever the operating cuts. */
  | { readonly code: 'control-without-room'; readonly cylinder: string; readonly chamber: number }
  /** Keys of one cylinder that need different bittings are more than its chambers can tell apart. */
  | {
      readonly code: 'too-many-on-door';
      readonly cylinder: string;
      readonly needed: number;
      readonly possible: number;
    }
  /** Keys are to differ in more chambers than can differ. */
  | { readonly code: 'difference-too-large'; readonly asked: number; readonly possible: number }
  /** More keys than can differ in so many chambers (Singleton 1964). */
  | {
      readonly code: 'too-many-apart';
      readonly needed: number;
      readonly possible: number;
      readonly difference: number;
    }
  /** Under total position progression a door for the lowest and the highest key admits every key between. */
  | { readonly code: 'skips-level'; readonly key: string; readonly cylinder: string }
  /** The grid is a hierarchy, but no dealing of the positions to its levels has room for the largest group. */
  | {
      readonly code: 'no-dealing-fits';
      /** The key above the largest group of the level that is shortest of room; none = the system itself. */
      readonly under?: string;
      readonly needed: number;
      readonly possible: number;
    }
  /** Every bitting was tried. */
  | { readonly code: 'search-exhausted'; readonly steps: number };

/** Existing cylinders that have to be re-pinned so that the rest can be solved. */
export interface Repin {
  readonly cylinders: readonly string[];
  readonly kind: 'proved-smallest' | 'best-found';
  /** No set with fewer will do. */
  readonly atLeast: number;
}

export interface CylinderCost {
  readonly id: string;
  /** Bittings that operate it, issued and incidental. */
  readonly combinations: number;
  /** Those of them that a blank can carry and that are no listed key's. */
  readonly incidental: number;
  /** Master pins. */
  readonly masterPins: number;
}

/** Master pins of all new and existing cylinders. */
export interface PinCount {
  readonly masterPins: number;
  /** Those beyond one in each chamber in use. */
  readonly extraMasterPins: number;
}

export interface GridCost extends PinCount {
  /** The same before cuts were changed to save pins. */
  readonly asFound: PinCount;
  readonly mostCombinations: number;
  readonly incidental: number;
  readonly perCylinder: readonly CylinderCost[];
}

export interface Solved {
  readonly kind: 'solved';
  /** In the order of the grid. */
  readonly keys: readonly { readonly symbol: string; readonly bitting: Bitting; readonly fixed: boolean }[];
  readonly cylinders: readonly {
    readonly id: string;
    readonly chambers: Chambers;
    readonly fixed: boolean;
  }[];
  readonly cost: GridCost;
  /** Groups of keys with the very same marks, cut alike. */
  readonly alike: readonly (readonly string[])[];
  /** Cylinders without a mark: left as they are, or pinned for nothing. */
  readonly unmarked: readonly string[];
  readonly steps: number;
}

export interface Impossible {
  readonly kind: 'impossible';
  readonly reason: ProofReason;
  readonly scope: ProofScope;
  /** A small set of keys and cylinders that conflict among themselves; nothing can be left out where `minimal`. */
  readonly keys: readonly string[];
  readonly cylinders: readonly string[];
  readonly minimal: boolean;
  /** Where existing cylinders stand in the way. */
  readonly repin?: Repin;
  readonly steps: number;
}

export interface Violation {
  readonly key: string;
  readonly cylinder: string;
}

export interface NotFound {
  readonly kind: 'not-found';
  readonly steps: number;
  /** Key and cylinder pairs that were still wrong in the best attempt. */
  readonly left: number;
  /** Keys that had no bitting yet in that attempt. */
  readonly unplaced: number;
  readonly violations: readonly Violation[];
  /** Keys that are right with every cylinder in that attempt, of all keys. */
  readonly keysRight: number;
  readonly keys: number;
  /** What rules out total position progression, if anything: skipped levels, no dealing with room. Not a proof. */
  readonly hints: readonly ProofReason[];
  readonly repin?: Repin;
}

export type SolveResult = Solved | Impossible | NotFound;
