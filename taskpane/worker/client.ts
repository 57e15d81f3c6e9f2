/**
 * Runs an order in a worker of its own. Where the host gives no worker, or the rows aren't worth their copying, the same
 * driver runs it here in short slices, so that the pane still paints and the stop button still works.
 */
import type { Progress } from '../../src/keying/system.ts';
import { drive, type Driven } from './drive.ts';
import { GIVE_PART, IN_SLICES, STOP } from './jobKinds.ts';
import type { JobName, Jobs, WorkOrder, WorkReport } from './jobs.ts';

export interface Work<T> {
  /** Rejects where the work itself failed: a mistake of ours. */
  readonly result: Promise<Driven<T>>;
  /** Asks for an end: jobs that give a part still give it. */
  readonly stop: () => void;
  /** Ends it; whatever it found is wanted by nobody. */
  readonly end: () => void;
}

export function startWork<J extends JobName>(
  order: WorkOrder<J>,
  onProgress: (progress: Progress) => void,
): Work<Jobs[J]['output']> {
  const worker = IN_SLICES.has(order.job) ? undefined : openWorker();
  return worker ? inWorker(worker, order, onProgress) : inSlices(order, onProgress);
}

function openWorker(): Worker | undefined {
  if (typeof Worker === 'undefined') return undefined;
  try {
    return new Worker(new URL('../worker.ts', import.meta.url), { type: 'module' });
  } catch {
    // a policy of the host's may forbid workers
    return undefined;
  }
}

function inWorker<J extends JobName>(
  worker: Worker,
  order: WorkOrder<J>,
  onProgress: (progress: Progress) => void,
): Work<Jobs[J]['output']> {
  let last: Progress | undefined;
  let end = (): void => undefined;
  const result = new Promise<Driven<Jobs[J]['output']>>((resolve, reject) => {
    end = () => resolve({ state: 'stopped', progress: last });
    worker.addEventListener('message', ({ data }: MessageEvent<WorkReport<J>>) => {
      if (data.kind === 'progress') onProgress((last = data.progress));
      else if (data.kind === 'done') resolve({ state: 'done', value: data.value });
      else reject(new Error(data.message));
    });
    worker.addEventListener('error', (event) =>
      reject(new Error(event.message || 'the worker did not start')),
    );
    worker.postMessage(order);
  }).finally(() => worker.terminate());
  const stop = (): void => (GIVE_PART.has(order.job) ? worker.postMessage(STOP) : end());
  return { result, stop, end: () => end() };
}

/** A frame at 60 Hz is 16 ms; leave room to paint. */
const SLICE_MS = 10;

function inSlices<J extends JobName>(
  order: WorkOrder<J>,
  onProgress: (progress: Progress) => void,
): Work<Jobs[J]['output']> {
  let stopped = false;
  const wasStopped = (): boolean => stopped;
  const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));
  // whoever asked has this work in hand before the first word comes of it, as from a worker
  const result = breathe().then(async () => {
    const { stepsOf } = await import('./jobs.ts');
    return drive(stepsOf(order, wasStopped), {
      now: () => performance.now(),
      breathe,
      stopped: wasStopped,
      report: onProgress,
      sliceMs: SLICE_MS,
      givesPart: GIVE_PART.has(order.job),
    });
  });
  const stop = (): void => {
    stopped = true;
  };
  return { result, stop, end: stop };
}
