/**
 * Whatever becomes of one request of a write or of its taking back, the workbook is as it was or as it was planned, the
 * user has one clear sentence, and the undo is right. By default a share of the requests is tried, another for each
 * kind of fault; `KEYROW_FAULTS=all npx vitest run tests/workbook/faults.test.ts` tries all of them.
 */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { setPatience } from '../../src/workbook/excelRun.ts';
import { applyPlan, undoPlan, type ApplyOutcome, type WritePlan } from '../../src/workbook/index.ts';
import type { OpenBook } from '../support/office.ts';
import { reading, undoOf } from './book.ts';
import { deepPicture, notesLeft, type DeepPicture } from './deepPicture.ts';
import { failRequest, FAULT_KINDS, installClock, wrongWithSentence } from './faultKinds.ts';
import { fullBook, WRITE_PATHS } from './paths.ts';

const KINDS = Object.keys(FAULT_KINDS);
/** One request in so many is tried for each kind of fault. */
const SHARE = process.env['KEYROW_FAULTS'] === 'all' ? 1 : 14;

let book: OpenBook;
let before: DeepPicture;
let soiled = true;

async function freshBook(): Promise<void> {
  if (!soiled) return;
  book = await fullBook();
  before = deepPicture(book.model);
  soiled = false;
}

beforeAll(installClock);
afterAll(() => {
  setPatience();
});

const told = (outcome: ApplyOutcome): string[] => [
  outcome.sentence,
  ...('reasons' in outcome ? outcome.reasons.map((reason) => reason.sentence) : []),
];

/** How many requests a run takes where nothing happens. */
async function requestsOf(run: () => Promise<unknown>): Promise<number> {
  const first = book.host.requestCount;
  await run();
  return book.host.requestCount - first;
}

function* samples(requests: number): Generator<readonly [kind: string, number: number]> {
  for (const [k, kind] of KINDS.entries())
    for (let number = 0; number < requests; number++)
      if ((number + 2 * k) % SHARE === 0) yield [kind, number];
}

describe.each(WRITE_PATHS)('writing %s', (_, make) => {
  let plan: WritePlan;

  it(
    'leaves the workbook as it was or as planned, whichever request fails',
    { timeout: 3_600_000 },
    async () => {
      await freshBook();
      soiled = true;
      plan = await make(await reading());
      expect(plan.conflicts).toEqual([]);
      const requests = await requestsOf(async () => {
        const undo = undoOf(await applyPlan(plan));
        expect(await undoPlan(undo)).toMatchObject({ outcome: 'done' });
      });
      expect(deepPicture(book.model)).toEqual(before);
      undoOf(await applyPlan(plan));
      const planned = deepPicture(book.model, { printing: false });
      book = await fullBook();
      plan = await make(await reading());
      let met = 0;
      for (const [kind, number] of samples(requests)) {
        const where = `request ${number} ${kind}`;
        const isOver = failRequest(book.host, number, kind);
        let outcome = await applyPlan(plan);
        for (const sentence of told(outcome))
          if (outcome.outcome !== 'done') expect(wrongWithSentence(sentence), where).toBeUndefined();
        expect(outcome.outcome, `${where}: ${outcome.sentence}`).not.toBe('broken');
        if (outcome.outcome === 'done') {
          const undo = undoOf(outcome);
          expect(deepPicture(book.model, { printing: false }), where).toEqual(planned);
          outcome = await undoPlan(undo);
          if (outcome.outcome !== 'done') {
            for (const sentence of told(outcome)) expect(wrongWithSentence(sentence), where).toBeUndefined();
            expect(outcome.outcome, where).toBe('refused');
            expect(deepPicture(book.model, { printing: false }), where).toEqual(planned);
            isOver();
            outcome = await undoPlan(undo);
          }
          expect(outcome, where).toMatchObject({ outcome: 'done' });
          expect(outcome.sentence, where).toBe(`Taken back: ${plan.title}.`);
        }
        if (isOver()) met++;
        expect(deepPicture(book.model), where).toEqual(before);
      }
      expect(met).toBeGreaterThan(KINDS.length);
      // a note that could not be taken away is taken away by the next write
      undoOf(await applyPlan(plan));
      expect(notesLeft(book.model)).toEqual([]);
    },
  );
});
