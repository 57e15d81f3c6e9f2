/**
 * Text that a spreadsheet would take for a formula, through every way of writing. The leading characters are those of
 * OWASP's page on CSV injection (https://owasp.org/www-community/attacks/CSV_Injection), with their full-width forms.
 */
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  applyPlan,
  planAuthorised,
  undoPlan,
  type BookReading,
  type WritePlan,
} from '../../src/workbook/index.ts';
import type { OpenBook } from '../support/office.ts';
import { reading, undoOf } from './book.ts';
import { deepPicture, type DeepPicture } from './deepPicture.ts';
import { MORE_PATHS, moreBook } from './morePaths.ts';
import { fullBook, WRITE_PATHS, type Called, type WritePath } from './paths.ts';

const LEADS = [
  '=',
  '+',
  '-',
  '@',
  '\t',
  '\r',
  '\n',
  '＝',
  '＋',
  '－',
  '＠',
  '\t=',
  ' =',
  "'=",
  "'",
  '#',
  '"=',
  '{=',
];
const CALL = 'HYPERLINK("http://x","y")';

/** Every text of a plan's cells led by one of the characters, in turn; what is blank or a formula stays. */
function ledTexts(plan: WritePlan, from: number): WritePlan {
  let turn = from;
  const steps = plan.steps.map((step) =>
    step.kind === 'write'
      ? {
          ...step,
          cells: step.cells.map((row) =>
            row.map((cell) =>
              typeof cell === 'string' && cell !== '' && !/^\d+$/.test(cell)
                ? `${LEADS[turn++ % LEADS.length]!}${CALL} ${cell}`
                : cell,
            ),
          ),
        }
      : step,
  );
  return { ...plan, steps };
}

/** Cells of the plan that hold a formula though a text was to be written. */
function turned(book: OpenBook, plan: WritePlan): string[] {
  return plan.steps.flatMap((step) =>
    step.kind !== 'write'
      ? []
      : step.cells.flatMap((row, r) =>
          row.flatMap((cell, c) => {
            const held = book.model.cell(step.sheet, step.row + r, step.column + c);
            return typeof cell === 'object' || held?.formula === undefined ? [] : [held.formula];
          }),
        ),
  );
}

const BOOKS: readonly (readonly [string, () => Promise<OpenBook>, readonly WritePath[]])[] = [
  ['what is often written', fullBook, WRITE_PATHS],
  ['what is written more rarely', moreBook, MORE_PATHS],
];

describe.each(BOOKS)('%s', (_, open, paths) => {
  let book: OpenBook;
  let before: DeepPicture;
  beforeAll(async () => {
    book = await open();
    before = deepPicture(book.model);
  }, 60_000);

  it.each(paths)(
    '%s: no text becomes a formula',
    async (_name, make) => {
      const plan = await make(await reading());
      expect(plan.conflicts).toEqual([]);
      await fc.assert(
        fc.asyncProperty(fc.nat({ max: LEADS.length - 1 }), async (from) => {
          const led = ledTexts(plan, from);
          const outcome = await applyPlan(led);
          expect(outcome.sentence).not.toContain('Nothing was written');
          const undo = undoOf(outcome);
          expect(turned(book, led)).toEqual([]);
          expect((await undoPlan(undo)).outcome).toBe('done');
          expect(deepPicture(book.model)).toEqual(before);
        }),
        { numRuns: 2 },
      );
    },
    60_000,
  );
});

/** What is left of a formula without its texts, its quoted sheet names and its columns. */
const bones = (formula: string): string =>
  formula
    .replace(/"(?:[^"]|"")*"/g, '""')
    .replace(/'(?:[^']|'')*'(?=!)/g, 'Sheet')
    .replace(/\[(?:'.|[^\]'])*\]+/g, '[]');

const NAMES: readonly (readonly [string, Called])[] = [
  [
    'as formulas begin',
    {
      school: `=${CALL}`,
      hall: `@SUM(1)","${CALL}&"`,
      caretaker: `\t+${CALL}`,
      nurse: `-2+3","=${CALL}`,
    },
  ],
  [
    'as objects have them',
    { school: '__proto__', hall: 'constructor', caretaker: 'toString', nurse: 'hasOwnProperty' },
  ],
  [
    'with quotes, brackets and signs of formulas',
    { school: `"&${CALL}&"`, hall: "O'Neil [#All] ]]", caretaker: "'#'@", nurse: '{=1+1}' },
  ],
  ['of markup', { school: '<b>School</b>', hall: '<script>x</script>', caretaker: '&lt;', nurse: '<!--' }],
  [
    'of letters that run both ways',
    { school: '\u202Eloohcs', hall: 'בית', caretaker: 'e\u0301', nurse: '\u{1F468}\u200D\u{1F3EB}' },
  ],
];

describe.each(NAMES)('systems and people with names %s', (_, called) => {
  it('are written, read, and quoted in formulas as texts', async () => {
    const book = await fullBook(undefined, undefined, called);
    const before = deepPicture(book.model);
    expect((await reading()).systems.map(({ name }) => name)).toEqual(
      [called.school, called.hall].map((n) => n.trim()),
    );
    for (const [path, make] of WRITE_PATHS) {
      const plan = await make(await reading());
      expect(plan.conflicts, path).toEqual([]);
      const undo = undoOf(await applyPlan(plan));
      const formulas = book.model.sheets.flatMap(({ name, cells }) =>
        name === 'Sheet1' ? [] : [...cells.all()].flatMap(({ cell }) => cell.formula ?? []),
      );
      expect(formulas.length).toBeGreaterThan(5);
      for (const formula of formulas)
        expect(bones(formula), path).toMatch(/^=(?:KEYROW\.[A-Z]+|HYPERLINK)\([^()]*\)$/);
      expect((await undoPlan(undo)).outcome, path).toBe('done');
      expect(deepPicture(book.model), path).toEqual(before);
    }
  }, 120_000);
});

describe('a text at the limit of a cell', () => {
  /** Excel's limit, by its specifications and limits page. */
  const MOST = 32_767;
  const correction = (text: string, book: BookReading): WritePlan =>
    planAuthorised(book, { system: 'School', name: text, role: 'Head', blank: 'K1' }, '2026-03-14');

  it('is written whole, and one beyond it is refused with its cell', async () => {
    const book = await fullBook();
    const before = deepPicture(book.model);
    const fits = `=${'x'.repeat(MOST - 1)}`;
    const undo = undoOf(await applyPlan(correction(fits, await reading())));
    expect(
      book.model.sheets.flatMap(({ cells }) => [...cells.all()]).some(({ cell }) => cell.value === fits),
    ).toBe(true);
    expect((await undoPlan(undo)).outcome).toBe('done');
    const outcome = await applyPlan(correction(`${fits}x`, await reading()));
    expect(outcome).toMatchObject({
      outcome: 'refused',
      reasons: [
        {
          at: { sheet: 'Authorised' },
          sentence: expect.stringMatching(
            /has 32,768 characters, and a cell holds 32,767\. Shorten it\.$/,
          ) as string,
        },
      ],
    });
    expect(deepPicture(book.model)).toEqual(before);
  });
});
