/** Hiding and protecting the sheets that hold bittings, with an honest word on what that is worth. */
import { Button, Checkbox } from '@fluentui/react-components';
import { useEffect, useState } from 'react';
import {
  applyPrivacy,
  planOpenUp,
  planPrivacy,
  readQuotingSheets,
  secretSheets,
  type BookReading,
  type PrivacyPlan,
  type PrivacyStep,
  type QuotingSheet,
} from '../../src/workbook/index.ts';
import { counted, listed } from '../pictures/numbers.ts';
import { useAnnounce } from '../shared/announce.tsx';
import { Cautions } from '../shared/Caution.tsx';
import { FaultList } from '../shared/FaultList.tsx';
import { Fold } from '../shared/Fold.tsx';
import { Notice } from '../shared/Notice.tsx';
import { useWorkbook } from '../shared/workbook.tsx';

type Outcome =
  | { readonly kind: 'success'; readonly sentence: string; readonly undo: readonly PrivacyStep[] }
  | { readonly kind: 'error'; readonly sentence: string };

export function Privacy({ book }: { readonly book: BookReading }) {
  const { refresh } = useWorkbook();
  const announce = useAnnounce();
  const [hide, setHide] = useState(true);
  const [protect, setProtect] = useState(false);
  const [busy, setBusy] = useState(false);
  const [outcome, setOutcome] = useState<Outcome>();
  const [quoting, setQuoting] = useState<readonly QuotingSheet[]>([]);
  const [chosen, setChosen] = useState<readonly string[]>([]);
  useEffect(() => {
    let gone = false;
    void readQuotingSheets(book).then((found) => {
      if (!gone) setQuoting(found);
    });
    return () => {
      gone = true;
    };
  }, [book]);
  const secret = secretSheets(book);
  const states = book.sheets.filter((s) => secret.includes(s.name));
  const plan = planPrivacy(book, { hide, protect }, chosen);
  const open = planOpenUp(
    book,
    quoting.map((q) => q.sheet),
  );
  if (secret.length === 0) return null;

  const carryOut = async (steps: readonly PrivacyStep[]): Promise<void> => {
    setBusy(true);
    const done = await applyPrivacy(steps);
    setOutcome(
      done.outcome === 'done'
        ? { kind: 'success', sentence: done.sentence, undo: done.undo }
        : { kind: 'error', sentence: done.sentence },
    );
    announce(done.sentence);
    await refresh();
    setBusy(false);
  };

  const button = (label: string, of: PrivacyPlan) => (
    <Button
      disabledFocusable={busy || of.steps.length === 0 || of.conflicts.length > 0}
      onClick={() => void carryOut(of.steps)}
    >
      {label}
    </Button>
  );
  return (
    <Fold label="Sheets that hold bittings" open>
      <p>
        {listed(secret)} {secret.length === 1 ? 'holds' : 'hold'} bittings.{' '}
        {listed(states.filter((s) => !s.visible).map((s) => s.name)) === 'none'
          ? 'All are in view.'
          : `Hidden now: ${listed(states.filter((s) => !s.visible).map((s) => s.name))}.`}
      </p>
      {quoting.length > 0 && (
        <div role="group" aria-label="Other sheets that quote a bitting">
          <p>Other sheets that quote one of these bittings. Tick those that belong with them:</p>
          {quoting.map(({ sheet, cells }) => (
            <div key={sheet}>
              <Checkbox
                label={`${sheet}, in ${counted(cells, 'cell')}`}
                checked={chosen.includes(sheet)}
                onChange={(_, d) =>
                  setChosen(d.checked === true ? [...chosen, sheet] : chosen.filter((name) => name !== sheet))
                }
              />
            </div>
          ))}
          <p className="lead">
            Found by comparing every cell with the bittings on Keyrow’s sheets. A code that stands on none of
            them can’t be told from any other number.
          </p>
        </div>
      )}
      <Cautions about={['protection']} />
      <div>
        <Checkbox label="Hide them" checked={hide} onChange={(_, d) => setHide(d.checked === true)} />
        <Checkbox
          label="Protect them, without a password"
          checked={protect}
          onChange={(_, d) => setProtect(d.checked === true)}
        />
      </div>
      <p>{plan.sentence}</p>
      {protect && (
        <p className="lead">
          While a sheet is protected, nothing can be written to it, not by this pane either.
        </p>
      )}
      {plan.conflicts.length > 0 && (
        <FaultList
          label="In the way"
          lines={plan.conflicts.map(({ sentence }) => ({ severity: 'fault', sentence }))}
        />
      )}
      <div className="ways">
        {button(hide && protect ? 'Hide and protect' : protect ? 'Protect' : 'Hide', plan)}
        {open.steps.length > 0 && button('Show and unprotect all', open)}
      </div>
      {outcome && (
        <Notice
          kind={outcome.kind}
          actions={
            outcome.kind === 'success' && (
              <Button size="small" onClick={() => void carryOut(outcome.undo)}>
                Undo
              </Button>
            )
          }
        >
          {outcome.sentence}
        </Notice>
      )}
    </Fold>
  );
}
