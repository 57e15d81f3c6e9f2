/** How grave what a ledger's rows show is: the few that may be right as they stand are warnings. */
import { describe, expect, it } from 'vitest';
import { ledgerSeverity, type LedgerFinding } from '../../../src/keying/ledgerFindings.ts';

describe('a finding of the ledger', () => {
  it('is a warning where keys may be where they should be, and a fault where they can’t', () => {
    const severity = (code: LedgerFinding['code']) => ledgerSeverity({ code } as LedgerFinding);
    const warnings = [
      'returned-by-other',
      'returned-while-lost',
      'lost-twice',
      'signature-open',
      'out-of-order',
    ];
    for (const code of warnings) expect(severity(code as LedgerFinding['code']), code).toBe('warning');
    const faults = [
      'issued-twice',
      'issued-while-lost',
      'returned-without-issue',
      'after-destroyed',
      'struck-nothing',
    ];
    for (const code of faults) expect(severity(code as LedgerFinding['code']), code).toBe('fault');
  });
});
