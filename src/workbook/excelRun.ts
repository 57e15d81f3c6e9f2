/**
 * The one door to Excel: `Excel.run` with a watch over every request. Excel may never answer (a dialog of its own is
 * open, the connection of the web version dropped, a cell is being edited in some versions), and a pane that waits for
 * ever can neither say so nor put anything back. Requests are carried out in the order in which they were sent, so
 * whatever is asked after one that was given up comes behind it, even where it was only slow.
 */
import { ProgrammerError } from '../keying/result.ts';

/** Excel has not answered a request in the time that it had. It may have carried it out or not. */
export class NoAnswer extends Error {
  readonly code = 'NoAnswer';
}

/** Calls back after so many milliseconds, unless the function that it returns is called before. */
export type After = (ms: number, call: () => void) => () => void;

export interface Patience {
  /** How long one request may take, in milliseconds. */
  readonly ms: number;
  readonly after: After;
}

const onTheClock: After = (ms, call) => {
  const timer = setTimeout(call, ms);
  return () => {
    clearTimeout(timer);
  };
};

/** A block of 20,000 cells with a recalculation behind it takes seconds; a minute is no answer. */
const USUAL: Patience = { ms: 60_000, after: onTheClock };
let patience: Patience = USUAL;

/**
 * Sets how long a request may take and the clock that it is measured by; without an argument as it was at first.
 * @example setPatience({ ms: 5_000, after })
 */
export function setPatience(wanted: Partial<Patience> = {}): void {
  if (wanted.ms !== undefined && !(wanted.ms > 0))
    throw new ProgrammerError('patience must be more than 0 ms');
  patience = { ...USUAL, ...wanted };
}

/** `Excel.run` whose every `sync` fails with `NoAnswer` where Excel keeps silent. */
export async function runExcel<T>(
  batch: (context: Excel.RequestContext) => Promise<T>,
  options?: Excel.RunOptions,
): Promise<T> {
  const watched = (context: Excel.RequestContext): Promise<T> => {
    watch(context);
    return batch(context);
  };
  return await (options ? Excel.run(options, watched) : Excel.run(watched));
}

function watch(context: Excel.RequestContext): void {
  const sync = context.sync.bind(context);
  context.sync = <T>(passThrough?: T): Promise<T> => {
    const { ms, after } = patience;
    return new Promise<T>((resolve, reject) => {
      const stop = after(ms, () => {
        reject(new NoAnswer('Excel has not answered'));
      });
      sync(passThrough as T).then(
        (value) => {
          stop();
          resolve(value);
        },
        (error: unknown) => {
          stop();
          reject(error);
        },
      );
    });
  };
}
