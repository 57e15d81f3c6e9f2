/**
 * EN 1303:2015, key-related security, as summarised in a locksmith lexicon (in Czech); the standard was not at hand.
 * Columns: grade, fewest effective differs, fewest movable detainers, largest share of equal cuts in percent, most
 * equal cuts side by side (null = no limit).
 */
import { describe, expect, it } from 'vitest';
import {
  checkBitting,
  EN1303,
  gradeReached,
  GRADES,
  isUsable,
  NO_RULES,
  type Grade,
} from '../../src/keying/index.ts';
import { key, starter } from '../support/keys.ts';
import { EN1303_TABLE } from './values.ts';

const six = starter('S-018-6');
const five = starter('S-025-5');
const codes = (spec: typeof six, code: string, grade: Grade) =>
  checkBitting(spec, key(spec, code), { ...NO_RULES, grade }).map((finding) => finding.code);

describe('EN 1303 grades', () => {
  it('holds the table', () => {
    expect(
      EN1303.map((r) => [r.grade, r.differs, r.detainers, r.equalShare, r.equalNeighbours ?? null]),
    ).toEqual(EN1303_TABLE);
    expect(GRADES).toEqual(EN1303_TABLE.map(([grade]) => grade));
  });

  it('lets half of six cuts be equal at grade 6, not four', () => {
    expect(codes(six, '242526', 6)).toEqual([]);
    expect(codes(six, '242522', 6)).toEqual(['grade-equal-share']);
    expect(codes(six, '242522', 5)).toEqual(['grade-equal-share']);
    expect(codes(six, '242522', 2)).toEqual([]);
    expect(codes(six, '222222', 1)).toEqual([]);
  });

  it('lets three of five cuts be equal at grades 3 to 5, not at grade 6', () => {
    for (const grade of [3, 4, 5] as const) expect(codes(five, '24252', grade)).toEqual([]);
    expect(codes(five, '24252', 6)).toEqual(['grade-equal-share']);
    expect(codes(five, '24222', 2)).toEqual(['grade-equal-share', 'grade-equal-neighbours']);
  });

  it('lets two equal cuts stand side by side, not three', () => {
    for (const grade of [2, 3, 4, 5, 6] as const) {
      expect(codes(six, '442256', grade)).toEqual([]);
      expect(codes(six, '422256', grade)).toEqual(['grade-equal-neighbours']);
      expect(isUsable(six, key(six, '422256'), { ...NO_RULES, grade })).toBe(false);
    }
    expect(codes(six, '422256', 1)).toEqual([]);
    expect(isUsable(six, key(six, '422256'), { ...NO_RULES, grade: 1 })).toBe(true);
  });

  it.each(EN1303_TABLE)(
    'reaches grade %i with %i differs and %i detainers, and no less',
    (grade, differs, detainers) => {
      expect(gradeReached(detainers, differs)).toBeGreaterThanOrEqual(grade);
      expect(gradeReached(detainers, differs - 1) ?? 0).toBeLessThan(grade);
      expect(gradeReached(detainers - 1, differs) ?? 0).toBeLessThan(grade);
    },
  );
});
