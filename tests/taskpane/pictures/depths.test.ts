import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DepthPicture } from '../../../taskpane/pictures/DepthPicture.tsx';
import { depthUse, largestJump } from '../../../taskpane/pictures/depthUse.ts';
import { keysArbitrary } from '../../support/keyingArbitraries.ts';
import { key, starter } from '../../support/keys.ts';
import { attributes, drawnTexts, render, tableRows } from './markup.ts';

const spec = starter('S-018-6');

describe('depths in use', () => {
  it('counts cuts and neighbours', () => {
    // by hand: 2-7-4-1-5-3 has jumps 5 3 3 4 2
    const use = depthUse(spec, [key(spec, '274153')]);
    expect(use.uses).toEqual([0, 1, 1, 1, 1, 1, 0, 1, 0, 0]);
    expect(use.bySteps).toEqual([0, 0, 1, 2, 1, 1, 0, 0, 0, 0]);
    expect(use.beside[2]![7]).toBe(1);
    expect(largestJump(use)).toBe(5);
    expect(largestJump(depthUse(spec, []))).toBeUndefined();
  });

  it('leaves out no cut and no neighbour', () => {
    fc.assert(
      fc.property(keysArbitrary(5), ({ spec, bittings }) => {
        const use = depthUse(spec, bittings);
        const sum = (list: readonly number[]) => list.reduce((a, b) => a + b, 0);
        expect(sum(use.uses)).toBe(5 * spec.centres.length);
        expect(sum(use.bySteps)).toBe(5 * (spec.centres.length - 1));
        expect(sum(use.beside.flat())).toBe(sum(use.bySteps));
        expect(use.beyond).toBe(sum(use.bySteps.slice(spec.macs + 1)));
      }),
    );
  });
});

describe('the picture of depths', () => {
  const codes = ['274153', '128345', '111222'];
  const markup = render(DepthPicture, { spec, bittings: codes.map((c) => key(spec, c)) });

  it('draws a square for each pair that occurs and rings the ones beyond MACS', () => {
    const pairs = new Set(codes.flatMap((c) => [...c].slice(1).map((to, i) => `${c[i]}${to}`)));
    expect(attributes(markup, 'data-count')).toHaveLength(pairs.size);
    // 2 beside 8 differs by 6, this spec allows 5
    expect(markup.match(/<circle/g)).toHaveLength(1);
    expect(markup).toContain('Hatched: beyond MACS 5');
  });

  it('writes the counts into the drawing and the list', () => {
    const counts = [...'0123456789'].map((d) => String([...codes.join('')].filter((c) => c === d).length));
    const [byDepth, bySteps] = [tableRows(markup).slice(0, 10), tableRows(markup).slice(11)];
    expect(byDepth.map((row) => row[1])).toEqual(counts);
    expect(bySteps.find((row) => row[0] === '6')).toEqual(['6', '1', '6.7 %', 'beyond MACS']);
    for (const count of counts) expect(drawnTexts(markup)).toContain(count);
  });

  it('can draw an empty list', () => {
    const empty = render(DepthPicture, { spec, bittings: [] });
    expect(empty).toContain('0 bittings, 0 cuts');
    expect(empty).not.toMatch(/NaN|Infinity/);
  });
});
