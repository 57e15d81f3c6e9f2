/** Systems that grow: written, marked further in their grid, solved with everything that stands kept, audited again. */
import { describe, expect, it } from 'vitest';
import { auditSystem } from '../../src/keying/audit.ts';
import { generateSystem, evenTree } from '../../src/keying/hierarchy.ts';
import { solveGrid, type Solved } from '../../src/keying/grid/index.ts';
import { auditInputOf } from '../../src/keying/intended.ts';
import { runToEnd } from '../../src/keying/system.ts';
import {
  auditInput,
  planExtension,
  readExtension,
  undoPlan,
  type Extension,
} from '../../src/workbook/index.ts';
import { openBook, type OpenBook } from '../support/office.ts';
import { at, MADE, picture, put, reading, write, writeSystem } from './book.ts';
import { school, SPEC, starter } from './school.ts';

async function written(): Promise<OpenBook> {
  const book = openBook();
  const made = runToEnd(
    generateSystem({
      name: 'Hall',
      spec: SPEC,
      levels: 3,
      grands: evenTree(3, { masters: 2, changeKeys: 3 }),
      order: 'scattered',
      seed: 5,
    }),
  );
  if (!made.ok) throw new Error('does not fit');
  await writeSystem(made);
  return book;
}

async function extension(): Promise<Extension> {
  const read = readExtension(await reading(), 'Hall');
  if (!read.ok) throw new Error(read.error.map((p) => p.sentence).join(' '));
  return read.value;
}

const solve = ({ grid, avoid }: Extension, freed: readonly string[] = []) =>
  runToEnd(
    solveGrid(
      {
        ...grid,
        cylinders: grid.cylinders.map((c) => (freed.includes(c.id) ? { id: c.id } : c)),
      },
      { avoid, sameMarks: 'different' },
    ),
  );

function solved(answer: ReturnType<typeof solve>): Solved {
  if (answer.kind !== 'solved') throw new Error(answer.kind);
  return answer;
}

async function auditCounts() {
  const book = await reading();
  expect(book.problems).toEqual([]);
  const asked = auditInput(book, 'Hall')!;
  return runToEnd(auditSystem(auditInputOf(asked.system, asked.marks), { near: false })).counts;
}

// The grid of six cylinders: Cylinder, Door, Symbol, A, AA, AA1–3, AB, AB1–3 in D4:L4, C1–C6 in rows 5–10.
const NEWS = {
  M4: 'CL',
  M5: 'x',
  M8: 'x',
  M11: 'x',
  A11: 'C7',
  B11: 'Boiler room',
  D11: '●',
  E11: '●',
  F11: 'x',
};

describe('a system that grows', () => {
  it('takes new columns and rows typed beside and below its grid', async () => {
    const book = await written();
    await put(book, 'Grid', NEWS);
    const read = await extension();
    expect(read.problems).toEqual([]);
    expect(read.newKeys.map((k) => [k.symbol, k.at.address])).toEqual([['CL', 'M4']]);
    expect(read.newCylinders.map((c) => [c.id, c.door, c.at.address])).toEqual([
      ['C7', 'Boiler room', 'A11'],
    ]);
    expect(read.grid.keys.filter((k) => k.bitting)).toHaveLength(9);
    expect(read.grid.cylinders.filter((c) => c.chambers)).toHaveLength(6);
    const marks = read.marks.map((m) => `${m.key} ${m.cylinder}`);
    expect(marks).toEqual(
      expect.arrayContaining(['CL C1', 'CL C4', 'CL C7', 'A C7', 'AA C7', 'AA1 C7', 'AA1 C1']),
    );
    expect(marks).not.toContain('AB1 C7');
  });

  it('keeps what stands, re-pins only what is named, and passes the audit', async () => {
    const book = await written();
    await put(book, 'Grid', NEWS);
    const before = picture(book.model);
    const read = await extension();
    const asFixed = solve(read);
    // C1 and C4 are pinned without the cleaner's key in view: it may be that they have to be opened
    const freed = asFixed.kind === 'solved' ? [] : [...(asFixed.repin?.cylinders ?? [])];
    const answer = solved(asFixed.kind === 'solved' ? asFixed : solve(read, freed));
    const { plan, changes } = planExtension(await reading(), read, answer, MADE);
    expect(plan.conflicts).toEqual([]);
    const oldKeys = [5, 6, 7, 8, 9, 10, 11, 12, 13].map((row) => at(book.model, 'Keys', `E${row}`));
    const undo = await write(plan);
    expect([5, 6, 7, 8, 9, 10, 11, 12, 13].map((row) => at(book.model, 'Keys', `E${row}`))).toEqual(oldKeys);
    expect(at(book.model, 'Keys', 'B14')).toBe('CL');
    expect(at(book.model, 'Cylinders', 'B11')).toBe('C7');
    for (const { at: cell, to } of changes) expect(at(book.model, cell.sheet, cell.address)).toBe(to);
    expect(await auditCounts()).toEqual({});
    expect((await undoPlan(undo)).outcome).toBe('done');
    expect(picture(book.model)).toEqual(before);
  });

  it('is proved impossible as it stands where an existing key is marked for an existing cylinder, which is named', async () => {
    const book = await written();
    // AA2 for the door of AA1
    await put(book, 'Grid', { G5: 'x' });
    const read = await extension();
    const answer = solve(read);
    if (answer.kind !== 'impossible') throw new Error(answer.kind);
    expect(answer.reason).toEqual({ code: 'fixed-lock-out', key: 'AA2', cylinder: 'C1' });
    expect(answer.repin).toEqual({ cylinders: ['C1'], kind: 'proved-smallest', atLeast: 1 });
    const { plan, changes } = planExtension(await reading(), read, solved(solve(read, ['C1'])), MADE);
    expect(changes.length).toBeGreaterThan(0);
    expect(changes.every((c) => c.at.sheet === 'Cylinders' && c.at.address.endsWith('5'))).toBe(true);
    for (const change of changes) expect(at(book.model, 'Cylinders', change.at.address)).toBe(change.from);
    await write(plan);
    expect(await auditCounts()).toEqual({});
  });

  it('never issues a bitting that was retired', async () => {
    const book = await written();
    await put(book, 'Keys', { F13: 'retired' });
    await put(book, 'Grid', { L10: '' });
    const read = await extension();
    expect(read.avoid).toHaveLength(1);
    expect(read.grid.keys.map((k) => k.symbol)).not.toContain('AB3');
  });

  it('avoids a bitting that another system of the spec retired, where the blanks go in both', async () => {
    const book = await written();
    await put(book, 'Grid', NEWS);
    await writeSystem(school());
    const lost = (await reading()).systems
      .find((s) => s.name === 'School')!
      .keys.find((k) => k.symbol === 'AA1')!;
    const status = (await reading()).tables.find((t) => t.name === 'KeyrowKeys')!.headers.indexOf('Status');
    const row = lost.at.row.address.replace(/\D/g, '');
    expect((await extension()).avoid).toEqual([]);
    await put(book, 'Keys', { [`${'ABCDEFGHIJKL'[status]!}${row}`]: 'retired' });
    expect((await extension()).avoid.map(String)).toEqual([String(lost.bitting)]);
  });
});

describe('a system of interchangeable cores that grows', () => {
  it('has room at the control cuts of its new cores, and no new key that pulls one', async () => {
    const spec = starter('T-0125-7');
    const book = openBook();
    const made = runToEnd(
      generateSystem({
        name: 'Hall',
        spec,
        levels: 3,
        grands: evenTree(3, { masters: 2, changeKeys: 3 }),
        order: 'scattered',
        seed: 5,
      }),
    );
    if (!made.ok) throw new Error('does not fit');
    const control = made.system.cylinders[0]!.control!;
    await writeSystem(made);
    // a column or more of control keys stands beside those of the others: the new one goes behind the last
    const headings = Array.from({ length: 26 }, (_, c) => String.fromCharCode(65 + c));
    const last = headings.findIndex((c) => String(at(book.model, 'Grid', `${c}4`) ?? '') === '');
    const column = headings[last]!;
    await put(book, 'Grid', {
      [`${column}4`]: 'CL',
      A11: 'C7',
      D11: 'x',
      E11: 'x',
      [`${column}11`]: 'x',
    });
    const read = await extension();
    expect(read.grid.cylinders.at(-1)).toEqual({ id: 'C7', control });
    const { plan } = planExtension(await reading(), read, solved(solve(read)), MADE);
    await write(plan);
    // by the plain definition: a key turns a core where each cut is among the chamber's depths, and pulls it where
    // each cut is the control key's
    const { system } = auditInput(await reading(), 'Hall')!;
    const core = system.cylinders.find(({ id }) => id === 'C7')!;
    expect(core.control).toEqual(control);
    expect(control.every((cut, i) => ((core.chambers[i]! >>> cut) & 1) === 1)).toBe(false);
    const cleaner = system.keys.find(({ symbol }) => symbol === 'CL')!;
    expect(cleaner.bitting).not.toEqual(control);
    // build-up pin: control cut and addition (10 steps) less the deepest cut, in steps of 0.0125 in, not below one
    core.chambers.forEach((set, i) => {
      const deepest = 31 - Math.clz32(set);
      expect(control[i]! + 10 - deepest).toBeGreaterThanOrEqual(1);
    });
    expect(await auditCounts()).toEqual({});
  });
});

describe('a system that is not extended blind', () => {
  it('has no key bitting array', async () => {
    openBook();
    await writeSystem(school('Hall'));
    const read = readExtension(await reading(), 'Hall');
    expect(read.ok).toBe(false);
    expect(!read.ok && read.error[0]!.sentence).toMatch(
      /^Hall has no key bitting array that can be read\. A system is not extended blind/,
    );
  });

  it('has a key whose bitting can’t be read, or isn’t the array’s', async () => {
    const book = await written();
    const array = String(at(book.model, 'Systems', 'F5')).split(' ');
    const top = String(at(book.model, 'Systems', 'E5'))[0]!;
    const strange = [...'0123456789'].find((d) => d !== top && !array.includes(d))!;
    const rest = String(at(book.model, 'Keys', 'E13')).slice(1);
    await put(book, 'Keys', { E12: '99', E13: strange + rest });
    const read = readExtension(await reading(), 'Hall');
    expect(!read.ok && read.error.map((p) => p.address)).toEqual(['E12', 'E13']);
    expect(!read.ok && read.error[1]!.sentence).toMatch(
      /cut at position 1 that the key bitting array doesn’t hold/,
    );
  });
});
