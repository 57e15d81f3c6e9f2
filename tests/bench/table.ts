/** One comparison of the bench: what we do, the naive way, and the ratio within this very run. */
import { Bench } from 'tinybench';

export interface Comparison {
  readonly what: string;
  /** What one run handles, for the "per second" column: rows, pairs, keys. */
  readonly items: number;
  readonly unit: string;
  readonly ours: () => unknown;
  readonly naive: () => unknown;
  /** What the naive way is, in a few words. */
  readonly against: string;
  /** Fails the run where the two disagree: a fast wrong answer is worth nothing. */
  readonly same?: (ours: unknown, naive: unknown) => boolean;
}

export interface Row {
  readonly what: string;
  readonly against: string;
  readonly oursMs: number;
  readonly naiveMs: number;
  readonly perSecond: string;
  readonly megabytes: number;
}

const median = (task: Bench['tasks'][number] | undefined): number => {
  const result = task?.result;
  if (result?.state !== 'completed') throw new Error(`the task ${task?.name ?? '?'} did not complete`);
  return result.latency.p50;
};

export async function compare(c: Comparison): Promise<Row> {
  if (c.same && !c.same(c.ours(), c.naive())) throw new Error(`${c.what}: ours and the naive way disagree`);
  const bench = new Bench({ time: 1, iterations: 5, warmupTime: 1, warmupIterations: 1 });
  bench.add('ours', c.ours).add('naive', c.naive);
  await bench.run();
  const oursMs = median(bench.getTask('ours'));
  const each = (c.items / oursMs) * 1000;
  return {
    what: c.what,
    against: c.against,
    oursMs,
    naiveMs: median(bench.getTask('naive')),
    perSecond: `${Math.round(each).toLocaleString('en-US')} ${c.unit}`,
    megabytes: Math.round(process.memoryUsage().heapUsed / 1e6),
  };
}

export function print(rows: readonly Row[]): void {
  console.table(
    rows.map((r) => ({
      what: r.what,
      'ms (median)': Number(r.oursMs.toPrecision(3)),
      'per second': r.perSecond,
      'naive ms': Number(r.naiveMs.toPrecision(3)),
      'times faster': Number((r.naiveMs / r.oursMs).toPrecision(3)),
      naive: r.against,
      'heap MB': r.megabytes,
    })),
  );
}
