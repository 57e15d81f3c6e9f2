/** What is wrong in the ledger itself has to be seen before any answer from it is believed. */
import { useMemo } from 'react';
import { ledgerSeverity } from '../../src/keying/ledgerFindings.ts';
import { sayLedger } from '../../src/keying/ledgerWording.ts';
import type { Standing } from '../../src/workbook/index.ts';
import { counted } from '../pictures/numbers.ts';
import { FaultList, type FaultLine } from '../shared/FaultList.tsx';
import { Fold } from '../shared/Fold.tsx';
import { Notice } from '../shared/Notice.tsx';

/** Rows that can't be read first, then what the replay found. */
export function ledgerLines({ ledger, state }: Standing): FaultLine[] {
  return [
    ...ledger.problems.map(({ severity, sentence, sheet, address }) => ({
      severity,
      sentence,
      at: { sheet, address },
    })),
    ...state.findings.map((finding) => {
      const at = ledger.places[finding.entry];
      return { severity: ledgerSeverity(finding), sentence: sayLedger(finding), ...(at && { at }) };
    }),
  ];
}

export function LedgerTrouble({ standing }: { readonly standing: Standing }) {
  const lines = useMemo(() => ledgerLines(standing), [standing]);
  if (lines.length === 0) return null;
  const faults = lines.filter((line) => line.severity === 'fault').length;
  const { unread } = standing.ledger;
  return (
    <>
      {faults > 0 && (
        <Notice kind="error">
          {counted(faults, 'fault')} in the ledger{unread > 0 && `; ${counted(unread, 'row')} left out`}. The
          answers are as good as the ledger.
        </Notice>
      )}
      <Fold label={`In the ledger: ${counted(lines.length, 'thing')} to look at`}>
        <FaultList label="In the ledger" lines={lines} />
      </Fold>
    </>
  );
}
