/**
 * Why a wanted system can't be made, as data. Symbols name groups; `level` is the level of the keys that are short.
 * The words are in `wording.ts`.
 */
import type { Level } from './system.ts';

export type CapacityProblem =
  /** No change key was asked for. */
  | { readonly code: 'nothing-wanted' }
  /** More keys than the array has changes at all, before any rule. */
  | { readonly code: 'too-few-changes'; readonly needed: number; readonly possible: number }
  /**
   * No way of dealing the positions to the levels has room. `needed` and `possible` are for the level that falls
   * short in the best one. `proven` is false where the search was cut off, so that there might be one.
   */
  | {
      readonly code: 'no-deal-fits';
      readonly level: Level;
      readonly needed: number;
      readonly possible: number;
      readonly tried: number;
      readonly proven: boolean;
    }
  /** The deal that was asked for leaves a group short. */
  | {
      readonly code: 'group-too-small';
      readonly level: Level;
      readonly needed: number;
      readonly possible: number;
    }
  /** A deal that leaves a level of the system without positions, names a level it doesn't have, or is too short. */
  | { readonly code: 'deal-bad'; readonly level: Level }
  | { readonly code: 'deal-length'; readonly found: number; readonly expected: number }
  /** The top master breaks rules itself; what it breaks stands beside this problem. */
  | { readonly code: 'top-master-unusable' }
  /** No bitting was found that could be the top master. */
  | { readonly code: 'no-top-master'; readonly tried: number }
  /** A master that exists already doesn't follow the array and the deal at a chamber. */
  | { readonly code: 'master-off-deal'; readonly symbol: string; readonly chamber: number }
  /** More groups than the key coding has letters for. */
  | { readonly code: 'letters-used-up'; readonly level: Level; readonly possible: number }
  /** The same symbol was asked for twice. */
  | { readonly code: 'symbol-repeated'; readonly symbol: string }
  /** No control bitting was found that operates none of the cores. */
  | { readonly code: 'no-control-key'; readonly tried: number };
