import { ProgrammerError } from '../keying/result.ts';
import type { KeySystem } from '../keying/system.ts';
import type { WritePlan } from './plan.ts';
import type { BookReading } from './reading.ts';

/** A system as it came out of the generator, with what the shop wants beside it. */
export interface NewSystem {
  readonly system: KeySystem;
  /** Which key must operate which cylinder. */
  readonly marks: readonly { readonly key: string; readonly cylinder: string }[];
  readonly keyway?: string;
  /** Number of keys to cut, by symbol. */
  readonly copies?: ReadonlyMap<string, number>;
  /** By cylinder id. */
  readonly locations?: ReadonlyMap<string, string>;
  readonly deal?: string;
  readonly seed?: number;
  readonly rules?: string;
  readonly note?: string;
}
export interface NewSystemOptions {
  /** Date as it shall stand in the sheet: the room knows no clock. */
  readonly made: string;
}
export function planNewSystem(_book: BookReading, _made: NewSystem, _options: NewSystemOptions): WritePlan {
  throw new ProgrammerError('not written yet');
}
