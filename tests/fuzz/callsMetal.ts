/** Lengths, specs, cuts, pins: calls with hostile input. */
import fc from 'fast-check';
import * as k from '../../src/keying/index.ts';
import { any, coreKeys, draft, keys, of, withKeys, withText, type Calls } from './given.ts';
import { number, text } from './hostile.ts';

export const METAL_CALLS: Readonly<Record<string, Calls>> = {
  add: of(fc.tuple(any.length, any.length), ([a, b]) => k.add(a, b)),
  bladeHeightAt: of(fc.tuple(keys, any.length), ([g, x]) => k.bladeHeightAt(g.spec, g.bittings[0]!, x)),
  bladeOutline: withKeys((g) => k.bladeOutline(g.spec, g.bittings[0]!)),
  bladeTop: of(any.spec, k.bladeTop),
  bottomPinLength: of(fc.tuple(any.spec, any.small), ([spec, i]) => k.bottomPinLength(spec, i)),
  centreAt: of(fc.tuple(any.spec, number), ([spec, n]) => k.centreAt(spec, n)),
  controlChoices: of(coreKeys, (g) => k.controlChoices(g.spec, g.chambers[0]!)),
  controlIsIncidental: withKeys((g) => k.controlIsIncidental(g.chambers, g.bittings[0]!)),
  coreFaults: of(coreKeys, (g) => k.coreFaults(g.spec, g.chambers, g.bittings[0]!)),
  coreStack: of(coreKeys, (g) => k.coreStack(g.spec, g.chambers[0]!, g.bittings[0]![0]!)),
  cutCentre: of(fc.tuple(any.spec, number), ([spec, n]) => k.cutCentre(spec, n)),
  cutCentres: of(any.spec, k.cutCentres),
  cutsFromStop: withKeys((g) => k.cutsFromStop(g.spec, g.bittings[0]!)),
  cutterFindings: of(
    fc.tuple(keys, fc.integer({ min: 10_000, max: 9_000_000 }), fc.integer({ min: 1, max: 179 })),
    ([g, flat, angle]) => k.cutterFindings(g.spec, g.bittings[0]!, { flat: k.lengthOf(flat), angle }),
  ),
  cutterOf: of(any.spec, k.cutterOf),
  decodeReadings: of(fc.tuple(any.spec, fc.array(any.length, { maxLength: 9 })), ([spec, readings]) =>
    k.decodeReadings(spec, readings),
  ),
  defaultStep: of(any.spec, (spec) => k.defaultStep(spec.depths)),
  eatenFlat: of(fc.tuple(any.spec, any.length, any.length), ([spec, drop, apart]) =>
    k.eatenFlat(spec, drop, apart),
  ),
  evenCentres: of(fc.tuple(any.length, any.length, fc.nat({ max: 8 })), ([first, gap, n]) =>
    k.evenCentres(first, gap, n),
  ),
  foldName: withText(k.foldName),
  formatLength: of(fc.tuple(any.length, any.unit), ([l, u]) => k.formatLength(l, u)),
  formatNumber: of(fc.tuple(any.length, any.unit), ([l, u]) => k.formatNumber(l, u)),
  fromStopOrder: withKeys((g) => k.fromStopOrder(g.spec, g.bittings[0]!)),
  geometricMacs: of(any.spec, (spec) => k.geometricMacs(spec)),
  inCodeOrder: withKeys((g) => k.inCodeOrder(g.spec, g.spec.centres)),
  inches: of(number, k.inches),
  increment: of(any.spec, (spec) => k.increment(spec.depths)),
  interferences: withKeys((g) => k.interferences(g.spec, g.bittings[0]!)),
  isThin: of(keys, (g) => k.isThin(g.spec, g.bittings[0]![0]!, g.bittings[1]![0]!)),
  judgeReadings: of(fc.tuple(keys, fc.array(any.length, { minLength: 4, maxLength: 8 })), ([g, readings]) =>
    k.judgeReadings(g.spec, g.bittings[0]!, readings),
  ),
  lengthOf: of(number, k.lengthOf),
  makeSpecification: of(draft, k.makeSpecification),
  millimetres: of(number, k.millimetres),
  nearestPin: of(fc.tuple(any.length, fc.array(any.length, { maxLength: 5 })), ([l, sizes]) =>
    k.nearestPin(l, sizes),
  ),
  neverRisesToTip: withKeys((g) => k.neverRisesToTip(g.spec, g.bittings[0]!)),
  parseLength: of(fc.tuple(fc.oneof(text, number), any.unit), ([l, u]) => k.parseLength(l, u)),
  pinStack: withKeys((g) => k.pinStack(g.spec, g.chambers[0]!)),
  positionOfSymbol: of(fc.tuple(any.spec, any.small), ([spec, n]) => k.positionOfSymbol(spec, n)),
  positions: of(any.spec, k.positions),
  publishedMacs: of(any.spec, (spec) =>
    k.publishedMacs(spec.centres[1]!, spec.rootWidth, k.increment(spec.depths), spec.angle),
  ),
  readSpecTable: of(
    fc.array(
      fc.array(fc.oneof(text, number, fc.boolean(), fc.constant(null)), { minLength: 22, maxLength: 22 }),
      { maxLength: 3 },
    ),
    (rows) => k.readSpecTable([k.SPEC_COLUMNS, ...rows]),
  ),
  rootDepths: withKeys((g) => k.rootDepths(g.spec, g.bittings[0]!)),
  sayJudgement: of(fc.tuple(keys, any.length), ([g, l]) =>
    k.sayJudgement(
      g.spec,
      k.judgeReadings(
        g.spec,
        g.bittings[0]!,
        g.bittings[0]!.map(() => l),
      ),
    ),
  ),
  saySpecFault: of(fc.array(fc.oneof(text, number), { minLength: 22, maxLength: 22 }), (row) =>
    k.readSpecTable([k.SPEC_COLUMNS, row]).faults.map(k.saySpecFault),
  ),
  sortDepths: of(any.spec, (spec) => k.sortDepths(spec.depths)),
  specTableRow: of(any.spec, k.specTableRow),
  starterSpec: withText(k.starterSpec),
  subtract: of(fc.tuple(any.length, any.length), ([a, b]) => k.subtract(a, b)),
  times: of(fc.tuple(any.length, number), ([l, n]) => k.times(l, n)),
  toUnit: of(fc.tuple(any.length, any.unit), ([l, u]) => k.toUnit(l, u)),
  wideningPasses: of(fc.tuple(any.spec, fc.integer({ min: 10_000, max: 9_000_000 })), ([spec, flat]) =>
    k.wideningPasses(spec, { flat: k.lengthOf(flat), angle: spec.angle }),
  ),
  worksControlLine: withKeys((g) => k.worksControlLine(g.chambers, g.bittings[0]!, g.bittings[1]!)),
};
