/** What cross-keying a door costs, shown before anything is written. */
import type { Chambers } from '../system.ts';

export interface DoorFigures {
  readonly chambers: Chambers;
  readonly combinations: number;
  /** Those that a blank can carry. */
  readonly cuttable: number;
  readonly masterPins: number;
  /** Listed keys that operate it. */
  readonly keys: readonly string[];
  /** Cuttable bittings that are no listed key's. */
  readonly incidental: number;
}

export interface CrossKeyingAlternative {
  readonly kind: 'empty-chamber' | 'constant-chamber';
  /** Chambers concerned, counted from 1. */
  readonly chambers: readonly number[];
  readonly after: DoorFigures;
  /** Keys that get in and are not wanted. */
  readonly getIn: readonly string[];
}

export interface CrossKeyingCost {
  readonly before: DoorFigures;
  readonly after: DoorFigures;
  readonly extraMasterPins: number;
  /** Master pins that would be too thin, by chamber from 1. */
  readonly thin: readonly number[];
  /** Listed keys that get in besides the wanted ones. */
  readonly getIn: readonly string[];
  /** Under the same higher keys, by their symbols. */
  readonly control: 'controlled' | 'uncontrolled' | 'unknown';
  readonly alternatives: readonly CrossKeyingAlternative[];
}
