/** What the functions of the keying room are called with: good specs and bittings, and everything else anyhow. */
import fc from 'fast-check';
import * as keying from '../../src/keying/index.ts';
import type {
  AuditInput,
  Bitting,
  BittingFinding,
  DateCell,
  ImportCell,
  Length,
  Mark,
  Specification,
  SpecificationDraft,
  SymbolOptions,
  SystemRequest,
  Unit,
} from '../../src/keying/index.ts';
import { depthSetOf, EVERY, NONE, type DepthSet } from '../../src/keying/depthSet.ts';
import { runToEnd, type KeySystem, type Steps } from '../../src/keying/system.ts';
import { bittingArbitrary, specArbitrary } from '../support/keyingArbitraries.ts';
import { auditInputArbitrary, plainSpec } from '../support/systems.ts';
import { finite, text } from './hostile.ts';

/** Arbitrary calls of one function. */
export type Calls = fc.Arbitrary<() => unknown>;

export const any = {
  spec: specArbitrary(),
  unit: fc.constantFrom<Unit>('in', 'mm'),
  small: fc.integer({ min: -2, max: 30 }),
  length: fc.oneof(
    fc.integer({ min: -1_000_000_000, max: 1_000_000_000 }),
    fc.constantFrom(0, 1, -1, 254_000, 457_200),
  ) as fc.Arbitrary<Length>,
  code: fc.oneof(text, finite),
  list: fc.array(text, { maxLength: 8 }),
  levels: fc.constantFrom(2, 3, 4, 5, 6) as fc.Arbitrary<2 | 3 | 4 | 5 | 6>,
};
export const options: fc.Arbitrary<SymbolOptions> = fc.record(
  { levels: any.levels, avoid: fc.constantFrom('IO', 'IOQ', '', 'ABCDEFGHIJKLMNOPQRSTUVWXYZ') },
  { requiredKeys: [] },
);
export const cell: fc.Arbitrary<ImportCell> = fc.oneof(
  text,
  finite,
  fc.boolean(),
  fc.record({
    serial: fc.oneof(
      fc.integer({ min: -1000, max: 80_000 }),
      fc.double({ min: 0, max: 3_000_000, noNaN: true }),
    ),
    shown: text,
  }) as fc.Arbitrary<DateCell>,
);
export const table = fc.array(fc.array(cell, { maxLength: 6 }), { maxLength: 8 });

export interface Keys {
  readonly spec: Specification;
  readonly bittings: Bitting[];
  readonly chambers: DepthSet[];
}
/** A spec, four bittings of it, and a cylinder. */
export const keys: fc.Arbitrary<Keys> = any.spec.chain((spec) => {
  const chamber = fc.oneof(
    { weight: 1, arbitrary: fc.constantFrom(EVERY, NONE) },
    {
      weight: 4,
      arbitrary: fc
        .uniqueArray(fc.nat({ max: spec.depths.length - 1 }), { minLength: 1, maxLength: 4 })
        .map(depthSetOf),
    },
  );
  const count = keying.positions(spec);
  return fc.record({
    spec: fc.constant(spec),
    bittings: fc.array(bittingArbitrary(spec), { minLength: 4, maxLength: 4 }),
    chambers: fc.array(chamber, { minLength: count, maxLength: count }),
  });
});

export const withKeys = (call: (given: Keys) => unknown): Calls => keys.map((given) => () => call(given));
export const withText = (call: (given: string) => unknown): Calls => text.map((given) => () => call(given));
export const of = <T>(arbitrary: fc.Arbitrary<T>, call: (given: T) => unknown): Calls =>
  arbitrary.map((given) => () => call(given));

export const core = plainSpec({
  positions: 6,
  depths: 10,
  increment: 0.0125,
  macs: 9,
  core: { total: 23, addition: 10 },
});
export const coreKeys: fc.Arbitrary<Keys> = fc.record({
  spec: fc.constant(core),
  bittings: fc.array(bittingArbitrary(core), { minLength: 4, maxLength: 4 }),
  chambers: fc.array(fc.uniqueArray(fc.nat({ max: 9 }), { minLength: 1, maxLength: 3 }).map(depthSetOf), {
    minLength: 6,
    maxLength: 6,
  }),
});

/** Drafts with a number or two out of all bounds. */
export const draft: fc.Arbitrary<SpecificationDraft> = fc
  .record({
    name: text,
    positions: fc.oneof(fc.constant(6), finite),
    first: any.length,
    spacing: any.length,
    symbols: fc.oneof(any.list, fc.constant<string[]>(['0', '1', '2', '3'])),
    roots: fc.array(any.length, { minLength: 8, maxLength: 8 }),
    rootWidth: any.length,
    angle: fc.oneof(fc.constant(90), finite),
    macs: fc.oneof(fc.constant(2), finite),
    step: fc.option(finite, { nil: undefined }),
    core: fc.option(fc.record({ total: finite, addition: finite }), { nil: undefined }),
  })
  .map(({ symbols, roots, step, core: stack, ...rest }) => ({
    ...rest,
    title: '',
    unit: 'in',
    gauge: 'shoulder',
    order: 'bow-to-tip',
    depths: symbols.map((symbol, i) => ({ symbol, root: roots[i]! })),
    ...(step !== undefined && { step }),
    ...(stack && { core: stack }),
  }));

/** Findings to be put into words: those of a bitting of the wrong kind, and those of a code that can't be read. */
export const findings: fc.Arbitrary<BittingFinding[]> = fc
  .tuple(keys, any.code)
  .map(([{ spec, bittings }, code]) => {
    const read = keying.parseBitting(spec, code);
    const rules = { ...keying.DEFAULT_RULES, grade: 6, pullsOutTurned: true } as const;
    return [...keying.checkBitting(spec, bittings[0]!, rules), ...(read.ok ? [] : read.error)];
  });

export const request: fc.Arbitrary<SystemRequest> = fc
  .record({
    spec: fc.constantFrom(plainSpec({ positions: 6, depths: 10, increment: 0.018, macs: 5 }), core),
    levels: fc.constantFrom(2, 3, 4) as fc.Arbitrary<2 | 3 | 4>,
    grands: fc.nat({ max: 3 }),
    masters: fc.nat({ max: 5 }),
    changeKeys: fc.nat({ max: 40 }),
    spares: fc.nat({ max: 5 }),
    top: fc.option(fc.array(fc.nat({ max: 9 }), { minLength: 6, maxLength: 6 }), { nil: undefined }),
    seed: fc.integer(),
    minimumDifference: fc.constantFrom(1, 2, 6, 9),
    constants: fc.integer({ min: -1, max: 7 }),
    kind: fc.constantFrom('total', 'partial', 'rotating'),
    name: text,
  })
  .map(({ grands, masters, changeKeys, spares, top, kind, constants, ...rest }) => ({
    ...rest,
    grands: keying.evenTree(rest.levels, {
      grands: Math.max(1, grands),
      masters: Math.max(1, masters),
      changeKeys,
      spares,
    }),
    progression:
      kind === 'total'
        ? { kind: 'total' }
        : kind === 'partial'
          ? { kind: 'partial', constant: [constants] }
          : { kind: 'rotating', constants },
    ...(top && { topMaster: keying.bittingOf(rest.spec, top) }),
  }));

export const audited: fc.Arbitrary<AuditInput> = fc
  .oneof(auditInputArbitrary(false), auditInputArbitrary(true))
  .chain((input) =>
    fc.tuple(text, text).map(([keyway, symbol]) => ({
      ...input,
      keys: input.keys.map((key, i) => (i === 0 ? { ...key, keyway, symbol } : key)),
      cylinders: input.cylinders.map((c, i) => (i === 0 ? { ...c, symbol, id: keyway } : c)),
    })),
  );

export const system: fc.Arbitrary<{ system: KeySystem; marks: Mark[] }> = fc
  .tuple(keys, fc.array(fc.record({ symbol: text, parent: text }), { minLength: 4, maxLength: 4 }), any.list)
  .map(([{ spec, bittings, chambers }, named, ids]) => ({
    system: {
      name: 'any',
      spec,
      keys: named.map((n, i) => ({ ...n, level: 'CK', status: 'issued', bitting: bittings[i]! })),
      cylinders: ids.map((id, i) => ({ id, symbol: named[i % 4]!.symbol, chambers })),
    },
    marks: ids.map((id, i) => ({ cylinder: id, key: named[i % 4]!.symbol })),
  }));

/** Change depths over the first chambers. */
export const space = fc
  .array(fc.uniqueArray(fc.nat({ max: 9 }), { maxLength: 4 }), { maxLength: 5 })
  .map((all) => all.map((choices, chamber) => ({ chamber, master: 9, choices })));

export const run = <T>(steps: Steps<T>): T => runToEnd(steps);
