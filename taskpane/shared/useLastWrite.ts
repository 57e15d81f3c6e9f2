/** The last write as the start screen offers it: still there to take back after its screen has been left. */
import { useCallback, useState } from 'react';
import { undoPlan } from '../../src/workbook/index.ts';
import { useAnnounce } from './announce.tsx';
import { useWorkbook } from './workbook.tsx';

export type LastWriteState =
  | { readonly state: 'none' }
  | { readonly state: 'offered'; readonly sentence: string; readonly undo: () => void }
  | { readonly state: 'undoing' | 'undone' | 'failed'; readonly sentence: string };

export function useLastWrite(): LastWriteState {
  const { lastWrite, keepWrite, refresh } = useWorkbook();
  const announce = useAnnounce();
  const [after, setAfter] = useState<LastWriteState>();
  const undo = useCallback(async () => {
    if (!lastWrite) return;
    setAfter({ state: 'undoing', sentence: 'Taking back …' });
    const outcome = await undoPlan(lastWrite.undo);
    setAfter({ state: outcome.outcome === 'done' ? 'undone' : 'failed', sentence: outcome.sentence });
    announce(outcome.sentence);
    if (outcome.outcome === 'done') keepWrite(undefined);
    await refresh();
  }, [announce, keepWrite, lastWrite, refresh]);
  if (after) return after;
  if (!lastWrite) return { state: 'none' };
  return { state: 'offered', sentence: lastWrite.sentence, undo: () => void undo() };
}
