/** Plans carried out through the real front half of Excel's API, against the stand-in host. */
import { describe, expect, it } from 'vitest';
import { auditSystem } from '../../src/keying/audit.ts';
import { auditInputOf } from '../../src/keying/intended.ts';
import { runToEnd } from '../../src/keying/system.ts';
import {
  applyPlan,
  auditInput,
  placesOf,
  planFindings,
  planNewSystem,
  planPinning,
  planSpecs,
  undoPlan,
  type SystemAudit,
} from '../../src/workbook/index.ts';
import { openBook } from '../support/office.ts';
import { at, MADE, picture, reading, undoOf, write, writeSystem } from './book.ts';
import { large, school, SPEC, starter } from './school.ts';

function audit(asked: SystemAudit | undefined) {
  if (!asked) throw new Error('nothing to audit');
  return runToEnd(auditSystem(auditInputOf(asked.system, asked.marks)));
}

describe('a system written and read back', () => {
  it('is the same system', async () => {
    openBook();
    await writeSystem(school());
    const book = await reading();
    expect(book.problems).toEqual([]);
    expect(book.summary).toEqual({
      specs: 1,
      systems: 1,
      keys: 7,
      cylinders: 4,
      marks: 12,
      faults: 0,
      warnings: 0,
    });
    const asked = auditInput(book, 'School');
    expect(asked?.system).toEqual(school().system);
    expect(new Set(asked?.marks)).toEqual(new Set(school().marks));
  });

  it('passes the audit that it passed before', async () => {
    openBook();
    await writeSystem(school());
    expect(audit(auditInput(await reading(), 'School')).counts).toEqual({});
  });

  it('keeps codes as text, the zero at the front of a door included', async () => {
    const { model } = openBook();
    await writeSystem(school());
    expect(at(model, 'Keys', 'E5')).toBe('354635');
    expect(at(model, 'Cylinders', 'C5')).toBe('0101');
    expect(model.cell('Keys', 4, 4)?.style?.numberFormat).toBe('@');
  });

  it('can be read by somebody without the pane', async () => {
    const { model } = openBook();
    await writeSystem(school());
    expect(at(model, 'Keys', 'A1')).toBe('Keys');
    expect(at(model, 'Keys', 'A2')).toContain('24 Nov 2026');
    const layout = model.sheet('Keys').layout;
    expect(layout.page).toMatchObject({ orientation: 'landscape' });
    expect(JSON.stringify(layout.page)).toContain('"titleRows":{"start":3,"count":1}');
    expect(model.table('KeyrowKeys').showFilterButton).toBe(true);
  });
});

describe('a second system', () => {
  it('goes below the first in the same tables, with a grid of its own', async () => {
    const { model } = openBook();
    await writeSystem(school());
    await writeSystem(school('Annex'));
    expect(model.table('KeyrowKeys').area.rows).toBe(1 + 14);
    expect(model.sheets.map((s) => s.layout.name)).toEqual([
      'Sheet1',
      'Specs',
      'Systems',
      'Keys',
      'Cylinders',
      'Grid',
      'Grid Annex',
    ]);
    const book = await reading();
    expect(book.systems.map((s) => [s.name, s.keys.length, s.grid?.marks.length])).toEqual([
      ['School', 7, 12],
      ['Annex', 7, 12],
    ]);
  });

  it('is taken back alone', async () => {
    const { model } = openBook();
    await writeSystem(school());
    const before = picture(model);
    const undo = await writeSystem(school('Annex'));
    expect(picture(model)).not.toEqual(before);
    expect(await undoPlan(undo)).toMatchObject({
      outcome: 'done',
      sentence: 'Taken back: Make the system Annex.',
    });
    expect(picture(model)).toEqual(before);
  });

  it('of the same name is refused, and so are rows of its name without a system', async () => {
    const { model } = openBook();
    await writeSystem(school());
    const again = planNewSystem(await reading(), school('SCHOOL'), MADE);
    expect(again.conflicts.map((c) => c.at)).toEqual([{ sheet: 'Systems', address: 'A5' }]);
    model.deleteTableRows('KeyrowSystems', 0, 1, 'user');
    const stray = planNewSystem(await reading(), school(), MADE);
    expect(stray.conflicts[0]?.sentence).toContain('has rows of a system School already');
  });

  it('finds its columns where the shop has moved them, and leaves the shop’s own alone', async () => {
    const { model, host } = openBook();
    await writeSystem(school());
    model.addTableColumn('KeyrowKeys', 1, 'Hook', 'user');
    host.userEdit('Keys', 'B5', 'h1');
    await writeSystem(school('Annex'));
    expect(at(model, 'Keys', 'B5')).toBe('h1');
    expect(at(model, 'Keys', 'B12')).toBeNull();
    expect(at(model, 'Keys', 'C12')).toBe('A');
    expect(at(model, 'Keys', 'F12')).toBe(at(model, 'Keys', 'F5'));
    expect((await reading()).problems).toEqual([]);
  });
});

describe('our tables on sheets that were renamed', () => {
  it('are found by their names', async () => {
    const { model } = openBook();
    await writeSystem(school());
    model.renameSheet('Keys', 'Schlüssel der Schule', 'user');
    const book = await reading();
    expect(book.summary.keys).toBe(7);
    expect(book.systems[0]?.keys[0]?.at.bitting).toEqual({ sheet: 'Schlüssel der Schule', address: 'E5' });
    const undo = undoOf(await applyPlan(planNewSystem(book, school('Annex'), MADE)));
    expect(model.table('KeyrowKeys').area.rows).toBe(15);
    expect((await undoPlan(undo)).outcome).toBe('done');
  });
});

describe('a bitting typed over by hand', () => {
  it('is found by the audit, at its cells', async () => {
    const { host } = openBook();
    await writeSystem(school());
    // AA2 gets AA1's bitting: each then opens the other's cylinder or fails at its own
    host.userEdit('Keys', 'E9', '536453');
    const book = await reading();
    expect(book.problems).toEqual([]);
    const report = audit(auditInput(book, 'School'));
    expect(report.counts).toMatchObject({ interchange: 1, 'lock-out': 1, 'same-bitting': 1 });
    const lockOut = report.findings.find((f) => f.code === 'lock-out');
    expect(lockOut).toMatchObject({ key: 'AA2', cylinder: 'C2', chamber: 6 });
    expect(placesOf(book.systems[0]!, lockOut!)).toEqual([
      { sheet: 'Grid', address: 'H6' },
      { sheet: 'Keys', address: 'E9' },
      { sheet: 'Cylinders', address: 'L6' },
    ]);
  });

  it('is reported where it became a number, and not repaired', async () => {
    const { host, model } = openBook();
    await writeSystem(school());
    model.style('Keys', { row: 4, column: 4, rows: 1, columns: 1 }, { numberFormat: 'General' }, 'user');
    host.userEdit('Keys', 'E5', '054635');
    expect(at(model, 'Keys', 'E5')).toBe(54635);
    const book = await reading();
    expect(book.problems.map(({ address, severity }) => [address, severity])).toEqual([
      ['E5', 'warning'],
      ['E5', 'fault'],
    ]);
    expect(book.problems[1]?.sentence).toContain('054635');
    expect(book.systems[0]?.keys[0]?.record).toBeUndefined();
    expect(auditInput(book, 'School')?.leftOut).toEqual({ keys: ['A'], cylinders: [] });
  });

  it.each([
    ['Keys', 'C6', 'boss', 'none of CK, MK'],
    ['Keys', 'E6', '5546', '4 digits'],
    ['Keys', 'A6', 'Elsewhere', 'no system “Elsewhere”'],
    ['Keys', 'B7', 'AA', 'another key “AA”'],
    ['Cylinders', 'G5', '', ''],
    ['Cylinders', 'H5', '35', 'space'],
    ['Cylinders', 'N5', '3', '6 chambers'],
    ['Cylinders', 'B6', 'C1', 'another cylinder “C1”'],
    ['Grid', 'D5', 'perhaps', 'no mark'],
    ['Systems', 'B5', 'Lost', 'no sound spec'],
    ['Specs', 'M5', 'many', ''],
  ])('in %s!%s as %j is a problem of that cell', async (sheet, address, typed, words) => {
    const { host } = openBook();
    await writeSystem(school());
    host.userEdit(sheet, address, typed);
    const { problems } = await reading();
    const found = problems.filter((p) => p.sheet === sheet && p.address === address);
    expect(found).toHaveLength(1);
    expect(found[0]?.sentence).toContain(words);
    expect(found[0]?.sentence).toMatch(/^[A-Z“].*\.$/u);
  });

  it('under a lost heading is reported once, not row by row', async () => {
    const { host } = openBook();
    await writeSystem(school());
    host.userEdit('Keys', 'E4', 'Codes');
    const { problems, summary } = await reading();
    expect(summary.keys).toBe(0);
    expect(problems.map((p) => p.sentence)).toEqual([
      'The table KeyrowKeys has no column “Bitting”. Add it, or give the renamed column its name back.',
      // every mark in the grid is then for a key that isn't there
      ...Array.from({ length: 7 }, () => expect.stringContaining('The system has no key')),
    ]);
  });
});

describe('findings', () => {
  async function faulty() {
    const opened = openBook();
    await writeSystem(school());
    opened.host.userEdit('Keys', 'E9', '536453');
    const book = await reading();
    const { findings } = audit(auditInput(book, 'School'));
    return { ...opened, book, findings };
  }
  const input = (findings: ReturnType<typeof audit>['findings']) => ({
    made: '24 Nov 2026',
    audits: [{ system: 'School', findings }],
  });

  it('link to the cell where they are', async () => {
    const { model, book, findings } = await faulty();
    await write(planFindings(book, input(findings)));
    const rows = [5, 6, 7].map((row) => [at(model, 'Findings', `A${row}`), at(model, 'Findings', `B${row}`)]);
    expect(rows).toContainEqual(['Fault', 'Lock-out']);
    const cells = [4, 5, 6].map((row) => model.cell('Findings', row, 2)?.formula);
    expect(cells).toContain(`=HYPERLINK("#'Grid'!H6","Grid!H6")`);
  });

  it('of a new audit take the place of the old ones', async () => {
    const { model, host, book, findings } = await faulty();
    await write(planFindings(book, input(findings)));
    expect(model.table('KeyrowFindings').area.rows).toBe(1 + findings.length);
    const before = picture(model);
    host.userEdit('Keys', 'E9', '536457');
    const now = await reading();
    const undo = await write(planFindings(now, input(audit(auditInput(now, 'School')).findings)));
    expect(model.table('KeyrowFindings').area.rows).toBe(2);
    expect(at(model, 'Findings', 'B5')).toBe('Nothing found');
    expect(at(model, 'Findings', 'B6')).toBeNull();
    expect((await undoPlan(undo)).outcome).toBe('done');
    host.userEdit('Keys', 'E9', '536453');
    expect(picture(model)).toEqual(before);
  });

  it('of an audit that was stopped are marked as a part, and nothing is called clear', async () => {
    const { model } = openBook();
    await writeSystem(school());
    const part = 'Stopped after 2 of 9 cylinders; nothing is said of the rest.';
    const audits = [{ system: 'School', findings: [], part }];
    await write(planFindings(await reading(), { made: '24 Nov 2026', audits }));
    expect(at(model, 'Findings', 'A2')).toContain(`PARTIAL. School: ${part}`);
    expect(at(model, 'Findings', 'B5')).toBe('Audit not finished');
    expect(at(model, 'Findings', 'G5')).toBe(`School: ${part}`);
  });

  it('never push the shop’s own notes beside other findings', async () => {
    const { model, host, book, findings } = await faulty();
    await write(planFindings(book, input(findings)));
    model.addTableColumn('KeyrowFindings', null, 'Done by', 'user');
    host.userEdit('Findings', 'H5', 'Jo');
    const plan = planFindings(await reading(), input([]));
    expect(plan.conflicts).toMatchObject([{ at: { sheet: 'Findings', address: 'H5' }, holds: 'Jo' }]);
  });

  it('hold what could not be read as well', async () => {
    const { model, host } = openBook();
    await writeSystem(school());
    host.userEdit('Keys', 'E6', 'lost');
    await write(planFindings(await reading(), input([])));
    expect(at(model, 'Findings', 'B5')).toBe('Cell can’t be read');
    expect(model.cell('Findings', 4, 2)?.formula).toBe(`=HYPERLINK("#'Keys'!E6","Keys!E6")`);
  });
});

describe('the pinning sheet', () => {
  it('has a row a chamber, with steps and lengths', async () => {
    const { model } = openBook();
    await writeSystem(school());
    await write(planPinning(await reading(), { made: '24 Nov 2026', system: 'School', cylinders: ['C1'] }));
    expect(model.table('KeyrowPinning').area.rows).toBe(1 + 6);
    // C1 is keyed to AA1 = 5 3 6 4 5 3 under A = 3 5 4 6 3 5: chamber 1 holds depths 3 and 5, so one master of 2
    expect(['A', 'D', 'E', 'F', 'H'].map((c) => at(model, 'Pinning', `${c}5`))).toEqual([
      'C1',
      1,
      '3 5',
      3,
      '2',
    ]);
    // two steps of 0.018 in
    expect(at(model, 'Pinning', 'I5')).toBe('0.036');
  });

  it('of a cylinder that can’t be read is refused', async () => {
    const { host } = openBook();
    await writeSystem(school());
    host.userEdit('Cylinders', 'H5', '99');
    const plan = planPinning(await reading(), { made: '', system: 'School' });
    expect(plan.conflicts).toMatchObject([{ at: { sheet: 'Cylinders', address: 'B5' } }]);
  });
});

describe('specs', () => {
  it('come back as they were, all starters at once', async () => {
    openBook();
    const specs = [SPEC, starter('S-025-5'), starter('M-050-5'), starter('T-018-7')];
    await write(planSpecs(await reading(), specs, MADE));
    expect((await reading()).specs.map((s) => s.spec)).toEqual(specs);
  });
});

describe('a workbook of 5,000 keys and cylinders', () => {
  it('is written and read back whole', async () => {
    openBook();
    await writeSystem(large(5000));
    const book = await reading();
    expect(book.summary).toMatchObject({ keys: 5000, cylinders: 5000, faults: 0 });
    const asked = auditInput(book, 'Large');
    expect(asked?.marks).toHaveLength(5000);
    expect(asked?.system.keys[4999]).toEqual(large(5000).system.keys[4999]);
  }, 60_000);
});
