/** The capacity of what is typed, worked out beside the pane a moment after the last keystroke. */
import { useEffect } from 'react';
import type { Capacity } from '../../src/keying/capacity.ts';
import type { SystemRequest } from '../../src/keying/systemRequest.ts';
import { useSteps, type WorkState } from '../shared/useSteps.ts';

/** Long enough not to count after every key, short enough to seem at once. */
const PAUSE_MS = 250;

export function useCapacity(request: SystemRequest | undefined): WorkState<Capacity> {
  const { state, start, reset } = useSteps('capacity');
  // the workbook is read again and again: only another request is worth another count
  const text = JSON.stringify(request);
  useEffect(() => {
    reset();
    if (text === undefined) return;
    const asked = JSON.parse(text) as SystemRequest;
    const timer = setTimeout(() => start(asked), PAUSE_MS);
    return () => clearTimeout(timer);
  }, [reset, start, text]);
  return state;
}
