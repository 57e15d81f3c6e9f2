import { describe, expect, it } from 'vitest';
import {
  DEFAULT_TOLERANCE,
  evenCentres,
  inches,
  increment,
  lengthOf,
  makeSpecification,
  type Depth,
  type SpecificationDraft,
} from '../../src/keying/index.ts';

const depths: readonly Depth[] = [
  { symbol: '3', root: inches(0.25) },
  { symbol: '1', root: inches(0.3) },
  { symbol: '2', root: inches(0.275) },
];
const good: SpecificationDraft = {
  name: 'any',
  title: '',
  unit: 'in',
  gauge: 'shoulder',
  order: 'bow-to-tip',
  positions: 5,
  first: inches(0.25),
  spacing: inches(0.156),
  depths,
  rootWidth: inches(0.05),
  angle: 90,
  macs: 2,
};
const faults = (change: Partial<SpecificationDraft>) => {
  const made = makeSpecification({ ...good, ...change });
  return made.ok ? [] : made.error;
};
const without = (field: keyof SpecificationDraft): SpecificationDraft => {
  const kept = Object.entries(good).filter(([name]) => name !== field);
  return Object.fromEntries(kept) as unknown as SpecificationDraft;
};

/** 0.020 in, then 0.018 in. */
const UNEVEN = [0.3, 0.28, 0.262].map((root, i) => ({ symbol: String(i + 1), root: inches(root) }));

describe('makeSpecification', () => {
  it('sorts the depths from shallow to deep and fills in step and tolerance', () => {
    const made = makeSpecification(good);
    expect(made).toMatchObject({
      ok: true,
      value: { step: 1, tolerance: DEFAULT_TOLERANCE, centres: evenCentres(inches(0.25), inches(0.156), 5) },
    });
    expect(made.ok && made.value.depths.map((d) => d.symbol)).toEqual(['1', '2', '3']);
  });

  it('keeps a step and a tolerance that the shop gives', () => {
    expect(makeSpecification({ ...good, step: 2, tolerance: inches(0.003) })).toMatchObject({
      ok: true,
      value: { step: 2, tolerance: inches(0.003) },
    });
  });

  it.each<[Partial<SpecificationDraft>, object[]]>([
    [{ name: ' ' }, [{ code: 'name-missing' }]],
    [{ positions: 3 }, [{ code: 'positions-out-of-range', found: 3, least: 4, most: 8 }]],
    [{ positions: 9 }, [{ code: 'positions-out-of-range', found: 9, least: 4, most: 8 }]],
    [{ positions: 5.5 }, [{ code: 'positions-out-of-range', found: 5.5, least: 4, most: 8 }]],
    [{ first: lengthOf(0) }, [{ code: 'centres-not-rising', position: 1 }]],
    [{ spacing: lengthOf(0) }, [{ code: 'centres-not-rising', position: 2 }]],
    [{ centres: [1, 2, 3, 4].map(lengthOf) }, [{ code: 'centres-count', found: 4, expected: 5 }]],
    [{ centres: [1, 2, 2, 4, 5].map(lengthOf) }, [{ code: 'centres-not-rising', position: 3 }]],
    [{ centres: [0, 1, 2, 3, 4].map(lengthOf) }, [{ code: 'centres-not-rising', position: 1 }]],
    [
      { depths: [...depths, { symbol: '4', root: inches(0.25) }] },
      [{ code: 'depth-root-repeated', symbol: '4', other: '3' }],
    ],
    [
      { depths: [...depths, { symbol: '3', root: inches(0.2) }] },
      [{ code: 'depth-symbol-repeated', symbol: '3' }],
    ],
    [{ depths: [...depths, { symbol: '', root: inches(0.2) }] }, [{ code: 'depth-symbol-bad', symbol: '' }]],
    [
      { depths: [...depths, { symbol: '123', root: inches(0.2) }] },
      [{ code: 'depth-symbol-bad', symbol: '123' }],
    ],
    [{ depths: [...depths, { symbol: '4', root: lengthOf(0) }] }, [{ code: 'depth-root-bad', symbol: '4' }]],
    [{ bladeHeight: inches(0.299) }, [{ code: 'depth-above-blade', symbol: '1' }]],
    [{ plugDiameter: inches(0.3) }, [{ code: 'depth-below-plug', symbol: '1' }]],
    [{ rootWidth: lengthOf(0) }, [{ code: 'not-positive', field: 'rootWidth' }]],
    [{ angle: 0 }, [{ code: 'not-positive', field: 'angle' }]],
    [{ angle: NaN }, [{ code: 'not-positive', field: 'angle' }]],
    [{ tolerance: lengthOf(-1) }, [{ code: 'not-positive', field: 'tolerance' }]],
    [{ targetStack: lengthOf(0) }, [{ code: 'not-positive', field: 'targetStack' }]],
    [{ angle: 180 }, [{ code: 'angle-too-wide', found: 180 }]],
    [{ macs: 0 }, [{ code: 'macs-bad', found: 0, most: 2 }]],
    [{ macs: 3 }, [{ code: 'macs-bad', found: 3, most: 2 }]],
    [{ step: 0 }, [{ code: 'step-bad', found: 0, most: 2 }]],
    [{ step: 3 }, [{ code: 'step-bad', found: 3, most: 2 }]],
    [{ core: { total: 0, addition: 7 } }, [{ code: 'core-bad', field: 'total' }]],
    [{ core: { total: 16, addition: 6.9 } }, [{ code: 'core-bad', field: 'addition' }]],
    [
      { core: { total: 16, addition: 7 }, depths: UNEVEN },
      [{ code: 'core-depths-uneven', from: '2', to: '3' }],
    ],
  ])('refuses %j', (change, expected) => {
    expect(faults(change)).toEqual(expected);
  });

  it('takes a depth at the full height of the blade: a place that is not cut', () => {
    expect(faults({ bladeHeight: inches(0.3) })).toEqual([]);
  });

  it('takes a letter in either case for one symbol, as codes are read', () => {
    const lettered = ['a', 'B', 'A'].map((symbol, i) => ({ symbol, root: inches(0.3 - i * 0.03) }));
    expect(faults({ depths: lettered })).toEqual([{ code: 'depth-symbol-repeated', symbol: 'A' }]);
  });

  it('asks for the places of the cuts', () => {
    for (const field of ['first', 'spacing'] as const)
      expect(makeSpecification(without(field))).toEqual({ ok: false, error: [{ code: 'centres-missing' }] });
  });

  it('needs two depths and takes twenty-six', () => {
    const many = (count: number) =>
      Array.from({ length: count }, (_, i) => ({
        symbol: String(i),
        root: lengthOf(10_000_000 - i * 300_000),
      }));
    expect(faults({ depths: many(1), macs: 1 }).map((f) => f.code)).toEqual(['depths-too-few']);
    expect(faults({ depths: many(26) })).toEqual([]);
    expect(faults({ depths: many(27) })).toEqual([{ code: 'depths-too-many', found: 27, most: 26 }]);
  });

  it('returns every fault, not the first', () => {
    expect(faults({ name: '', positions: 2, angle: 200, macs: 9 }).map((f) => f.code)).toEqual([
      'name-missing',
      'positions-out-of-range',
      'angle-too-wide',
      'macs-bad',
    ]);
  });
});

it('takes the smallest difference of uneven depths as the increment', () => {
  const uneven = [0.3, 0.27, 0.25, 0.2].map((root, i) => ({ symbol: String(i), root: inches(root) }));
  expect(increment([...uneven].reverse())).toBe(inches(0.02));
});
