/** How a book stands on a day where some of its rows and systems can't be read. */
import { describe, expect, it } from 'vitest';
import { standingOn } from '../../src/workbook/standing.ts';
import { bookOf, tableOf } from './byHand.ts';
import { day } from './house.ts';

const BOOK = bookOf(
  tableOf('KeyrowSystems', 'Systems', [
    ['System', 'Spec'],
    ['Unknown', 'S-9'],
    ['House', 'S-018-6'],
  ]),
  tableOf('KeyrowKeys', 'Keys', [
    ['System', 'Symbol', 'Bitting', 'Level', 'Status', 'Copies'],
    ['Unknown', 'U', '012345', 'CK', 'issued', 1],
    ['House', 'A0', '01234x', 'CK', 'issued', 1],
    ['House', 'A1', '112345', 'CK', 'issued', 1],
    ['House', 'A2', '212345', 'CK', 'issued', 2],
  ]),
);

describe('a book on a day', () => {
  it('has the copies of every key that can be read, and of no other', () => {
    const { systems, state } = standingOn(BOOK, day(3, 31));
    expect(systems.map(({ reading }) => reading.name)).toEqual(['House']);
    const { audit, of } = systems[0]!;
    expect(
      audit.system.keys.map(({ symbol }, k) => [symbol, of.copies[k]!.map((c) => `${c.symbol} / ${c.copy}`)]),
    ).toEqual([
      ['A1', ['A1 / 1']],
      ['A2', ['A2 / 1', 'A2 / 2']],
    ]);
    // the ledger knows of the others all the same
    expect(state.copies.map(({ symbol }) => symbol).sort()).toEqual(['A0', 'A1', 'A2', 'A2', 'U']);
  });

  it('works out once what opens what', () => {
    const [first, second] = [day(3, 30), day(3, 31)].map((on) => standingOn(BOOK, on).systems[0]!);
    expect(first!.of.access).toBe(second!.of.access);
  });
});
