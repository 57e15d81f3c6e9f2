/**
 * Whatever becomes of one request of a write or of its taking back, the workbook is as it was or as it was planned, the
 * user has one clear sentence, and the undo is right. By default a share of the requests is tried, another for each
 * kind of fault; `KEYROW_FAULTS=all npx vitest run tests/workbook/faults.test.ts` tries all of them, and `-t 'writing
 * pinning'` or `-t 'answer lost'` a part.
 */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { setPatience } from '../../src/workbook/excelRun.ts';
import { applyPlan, undoPlan, type ApplyOutcome, type WritePlan } from '../../src/workbook/index.ts';
import type { OpenBook } from '../support/office.ts';
import { reading, undoOf } from './book.ts';
import { deepPicture, notesLeft, sameAs } from './deepPicture.ts';
import { failRequest, FAULT_KINDS, installClock, wrongWithSentence } from './faultKinds.ts';
import { MORE_PATHS, moreBook } from './morePaths.ts';
import { fullBook, WRITE_PATHS, type WritePath } from './paths.ts';

const KINDS = Object.keys(FAULT_KINDS);
/** One request in so many is tried for each kind of fault. */
const SHARE = process.env['KEYROW_FAULTS'] === 'all' ? 1 : 14;

beforeAll(installClock);
afterAll(() => {
  setPatience();
});

const told = (outcome: ApplyOutcome): string[] => [
  outcome.sentence,
  ...('reasons' in outcome ? outcome.reasons.map((reason) => reason.sentence) : []),
];

function expectSentences(outcome: ApplyOutcome, where: string): void {
  for (const sentence of told(outcome)) expect(wrongWithSentence(sentence), where).toBeUndefined();
}

/** One book for all paths, since each leaves it as it was; a new one where a test broke off. */
class Fixture {
  private book: OpenBook | undefined;
  private before: unknown;
  constructor(private readonly make: () => Promise<OpenBook>) {}

  async open(): Promise<{ readonly book: OpenBook; readonly before: unknown }> {
    if (!this.book) {
      this.book = await this.make();
      this.before = deepPicture(this.book.model);
    }
    return { book: this.book, before: this.before };
  }

  /** Until it is kept, the book counts as broken. */
  soil(): void {
    this.book = undefined;
  }

  keep(book: OpenBook, before: unknown): void {
    [this.book, this.before] = [book, before];
  }
}

const BOOKS = [
  { paths: WRITE_PATHS, fixture: new Fixture(fullBook) },
  { paths: MORE_PATHS, fixture: new Fixture(moreBook) },
];

interface Known {
  readonly plan: WritePlan;
  /** How many requests writing and taking back take. */
  readonly requests: number;
  /** The workbook as planned. */
  readonly planned: unknown;
}

async function withoutFaults(fixture: Fixture, make: WritePath[1]): Promise<Known> {
  const { book, before } = await fixture.open();
  fixture.soil();
  const plan = await make(await reading());
  expect(plan.conflicts).toEqual([]);
  const first = book.host.requestCount;
  const undo = undoOf(await applyPlan(plan));
  const planned = deepPicture(book.model, { printing: false });
  expect(await undoPlan(undo)).toMatchObject({ outcome: 'done' });
  const requests = book.host.requestCount - first;
  expect(sameAs(before, deepPicture(book.model))).toBeUndefined();
  expect(sameAs(before, planned)).toBeDefined();
  fixture.keep(book, before);
  return { plan, requests, planned };
}

for (const { paths, fixture } of BOOKS)
  describe.each(paths)('writing %s', (_, make) => {
    let known: Promise<Known> | undefined;
    const found = (): Promise<Known> => (known ??= withoutFaults(fixture, make));

    it('is done and taken back where nothing fails', { timeout: 120_000 }, async () => {
      expect((await found()).requests).toBeGreaterThan(KINDS.length);
    });

    it.each(KINDS.map((kind, k) => [kind, k] as const))(
      'leaves the workbook as it was or as planned where a request is %s',
      { timeout: 3_600_000 },
      async (kind, k) => {
        const { plan, requests, planned } = await found();
        const { book, before } = await fixture.open();
        fixture.soil();
        let met = 0;
        for (let number = 0; number < requests; number++) {
          if ((number + 2 * k) % SHARE !== 0) continue;
          const where = `request ${number} ${kind}`;
          const isOver = failRequest(book.host, number, kind);
          let outcome = await applyPlan(plan);
          if (outcome.outcome !== 'done') expectSentences(outcome, where);
          expect(outcome.outcome, `${where}: ${outcome.sentence}`).not.toBe('broken');
          if (outcome.outcome === 'done') {
            const undo = undoOf(outcome);
            const printed = { printing: false };
            expect(sameAs(planned, deepPicture(book.model, printed)), where).toBeUndefined();
            outcome = await undoPlan(undo);
            if (outcome.outcome !== 'done') {
              expectSentences(outcome, where);
              expect(outcome.outcome, where).toBe('refused');
              expect(sameAs(planned, deepPicture(book.model, printed)), where).toBeUndefined();
              isOver();
              outcome = await undoPlan(undo);
            }
            expect(outcome, where).toMatchObject({ outcome: 'done' });
            expect(outcome.sentence, where).toBe(`Taken back: ${plan.title}.`);
          }
          if (isOver()) met++;
          expect(sameAs(before, deepPicture(book.model)), where).toBeUndefined();
        }
        expect(met).toBeGreaterThan(0);
        // a note that could not be taken away is taken away by the next write
        await undoPlan(undoOf(await applyPlan(plan)));
        expect(notesLeft(book.model)).toEqual([]);
        fixture.keep(book, before);
      },
    );
  });
