/** The capacity of what is typed, worked out beside the pane a moment after the last keystroke. */
import { useEffect } from 'react';
import type { Capacity } from '../../src/keying/capacity.ts';
import type { SystemRequest } from '../../src/keying/systemRequest.ts';
import { useSteps, type WorkState } from '../shared/useSteps.ts';

/** Long enough not to count after every key, short enough to seem at once. */
const PAUSE_MS = 250;

export function useCapacity(request: SystemRequest | undefined): WorkState<Capacity> {
  const { state, start, reset } = useSteps('capacity');
  useEffect(() => {
    reset();
    if (!request) return;
    const timer = setTimeout(() => start(request), PAUSE_MS);
    return () => clearTimeout(timer);
  }, [request, reset, start]);
  return state;
}
