/** Cylinders, master keying, audit: calls with hostile input. */
import fc from 'fast-check';
import * as k from '../../src/keying/index.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { any, audited, keys, of, request, space, system, withKeys, type Calls } from './given.ts';

export const SYSTEMS_CALLS: Readonly<Record<string, Calls>> = {
  arrayFaults: of(
    fc.tuple(keys, fc.array(fc.array(any.small, { maxLength: 5 }), { maxLength: 9 })),
    ([g, array]) => k.arrayFaults(g.spec, g.bittings[0]!, array),
  ),
  auditInputOf: of(system, (g) => [k.auditInputOf(g.system), k.auditInputOf(g.system, g.marks)]),
  auditSystem: of(audited, (input) => runToEnd(k.auditSystem(input))),
  capacity: of(request, (r) => k.capacity(r)),
  countWithinMacs: of(fc.tuple(fc.nat({ max: 30 }), fc.nat({ max: 20 }), any.small), ([d, p, m]) =>
    k.countWithinMacs(d, p, m),
  ),
  countWithinMacsOf: withKeys((g) => k.countWithinMacsOf(g.chambers, g.spec.depths.length, g.spec.macs)),
  defaultArray: withKeys((g) => k.defaultArray(g.spec, g.bittings[0]!)),
  evenTree: of(fc.tuple(fc.nat({ max: 20 }), fc.nat({ max: 20 })), ([masters, changeKeys]) =>
    k.evenTree(3, { masters, changeKeys }),
  ),
  generateSystem: of(request, (r) => runToEnd(k.generateSystem(r))),
  inOrder: of(fc.tuple(fc.nat({ max: 300 }), fc.integer()), ([size, seed]) => [
    ...k.inOrder(size, 'scattered', seed),
  ]),
  incidentalBittings: withKeys((g) => {
    const found: unknown[] = [];
    for (const bitting of k.incidentalBittings(g.spec, g.chambers, g.bittings))
      if (found.push(bitting) > 50) break;
    return found;
  }),
  intendedByHierarchy: of(system, (g) => k.intendedByHierarchy(g.system.keys, g.system.cylinders)),
  intendedByMarks: of(system, (g) => k.intendedByMarks(g.system.keys, g.system.cylinders, g.marks)),
  levelChanges: of(fc.tuple(keys, fc.integer({ min: -1, max: 9 })), ([g, constants]) => {
    const array = k.defaultArray(g.spec, g.bittings[0]!);
    const sequence = array.map((_, i) => i);
    const deal = array.map((_, i) => (i % 2 === 0 ? ('CK' as const) : ('MK' as const)));
    return k.levelChanges(
      {
        levels: 3,
        topMaster: g.bittings[0]!,
        array,
        progression: { kind: 'rotating', constants },
        sequence,
        minimumDifference: 1,
      },
      deal,
      'CK',
    );
  }),
  levelsDealt: of(fc.constantFrom(2 as const, 3 as const, 4 as const), k.levelsDealt),
  masterExposure: of(any.spec, k.masterExposure),
  nearMissOf: of(fc.tuple(keys, any.length), ([g, within]) =>
    k.nearMissOf(g.spec, g.bittings[0]!, g.chambers, within),
  ),
  operates: withKeys((g) => k.operates(g.chambers, g.bittings[0]!)),
  operatingCount: withKeys((g) => k.operatingCount(g.spec, g.chambers)),
  operatingCountCuttable: withKeys((g) => k.operatingCountCuttable(g.spec, g.chambers)),
  pinnedFor: withKeys((g) => k.pinnedFor(g.spec, g.bittings)),
  rotatingConstantChanges: of(
    fc.tuple(fc.array(fc.nat({ max: 9 }), { maxLength: 8 }), any.small),
    ([choices, constants]) => k.rotatingConstantChanges(choices, constants),
  ),
  rotatingSpace: of(fc.tuple(space, fc.nat({ max: 5 })), ([over, constants]) => {
    const found = k.rotatingSpace(over, constants);
    const cuts = [9, 9, 9, 9, 9];
    if (found.size > 0) found.at(found.size - 1, cuts);
    return [found.size, cuts];
  }),
  scatterOf: of(fc.tuple(fc.nat({ max: 1_000 }), fc.integer()), ([size, seed]) =>
    k.scatterOf(size, seed)(Math.max(0, size - 1)),
  ),
  theoreticalChanges: withKeys((g) => k.theoreticalChanges(k.defaultArray(g.spec, g.bittings[0]!))),
  totalSpace: of(space, (over) => {
    const found = k.totalSpace(over);
    const cuts = [9, 9, 9, 9, 9];
    if (found.size > 0) found.at(found.size - 1, cuts);
    return [found.size, cuts];
  }),
  whyNotOperates: withKeys((g) => k.whyNotOperates(g.spec, g.chambers, g.bittings[0]!)),
};
