/**
 * What a check can find, as data: a union on `code` with the numbers attached. The words are in `wording.ts`, so
 * that they can be reworded or translated without touching a rule.
 */
import type { ArrayFault } from './array.ts';
import type { BittingFault } from './bitting.ts';
import type { CapacityProblem } from './capacityProblem.ts';
import type { SpecificationFault } from './specification.ts';
import type { SymbolFault, SymbolNote } from './symbolText.ts';
import type { Status } from './system.ts';
import type { Length, LengthFault, Unit } from './units.ts';

export type Severity = 'fault' | 'warning' | 'note';

/** Findings about one bitting. `at` and `first` count the code's symbols from 1. */
export type BittingFinding =
  | BittingFault
  | {
      readonly code: 'macs';
      readonly first: number;
      readonly from: string;
      readonly to: string;
      readonly steps: number;
      readonly allowed: number;
    }
  | { readonly code: 'few-depths'; readonly found: number; readonly least: number }
  | {
      readonly code: 'equal-run';
      readonly symbol: string;
      readonly first: number;
      readonly length: number;
      readonly most: number;
    }
  | { readonly code: 'stair'; readonly direction: 'deeper' | 'shallower' }
  | { readonly code: 'pulls-out-turned' }
  | {
      readonly code: 'grade-equal-share';
      readonly grade: number;
      readonly percent: number;
      readonly most: number;
    }
  | {
      readonly code: 'grade-equal-neighbours';
      readonly grade: number;
      readonly found: number;
      readonly most: number;
    }
  | { readonly code: 'duplicate'; readonly of: string }
  | { readonly code: 'already-used'; readonly symbol: string; readonly status: Status }
  | { readonly code: 'equals-master'; readonly symbol: string }
  | {
      readonly code: 'parity';
      readonly at: number;
      readonly steps: number;
      readonly step: number;
      readonly master: string;
    }
  | { readonly code: 'operates-existing'; readonly cylinder: string }
  | {
      readonly code: 'near-miss';
      readonly other: string;
      readonly chamber: number;
      readonly thousandths: number;
      /** The spec's; inches where it isn't said. */
      readonly unit?: Unit;
    };

/** Findings about a whole system. Symbols and ids name the rows; the workbook room maps them to cells. */
export type SystemFinding =
  | { readonly code: 'interchange'; readonly key: string; readonly cylinder: string }
  | {
      readonly code: 'lock-out';
      readonly key: string;
      readonly cylinder: string;
      readonly chamber: number;
      readonly cut: string;
      readonly shears: readonly string[];
    }
  | {
      readonly code: 'near-interchange';
      readonly key: string;
      readonly cylinder: string;
      readonly chamber: number;
      readonly thousandths: number;
      readonly unit?: Unit;
    }
  | {
      readonly code: 'thin-master-pin';
      readonly cylinder: string;
      readonly chamber: number;
      readonly steps: number;
      readonly step: number;
    }
  | {
      readonly code: 'thin-build-up';
      readonly cylinder: string;
      readonly chamber: number;
      readonly steps: number;
      readonly step: number;
    }
  | { readonly code: 'stack-too-tall'; readonly cylinder: string; readonly chamber: number }
  /** A key that isn't this core's control key would work its control line, and so pull the core. */
  | { readonly code: 'control-operates'; readonly key: string; readonly cylinder: string }
  /** The control bitting of a core also operates it: it lies in the product of the chambers' depths. */
  | { readonly code: 'control-is-incidental'; readonly cylinder: string }
  /** A control key that should pull the core doesn't: its cut differs from the control cut there. */
  | {
      readonly code: 'control-locked-out';
      readonly key: string;
      readonly cylinder: string;
      readonly chamber: number;
    }
  /** The blank of a key that should operate the cylinder does not enter its keyway. */
  | {
      readonly code: 'wrong-keyway';
      readonly key: string;
      readonly cylinder: string;
      readonly found: string;
      readonly expected: string;
    }
  /** The blank of a key that should operate the cylinder carries fewer cuts than the cylinder has pinned chambers. */
  | {
      readonly code: 'too-few-cuts';
      readonly key: string;
      readonly cylinder: string;
      readonly cuts: number;
      readonly chamber: number;
    }
  /** A control key is marked for a cylinder that has no control cuts. */
  | { readonly code: 'control-missing'; readonly key: string; readonly cylinder: string }
  /** A pinned core that has no control cuts: without them half its stack is unknown. */
  | { readonly code: 'core-without-control'; readonly cylinder: string }
  | { readonly code: 'key-missing'; readonly symbol: string; readonly cylinder: string }
  /** A key in use whose bitting breaks rules of its own, whatever it operates. */
  | { readonly code: 'unusable-bitting'; readonly key: string; readonly reasons: readonly BittingFinding[] }
  | { readonly code: 'same-bitting'; readonly key: string; readonly other: string }
  /** A symbol stands in a row out of use and in one in use with the same bitting: the lost key still fits. */
  | { readonly code: 'bitting-reissued'; readonly key: string }
  | { readonly code: 'parent-missing'; readonly key: string; readonly parent: string };

/** Findings about cutting and measuring a key. `at` and `first` count the code's symbols from 1. */
export type CutFinding =
  | {
      readonly code: 'eaten-flat';
      readonly first: number;
      readonly from: string;
      readonly to: string;
      readonly by: Length;
      readonly unit: Unit;
    }
  /** The MACS that geometry gives for the cutter, where the spec says another. */
  | { readonly code: 'macs-differs'; readonly stated: number; readonly geometric: number }
  | { readonly code: 'cutter-too-wide'; readonly by: Length; readonly macs: number; readonly unit: Unit }
  | {
      readonly code: 'suspect-cut';
      readonly at: number;
      readonly symbol: string;
      readonly deviation: Length;
      readonly tolerance: Length;
      readonly unit: Unit;
    }
  | {
      readonly code: 'ambiguous-cut';
      readonly at: number;
      readonly symbol: string;
      readonly other: string;
    }
  | { readonly code: 'shared-offset'; readonly offset: Length; readonly unit: Unit };

export type Finding =
  | LengthFault
  | BittingFinding
  | SystemFinding
  | SpecificationFault
  | CutFinding
  | ArrayFault
  | CapacityProblem
  | SymbolFault
  | SymbolNote;

const WARNINGS: ReadonlySet<Finding['code']> = new Set<Finding['code']>([
  'stair',
  'near-miss',
  'near-interchange',
  'pulls-out-turned',
  'eaten-flat',
  'macs-differs',
  'suspect-cut',
  'ambiguous-cut',
  'shared-offset',
  'avoided-letter',
  'reserved-letter',
]);

export const severityOf = (finding: Finding): Severity => (WARNINGS.has(finding.code) ? 'warning' : 'fault');
