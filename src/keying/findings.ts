/**
 * What a check can find, as data: a union on `code` with the numbers attached. The words are in `wording.ts`, so
 * that they can be reworded or translated without touching a rule.
 */
import type { BittingFault } from './bitting.ts';
import type { SpecificationFault } from './specification.ts';
import type { Status } from './system.ts';

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
  | { readonly code: 'control-operates'; readonly key: string; readonly cylinder: string }
  | { readonly code: 'control-is-incidental'; readonly cylinder: string }
  | {
      readonly code: 'control-locked-out';
      readonly key: string;
      readonly cylinder: string;
      readonly chamber: number;
    }
  | { readonly code: 'key-missing'; readonly symbol: string; readonly cylinder: string }
  | { readonly code: 'same-bitting'; readonly key: string; readonly other: string }
  | { readonly code: 'parent-missing'; readonly key: string; readonly parent: string };

export type Finding = BittingFinding | SystemFinding | SpecificationFault;

const WARNINGS: ReadonlySet<Finding['code']> = new Set<Finding['code']>([
  'stair',
  'near-miss',
  'near-interchange',
  'pulls-out-turned',
]);

export const severityOf = (finding: Finding): Severity => (WARNINGS.has(finding.code) ? 'warning' : 'fault');
