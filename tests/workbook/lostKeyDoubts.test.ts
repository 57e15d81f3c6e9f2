/** Rows that can't be read beside a lost key, in a book made by hand: which bar the change, and with which words. */
import { describe, expect, it } from 'vitest';
import { accessMap } from '../../src/keying/access.ts';
import { sayDoubt } from '../../src/keying/doubtfulKeys.ts';
import { auditInputOf } from '../../src/keying/intended.ts';
import { liveKey, lostKeyScope } from '../../src/keying/lostKey.ts';
import { lostKeyDoubts } from '../../src/workbook/lostKeyDoubts.ts';
import type { BookReading, CellValue } from '../../src/workbook/reading.ts';
import { standingOn } from '../../src/workbook/standing.ts';
import { bookOf, tableOf } from './byHand.ts';
import { day } from './house.ts';

type Rows = readonly (readonly CellValue[])[];
const CHAMBERS = [1, 2, 3, 4, 5, 6].map((c) => `Ch ${c}`);
const KEYS: Rows = [
  ['House', 'A1', '112345', 'CK', 'issued', 'K1'],
  ['House', 'A2', '212345', 'CK', 'issued', 'K1'],
];
const CYLINDERS: Rows = [
  ['House', 'C1', 'A1', 'K1', '1', '1', '2', '3', '4', '5'],
  ['House', 'C2', 'A2', 'K1', '2', '1', '2', '3', '4', '5'],
];
const book = (keys: Rows = [], cylinders: Rows = []): BookReading =>
  bookOf(
    tableOf('KeyrowSystems', 'Systems', [['System', 'Spec'], ['House', 'S-018-6']]),
    tableOf('KeyrowKeys', 'Keys', [['System', 'Symbol', 'Bitting', 'Level', 'Status', 'Keyway'], ...KEYS, ...keys]),
    tableOf('KeyrowCylinders', 'Cylinders', [['System', 'Cylinder', 'Symbol', 'Keyway', ...CHAMBERS, 'Control'], ...CYLINDERS, ...cylinders]),
  ); // prettier-ignore

/** What stands in the way of changing what the lost A1 opened. */
function doubts(made: BookReading) {
  const standing = standingOn(made, day(3, 31)).systems[0]!;
  const { system, marks } = standing.audit;
  const scope = lostKeyScope(system, accessMap(auditInputOf(system, marks)), liveKey(system, 'A1'));
  return lostKeyDoubts(made, standing, scope);
}
const bars = (made: BookReading) =>
  doubts(made).bars.map(({ at, sentence }) => `${at.sheet}!${at.address} ${sentence}`);
const CANT_TELL = 'Whether the lost key opens it, or a new one would, can’t be told until then.';

describe('rows that can’t be read, when a key is lost', () => {
  it('are none where every row can be read', () => {
    expect(doubts(book())).toStrictEqual({ bars: [], doubtful: [], mends: [] });
  });

  it('bar the change where the code could be anything, with the fault of its cell and why', () => {
    const made = book([['House', 'A3', 'lost list', 'CK', 'issued', 'K1']]);
    const [first, ...others] = bars(made);
    expect(others).toEqual([]);
    const fault = made.problems.find(({ address }) => address === 'D7')!.sentence;
    expect(first).toBe(
      `Keys!D7 Key A3 can’t be read. ${fault} ${sayDoubt({ kind: 'bars', why: 'anything' })}`,
    );
    // a key without a symbol, by its level alone
    const nameless = bars(book([['House', '', 'lost list', 'MK', 'issued', '']]));
    expect(nameless[0]).toMatch(/^Keys!D7 Key \(no symbol\) can’t be read\. /);
  });

  it('are shut out where few bittings are possible, and concern nobody where the blank enters nothing that changes', () => {
    const {
      doubtful,
      mends,
      bars: barred,
    } = doubts(
      book([
        ['House', 'A3', '91234x', 'CK', 'issued', 'K1'],
        ['House', 'A4', 12345, 'CK', 'issued', 'K1'],
        ['House', 'A5', 'lost list', 'CK', 'issued', 'K9'],
        ['House', 'A6', 'lost list', 'CK', 'free', 'K1'],
      ]),
    );
    expect(barred).toEqual([]);
    expect(doubtful.map(({ symbol, keyway }) => [symbol, keyway])).toEqual([
      ['A3', 'K1'],
      ['A4', 'K1'],
    ]);
    expect(doubtful[0]!.bittings).toHaveLength(10);
    expect(mends.map(({ symbol, from, to }) => [symbol, from, to])).toEqual([['A4', '12345', '012345']]);
  });

  it('bar the change where a control key may pull what changes', () => {
    const [a1, a2] = CYLINDERS;
    const cores = (level: string) => {
      const made = book([['House', 'CTR', '91234x', level, 'issued', 'K1']]);
      const tables = made.tables.map((table) =>
        table.name === 'KeyrowCylinders'
          ? tableOf(table.name, 'Cylinders', [table.headers, [...a1!, '912345'], [...a2!, '912345']])
          : table,
      );
      return doubts(bookOf(...tables));
    };
    expect(cores('control').bars[0]!.sentence).toContain(sayDoubt({ kind: 'bars', why: 'meant' }));
    expect([cores('CK').bars.length, cores('CK').doubtful.length]).toEqual([0, 1]);
  });

  it('count as issued and as of any keyway where those can’t be read', () => {
    expect(bars(book([['House', 'A3', 'lost list', 'CK', 'gone', 'K1']]))).toHaveLength(1);
    expect(bars(book([['House', 'A3', 'lost list', 'boss', 'issued', 'K1']]))).toHaveLength(1);
    expect(bars(book([['House', 'A3', 'lost list', 'CK', 'issued', '']]))).toHaveLength(1);
  });

  it('bar the change at a cylinder that the lost key may open', () => {
    const made = book([], [
      ['House', 'C3', 'A2', 'K1', 'x', '1', '2', '3', '4', '5'],
      ['House', 'C4', 'A2', 'K9', 'x', '1', '2', '3', '4', '5'],
      ['House', '', 'A2', 'K1', '', '', '', '', '', '', ''],
      ['House', 'C6', 'A2', 'K1', '2', '1', '2', '3', '4', '5', '11111x'],
      ['House', 'C7', '', 'K1', '2', '1', '2', '3', '4', '5', '11111x'],
      ['House', 'C8', '', 'K1', '', '', '', '', '', '', ''],
    ]); // prettier-ignore
    const [c3, c5, c6, c7, c8, ...others] = bars(made);
    expect(others).toEqual([]);
    const said = (address: string) =>
      made.problems.find((p) => p.sheet === 'Cylinders' && p.address === address)!.sentence;
    expect(c3).toBe(`Cylinders!F7 Cylinder C3 can’t be read. ${said('F7')} ${CANT_TELL}`);
    // a row with a fault in another cell, though its chambers only have a warning
    expect(c5).toBe(`Cylinders!C9 Cylinder (no number) can’t be read. ${said('C9')} ${CANT_TELL}`);
    expect(c6).toBe(`Cylinders!L10 Cylinder C6 can’t be read. ${said('L10')} ${CANT_TELL}`);
    // the cells that keep it from being read before any other of its row
    expect(c7).toBe(`Cylinders!L11 Cylinder C7 can’t be read. ${said('L11')} ${CANT_TELL}`);
    expect(c8).toBe(`Cylinders!D12 Cylinder C8 can’t be read. ${said('D12')} ${CANT_TELL}`);
  });

  it('are told by a warning of the row where there is no fault, and by the cell alone where nothing was said', () => {
    const made = book([], [['House', 'C3', 'A2', 'K1', '', '', '', '', '', '', '']]);
    const unpinned = 'This cylinder is not pinned yet, so it is not audited.';
    expect(bars(made)).toEqual([`Cylinders!F7 Cylinder C3 can’t be read. ${unpinned} ${CANT_TELL}`]);
    expect(bars({ ...made, problems: [] })).toEqual([`Cylinders!F7 Cylinder C3 can’t be read. ${CANT_TELL}`]);
    // a fault in another row, or in that row of another sheet, is none of this
    const no = { severity: 'fault', sentence: 'No.' } as const;
    const elsewhere = [
      { sheet: 'Keys', address: 'F7', ...no },
      { sheet: 'Cylinders', address: 'F70', ...no },
      ...made.problems,
    ];
    expect(bars({ ...made, problems: elsewhere })).toEqual([
      `Cylinders!F7 Cylinder C3 can’t be read. ${unpinned} ${CANT_TELL}`,
    ]);
  });
});
