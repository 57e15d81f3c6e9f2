/** A write that was broken off before this pane was opened: told in one sentence, taken back or left on a button. */
import { Button } from '@fluentui/react-components';
import { useCallback, useEffect, useState } from 'react';
import {
  leaveLeftover,
  readLeftover,
  takeLeftoverBack,
  type BookReading,
  type Leftover as Left,
} from '../../src/workbook/index.ts';
import { useAnnounce } from '../shared/announce.tsx';
import { Notice } from '../shared/Notice.tsx';
import { useWorkbook } from '../shared/workbook.tsx';

export function Leftover({ book }: { readonly book: BookReading }) {
  const { refresh } = useWorkbook();
  const announce = useAnnounce();
  const [left, setLeft] = useState<Left>();
  const [busy, setBusy] = useState(false);
  const [told, setTold] = useState<{ readonly kind: 'info' | 'error'; readonly sentence: string }>();
  useEffect(() => {
    let gone = false;
    void readLeftover().then((read) => {
      if (!gone) setLeft(read.ok ? read.value : undefined);
    });
    return () => {
      gone = true;
    };
  }, [book]);
  const act = useCallback(
    async (work: typeof takeLeftoverBack) => {
      if (!left) return;
      setBusy(true);
      const outcome = await work(left);
      setTold({ kind: outcome.outcome === 'done' ? 'info' : 'error', sentence: outcome.sentence });
      announce(outcome.sentence);
      await refresh();
      setBusy(false);
    },
    [announce, left, refresh],
  );
  if (!left) return told ? <Notice kind={told.kind}>{told.sentence}</Notice> : null;
  const readable = left.notes.some(({ note }) => note);
  return (
    <>
      <Notice
        kind="warning"
        actions={
          <>
            {readable && (
              <Button size="small" disabledFocusable={busy} onClick={() => void act(takeLeftoverBack)}>
                Take it back
              </Button>
            )}
            <Button size="small" disabledFocusable={busy} onClick={() => void act(leaveLeftover)}>
              Leave it
            </Button>
          </>
        }
      >
        {left.sentence}
      </Notice>
      {told && <Notice kind={told.kind}>{told.sentence}</Notice>}
    </>
  );
}
