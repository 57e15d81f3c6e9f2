/** Specs by numbers alone and random systems for tests of master keying. */
import fc from 'fast-check';
import {
  bittingOf,
  inches,
  makeSpecification,
  pinnedFor,
  type AuditInput,
  type AuditKey,
  type AuditCylinder,
  type Bitting,
  type CoreStack,
  type Order,
  type Specification,
} from '../../src/keying/index.ts';
import { depthSetOf, EVERY } from '../../src/keying/depthSet.ts';

export interface Plain {
  readonly positions: number;
  readonly depths: number;
  readonly increment: number;
  readonly macs: number;
  readonly step?: number;
  readonly core?: CoreStack;
  /** From the bow when left out; the gauge is the shoulder, so read from the tip a short blank lacks the first cuts. */
  readonly order?: Order;
}

/** A spec of even depths, symbols from 0 for the shallowest. */
export function plainSpec({
  positions,
  depths,
  increment,
  macs,
  order = 'bow-to-tip',
  ...rest
}: Plain): Specification {
  const made = makeSpecification({
    name: 'plain',
    title: 'even depths',
    unit: 'in',
    gauge: 'shoulder',
    order,
    positions,
    first: inches(0.2),
    spacing: inches(0.156),
    depths: Array.from({ length: depths }, (_, i) => ({
      symbol: String(i),
      root: inches(0.33 - i * increment),
    })),
    rootWidth: inches(0.05),
    angle: 90,
    macs,
    plugDiameter: inches(0.5),
    ...rest,
  });
  if (!made.ok) throw new Error(made.error.map((fault) => fault.code).join());
  return made.value;
}

/** The digits of a code as a bitting of `plainSpec`. */
export const cutsOf = (spec: Specification, code: string): Bitting => bittingOf(spec, [...code].map(Number));

/**
 * Random systems with everything that an audit looks at: few depths so that keys often fit by accident, empty
 * chambers, short blanks, several keyways, free and lost bittings, control keys.
 */
export function auditInputArbitrary(
  core: boolean,
  order: Order = 'bow-to-tip',
  repeated = false,
): fc.Arbitrary<AuditInput> {
  const spec = core
    ? plainSpec({
        positions: 4,
        depths: 5,
        increment: 0.0125,
        macs: 2,
        step: 2,
        order,
        core: { total: 12, addition: 5 },
      })
    : plainSpec({ positions: 4, depths: 5, increment: 0.015, macs: 2, step: 2, order });
  const cuts = fc.array(fc.nat({ max: 4 }), { minLength: 4, maxLength: 4 }).map((c) => bittingOf(spec, c));
  const keyway = fc.constantFrom(undefined, 'K1', 'k1', 'K2', 'K3');
  const given = <K extends string, V>(name: K, value: V | undefined): { [P in K]?: V } =>
    (value === undefined ? {} : { [name]: value }) as { [P in K]?: V };
  const key: fc.Arbitrary<AuditKey> = fc
    .record({
      bitting: cuts,
      cuts: fc.constantFrom(undefined, undefined, 3),
      keyway,
      status: fc.constantFrom('issued' as const, 'issued' as const, 'retired' as const, 'free' as const),
      control: fc.constantFrom(undefined, undefined, true as const),
    })
    .map(({ bitting, status, ...rest }) => ({
      symbol: '',
      bitting,
      status,
      ...given('cuts', rest.cuts),
      ...given('keyway', rest.keyway),
      ...given('control', core ? rest.control : undefined),
    }));
  const chamber = fc.oneof(
    { arbitrary: fc.constant(EVERY), weight: 1 },
    {
      arbitrary: fc.uniqueArray(fc.nat({ max: 4 }), { minLength: 1, maxLength: 3 }).map(depthSetOf),
      weight: 4,
    },
  );
  const cylinder: fc.Arbitrary<AuditCylinder> = fc
    .record({
      chambers: fc.oneof(
        fc.array(chamber, { minLength: 4, maxLength: 4 }),
        fc.array(cuts, { minLength: 1, maxLength: 3 }).map((keys) => pinnedFor(spec, keys)),
      ),
      keyway,
      control: fc.option(cuts, { nil: undefined }),
    })
    .map(({ chambers, ...rest }) => ({
      id: '',
      chambers,
      ...given('keyway', rest.keyway),
      ...given('control', core ? rest.control : undefined),
    }));
  return fc
    .record({
      drawn: fc.array(key, { minLength: 1, maxLength: 25 }),
      // now and then a key has the cuts of one before it, named by its number
      twins: fc.array(fc.nat({ max: 99 }), { minLength: 25, maxLength: 25 }),
      cylinders: fc.array(cylinder, { minLength: 1, maxLength: 12 }),
      marks: fc.array(fc.array(fc.nat({ max: 24 }), { maxLength: 4 }), { minLength: 12, maxLength: 12 }),
      opened: fc.boolean(),
      // pinned for the keys that are marked, or right marks would be rare
      fitted: fc.array(fc.boolean(), { minLength: 12, maxLength: 12 }),
      // repeated: few symbols now and then, so that a symbol stands in several rows
      symbols: repeated ? fc.constantFrom(25, 25, 4) : fc.constant(25),
      named: fc.array(fc.option(fc.integer({ min: 1, max: 26 }), { nil: undefined }), {
        minLength: 12,
        maxLength: 12,
      }),
    })
    .map(({ drawn, twins, cylinders, marks, opened, fitted, symbols, named }) => {
      const keys = drawn.map((one, i) =>
        twins[i]! < i ? { ...one, bitting: drawn[twins[i]!]!.bitting } : one,
      );
      const intended = cylinders.map((_, c) => [...new Set(marks[c]!.filter((k) => k < keys.length))]);
      const fit = (c: number): Partial<AuditCylinder> => {
        const marked = intended[c]!.map((k) => keys[k]!);
        if (!fitted[c] || marked.length === 0) return {};
        return {
          chambers: spec.centres.map((_, i) => depthSetOf(marked.map(({ bitting }) => bitting[i]!))),
          ...given('control', marked.find(({ control }) => control)?.bitting),
        };
      };
      return {
        spec,
        keys: keys.map((k, i) => ({ ...k, symbol: `AA${(i % symbols) + 1}` })),
        cylinders: cylinders.map((c, i) => ({
          ...c,
          ...fit(i),
          id: `C${i + 1}`,
          ...given('symbol', named[i] === undefined ? undefined : `AA${named[i]}`),
        })),
        intended,
        ...(opened ? { enters: { K1: ['K2'], K3: ['k2'] } } : {}),
      };
    });
}
