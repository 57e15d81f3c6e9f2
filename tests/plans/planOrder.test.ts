/** The order and the stamping as plans: what a supplier gets, and no bitting among it. */
import { describe, expect, it } from 'vitest';
import type { ScheduleTotals } from '../../src/keying/scheduleTotals.ts';
import type { BookReading } from '../../src/workbook/index.ts';
import { planOrder, type OrderInput } from '../../src/workbook/planOrder.ts';
import { EMPTY_BOOK, lineOf, rowsOf, standing, systemBook } from './plainBook.ts';

const rim = { type: 'rim', length: '30', cam: 'long', finish: 'brass' };
const doors = (count: number): string[] => Array.from({ length: count }, (_, i) => `${i + 1}`);
const TOTALS: ScheduleTotals = {
  cylinders: [
    { text: rim, symbol: 'AA1', quantity: 2, doors: ['1', '2'] },
    { text: { ...rim, finish: '' }, symbol: 'AA1', quantity: 1, doors: doors(12) },
    { text: rim, symbol: '', quantity: 13, doors: doors(13) },
  ],
  keys: [
    { symbol: 'A', level: 'GMK', copies: 2, from: 'schedule' },
    { symbol: 'AA1', level: 'CK', copies: 3, from: 'system' },
    { symbol: 'AA2' },
  ] as unknown as ScheduleTotals['keys'],
  cylinderCount: 16,
  keyCount: 5,
};
const INPUT: OrderInput = { system: 'School', from: 'Doors', made: '24 Nov 2026', totals: TOTALS };
const planned = (input: Partial<OrderInput> = {}, book: BookReading = EMPTY_BOOK) =>
  planOrder(book, { ...INPUT, ...input });
const layoutOf = (plan: ReturnType<typeof planned>, sheet: string) =>
  plan.steps.flatMap((step) => (step.kind === 'layout' && step.sheet === sheet ? [step.layout] : []))[0];

describe('the order', () => {
  it('has a row for each kind of cylinder, then one for each key', () => {
    const plan = planned();
    expect(plan.title).toBe('Write the order and the stamping');
    expect(lineOf(plan, 'Order', 0)).toEqual(['Order']);
    expect(lineOf(plan, 'Order', 1)).toEqual([
      '16 cylinders and 5 keys for School, counted 24 Nov 2026 from Doors. Nobody is recorded who may sign for duplicates.',
    ]);
    expect(rowsOf(plan, 'Order')).toEqual([
      ['Cylinder', 2, 'rim', '30', 'long', 'brass', 'AA1', '1, 2', ''],
      ['Cylinder', 1, 'rim', '30', 'long', '', 'AA1', '1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12', ''],
      [
        'Cylinder', 13, 'rim', '30', 'long', 'brass', '',
        '1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12 and 1 more', 'Not keyed yet.',
      ],
      ['Key', 2, 'GMK', '', '', '', 'A', '', 'Number from the schedule.'],
      ['Key', 3, '', '', '', '', 'AA1', '', ''],
      ['Key', '', '', '', '', '', 'AA2', '', 'How many? No number is recorded.'],
    ]); // prettier-ignore
    expect(layoutOf(plan, 'Order')).toMatchObject({
      foot: { left: 'Order for School', right: '24 Nov 2026' },
      freeze: { columns: 1 },
    });
  });

  it('names no system where there is none', () => {
    const plan = planned({ system: '' });
    expect(lineOf(plan, 'Order', 1).join()).toContain('16 cylinders and 5 keys, counted');
    expect(layoutOf(plan, 'Order')!.foot!.left).toBe('Order');
    expect(lineOf(plan, 'Stamping', 1).join()).toContain('Symbol and copy number, never a bitting');
  });

  it('says who may sign: of this system, or of all where none is named', () => {
    const { table, sheet } = standing('KeyrowAuthorised', 'Authorised', [
      ['System', 'May sign', 'Function', 'For keys', 'Restricted blank', 'From', 'Until', 'Note'],
      ['School', 'Head', '', '', '', '', '', ''],
      ['Other', 'Warden', '', '', '', '', '', ''],
    ]);
    const book = { ...EMPTY_BOOK, tables: [table], sheets: [sheet] };
    expect(lineOf(planned({}, book), 'Order', 1).join()).toContain('Duplicates are signed for by Head.');
    expect(lineOf(planned({ system: '' }, book), 'Order', 1).join()).toContain('signed for by Head, Warden.');
  });
});

describe('the stamping', () => {
  it('has a row a copy, and one for all cylinders of a keyset', () => {
    const plan = planned();
    expect(lineOf(plan, 'Stamping', 0)).toEqual(['Stamping']);
    expect(lineOf(plan, 'Stamping', 1)).toEqual([
      'Symbol and copy number for School, never a bitting; made 24 Nov 2026. Stamp cylinders where only the open door shows it.',
    ]);
    expect(rowsOf(plan, 'Stamping')).toEqual([
      ['Key', 'A', 'A-1', 1, '', ''],
      ['Key', 'A', 'A-2', 1, '', ''],
      ['Key', 'AA1', 'AA1-1', 1, '', ''],
      ['Key', 'AA1', 'AA1-2', 1, '', ''],
      ['Key', 'AA1', 'AA1-3', 1, '', ''],
      ['Key', 'AA2', 'AA2', 1, '', ''],
      ['Cylinder', 'AA1', 'AA1', 3, '', ''],
    ]);
    expect(layoutOf(plan, 'Stamping')).toMatchObject({
      foot: { left: 'Stamping for School', right: '24 Nov 2026' },
      freeze: { columns: 2 },
    });
    const [first] = rowsOf(planned({ stamp: { firstCopy: 5, before: 'SCH' } }), 'Stamping');
    expect(first).toEqual(['Key', 'A', 'SCH A-5', 1, '', '']);
  });

  it('stamps no symbol that reads like a bitting', () => {
    const keys = [{ symbol: '536453', copies: 1 }] as unknown as ScheduleTotals['keys'];
    const cylinders = [{ text: rim, symbol: '536453', quantity: 2, doors: ['1'] }];
    const plan = planned({ totals: { ...TOTALS, keys, cylinders } }, systemBook());
    const note = 'Not stamped: the symbol reads like a bitting.';
    expect(rowsOf(plan, 'Stamping')).toEqual([
      ['Key', '', '', 1, '', note],
      ['Cylinder', '', '', 2, '', note],
    ]);
  });
});
