/** The start screen's words: finding a task by a word of the trade, and saying where something is wrong. */
import { describe, expect, it } from 'vitest';
import { SCREENS } from '../../taskpane/shared/navigation.tsx';
import { sheetsIn, troubleSentence } from '../../taskpane/start/summary.ts';
import { findTasks, GROUPS } from '../../taskpane/start/tasks.ts';

describe('the tasks', () => {
  it('offer every screen once', () => {
    const offered = GROUPS.flatMap((group) => group.tasks.map((task) => task.to));
    expect(new Set(offered).size).toBe(offered.length);
    expect([...offered].sort()).toEqual(SCREENS.filter((name) => !HIDDEN.has(name)).sort());
  });

  it.each([
    ['lost', 'lost'],
    ['LOST key', 'lost'],
    ['rekey', 'pin'],
    ['inventory', 'count'],
    ['interchange', 'audit'],
    ['padlocks', 'pools'],
    ['depth and space', 'specs'],
    ['issue', 'ledger'],
  ])('are found by “%s”', (typed, to) => {
    expect(findTasks(typed).map((task) => task.to)).toContain(to);
  });

  it('puts a task of that name first, and finds nothing for nonsense', () => {
    expect(findTasks('pin')[0]!.to).toBe('pin');
    expect(findTasks('spec')[0]!.to).toBe('specs');
    expect(findTasks('xyzzy')).toEqual([]);
    expect(findTasks('  ')).toEqual([]);
  });
});

/** Reached in another way than from the list of tasks. */
const HIDDEN = new Set<string>(['start', 'sample']);

describe('what is wrong', () => {
  const summary = { specs: 1, systems: 1, keys: 1, cylinders: 1, marks: 0, faults: 2, warnings: 0 };

  it('names the sheets while they are few', () => {
    const problems = [{ sheet: 'Keys' }, { sheet: 'Cylinders' }, { sheet: 'Keys' }];
    expect(troubleSentence(summary, sheetsIn(problems))).toBe('2 faults in Keys and Cylinders.');
    expect(troubleSentence(summary, ['A', 'B', 'C', 'D'])).toBe('2 faults in what was read.');
  });
});
