/** Excel's refusals in words, and its silence: a request that is not answered in time is given up. */
import { afterEach, describe, expect, it } from 'vitest';
import { ProgrammerError } from '../../src/keying/result.ts';
import { watchChanges } from '../../src/workbook/changes.ts';
import { codeOf, explain, KNOWN_CODES, runReading } from '../../src/workbook/excelErrors.ts';
import { NoAnswer, runExcel, setPatience } from '../../src/workbook/excelRun.ts';
import { openBook } from '../support/office.ts';
import { wrongWithSentence } from './faultKinds.ts';

afterEach(() => {
  setPatience();
});

describe('a refusal of Excel’s', () => {
  it('has a whole sentence for every code that is known', () => {
    expect(KNOWN_CODES.length).toBeGreaterThan(30);
    for (const code of KNOWN_CODES) {
      const { code: told, sentence } = explain({ code });
      expect(told).toBe(code);
      expect(wrongWithSentence(sentence), code).toBeUndefined();
    }
  });

  it('of another code is told with it, cut where it is long', () => {
    const sentence = (code: string) =>
      `Excel refused this with “${code}”. Try again; if it stays, save, close and reopen the book.`;
    expect(explain({ code: 'NewTrouble' })).toEqual({ code: 'NewTrouble', sentence: sentence('NewTrouble') });
    expect(explain({ code: 'x'.repeat(200) }).sentence).toBe(sentence('x'.repeat(80)));
    // names of JavaScript's own are no codes
    expect(explain({ code: 'toString' }).sentence).toBe(sentence('toString'));
  });

  it('has its code, else its message, else itself', () => {
    expect(codeOf({ code: 'AccessDenied', message: 'no' })).toBe('AccessDenied');
    expect(codeOf(Object.assign(new Error('message'), { code: 'Code' }))).toBe('Code');
    expect(codeOf(new Error('message'))).toBe('message');
    expect(codeOf(Object.assign(new Error('message'), { code: 5 }))).toBe('message');
    expect([codeOf('text'), codeOf(null), codeOf(undefined), codeOf({}), codeOf(7)]).toEqual([
      'text',
      'null',
      'undefined',
      '[object Object]',
      '7',
    ]);
  });

  it('is no place for a mistake of ours', () => {
    const mistake = new ProgrammerError('ours');
    expect(() => explain(mistake)).toThrow(mistake);
  });

  it('on reading comes back as trouble, and what is read as it is', async () => {
    const { host } = openBook();
    expect(await runReading(() => Promise.resolve(7))).toEqual({ ok: true, value: 7 });
    host.intercept = () => ({ error: 'AccessDenied' });
    const read = await runReading((context) => context.sync());
    expect(read).toMatchObject({ ok: false, error: { code: 'AccessDenied' } });
  });
});

describe('patience', () => {
  it('is more than nothing', () => {
    for (const ms of [0, -1, NaN]) expect(() => setPatience({ ms }), String(ms)).toThrow(ProgrammerError);
    expect(() => setPatience({ ms: 1 })).not.toThrow();
  });

  /** A clock that is never late, and what was asked of it. */
  function clock() {
    const asked: number[] = [];
    const waiting = new Set<() => void>();
    setPatience({
      ms: 5_000,
      after: (ms, call) => {
        asked.push(ms);
        waiting.add(call);
        return () => waiting.delete(call);
      },
    });
    return { asked, waiting };
  }

  it('runs for every request, and ends with its answer or refusal', async () => {
    const { host } = openBook();
    const { asked, waiting } = clock();
    const result = await runExcel(async (context) => {
      await context.sync();
      expect(waiting.size).toBe(0);
      return await context.sync('passed through');
    });
    expect(result).toBe('passed through');
    expect(asked.slice(0, 2)).toEqual([5_000, 5_000]);
    host.intercept = () => ({ error: 'AccessDenied' });
    await expect(runExcel((context) => context.sync())).rejects.toMatchObject({ code: 'AccessDenied' });
    expect(waiting.size).toBe(0);
  });

  it('that is at its end gives the request up, answered or not', async () => {
    const { host } = openBook();
    const { waiting } = clock();
    host.intercept = () => 'drop';
    const running = runExcel((context) => context.sync());
    await new Promise((resolve) => setTimeout(resolve, 0));
    expect(waiting.size).toBe(1);
    for (const call of waiting) call();
    await expect(running).rejects.toBeInstanceOf(NoAnswer);
    await expect(running).rejects.toMatchObject({ code: 'NoAnswer', message: 'Excel has not answered' });
    expect(explain(new NoAnswer('x')).sentence).toMatch(/^Excel did not answer\./);
  });

  it('is measured by a real clock where no other is given', async () => {
    const { host } = openBook();
    setPatience({ ms: 1 });
    host.intercept = () => 'drop';
    await expect(runExcel((context) => context.sync())).rejects.toBeInstanceOf(NoAnswer);
    host.intercept = null;
    setPatience({ ms: 600_000 });
    expect(await runExcel(async (context) => context.sync('in time'))).toBe('in time');
  });

  it('is kept by options of the run as well', async () => {
    openBook();
    const { asked } = clock();
    expect(await runExcel((context) => context.sync('x'), { mergeUndoGroup: true })).toBe('x');
    expect(asked.length).toBeGreaterThan(0);
  });
});

describe('watching for changes', () => {
  it('calls for those of others until it is stopped', async () => {
    const book = openBook();
    let calls = 0;
    const stop = await watchChanges(() => calls++);
    book.host.userEdit('Sheet1', 'A1', 'theirs');
    await book.settled();
    await expect.poll(() => calls).toBe(1);
    await book.run(async (context) => {
      context.workbook.worksheets.getItem('Sheet1').getRange('A2').values = [['ours']];
      await context.sync();
    });
    await book.settled();
    await book.settled();
    expect(calls).toBe(1);
    await stop();
    book.host.userEdit('Sheet1', 'A3', 'theirs');
    await book.settled();
    await book.settled();
    expect(calls).toBe(1);
  });
});
