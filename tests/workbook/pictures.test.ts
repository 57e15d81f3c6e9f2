/** Pictures put into the sheet, through the real front half of Excel's API. */
import { describe, expect, it } from 'vitest';
import { applyPlan, describePlan, planPicture, planShop, undoPlan } from '../../src/workbook/index.ts';
import { openBook } from '../support/office.ts';
import { at, MADE, picture, reading, undoOf, write } from './book.ts';
import { png } from './tiny.ts';

const input = (name: string, more: object = {}) => ({
  ...MADE,
  name,
  shows: `What ${name} looks like.`,
  base64: png(2),
  widthPixels: 560,
  heightPixels: 300,
  ...more,
});

const put = async (name: string, more: object = {}) => write(planPicture(await reading(), input(name, more)));

describe('a picture put into the sheet', () => {
  it('gets a row on a sheet of its own, with its facts in words', async () => {
    const { model } = openBook();
    const plan = planPicture(await reading(), input('Blade AA1 274153'));
    expect(describePlan(plan).sentence).toBe(
      'Adds the sheet Pictures with 1 row; puts the picture “Blade AA1 274153” on Pictures; touches nothing else.',
    );
    await write(plan);
    expect(at(model, 'Pictures', 'A3')).toMatch(/^SECRET/);
    expect(['A5', 'B5', 'C5'].map((cell) => at(model, 'Pictures', cell))).toEqual([
      'Blade AA1 274153',
      'What Blade AA1 274153 looks like.',
      '24 Nov 2026',
    ]);
    // 560 × 300 pixels are 420 × 225 points: a point is 1/72 in, a CSS pixel 1/96 in (CSS Values 4, 6.2)
    expect(model.sheet('Pictures').layout.pictures).toMatchObject([
      {
        name: 'Keyrow Blade AA1 274153',
        altText: 'What Blade AA1 274153 looks like.',
        base64: png(2),
        width: 420,
        height: 225,
      },
    ]);
  });

  it('never lies over another one, and a higher one is shrunk into its row', async () => {
    const { model } = openBook();
    await put('Blade 1');
    await put('Blade 2', { heightPixels: 900 });
    await put('Pins 3');
    const shapes = model.sheet('Pictures').layout.pictures;
    expect(shapes).toHaveLength(3);
    for (const [i, shape] of shapes.slice(1).entries())
      expect(shape.top).toBeGreaterThanOrEqual(shapes[i]!.top + shapes[i]!.height);
    expect(shapes[1]!.width / shapes[1]!.height).toBeCloseTo(560 / 900, 9);
  });

  it('replaces the one of the same name where it stands, and gives it back', async () => {
    const { model } = openBook();
    await put('Blade 1');
    await put('Blade 2');
    const before = model.sheet('Pictures').layout.pictures;
    const plan = planPicture(
      await reading(),
      input('Blade 1', { made: '25 Nov 2026', base64: png(4), heightPixels: 200 }),
    );
    expect(describePlan(plan).sentence).toBe(
      'Replaces the picture “Blade 1” on Pictures; touches nothing else.',
    );
    const undo = await write(plan);
    const after = model.sheet('Pictures').layout.pictures;
    expect(after).toHaveLength(2);
    const found = after.find((shape) => shape.name === 'Keyrow Blade 1')!;
    expect(found).toMatchObject({ base64: png(4), top: before[0]!.top, height: 150 });
    expect(at(model, 'Pictures', 'C5')).toBe('25 Nov 2026');
    expect((await undoPlan(undo)).outcome).toBe('done');
    const { name, base64, left, top, width, height } = before[0]!;
    expect(model.sheet('Pictures').layout.pictures).toContainEqual(
      expect.objectContaining({ name, base64, left, top, width, height }),
    );
    expect(at(model, 'Pictures', 'C5')).toBe('24 Nov 2026');
  });

  it('is taken back with its sheet, or with its row where the sheet was there', async () => {
    const { model } = openBook();
    const empty = picture(model);
    const first = await put('Blade 1');
    const one = { cells: picture(model), shapes: model.sheet('Pictures').layout.pictures };
    const second = await put('Blade 2');
    expect((await undoPlan(second)).outcome).toBe('done');
    expect({ cells: picture(model), shapes: model.sheet('Pictures').layout.pictures }).toEqual(one);
    expect(model.sheet('Pictures').layout.rowHeights.get(5) ?? 15).toBe(15);
    expect((await undoPlan(first)).outcome).toBe('done');
    expect(picture(model)).toEqual(empty);
  });

  it('does not cover what the shop put there', async () => {
    const { model } = openBook();
    await put('Blade 1');
    const sheet = model.sheet('Pictures');
    const [own] = sheet.layout.pictures;
    model.setLayout(
      sheet,
      { pictures: [own!, { ...own!, id: 'P99', name: 'Our stamp', top: own!.top + own!.height + 40 }] },
      'addin',
    );
    const before = { cells: picture(model), shapes: sheet.layout.pictures };
    const outcome = await applyPlan(planPicture(await reading(), input('Blade 2')));
    expect(outcome.sentence).toBe(
      '“Our stamp” on Pictures lies where the picture would go. Move or delete it first. The workbook is as it was before.',
    );
    expect({ cells: picture(model), shapes: sheet.layout.pictures }).toEqual(before);
  });

  it('keeps a sheet on which a picture of the shop’s was put since', async () => {
    const { model } = openBook();
    const undo = await put('Blade 1');
    const sheet = model.sheet('Pictures');
    const [own] = sheet.layout.pictures;
    model.setLayout(sheet, { pictures: [own!, { ...own!, id: 'P99', name: 'Our stamp' }] }, 'addin');
    const outcome = await undoPlan(undo);
    expect(outcome).toMatchObject({
      outcome: 'refused',
      reasons: [{ sentence: expect.stringContaining('“Our stamp” was put on the sheet Pictures since') }],
    });
  });

  it('asks for a renamed column, and leaves other sheets alone', async () => {
    const { model } = openBook();
    undoOf(await applyPlan(planShop(await reading())));
    await put('Blade 1');
    model.enter('Pictures', 3, 3, 'Sketch', 'user');
    const plan = planPicture(await reading(), input('Blade 2'));
    expect(plan.conflicts.map((c) => c.sentence)).toEqual([
      'The table on Pictures has no column “Drawing”. Give the renamed column its name back.',
    ]);
    expect(plan.steps).toEqual([]);
  });
});
