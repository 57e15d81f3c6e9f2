import { describe, expect, it } from 'vitest';
import {
  countWithinMacs,
  FROM_MEMORY,
  geometricMacs,
  makeSpecification,
  positions,
  STARTER_SPECS,
  starterSpec,
} from '../../src/keying/index.ts';

describe('starter specs', () => {
  it('have names of their own that no spreadsheet takes for a cell', () => {
    const names = STARTER_SPECS.map((spec) => spec.name);
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) {
      expect(name).not.toMatch(/^\$?[A-Z]{1,3}\$?\d+$/i);
      expect(name).not.toMatch(/^R\d*C\d*$/i);
    }
  });

  it.each(STARTER_SPECS.map((spec) => [spec.name, spec] as const))('%s is complete and sound', (_, spec) => {
    const { centres, ...rest } = spec;
    expect(makeSpecification({ ...rest, centres, positions: positions(spec) })).toEqual({
      ok: true,
      value: spec,
    });
    spec.centres.slice(1).forEach((centre, i) => expect(centre).toBeGreaterThan(spec.centres[i]!));
    spec.depths.slice(1).forEach((depth, i) => expect(depth.root).toBeLessThan(spec.depths[i]!.root));
    expect(spec.macs).toBeLessThanOrEqual(geometricMacs(spec));
    expect(spec.source).toBe(FROM_MEMORY);
    expect(spec.bladeHeight).toBeGreaterThan(spec.depths[0]!.root);
    expect(spec.plugDiameter).toBeGreaterThan(spec.bladeHeight!);
    // the top pin has room above the deepest cut's pins
    if (spec.targetStack !== undefined)
      expect(spec.targetStack).toBeGreaterThan(spec.plugDiameter! - spec.depths.at(-1)!.root);
    expect(countWithinMacs(spec.depths.length, positions(spec), spec.macs)).toBeGreaterThan(1_000);
  });

  it('cover both gauges, both units, cores, and a larger symbol for the shallower cut', () => {
    expect(new Set(STARTER_SPECS.map((spec) => spec.gauge)).size).toBe(2);
    expect(new Set(STARTER_SPECS.map((spec) => spec.unit)).size).toBe(2);
    expect(STARTER_SPECS.filter((spec) => spec.core).map((spec) => spec.step)).toEqual([2, 1, 1]);
    const upward = STARTER_SPECS.filter((spec) => spec.depths[0]!.symbol > spec.depths[1]!.symbol);
    expect(upward.map((spec) => spec.name)).toEqual(['M-050-5']);
  });

  it('are found by name in either case', () => {
    expect(starterSpec(' s-018-6 ')?.macs).toBe(5);
    expect(starterSpec('S-018')).toBeUndefined();
  });
});
