/** The few things worth doing next here, each one press away. */
import { useMemo } from 'react';
import { replayLedger } from '../../src/keying/ledgerReplay.ts';
import { readLedger, type BookReading } from '../../src/workbook/index.ts';
import { readDay } from '../people/useStanding.ts';
import { useNavigation } from '../shared/navigation.tsx';
import { usePreferences } from '../shared/preferences.tsx';
import { nextSteps, type NextStep } from './nextSteps.ts';

/** What is next in this workbook, today. */
export function useNextSteps(book: BookReading): readonly NextStep[] {
  const { chosen } = usePreferences();
  const audits = chosen?.audits;
  return useMemo(() => {
    const ledger = readLedger(book);
    const state = replayLedger(ledger, readDay('').day);
    return nextSteps({ book, ledger, state, audits: audits ?? [] });
  }, [audits, book]);
}

/** Goes where a step leads. */
export function useTakeStep(): (step: NextStep) => void {
  const { go, drafts } = useNavigation();
  return ({ to, drafts: given }) => {
    for (const [name, value] of Object.entries(given ?? {})) drafts.set(name, value);
    go(to);
  };
}

export function NextSteps({ steps }: { readonly steps: readonly NextStep[] }) {
  const take = useTakeStep();
  return (
    <section aria-label="Next">
      <ul className="plain next-steps">
        {steps.map((step) => (
          <li key={step.sentence}>
            <button type="button" onClick={() => take(step)}>
              <span>{step.sentence}</span> <strong>{step.action}</strong>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
