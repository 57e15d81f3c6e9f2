/** Reports of the school as plans: what the customer's sheets have and what is left out, and what the shop's have. */
import { describe, expect, it } from 'vitest';
import type { BookReading, KeyRow, SystemReading } from '../../src/workbook/index.ts';
import { planCustomerReport, planShopReport, type ReportInput } from '../../src/workbook/planReports.ts';
import { understand } from '../../src/workbook/schedule.ts';
import { bookWith, EMPTY_BOOK, lineOf, rowsOf, sentences, standing, systemBook, typed } from './plainBook.ts';

const BOOK = systemBook();
const [SCHOOL] = BOOK.systems;
const INPUT: ReportInput = { system: 'School', made: '24 Nov 2026', revision: 'B' };
const customer = (book: BookReading = BOOK, input: Partial<ReportInput> = {}) =>
  planCustomerReport(book, { ...INPUT, ...input });
const withSystem = (change: Partial<SystemReading>): BookReading => ({
  ...BOOK,
  systems: [{ ...SCHOOL!, ...change } as SystemReading],
});
const keysWith = (change: (key: KeyRow) => Partial<KeyRow>): BookReading =>
  withSystem({ keys: SCHOOL!.keys.map((key) => ({ ...key, ...change(key) })) });
const footOf = (plan: { readonly steps: ReturnType<typeof customer>['plan']['steps'] }, sheet: string) =>
  plan.steps.flatMap((step) => (step.kind === 'layout' && step.sheet === sheet ? [step.layout] : []))[0];

describe('the customer’s report', () => {
  it('has the doors of the system, and only columns that are filled', () => {
    const { plan, leftOut } = customer();
    expect(leftOut).toBe(0);
    expect(plan.title).toBe('Write the customer’s report');
    expect(lineOf(plan, 'Customer doors', 0)).toEqual(['Doors and their keysets']);
    expect(lineOf(plan, 'Customer doors', 1)).toEqual([
      'School. Revision B of 24 Nov 2026. Without bittings. Nobody is recorded who may sign for duplicates.',
    ]);
    expect(lineOf(plan, 'Customer doors', 3)).toEqual(['Door', 'Location', 'Keyset', 'Cylinders']);
    expect(rowsOf(plan, 'Customer doors')).toEqual([
      ['0101', 'Front door', 'AA1', 1],
      ['0102', '', 'AA2', 1],
      ['0103', '', 'AB1', 1],
      ['0104', '', 'AB2', 1],
    ]);
    expect(footOf(plan, 'Customer doors')).toMatchObject({
      foot: { left: 'Keying schedule, School', right: 'Revision B, 24 Nov 2026' },
      freeze: { columns: 2 },
    });
  });

  it('calls a cylinder without a door by its number, and a report without a revision by a dash', () => {
    const cylinders = SCHOOL!.cylinders.map((c) => ({ ...c, door: undefined as never }));
    const { plan } = customer(withSystem({ cylinders }), { revision: '' });
    expect(rowsOf(plan, 'Customer doors').map(([door]) => door)).toEqual(['C1', 'C2', 'C3', 'C4']);
    expect(lineOf(plan, 'Customer doors', 1).join()).toContain('School. Revision – of 24 Nov 2026.');
    expect(footOf(plan, 'Customer keys')!.foot!.right).toBe('Revision –, 24 Nov 2026');
  });

  it('has the doors of the schedule where there is one', () => {
    const cells = [
      ['Zone', 'Door', 'Room', 'Side', 'Keyset', 'Qty', 'Type', 'Length', 'Remarks'],
      ['West', '0101', 'Hall', 'in', 'AA1 ', 2, 'rim', '30', 'was 536453'],
      ['West', '0102', '', '', 'AA2', 1, '', '', ''],
    ];
    const schedule = understand(
      {
        box: { sheet: 'Doors', row: 0, column: 0, rows: 3, columns: 9 },
        values: cells,
        formulas: cells,
        merged: [],
        protected: false,
        filtered: false,
      },
      {
        columns: { headerRow: 0, zone: 0, door: 1, location: 2, side: 3, symbol: 4, quantity: 5, type: 6, length: 7, remarks: 8 },
        headers: cells[0]!.map(String),
      }, // prettier-ignore
    );
    const { plan, leftOut } = customer(BOOK, { schedule });
    expect(leftOut).toBe(1);
    expect(lineOf(plan, 'Customer doors', 3)).toEqual([
      'Zone', 'Door', 'Location', 'Side', 'Cylinder', 'Keyset', 'Cylinders', 'Remarks',
    ]); // prettier-ignore
    expect(rowsOf(plan, 'Customer doors')).toEqual([
      ['West', '0101', 'Hall', 'in', 'rim, 30', 'AA1', 2, '(left out)'],
      ['West', '0102', '', '', '', 'AA2', 1, ''],
    ]);
  });

  it('keeps the columns that a report has already, to empty them', () => {
    const old = standing('KeyrowCustomerDoors', 'Customer doors', [
      ['Zone', 'Door', 'Location', 'Keyset', 'Cylinders'],
      ['West', '0101', 'Hall', 'AA1', 1],
    ]);
    const book = {
      ...BOOK,
      tables: [...BOOK.tables, old.table],
      sheets: [...BOOK.sheets, old.sheet],
    };
    const { plan } = customer(book);
    expect(plan.conflicts).toEqual([]);
    expect(rowsOf(plan, 'Customer doors')[0]).toEqual(['', '0101', 'Front door', 'AA1', 1]);
    expect(plan.steps).toContainEqual(expect.objectContaining({ kind: 'foot', sheet: 'Customer doors' }));
  });

  it('has issued keys alone, in the order of their symbols, with how many doors are theirs', () => {
    const levels = { A: 'GMK', AB1: 'single', AB2: 'control' } as const;
    const book = keysWith(({ symbol }) => ({
      status: symbol === 'AA2' ? 'reserved' : 'issued',
      ...(symbol in levels && { level: levels[symbol as keyof typeof levels] }),
    }));
    const keys = [...book.systems[0]!.keys].reverse();
    const cylinders = SCHOOL!.cylinders.map((c) => ({ ...c, symbol: c.id === 'C2' ? 'aa1' : c.symbol }));
    const { plan } = customer(withSystem({ keys, cylinders }));
    expect(lineOf(plan, 'Customer keys', 0)).toEqual(['Keys']);
    expect(lineOf(plan, 'Customer keys', 3)).toEqual([
      'Key', 'Level', 'Under', 'Keys', 'Doors', 'Received by', 'Date',
    ]); // prettier-ignore
    expect(rowsOf(plan, 'Customer keys')).toEqual([
      ['A', 'GMK', '', '', '', '', ''],
      ['AA', 'MK', 'A', '', '', '', ''],
      ['AA1', 'CK', 'AA', 3, 2, '', ''],
      ['AB', 'MK', 'A', '', '', '', ''],
      ['AB1', 'Single', 'AB', '', 1, '', ''],
      ['AB2', 'Control', 'AB', '', 1, '', ''],
    ]);
    expect(footOf(plan, 'Customer keys')).toMatchObject({
      foot: { left: 'Keying schedule, School' },
      freeze: { columns: 1 },
    });
    const bare = keysWith(() => ({ status: 'issued', level: undefined as never }));
    expect(rowsOf(customer(bare).plan, 'Customer keys')[0]![1]).toBe('');
  });

  it('lets no bitting out, not by its line either', () => {
    const { plan, leftOut } = customer(typed(BOOK, 'Cylinders', { D6: 'code 5-3-6-4-5-7' }));
    expect(rowsOf(plan, 'Customer doors')[1]![1]).toBe('(left out)');
    expect(leftOut).toBe(1);
    const quoting = customer(BOOK, { made: '24 Nov 2026 for 536453' }).plan;
    expect(lineOf(quoting, 'Customer doors', 1)).toEqual(['Without bittings.']);
    expect(lineOf(quoting, 'Customer keys', 1)).toEqual(['Without bittings.']);
  });

  it('of a system that isn’t there has no row', () => {
    const { plan } = customer(EMPTY_BOOK);
    expect(plan.effects).toMatchObject([{ rows: 0 }, { rows: 0 }]);
    expect(lineOf(plan, 'Customer doors', 3)).toEqual(['Door']);
  });
});

describe('the shop’s report', () => {
  const shop = (book: BookReading = BOOK) => planShopReport(book, INPUT);

  it('says SECRET on every page', () => {
    const plan = shop();
    expect(plan.title).toBe('Write the shop’s report');
    for (const sheet of ['Shop cylinders', 'Shop keys']) {
      expect(lineOf(plan, sheet, 0).join()).toMatch(/^SECRET/);
      expect(lineOf(plan, sheet, 1)).toEqual([
        'SECRET: whoever has a bitting can cut the key. Not for the customer. School. Revision B of 24 Nov 2026.',
      ]);
      expect(footOf(plan, sheet)).toMatchObject({
        foot: { left: 'SECRET: bittings, School', right: 'Revision B, 24 Nov 2026' },
        freeze: { columns: 1 },
      });
    }
  });

  it('has each cylinder with its bitting, chambers and control cuts', () => {
    const control = SCHOOL!.keys[3]!.bitting!;
    const cylinders = SCHOOL!.cylinders.map((c) =>
      c.id === 'C2'
        ? { ...c, control, symbol: 'aa2' }
        : c.id === 'C3'
          ? { ...c, chambers: undefined as never, door: undefined as never }
          : c,
    );
    const keys = SCHOOL!.keys.map((key) =>
      key.symbol === 'AB2' ? { ...key, status: 'retired' as const } : key,
    );
    const plan = shop(withSystem({ cylinders, keys }));
    expect(lineOf(plan, 'Shop cylinders', 3)).toEqual([
      'Door', 'Location', 'Cylinder', 'Keyset', 'Bitting',
      'Ch 1', 'Ch 2', 'Ch 3', 'Ch 4', 'Ch 5', 'Ch 6', 'Ch 7', 'Ch 8', 'Control',
    ]); // prettier-ignore
    expect(rowsOf(plan, 'Shop cylinders')).toEqual([
      ['0101', 'Front door', 'C1', 'AA1', '536453', '3 5', '3 5', '4 6', '4 6', '3 5', '3 5', '', '', ''],
      ['0102', '', 'C2', 'aa2', '536457', '3 5', '3 5', '4 6', '4 6', '3 5', '5 7', '', '', '536453'],
      ['', '', 'C3', 'AB1', '136453', '', '', '', '', '', '', '', '', ''],
      // a retired bitting is nobody's
      ['0104', '', 'C4', 'AB2', '', '1 3', '3 5', '2 4', '4 6', '3 5', '3 5', '', '', ''],
    ]);
  });

  it('passes over chambers that the spec doesn’t have, and all of them without a spec', () => {
    const longer = SCHOOL!.cylinders.map((c) => ({ ...c, chambers: [...c.chambers!, c.chambers![0]!] }));
    expect(rowsOf(shop(withSystem({ cylinders: longer })), 'Shop cylinders')[0]!.slice(10)).toEqual([
      '3 5',
      '',
      '',
      '',
    ]);
    const bare = withSystem({ spec: undefined as never });
    expect(rowsOf(shop(bare), 'Shop cylinders')[0]!.slice(4)).toEqual(['536453', '', '', '', '', '', '', '', '', '']); // prettier-ignore
  });

  it('has keys in use with their bittings', () => {
    const plan = shop(
      keysWith(({ symbol }) =>
        symbol === 'AA'
          ? { status: 'void' }
          : symbol === 'AA1'
            ? { status: undefined as never, keyway: 'K2', copies: 3 }
            : { level: undefined as never },
      ),
    );
    expect(lineOf(plan, 'Shop keys', 3)).toEqual([
      'Key', 'Level', 'Under', 'Bitting', 'Status', 'Keyway', 'Keys',
    ]); // prettier-ignore
    expect(rowsOf(plan, 'Shop keys')).toEqual([
      ['A', '', '', '354635', 'reserved', '', ''],
      // a status that nobody filled in counts as reserved
      ['AA1', 'CK', 'AA', '536453', '', 'K2', 3],
      ['AA2', '', 'AA', '536457', 'reserved', '', ''],
      ['AB', '', 'A', '154635', 'reserved', '', ''],
      ['AB1', '', 'AB', '136453', 'reserved', '', ''],
      ['AB2', '', 'AB', '132453', 'reserved', '', ''],
    ]);
  });

  it('of a system that went is not written', () => {
    expect(sentences(shop(bookWith()))).toEqual(['There is no system School in this workbook any more.']);
  });
});
