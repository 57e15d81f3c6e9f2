/** Long work as a screen sees it: idle, busy, stopped, failed or done. Leaving the screen stops it. */
import { useCallback, useEffect, useRef, useState } from 'react';
import type { Progress } from '../../src/keying/system.ts';
import { startWork, type Work } from '../worker/client.ts';
import type { JobName, Jobs } from '../worker/jobs.ts';

export type WorkState<T> =
  | { readonly step: 'idle' }
  | { readonly step: 'busy'; readonly progress: Progress }
  | { readonly step: 'stopped'; readonly progress: Progress | undefined }
  | { readonly step: 'failed'; readonly sentence: string }
  | { readonly step: 'done'; readonly value: T };

export interface StepsRun<J extends JobName> {
  readonly state: WorkState<Jobs[J]['output']>;
  /** Stops what runs, then starts anew. */
  readonly start: (input: Jobs[J]['input']) => void;
  readonly stop: () => void;
  readonly reset: () => void;
}

export function useSteps<J extends JobName>(job: J): StepsRun<J> {
  const [state, setState] = useState<WorkState<Jobs[J]['output']>>({ step: 'idle' });
  const work = useRef<Work<Jobs[J]['output']>>(undefined);

  const abandon = useCallback(() => {
    const running = work.current;
    work.current = undefined;
    running?.end();
  }, []);
  useEffect(() => abandon, [abandon]);

  const start = useCallback(
    (input: Jobs[J]['input']) => {
      abandon();
      setState({ step: 'busy', progress: { stage: 'Starting', done: 0, total: 0 } });
      const mine: Work<Jobs[J]['output']> = startWork({ job, input }, (progress) => {
        if (work.current === mine) setState({ step: 'busy', progress });
      });
      work.current = mine;
      mine.result.then(
        (driven) => {
          if (work.current !== mine) return;
          setState(
            driven.state === 'done'
              ? { step: 'done', value: driven.value }
              : { step: 'stopped', progress: driven.progress },
          );
        },
        (error: unknown) => {
          if (work.current !== mine) return;
          const why = error instanceof Error ? error.message : String(error);
          setState({
            step: 'failed',
            sentence: `Keyrow made a mistake and stopped; nothing was written. Please report these words: ${why}`,
          });
        },
      );
    },
    [abandon, job],
  );

  const stop = useCallback(() => work.current?.stop(), []);
  const reset = useCallback(() => {
    abandon();
    setState({ step: 'idle' });
  }, [abandon]);
  return { state, start, stop, reset };
}
