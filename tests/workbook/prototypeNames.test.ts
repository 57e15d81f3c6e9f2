/**
 * Names that every object of the language has, as texts of the sheet: headings, keysets, doors, specs, sheets, and what
 * the workbook's settings hold. They are words like others, and no object gains a property by them.
 */
import '../functions/office.ts';
import { afterEach, describe, expect, it } from 'vitest';
import { FUNCTIONS as F } from '../../functions/functions.ts';
import { auditSystem } from '../../src/keying/audit.ts';
import { compareAudits, noteAudit } from '../../src/keying/auditNotes.ts';
import { auditInputOf } from '../../src/keying/intended.ts';
import { checkSchedule } from '../../src/keying/scheduleCheck.ts';
import { scheduleTotals } from '../../src/keying/scheduleTotals.ts';
import { sayScheduleFinding } from '../../src/keying/scheduleWording.ts';
import { readSpecTable, SPEC_COLUMNS, specTableRow } from '../../src/keying/specTable.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { parseSettings } from '../../src/workbook/settings.ts';
import {
  againstOf,
  applyPlan,
  auditInput,
  planCustomerReport,
  planFindings,
  planSpecs,
  readSchedule,
  readSettings,
  undoPlan,
  writeSettings,
} from '../../src/workbook/index.ts';
import { openBook } from '../support/office.ts';
import { MADE, reading, undoOf, write, writeSystem } from './book.ts';
import { deepPicture, sameAs } from './deepPicture.ts';
import { fullBook, PLAIN, SCHEDULE_ROWS, WRITE_PATHS } from './paths.ts';
import { school, SPEC } from './school.ts';

const NAMES = ['__proto__', 'constructor', 'toString', 'hasOwnProperty', 'valueOf', 'prototype'];
const OWN = Object.getOwnPropertyNames(Object.prototype).sort();

afterEach(() => {
  expect(Object.getOwnPropertyNames(Object.prototype).sort()).toEqual(OWN);
  expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
});

describe.each(NAMES)('%s in a schedule', (name) => {
  it('is a heading of the shop’s own, and a door, a room and a keyset as they stand', async () => {
    const { host } = openBook();
    host.userEdit('Sheet1', 'A1', [
      ['Door', name, 'Room', 'Keyset', 'Qty', 'Handing', 'Type'],
      [name, 'x', name, name, 1, name, name],
      ["'0102", name, 'Office', 'AA1', 1, 'LH', name],
      [`${name} 2`, '', name, ` ${name.toUpperCase()} (${name})`, 2, '', ''],
    ]);
    await writeSystem(school());
    const read = await readSchedule('Sheet1');
    if (!read.ok) throw new Error(read.error.sentence);
    expect(read.value.guess.headers).toContain(name);
    expect(Object.values(read.value.guess.columns)).not.toContain(1);
    const [line] = read.value.schedule.lines;
    expect(line).toMatchObject({ door: name, symbol: name, text: { location: name } });
    const against = againstOf(await reading(), 'School');
    const findings = checkSchedule(read.value.schedule, against);
    expect(findings.some((f) => 'row' in f && f.row === 1)).toBe(true);
    for (const finding of findings)
      expect(sayScheduleFinding(finding)).not.toMatch(/native code|\[object|undefined/);
    const totals = scheduleTotals(read.value.schedule.lines, against.keys);
    expect(JSON.stringify(totals)).toContain(`"${name}"`);
    expect(JSON.stringify(totals)).not.toContain('native code');
    const report = { system: 'School', made: '2026-03-14', revision: 'A', schedule: read.value };
    const before = await reading();
    const undo = await write(planCustomerReport(before, report).plan);
    expect((await undoPlan(undo)).outcome).toBe('done');
  });
});

describe.each(NAMES)('%s on our sheets', (name) => {
  it('is a key, a door and a spec like any other', async () => {
    const { host } = openBook();
    const made = school();
    const named = (symbol: string): string => (symbol === 'AA1' ? name : symbol);
    const spec = { ...SPEC, name };
    await writeSystem({
      ...made,
      system: {
        ...made.system,
        spec,
        keys: made.system.keys.map((key) => ({ ...key, symbol: named(key.symbol) })),
        cylinders: made.system.cylinders.map((c) => ({
          ...c,
          symbol: named(c.symbol),
          id: c.id === 'C1' ? name : c.id,
          door: name,
        })),
      },
      marks: made.marks.map((mark) => ({
        key: named(mark.key),
        cylinder: mark.cylinder === 'C1' ? name : mark.cylinder,
      })),
      keyway: name,
    });
    const book = await reading();
    expect(book.problems).toEqual([]);
    expect(book.specs.map((one) => one.name)).toEqual([name]);
    const [system] = book.systems;
    expect(system).toMatchObject({ specName: name, keyway: name });
    expect(system!.grid!.keys.has(name)).toBe(true);
    expect(system!.grid!.marks.filter((mark) => mark.key === name && mark.cylinder === name)).toHaveLength(1);
    const asked = auditInput(book, 'School')!;
    const report = runToEnd(auditSystem(auditInputOf(asked.system, asked.marks), { near: true }));
    expect(report.counts).toEqual({});
    const notes = noteAudit(asked.system, report, { codes: new Set(), cuts: new Set() } as never);
    expect(compareAudits(notes, notes, report).keys).toEqual({ added: [], gone: [], changed: [] });
    await write(planFindings(book, { made: '2026-03-14', audits: [] }));
    host.userEdit('Grid', 'A1', name);
    expect((await reading()).systems[0]!.keys.map((key) => key.symbol)).toContain(name);
  });

  it('is found as a spec by the worksheet functions, and only where it stands', async () => {
    openBook();
    const spec = { ...SPEC, name };
    await write(planSpecs(await reading(), [spec], MADE));
    expect((await reading()).specs.map((one) => one.name)).toEqual([name]);
    const rows = [[...SPEC_COLUMNS], specTableRow(spec)] as (string | number)[][];
    expect([...readSpecTable(rows).specs.values()].map((one) => one.name)).toEqual([name]);
    expect(F.WHY('354635', name, rows)).toBe(F.WHY('354635', 'S-018-6', undefined as never));
    expect(() => F.WHY('354635', name, undefined as never)).toThrow(/no spec/i);
  });

  it('is a sheet of the shop’s', async () => {
    const lay: Parameters<typeof fullBook>[0] = (book) => {
      book.host.userEdit('Sheet1', 'A1', 'x');
      for (const sheet of [name, `${name}2`]) book.model.addSheet(sheet, 'user');
      book.host.userEdit(name, 'A1', SCHEDULE_ROWS);
      book.host.userEdit(`${name}2`, 'A1', [
        ['Door', 'Code'],
        ["'0101", "'354635"],
        ["'0102", "'554635"],
      ]);
      return shop;
    };
    const shop = { schedule: name, codes: { ...PLAIN.codes, sheet: `${name}2` } };
    const book = await fullBook(lay);
    const before = deepPicture(book.model);
    for (const [path, make] of WRITE_PATHS) {
      const plan = await make(await reading(), shop);
      expect(plan.conflicts, path).toEqual([]);
      const undo = undoOf(await applyPlan(plan));
      expect((await undoPlan(undo)).outcome, path).toBe('done');
      expect(sameAs(before, deepPicture(book.model)), path).toBeUndefined();
    }
  }, 120_000);
});

describe('what the settings hold', () => {
  it.each([
    '{"__proto__":{"polluted":true},"constructor":{"prototype":{"polluted":true}}}',
    '{"spec":{"__proto__":{"polluted":true}},"unit":"constructor","folded":["__proto__","toString"]}',
    '{"schedule":{"sheet":"__proto__","columns":{"__proto__":{"polluted":true},"headerRow":0,"door":0,"symbol":1},"headings":{"__proto__":"x","door":"constructor"}}}',
    '{"lastAudits":[{"system":"__proto__","made":"toString","keys":1,"cylinders":1,"withheld":0,"counts":{"__proto__":3,"constructor":4,"toString":5}}]}',
    '[{"__proto__":{"polluted":true}}]',
    '"__proto__"',
    'null',
    '{"__proto__":null}',
    `{"audits":${'['.repeat(5_000)}${']'.repeat(5_000)}}`,
  ])('is read as far as it goes: %s', async (text) => {
    const book = openBook();
    const read = parseSettings(text);
    expect(Object.getPrototypeOf(read)).toBe(Object.prototype);
    expect((read as Record<string, unknown>)['polluted']).toBeUndefined();
    book.model.setSetting('Keyrow', JSON.stringify(text), 'user');
    expect(await readSettings()).toEqual(read);
    expect(await writeSettings(read)).toBe(true);
    expect(await readSettings()).toEqual(read);
  });

  it.each(NAMES)('keeps %s as the name of a spec, a sheet and a system', async (name) => {
    openBook();
    const kept = {
      spec: name,
      folded: [name],
      audits: [{ system: name, made: name, faults: 1, warnings: 2 }],
      schedule: {
        sheet: name,
        columns: { headerRow: 3, door: 0, symbol: 2 },
        headings: { door: name, symbol: name },
      },
    };
    expect(await writeSettings(kept)).toBe(true);
    expect(await readSettings()).toEqual(kept);
  });

  it('counts no finding by a name that every object has', () => {
    const [before] = parseSettings(
      '{"lastAudits":[{"system":"A","made":"B","keys":1,"cylinders":1,"withheld":0,"counts":{"constructor":4,"toString":5,"lock-out":2}}]}',
    ).lastAudits!;
    const now = { keys: 1, cylinders: 1, counts: { interchange: 1 }, withheld: 0 };
    expect(compareAudits(before!, now, { findings: [] }).counts).toEqual([
      { code: 'constructor', before: 4, now: 0 },
      { code: 'toString', before: 5, now: 0 },
      { code: 'lock-out', before: 2, now: 0 },
      { code: 'interchange', before: 0, now: 1 },
    ]);
  });
});
