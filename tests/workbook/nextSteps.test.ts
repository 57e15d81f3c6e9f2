/** The few steps that a workbook calls for, from what really stands in it. */
import { describe, expect, it } from 'vitest';
import { parseMoment, type Day } from '../../src/keying/calendar.ts';
import { replayLedger } from '../../src/keying/ledgerReplay.ts';
import { planLedger, readLedger, type NewEntry } from '../../src/workbook/index.ts';
import { nextSteps, type NextStep, type Situation } from '../../taskpane/start/nextSteps.ts';
import { openBook } from '../support/office.ts';
import { reading, write, writeSystem } from './book.ts';
import { school } from './school.ts';

const day = (text: string): Day => {
  const read = parseMoment(text);
  if (!read.ok) throw new Error(text);
  return read.value.day;
};

async function stepsNow(on: string, audits: Situation['audits'] = []): Promise<NextStep[]> {
  const book = await reading();
  const ledger = readLedger(book);
  return nextSteps({ book, ledger, state: replayLedger(ledger, day(on)), audits });
}

const entry = (event: NewEntry['event'], symbol: string, copy: number, due?: Day): NewEntry => ({
  event,
  day: day('2026-01-08'),
  system: 'School',
  symbol,
  copy,
  holder: 'Office',
  ...(due !== undefined && { due }),
});

describe('what is worth doing next', () => {
  it('starts with a system where there is none', async () => {
    openBook();
    const steps = await stepsNow('2026-03-14');
    expect(steps.map((step) => step.to)).toEqual(['make']);
  });

  it('asks for the first audit, then for pinning, then for the ledger', async () => {
    openBook();
    await writeSystem(school());
    expect((await stepsNow('2026-03-14')).map((step) => step.to)).toEqual(['audit', 'pin', 'ledger']);
    const audits = [{ system: 'School', made: '2026-03-13', faults: 0, warnings: 1 }];
    expect((await stepsNow('2026-03-14', audits)).map((step) => step.to)).toEqual(['pin', 'ledger', 'audit']);
    const faulty = await stepsNow('2026-03-14', [{ ...audits[0]!, faults: 2 }]);
    expect(faulty[0]).toMatchObject({
      to: 'audit',
      sentence: 'School: 2 faults at the audit of 2026-03-13.',
    });
  });

  it('puts what is lost and what is overdue first, with the question already asked', async () => {
    openBook();
    await writeSystem(school());
    const entries = [
      entry('issued', 'AA1', 1, day('2026-02-01')),
      entry('issued', 'AA2', 1, day('2026-04-01')),
      entry('issued', 'AB', 1),
      { ...entry('lost', 'AB', 1), day: day('2026-02-02') },
    ];
    await write(
      planLedger(await reading(), {
        made: '2026-03-14',
        title: 'Ledger',
        entries,
        holders: [{ name: 'Office' }],
      }),
    );
    const [lost, late] = await stepsNow('2026-03-14');
    expect(lost).toMatchObject({ to: 'lost', action: 'See what AB opens', drafts: { 'lost.key': 'AB' } });
    expect(late).toMatchObject({
      sentence: '1 key overdue.',
      drafts: { 'people.question': 'overdue' },
    });
    const [before] = await stepsNow('2026-01-31');
    expect(before!.to).toBe('audit');
  });
});
