/** Web Worker: one order in, progress and one result out. Jobs that give a part are told to stop; others are ended. */
import { drive } from './worker/drive.ts';
import { GIVE_PART, STOP } from './worker/jobKinds.ts';
import { stepsOf, type WorkOrder, type WorkReport } from './worker/jobs.ts';

const post = (report: WorkReport): void => self.postMessage(report);

/** Often enough for a bar that moves, seldom enough not to cost anything. */
const SLICE_MS = 80;

let stopping = false;
const stopped = (): boolean => stopping;

self.addEventListener('message', ({ data }: MessageEvent<WorkOrder | typeof STOP>) => {
  if (data === STOP) stopping = true;
  else work(data);
});

function work(order: WorkOrder): void {
  void drive(stepsOf(order, stopped), {
    now: () => performance.now(),
    // a message is only let in between two tasks
    breathe: () => new Promise((resolve) => setTimeout(resolve)),
    stopped,
    report: (progress) => post({ kind: 'progress', progress }),
    sliceMs: SLICE_MS,
    givesPart: GIVE_PART.has(order.job),
  }).then(
    (driven) => {
      if (driven.state === 'done') post({ kind: 'done', value: driven.value });
    },
    (error: unknown) =>
      post({ kind: 'failed', message: error instanceof Error ? error.message : String(error) }),
  );
}
