/** A plan in words, before and after. */
import { describe, expect, it } from 'vitest';
import { describeDone, describePlan } from '../../src/workbook/describe.ts';
import type { PlanEffect, WritePlan } from '../../src/workbook/plan.ts';

const EFFECTS: readonly (readonly [PlanEffect, string, string])[] = [
  [
    { kind: 'sheet', sheet: 'Keys', rows: 1_204, what: '' },
    'adds the sheet Keys with 1,204 rows',
    'added the sheet Keys with 1,204 rows',
  ],
  [{ kind: 'rows', sheet: 'Systems', rows: 1, what: '' }, 'adds 1 row to Systems', 'added 1 row to Systems'],
  [
    { kind: 'cells', sheet: 'Doors', rows: 2, what: '' },
    'changes 2 cells of Doors',
    'changed 2 cells of Doors',
  ],
  [
    { kind: 'replace', sheet: 'Findings', rows: 2_000, before: 1, what: '' },
    'replaces the 1 row of Findings by 2,000',
    'replaced the 1 row of Findings by 2,000',
  ],
  [
    { kind: 'picture', sheet: 'Keys', rows: 1, name: 'AA1', replaces: false, what: '' },
    'puts the picture AA1 on Keys',
    'put the picture AA1 on Keys',
  ],
  [
    { kind: 'picture', sheet: 'Keys', rows: 1, name: 'AA1', replaces: true, what: '' },
    'replaces the picture AA1 on Keys',
    'replaced the picture AA1 on Keys',
  ],
  [
    { kind: 'column', sheet: 'Codes', rows: 3, heading: 'Check', beside: 'Code', what: '' },
    'adds the column Check to the right of Code, 3 cells',
    'added the column Check to the right of Code, 3 cells',
  ],
];
const plan = (effects: readonly PlanEffect[], more: Partial<WritePlan> = {}): WritePlan => ({
  title: 'T',
  steps: [],
  conflicts: [],
  effects,
  ...more,
});
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

describe('a plan in words', () => {
  it.each(EFFECTS)('%j: before and after', (effect, ahead, done) => {
    expect(describePlan(plan([effect])).sentence).toBe(`${capital(ahead)}; touches nothing else.`);
    expect(describeDone([effect])).toBe(`${capital(done)}.`);
  });

  it('lists all effects in a sentence, and counts sheets and cells', () => {
    const effects = EFFECTS.slice(0, 3).map(([effect]) => effect);
    const write = { kind: 'write', sheet: 'S', row: 0, column: 0, expected: 'empty' } as const;
    const described = describePlan(
      plan(effects, {
        steps: [
          { kind: 'add-sheet', sheet: 'Keys' },
          {
            ...write,
            cells: [
              ['a', 'b'],
              ['c', 'd'],
            ],
            formats: ['text', 'text'],
          },
          { ...write, cells: [['e']], formats: ['text'] },
        ],
      }),
    );
    expect(described).toEqual({
      sentence:
        'Adds the sheet Keys with 1,204 rows; adds 1 row to Systems; changes 2 cells of Doors; touches nothing else.',
      sheetsAdded: 1,
      cells: 5,
      effects,
      conflicts: [],
    });
    expect(describeDone(effects)).toBe(
      'Added the sheet Keys with 1,204 rows; added 1 row to Systems; changed 2 cells of Doors.',
    );
  });

  it('says where there is nothing to write, and where it can’t', () => {
    expect(describePlan(plan([])).sentence).toBe('There is nothing to write.');
    expect(describeDone([])).toBe('There was nothing to write.');
    const conflicts = [{ sentence: 'No.' }];
    expect(describePlan(plan([], { conflicts })).sentence).toBe('Can’t run: 1 thing in the way.');
    expect(describePlan(plan([], { conflicts: [...conflicts, ...conflicts] }))).toMatchObject({
      sentence: 'Can’t run: 2 things in the way.',
      conflicts: [{ sentence: 'No.' }, { sentence: 'No.' }],
    });
  });
});
