import { describe, expect, it } from 'vitest';
import { sayJudgement } from '../../src/keying/importWording.ts';
import { judgeReadings } from '../../src/keying/judge.ts';
import { inches } from '../../src/keying/units.ts';
import { key, starter } from '../support/keys.ts';

const six = starter('S-018-6');
const bitting = key(six, '274153');
const judge = (...readings: (number | undefined)[]) =>
  judgeReadings(
    six,
    bitting,
    readings.map((r) => (r === undefined ? undefined : inches(r))),
  );

// root depths 0.315 − 0.018 × depth worked out by hand; tolerance ±0.002 in: common practice
describe('judgeReadings', () => {
  it('passes a key within tolerance, to the tenth', () => {
    const good = judge(0.281, 0.187, 0.243, 0.297, 0.225, 0.261);
    expect(good).toMatchObject({ good: true, bad: false, missing: [] });
    expect(sayJudgement(six, good)).toBe('OK');
    expect(judge(0.2811, 0.189, 0.243, 0.297, 0.225, 0.261).bad).toBe(true);
  });

  it('does not let a wrong cut pass that is another depth exactly', () => {
    const wrong = judge(0.279, 0.189, 0.225, 0.297, 0.225, 0.261);
    expect(sayJudgement(six, wrong)).toBe(
      'Cut 3 reads 0.225, 0.018 too deep: that is a 5, and it should be a 4 (0.243).',
    );
  });

  it('says which way a cut is off, and what is not read yet', () => {
    expect(sayJudgement(six, judge(0.284, 0.189, 0.243, 0.297, 0.225, 0.261))).toBe(
      'Cut 1 reads 0.284, 0.005 too shallow for a 2 (0.279).',
    );
    expect(sayJudgement(six, judge(0.279, 0.189, undefined, undefined, undefined, undefined))).toBe(
      'Good so far. 4 cuts not read yet.',
    );
  });

  it('numbers the cuts along the code, read or not, and wants one place for each', () => {
    const judged = judge(0.279, undefined, 0.243, undefined, 0.225, 0.24);
    expect(judged.cuts.map((cut) => [cut.at, cut.symbol, cut.within])).toEqual([
      [1, '2', true],
      [3, '4', true],
      [5, '5', true],
      [6, '3', false],
    ]);
    expect(judged).toMatchObject({ missing: [2, 4], good: false, bad: true });
    expect(() => judge(0.279)).toThrow('6 cuts');
  });
});
