/**
 * Drives long work in slices. The keying room's `Steps` generators never look at a clock; whoever drives them does:
 * it runs for a slice, reports where the work is, lets waiting messages in (a "stop" among them), and goes on.
 */
import type { Progress, Steps } from '../../src/keying/system.ts';

export interface Driver {
  /** Milliseconds of a clock that only goes forward. */
  readonly now: () => number;
  /** Resolves after waiting messages have been handled. */
  readonly breathe: () => Promise<void>;
  readonly stopped: () => boolean;
  readonly report: (progress: Progress) => void;
  readonly sliceMs: number;
  /** The steps look at `stopped` themselves: they get one more turn to give what they have. */
  readonly givesPart?: boolean;
}

export type Driven<T> =
  | { readonly state: 'done'; readonly value: T }
  | { readonly state: 'stopped'; readonly progress: Progress | undefined };

/**
 * Runs `steps` to their end or until `stopped()`, whichever comes first. A stopped generator is closed, so that its
 * `finally` blocks run. What the generator throws is passed on.
 */
export async function drive<T>(steps: Steps<T>, driver: Driver): Promise<Driven<T>> {
  let progress: Progress | undefined;
  for (;;) {
    const until = driver.now() + driver.sliceMs;
    do {
      const next = steps.next();
      if (next.done) return { state: 'done', value: next.value };
      progress = next.value;
    } while (driver.now() < until);
    driver.report(progress);
    await driver.breathe();
    if (driver.stopped()) {
      const last = driver.givesPart ? steps.next() : undefined;
      if (last?.done) return { state: 'done', value: last.value };
      steps.return(undefined as never);
      return { state: 'stopped', progress };
    }
  }
}
