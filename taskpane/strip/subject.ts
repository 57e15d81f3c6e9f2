/** What the strip at the foot can show. Plain data, so that it can be drawn and tested without a workbook. */
import type { Bitting } from '../../src/keying/bitting.ts';
import type { Specification } from '../../src/keying/specification.ts';
import type { BladeFinding } from '../pictures/bladeMarks.ts';
import type { GridState } from '../pictures/gridStates.ts';
import type { StackCylinder } from '../pictures/stackFacts.ts';
import type { Why } from '../pictures/why.ts';

/** A key or a door by name, and how the pair stands; `closed` pairs are left out of the lists. */
export interface Pairing {
  readonly name: string;
  readonly state: Exclude<GridState, 'closed'>;
}

export type StripSubject =
  | { readonly kind: 'nothing' }
  | {
      readonly kind: 'key';
      readonly symbol: string;
      readonly spec: Specification;
      readonly bitting: Bitting;
      readonly findings: readonly BladeFinding[];
      /** The doors it opens or should open; none for a key that opens no door by its kind: a control key, a free bitting. */
      readonly doors?: readonly Pairing[];
    }
  | {
      readonly kind: 'cylinder';
      readonly spec: Specification;
      readonly cylinder: StackCylinder;
      /** The keys that open it or should open it. */
      readonly keys: readonly Pairing[];
    }
  | { readonly kind: 'grid-cell'; readonly why: Why }
  | {
      readonly kind: 'holder';
      readonly name: string;
      readonly keys: readonly { readonly symbol: string; readonly copy?: string; readonly note?: string }[];
      /** Doors that these keys really open, by name. */
      readonly doors?: readonly Pairing[];
    }
  | { readonly kind: 'spec'; readonly spec: Specification }
  /** A row of ours whose content can't be read: says what is wrong with it. */
  | { readonly kind: 'unreadable'; readonly name: string; readonly sentence: string };
