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
  readLedger,
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

/** What is called as in this book: its two systems, and the people with keys. */
export interface Called {
  readonly school: string;
  readonly hall: string;
  readonly caretaker: string;
  readonly nurse: string;
}

const USUAL: Called = { school: 'School', hall: 'Hall', caretaker: 'Caretaker', nurse: 'Nurse' };
const schoolOf = (book: BookReading): string => book.systems[0]!.name;
const hallOf = (book: BookReading): string => book.systems[1]!.name;
const nurseOf = (book: BookReading): string => readLedger(book).people[1]!.name;
const caretakerOf = (book: BookReading): string => readLedger(book).people[0]!.name;

function hall(name: string): ReturnType<typeof school> {
  const made = runToEnd(
    generateSystem({
      name,
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

const issue = (system: string, symbol: string, copy: number, holder: string) => ({
  event: 'issued' as const,
  system,
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
  called: Called = USUAL,
): Promise<OpenBook> {
  const shop = lay(book);
  await writeSystem(school(called.school));
  await writeSystem(hall(called.hall));
  await write(
    planLedger(await reading(), {
      made: TODAY,
      title: 'Issue',
      entries: [issue(called.hall, 'AA', 1, called.caretaker), issue(called.hall, 'AA1', 1, called.nurse)],
      holders: [{ name: called.caretaker, department: 'House' }, { name: called.nurse }],
    }),
  );
  const first = await reading();
  await write(
    planCustomerReport(first, { ...report(first), revision: 'A', schedule: await schedule(shop) }).plan,
  );
  await write(planFindings(await reading(), { made: TODAY, audits: [] }));
  // a further key and a further door, marked beside and below the grid of the hall
  const { box } = (await reading()).systems[1]!.grid!;
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

const report = (book: BookReading) => ({ system: schoolOf(book), made: TODAY, revision: 'B' });

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
  const read = readExtension(book, hallOf(book));
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
  const asked = auditInput(book, schoolOf(book))!;
  const found = crossKeyingCost(asked.system, 'C1', ['AA2'], asked.marks);
  if (!found.ok) throw new Error(JSON.stringify(found.error));
  const { chambers } = found.value.after;
  return planCrossKeying(book, { system: schoolOf(book), cylinder: 'C1', keys: ['AA2'], chambers }).plan;
}

function lostKey(book: BookReading): WritePlan {
  const { system, marks } = auditInput(book, hallOf(book))!;
  const lost = liveKey(system, 'AA1');
  const fresh = runToEnd(freshBittings({ system, marks, lost }));
  if (!fresh.ok) throw new Error(JSON.stringify(fresh.problems));
  const scope = lostKeyScope(system, accessMap(auditInputOf(system, marks)), lost);
  const phases = phasesOf(system, scope, { titles: ['First', 'Then'], riskOf: (c) => c % 2 });
  const of = book.systems[1]!;
  return planLostKey(book, { made: TODAY, system: of, fresh, phases, orders: { shop: true, tenant: true } });
}

function findings(book: BookReading): WritePlan {
  const { system, marks } = auditInput(book, schoolOf(book))!;
  const { findings: found } = runToEnd(auditSystem(auditInputOf(system, marks), { near: true }));
  return planFindings(book, { made: TODAY, audits: [{ system: schoolOf(book), findings: found }] });
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
  ['pinning', (book) => planPinning(book, { ...MADE, system: schoolOf(book), kitList: true })],
  ['cutting', (book) => planCutting(book, { ...MADE, spec: SPEC, lines: [CUTTING_LINE] })],
  ['a check column', (book, shop = PLAIN) => codes(book, shop)],
  ['findings again', findings],
  ['shop tables', (book) => planShop(book)],
  ['specs', (book) => planSpecs(book, [starter('S-025-5'), starter('T-0125-7')], MADE)],
  [
    'an order',
    async (book, shop = PLAIN) => {
      const totals = scheduleTotals(
        (await schedule(shop)).schedule.lines,
        againstOf(book, schoolOf(book)).keys,
      );
      return planOrder(book, { system: schoolOf(book), from: shop.schedule, made: TODAY, totals });
    },
  ],
  [
    'a customer’s report again',
    async (book, shop = PLAIN) =>
      planCustomerReport(book, { ...report(book), schedule: await schedule(shop) }).plan,
  ],
  ['a shop’s report', (book) => planShopReport(book, report(book))],
  [
    'who may sign',
    (book) =>
      planAuthorised(book, { system: schoolOf(book), name: 'R. Alder', role: 'Head', blank: 'K1' }, TODAY),
  ],
  [
    'a receipt',
    (book) =>
      planReceipt(book, {
        made: TODAY,
        holder: caretakerOf(book),
        copies: [{ system: hallOf(book), symbol: 'AA', copy: 1 }],
      }),
  ],
  [
    'the ledger',
    (book) =>
      planLedger(book, {
        made: TODAY,
        title: 'Issue',
        entries: [issue(hallOf(book), 'AB1', 1, 'Cook')],
        holders: [{ name: 'Cook' }],
      }),
  ],
  [
    'a correction',
    (book) =>
      planCorrection(book, { made: TODAY, number: 1, entry: issue(hallOf(book), 'AA', 1, nurseOf(book)) }),
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
