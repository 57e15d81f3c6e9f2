/** Reads the selected block of the sheet on demand; a failure is a sentence. */
import { useCallback, useState } from 'react';
import { readTarget, type TargetReading } from '../../src/workbook/index.ts';

export type TargetState =
  | { readonly step: 'none' }
  | { readonly step: 'reading' }
  | { readonly step: 'failed'; readonly sentence: string }
  | { readonly step: 'read'; readonly target: TargetReading };

export function useTarget(): readonly [TargetState, () => Promise<TargetReading | undefined>, () => void] {
  const [state, setState] = useState<TargetState>({ step: 'none' });
  const read = useCallback(async () => {
    setState({ step: 'reading' });
    const target = await readTarget('selection');
    if (!target.ok) {
      setState({ step: 'failed', sentence: target.error.sentence });
      return undefined;
    }
    setState({ step: 'read', target: target.value });
    return target.value;
  }, []);
  const forget = useCallback(() => setState({ step: 'none' }), []);
  return [state, read, forget];
}
