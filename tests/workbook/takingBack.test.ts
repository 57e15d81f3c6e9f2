/** Taking back touches what was written and nothing else, whatever happened to Excel's answers. */
import { describe, expect, it } from 'vitest';
import { ProgrammerError } from '../../src/keying/result.ts';
import { applyPlan, planNewSystem, undoPlan } from '../../src/workbook/index.ts';
import type { WritePlan } from '../../src/workbook/index.ts';
import type { Host } from '../../src/preview/host/index.ts';
import { openBook, type OpenBook } from '../support/office.ts';
import { at, MADE, picture, reading, undoOf, writeSystem } from './book.ts';
import { school } from './school.ts';

type Body = Parameters<NonNullable<Host['intercept']>>[1];

/** The request that adds a sheet of this name. */
const adds = (body: Body, sheet: string): boolean => {
  const text = JSON.stringify(body.ObjectPaths);
  return text.includes('"Add"') && text.includes(`"${sheet}"`);
};

const twoSheets: WritePlan = {
  title: 'Two sheets',
  effects: [],
  conflicts: [],
  steps: ['First', 'Second'].flatMap((sheet): WritePlan['steps'] => [
    { kind: 'add-sheet', sheet },
    {
      kind: 'write',
      sheet,
      row: 0,
      column: 0,
      cells: [['ours']],
      formats: ['text'],
      expected: 'empty',
    },
  ]),
};

/** Somebody adds a sheet of the name in the moment before Excel is asked to add ours. */
function cutIn({ host, model }: OpenBook, before: string, sheet: string, note?: string): void {
  let done = false;
  host.intercept = (_, body) => {
    if (!done && adds(body, before)) {
      done = true;
      model.addSheet(sheet, 'user');
      if (note !== undefined) host.userEdit(sheet, 'A1', note);
    }
    return 'pass';
  };
}

describe('a sheet that somebody else added meanwhile', () => {
  it.each([['with a note on it', 'my note'] as const, ['and left empty', undefined] as const])(
    'stays where Excel says that the name is taken, %s',
    async (_, note) => {
      const book = openBook();
      cutIn(book, 'Second', 'Second', note);
      const outcome = await applyPlan(twoSheets);
      expect(outcome.outcome).toBe('rolled-back');
      expect(book.model.sheets.map((s) => s.layout.name)).toEqual(['Sheet1', 'Second']);
      expect(at(book.model, 'Second', 'A1') ?? undefined).toBe(note);
    },
  );

  it('stays where the plan was stopped before its own was asked for', async () => {
    const book = openBook();
    cutIn(book, 'First', 'Second', 'my note');
    const stop = new AbortController();
    const outcome = await applyPlan(twoSheets, {
      signal: stop.signal,
      onProgress: ({ stage }) => {
        if (stage === 'writing') stop.abort();
      },
    });
    expect(outcome).toMatchObject({ outcome: 'rolled-back', stopped: true });
    expect(book.model.sheets.map((s) => s.layout.name)).toEqual(['Sheet1', 'Second']);
    expect(at(book.model, 'Second', 'A1')).toBe('my note');
  });

  it('stays where the answer was lost and it is filled; one of ours, still empty, goes', async () => {
    for (const filled of [true, false]) {
      const { host, model } = openBook();
      let lost = false;
      host.intercept = (_, body) => {
        if (lost || !adds(body, 'Second')) return 'pass';
        lost = true;
        if (!filled) return { error: 'GeneralException', afterActions: Infinity };
        model.addSheet('Second', 'user');
        host.userEdit('Second', 'B2', 'my note');
        return { error: 'GeneralException', afterActions: 0 };
      };
      expect((await applyPlan(twoSheets)).outcome).toBe('rolled-back');
      expect(lost).toBe(true);
      expect(model.sheets.map((s) => s.layout.name)).toEqual(filled ? ['Sheet1', 'Second'] : ['Sheet1']);
    }
  });

  it('stays where ours was renamed in the meantime and only ours goes', async () => {
    const { host, model } = openBook();
    let renamed = false;
    host.intercept = (_, body) => {
      if (!renamed && adds(body, 'Second')) {
        renamed = true;
        model.renameSheet('First', 'Moved', 'user');
        model.addSheet('First', 'user');
        host.userEdit('First', 'A1', 'my note');
        return { error: 'GeneralException' };
      }
      return 'pass';
    };
    await applyPlan(twoSheets);
    expect(at(model, 'First', 'A1')).toBe('my note');
    expect(model.sheets.map((s) => s.layout.name)).toEqual(['Sheet1', 'First']);
  });
});

describe('a failure after writing', () => {
  it('is put back where Excel hands over no cells on reading back', async () => {
    const { host, model } = openBook();
    const before = picture(model);
    const plan = planNewSystem(await reading(), school(), MADE);
    let broken = 0;
    host.onExchange = (_, response) => {
      if (broken > 0 || !model.findTable('KeyrowGrid1')) return;
      for (const result of response?.Results ?? []) {
        const value = result.Value as Record<string, unknown> | null;
        if (value && 'Formulas' in value) {
          value['Formulas'] = null;
          broken++;
        }
      }
    };
    const outcome = await applyPlan(plan);
    host.onExchange = null;
    expect(broken).toBeGreaterThan(0);
    expect(outcome.outcome).toBe('rolled-back');
    expect(outcome.sentence).toContain('didn’t hand over the cells');
    expect(picture(model)).toEqual(before);
  });

  it('that is a mistake of ours is put back before it is thrown', async () => {
    const { model } = openBook();
    const before = picture(model);
    const plan = planNewSystem(await reading(), school(), MADE);
    await expect(
      applyPlan(plan, {
        onProgress: ({ stage }) => {
          if (stage === 'reading back') throw new ProgrammerError('a slip');
        },
      }),
    ).rejects.toThrow('a slip');
    expect(picture(model)).toEqual(before);
  });

  it('that meets a mistake of ours on the way back names the places instead of throwing', async () => {
    const { host } = openBook();
    host.userEdit('Sheet1', 'A1', 'theirs');
    const plan: WritePlan = {
      title: 'One cell',
      effects: [],
      conflicts: [],
      steps: [
        {
          kind: 'write',
          sheet: 'Sheet1',
          row: 0,
          column: 0,
          cells: [['ours']],
          formats: ['text'],
          expected: [['theirs']],
        },
      ],
    };
    const outcome = await applyPlan(plan, {
      onProgress: ({ stage }) => {
        if (stage === 'reading back' || stage === 'taking back') throw new ProgrammerError('a slip');
      },
    });
    expect(outcome.outcome).toBe('broken');
    expect(outcome.sentence).toContain('Sheet1!A1');
  });
});

describe('cells that are put back', () => {
  /** Writes over A1:A5 and takes it back. */
  async function thereAndBack(): Promise<void> {
    const [sheet] = (await reading()).sheets;
    expect(sheet?.name).toBe('Sheet1');
    const expected = [['#N/A'], ['#N/A'], ['=1+1'], ['007'], [12]];
    const plan: WritePlan = {
      title: 'Cells',
      effects: [],
      conflicts: [],
      steps: [
        {
          kind: 'write',
          sheet: 'Sheet1',
          row: 0,
          column: 0,
          cells: expected.map(() => ['ours']),
          formats: ['text'],
          expected,
        },
      ],
    };
    expect((await undoPlan(undoOf(await applyPlan(plan)))).outcome).toBe('done');
  }

  it.each(['General', '@'])('are of the kind that they were, in cells formatted %s', async (format) => {
    const { host, model } = openBook();
    host.userEdit('Sheet1', 'A1', [['#N/A'], ["'#N/A"], ['=1+1'], ["'007"], [12]]);
    model.setResult('Sheet1', 2, 0, 2);
    model.style('Sheet1', { row: 0, column: 0, rows: 5, columns: 1 }, { numberFormat: format }, 'user');
    const before = picture(model);
    await thereAndBack();
    expect(picture(model)).toEqual(before);
    expect(at(model, 'Sheet1', 'A1')).toEqual({ error: '#N/A' });
    expect(at(model, 'Sheet1', 'A2')).toBe('#N/A');
    expect(model.cell('Sheet1', 2, 0)?.formula).toBe('=1+1');
  });
});

describe('an added sheet that others refer to by now', () => {
  it.each([
    ["=COUNTA('keys'!A:A)", true],
    ['=ROWS(KeyrowKeys[Symbol])', true],
    ['="Keys!A1"', false],
    ['=INDIRECT("Keys!A5")', true],
    ['=SUM(INDIRECT("\'"&"Keys"&"\'!A1:A9"))', true],
    ['=ROWS(INDIRECT("KeyrowKeys"))', true],
    ['=INDIRECT("Sheet1!A1")', false],
    ['=Sheet1!A1', false],
  ])('%s: is kept, and the formula listed: %s', async (formula, kept) => {
    const { host, model } = openBook();
    const undo = await writeSystem(school());
    host.userEdit('Sheet1', 'B2', formula);
    const before = picture(model);
    const outcome = await undoPlan(undo);
    if (kept) {
      expect(outcome).toMatchObject({
        outcome: 'refused',
        reasons: [{ at: { sheet: 'Sheet1', address: 'B2' }, holds: formula }],
      });
      expect(picture(model)).toEqual(before);
    } else expect(outcome.outcome).toBe('done');
  });

  it('by a defined name is kept too', async () => {
    const { model } = openBook();
    const undo = await writeSystem(school());
    model.addName(
      { name: 'AllKeys', sheetId: null, formula: '=Keys!$A$5:$A$11', visible: true, comment: '' },
      'user',
    );
    const outcome = await undoPlan(undo);
    expect(outcome).toMatchObject({ outcome: 'refused', reasons: [{ holds: '=Keys!$A$5:$A$11' }] });
    expect(JSON.stringify(outcome)).toContain('The name AllKeys');
  });

  it('in a way that nobody can tell is taken back, and the place is named', async () => {
    const { host, model } = openBook();
    const undo = await writeSystem(school());
    host.userEdit('Sheet1', 'B2', '=INDIRECT(A1&"!A5")');
    const outcome = await undoPlan(undo);
    expect(outcome).toMatchObject({
      outcome: 'done',
      sentence: expect.stringMatching(
        /^Taken back: .*\. Which cells INDIRECT looks up at Sheet1!B2 can’t be told\. Check whether/,
      ) as string,
    });
    expect(model.sheets.map(({ name }) => name)).toEqual(['Sheet1']);
  });

  it('is named with its own cell, wherever the sheet’s content begins, and many places are counted', async () => {
    const { host, model } = openBook();
    const undo = await writeSystem(school());
    host.userEdit('Sheet1', 'C4', 'x');
    for (const cell of ['D5', 'D6', 'D7', 'D8']) host.userEdit('Sheet1', cell, '=INDIRECT(A1)');
    const keys = model.sheet('Keys').id;
    const print = { visible: true, comment: '', formula: '=Keys!$A$1:$F$11' };
    model.addName({ ...print, name: 'Print_Area', sheetId: keys }, 'user');
    host.userEdit('Sheet1', 'E9', '=Keys!A5');
    expect(await undoPlan(undo)).toMatchObject({
      outcome: 'refused',
      reasons: [{ at: { sheet: 'Sheet1', address: 'E9' }, holds: '=Keys!A5' }],
    });
    host.userEdit('Sheet1', 'E9', '');
    const outcome = await undoPlan(undo);
    expect(outcome).toMatchObject({ outcome: 'done' });
    expect(outcome.sentence).toContain(
      'Which cells INDIRECT looks up at Sheet1!D5, Sheet1!D6, Sheet1!D7 and 1 more can’t be told.',
    );
  });

  const list = (source: string) => ({
    areas: [{ row: 1, column: 1, rows: 3, columns: 1 }],
    type: 'List',
    rule: { list: { source, inCellDropDown: true } },
    ignoreBlanks: true,
    errorAlert: null,
    prompt: null,
  });
  const rule = (formula: string) => ({
    id: 'C1',
    areas: [{ row: 0, column: 0, rows: 9, columns: 1 }],
    rule: { kind: 'custom' as const, formula },
    style: {},
    priority: 0,
    stopIfTrue: false,
  });
  const chart = (values: string) => ({
    id: 'G1',
    name: 'Keys a month',
    series: [{ name: 'Keys', values, categories: 'Sheet1!$A$1:$A$4' }],
  });

  const pivot = (source: string) => ({ id: 'P1', name: 'Keys by level', source });

  it.each([
    ['a drop-down list', { validations: [list('=Keys!$A$5:$A$9')] }, 'B2', 'list or rule of these cells'],
    [
      'a list among others',
      {
        validations: [
          { ...list('=Keys!$A$5:$A$9'), areas: [{ row: 3, column: 1, rows: 1, columns: 1 }] },
          { ...list('a,b'), areas: [{ row: 1, column: 1, rows: 1, columns: 2 }] },
        ],
      },
      'B4',
      'list or rule of these cells',
    ],
    [
      'a conditional format',
      { conditionalFormats: [rule('=A1=Keys!$A$5')] },
      undefined,
      'conditional format on Sheet1',
    ],
    [
      'a pivot table of cells',
      { pivots: [pivot('Keys!$A$4:$F$11')] },
      undefined,
      'pivot table Keys by level on Sheet1',
    ],
    [
      'a pivot table of our table',
      { pivots: [pivot('KeyrowKeys')] },
      undefined,
      'pivot table Keys by level on Sheet1',
    ],
    ['a chart', { charts: [chart('Keys!$A$5:$A$9')] }, undefined, 'chart Keys a month on Sheet1'],
  ])('by %s is kept', async (_, layout, address, words) => {
    const { model } = openBook();
    const undo = await writeSystem(school());
    model.setLayout('Sheet1', layout, 'user');
    const before = picture(model);
    const outcome = await undoPlan(undo);
    expect(outcome.outcome).toBe('refused');
    const [reason, ...more] = 'reasons' in outcome ? outcome.reasons : [];
    expect(more).toEqual([]);
    expect(reason!.at?.address).toBe(address);
    expect(reason!.sentence).toContain(words);
    expect(reason!.sentence).toMatch(/ Change or delete it first\.$/);
    expect(picture(model)).toEqual(before);
  });

  it('goes where rules, formats, charts and pivot tables refer to other sheets', async () => {
    const { model } = openBook();
    const undo = await writeSystem(school());
    const layout = {
      validations: [list('=Sheet1!$A$5:$A$9')],
      conditionalFormats: [rule('=A1="Keys!A1"')],
      charts: [chart('Sheet1!$B$1:$B$4')],
      pivots: [pivot('Sheet1!$B$1:$C$4'), { ...pivot('Rooms'), id: 'P2' }],
    };
    model.setLayout('Sheet1', layout, 'user');
    expect((await undoPlan(undo)).outcome).toBe('done');
    expect(model.sheets.map(({ name }) => name)).toEqual(['Sheet1']);
  });

  it('goes with a word about pivot tables where nobody can tell what they show', async () => {
    for (const [ExcelApi, source, words] of [
      ['1.17', '', 'Excel doesn’t tell where some pivot tables take their data. Check those on Sheet1.'],
      [
        '1.14',
        'Keys!$A$4:$F$11',
        'This version of Excel doesn’t tell where its pivot tables take their data.',
      ],
    ] as const) {
      const { model } = openBook({}, { sets: { ExcelApi } });
      const undo = await writeSystem(school());
      model.setLayout('Sheet1', { pivots: [pivot(source)] }, 'user');
      const outcome = await undoPlan(undo);
      expect(outcome).toMatchObject({ outcome: 'done' });
      expect(outcome.sentence).toContain(words);
    }
  });

  it('is kept where a pivot table was put on it', async () => {
    const { model } = openBook();
    const undo = await writeSystem(school());
    model.setLayout('Keys', { pivots: [pivot('Sheet1!$A$1:$B$4')] }, 'user');
    expect(await undoPlan(undo)).toMatchObject({
      outcome: 'refused',
      reasons: [{ sentence: expect.stringContaining('There is a pivot table on Keys') as string }],
    });
  });

  it('goes with a word about charts where this version of Excel doesn’t tell what they show', async () => {
    const { model } = openBook({}, { sets: { ExcelApi: '1.14' } });
    const undo = await writeSystem(school());
    model.setLayout('Sheet1', { charts: [chart('Keys!$A$5:$A$9')] }, 'user');
    const outcome = await undoPlan(undo);
    expect(outcome).toMatchObject({ outcome: 'done' });
    expect(outcome.sentence).toContain('doesn’t tell what its charts show. Check those on Sheet1.');
  });
});
