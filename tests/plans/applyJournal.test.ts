/** What a note of a write has in it: places and counts, and of old contents only what can't be a code. */
import { describe, expect, it } from 'vitest';
import { noteOf } from '../../src/workbook/applyJournal.ts';
import type { Remembered } from '../../src/workbook/outcome.ts';
import type { Box, CellValue, PlanStep, WriteBlock } from '../../src/workbook/index.ts';

type Rows = readonly (readonly CellValue[])[];
const box = (row: number, column: number, rows: number, columns: number, sheet = 'Doors'): Box => ({
  sheet,
  row,
  column,
  rows,
  columns,
});
const write = (cells: WriteBlock['cells'], more: Partial<WriteBlock> = {}): WriteBlock => ({
  kind: 'write',
  sheet: 'Doors',
  row: 0,
  column: 0,
  cells,
  formats: cells[0]!.map(() => 'text'),
  expected: 'empty',
  ...more,
});
const held = (step: number, formulas: Rows, row = 0): Remembered => ({
  step,
  box: box(row, 0, formulas.length, formulas[0]!.length),
  formulas,
  values: formulas,
  numberFormats: formulas.map((line) => line.map(() => '0.0')),
  types: formulas.map((line) => line.map(() => 'String')),
});
const note = (steps: readonly PlanStep[], before: readonly Remembered[] = [], own: readonly string[] = []) =>
  noteOf('Title', steps, false, before, new Set(own));

describe('a note', () => {
  it('has the places of everything that is written, and no name of a picture', () => {
    const from = box(0, 0, 3, 2);
    const to = box(0, 0, 4, 2);
    expect(
      noteOf('x'.repeat(300), [
        { kind: 'add-sheet', sheet: 'New' },
        write([['a', ''], ['', 1]], { row: 4, column: 2 }),
        { kind: 'resize-table', name: 'KeyrowKeys', from, to },
        { kind: 'picture', sheet: 'Pictures', row: 5, column: 3, name: 'Blade 274153', alt: '274153', base64: '', width: 1, height: 1, rowHeight: 1 },
        { kind: 'add-table', name: 'KeyrowNew', box: from },
      ], true),
    ).toEqual({
      title: 'x'.repeat(200),
      undoing: true,
      sheets: ['New'],
      tables: [{ name: 'KeyrowKeys', from, to }],
      pictures: [{ sheet: 'Pictures', row: 5, column: 3 }],
      blocks: [{ box: box(4, 2, 2, 2), filled: 2, empty: true }],
    }); // prettier-ignore
  });

  it('tells cells that were empty from others', () => {
    const empty = (expected: WriteBlock['expected']) =>
      note([write([['a', 'b']], { expected })]).blocks[0]!.empty;
    expect(empty('empty')).toBe(true);
    expect(empty([['', '']])).toBe(true);
    expect(empty([['', 'x']])).toBe(false);
  });

  it('has what the shop’s cells held, with its formats, from all blocks of a step', () => {
    const steps = [write([['a'], ['b'], ['c']]), write([['d']])];
    expect(note(steps, [held(0, [['old']]), held(1, [['ab']]), held(0, [['x'], ['y']], 1)]).blocks).toEqual([
      {
        box: box(0, 0, 3, 1),
        filled: 3,
        empty: true,
        before: { cells: [['old'], ['x'], ['y']], formats: [['0.0'], ['0.0'], ['0.0']] },
      },
      { box: box(0, 0, 1, 1), filled: 1, empty: true, before: { cells: [['ab']], formats: [['0.0']] } },
    ]);
  });

  it('has nothing of what stood on our own sheets, nor a part of what stood elsewhere', () => {
    const steps = [write([['a'], ['b']])];
    const whole = [held(0, [['old'], ['x']])];
    expect(note(steps, whole).blocks[0]).toHaveProperty('before');
    expect(note(steps, whole, ['Doors']).blocks[0]).not.toHaveProperty('before');
    expect(note(steps, whole, ['Keys']).blocks[0]).toHaveProperty('before');
    expect(note(steps, [held(0, [['old']])]).blocks[0]).not.toHaveProperty('before');
    expect(note(steps).blocks[0]).not.toHaveProperty('before');
    // one cell that may be a code is enough
    expect(note(steps, [held(0, [['old'], ['27415']])]).blocks[0]).not.toHaveProperty('before');
  });

  it('keeps no text that may be a code: three digits, or more than four letters and digits', () => {
    const kept = (content: CellValue) =>
      'before' in note([write([['a']])], [held(0, [[content]])]).blocks[0]!;
    for (const content of ['', 'left', 12, 0, true, 'a-b', '12ab', 'ÄÖÜ', '- / -', '1 2'])
      expect(kept(content), String(content)).toBe(true);
    for (const content of [
      '123',
      274,
      '1-2-3',
      '1 2 3',
      '1\n2\n3',
      'abcde',
      'a b c d e',
      'ßßßßß',
      false,
      '=A1',
      '#N/A',
      '=',
      '#',
    ])
      expect(kept(content), String(content)).toBe(false);
  });
});

describe('a note that grows too long', () => {
  const many = (count: number, cells: Rows, sheet: (n: number) => string = () => 'Doors') => {
    const steps = Array.from({ length: count }, (_, n) =>
      write(cells, { row: n * 2, column: n % 2, sheet: sheet(n), expected: n === 0 ? 'empty' : [['x']] }),
    );
    return noteOf(
      'Title',
      steps,
      false,
      steps.map((__, n) => held(n, cells)),
    );
  };

  it('leaves the old contents out first', () => {
    const wide = [Array.from({ length: 30 }, () => 'abcd')];
    expect(many(10, wide).blocks.every((block) => block.before)).toBe(true);
    const bare = many(120, wide);
    expect(bare.blocks).toHaveLength(120);
    expect(bare.blocks.some((block) => block.before)).toBe(false);
    expect(bare.blocks[0]).toEqual({ box: box(0, 0, 1, 30), filled: 30, empty: true });
    expect(JSON.stringify(bare).length).toBeLessThanOrEqual(20_000);
  });

  it('has one box around the blocks of a sheet then, of which nothing may be cleared', () => {
    const short = many(400, [['a', '']], (n) => (n === 7 ? 'Rooms' : 'Doors'));
    expect(short.blocks).toEqual([
      // rows 0 to 798, columns 0 to 2
      { box: box(0, 0, 799, 3), filled: 399, empty: false },
      { box: box(14, 1, 1, 2, 'Rooms'), filled: 1, empty: false },
    ]);
    const backwards = noteOf('Title', Array.from({ length: 400 }, (_, n) => write([['a']], { row: 400 - n, column: 400 - n })), false); // prettier-ignore
    expect(backwards.blocks).toEqual([{ box: box(1, 1, 400, 400), filled: 400, empty: false }]);
  });

  it('has a hundred sheets at most, and twenty tables', () => {
    const steps: PlanStep[] = Array.from({ length: 300 }, (_, n) => [
      write([['a']], { sheet: `Sheet number ${n}` }),
      {
        kind: 'resize-table' as const,
        name: `Table number ${n}`,
        from: box(0, 0, 1, 1),
        to: box(0, 0, 2, 1),
      },
    ]).flat();
    const short = noteOf('Title', steps, false);
    expect([short.blocks.length, short.tables.length]).toEqual([100, 20]);
    expect(short.tables[19]!.name).toBe('Table number 19');
  });
});
