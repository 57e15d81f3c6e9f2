/** Every comparison of the report as a test, and that the report is as wide as it says. */
import { describe, expect, it } from 'vitest';
import { agrees, COMPARISONS, type Comparison } from './comparisons.ts';
import { SOURCES } from './values.ts';

describe('published values', () => {
  it.each(COMPARISONS.map((c) => [c.what, c] as const))('%s', (_, comparison) => {
    const ours = comparison.ours();
    if (comparison.within === undefined) expect(ours).toEqual(comparison.theirs);
    else expect(agrees(comparison, ours), `${String(ours)} against ${String(comparison.theirs)}`).toBe(true);
  });

  it('are at least 60 from at least 8 sources, each named once', () => {
    expect(COMPARISONS.length).toBeGreaterThanOrEqual(60);
    expect(new Set(COMPARISONS.map((c) => c.source)).size).toBeGreaterThanOrEqual(8);
    expect(new Set(COMPARISONS.map((c) => c.source))).toEqual(new Set(Object.keys(SOURCES)));
    expect(new Set(COMPARISONS.map((c) => `${c.source} ${c.what}`)).size).toBe(COMPARISONS.length);
  });

  it('fail where ours is another value', () => {
    const one: Comparison = { what: 'x', source: 'inch', theirs: 1, ours: () => 2 };
    expect(agrees(one, 2)).toBe(false);
    expect(agrees(one, '1')).toBe(false);
    expect(agrees({ ...one, theirs: [1, null] }, [1])).toBe(false);
    expect(agrees({ ...one, within: 0.5 }, 1.6)).toBe(false);
    expect(agrees({ ...one, within: 0.5 }, NaN)).toBe(false);
    expect(agrees({ ...one, within: 0.5 }, 1.4)).toBe(true);
  });
});
