/** A new system as a plan: its rows, its grid, and names that stand in its way. */
import { describe, expect, it } from 'vitest';
import { bittingOf } from '../../src/keying/bitting.ts';
import type { KeyRecord } from '../../src/keying/system.ts';
import type { BookReading } from '../../src/workbook/index.ts';
import { planNewSystem, type NewSystem, type NewSystemOptions } from '../../src/workbook/planSystem.ts';
import { bookWith, EMPTY_BOOK, lineOf, rowsOf, sentences, standing, systemBook } from './plainBook.ts';
import { large, school, SPEC } from '../workbook/school.ts';

const planned = (
  more: Partial<NewSystem> = {},
  options: Partial<NewSystemOptions> = {},
  book: BookReading = EMPTY_BOOK,
) => planNewSystem(book, { ...school(), ...more }, { made: '24 Nov 2026', ...options });
const system = (change: Partial<NewSystem['system']>): Partial<NewSystem> => ({
  system: { ...school().system, ...change },
});
const sheetsOf = (plan: ReturnType<typeof planned>) =>
  plan.steps.flatMap((step) => (step.kind === 'add-sheet' ? [step.sheet] : []));
const layoutOf = (plan: ReturnType<typeof planned>, sheet: string) =>
  plan.steps.flatMap((step) => (step.kind === 'layout' && step.sheet === sheet ? [step.layout] : []))[0];
const SECRET = 'SECRET: whoever has a bitting can cut the key.';

describe('a new system', () => {
  it('has a row in Systems with what it was made by', () => {
    const plan = planned({ rules: 'own rules', note: 'a note' });
    expect(plan.title).toBe('Make the system School');
    expect(rowsOf(plan, 'Systems')).toEqual([
      [
        'School', 'S-018-6', 'K1', 3, '354635', '', '', '', '', '', '', '', '',
        'masters 1, change keys 2–6', 7, 'own rules', 'KeyrowGrid1', 'a note',
      ],
    ]); // prettier-ignore
    expect(lineOf(plan, 'Systems', 0)).toEqual(['Keying systems']);
    expect(lineOf(plan, 'Systems', 1).join()).toContain(`First written 24 Nov 2026. ${SECRET}`);
    expect(layoutOf(plan, 'Systems')!.freeze.columns).toBe(1);
  });

  it('counts the levels of the hierarchy, where control keys and single ones have none', () => {
    const control: KeyRecord = { symbol: 'CTL', level: 'control', bitting: bittingOf(SPEC, [1, 1, 1, 1, 1, 1]), status: 'issued' }; // prettier-ignore
    const single: KeyRecord = { ...control, symbol: 'SKD1', level: 'single' };
    const keys = [...school().system.keys, control, single];
    expect(rowsOf(planned(system({ keys })), 'Systems')[0]![3]).toBe(3);
  });

  it('has its keys and cylinders, with what the shop wants beside them', () => {
    const plan = planned();
    const from = 'Written 24 Nov 2026 with the system School.';
    expect(lineOf(plan, 'Keys', 0)).toEqual(['Keys']);
    expect(lineOf(plan, 'Keys', 1)).toEqual([`One row a key. ${from} ${SECRET}`]);
    expect(lineOf(plan, 'Cylinders', 0)).toEqual(['Cylinders']);
    expect(lineOf(plan, 'Cylinders', 1).join()).toContain(`${from} ${SECRET}`);
    expect(rowsOf(plan, 'Keys')[3]!.slice(0, 9)).toEqual([
      'School', 'AA1', 'CK', 'AA', '536453', 'reserved', '', '', 3,
    ]); // prettier-ignore
    expect(rowsOf(plan, 'Keys')[4]![8]).toBe('');
    expect(rowsOf(plan, 'Cylinders')[0]!.slice(0, 5)).toEqual(['School', 'C1', '0101', 'Front door', 'AA1']);
    expect(layoutOf(plan, 'Keys')!.freeze.columns).toBe(2);
    expect(layoutOf(plan, 'Cylinders')!.freeze.columns).toBe(2);
  });

  it('has a grid of its own, centred behind the columns of the cylinder', () => {
    const plan = planned();
    expect(lineOf(plan, 'Grid', 0)).toEqual(['Key-by-door grid of School']);
    expect(lineOf(plan, 'Grid', 1)).toEqual([
      'A dot where the key must operate the cylinder. Written 24 Nov 2026 with the system School.',
    ]);
    expect(layoutOf(plan, 'Grid')).toMatchObject({
      freeze: { columns: 3 },
      centred: [{ row: 3, column: 3, rows: 5, columns: 7 }],
    });
    expect(plan.steps).toContainEqual(
      expect.objectContaining({ kind: 'add-table', name: 'KeyrowGrid1', plain: true }),
    );
    const second = planned({}, {}, { ...EMPTY_BOOK, tableNames: ['KeyrowGrid1'], sheets: [{ name: 'Grid', visible: true, protected: false }] }); // prettier-ignore
    expect(sheetsOf(second).at(-1)).toBe('Grid School');
    expect(rowsOf(second, 'Systems')[0]![16]).toBe('KeyrowGrid2');
  });

  it('has none without cylinders, or where none is wanted', () => {
    expect(sheetsOf(planned({}, { grid: false }))).toEqual(['Specs', 'Systems', 'Keys', 'Cylinders']);
    expect(rowsOf(planned({}, { grid: false }), 'Systems')[0]![16]).toBe('');
    const bare = planned({ ...system({ cylinders: [] }), marks: [] });
    expect(sheetsOf(bare)).toEqual(['Specs', 'Systems', 'Keys']);
    expect(rowsOf(bare, 'Systems')[0]![16]).toBe('');
  });

  it('marks no key that is out of use, and passes over marks of other cylinders', () => {
    const keys = school().system.keys.map((key) =>
      key.symbol === 'AB2' ? { ...key, status: 'retired' as const } : key,
    );
    const plan = planned({ ...system({ keys }), marks: [{ key: 'A', cylinder: 'C1' }, { key: 'A', cylinder: 'C9' }] }); // prettier-ignore
    expect(lineOf(plan, 'Grid', 3)).toEqual([
      'Cylinder',
      'Door',
      'Symbol',
      'A',
      'AA',
      'AB',
      'AA1',
      'AA2',
      'AB1',
    ]);
    expect(rowsOf(plan, 'Grid').map((row) => row[3])).toEqual(['●', '', '', '']);
  });
});

describe('a large grid', () => {
  const grid = (made: NewSystem) => planNewSystem(EMPTY_BOOK, made, { made: '24 Nov 2026' });
  const columns = (made: NewSystem) => lineOf(grid(made), 'Grid', 3).length - 3;
  const alone = (count: number, cylinders: number): NewSystem => {
    const made = large(count);
    return { ...made, system: { ...made.system, cylinders: made.system.cylinders.slice(0, cylinders) } };
  };

  it('is one of more than 400 keys, or of more than 100,000 cells', () => {
    expect(columns(alone(400, 250))).toBe(400);
    expect(columns(alone(401, 1))).toBeLessThan(401);
    expect(columns(alone(400, 251))).toBeLessThan(400);
  });

  it('leaves out what the symbols say already, and says how many keys that is', () => {
    const made = large(500);
    expect(lineOf(grid(made), 'Grid', 1).join()).toMatch(
      / 500 change keys that operate just the cylinders of their own symbol have no column\.$/,
    );
    const marks = [...made.marks.filter(({ key }) => key !== 'K3'), { key: 'K7', cylinder: 'L9' }];
    // K3 lacks the mark that its symbol says, K7 has one besides
    expect(lineOf(grid({ ...made, marks }), 'Grid', 3).slice(3)).toEqual(['K3', 'K7']);
  });

  it('keeps masters, and no key that is out of use', () => {
    const made = large(450);
    const keys = made.system.keys.map((key): KeyRecord => {
      if (key.symbol === 'K1') return { ...key, symbol: 'M', level: 'MK' };
      if (key.symbol === 'K2') return { ...key, level: 'CK', parent: 'M' };
      if (key.symbol === 'K4') return { ...key, level: 'MK', status: 'void' };
      return key.symbol === 'K3' ? { ...key, status: 'retired' } : key;
    });
    const marks = [
      ...made.marks.filter(({ key }) => !['K1', 'K3', 'K4'].includes(key)),
      { key: 'M', cylinder: 'L2' },
    ];
    const wide = { ...made, marks, system: { ...made.system, keys } };
    expect(lineOf(grid(wide), 'Grid', 3).slice(3)).toEqual(['M']);
  });
});

describe('a name that stands in the way', () => {
  it('is that of a system that is there, whatever its case', () => {
    const { conflicts } = planned(system({ name: 'SCHOOL' }), {}, systemBook());
    expect(conflicts[0]).toEqual({
      sentence:
        'There is a system School already, and it is not written over. Give the new one another name.',
      at: { sheet: 'Systems', address: 'A5' },
    });
    // its rows are not said besides
    expect(conflicts).toHaveLength(1);
  });

  it('is that of rows without a system, in either sheet', () => {
    const keys = standing('KeyrowKeys', 'Keys', [['Symbol', 'System'], ['X', 'Other'], ['Y', 'school']]); // prettier-ignore
    const cylinders = standing('KeyrowCylinders', 'Cylinders', [['System'], ['School']]);
    const sentence = (sheet: string) =>
      `The sheet ${sheet} has rows of a system School already. Give the new one another name.`;
    const conflicts = (part: ReturnType<typeof standing>) =>
      planned({}, {}, bookWith(part)).conflicts.filter((c) => /has rows of/.test(c.sentence));
    expect(conflicts(keys)).toEqual([{ sentence: sentence('Keys'), at: { sheet: 'Keys', address: 'B6' } }]);
    expect(conflicts(cylinders)).toEqual([
      { sentence: sentence('Cylinders'), at: { sheet: 'Cylinders', address: 'A5' } },
    ]);
    expect(conflicts(standing('KeyrowKeys', 'Keys', [['Symbol'], ['School']]))).toEqual([]);
    expect(conflicts(standing('KeyrowKeys', 'Keys', [['System'], ['Other']]))).toEqual([]);
  });

  it('is a blank one', () => {
    expect(sentences(planned(system({ name: ' ' })))).toContain('The system has no name. Give it one.');
    const keys = school().system.keys.map((key, i) => (i === 6 ? { ...key, symbol: ' ' } : key));
    expect(sentences(planned(system({ keys })))).toEqual(['A key has no name. Give it one.']);
    const cylinders = school().system.cylinders.map((c, i) => (i === 0 ? { ...c, id: '' } : c));
    expect(sentences(planned(system({ cylinders })))).toEqual(['A cylinder has no name. Give it one.']);
  });

  it('is one that is there twice among those in use', () => {
    const [first, ...rest] = school().system.keys;
    const twice = (status: KeyRecord['status']) =>
      sentences(planned(system({ keys: [first!, { ...first!, symbol: 'a', status }, ...rest] })));
    expect(twice('issued')).toEqual(['There are two keys a. Rename one of them.']);
    expect(twice('retired')).toEqual([]);
    const [one, ...others] = school().system.cylinders;
    expect(sentences(planned(system({ cylinders: [one!, ...others, { ...one!, id: 'c1' }] })))).toEqual([
      'There are two cylinders c1. Rename one of them.',
    ]);
  });

  it('is a key’s that the grid has a column for; a cylinder may be called so', () => {
    const keys = school().system.keys.map((key, i) => (i === 6 ? { ...key, symbol: 'DOOR' } : key));
    expect(sentences(planned(system({ keys })))).toEqual([
      'A key can’t be called DOOR: the grid has a column of that name. Rename it.',
    ]);
    const cylinders = school().system.cylinders.map((c, i) => (i === 3 ? { ...c, id: 'Door' } : c));
    expect(planned(system({ cylinders })).conflicts).toEqual([]);
  });
});
