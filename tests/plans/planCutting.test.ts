/**
 * The cutting sheet as a plan, by the spec of the school: root depths 0.315 in less 0.018 in a step, cuts 0.156 in
 * apart from 0.237 in on. All worked out by hand.
 */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../src/keying/bitting.ts';
import type { CuttingLine } from '../../src/keying/cutting.ts';
import { inches } from '../../src/keying/units.ts';
import { planCutting, PROVE_FIRST, type CuttingInput } from '../../src/workbook/planCutting.ts';
import { EMPTY_BOOK, lineOf, rowsOf, sentences, writesOf } from './plainBook.ts';
import { SPEC } from '../workbook/school.ts';

const LINE: CuttingLine = {
  marks: ['AA1', 'AA2'],
  originals: ['2-7-4-1-5-3', '274153'],
  bitting: bittingOf(SPEC, [2, 7, 4, 1, 5, 3]),
  blank: 'B1',
  keys: 5,
  remarks: ['First.', 'Second.'],
  rows: [0, 1],
};
const uncut: CuttingLine = {
  marks: ['X'],
  originals: ['KX'],
  blank: '',
  keys: 2,
  remarks: ['NOT CUT.'],
  rows: [2],
};
const planned = (
  lines: readonly CuttingLine[] = [LINE],
  more: Partial<CuttingInput> = {},
  book = EMPTY_BOOK,
) => planCutting(book, { made: '24 Nov 2026', spec: SPEC, lines, ...more });
const bench = (lines: readonly CuttingLine[] = [LINE], more: Partial<CuttingInput> = {}): string =>
  String(lineOf(planned(lines, more), 'Cutting', 2)[0]);
const head = (lines: readonly CuttingLine[]): string => String(lineOf(planned(lines), 'Cutting', 1)[0]);
const READ = ['', '', '', '', '', ''];
const JUDGE =
  '=KEYROW.JUDGE(KeyrowCutting[@[Read 1]:[Read 6]],KeyrowCutting[@Bitting],"S-018-6",KeyrowSpecs[#All])';

describe('a cutting sheet', () => {
  it('has a row a bitting, with root depths and how many are duplicated', () => {
    const plan = planned();
    expect(plan).toMatchObject({ title: 'Write the cutting sheet', conflicts: [] });
    expect(lineOf(plan, 'Cutting', 0)).toEqual(['Cutting sheet']);
    expect(lineOf(plan, 'Cutting', 3)).toEqual([
      'Mark', 'As it came', 'Bitting', 'Blank',
      'Cut 1 at 0.237 in', 'Cut 2 at 0.393 in', 'Cut 3 at 0.549 in', 'Cut 4 at 0.705 in', 'Cut 5 at 0.861 in', 'Cut 6 at 1.017 in',
      'Keys', 'Duplicates', 'First article', 'Note',
      'Read 1', 'Read 2', 'Read 3', 'Read 4', 'Read 5', 'Read 6', 'Judged',
    ]); // prettier-ignore
    expect(rowsOf(plan, 'Cutting')).toEqual([
      [
        'AA1, AA2', '2-7-4-1-5-3, 274153', '274153', 'B1', 0.279, 0.189, 0.243, 0.297, 0.225, 0.261,
        5, 4, '', 'First. Second.', ...READ, JUDGE,
      ],
    ]); // prettier-ignore
  });

  it('writes no cut and no duplicate of what can’t be cut, or of a number that isn’t known', () => {
    const unknown = { ...LINE, keys: undefined };
    const none = { ...LINE, keys: 0 };
    expect(rowsOf(planned([uncut, unknown, none]), 'Cutting').map((row) => row.slice(2, 14))).toEqual([
      ['', '', ...READ, 2, '', '', 'NOT CUT.'],
      ['274153', 'B1', 0.279, 0.189, 0.243, 0.297, 0.225, 0.261, '', '', '', 'First. Second.'],
      ['274153', 'B1', 0.279, 0.189, 0.243, 0.297, 0.225, 0.261, 0, 0, '', 'First. Second.'],
    ]);
  });

  it('counts originals and duplicates above, and what is left uncut', () => {
    const one = { ...LINE, keys: 2 };
    expect(head([one])).toBe(
      `1 original and 1 duplicate. Written 24 Nov 2026. SECRET: whoever has a bitting can cut the key. ${PROVE_FIRST}`,
    );
    expect(head([LINE, one])).toMatch(/^2 originals and 5 duplicates\. /);
    expect(head([LINE, uncut])).toMatch(/^1 original and 4 duplicates; 1 row not cut, see Note\. /);
    // a number that isn't known counts as one key
    expect(head([{ ...LINE, keys: undefined }, uncut, uncut])).toMatch(
      /^1 original and 0 duplicates; 2 rows not cut, see Note\. /,
    );
    expect(head([{ ...LINE, keys: 0 }])).toMatch(/^1 original and 0 duplicates\. /);
  });

  it('is laid out for the machine: digits large, what is typed afterwards not printed', () => {
    const layout = planned().steps.flatMap((step) =>
      step.kind === 'layout' && step.sheet === 'Cutting' ? [step.layout] : [],
    )[0]!;
    const columns = (boxes: typeof layout.large) => boxes!.map(({ column }) => column);
    expect(columns(layout.large)).toEqual([2, 4, 5, 6, 7, 8, 9]);
    expect(columns(layout.centred)).toEqual([4, 5, 6, 7, 8, 9, 10, 11]);
    expect(columns(layout.wrapped)).toEqual([0, 0, 1, 20, 13]);
    expect(layout.choices).toEqual([
      { box: { sheet: 'Cutting', row: 4, column: 12, rows: 1, columns: 1 }, from: ['✓ good', '✗ recut', 'proved in the lock'] },
    ]); // prettier-ignore
    expect(layout).toMatchObject({ printArea: 'A:N', freeze: { columns: 1 } });
    expect(writesOf(planned(), 'Cutting').find(({ row }) => row === 4)!.formats).toEqual([
      'text', 'text', 'text', 'text', 'inches', 'inches', 'inches', 'inches', 'inches', 'inches',
      'general', 'general', 'text', 'text', 'inches', 'inches', 'inches', 'inches', 'inches', 'inches',
    ]); // prettier-ignore
  });

  it('is a sheet of its own for every list', () => {
    const sheet = { name: 'Cutting', visible: true, protected: false };
    const plan = planned([LINE], {}, { ...EMPTY_BOOK, sheets: [sheet], tableNames: ['KeyrowCutting'] });
    expect(plan.steps).toContainEqual({ kind: 'add-sheet', sheet: 'Cutting 2' });
    expect(lineOf(plan, 'Cutting 2', 0)).toEqual(['Cutting sheet 2']);
    expect(rowsOf(plan, 'Cutting 2')[0]!.at(-1)).toContain('KeyrowCutting2[@Bitting]');
    const tableNames = ['KeyrowCutting', ...[2, 3, 4, 5, 6, 7, 8, 9, 10, 11].map((n) => `KeyrowCutting${n}`)];
    const twelfth = planned([LINE], {}, { ...EMPTY_BOOK, sheets: [sheet], tableNames });
    expect(twelfth.steps).toContainEqual({ kind: 'add-sheet', sheet: 'Cutting 12' });
    // a sheet of the shop's own of that name is no list
    const own = planned([LINE], {}, { ...EMPTY_BOOK, sheets: [sheet] });
    expect(own.steps).toContainEqual({ kind: 'add-sheet', sheet: 'Cutting (Keyrow)' });
  });

  it('stands in the unit asked for, the readings too', () => {
    const plan = planned([LINE], { unit: 'mm' });
    // 0.237 and 0.279 in times 25.4
    expect(lineOf(plan, 'Cutting', 3)[4]).toBe('Cut 1 at 6.02 mm');
    expect(rowsOf(plan, 'Cutting')[0]![4]).toBe(7.0866);
    expect(rowsOf(plan, 'Cutting')[0]!.at(-1)).toBe(JUDGE.replace(/\)$/, ',"mm")'));
    expect(rowsOf(planned([LINE], { unit: 'in' }), 'Cutting')[0]!.at(-1)).toBe(JUDGE);
    // the spec goes into its sheet as it is
    expect(rowsOf(plan, 'Specs')[0]![2]).toBe('in');
  });

  it('needs a list', () => {
    expect(sentences(planned([]))).toEqual([
      'The list has no row with anything in it, so there is nothing to cut.',
    ]);
  });
});

describe('the line for the machine', () => {
  const spec =
    'Spec S-018-6: cuts measured from the shoulder, code read bow to tip, root depths and readings in inches, tolerance ±0.002 in.';

  it('says the spec, and its own cutter where no other is named', () => {
    expect(bench()).toBe(`${spec} Cutter the spec’s own, flat 0.054 in, 90°: one pass.`);
  });

  it('says what another cutter does', () => {
    // 0.054 − 0.035 in two passes: half of 0.019 to either side
    const narrow = { name: 'Narrow', flat: inches(0.035), angle: 90 };
    expect(bench([LINE], { cutter: narrow })).toBe(
      `${spec} Cutter Narrow, flat 0.035 in, 90°: 2 passes at -0.0095 and 0.0095.`,
    );
    const steep = { name: 'Steep', flat: inches(0.054), angle: 120 };
    // one that limits what can be cut is told whole
    expect(bench([LINE], { cutter: steep })).toContain('Cutter Steep, flat 0.054 in, 120°: Makes the root width in one pass. Its angle is 30° wider'); // prettier-ignore
    const wide = { name: 'Wide', flat: inches(0.055), angle: 60 };
    expect(bench([LINE], { cutter: wide })).toContain(
      '60°: Too wide by 0.001 in: every cut gets a wider flat',
    );
  });

  it('counts the bittings that it eats a flat of, each with a word in its note', () => {
    const cutter = { name: 'Wide', flat: inches(0.09), angle: 90 };
    // neighbours 5 steps apart: 5 × 0.018 + (0.09 + 0.054) ÷ 2 − 0.156 = 0.006; 4 apart leave a flat
    const clean = { ...LINE, bitting: bittingOf(SPEC, [2, 4, 1, 5, 3, 0]) };
    const plan = planned([LINE, clean, uncut], { cutter });
    const notes = rowsOf(plan, 'Cutting').map((row) => String(row[13]));
    expect(notes[0]).toMatch(/^The 2 and 7 at cuts 1 and 2 meet.* 0\.006 in .* First\. Second\.$/);
    expect(notes.slice(1)).toEqual(['First. Second.', 'NOT CUT.']);
    expect(bench([LINE, clean], { cutter })).toMatch(/ 1 of these bittings eats a flat with it, see Note\.$/);
    expect(bench([LINE, LINE], { cutter })).toMatch(/ 2 of these bittings eat a flat with it, see Note\.$/);
  });

  it('says how the key is held, and what the shop noted', () => {
    const setup = { spec: SPEC.name, hold: 'left jaw', stop: '', note: 'Brush it.' };
    expect(bench([LINE], { setup })).toMatch(/one pass\. Held: left jaw\. Stopped: not stated\. Brush it\.$/);
    const other = { spec: SPEC.name, hold: '', stop: 'shoulder' };
    expect(bench([LINE], { setup: other })).toMatch(/one pass\. Held: not stated\. Stopped: shoulder\.$/);
  });
});
