/**
 * Every public function of the keying room with input that nobody should give it: it answers, with a typed fault where
 * it must, and never throws, never gives NaN and never hangs. A function that states in its doc comment that it throws
 * on a mistake of ours may do so, with `ProgrammerError` and nothing else. A new export must be added here: the first
 * test says which is missing.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as keying from '../../src/keying/index.ts';
import { ProgrammerError } from '../../src/keying/result.ts';
import { CODES_CALLS } from './callsCodes.ts';
import { METAL_CALLS } from './callsMetal.ts';
import { SCHEDULE_CALLS } from './callsSchedule.ts';
import { SHOP_CALLS } from './callsShop.ts';
import { SYSTEMS_CALLS } from './callsSystems.ts';
import { badNumber, HANG, runsFor, timed } from './hostile.ts';

/** Those whose doc comment says that a wrong argument is a mistake of ours, or that hand it on to such a one. */
const MAY_ASSERT = new Set([
  'bittingOf',
  'centreAt',
  'countWithinMacs',
  'cutCentre',
  'inches',
  'judgeReadings',
  'lengthOf',
  'millimetres',
  'times',
]);
/** Plans of whole systems: mostly milliseconds, seconds where the search is long; whoever drives them can stop them. */
const LONG = new Set(['capacity', 'generateSystem']);

const CALLS = { ...METAL_CALLS, ...CODES_CALLS, ...SYSTEMS_CALLS, ...SCHEDULE_CALLS, ...SHOP_CALLS };
const functions = Object.entries(keying).flatMap(([name, value]) =>
  typeof value === 'function' ? [name] : [],
);

describe('the keying room and hostile input', () => {
  it('is fuzzed whole', () => {
    expect(functions.filter((name) => !(name in CALLS))).toEqual([]);
    expect(Object.keys(CALLS).filter((name) => !functions.includes(name))).toEqual([]);
  });

  it.each(Object.keys(CALLS))('%s', { timeout: 3_600_000 }, (name) => {
    const usual = LONG.has(name) ? 15 : 60;
    const runs = LONG.has(name)
      ? Math.min(500, runsFor(functions.length, usual))
      : runsFor(functions.length, usual);
    fc.assert(
      fc.property(CALLS[name as keyof typeof CALLS]!, (call) => {
        const { value: answer, took } = timed(() => {
          try {
            return call();
          } catch (error) {
            if (MAY_ASSERT.has(name) && error instanceof ProgrammerError) return undefined;
            throw error;
          }
        });
        expect(badNumber(answer)).toBeUndefined();
        expect(took).toBeLessThan(LONG.has(name) ? 5 * HANG : HANG);
      }),
      { numRuns: runs },
    );
  });

  it('would find NaN, infinity and a plain exception', () => {
    expect(badNumber({ a: [1, NaN] })).toBe('the answer.a.1 is NaN');
    expect(badNumber(new Map([['x', Infinity]]))).toBe('the answer.x is Infinity');
    expect(badNumber({ a: [1, '2', null], b: undefined })).toBeUndefined();
  });
});
