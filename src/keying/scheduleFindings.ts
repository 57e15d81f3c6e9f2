/** What can be wrong with, or be said of, a schedule: data only. The words are in `scheduleWording.ts`. */
import type { CautionKind, ScheduleRole } from './scheduleWords.ts';

/** Why a symbol was written otherwise than the coding has it. */
export type UntidyWhy = 'case' | 'spaces' | 'look-alike';

interface AtCell {
  /** Zero-based row in the schedule's cells. */
  readonly row: number;
  readonly role: ScheduleRole;
}

/** A better content for the cell of the finding; only ever offered. */
export interface ScheduleFix {
  readonly from: string;
  readonly to: string;
}

export type ScheduleFinding =
  | (AtCell &
      (
        | { readonly code: 'no-door' }
        | { readonly code: 'cell-error'; readonly text: string }
        | { readonly code: 'not-a-number'; readonly text: string }
        | { readonly code: 'symbol-too-long'; readonly length: number; readonly most: number }
        | { readonly code: 'symbol-untidy'; readonly why: UntidyWhy; readonly fix: ScheduleFix }
        | { readonly code: 'symbol-own'; readonly symbol: string; readonly doors: number }
        | {
            readonly code: 'symbol-letter';
            readonly symbol: string;
            readonly letter: string;
            readonly reserved: boolean;
          }
        | { readonly code: 'symbol-other-levels'; readonly symbol: string; readonly numberFirst: boolean }
        | { readonly code: 'symbol-is-master'; readonly symbol: string; readonly level: string }
        | { readonly code: 'parent-missing'; readonly symbol: string; readonly parent: string }
        | { readonly code: 'keyset-without-key'; readonly symbol: string; readonly void: boolean }
        | { readonly code: 'operated-by-unknown'; readonly symbol: string; readonly key: string }
        | {
            readonly code: 'door-twice';
            readonly door: string;
            readonly firstRow: number;
            /** Keysets of the two rows, where they differ. */
            readonly symbols?: readonly [string, string];
          }
        | {
            readonly code: 'cylinders-differ';
            readonly symbol: string;
            readonly schedule: number;
            readonly cylinders: number;
          }
        | {
            readonly code: 'keys-differ';
            readonly symbol: string;
            readonly schedule: number;
            readonly copies: number;
          }
        | { readonly code: 'total-differs'; readonly stated: number; readonly counted: number }
        | { readonly code: 'not-keyed'; readonly doors: number }
        | {
            readonly code: 'caution';
            readonly kind: CautionKind;
            readonly door: string;
            readonly word: string;
          }
      ))
  /** `key` is the index in the keys that the schedule was checked against. */
  | { readonly code: 'key-without-door'; readonly key: number; readonly symbol: string }
  | { readonly code: 'spare-keys'; readonly count: number };

export type ScheduleFindingCode = ScheduleFinding['code'];

const SEVERITY: Readonly<Record<ScheduleFindingCode, 'fault' | 'warning' | 'note'>> = {
  'no-door': 'fault',
  'cell-error': 'fault',
  'not-a-number': 'fault',
  'symbol-too-long': 'fault',
  'symbol-untidy': 'warning',
  'symbol-own': 'note',
  'symbol-letter': 'warning',
  'symbol-other-levels': 'fault',
  'symbol-is-master': 'warning',
  'parent-missing': 'fault',
  'keyset-without-key': 'fault',
  'operated-by-unknown': 'fault',
  'door-twice': 'fault',
  'cylinders-differ': 'fault',
  'keys-differ': 'warning',
  'total-differs': 'fault',
  'not-keyed': 'note',
  caution: 'note',
  'key-without-door': 'warning',
  'spare-keys': 'note',
};

export const scheduleSeverity = (finding: ScheduleFinding): 'fault' | 'warning' | 'note' =>
  SEVERITY[finding.code];

/** Every code there is, for the test that none is without words. */
export const SCHEDULE_CODES = Object.keys(SEVERITY) as readonly ScheduleFindingCode[];
