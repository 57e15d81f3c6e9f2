/** Every way on which the add-in writes to a workbook, as plans made on one invented book that has something of all. */
import { accessMap } from '../../src/keying/access.ts';
import { parseMoment, type Day } from '../../src/keying/calendar.ts';
import { auditSystem } from '../../src/keying/audit.ts';
import { freshBittings } from '../../src/keying/freshBittings.ts';
import { crossKeyingCost, solveGrid } from '../../src/keying/grid/index.ts';
import { evenTree, generateSystem } from '../../src/keying/hierarchy.ts';
import { auditInputOf } from '../../src/keying/intended.ts';
import { liveKey, lostKeyScope, phasesOf } from '../../src/keying/lostKey.ts';
import { scheduleTotals } from '../../src/keying/scheduleTotals.ts';
import { runToEnd } from '../../src/keying/system.ts';
import {
  againstOf,
  answer,
  auditInput,
  planAnswer,
  planAuthorised,
  planCheckColumn,
  planCorrection,
  planCrossKeying,
  planCustomerReport,
  planCutting,
  planExtension,
  planFindings,
  planLedger,
  planLostKey,
  planNewSystem,
  planOrder,
  planPinning,
  planReceipt,
  planScheduleFixes,
  planShop,
  planShopReport,
  planSpecs,
  readExtension,
  readSchedule,
  readTarget,
  standingOn,
  type BookReading,
  type ScheduleReading,
  type WritePlan,
} from '../../src/workbook/index.ts';
import { openBook, type OpenBook } from '../support/office.ts';
import { MADE, reading, write, writeSystem } from './book.ts';
import { school, SPEC, starter } from './school.ts';

const TODAY = '2026-03-14';

function day(text: string): Day {
  const read = parseMoment(text);
  if (!read.ok) throw new Error(text);
  return read.value.day;
}

export const SCHEDULE_ROWS: readonly (readonly (string | number)[])[] = [
  ['Door', 'Room', 'Keyset', 'Qty', 'Type', 'Remarks'],
  ["'0101", 'Front door', 'aa1', 1, 'rim', 'exit route'],
  ["'0102", 'Office', 'AA2 ', 1, 'mortise', 'old code 5-3-6-4-5-3'],
  ["'0103", 'Store', 'AB1', 2, 'mortise', ''],
  ["'0104", 'Yard', '=UPPER("ab2")', 1, 'rim', ''],
];

function hall(): ReturnType<typeof school> {
  const made = runToEnd(
    generateSystem({
      name: 'Hall',
      spec: SPEC,
      levels: 3,
      grands: evenTree(3, { masters: 2, changeKeys: 2 }),
      order: 'scattered',
      seed: 5,
    }),
  );
  if (!made.ok) throw new Error('the hall does not fit');
  return { ...made, copies: new Map(made.system.keys.map((k) => [k.symbol, 2])) };
}

const issue = (symbol: string, copy: number, holder: string) => ({
  event: 'issued' as const,
  system: 'Hall',
  symbol,
  copy,
  holder,
  day: day(TODAY),
});

/** Where the shop's own schedule and its list of codes are. */
export interface Shop {
  readonly schedule: string;
  readonly codes: { readonly sheet: string; readonly address: string };
}

export const PLAIN: Shop = { schedule: 'Sheet1', codes: { sheet: 'Codes', address: 'A1:B3' } };

function layPlain(book: OpenBook): Shop {
  book.host.userEdit('Sheet1', 'A1', SCHEDULE_ROWS);
  book.model.addSheet('Codes', 'user');
  book.host.userEdit('Codes', 'A1', [
    ['Door', 'Code'],
    ["'0101", "'354635"],
    ["'0102", "'554635"],
  ]);
  return PLAIN;
}

/**
 * A schedule of the shop's own, codes beside it, two systems, a ledger, reports, and a door and a key to be added. `lay`
 * puts the shop's own sheets into the empty book.
 */
export async function fullBook(
  lay: (book: OpenBook) => Shop = layPlain,
  book: OpenBook = openBook(),
): Promise<OpenBook> {
  const shop = lay(book);
  await writeSystem(school());
  await writeSystem(hall());
  await write(
    planLedger(await reading(), {
      made: TODAY,
      title: 'Issue',
      entries: [issue('AA', 1, 'Caretaker'), issue('AA1', 1, 'Nurse')],
      holders: [{ name: 'Caretaker', department: 'House' }, { name: 'Nurse' }],
    }),
  );
  await write(
    planCustomerReport(await reading(), { ...REPORT, revision: 'A', schedule: await schedule(shop) }).plan,
  );
  await write(planFindings(await reading(), { made: TODAY, audits: [] }));
  // a further key and a further door, marked beside and below the grid of the hall
  const { box } = (await reading()).systems.find((s) => s.name === 'Hall')!.grid!;
  await Excel.run(async (context) => {
    const grid = context.workbook.worksheets.getItem(box.sheet);
    const put = (row: number, column: number, text: string): void => {
      grid.getRangeByIndexes(row, column, 1, 1).values = [[text]];
    };
    put(box.row, box.column + box.columns, 'CL');
    put(box.row + 1, box.column + box.columns, 'x');
    put(box.row + box.rows, box.column, 'C9');
    put(box.row + box.rows, box.column + 3, 'x');
    await context.sync();
  });
  await book.settled();
  return book;
}

const REPORT = { system: 'School', made: TODAY, revision: 'B' };

async function schedule(shop: Shop): Promise<ScheduleReading> {
  const read = await readSchedule(shop.schedule);
  if (!read.ok) throw new Error(read.error.sentence);
  return read.value;
}

async function codes(book: BookReading, shop: Shop): Promise<WritePlan> {
  const read = await readTarget(shop.codes);
  if (!read.ok) throw new Error(read.error.sentence);
  return planCheckColumn(book, read.value, { codes: 1, spec: SPEC.name });
}

function extension(book: BookReading): WritePlan {
  const read = readExtension(book, 'Hall');
  if (!read.ok) throw new Error(read.error.map((p) => p.sentence).join(' '));
  const { grid, avoid } = read.value;
  const ask = (freed: readonly string[]) =>
    runToEnd(
      solveGrid(
        { ...grid, cylinders: grid.cylinders.map((c) => (freed.includes(c.id) ? { id: c.id } : c)) },
        { avoid, sameMarks: 'different' },
      ),
    );
  const first = ask([]);
  const solved =
    first.kind === 'solved'
      ? first
      : ask([...(first.kind === 'impossible' ? (first.repin?.cylinders ?? []) : [])]);
  if (solved.kind !== 'solved') throw new Error(`the extension is ${solved.kind}`);
  return planExtension(book, read.value, solved, MADE).plan;
}

function crossKeying(book: BookReading): WritePlan {
  const asked = auditInput(book, 'School')!;
  const found = crossKeyingCost(asked.system, 'C1', ['AA2'], asked.marks);
  if (!found.ok) throw new Error(JSON.stringify(found.error));
  const { chambers } = found.value.after;
  return planCrossKeying(book, { system: 'School', cylinder: 'C1', keys: ['AA2'], chambers }).plan;
}

function lostKey(book: BookReading): WritePlan {
  const { system, marks } = auditInput(book, 'Hall')!;
  const lost = liveKey(system, 'AA1');
  const fresh = runToEnd(freshBittings({ system, marks, lost }));
  if (!fresh.ok) throw new Error(JSON.stringify(fresh.problems));
  const scope = lostKeyScope(system, accessMap(auditInputOf(system, marks)), lost);
  const phases = phasesOf(system, scope, { titles: ['First', 'Then'], riskOf: (c) => c % 2 });
  const of = book.systems.find((s) => s.name === 'Hall')!;
  return planLostKey(book, { made: TODAY, system: of, fresh, phases, orders: { shop: true, tenant: true } });
}

function findings(book: BookReading): WritePlan {
  const { system, marks } = auditInput(book, 'School')!;
  const { findings: found } = runToEnd(auditSystem(auditInputOf(system, marks), { near: true }));
  return planFindings(book, { made: TODAY, audits: [{ system: 'School', findings: found }] });
}

const CUTTING_LINE = {
  rows: [0],
  marks: ['AA1'],
  originals: ['354635'],
  blank: 'K1',
  keys: 1,
  remarks: ['none'],
};

export type WritePath = readonly [
  name: string,
  plan: (book: BookReading, shop?: Shop) => WritePlan | Promise<WritePlan>,
];

export const WRITE_PATHS: readonly WritePath[] = [
  ['a further system', (book) => planNewSystem(book, school('Annex'), MADE)],
  ['keys without a master', (book) => planNewSystem(book, school('Pool'), { ...MADE, grid: false })],
  ['an extension', extension],
  ['cross-keying', crossKeying],
  ['pinning', (book) => planPinning(book, { ...MADE, system: 'School', kitList: true })],
  ['cutting', (book) => planCutting(book, { ...MADE, spec: SPEC, lines: [CUTTING_LINE] })],
  ['a check column', (book, shop = PLAIN) => codes(book, shop)],
  ['findings again', findings],
  ['shop tables', (book) => planShop(book)],
  ['specs', (book) => planSpecs(book, [starter('S-025-5'), starter('T-0125-7')], MADE)],
  [
    'an order',
    async (book, shop = PLAIN) => {
      const totals = scheduleTotals((await schedule(shop)).schedule.lines, againstOf(book, 'School').keys);
      return planOrder(book, { system: 'School', from: shop.schedule, made: TODAY, totals });
    },
  ],
  [
    'a customer’s report again',
    async (book, shop = PLAIN) =>
      planCustomerReport(book, { ...REPORT, schedule: await schedule(shop) }).plan,
  ],
  ['a shop’s report', (book) => planShopReport(book, REPORT)],
  [
    'who may sign',
    (book) => planAuthorised(book, { system: 'School', name: 'R. Alder', role: 'Head', blank: 'K1' }, TODAY),
  ],
  [
    'a receipt',
    (book) =>
      planReceipt(book, {
        made: TODAY,
        holder: 'Caretaker',
        copies: [{ system: 'Hall', symbol: 'AA', copy: 1 }],
      }),
  ],
  [
    'the ledger',
    (book) =>
      planLedger(book, {
        made: TODAY,
        title: 'Issue',
        entries: [issue('AB1', 1, 'Cook')],
        holders: [{ name: 'Cook' }],
      }),
  ],
  [
    'a correction',
    (book) => planCorrection(book, { made: TODAY, number: 1, entry: issue('AA', 1, 'Nurse') }),
  ],
  [
    'an answer',
    (book) => {
      const asOf = day(TODAY);
      const asked = answer(standingOn(book, asOf), { question: 'everything', about: '' });
      return planAnswer(book, asked, { made: TODAY, asOf });
    },
  ],
  ['a lost key', lostKey],
  [
    'schedule fixes',
    async (book, shop = PLAIN) => {
      const read = await schedule(shop);
      const better: Readonly<Record<string, string>> = { aa1: 'AA1', AB1: 'AB2' };
      const fixes = read.schedule.lines.flatMap(({ symbol: from, symbolRow: row }) =>
        from in better ? [{ row, role: 'symbol' as const, from, to: better[from]! }] : [],
      );
      return planScheduleFixes(book, read, fixes);
    },
  ],
];
