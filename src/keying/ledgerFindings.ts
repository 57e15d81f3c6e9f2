/** Everything that can be wrong in a ledger, as data. `entry` is the row's index in the input. */
import type { Day } from './calendar.ts';
import type { LedgerEvent } from './ledger.ts';
import type { Severity } from './findings.ts';

interface OfCopy {
  readonly entry: number;
  readonly symbol: string;
  readonly copy: number;
}

export type LedgerFinding =
  /** The key is in somebody's hands already. */
  | (OfCopy & { readonly code: 'issued-twice'; readonly holder: string; readonly other: string })
  | (OfCopy & { readonly code: 'issued-while-lost' })
  | (OfCopy & { readonly code: 'returned-without-issue' })
  | (OfCopy & { readonly code: 'returned-by-other'; readonly holder: string; readonly other: string })
  | (OfCopy & { readonly code: 'returned-while-lost' })
  | (OfCopy & { readonly code: 'transferred-without-issue' })
  | (OfCopy & { readonly code: 'lost-twice' })
  | (OfCopy & { readonly code: 'found-not-lost' })
  | (OfCopy & { readonly code: 'after-destroyed'; readonly event: LedgerEvent })
  | (OfCopy & { readonly code: 'unknown-key' })
  | (OfCopy & { readonly code: 'unknown-copy'; readonly cut: number })
  | (OfCopy & { readonly code: 'holder-missing'; readonly event: LedgerEvent })
  | (OfCopy & { readonly code: 'unknown-holder'; readonly holder: string })
  | (OfCopy & { readonly code: 'holder-left'; readonly holder: string; readonly left: Day })
  | (OfCopy & { readonly code: 'due-before-issue'; readonly due: Day })
  | (OfCopy & { readonly code: 'signature-open'; readonly holder: string })
  /** The row stands below one of a later day: it was added afterwards. */
  | (OfCopy & { readonly code: 'out-of-order'; readonly after: Day })
  | { readonly code: 'number-repeated'; readonly entry: number; readonly number: number }
  | { readonly code: 'corrects-unknown'; readonly entry: number; readonly number: number }
  | { readonly code: 'corrected-twice'; readonly entry: number; readonly number: number }
  | { readonly code: 'struck-nothing'; readonly entry: number };

/** A warning where the row may be right as it stands, and only something before or about it is missing. */
export function ledgerSeverity({ code }: LedgerFinding): Severity {
  switch (code) {
    case 'returned-by-other':
    case 'returned-while-lost':
    case 'lost-twice':
    case 'signature-open':
    case 'out-of-order':
      return 'warning';
    default:
      return 'fault';
  }
}
