/** Web Worker: one order in, progress and one result out. Stopping it from outside ends the worker. */
import { drive } from './worker/drive.ts';
import { stepsOf, type WorkOrder, type WorkReport } from './worker/jobs.ts';

const post = (report: WorkReport): void => self.postMessage(report);

/** Often enough for a bar that moves, seldom enough not to cost anything. */
const SLICE_MS = 80;

self.addEventListener('message', (event: MessageEvent<WorkOrder>) => {
  void drive(stepsOf(event.data), {
    now: () => performance.now(),
    breathe: () => Promise.resolve(),
    stopped: () => false,
    report: (progress) => post({ kind: 'progress', progress }),
    sliceMs: SLICE_MS,
  }).then(
    (driven) => {
      if (driven.state === 'done') post({ kind: 'done', value: driven.value });
    },
    (error: unknown) =>
      post({ kind: 'failed', message: error instanceof Error ? error.message : String(error) }),
  );
});
