/** Faults in what is written beside plans: hiding and protecting sheets, and the choices of a workbook. */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { setPatience } from '../../src/workbook/excelRun.ts';
import {
  applyPrivacy,
  changeSettings,
  planOpenUp,
  planPrivacy,
  readSettings,
  writeSettings,
} from '../../src/workbook/index.ts';
import { openBook, type OpenBook } from '../support/office.ts';
import { reading, writeSystem } from './book.ts';
import { deepPicture, sameAs } from './deepPicture.ts';
import { failRequest, FAULT_KINDS, installClock, wrongWithSentence } from './faultKinds.ts';
import { school } from './school.ts';

const KINDS = Object.keys(FAULT_KINDS);
beforeAll(installClock);
afterAll(() => {
  setPatience();
});

describe.each(KINDS)('a request that is %s', (kind) => {
  let book: OpenBook;
  beforeEach(async () => {
    book = openBook();
    book.host.userEdit('Sheet1', 'A1', 'mine');
    await writeSystem(school());
  });

  it.each(['hide', 'show'])('leaves sheets as they were or as planned, and says which: %s', async (which) => {
    const wanted = { hide: true, protect: true };
    if (which === 'show') await applyPrivacy(planPrivacy(await reading(), wanted).steps);
    const { steps } = which === 'hide' ? planPrivacy(await reading(), wanted) : planOpenUp(await reading());
    expect(steps.length).toBeGreaterThan(3);
    const before = deepPicture(book.model);
    const whole = await applyPrivacy(steps);
    if (whole.outcome !== 'done') throw new Error(whole.sentence);
    const planned = deepPicture(book.model);
    await applyPrivacy(whole.undo);
    expect(sameAs(before, deepPicture(book.model))).toBeUndefined();
    for (let number = 0; ; number++) {
      const isOver = failRequest(book.host, number, kind);
      const outcome = await applyPrivacy(steps);
      const met = isOver();
      const where = `request ${number}: ${outcome.sentence}`;
      if (outcome.outcome === 'done') {
        expect(sameAs(planned, deepPicture(book.model)), where).toBeUndefined();
        await applyPrivacy(outcome.undo);
      } else {
        expect(wrongWithSentence(outcome.sentence), where).toBeUndefined();
        expect(outcome.sentence).toContain('The sheets are as they were before.');
      }
      expect(sameAs(before, deepPicture(book.model)), where).toBeUndefined();
      if (!met) break;
    }
  });

  it('loses no choice that was made before', async () => {
    const kept = {
      spec: 'S-018-6',
      schedule: { sheet: 'Doors', columns: { headerRow: 3, door: 0, symbol: 2 } },
    };
    let tried = 0;
    for (let number = 0; ; number++) {
      expect(await writeSettings(kept)).toBe(true);
      const isOver = failRequest(book.host, number, kind);
      const changed = await changeSettings((now) => ({ ...now, unit: 'mm' }));
      const met = isOver();
      const now = await readSettings();
      expect(now, `request ${number}`).toMatchObject(kept);
      if (changed) expect(now.unit).toBe('mm');
      if (!met) break;
      tried++;
    }
    expect(tried).toBeGreaterThan(1);
  });
});
