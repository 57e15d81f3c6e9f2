/** The shop's own tables, and the sample: sheets that are added and nothing else. */
import { describe, expect, it } from 'vitest';
import { planSample, sampleRequest } from '../../src/workbook/planSample.ts';
import { planShop } from '../../src/workbook/planShop.ts';
import { SAMPLE_DOORS } from '../../src/workbook/sampleDoors.ts';
import {
  bookWith,
  EMPTY_BOOK,
  lineOf,
  rowsOf,
  sentences,
  sheetWith,
  standing,
  writesOf,
} from './plainBook.ts';
import { school } from '../workbook/school.ts';

const tablesOf = ({ steps }: ReturnType<typeof planShop>) =>
  steps.flatMap((step) => (step.kind === 'add-table' ? [step.name] : []));

describe('the shop’s tables', () => {
  it('are added empty, each with a line that says what belongs there', () => {
    const plan = planShop(EMPTY_BOOK);
    expect(plan.title).toBe('Add the shop’s tables');
    expect(tablesOf(plan)).toEqual(['KeyrowCutters', 'KeyrowSetups', 'KeyrowBlanks', 'KeyrowPins']);
    expect(lineOf(plan, 'Setups', 0)).toEqual(['Set-ups']);
    for (const sheet of ['Cutters', 'Setups', 'Blanks', 'Pins'])
      expect(lineOf(plan, sheet, 1).join()).toMatch(/^One row a /);
    expect(plan.effects.map(({ rows }) => rows)).toEqual([0, 0, 0, 0]);
    for (const step of plan.steps) if (step.kind === 'layout') expect(step.layout.freeze.columns).toBe(1);
  });

  it('are added where they are lacking, and only those that are wanted', () => {
    const book = bookWith(standing('KeyrowPins', 'Pins', [['Pin'], ['red']]));
    expect(tablesOf(planShop(book))).toEqual(['KeyrowCutters', 'KeyrowSetups', 'KeyrowBlanks']);
    expect(tablesOf(planShop(book, ['Pins', 'Blanks']))).toEqual(['KeyrowBlanks']);
  });

  it('leave the shop its own sheet of such a name', () => {
    const book = bookWith({ sheet: sheetWith('Pins', []) });
    expect(planShop(book, ['Pins']).steps[0]).toEqual({ kind: 'add-sheet', sheet: 'Shop pins' });
  });
});

describe('the sample', () => {
  const sample = () => planSample(EMPTY_BOOK, school(), { made: '24 Nov 2026' });

  it('asks for a key set for every door of its list, doors of one set keyed alike', () => {
    const { grands, levels, name, seed } = sampleRequest();
    expect([name, levels, seed, grands.length]).toEqual(['Sample hall', 3, 3, 1]);
    const masters = grands[0]!.masters;
    expect(masters.map(({ symbol, changeKeys, spares }) => [symbol, changeKeys, spares])).toEqual([
      ['AA', 10, 2],
      ['AB', 6, 2],
    ]);
    const sets = masters.flatMap(({ symbol, doors }) => (doors as string[][]).map((list, i) => [`${symbol}${i + 1}`, list])); // prettier-ignore
    for (const [set, doors] of sets)
      expect(doors, String(set)).toEqual(SAMPLE_DOORS.filter(([, , s]) => s === set).map(([door]) => door));
  });

  it('is a list of doors and one of codes, all of it text', () => {
    const plan = sample();
    expect(plan).toMatchObject({ title: 'Fill in sample data', conflicts: [] });
    const [doors, codes] = writesOf(plan);
    expect(doors).toMatchObject({ sheet: 'Sample doors', row: 0, column: 0, expected: 'empty' });
    expect(doors!.cells).toHaveLength(19);
    expect(doors!.cells[0]).toEqual(['Door', 'Room', 'Key set', 'Hand', 'Remarks']);
    expect(doors!.formats).toEqual(['text', 'text', 'text', 'text', 'text']);
    expect(codes!.cells).toHaveLength(9);
    expect(codes!.cells[0]).toEqual(['Mark', 'Code', 'Where']);
    const layouts = plan.steps.flatMap((step) => (step.kind === 'layout' ? [step.layout] : []));
    expect(layouts.slice(0, 2)).toEqual([
      { printArea: 'A:E', titleRows: '1:1', landscape: false, freeze: { rows: 1, columns: 1 }, widths: [8, 24, 10, 8, 24] },
      { printArea: 'A:C', titleRows: '1:1', landscape: false, freeze: { rows: 1, columns: 1 }, widths: [8, 12, 24] },
    ]); // prettier-ignore
    expect(plan.effects.slice(0, 2)).toEqual([
      { kind: 'sheet', sheet: 'Sample doors', rows: 18, what: 'new sheet' },
      { kind: 'sheet', sheet: 'Sample codes', rows: 8, what: 'new sheet' },
    ]);
    expect(plan.effects.slice(2).map(({ sheet }) => sheet)).toEqual(['Specs', 'Systems', 'Keys', 'Cylinders', 'Grid']); // prettier-ignore
    expect(plan.steps.slice(0, 2).map(({ kind }) => kind)).toEqual(['add-sheet', 'write']);
    expect(plan.steps[3]).toEqual({ kind: 'add-sheet', sheet: 'Sample codes' });
  });

  it('has the system with three copies of each change key and two of a master', () => {
    const plan = sample();
    expect(rowsOf(plan, 'Keys').map((row) => row[8])).toEqual([2, 2, 2, 3, 3, 3, 3]);
    expect(rowsOf(plan, 'Systems')[0]!.at(-1)).toBe('Invented data for trying things');
    expect(rowsOf(plan, 'Systems')[0]![14]).toBe(3);
    expect(lineOf(plan, 'Keys', 1).join()).toContain('Written 24 Nov 2026');
    const made = school();
    const cylinders = made.system.cylinders.map((c, i) => (i === 0 ? { ...c, id: '01' } : c));
    const named = planSample(EMPTY_BOOK, { ...made, system: { ...made.system, cylinders } }, { made: 'x' });
    expect(rowsOf(named, 'Cylinders').map((row) => row[3])).toEqual(['Main entrance', '', '', '']);
  });

  it('is barred by what bars its system', () => {
    const barred = planSample({ ...EMPTY_BOOK, structureProtected: true }, school(), { made: 'x' });
    expect(barred.steps).toEqual([]);
    expect(sentences(barred)).toHaveLength(1);
  });
});
