/** Hiding and protecting carried out: all of it or nothing, and taken back in one go. */
import { describe, expect, it } from 'vitest';
import { applyPrivacy, type PrivacyStep } from '../../src/workbook/applyPrivacy.ts';
import { openBook, type OpenBook } from '../support/office.ts';

const SHUT: readonly PrivacyStep[] = [
  { sheet: 'KEYS', act: 'protect' },
  { sheet: 'Keys', act: 'hide' },
  { sheet: 'Gone', act: 'hide' },
];
const opened = (): OpenBook => {
  const book = openBook();
  book.model.addSheet('Keys', 'user');
  return book;
};
const state = ({ model }: OpenBook) => {
  const { layout, protection } = model.sheet('Keys');
  return [layout.visibility.toLowerCase(), protection !== null];
};
/** Refuses the requests after so many. */
const refuseFrom = (book: OpenBook, number: number, until = Infinity): void => {
  const first = book.host.requestCount;
  book.host.intercept = (index) =>
    index - first >= number && index - first < until ? { error: 'AccessDenied' } : 'pass';
};
const LOCKED = 'The sheet or the workbook is protected. Take the protection off and try again.';

describe('steps of privacy', () => {
  it('are carried out, those of sheets that are gone passed over, and reversed', async () => {
    const book = opened();
    const outcome = await applyPrivacy(SHUT);
    expect(outcome).toEqual({
      outcome: 'done',
      sentence: 'Protected KEYS; hid Keys, Gone.',
      undo: [
        { sheet: 'Gone', act: 'show' },
        { sheet: 'Keys', act: 'show' },
        { sheet: 'KEYS', act: 'unprotect' },
      ],
    });
    expect(state(book)).toEqual(['hidden', true]);
    expect(book.model.sheet('Keys').protection!.options).toMatchObject({
      allowAutoFilter: true,
      allowFormatColumns: true,
    });
    const back = await applyPrivacy(outcome.outcome === 'done' ? outcome.undo : []);
    expect(back).toMatchObject({
      sentence: 'Showed Gone, Keys; took the protection off KEYS.',
      undo: [
        { sheet: 'KEYS', act: 'protect' },
        { sheet: 'Keys', act: 'hide' },
        { sheet: 'Gone', act: 'hide' },
      ],
    });
    expect(state(book)).toEqual(['visible', false]);
  });

  it('may be repeated', async () => {
    const book = opened();
    await applyPrivacy(SHUT);
    expect((await applyPrivacy(SHUT)).outcome).toBe('done');
    expect(state(book)).toEqual(['hidden', true]);
    for (let n = 0; n < 2; n++)
      expect((await applyPrivacy([{ sheet: 'Keys', act: 'unprotect' }])).outcome).toBe('done');
    expect(state(book)).toEqual(['hidden', false]);
  });

  it('leave the sheets as they were where Excel refuses', async () => {
    const book = opened();
    refuseFrom(book, 2, 3);
    expect(await applyPrivacy(SHUT)).toEqual({
      outcome: 'failed',
      sentence: `${LOCKED} The sheets are as they were before.`,
    });
    expect(state(book)).toEqual(['visible', false]);
    refuseFrom(book, 2);
    expect(await applyPrivacy(SHUT)).toEqual({
      outcome: 'failed',
      sentence: `${LOCKED} Check which sheets are hidden or protected now.`,
    });
  });
});
