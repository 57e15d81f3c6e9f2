/**
 * The change after the loss of AA1 in the school, made up by hand: AA1 gets another bitting, its cylinder C1 other
 * chambers. What is planned are the cells that change, the new row, and the sheets that go with it.
 */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../src/keying/bitting.ts';
import { depthSetOf } from '../../src/keying/depthSet.ts';
import type { Day } from '../../src/keying/calendar.ts';
import type { BookReading, SystemReading } from '../../src/workbook/index.ts';
import { lostKeyChanges } from '../../src/workbook/lostKeyChanges.ts';
import { planLostKey, type Fresh, type LostKeyPlanInput } from '../../src/workbook/planLostKey.ts';
import { carriedOut, EMPTY_BOOK, lineOf, rowsOf, sentences, systemBook, writesOf } from './plainBook.ts';
import { school, SPEC } from '../workbook/school.ts';

const BOOK = systemBook();
const [SCHOOL] = BOOK.systems;

/** AA1, the fourth key, gets 516453: its second cut is 1 and no longer 3. */
const FRESH: Fresh = {
  ok: true,
  scope: { lost: 3, exposed: [0], replaced: [3], along: [] },
  keys: [
    {
      replaces: 3,
      record: {
        symbol: 'AA1',
        level: 'CK',
        parent: 'AA',
        status: 'issued',
        bitting: bittingOf(SPEC, [5, 1, 6, 4, 5, 3]),
      },
    },
  ],
  cylinders: [
    {
      cylinder: 0,
      chambers: SCHOOL!.cylinders[0]!.chambers!.map((set, i) => (i === 1 ? depthSetOf([1, 5]) : set)),
    },
  ],
  pairsAudited: 1,
};
const PHASES = [
  { title: 'Outside doors', cylinders: [0], doors: 1, stillExposed: { cylinders: 2, doors: 2 } },
  { title: 'All others', cylinders: [1, 3], doors: 2, stillExposed: { cylinders: 0, doors: 0 } },
];
const INPUT: LostKeyPlanInput = {
  made: '14 Mar 2026',
  system: SCHOOL!,
  fresh: FRESH,
  phases: PHASES,
  orders: { shop: false, tenant: false },
};
const planned = (input: Partial<LostKeyPlanInput> = {}, book: BookReading = BOOK) =>
  planLostKey(book, { ...INPUT, ...input });
const without = (table: string): BookReading => ({
  ...BOOK,
  tables: BOOK.tables.filter(({ name }) => name !== table),
});
const renamed = (table: string, from: string, to: string): BookReading => ({
  ...BOOK,
  tables: BOOK.tables.map((t) =>
    t.name === table ? { ...t, headers: t.headers.map((h) => (h === from ? to : h)) } : t,
  ),
});

describe('a lost key', () => {
  it('retires the old bitting, re-pins the cylinder, and adds the new row', () => {
    const plan = planned();
    expect(plan).toMatchObject({ title: 'Change what AA1 opens', conflicts: [] });
    expect(writesOf(plan).slice(0, 2)).toMatchObject([
      { sheet: 'Keys', row: 7, column: 5, cells: [['retired']], formats: ['text'], expected: [['reserved']] },
      { sheet: 'Cylinders', row: 4, column: 7, cells: [['1 5']], expected: [['3 5']] },
    ]);
    expect(plan.effects).toEqual([
      { kind: 'cells', sheet: 'Keys', rows: 1, what: 'cells changed' },
      { kind: 'cells', sheet: 'Cylinders', rows: 1, what: 'cells changed' },
      { kind: 'rows', sheet: 'Keys', rows: 1, what: 'rows added' },
    ]);
    const keys = carriedOut(BOOK, plan).systems[0]!.keys;
    expect(keys[3]).toMatchObject({ symbol: 'AA1', bittingText: '536453', status: 'retired' });
    // three copies stood on the old row
    expect(keys[7]).toMatchObject({ symbol: 'AA1', bittingText: '516453', status: 'issued', copies: 3 });
    const row = carriedOut(BOOK, plan).tables.find(({ name }) => name === 'KeyrowKeys')!.values[7]!;
    expect(row[0]).toBe('School');
    expect(row[11]).toBe('14 Mar 2026: in place of the bitting retired when AA1 was lost');
  });

  it('changes the top master and its array where they are new', () => {
    const made = school();
    const array = [[1, 5], [1, 3], [2, 6], [2, 4], [5, 7], [3, 7]]; // prettier-ignore
    const book = systemBook({ ...made, system: { ...made.system, array } });
    const fresh: Fresh = {
      ...FRESH,
      topMaster: bittingOf(SPEC, [3, 5, 4, 6, 3, 9]),
      array: array.map((choices, i) => (i === 5 ? [5, 7] : choices)),
    };
    const plan = planned({ system: book.systems[0]!, fresh }, book);
    const [system] = carriedOut(book, plan).systems;
    expect(system!.topMaster).toEqual([3, 5, 4, 6, 3, 9]);
    expect(system!.array).toEqual([...array.slice(0, 5), [5, 7]]);
    // what stays as it is is not written
    expect(writesOf(plan, 'Systems')).toMatchObject([
      { row: 4, column: 4, cells: [['354639']], expected: [['354635']] },
      { row: 4, column: 10, cells: [['5 7']], expected: [['3 7']] },
    ]);
    expect(planned({ fresh }, without('KeyrowSystems')).conflicts).toEqual([]);
    expect(writesOf(planned({ fresh: { ...FRESH, array } }), 'Systems')).toEqual([]);
  });

  it('is not planned where the sheets or the spec are gone', () => {
    const lost = [
      'The sheets Keys and Cylinders, or the spec of this system, are gone. Read the book again.',
    ];
    const bare = { ...SCHOOL!, spec: undefined } as unknown as SystemReading;
    for (const plan of [
      planned({}, EMPTY_BOOK),
      planned({}, without('KeyrowKeys')),
      planned({}, without('KeyrowCylinders')),
      planned({ system: bare }),
    ]) {
      expect(sentences(plan)).toEqual(lost);
      expect(plan).toMatchObject({ title: 'Change what AA1 opens', steps: [] });
    }
  });

  it('needs the columns that it changes', () => {
    const sentence = (sheet: string, heading: string) =>
      `The table on ${sheet} has no column “${heading}”. Add it, or give the renamed column its name back.`;
    expect(planned({}, renamed('KeyrowCylinders', 'Ch 2', 'Zwei')).conflicts).toEqual([
      { sentence: sentence('Cylinders', 'Ch 2'), at: SCHOOL!.cylinders[0]!.at.row },
    ]);
    expect(sentences(planned({}, renamed('KeyrowKeys', 'Status', 'State')))[0]).toBe(
      sentence('Keys', 'Status'),
    );
  });

  it('writes no sheet that was not asked for', () => {
    expect(planned().steps.some(({ kind }) => kind === 'add-sheet')).toBe(false);
    const sheets = (input: Partial<LostKeyPlanInput>) =>
      planned(input).steps.flatMap((step) => (step.kind === 'add-sheet' ? [step.sheet] : []));
    expect(sheets({ orders: { shop: true, tenant: false } })).toEqual(['Work order']);
    expect(sheets({ orders: { shop: false, tenant: true } })).toEqual(['Work order, tenant']);
    expect(sheets({ recall: [] })).toEqual(['Keys to call back']);
  });
});

describe('the work order', () => {
  it('of the shop has the depths and the new bitting, phase by phase', () => {
    const plan = planned({ orders: { shop: true, tenant: false } });
    expect(lineOf(plan, 'Work order', 0)).toEqual(['Work order: key AA1 is lost']);
    expect(lineOf(plan, 'Work order', 1)).toEqual([
      'Phase 1: Outside doors, 1 door, then 2 still exposed. Phase 2: All others, 2 doors, then 0 still exposed. Written 14 Mar 2026. SECRET: whoever has a bitting can cut the key. Prove each new key in its lock before the old one is taken back; doors on exit routes stay free to leave throughout.',
    ]);
    expect(lineOf(plan, 'Work order', 3)).toEqual([
      'Phase', 'Door', 'Location', 'Cylinder', 'Keyset', 'New bitting',
      'Ch 1', 'Ch 2', 'Ch 3', 'Ch 4', 'Ch 5', 'Ch 6', 'Done on', 'Signature',
    ]); // prettier-ignore
    expect(rowsOf(plan, 'Work order')).toEqual([
      [1, '0101', 'Front door', 'C1', 'AA1', '516453', '3 5', '1 5', '4 6', '4 6', '3 5', '3 5', '', ''],
      // of a cylinder without new chambers there is nothing to say
      [2, '0102', '', 'C2', 'AA2', '', '', '', '', '', '', '', '', ''],
      [2, '0104', '', 'C4', 'AB2', '', '', '', '', '', '', '', '', ''],
    ]);
    const layout = plan.steps.find(({ kind }) => kind === 'layout');
    expect(layout).toMatchObject({ layout: { freeze: { columns: 2 } } });
    const formats = writesOf(plan, 'Work order').find(({ row }) => row === 4)!.formats;
    expect(formats.slice(0, 3)).toEqual(['general', 'text', 'text']);
  });

  it('of the tenant has none, nor a text that gives one away', () => {
    const cylinders = SCHOOL!.cylinders.map((c) => (c.id === 'C2' ? { ...c, location: 'was 536453' } : c));
    const system = { ...SCHOOL!, cylinders };
    const plan = planned({ system, orders: { shop: false, tenant: true } });
    const name = 'Work order, tenant';
    expect(lineOf(plan, name, 1).join()).not.toContain('SECRET');
    expect(lineOf(plan, name, 3)).toEqual([
      'Phase', 'Door', 'Location', 'Cylinder', 'Keyset', 'Done on', 'Signature',
    ]); // prettier-ignore
    expect(rowsOf(plan, name)).toEqual([
      [1, '0101', 'Front door', 'C1', 'AA1', '', ''],
      [2, '0102', '(left out)', 'C2', 'AA2', '', ''],
      [2, '0104', '', 'C4', 'AB2', '', ''],
    ]);
    const shop = planned({ system, orders: { shop: true, tenant: false } });
    expect(rowsOf(shop, 'Work order')[1]![2]).toBe('was 536453');
  });

  it('names the zones where the schedule tells them', () => {
    const zones = { sheet: 'Doors', zoneOf: (door: string) => (door === '0101' ? 'West' : undefined) };
    const plan = planned({ zones, orders: { shop: false, tenant: true } });
    const name = 'Work order, tenant';
    expect(lineOf(plan, name, 3).slice(1, 4)).toEqual(['Door', 'Zone', 'Location']);
    expect(rowsOf(plan, name).map((row) => row.slice(1, 4))).toEqual([
      ['0101', 'West', 'Front door'],
      ['0102', '', ''],
      ['0104', '', ''],
    ]);
  });

  it('of each kind is a table of its own, and so is a second one', () => {
    const tables = (book: BookReading) =>
      planned({ orders: { shop: true, tenant: true }, recall: [] }, book).steps.flatMap((step) =>
        step.kind === 'add-table' ? [step.name] : [],
      );
    expect(tables(BOOK)).toEqual(['KeyrowOrder1', 'KeyrowOrder2', 'KeyrowRecall1']);
    expect(tables({ ...BOOK, tableNames: [...BOOK.tableNames, 'keyroworder1', 'KeyrowRecall1'] })).toEqual([
      'KeyrowOrder2',
      'KeyrowOrder3',
      'KeyrowRecall2',
    ]);
    const again = {
      ...BOOK,
      sheets: [
        ...BOOK.sheets,
        ...['Work order', 'Work order, tenant', 'Keys to call back'].map((name) => ({
          name,
          visible: true,
          protected: false,
        })),
      ],
    };
    const sheets = planned({ orders: { shop: true, tenant: false }, recall: [] }, again).steps.flatMap(
      (step) => (step.kind === 'add-sheet' ? [step.sheet] : []),
    );
    expect(sheets).toEqual(['Work order AA1', 'Keys to call back AA1']);
  });
});

describe('keys to call back', () => {
  it('are listed with their holders and room to tick off', () => {
    const since = 25_569 as Day;
    const plan = planned({
      recall: [
        { holder: 'Caretaker', department: 'House', symbol: 'AA1', copy: 1, since },
        { holder: 'Cook', department: '', symbol: 'AA1', copy: 2 },
      ],
    });
    const name = 'Keys to call back';
    expect(lineOf(plan, name, 0)).toEqual(['Keys to call back: key AA1 is lost']);
    expect(lineOf(plan, name, 1)).toEqual([
      'Their doors change, so these keys open nothing when the work is done. Written 14 Mar 2026. Names are personal data: keep this sheet in the house.',
    ]);
    // Excel’s day 25569 is 1 January 1970, as Microsoft documents its date systems
    expect(rowsOf(plan, name)).toEqual([
      ['Caretaker', 'House', 'AA1', 1, '1970-01-01', '', '', ''],
      ['Cook', '', 'AA1', 2, '', '', '', ''],
    ]);
    expect(plan.steps.find(({ kind }) => kind === 'layout')).toMatchObject({
      layout: { freeze: { columns: 1 } },
    });
    expect(lineOf(planned({ recall: [] }), name, 1).join()).toContain(
      'By the ledger none of these keys is in anybody’s hands. Written',
    );
  });
});

describe('old beside new', () => {
  it('has each key, and of each cylinder the chambers that change', () => {
    expect(lostKeyChanges(SCHOOL!, FRESH)).toEqual({
      keys: [{ symbol: 'AA1', from: '536453', to: '516453' }],
      cylinders: [
        { door: '0101', cylinder: 'C1', symbol: 'AA1', chambers: [{ chamber: 2, from: '3 5', to: '1 5' }] },
      ],
    });
  });

  it('is nothing without a spec', () => {
    const bare = { ...SCHOOL!, spec: undefined } as unknown as SystemReading;
    expect(lostKeyChanges(bare, FRESH)).toEqual({ keys: [], cylinders: [] });
  });
});
