/** Construction keying in the sheets: both states written and audited there, the one-way change, and nothing else. */
import { describe, expect, it } from 'vitest';
import { auditSystem } from '../../src/keying/audit.ts';
import { constructionKeying, type ConstructionResult } from '../../src/keying/construction.ts';
import { evenTree, generateSystem } from '../../src/keying/hierarchy.ts';
import { auditInputOf } from '../../src/keying/intended.ts';
import { runToEnd } from '../../src/keying/system.ts';
import {
  auditInput,
  describePlan,
  openConstructions,
  planConstruction,
  planHandOver,
  undoPlan,
} from '../../src/workbook/index.ts';
import { openBook, type OpenBook } from '../support/office.ts';
import { at, MADE, picture, put, reading, write, writeSystem } from './book.ts';
import { SPEC } from './school.ts';

async function written(): Promise<OpenBook> {
  const book = openBook();
  const made = runToEnd(
    generateSystem({
      name: 'Hall',
      spec: SPEC,
      levels: 3,
      grands: evenTree(3, { masters: 2, changeKeys: 2 }),
    }),
  );
  if (!made.ok) throw new Error('does not fit');
  await writeSystem(made);
  return book;
}

async function found(): Promise<Extract<ConstructionResult, { ok: true }>> {
  const { system, marks } = auditInput(await reading(), 'Hall')!;
  const result = runToEnd(
    constructionKeying({
      system,
      marks,
      cylinders: system.cylinders.map(({ id }) => id),
      symbol: 'CON',
      oneWay: 'loose-pin',
    }),
  );
  if (!result.ok) throw new Error(result.fault.code);
  return result;
}

const planned = async (result: Awaited<ReturnType<typeof found>>) =>
  planConstruction(await reading(), { ...result, system: 'Hall', symbol: 'CON', oneWay: 'loose-pin' }, MADE);

async function audited() {
  const book = await reading();
  expect(book.problems).toEqual([]);
  const { system, marks } = auditInput(book, 'Hall')!;
  return {
    counts: runToEnd(auditSystem(auditInputOf(system, marks), { near: false })).counts,
    con: marks.filter((mark) => mark.key === 'CON').map((mark) => mark.cylinder),
    key: book.systems[0]!.keys.find((key) => key.symbol === 'CON')?.status,
  };
}

describe('construction keying in a workbook', () => {
  it('is written, audited, and taken back', async () => {
    const book = await written();
    const before = picture(book.model);
    const { plan, changes } = await planned(await found());
    expect(describePlan(plan).conflicts).toEqual([]);
    expect(changes.map((c) => c.at.sheet)).toEqual(['Cylinders', 'Cylinders', 'Cylinders', 'Cylinders']);
    for (const change of changes) expect(at(book.model, 'Cylinders', change.at.address)).toBe(change.from);
    const undo = await write(plan);
    expect(await audited()).toEqual({ counts: {}, con: ['C1', 'C2', 'C3', 'C4'], key: 'issued' });
    expect((await undoPlan(undo)).outcome).toBe('done');
    expect(picture(book.model)).toEqual(before);
  });

  it('is written with the keyway of the blank that its doors ask for', async () => {
    const book = await written();
    await put(book, 'Cylinders', Object.fromEntries([5, 6, 7, 8].map((row) => [`F${row}`, 'K2'])));
    const result = await found();
    expect(result.keyway).toBe('K2');
    await write((await planned(result)).plan);
    expect((await reading()).systems[0]!.keys.find((key) => key.symbol === 'CON')!.keyway).toBe('K2');
    expect((await audited()).counts).toEqual({});
  });

  it('is handed over cylinder by cylinder, until the key is retired', async () => {
    const book = await written();
    const result = await found();
    await write((await planned(result)).plan);
    const [open] = openConstructions(await reading());
    expect(open!.chambers).toHaveLength(4);
    await write(planHandOver(await reading(), open!, ['C1'], MADE).plan);
    expect(await audited()).toEqual({ counts: {}, con: ['C2', 'C3', 'C4'], key: 'issued' });
    expect(at(book.model, 'Construction', 'K5')).toBe('24 Nov 2026');
    const [left] = openConstructions(await reading());
    expect(left!.chambers.map((c) => c.cylinder)).toEqual(['C2', 'C3', 'C4']);
    await write(planHandOver(await reading(), left!, ['C2', 'C3', 'C4'], MADE).plan);
    expect(await audited()).toEqual({ counts: {}, con: [], key: 'retired' });
    expect(openConstructions(await reading())).toEqual([]);
    const now = auditInput(await reading(), 'Hall')!.system.cylinders;
    expect(now.map((c) => c.chambers)).toEqual(result.cylinders.map((c) => c.after));
  });

  it('does not write over a cylinder that was pinned otherwise in the meantime', async () => {
    const book = await written();
    const result = await found();
    const { chamber } = result.cylinders[0]!.leaves[0]!;
    const cell = `${'GHIJKL'[chamber - 1]}5`;
    const was = String(at(book.model, 'Cylinders', cell));
    await put(book, 'Cylinders', { [cell]: 'any' });
    expect((await planned(result)).plan.conflicts.map((c) => c.sentence)).toEqual([
      expect.stringMatching(/^Cylinder C1 is no longer pinned as it was/),
    ]);
    await put(book, 'Cylinders', { [cell]: was });
    await write((await planned(result)).plan);
    await put(book, 'Cylinders', { [cell]: 'any' });
    const [open] = openConstructions(await reading());
    const { plan } = planHandOver(await reading(), open!, ['C1'], MADE);
    expect(plan.steps).toEqual([]);
    expect(plan.conflicts).toEqual([
      {
        at: { sheet: 'Cylinders', address: cell },
        sentence: expect.stringMatching(/^Chamber \d of C1 is pinned neither/) as string,
      },
    ]);
  });

  it('says which cell of the sheet can’t be read', async () => {
    const book = await written();
    await write((await planned(await found())).plan);
    await put(book, 'Construction', { H5: '22' });
    const [open] = openConstructions(await reading());
    const { plan } = planHandOver(await reading(), open!, ['C1'], MADE);
    expect(plan.conflicts.map((c) => c.at?.address)).toContain('H5');
  });
});
