/** Nothing of the user's is lost: conflicts, edits in between, failures at every request, stopping, taking back. */
import { describe, expect, it } from 'vitest';
import {
  applyPlan,
  describePlan,
  planCheckColumn,
  planFindings,
  planNewSystem,
  readTarget,
  undoPlan,
} from '../../src/workbook/index.ts';
import type { ApplyProgress } from '../../src/workbook/index.ts';
import type { Host } from '../../src/preview/host/index.ts';
import { openBook, type OpenBook } from '../support/office.ts';
import { at, MADE, picture, reading, undoOf, write, writeSystem } from './book.ts';
import { large, school, SPEC } from './school.ts';

/** A book with the shop's own sheet, on which nothing may ever change. */
function shopBook(): OpenBook {
  const book = openBook();
  book.host.userEdit('Sheet1', 'A1', [
    ['Door', 'Room', 'Key code'],
    ["'0101", 'Office', "'354635"],
    ["'0102", '=1+1', "'554635"],
  ]);
  return book;
}

describe('a plan on a workbook that has changed', () => {
  it('writes nothing where a cell was filled in the meantime, and names it', async () => {
    const { host, model } = shopBook();
    await writeSystem(school());
    const plan = planNewSystem(await reading(), school('Annex'), MADE);
    host.userEdit('Keys', 'D14', 'my note');
    const before = picture(model);
    const outcome = await applyPlan(plan);
    expect(outcome).toMatchObject({
      outcome: 'refused',
      reasons: [{ at: { sheet: 'Keys', address: 'D14' }, holds: 'my note' }],
    });
    expect(picture(model)).toEqual(before);
  });

  it('is not even made where the cell was filled before', async () => {
    const { host } = shopBook();
    await writeSystem(school());
    host.userEdit('Keys', 'D14', 'my note');
    const plan = planNewSystem(await reading(), school('Annex'), MADE);
    expect(plan.steps).toEqual([]);
    expect(plan.conflicts).toMatchObject([{ at: { sheet: 'Keys', address: 'D14' }, holds: 'my note' }]);
    expect(await applyPlan(plan)).toMatchObject({ outcome: 'refused', reasons: plan.conflicts });
  });

  it.each<[string, (book: OpenBook) => void, RegExp]>([
    [
      'a sheet of the name came',
      ({ model }) => model.addSheet('GRID ANNEX', 'user'),
      /A sheet Grid Annex was added/,
    ],
    [
      'a sheet was renamed',
      ({ model }) => model.renameSheet('Keys', 'K', 'user'),
      /sheet Keys is gone or was renamed/,
    ],
    ['a sheet went', ({ model }) => model.removeSheet('Cylinders', 'user'), /Cylinders is gone/],
    [
      'a row came',
      ({ model }) => void model.addTableRows('KeyrowKeys', null, 1, 'user'),
      /other rows by now/,
    ],
    [
      'the sheet was protected',
      ({ model }) => model.protect('Keys', { options: {} }, 'user'),
      /Keys is protected/,
    ],
    ['a filter was set', ({ model }) => filter(model), /filtered/],
    ['totals were shown', ({ model }) => model.showTotals('KeyrowKeys', true, 'user'), /totals row/],
    [
      'a cell is being edited',
      ({ host }) => {
        host.setCellEditMode(true);
      },
      /being edited/,
    ],
  ])('writes nothing when %s', async (_, change, words) => {
    const book = shopBook();
    await writeSystem(school());
    const plan = planNewSystem(await reading(), school('Annex'), MADE);
    change(book);
    const before = picture(book.model);
    const outcome = await applyPlan(plan);
    book.host.setCellEditMode(false);
    expect(outcome.outcome).toBe('refused');
    expect(JSON.stringify(outcome)).toMatch(words);
    expect(picture(book.model)).toEqual(before);
  });

  it.each<[string, (book: OpenBook) => void, RegExp]>([
    ['protected', ({ model }) => model.protect('Keys', { options: {} }, 'user'), /Keys is protected/],
    ['filtered', ({ model }) => filter(model), /filtered/],
    ['with totals', ({ model }) => model.showTotals('KeyrowKeys', true, 'user'), /totals row/],
  ])('is refused at planning already where the table is %s', async (_, change, words) => {
    const book = shopBook();
    await writeSystem(school());
    change(book);
    const { conflicts } = planNewSystem(await reading(), school('Annex'), MADE);
    expect(conflicts.map((c) => c.sentence).join(' ')).toMatch(words);
  });
});

function filter(model: OpenBook['model']): void {
  model.filterTable('KeyrowKeys', 1, { filterOn: 'Values', values: ['AA1'] }, 'user');
}

/** Fails one request by its number, counted from when the plan starts. */
function failAt(host: Host, index: number, afterActions: number): () => boolean {
  const first = host.requestCount;
  let failed = false;
  host.intercept = (i) => {
    if (i - first !== index) return 'pass';
    failed = true;
    return { error: 'GeneralException', afterActions };
  };
  return () => failed;
}

describe('a failure in the middle', () => {
  /** Every request of the run fails once, at its start or after all its actions were carried out. */
  async function cutEverywhere(
    prepare: () => Promise<void>,
    afterActions: number,
    step: number,
  ): Promise<number> {
    let cuts = 0;
    for (let index = 0; ; index += step) {
      const { host, model } = shopBook();
      await prepare();
      const before = picture(model);
      const plan = planNewSystem(await reading(), school('Annex'), MADE);
      const failed = failAt(host, index, afterActions);
      const outcome = await applyPlan(plan);
      host.intercept = null;
      if (!failed()) {
        expect(outcome.outcome).toBe('done');
        return cuts;
      }
      cuts++;
      if (outcome.outcome === 'done') {
        // page setup may fail without anything being lost: then the cells are as planned
        expect((await reading()).systems.map((s) => s.name)).toContain('Annex');
        expect((await undoPlan(undoOf(outcome))).outcome).toBe('done');
      } else expect(['refused', 'rolled-back']).toContain(outcome.outcome);
      expect(picture(model)).toEqual(before);
    }
  }

  it('leaves an empty book as it was, whichever request fails', async () => {
    expect(await cutEverywhere(async () => {}, 0, 1)).toBeGreaterThan(40);
  }, 120_000);

  it('leaves it as it was where the request was carried out but its answer was an error', async () => {
    expect(await cutEverywhere(async () => {}, Infinity, 3)).toBeGreaterThan(12);
  }, 120_000);

  it('leaves a book with another system as it was', async () => {
    const prepare = async (): Promise<void> => {
      await writeSystem(school());
    };
    expect(await cutEverywhere(prepare, Infinity, 4)).toBeGreaterThan(7);
  }, 120_000);

  it('is put back in a second try where the first one fails too', async () => {
    const { host, model } = shopBook();
    const before = picture(model);
    const plan = planNewSystem(await reading(), school(), MADE);
    const first = host.requestCount;
    host.intercept = (i) => (i - first === 12 || i - first === 14 ? { error: 'GeneralException' } : 'pass');
    const outcome = await applyPlan(plan);
    host.intercept = null;
    expect(outcome).toMatchObject({ outcome: 'rolled-back', stopped: false });
    expect(outcome.sentence).toContain('internal error');
    expect(picture(model)).toEqual(before);
  });

  it('that can’t be put back names the places', async () => {
    const { host } = shopBook();
    const plan = planNewSystem(await reading(), school(), MADE);
    const first = host.requestCount;
    host.intercept = (i) => (i - first >= 12 ? { error: 'AccessDenied' } : 'pass');
    const outcome = await applyPlan(plan);
    host.intercept = null;
    expect(outcome.outcome).toBe('broken');
    expect(outcome.sentence).toMatch(/protected.*Specs!A1:A2/);
  });

  it('caused by a cell that was changed after it was written is noticed, and the change is kept', async () => {
    const { host, model } = shopBook();
    const before = picture(model);
    const plan = planNewSystem(await reading(), school(), MADE);
    // the user types into a cell that was just written, before it is read back
    host.intercept = () => {
      if (model.findTable('KeyrowGrid1') && at(model, 'Keys', 'E5') === '354635')
        host.userEdit('Keys', 'E5', '999999');
      return 'pass';
    };
    const outcome = await applyPlan(plan);
    host.intercept = null;
    expect(outcome.outcome).toBe('rolled-back');
    expect(outcome.sentence).toBe(
      'What was written at Keys!E5 reads otherwise by now. The workbook is as it was before, except for what was changed meanwhile at Keys!E5: that was left alone. Check it.',
    );
    expect(outcome).toMatchObject({ kept: [{ at: { sheet: 'Keys', address: 'E5' }, holds: '999999' }] });
    const { Keys: kept, ...others } = picture(model);
    expect(kept).toMatchObject({ '4,4': { value: '999999' } });
    expect({ ...others, tables: {} }).toEqual(before);
  });
});

describe('stopping', () => {
  it('in the middle puts everything back', async () => {
    const { model } = shopBook();
    const before = picture(model);
    const stop = new AbortController();
    const seen: ApplyProgress[] = [];
    const outcome = await applyPlan(planNewSystem(await reading(), large(3000), MADE), {
      signal: stop.signal,
      onProgress: (progress) => {
        seen.push(progress);
        if (progress.stage === 'writing' && seen.filter((p) => p.stage === 'writing').length === 6)
          stop.abort();
      },
    });
    expect(outcome).toMatchObject({ outcome: 'rolled-back', stopped: true });
    expect(picture(model)).toEqual(before);
    expect(seen.every((p) => p.done <= p.total)).toBe(true);
  }, 60_000);

  it('before anything was written writes nothing', async () => {
    const { model } = shopBook();
    const before = picture(model);
    const outcome = await applyPlan(planNewSystem(await reading(), school(), MADE), {
      signal: AbortSignal.abort(),
    });
    expect(outcome).toEqual({
      outcome: 'rolled-back',
      sentence: 'Stopped; nothing was written.',
      stopped: true,
    });
    expect(picture(model)).toEqual(before);
  });
});

describe('taking back', () => {
  it('leaves the workbook as it was', async () => {
    const { model } = shopBook();
    const before = picture(model);
    const undo = await writeSystem(school());
    expect((await undoPlan(undo)).outcome).toBe('done');
    expect(picture(model)).toEqual(before);
  });

  it('refuses where the user has changed a cell since, and lists it', async () => {
    const { host, model } = shopBook();
    const undo = await writeSystem(school());
    host.userEdit('Keys', 'F5', 'issued');
    host.userEdit('Cylinders', 'T3', 'ask Jo about these');
    const before = picture(model);
    expect(await undoPlan(undo)).toMatchObject({
      outcome: 'refused',
      reasons: [
        { at: { sheet: 'Keys', address: 'F5' }, holds: 'issued' },
        { at: { sheet: 'Cylinders', address: 'T3' }, holds: 'ask Jo about these' },
      ],
    });
    expect(picture(model)).toEqual(before);
  });

  it('refuses where another system was written into the same tables since', async () => {
    const { model } = shopBook();
    const undo = await writeSystem(school());
    await writeSystem(school('Annex'));
    const before = picture(model);
    const outcome = await undoPlan(undo);
    expect(outcome.outcome).toBe('refused');
    expect(picture(model)).toEqual(before);
  });

  it('goes on where one try fails', async () => {
    const { host, model } = shopBook();
    const before = picture(model);
    const undo = await writeSystem(school());
    let left = 1;
    host.intercept = (_, body) =>
      JSON.stringify(body).includes('"Delete"') && left-- > 0 ? { error: 'GeneralException' } : 'pass';
    expect((await undoPlan(undo)).outcome).toBe('done');
    host.intercept = null;
    expect(picture(model)).toEqual(before);
  });

  it('is one step of Excel’s own undo where the version has undo groups', async () => {
    const { model } = openBook({}, { sets: { ExcelApi: '1.20' } });
    const before = picture(model);
    const outcome = await applyPlan(planNewSystem(await reading(), school(), MADE));
    expect(outcome).toMatchObject({ outcome: 'done', oneUndo: true });
    model.undo();
    expect(picture(model)).toEqual(before);
  });
});

describe('hostile text', () => {
  const names = [
    '=HYPERLINK("http://x","y")',
    '+1+1',
    '-2',
    '@SUM(A1)',
    '1-2-3',
    '00012',
    'TRUE',
    '#N/A',
    "O'Neil",
  ];

  it('stays text in every cell', async () => {
    const { model } = openBook();
    const made = school(names[0]);
    const cylinders = made.system.cylinders.map((c, i) => ({ ...c, id: names[i + 1]!, door: names[i + 4]! }));
    const ids = new Map(made.system.cylinders.map((c, i) => [c.id, cylinders[i]!.id]));
    const marks = made.marks.map((m) => ({ ...m, cylinder: ids.get(m.cylinder)! }));
    const note = `'${names[0]!}`;
    await writeSystem({ ...made, note, marks, system: { ...made.system, cylinders } });
    expect(at(model, 'Systems', 'A5')).toBe(names[0]);
    expect(['B5', 'B6', 'B7', 'B8'].map((a) => at(model, 'Cylinders', a))).toEqual(names.slice(1, 5));
    expect(['C5', 'C6', 'C7', 'C8'].map((a) => at(model, 'Cylinders', a))).toEqual(names.slice(4, 8));
    expect(['A5', 'A6', 'A7', 'A8'].map((a) => at(model, 'Grid', a))).toEqual(names.slice(1, 5));
    const formulas = model.sheets.flatMap((sheet) =>
      [...sheet.cells.all()].flatMap(({ cell }) => cell.formula ?? []),
    );
    expect(formulas.every((f) => f.startsWith('=KEYROW.'))).toBe(true);
    const book = await reading();
    expect(book.systems[0]).toMatchObject({ name: names[0], note });
    expect(book.systems[0]?.grid?.marks).toHaveLength(12);
  });

  it('in a sheet’s name does not leak out of a link', async () => {
    const { model, host } = openBook();
    await writeSystem(school());
    model.renameSheet('Keys', `Jo's "keys", all`, 'user');
    host.userEdit(`Jo's "keys", all`, 'E5', 'x');
    await write(planFindings(await reading(), { made: '', audits: [] }));
    expect(model.cell('Findings', 4, 2)?.formula).toBe(
      `=HYPERLINK("#'Jo''s ""keys"", all'!E5","'Jo''s ""keys"", all'!E5")`,
    );
  });
});

describe('a check column in the shop’s sheet', () => {
  async function target() {
    const read = await readTarget('selection');
    if (!read.ok) throw new Error(read.error.sentence);
    return read.value;
  }

  it('goes right of the block, and is taken back without a trace', async () => {
    const { host, model } = shopBook();
    await writeSystem(school());
    host.userSelect('Sheet1', 'C2');
    const before = picture(model);
    const found = await target();
    expect(found).toMatchObject({ headers: ['Door', 'Room', 'Key code'], right: ['', '', ''] });
    const plan = planCheckColumn(await reading(), found, { codes: 2, spec: SPEC.name });
    expect(describePlan(plan).sentence).toBe(
      'Adds the column Bitting check to the right of Sheet1!A1:C3, 2 cells; touches nothing else.',
    );
    const undo = await write(plan);
    expect(at(model, 'Sheet1', 'D1')).toBe('Bitting check');
    expect(model.cell('Sheet1', 2, 3)?.formula).toBe('=KEYROW.WHY(C3,"S-018-6",KeyrowSpecs[#All])');
    expect((await undoPlan(undo)).outcome).toBe('done');
    expect(picture(model)).toEqual(before);
  });

  it('widens the shop’s table', async () => {
    const { host, model } = shopBook();
    await writeSystem(school());
    model.addTable('Sheet1', { row: 0, column: 0, rows: 3, columns: 3 }, true, 'user', 'Doors');
    host.userSelect('Sheet1', 'B2');
    const before = picture(model);
    const found = await target();
    expect(found).toMatchObject({ table: 'Doors', box: { rows: 3, columns: 3 } });
    const undo = await write(planCheckColumn(await reading(), found, { codes: 2, spec: SPEC.name }));
    expect(model.table('Doors').area).toMatchObject({ columns: 4 });
    expect(model.cell('Sheet1', 1, 3)?.formula).toContain('Key code');
    expect((await undoPlan(undo)).outcome).toBe('done');
    expect(picture(model)).toEqual(before);
  });

  it('takes codes without a heading', async () => {
    const { host } = openBook();
    host.userEdit('Sheet1', 'B3', [["'354635"], ["'554635"]]);
    host.userSelect('Sheet1', 'B3:B4');
    expect(await target()).toMatchObject({ headers: [], values: [['354635'], ['554635']] });
  });

  it('reads no more of whole columns than is filled', async () => {
    const { host } = shopBook();
    host.userSelect('Sheet1', 'C:C');
    expect((await target()).box).toMatchObject({ row: 0, column: 2, rows: 3, columns: 1 });
  });

  it('has nothing to go beside in empty cells', async () => {
    const { host } = shopBook();
    host.userSelect('Sheet1', 'H20');
    const read = await readTarget('selection');
    expect(!read.ok && read.error.sentence).toContain('nothing in these cells');
  });
});
