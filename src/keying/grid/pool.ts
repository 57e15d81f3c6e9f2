/** Everyday keying without a master: pools of keyed-different bittings, and groups that are keyed alike. */
import type { Bitting } from '../bitting.ts';
import type { Rules } from '../rules.ts';
import type { Specification } from '../specification.ts';
import type { CylinderRecord } from '../system.ts';

export interface PoolRequest {
  readonly spec: Specification;
  /** Different bittings wanted. */
  readonly count: number;
  readonly rules?: Rules;
  /** Chambers in which any two differ at least, used ones included; 1 when left out. */
  readonly minimumDifference?: number;
  /** Keep a whole number of steps from this bitting. */
  readonly parityOf?: Bitting;
  /** Used before, whatever their status. */
  readonly used?: readonly Bitting[];
  /** Existing cylinders that none may operate. */
  readonly cylinders?: readonly CylinderRecord[];
  readonly seed?: number;
}

export interface Pool {
  readonly bittings: readonly Bitting[];
  /** Fewer than wanted were found. `exhausted`: every bitting was looked at, so that a different order is the only hope. */
  readonly short: boolean;
  readonly exhausted: boolean;
  /** Bittings that pass the rules and aren't used, before the minimum difference. */
  readonly looked: number;
}
