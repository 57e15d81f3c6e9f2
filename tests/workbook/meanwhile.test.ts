/**
 * What happens to the workbook between planning and writing, and while it is written: by a person, and by a second pane.
 * Every way of writing is tried with each.
 */
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { setPatience } from '../../src/workbook/excelRun.ts';
import {
  applyPlan,
  planSpecs,
  undoPlan,
  type ApplyOutcome,
  type WritePlan,
} from '../../src/workbook/index.ts';
import type { OpenBook } from '../support/office.ts';
import { MADE, reading, undoOf } from './book.ts';
import { deepPicture, notesLeft, sameAs } from './deepPicture.ts';
import { installClock, wrongWithSentence } from './faultKinds.ts';
import { MORE_PATHS, moreBook } from './morePaths.ts';
import { fullBook, WRITE_PATHS, type WritePath } from './paths.ts';
import { starter } from './school.ts';

beforeAll(installClock);
afterAll(() => {
  setPatience();
});

/** Where a plan writes on sheets that were there before, and the sheets that it adds. */
function targets(book: OpenBook, plan: WritePlan) {
  const added = plan.steps.flatMap((step) => (step.kind === 'add-sheet' ? [step.sheet] : []));
  const writes = plan.steps.flatMap((step) =>
    step.kind === 'write' && !added.includes(step.sheet) ? [step] : [],
  );
  const tables = book.model.tables.filter((table) =>
    writes.some((step) => book.model.sheet(step.sheet).id === table.sheetId),
  );
  return { added, writes, tables };
}

type Edit = (book: OpenBook, plan: WritePlan) => (() => void) | undefined;

/** What a person may do; each gives the way back, or undefined where it does not concern the plan. */
const EDITS: Readonly<Record<string, Edit>> = {
  'types into a cell that is to be written': (book, plan) => {
    const [step] = targets(book, plan).writes;
    if (!step) return undefined;
    const area = { row: step.row, column: step.column, rows: 1, columns: 1 };
    const sheet = book.model.sheet(step.sheet);
    const cells = [...sheet.cells.all()];
    // what is typed right below a table makes it grow, formulas and all
    const { tables } = book.model.state;
    book.model.enterBlock(sheet, area, [['typed meanwhile']], 'user');
    return () => {
      for (const { row, column } of [...sheet.cells.all()]) book.model.put(sheet, row, column, undefined);
      for (const { row, column, cell } of cells) book.model.put(sheet, row, column, cell);
      book.model.setState({ tables });
    };
  },
  'adds a sheet of the name': (book, plan) => {
    const [name] = targets(book, plan).added;
    if (name === undefined) return undefined;
    const sheet = book.model.addSheet(name.toUpperCase(), 'user');
    return () => {
      book.model.removeSheet(sheet, 'user');
    };
  },
  'renames the sheet': (book, plan) => {
    const [step] = targets(book, plan).writes;
    if (!step) return undefined;
    book.model.renameSheet(step.sheet, 'Renamed', 'user');
    return () => {
      book.model.renameSheet('Renamed', step.sheet, 'user');
    };
  },
  'filters the sheet': (book, plan) => {
    const [step] = targets(book, plan).writes;
    if (!step) return undefined;
    const criteria = new Map([[0, { filterOn: 'Values', values: ['none of them'] }]]);
    const area = { row: 0, column: 40, rows: step.row + 9, columns: 1 };
    book.model.filterSheet(step.sheet, { area, criteria }, 'user');
    return () => {
      book.model.filterSheet(step.sheet, null, 'user');
    };
  },
  'filters the table': (book, plan) => {
    const [table] = targets(book, plan).tables;
    if (!table) return undefined;
    book.model.filterTable(table.name, 0, { filterOn: 'Values', values: ['none of them'] }, 'user');
    return () => {
      book.model.filterTable(table.name, 0, null, 'user');
    };
  },
  'merges cells that are to be written': (book, plan) => {
    const step = targets(book, plan).writes.find(
      (one) => !book.model.tablesOn(one.sheet).some((t) => t.area.row <= one.row + 2),
    );
    if (!step) return undefined;
    const { merges } = book.model.sheet(step.sheet).layout;
    const more = [...merges, { row: step.row, column: step.column, rows: 2, columns: 2 }];
    book.model.setLayout(step.sheet, { merges: more }, 'user');
    return () => {
      book.model.setLayout(step.sheet, { merges }, 'user');
    };
  },
  'protects the sheet': (book, plan) => {
    const [step] = targets(book, plan).writes;
    if (!step) return undefined;
    book.model.protect(step.sheet, { options: {} }, 'user');
    return () => {
      book.model.protect(step.sheet, null, 'user');
    };
  },
};

function expectSentences(outcome: ApplyOutcome, where: string): void {
  const reasons = 'reasons' in outcome ? outcome.reasons : [];
  for (const { sentence } of [outcome, ...reasons])
    expect(wrongWithSentence(sentence), where).toBeUndefined();
}

const BOOKS: readonly (readonly [string, () => Promise<OpenBook>, readonly WritePath[]])[] = [
  ['what is often written', fullBook, WRITE_PATHS],
  ['what is written more rarely', moreBook, MORE_PATHS],
];

describe.each(BOOKS)('between planning and writing %s', (_, open, paths) => {
  it.each(Object.entries(EDITS))(
    'somebody %s: nothing is written',
    async (what, edit) => {
      const book = await open();
      const before = deepPicture(book.model);
      let met = 0;
      for (const [path, make] of paths) {
        const plan = await make(await reading());
        const back = edit(book, plan);
        if (!back) continue;
        met++;
        const edited = deepPicture(book.model);
        const outcome = await applyPlan(plan);
        expect(outcome.outcome, `${path}: somebody ${what}`).toBe('refused');
        expectSentences(outcome, path);
        expect(sameAs(edited, deepPicture(book.model)), path).toBeUndefined();
        back();
        expect(sameAs(before, deepPicture(book.model)), path).toBeUndefined();
      }
      // the rarer ways write no cells of the shop's outside a table
      if (paths === WRITE_PATHS) expect(met).toBeGreaterThan(0);
    },
    120_000,
  );
});

/** What a pane in another window has: it shares nothing but the workbook. */
async function otherPane(): Promise<typeof import('../../src/workbook/index.ts')> {
  vi.resetModules();
  return await import('../../src/workbook/index.ts');
}

describe.each(BOOKS)('two panes at once: %s', (_, open, paths) => {
  it('never both write, and what one writes is whole', async () => {
    const book = await open();
    const before = deepPicture(book.model);
    const other = await otherPane();
    let refused = 0;
    for (const [path, make] of paths) {
      const plan = await make(await reading());
      const theirs = planSpecs(await reading(), [starter('S-025-5')], MADE);
      const outcomes = await Promise.all([applyPlan(plan), other.applyPlan(theirs)]);
      for (const outcome of outcomes)
        if (outcome.outcome !== 'done') {
          expect(outcome.outcome, path).toBe('refused');
          expectSentences(outcome, path);
          refused++;
        }
      const done = outcomes.filter(({ outcome }) => outcome === 'done');
      expect(done.length, path).toBeLessThan(2);
      for (const outcome of done) expect((await undoPlan(undoOf(outcome))).outcome, path).toBe('done');
      expect(sameAs(before, deepPicture(book.model)), path).toBeUndefined();
      expect(notesLeft(book.model)).toEqual([]);
    }
    expect(refused).toBeGreaterThanOrEqual(paths.length);
  }, 120_000);
});

describe.each(['renames', 'deletes'])('somebody %s a sheet in the middle of the writing', (what) => {
  it.each(WRITE_PATHS)(
    '%s: the shop’s own sheets stay as they are, and a sentence says what to do',
    async (_, make) => {
      const book = await fullBook();
      const plan = await make(await reading());
      const sheets = new Set(plan.steps.flatMap((step) => (step.kind === 'write' ? [step.sheet] : [])));
      const sheet = [...sheets].find((name) => name !== 'Sheet1' && name !== 'Codes');
      if (sheet === undefined) return;
      const own = (): unknown => ['Sheet1', 'Codes'].map((name) => [...book.model.sheet(name).cells.all()]);
      const before = structuredClone(own());
      const namesTheirs = targets(book, plan).writes.some((step) => ['Sheet1', 'Codes'].includes(step.sheet));
      const first = book.host.requestCount;
      let done = false;
      book.host.intercept = (index) => {
        if (!done && index - first > 8 && book.model.findSheet(sheet)) {
          done = true;
          if (what === 'renames') book.model.renameSheet(sheet, 'Renamed', 'user');
          else book.model.removeSheet(sheet, 'user');
        }
        return 'pass';
      };
      const outcome = await applyPlan(plan);
      book.host.intercept = null;
      if (!done) expect(outcome.outcome).toBe('done');
      if (outcome.outcome !== 'done') expectSentences(outcome, sheet);
      if (!namesTheirs) expect(own()).toEqual(before);
    },
  );
});
