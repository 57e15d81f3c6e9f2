/** Fix-its, order, stamping, reports and privacy: what is written, and above all what is not. */
import { describe, expect, it } from 'vitest';
import { checkSchedule } from '../../src/keying/scheduleCheck.ts';
import { scheduleTotals } from '../../src/keying/scheduleTotals.ts';
import {
  againstOf,
  applyPlan,
  applyPrivacy,
  describePlan,
  planAuthorised,
  planCustomerReport,
  planOpenUp,
  planOrder,
  planPrivacy,
  planScheduleFixes,
  planShopReport,
  readAuthorised,
  readQuotingSheets,
  readSchedule,
  scheduleFindingLines,
  undoPlan,
  type ChosenFix,
  type ScheduleReading,
} from '../../src/workbook/index.ts';
import { bittingsIn } from '../../src/workbook/secretCells.ts';
import { openBook, type OpenBook } from '../support/office.ts';
import { at, picture, reading, write, writeSystem } from './book.ts';
import { school } from './school.ts';

const ROWS = [
  ['Door', 'Room', 'Keyset', 'Qty', 'Type', 'Remarks'],
  ["'0101", 'Front door', 'aa1', 1, 'rim', 'exit route'],
  ["'0102", 'Office', 'AA2 ', 1, 'mortise', 'old code 5-3-6-4-5-3'],
  ["'0103", 'Store', 'AB1', 2, 'mortise', ''],
  ["'0104", 'Yard', '=UPPER("ab2")', 1, 'rim', ''],
];

function bookWithSchedule(): OpenBook {
  const book = openBook();
  book.host.userEdit('Sheet1', 'A1', ROWS);
  return book;
}

async function schedule(): Promise<ScheduleReading> {
  const read = await readSchedule('Sheet1');
  if (!read.ok) throw new Error(read.error.sentence);
  return read.value;
}

async function fixes(read: ScheduleReading): Promise<ChosenFix[]> {
  return checkSchedule(read.schedule, againstOf(await reading(), 'School')).flatMap((f) =>
    f.code === 'symbol-untidy' ? [{ row: f.row, role: f.role, ...f.fix }] : [],
  );
}

/** A cell without a format of its own is General. */
const plainly = (shown: unknown): string =>
  JSON.stringify(shown, (name, value: unknown) =>
    name === 'format' && value === 'General' ? undefined : value,
  );

describe('fix-its', () => {
  it('change the named cells only, and are taken back', async () => {
    const { model } = bookWithSchedule();
    await writeSystem(school());
    const before = picture(model);
    const read = await schedule();
    const chosen = await fixes(read);
    expect(chosen.map((f) => [f.from, f.to])).toEqual([
      ['aa1', 'AA1'],
      ['AA2 ', 'AA2'],
    ]);
    const plan = planScheduleFixes(await reading(), read, chosen.slice(0, 1));
    expect(describePlan(plan).sentence).toBe('Changes 1 cell of Sheet1; touches nothing else.');
    const undo = await write(plan);
    expect(at(model, 'Sheet1', 'C2')).toBe('AA1');
    expect(at(model, 'Sheet1', 'C3')).toBe('AA2 ');
    expect((await undoPlan(undo)).outcome).toBe('done');
    expect(plainly(picture(model))).toBe(plainly(before));
  });

  it('leave formulas alone, and cells that changed in the meantime', async () => {
    const { host, model } = bookWithSchedule();
    const read = await schedule();
    const formula = planScheduleFixes(await reading(), read, [
      { row: 4, role: 'symbol', from: String(read.sheet.values[4]?.[2]), to: 'AB2' },
    ]);
    expect(formula.conflicts).toMatchObject([{ at: { sheet: 'Sheet1', address: 'C5' } }]);
    const plan = planScheduleFixes(await reading(), read, [
      { row: 1, role: 'symbol', from: 'aa1', to: 'AA1' },
    ]);
    host.userEdit('Sheet1', 'C2', [['aa2']]);
    expect(await applyPlan(plan)).toMatchObject({
      outcome: 'refused',
      reasons: [{ at: { address: 'C2' }, holds: 'aa2' }],
    });
    expect(at(model, 'Sheet1', 'C2')).toBe('aa2');
  });

  it('are made as a whole or not at all, whichever request fails', async () => {
    let cuts = 0;
    for (let index = 0; ; index++) {
      const { host, model } = bookWithSchedule();
      const read = await schedule();
      const plan = planScheduleFixes(await reading(), read, [
        { row: 1, role: 'symbol', from: 'aa1', to: 'AA1' },
        { row: 3, role: 'symbol', from: 'AB1', to: 'AB2' },
      ]);
      const before = plainly(picture(model));
      const first = host.requestCount;
      let failed = false;
      host.intercept = (i) => {
        if (i - first !== index) return 'pass';
        failed = true;
        return { error: 'GeneralException', afterActions: 99 };
      };
      const outcome = await applyPlan(plan);
      if (outcome.outcome === 'done') expect(at(model, 'Sheet1', 'C4')).toBe('AB2');
      if (!failed) {
        expect(outcome.outcome).toBe('done');
        break;
      }
      cuts++;
      // only the note of a write that has come to its end may be left behind
      if (outcome.outcome === 'done') continue;
      expect(['refused', 'rolled-back']).toContain(outcome.outcome);
      expect(plainly(picture(model))).toBe(before);
    }
    expect(cuts).toBeGreaterThan(5);
  });

  it('wait for a filter to be cleared', async () => {
    const { run } = bookWithSchedule();
    await run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.autoFilter.apply('A1:F5', 4, { filterOn: 'Values', values: ['rim'] });
      await context.sync();
    });
    const read = await schedule();
    const plan = planScheduleFixes(await reading(), read, [
      { row: 1, role: 'symbol', from: 'aa1', to: 'AA1' },
    ]);
    expect(plan.conflicts[0]?.sentence).toMatch(/clear the filter/);
  });
});

describe('findings', () => {
  it('have their cells, keys without a door too', async () => {
    bookWithSchedule();
    await writeSystem(school());
    const book = await reading();
    const read = await schedule();
    const system = book.systems[0]!;
    // the shop issued the keys meanwhile
    const keys = againstOf(book, 'School').keys.map((k) => ({ ...k, status: 'issued' as const }));
    const short = { ...read.schedule, lines: read.schedule.lines.slice(0, 3) };
    const found = checkSchedule(short, { keys, cylinders: againstOf(book, 'School').cylinders });
    const lines = scheduleFindingLines(read, found, system);
    expect(lines.find((l) => l.finding.code === 'key-without-door')?.at).toEqual({
      sheet: 'Keys',
      address: 'B11',
    });
    expect(lines.find((l) => l.finding.code === 'cylinders-differ')?.at).toEqual({
      sheet: 'Sheet1',
      address: 'D4',
    });
    expect(lines[0]?.severity).toBe('fault');
  });
});

const INPUT = { system: 'School', made: '2026-11-24', revision: 'B' };

/** Everything on a sheet, as text. */
function textsOf(book: OpenBook, names: readonly string[]): string[] {
  return book.model.sheets
    .filter((sheet) => names.includes(sheet.layout.name))
    .flatMap((sheet) => [
      ...[...sheet.cells.all()].map(({ cell }) => String(cell.value ?? '')),
      ...Object.values(sheet.layout.page.headersFooters),
    ]);
}

describe('order and stamping', () => {
  it('count cylinders and keys, and carry no bitting', async () => {
    const book = bookWithSchedule();
    await writeSystem(school());
    await write(
      planAuthorised(
        await reading(),
        { system: 'School', name: 'R. Alder', role: 'Head', blank: 'K1-R' },
        '2026-11-24',
      ),
    );
    expect(readAuthorised(await reading(), 'school')).toMatchObject([
      { name: 'R. Alder', role: 'Head', blank: 'K1-R' },
    ]);
    const now = await reading();
    const read = await schedule();
    const totals = scheduleTotals(read.schedule.lines, againstOf(now, 'School').keys);
    await write(planOrder(now, { system: 'School', from: 'Sheet1', made: '2026-11-24', totals }));
    expect(at(book.model, 'Order', 'A2')).toBe(
      '5 cylinders and 3 keys for School, counted 2026-11-24 from Sheet1. Duplicates are signed for by R. Alder (Head). Restricted blank: K1-R.',
    );
    expect([
      at(book.model, 'Order', 'A5'),
      at(book.model, 'Order', 'B5'),
      at(book.model, 'Order', 'C5'),
      at(book.model, 'Order', 'G5'),
    ]).toEqual(['Cylinder', 1, 'mortise', 'AA2']);
    const texts = textsOf(book, ['Order', 'Stamping']);
    expect(texts).toContain('AA1-3');
    const codes = bittingsIn(now);
    expect(codes.length).toBeGreaterThan(6);
    for (const code of codes) expect(texts.filter((t) => t.includes(code))).toEqual([]);
  });

  it('do not stamp a symbol that reads like a bitting', async () => {
    const book = openBook();
    const made = school();
    await writeSystem({ ...made, copies: new Map() });
    const now = await reading();
    const code = bittingsIn(now)[3]!;
    const totals = scheduleTotals([], [{ symbol: code, level: 'CK', status: 'issued', copies: 1 }]);
    await write(planOrder(now, { system: 'School', from: 'Sheet1', made: '2026-11-24', totals }));
    expect(textsOf(book, ['Stamping']).filter((t) => t.includes(code))).toEqual([]);
    expect(textsOf(book, ['Stamping'])).toContain('Not stamped: the symbol reads like a bitting.');
  });
});

describe('the customer’s report', () => {
  it('holds no bitting and no chamber set, not even one quoted in a remark', async () => {
    const book = bookWithSchedule();
    await writeSystem(school());
    const now = await reading();
    // the remark quotes the bitting of AA1 in the symbols of its spec
    const code = now.systems[0]!.keys.find((k) => k.symbol === 'AA1')!.bittingText;
    book.host.userEdit('Sheet1', 'F3', [[`old code ${[...code].join('-')}`]]);
    const report = planCustomerReport(now, { ...INPUT, schedule: await schedule() });
    expect(report.leftOut).toBe(1);
    await write(report.plan);
    const texts = textsOf(book, ['Customer doors', 'Customer keys']);
    expect(texts).toContain('(left out)');
    expect(texts).toContain('0101');
    const codes = bittingsIn(now).map((c) => c.replace(/\W/g, ''));
    const squeezed = texts.map((t) => t.toUpperCase().replace(/[^0-9A-Z]/g, ''));
    for (const secret of codes) expect(squeezed.filter((t) => t.includes(secret))).toEqual([]);
    // chamber sets of more than one depth, as the sheet Cylinders writes them
    const table = now.tables.find((t) => t.name === 'KeyrowCylinders')!;
    const chambers = table.headers.flatMap((h, c) => (/^Ch \d/.test(h) ? [c] : []));
    const sets = table.values
      .flatMap((row) => chambers.map((c) => String(row[c] ?? '')))
      .filter((t) => /\W/.test(t));
    expect(sets.length).toBeGreaterThan(4);
    for (const set of sets) expect(texts).not.toContain(set);
    expect(texts.filter((t) => /^(ch \d|bitting|control|top master)$/i.test(t))).toEqual([]);
  });

  it('is laid out for printing: one page wide, titles repeated, page numbers, date and revision', async () => {
    const book = bookWithSchedule();
    await writeSystem(school());
    await write(planCustomerReport(await reading(), { ...INPUT, system: 'School' }).plan);
    const page = book.model.sheets.find((s) => s.layout.name === 'Customer doors')!.layout.page;
    expect(page.zoom).toEqual({ horizontalFitToPages: 1 });
    expect(page.titleRows).toEqual({ start: 0, count: 4 });
    expect(page.headersFooters).toEqual({
      leftFooter: 'Keying schedule, School',
      centerFooter: 'Page &P of &N',
      rightFooter: 'Revision B, 2026-11-24',
    });
    expect(at(book.model, 'Customer doors', 'A2')).toMatch(
      /^School\. Revision B of 2026-11-24\. Without bittings\./,
    );
  });

  it('is replaced by the next revision', async () => {
    const book = bookWithSchedule();
    await writeSystem(school());
    await write(planCustomerReport(await reading(), INPUT).plan);
    const again = planCustomerReport(await reading(), { ...INPUT, revision: 'C' }).plan;
    expect(again.conflicts).toEqual([]);
    await write(again);
    expect(at(book.model, 'Customer keys', 'A2')).toMatch(/Revision C/);
  });

  it('has the new revision at the foot of each page too, and the old one again when taken back', async () => {
    const book = bookWithSchedule();
    await writeSystem(school());
    await write(planCustomerReport(await reading(), INPUT).plan);
    const feet = (): (string | undefined)[] =>
      book.model.sheets
        .filter((s) => s.layout.name.startsWith('Customer '))
        .map((s) => s.layout.page.headersFooters['rightFooter']);
    const next = { ...INPUT, revision: 'C & D', made: '2026-12-01' };
    const undo = await write(planCustomerReport(await reading(), next).plan);
    expect(feet()).toEqual(Array.from({ length: 2 }, () => 'Revision C && D, 2026-12-01'));
    expect((await undoPlan(undo)).outcome).toBe('done');
    expect(feet()).toEqual(Array.from({ length: 2 }, () => 'Revision B, 2026-11-24'));
  });

  it('drops columns that nobody fills, and empties one that was filled before', async () => {
    const book = bookWithSchedule();
    await writeSystem(school());
    const headings = async (): Promise<readonly string[]> =>
      (await reading()).tables.find((t) => t.name === 'KeyrowCustomerDoors')!.headers;
    await write(planCustomerReport(await reading(), { ...INPUT, schedule: await schedule() }).plan);
    const all = ['Door', 'Location', 'Cylinder', 'Keyset', 'Cylinders', 'Remarks'];
    expect(await headings()).toEqual(all);
    book.host.userEdit('Sheet1', 'F2', [[''], [''], [''], ['']]);
    await write(planCustomerReport(await reading(), { ...INPUT, schedule: await schedule() }).plan);
    expect(await headings()).toEqual(all);
    expect(textsOf(book, ['Customer doors'])).not.toContain('exit route');
  });
});

describe('the shop’s report', () => {
  it('has the bittings and says SECRET on every page', async () => {
    const book = bookWithSchedule();
    await writeSystem(school());
    const now = await reading();
    await write(planShopReport(now, INPUT));
    const key = now.systems[0]!.keys.find((k) => k.symbol === 'AA1')!;
    expect(textsOf(book, ['Shop keys'])).toContain(key.bittingText);
    expect(textsOf(book, ['Shop cylinders'])).toContain(key.bittingText);
    for (const sheet of book.model.sheets.filter((s) => s.layout.name.startsWith('Shop ')))
      expect(sheet.layout.page.headersFooters['leftFooter']).toMatch(/^SECRET/);
  });
});

describe('privacy', () => {
  it('hides and protects what holds bittings, touches nothing else, and is taken back', async () => {
    const { model } = bookWithSchedule();
    await writeSystem(school());
    const before = picture(model);
    const plan = planPrivacy(await reading(), { hide: true, protect: true });
    expect(plan.sentence).toBe(
      'Protects Systems, Keys, Cylinders; hides Systems, Keys, Cylinders; touches no cell.',
    );
    const done = await applyPrivacy(plan.steps);
    if (done.outcome !== 'done') throw new Error(done.sentence);
    const state = async (): Promise<unknown> =>
      (await reading()).sheets.filter((s) => !s.visible || s.protected).map((s) => s.name);
    expect(await state()).toEqual(['Systems', 'Keys', 'Cylinders']);
    expect(picture(model)).toEqual(before);
    expect(planOpenUp(await reading()).steps).toHaveLength(6);
    expect((await applyPrivacy(done.undo)).outcome).toBe('done');
    expect(await state()).toEqual([]);
  });

  it('finds the shop’s own sheets that quote a bitting, and hides those that were chosen', async () => {
    const { host } = bookWithSchedule();
    await writeSystem(school());
    // the remark of door 0102 quotes one already
    expect(await readQuotingSheets(await reading())).toEqual([{ sheet: 'Sheet1', cells: 1 }]);
    const code = (await reading()).systems[0]!.keys[0]!.bittingText;
    host.userEdit('Sheet1', 'H2', [[`'${code}`], [`spare of ${[...code].join('-')}`]]);
    const book = await reading();
    expect(await readQuotingSheets(book)).toEqual([{ sheet: 'Sheet1', cells: 3 }]);
    const hide = { hide: true, protect: false };
    expect(planPrivacy(book, hide).steps.map((s) => s.sheet)).toEqual(['Systems', 'Keys', 'Cylinders']);
    const plan = planPrivacy(book, hide, ['Sheet1']);
    expect(plan.steps.map((s) => s.sheet)).toContain('Sheet1');
    expect((await applyPrivacy(plan.steps)).outcome).toBe('done');
    expect(planOpenUp(await reading(), ['Sheet1']).steps).toHaveLength(4);
  });

  it('keeps one sheet visible', async () => {
    const { run } = openBook();
    await writeSystem(school());
    await run(async (context) => {
      for (const name of ['Sheet1', 'Specs', 'Grid'])
        context.workbook.worksheets.getItem(name).visibility = 'Hidden';
      await context.sync();
    });
    expect(planPrivacy(await reading(), { hide: true, protect: false }).conflicts).toHaveLength(1);
  });
});
