/**
 * The pinning sheet as a plan. Cylinder C1 of the school shears at 3 and 5, or at 4 and 6; by its spec a bottom pin is
 * 0.5 in less the root (0.315 in less 0.018 in a step), a master pin the steps between, and a top pin what is left of
 * 0.5 in: 0.239 + 0.036 + 0.225 for 3 and 5, 0.257 + 0.036 + 0.207 for 4 and 6.
 */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../src/keying/bitting.ts';
import { depthSetOf, EVERY, NONE } from '../../src/keying/depthSet.ts';
import type { Specification } from '../../src/keying/specification.ts';
import { inches } from '../../src/keying/units.ts';
import type { BookReading, CellValue, CylinderRow } from '../../src/workbook/index.ts';
import { planPinning, type PinningInput } from '../../src/workbook/planPinning.ts';
import {
  carriedOut,
  cellOf,
  EMPTY_BOOK,
  lineOf,
  rowsOf,
  sentences,
  standing,
  systemBook,
  writesOf,
} from './plainBook.ts';
import { SPEC, starter } from '../workbook/school.ts';

const BOOK = systemBook();
const INPUT: PinningInput = { made: '24 Nov 2026', system: 'School', cylinders: ['c1'] };
const planned = (input: Partial<PinningInput> = {}, book: BookReading = BOOK) =>
  planPinning(book, { ...INPUT, ...input });

/** The school with its first cylinder changed. */
const withFirst = (change: Partial<CylinderRow>, spec: Specification = SPEC): BookReading => {
  const [system] = BOOK.systems;
  const cylinders = system!.cylinders.map((c, i) => (i === 0 ? ({ ...c, ...change } as CylinderRow) : c));
  return { ...BOOK, systems: [{ ...system!, spec, cylinders }] };
};
const pins = (...rows: readonly (readonly CellValue[])[]) =>
  standing('KeyrowPins', 'Pins', [['Pin', 'Kind', 'Length', 'Unit', 'In stock', 'Note'], ...rows]);
const withPins = (book: BookReading, ...rows: readonly (readonly CellValue[])[]): BookReading => {
  const { table, sheet } = pins(...rows);
  return { ...book, tables: [...book.tables, table], sheets: [...book.sheets, sheet] };
};
const KIT = [
  ['B240', 'bottom', 0.24, 'in', 5, ''],
  ['M035', 'master', 0.035, 'in', '', ''],
  ['T200', 'top', 0.2, 'in', '', ''],
] as const;

type Plan = ReturnType<typeof planned>;
const layoutOf = (plan: Plan, sheet: string) =>
  plan.steps.flatMap((step) => (step.kind === 'layout' && step.sheet === sheet ? [step.layout] : []))[0]!;
const formatsOf = (plan: Plan, sheet: string) => writesOf(plan, sheet).find(({ row }) => row === 4)!.formats;
/** One row of a sheet by its headings. */
const byHeading = (plan: Plan, row: number, sheet = 'Pinning'): Readonly<Record<string, unknown>> =>
  Object.fromEntries(
    lineOf(plan, sheet, 3).map((heading, c) => [String(heading), rowsOf(plan, sheet)[row]![c]]),
  );

describe('the pinning sheet', () => {
  it('has a row a chamber; what only cores have stands behind, where it isn’t printed', () => {
    const plan = planned();
    expect(plan).toMatchObject({ title: 'Write the pinning sheet', conflicts: [] });
    expect(lineOf(plan, 'Pinning', 0)).toEqual(['Pinning']);
    expect(lineOf(plan, 'Pinning', 1)).toEqual([
      'Pins of the system School by the spec S-018-6, written 24 Nov 2026. Lengths in inches. SECRET: pins tell the bittings. Prove the first cylinder with its keys before you pin the rest.',
    ]);
    expect(lineOf(plan, 'Pinning', 3)).toEqual([
      'Cylinder', 'Door', 'Symbol', 'Chamber', 'Cuts', 'Bottom steps', 'Bottom length', 'Master steps',
      'Master length', 'Top length', 'Unit', 'Remark', 'Build-up steps', 'Build-up length', 'Top steps',
    ]); // prettier-ignore
    const rows = rowsOf(plan, 'Pinning');
    expect(rows).toHaveLength(6);
    expect(rows[0]).toEqual([
      'C1',
      '0101',
      'AA1',
      1,
      '3 5',
      3,
      0.239,
      '2',
      '0.036',
      0.225,
      'in',
      '',
      '',
      '',
      '',
    ]);
    expect(rows[2]).toEqual([
      'C1',
      '0101',
      'AA1',
      3,
      '4 6',
      4,
      0.257,
      '2',
      '0.036',
      0.207,
      'in',
      '',
      '',
      '',
      '',
    ]);
  });

  it('has the digits that are read at the bench large, and numbers centred', () => {
    const layout = layoutOf(planned(), 'Pinning');
    const columns = (boxes: typeof layout.large) => boxes!.map(({ column }) => column);
    expect(columns(layout.large)).toEqual([4, 6, 8, 9, 13]);
    expect(columns(layout.centred)).toEqual([3, 4, 5, 6, 7, 8, 9, 10, 12, 13, 14]);
    // the header is wrapped as a whole, and the remark
    expect(columns(layout.wrapped)).toEqual([0, 11]);
    expect(layout).toMatchObject({ printArea: 'A:L', freeze: { columns: 1 } });
    expect(formatsOf(planned(), 'Pinning')).toEqual([
      'text', 'text', 'text', 'general', 'text', 'general', 'inches', 'text', 'text', 'inches', 'text', 'text',
      'general', 'inches', 'general',
    ]); // prettier-ignore
  });

  it('is of all cylinders where none is named', () => {
    expect(rowsOf(planPinning(BOOK, { made: '24 Nov 2026', system: 'School' }), 'Pinning')).toHaveLength(24);
    expect(rowsOf(planned({ cylinders: ['C4', 'C2'] }), 'Pinning').map(([id]) => id)).toEqual(
      ['C2', 'C4'].flatMap((id) => Array.from({ length: 6 }, () => id)),
    );
  });

  it('stands in the unit asked for', () => {
    const plan = planned({ unit: 'mm', kitList: true });
    expect(lineOf(plan, 'Pinning', 1).join()).toContain('Lengths in millimetres.');
    // 0.239 × 25.4, 0.036 × 25.4
    expect(rowsOf(plan, 'Pinning')[0]!.slice(6, 11)).toEqual([6.0706, '2', '0.91', 5.715, 'mm']);
    expect(lineOf(plan, 'Kit', 1).join()).toContain('Lengths in millimetres.');
    expect(byHeading(plan, 0, 'Kit')).toMatchObject({ Length: 6.0706, Unit: 'mm' });
  });

  it('replaces the one that is there', () => {
    const book = carriedOut(BOOK, planned());
    const plan = planned({ cylinders: ['C2'] }, book);
    expect(plan.effects).toEqual([
      { kind: 'replace', sheet: 'Pinning', rows: 6, before: 6, what: 'rows replaced' },
    ]);
    expect(cellOf(carriedOut(book, plan), 'Pinning', 'A5')).toBe('C2');
  });

  it('says what is odd about a stack', () => {
    const chambers = [[3, 4], [3, 4, 6], [3], [3], [3], [3]].map(depthSetOf); // prettier-ignore
    const remark = (row: number, spec = SPEC) =>
      byHeading(planned({}, withFirst({ chambers }, spec)), row)['Remark'];
    expect(remark(0)).toBe('Master pin of 1 is thinner than 2');
    expect(remark(2)).toBe('');
    const short = { ...SPEC, targetStack: inches(0.25) };
    // 0.239 + 0.018 + 0.036 are more than 0.25
    expect(remark(1, short)).toBe('Master pin of 1 is thinner than 2; Stack too tall for a top pin');
    const plan = planned({}, withFirst({ chambers }));
    expect(byHeading(plan, 1)).toMatchObject({ 'Master steps': '1 + 2', 'Master length': '0.018 + 0.036' });
    expect(byHeading(plan, 2)).toMatchObject({
      'Master steps': '',
      'Master length': '',
      'Top length': 0.261,
    });
  });

  it('has no pins for an empty chamber', () => {
    const chambers = [EVERY, NONE, ...[[3], [3], [3], [3]].map(depthSetOf)];
    const plan = planned({ kitList: true }, withPins(withFirst({ chambers }), ...KIT));
    const blank = (chamber: number, cuts: string) => ({
      Cylinder: 'C1', Door: '0101', Symbol: 'AA1', Chamber: chamber, Cuts: cuts,
      'Bottom steps': '', 'Bottom length': '', 'Master steps': '', 'Master length': '', 'Top length': '', Unit: 'in',
      'Kit bottom': '', 'Kit masters': '', 'Kit top': '', 'Line error': '', Remark: 'No pins',
      'Build-up steps': '', 'Build-up length': '', 'Top steps': '', 'Kit build-up': '',
    }); // prettier-ignore
    expect(byHeading(plan, 0)).toEqual(blank(1, 'any'));
    expect(byHeading(plan, 1)).toEqual(blank(2, ''));
    expect(lineOf(plan, 'Kit', 1).join()).toContain('Pins that School needs, 4 chambers,');
  });

  it('guesses no length that the spec doesn’t tell', () => {
    const blind = { ...SPEC, plugDiameter: undefined as never };
    const plan = planned({ kitList: true }, withPins(withFirst({}, blind), ...KIT));
    expect(byHeading(plan, 0)).toMatchObject({
      'Bottom steps': 3,
      'Bottom length': '',
      'Master steps': '2',
      'Top length': '',
      'Kit bottom': '',
      'Kit top': '',
      'Line error': '',
      Remark: '',
    });
    const doorless = planned({}, withFirst({ door: undefined as never }));
    expect(byHeading(doorless, 0)['Door']).toBe('');
  });

  it('is barred by a system, a spec or a cylinder that can’t be read', () => {
    expect(sentences(planned({ system: 'Hall' }))).toEqual(['There is no system Hall in this workbook.']);
    const [system] = BOOK.systems;
    const blind = { ...BOOK, systems: [{ ...system!, spec: undefined as never }] };
    expect(planned({}, blind)).toMatchObject({
      title: 'Write the pinning sheet',
      conflicts: [
        {
          sentence: 'The spec S-018-6 of School can’t be read. Correct it first.',
          at: { sheet: 'Systems', address: 'A5' },
        },
      ],
    });
    const unread = withFirst({ chambers: undefined as never });
    expect(planned({}, unread).conflicts).toEqual([
      {
        sentence: 'Cylinder C1 can’t be read. Correct its row, or leave it out.',
        at: { sheet: 'Cylinders', address: 'B5' },
      },
    ]);
    // left out, it is no matter
    expect(planned({ cylinders: ['C2'], kitList: true }, unread).conflicts).toEqual([]);
    expect(planned({}, EMPTY_BOOK).steps).toEqual([]);
  });

  it('is barred by a size that can’t be read, not by another sheet of the shop’s', () => {
    const faulty = withPins(BOOK, ['odd', 'middle', 0.1, 'in', '', '']);
    expect(planned({}, faulty).conflicts).toMatchObject([{ at: { sheet: 'Pins', address: 'B5' } }]);
    const { table, sheet } = standing('KeyrowCutters', 'Cutters', [['Cutter', 'Flat', 'Angle', 'Unit'], ['odd', 'wide', 90, 'in']]); // prettier-ignore
    const other = { ...BOOK, tables: [...BOOK.tables, table], sheets: [...BOOK.sheets, sheet] };
    expect(planned({}, other).conflicts).toEqual([]);
  });
});

describe('with the sizes of the shop', () => {
  const withKit = (): Plan => planned({ kitList: true }, withPins(BOOK, ...KIT));

  it('the pins that are picked stand beside those of the spec', () => {
    const plan = withKit();
    expect(lineOf(plan, 'Pinning', 3)).toEqual([
      'Cylinder', 'Door', 'Symbol', 'Chamber', 'Cuts', 'Bottom steps', 'Bottom length', 'Master steps',
      'Master length', 'Top length', 'Unit', 'Kit bottom', 'Kit masters', 'Kit top', 'Line error', 'Remark',
      'Build-up steps', 'Build-up length', 'Top steps', 'Kit build-up',
    ]); // prettier-ignore
    // +0.001 at the bottom pin, 0 above the master: the worst line is off by 0.001
    expect(byHeading(plan, 0)).toMatchObject({
      'Kit bottom': 0.24,
      'Kit masters': '0.035',
      'Kit top': 0.2,
      'Line error': 0.001,
      Remark: '',
    });
    // 0.240 for 0.257, then 0.035 for 0.036
    expect(byHeading(plan, 2)).toMatchObject({
      'Line error': -0.018,
      Remark: 'The kit’s sizes are off by more than the tolerance',
    });
    const layout = layoutOf(plan, 'Pinning');
    expect(layout.large!.map(({ column }) => column)).toEqual([4, 11, 12, 13, 19]);
    expect(layout.printArea).toBe('A:P');
    // there is room for the kit's sizes beside those of the spec
    expect(layout.widths[8]).toBeLessThan(layoutOf(planned(), 'Pinning').widths[8]!);
    expect(formatsOf(plan, 'Pinning').slice(11, 15)).toEqual(['inches', 'text', 'inches', 'inches']);
  });

  it('a line is off by the tolerance at most', () => {
    // ±0.002 in: 0.241 for 0.239 is just within it
    const just = withPins(BOOK, ['B', 'bottom', 0.241, 'in', '', ''], ['M', 'master', 0.036, 'in', '', '']);
    expect(byHeading(planned({}, just), 0)).toMatchObject({ 'Line error': 0.002, 'Kit top': '', Remark: '' });
    const over = withPins(BOOK, ['B', 'bottom', 0.236, 'in', '', ''], ['M', 'master', 0.036, 'in', '', '']);
    expect(byHeading(planned({}, over), 0)).toMatchObject({
      'Line error': -0.003,
      Remark: 'The kit’s sizes are off by more than the tolerance',
    });
    // the worst is the last of the lines: 0.239 is there, a master of 0.04 for 0.036 is not
    const last = withPins(BOOK, ['B', 'bottom', 0.239, 'in', '', ''], ['M', 'master', 0.04, 'in', '', '']);
    expect(byHeading(planned({}, last), 0)['Line error']).toBe(0.004);
    // 0.242 for 0.239 at the first line, 0.036 as it should be after a master of 0.034: the first is worse
    const first = withPins(BOOK, ['B', 'bottom', 0.242, 'in', '', ''], ['M', 'master', 0.034, 'in', '', '']);
    expect(byHeading(planned({}, first), 0)['Line error']).toBe(0.003);
    const two = { ...withFirst({ chambers: [[3, 5, 7], [3], [3], [3], [3], [3]].map(depthSetOf) }) };
    expect(byHeading(planned({}, withPins(two, ...KIT)), 0)['Kit masters']).toBe('0.035 + 0.035');
    const masterless = withPins(BOOK, ['B', 'bottom', 0.239, 'in', '', '']);
    expect(byHeading(planned({}, masterless), 0)).toMatchObject({ 'Kit masters': '?', 'Line error': '' });
  });

  it('the kit list counts each length, and says what is short, off or lacking', () => {
    const plan = withKit();
    expect(lineOf(plan, 'Kit', 0)).toEqual(['Kit list']);
    expect(lineOf(plan, 'Kit', 1)).toEqual([
      'Pins that School needs, 6 chambers, written 24 Nov 2026. Lengths in inches. Error: kit size less length wanted.',
    ]);
    expect(lineOf(plan, 'Kit', 3)).toEqual([
      'Kind', 'Steps', 'Length', 'Pin', 'Kit size', 'Error', 'Unit', 'Needed', 'In stock', 'Remark',
    ]); // prettier-ignore
    const short = '1 short of this size in all';
    expect(rowsOf(plan, 'Kit')).toEqual([
      ['bottom', 3, 0.239, 'B240', 0.24, 0.001, 'in', 4, 5, short],
      ['bottom', 4, 0.257, 'B240', 0.24, -0.017, 'in', 2, 5, `Off by more than the tolerance: get a nearer size; ${short}`],
      ['master', 2, 0.036, 'M035', 0.035, -0.001, 'in', 6, '', ''],
      // a top pin only presses the spring
      ['top', '', 0.207, 'T200', 0.2, -0.007, 'in', 2, '', ''],
      ['top', '', 0.225, 'T200', 0.2, -0.025, 'in', 4, '', ''],
    ]); // prettier-ignore
    expect(formatsOf(plan, 'Kit')).toEqual([
      'text', 'general', 'inches', 'text', 'inches', 'inches', 'text', 'general', 'general', 'text',
    ]); // prettier-ignore
    const layout = layoutOf(plan, 'Kit');
    expect(layout.large!.map(({ column }) => column)).toEqual([4, 7]);
    expect(layout.centred!.map(({ column }) => column)).toEqual([1, 2, 4, 5, 6, 7, 8]);
    expect(layout).toMatchObject({ printArea: 'A:J', freeze: { columns: 1 } });
    const few = planned({ kitList: true }, withPins(BOOK, KIT[0], ['M034', 'master', 0.034, 'in', 6, '']));
    expect(rowsOf(few, 'Kit').slice(2)).toEqual([
      // off by just the tolerance, and just enough of them
      ['master', 2, 0.036, 'M034', 0.034, -0.002, 'in', 6, 6, ''],
      ['top', '', 0.207, '', '', '', 'in', 2, '', 'The kit has no size of this kind'],
      ['top', '', 0.225, '', '', '', 'in', 4, '', 'The kit has no size of this kind'],
    ]);
  });

  it('the kit list is written where it is asked for, with lengths alone where there are no sizes', () => {
    expect(planned().effects).toHaveLength(1);
    const bare = planned({ kitList: true });
    expect(lineOf(bare, 'Kit', 1).join()).toContain(
      'No sizes in the sheet Pins, so lengths are as the spec gives them.',
    );
    expect(rowsOf(bare, 'Kit')[0]).toEqual(['bottom', 3, 0.239, '', '', '', 'in', 4, '', '']);
    expect(layoutOf(bare, 'Kit').large!.map(({ column }) => column)).toEqual([2, 7]);
  });
});

describe('the pins of a core', () => {
  // total 23 and addition 10, depths 2 and 6 under a control cut of 5: bottom 2, master 4, build-up 9, top 8
  // (core service manual, section on pinning), in steps of 0.0125 in
  const spec = starter('T-0125-7');
  const control = bittingOf(spec, [5, 5, 5, 5, 5, 5, 5]);
  const chambers = [EVERY, ...Array.from({ length: 6 }, () => depthSetOf([2, 6]))];
  const core = (change: Partial<CylinderRow> = {}) => withFirst({ chambers, control, ...change }, spec);

  it('have build-up and top in steps, where they are printed', () => {
    const plan = planned({ kitList: true }, core());
    expect(lineOf(plan, 'Pinning', 3)).toEqual([
      'Cylinder', 'Door', 'Symbol', 'Chamber', 'Cuts', 'Bottom steps', 'Bottom length', 'Master steps',
      'Master length', 'Build-up steps', 'Build-up length', 'Top steps', 'Top length', 'Unit', 'Remark',
    ]); // prettier-ignore
    expect(byHeading(plan, 1)).toMatchObject({
      'Bottom steps': 2,
      'Master steps': '4',
      'Build-up steps': 9,
      'Build-up length': 0.1125,
      'Top steps': 8,
      'Top length': 0.1,
      Remark: '',
    });
    expect(byHeading(plan, 0)['Remark']).toBe('No pins');
    expect(layoutOf(plan, 'Pinning').printArea).toBe('A:O');
  });

  it('are told from the kit too, and a core’s control line may be the worst', () => {
    const kit = [['B', 'master', 0.05, 'in', '', ''], ['U', 'build-up', 0.12, 'in', '', '']]; // prettier-ignore
    const plugged = { ...spec, plugDiameter: inches(0.5) };
    const book = withPins(
      withFirst({ chambers, control }, plugged),
      ['P', 'bottom', 0.207, 'in', '', ''],
      ...kit,
    );
    const plan = planned({}, book);
    // bottom 0.5 − (0.318 − 0.025) = 0.207; master 0.05 as it should be; 0.12 for a build-up of 0.1125
    expect(byHeading(plan, 1)).toMatchObject({
      'Kit bottom': 0.207,
      'Kit masters': '0.050',
      'Kit build-up': 0.12,
      'Kit top': '',
      'Line error': 0.0075,
    });
  });

  it('may be too thin', () => {
    // control cut 0 with depth 9: build-up 0 + 10 − 9 = 1 step, thinner than two
    const low = bittingOf(spec, [0, 0, 0, 0, 0, 0, 0]);
    const deep = Array.from({ length: 7 }, () => depthSetOf([9]));
    const plan = planned({}, core({ chambers: deep, control: low }));
    expect(byHeading(plan, 0)).toMatchObject({ 'Build-up steps': 1, Remark: 'Build-up pin too thin' });
  });

  it('can’t be told without its control cuts', () => {
    const bare = core({ control: undefined as never });
    const sentence =
      'Core C1 has no control cuts, so its stacks can’t be worked out. Enter them in its row, or leave it out.';
    expect(planned({}, bare).conflicts).toEqual([{ sentence, at: { sheet: 'Cylinders', address: 'O5' } }]);
    const at = { ...BOOK.systems[0]!.cylinders[0]!.at, control: undefined as never };
    expect(planned({}, core({ control: undefined as never, at })).conflicts).toEqual([
      { sentence, at: { sheet: 'Cylinders', address: 'B5' } },
    ]);
    const empty = Array.from({ length: 7 }, (_, i) => (i === 0 ? NONE : EVERY));
    expect(planned({}, core({ control: undefined as never, chambers: empty })).conflicts).toEqual([]);
    // other cylinders have no control cuts to miss
    expect(planned().conflicts).toEqual([]);
  });
});
