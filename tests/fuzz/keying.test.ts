/**
 * Every public function of the keying room with input that nobody should give it: it answers, with a typed fault where
 * it must, and never throws, never gives NaN and never hangs. A function that states in its doc comment that it throws
 * on a mistake of ours may do so, with `ProgrammerError` and nothing else. A new export must be added here: the first
 * test says which is missing.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as keying from '../../src/keying/index.ts';
import type {
  AuditInput,
  Bitting,
  BittingFinding,
  ColumnRole,
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
import { ProgrammerError } from '../../src/keying/result.ts';
import { runToEnd, type KeySystem, type Steps } from '../../src/keying/system.ts';
import { bittingArbitrary, specArbitrary } from '../support/keyingArbitraries.ts';
import { auditInputArbitrary, cutsOf, plainSpec } from '../support/systems.ts';
import { badNumber, finite, HANG, number, runsFor, text, timed } from './hostile.ts';

type Call = () => unknown;
type Calls = fc.Arbitrary<Call>;

const k = keying;
const any = {
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
const options: fc.Arbitrary<SymbolOptions> = fc.record(
  { levels: any.levels, avoid: fc.constantFrom('IO', 'IOQ', '', 'ABCDEFGHIJKLMNOPQRSTUVWXYZ') },
  { requiredKeys: [] },
);
const cell: fc.Arbitrary<ImportCell> = fc.oneof(
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
const table = fc.array(fc.array(cell, { maxLength: 6 }), { maxLength: 8 });

interface Keys {
  readonly spec: Specification;
  readonly bittings: Bitting[];
  readonly chambers: DepthSet[];
}
/** A spec, four bittings of it, and a cylinder. */
const keys: fc.Arbitrary<Keys> = any.spec.chain((spec) => {
  const chamber = fc.oneof(
    { weight: 1, arbitrary: fc.constantFrom(EVERY, NONE) },
    {
      weight: 4,
      arbitrary: fc
        .uniqueArray(fc.nat({ max: spec.depths.length - 1 }), { minLength: 1, maxLength: 4 })
        .map(depthSetOf),
    },
  );
  const count = k.positions(spec);
  return fc.record({
    spec: fc.constant(spec),
    bittings: fc.array(bittingArbitrary(spec), { minLength: 4, maxLength: 4 }),
    chambers: fc.array(chamber, { minLength: count, maxLength: count }),
  });
});

const withKeys = (call: (given: Keys) => unknown): Calls => keys.map((given) => () => call(given));
const withText = (call: (given: string) => unknown): Calls => text.map((given) => () => call(given));
const of = <T>(arbitrary: fc.Arbitrary<T>, call: (given: T) => unknown): Calls =>
  arbitrary.map((given) => () => call(given));

const core = plainSpec({
  positions: 6,
  depths: 10,
  increment: 0.0125,
  macs: 9,
  core: { total: 23, addition: 10 },
});
const coreKeys: fc.Arbitrary<Keys> = fc.record({
  spec: fc.constant(core),
  bittings: fc.array(bittingArbitrary(core), { minLength: 4, maxLength: 4 }),
  chambers: fc.array(fc.uniqueArray(fc.nat({ max: 9 }), { minLength: 1, maxLength: 3 }).map(depthSetOf), {
    minLength: 6,
    maxLength: 6,
  }),
});

/** Drafts with a number or two out of all bounds. */
const draft: fc.Arbitrary<SpecificationDraft> = fc
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
const findings: fc.Arbitrary<BittingFinding[]> = fc
  .tuple(keys, any.code)
  .map(([{ spec, bittings }, code]) => {
    const read = k.parseBitting(spec, code);
    const rules = { ...k.DEFAULT_RULES, grade: 6, pullsOutTurned: true } as const;
    return [...k.checkBitting(spec, bittings[0]!, rules), ...(read.ok ? [] : read.error)];
  });

const request: fc.Arbitrary<SystemRequest> = fc
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
    grands: k.evenTree(rest.levels, {
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
    ...(top && { topMaster: k.bittingOf(rest.spec, top) }),
  }));

const audited: fc.Arbitrary<AuditInput> = fc
  .oneof(auditInputArbitrary(false), auditInputArbitrary(true))
  .chain((input) =>
    fc.tuple(text, text).map(([keyway, symbol]) => ({
      ...input,
      keys: input.keys.map((key, i) => (i === 0 ? { ...key, keyway, symbol } : key)),
      cylinders: input.cylinders.map((c, i) => (i === 0 ? { ...c, symbol, id: keyway } : c)),
    })),
  );

const system: fc.Arbitrary<{ system: KeySystem; marks: Mark[] }> = fc
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
const space = fc
  .array(fc.uniqueArray(fc.nat({ max: 9 }), { maxLength: 4 }), { maxLength: 5 })
  .map((all) => all.map((choices, chamber) => ({ chamber, master: 9, choices })));

const run = <T>(steps: Steps<T>): T => runToEnd(steps);

const CALLS: Record<string, Calls> = {
  add: of(fc.tuple(any.length, any.length), ([a, b]) => k.add(a, b)),
  arrayFaults: of(
    fc.tuple(keys, fc.array(fc.array(any.small, { maxLength: 5 }), { maxLength: 9 })),
    ([g, array]) => k.arrayFaults(g.spec, g.bittings[0]!, array),
  ),
  auditInputOf: of(system, (g) => [k.auditInputOf(g.system), k.auditInputOf(g.system, g.marks)]),
  auditSystem: of(audited, (input) => run(k.auditSystem(input))),
  bittingOf: of(fc.tuple(any.spec, fc.array(any.small, { maxLength: 9 })), ([spec, indices]) =>
    k.bittingOf(spec, indices),
  ),
  bladeHeightAt: of(fc.tuple(keys, any.length), ([g, x]) => k.bladeHeightAt(g.spec, g.bittings[0]!, x)),
  bladeOutline: withKeys((g) => k.bladeOutline(g.spec, g.bittings[0]!)),
  bladeTop: of(any.spec, k.bladeTop),
  bottomPinLength: of(fc.tuple(any.spec, any.small), ([spec, i]) => k.bottomPinLength(spec, i)),
  canonicalCode: of(fc.tuple(any.spec, cell), ([spec, c]) => k.canonicalCode(spec, k.readCode(spec, c))),
  capacity: of(request, (r) => k.capacity(r)),
  centreAt: of(fc.tuple(any.spec, number), ([spec, n]) => k.centreAt(spec, n)),
  changeSymbol: of(fc.tuple(text, any.small, any.levels), ([master, n, levels]) =>
    k.changeSymbol(master, n, levels),
  ),
  checkBitting: of(fc.tuple(keys, text), ([g, self]) =>
    k.checkBitting(g.spec, g.bittings[0]!, k.DEFAULT_RULES, {
      self,
      master: { symbol: self, bitting: g.bittings[1]! },
    }),
  ),
  checkBittings: of(fc.tuple(keys, text), ([g, symbol]) =>
    k.checkBittings(
      g.spec,
      g.bittings.map((bitting) => ({ symbol, bitting })),
    ),
  ),
  checkList: of(fc.tuple(keys, text), ([g, symbol]) => {
    const list = g.bittings.map((bitting) => ({ symbol, bitting, status: 'issued' as const }));
    const cylinders = [{ id: symbol, symbol, chambers: g.chambers }];
    return run(k.checkList({ spec: g.spec, list, rules: k.DEFAULT_RULES, known: { keys: list, cylinders } }));
  }),
  compareKeySymbols: of(fc.tuple(text, text, options), ([a, b, o]) => k.compareKeySymbols(a, b, o)),
  controlChoices: of(coreKeys, (g) => k.controlChoices(g.spec, g.chambers[0]!)),
  controlIsIncidental: withKeys((g) => k.controlIsIncidental(g.chambers, g.bittings[0]!)),
  coreFaults: of(coreKeys, (g) => k.coreFaults(g.spec, g.chambers, g.bittings[0]!)),
  coreStack: of(coreKeys, (g) => k.coreStack(g.spec, g.chambers[0]!, g.bittings[0]![0]!)),
  countWithinMacs: of(fc.tuple(fc.nat({ max: 30 }), fc.nat({ max: 20 }), any.small), ([d, p, m]) =>
    k.countWithinMacs(d, p, m),
  ),
  countWithinMacsOf: withKeys((g) => k.countWithinMacsOf(g.chambers, g.spec.depths.length, g.spec.macs)),
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
  defaultArray: withKeys((g) => k.defaultArray(g.spec, g.bittings[0]!)),
  defaultStep: of(any.spec, (spec) => k.defaultStep(spec.depths)),
  eatenFlat: of(fc.tuple(any.spec, any.length, any.length), ([spec, drop, apart]) =>
    k.eatenFlat(spec, drop, apart),
  ),
  err: withText(k.err),
  evenCentres: of(fc.tuple(any.length, any.length, fc.nat({ max: 8 })), ([first, gap, n]) =>
    k.evenCentres(first, gap, n),
  ),
  evenTree: of(fc.tuple(fc.nat({ max: 20 }), fc.nat({ max: 20 })), ([masters, changeKeys]) =>
    k.evenTree(3, { masters, changeKeys }),
  ),
  findDelimiter: withText(k.findDelimiter),
  findDuplicates: withKeys((g) => k.findDuplicates(g.spec, g.bittings)),
  findNearPairs: of(fc.tuple(keys, any.length), ([g, within]) => k.findNearPairs(g.spec, g.bittings, within)),
  foldName: withText(k.foldName),
  formatBitting: of(fc.tuple(any.spec, fc.array(any.small, { maxLength: 9 })), ([spec, cuts]) =>
    k.formatBitting(spec, cuts),
  ),
  formatDepthSet: withKeys((g) => k.formatDepthSet(g.spec, g.chambers[0]!)),
  formatKeySymbol: of(fc.tuple(text, options), ([t, o]) => {
    const read = k.parseKeySymbol(t, o);
    return read.ok && k.formatKeySymbol(read.value);
  }),
  formatLength: of(fc.tuple(any.length, any.unit), ([l, u]) => k.formatLength(l, u)),
  formatNumber: of(fc.tuple(any.length, any.unit), ([l, u]) => k.formatNumber(l, u)),
  fromStopOrder: withKeys((g) => k.fromStopOrder(g.spec, g.bittings[0]!)),
  generateSystem: of(request, (r) => run(k.generateSystem(r))),
  geometricMacs: of(any.spec, (spec) => k.geometricMacs(spec)),
  gradeLimits: of(fc.constantFrom(...k.GRADES), k.gradeLimits),
  gradeReached: of(fc.tuple(number, number), ([a, b]) => k.gradeReached(a, b)),
  grandSymbol: of(any.small, (n) => k.grandSymbol(n)),
  guessColumns: of(fc.tuple(table, any.spec), ([rows, spec]) =>
    k.guessColumns(rows, [spec, ...k.STARTER_SPECS]),
  ),
  guessOrder: withKeys((g) =>
    k.guessOrder(g.spec, g.bittings, new Set([k.packBitting(g.spec, g.bittings[1]!)])),
  ),
  guessSpecs: of(fc.array(cell, { maxLength: 8 }), (cells) => k.guessSpecs(cells, k.STARTER_SPECS)),
  inCodeOrder: withKeys((g) => k.inCodeOrder(g.spec, g.spec.centres)),
  inOrder: of(fc.tuple(fc.nat({ max: 300 }), fc.integer()), ([size, seed]) => [
    ...k.inOrder(size, 'scattered', seed),
  ]),
  inches: of(number, k.inches),
  incidentalBittings: withKeys((g) => {
    const found: unknown[] = [];
    for (const bitting of k.incidentalBittings(g.spec, g.chambers, g.bittings))
      if (found.push(bitting) > 50) break;
    return found;
  }),
  increment: of(any.spec, (spec) => k.increment(spec.depths)),
  intendedByHierarchy: of(system, (g) => k.intendedByHierarchy(g.system.keys, g.system.cylinders)),
  intendedByMarks: of(system, (g) => k.intendedByMarks(g.system.keys, g.system.cylinders, g.marks)),
  interferences: withKeys((g) => k.interferences(g.spec, g.bittings[0]!)),
  isThin: of(keys, (g) => k.isThin(g.spec, g.bittings[0]![0]!, g.bittings[1]![0]!)),
  isUsable: withKeys((g) => k.isUsable(g.spec, g.bittings[0]!)),
  judgeReadings: of(fc.tuple(keys, fc.array(any.length, { minLength: 4, maxLength: 8 })), ([g, readings]) =>
    k.judgeReadings(g.spec, g.bittings[0]!, readings),
  ),
  lengthOf: of(number, k.lengthOf),
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
  levelOfSymbol: of(fc.tuple(text, options), ([t, o]) => k.levelOfSymbol(t, o)),
  levelsDealt: of(fc.constantFrom(2 as const, 3 as const, 4 as const), k.levelsDealt),
  makeSpecification: of(draft, k.makeSpecification),
  masterExposure: of(any.spec, k.masterExposure),
  masterSymbol: of(fc.tuple(fc.constantFrom('A', 'K', 'Z'), fc.nat({ max: 5_000 })), ([grand, n]) =>
    k.masterSymbol(grand, n),
  ),
  millimetres: of(number, k.millimetres),
  nearMissOf: of(fc.tuple(keys, any.length), ([g, within]) =>
    k.nearMissOf(g.spec, g.bittings[0]!, g.chambers, within),
  ),
  nearMissOfKey: of(fc.tuple(keys, any.length), ([g, within]) =>
    k.nearMissOfKey(g.spec, g.bittings[0]!, g.bittings[1]!, within),
  ),
  nearestPin: of(fc.tuple(any.length, fc.array(any.length, { maxLength: 5 })), ([l, sizes]) =>
    k.nearestPin(l, sizes),
  ),
  neverRisesToTip: withKeys((g) => k.neverRisesToTip(g.spec, g.bittings[0]!)),
  nextSymbol: of(fc.tuple(text, options), ([t, o]) => k.nextSymbol(t, o)),
  notChecked: withText((self) => k.notChecked(k.DEFAULT_RULES, { self })),
  ok: withText(k.ok),
  operates: withKeys((g) => k.operates(g.chambers, g.bittings[0]!)),
  operatingCount: withKeys((g) => k.operatingCount(g.spec, g.chambers)),
  operatingCountCuttable: withKeys((g) => k.operatingCountCuttable(g.spec, g.chambers)),
  packBitting: withKeys((g) => k.packBitting(g.spec, g.bittings[0]!)),
  parentSymbol: of(fc.tuple(text, options), ([t, o]) => k.parentSymbol(t, o)),
  parseBitting: of(fc.tuple(any.spec, fc.oneof(text, number)), ([spec, code]) => k.parseBitting(spec, code)),
  parseDepthSet: of(fc.tuple(any.spec, fc.oneof(text, number)), ([spec, code]) =>
    k.parseDepthSet(spec, code),
  ),
  parseKeySymbol: of(fc.tuple(text, options), ([t, o]) => k.parseKeySymbol(t, o)),
  parseLength: of(fc.tuple(fc.oneof(text, number), any.unit), ([l, u]) => k.parseLength(l, u)),
  pinStack: withKeys((g) => k.pinStack(g.spec, g.chambers[0]!)),
  pinnedFor: withKeys((g) => k.pinnedFor(g.spec, g.bittings)),
  positionOfSymbol: of(fc.tuple(any.spec, any.small), ([spec, n]) => k.positionOfSymbol(spec, n)),
  positions: of(any.spec, k.positions),
  publishedMacs: of(any.spec, (spec) =>
    k.publishedMacs(spec.centres[1]!, spec.rootWidth, k.increment(spec.depths), spec.angle),
  ),
  readCode: of(fc.tuple(any.spec, cell, fc.boolean()), ([spec, c, lostZeros]) =>
    k.readCode(spec, c, { lostZeros }),
  ),
  readImport: of(
    fc.tuple(any.spec, table, fc.array(fc.constantFrom<ColumnRole>(...k.COLUMN_ROLES), { maxLength: 6 })),
    ([spec, rows, roles]) => run(k.readImport({ spec, rows, roles, options: {} })),
  ),
  readSpecTable: of(
    fc.array(
      fc.array(fc.oneof(text, number, fc.boolean(), fc.constant(null)), { minLength: 22, maxLength: 22 }),
      { maxLength: 3 },
    ),
    (rows) => k.readSpecTable([k.SPEC_COLUMNS, ...rows]),
  ),
  reverseBitting: withKeys((g) => k.reverseBitting(g.bittings[0]!)),
  rootDepths: withKeys((g) => k.rootDepths(g.spec, g.bittings[0]!)),
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
  rowName: of(fc.tuple(text, any.small), ([mark, index]) => k.rowName({ mark, index })),
  ruleTitle: of(fc.constantFrom(...k.RULE_NAMES), k.ruleTitle),
  say: of(findings, (all) => all.map((f) => k.say(f))),
  sayChamberFault: of(fc.tuple(any.spec, text), ([spec, t]) => {
    const read = k.parseDepthSet(spec, t);
    return read.ok ? '' : read.error.map(k.sayChamberFault);
  }),
  sayImportNote: of(fc.tuple(any.spec, cell), ([spec, c]) => k.readCode(spec, c).notes.map(k.sayImportNote)),
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
  sayReading: of(fc.tuple(any.spec, cell), ([spec, c]) => k.sayReading(k.readCode(spec, c))),
  saySpecFault: of(fc.array(fc.oneof(text, number), { minLength: 22, maxLength: 22 }), (row) =>
    k.readSpecTable([k.SPEC_COLUMNS, row]).faults.map(k.saySpecFault),
  ),
  scatterOf: of(fc.tuple(fc.nat({ max: 1_000 }), fc.integer()), ([size, seed]) =>
    k.scatterOf(size, seed)(Math.max(0, size - 1)),
  ),
  severityOf: of(findings, (all) => all.map(k.severityOf)),
  shownText: of(cell, k.shownText),
  sortDepths: of(any.spec, (spec) => k.sortDepths(spec.depths)),
  sortKeySymbols: of(fc.tuple(any.list, options), ([list, o]) => k.sortKeySymbols(list, o)),
  specTableRow: of(any.spec, k.specTableRow),
  splitPasted: of(
    fc.oneof(
      text,
      any.list.map((l) => l.join('\n')),
      any.list.map((l) => l.join('\t"')),
    ),
    (t) => k.splitPasted(t),
  ),
  starterSpec: withText(k.starterSpec),
  subtract: of(fc.tuple(any.length, any.length), ([a, b]) => k.subtract(a, b)),
  theoreticalChanges: withKeys((g) => k.theoreticalChanges(k.defaultArray(g.spec, g.bittings[0]!))),
  times: of(fc.tuple(any.length, number), ([l, n]) => k.times(l, n)),
  toUnit: of(fc.tuple(any.length, any.unit), ([l, u]) => k.toUnit(l, u)),
  topSymbol: of(any.levels, k.topSymbol),
  totalSpace: of(space, (over) => {
    const found = k.totalSpace(over);
    const cuts = [9, 9, 9, 9, 9];
    if (found.size > 0) found.at(found.size - 1, cuts);
    return [found.size, cuts];
  }),
  unpackBitting: withKeys((g) => k.unpackBitting(g.spec, k.packBitting(g.spec, g.bittings[0]!))),
  whyNotOperates: withKeys((g) => k.whyNotOperates(g.spec, g.chambers, g.bittings[0]!)),
  wideningPasses: of(fc.tuple(any.spec, fc.integer({ min: 10_000, max: 9_000_000 })), ([spec, flat]) =>
    k.wideningPasses(spec, { flat: k.lengthOf(flat), angle: spec.angle }),
  ),
  worksControlLine: withKeys((g) => k.worksControlLine(g.chambers, g.bittings[0]!, g.bittings[1]!)),
};

/** Those whose doc comment says that a wrong argument is a mistake of ours, or that hand it on to such a one. */
const MAY_ASSERT = new Set([
  'bittingOf',
  'centreAt',
  'countWithinMacs',
  'cutCentre',
  'inches',
  'judgeReadings',
  'lengthOf',
  'millimetres',
  'times',
]);
/** Plans of whole systems: some milliseconds a run. */
const LONG = new Set(['capacity', 'generateSystem']);

const functions = Object.entries(keying).flatMap(([name, value]) =>
  typeof value === 'function' ? [name] : [],
);

describe('the keying room and hostile input', () => {
  it('is fuzzed whole', () => {
    expect(functions.filter((name) => !(name in CALLS))).toEqual([]);
    expect(Object.keys(CALLS).filter((name) => !functions.includes(name))).toEqual([]);
  });

  it.each(Object.keys(CALLS))('%s', { timeout: 3_600_000 }, (name) => {
    const usual = LONG.has(name) ? 15 : 60;
    const runs = LONG.has(name)
      ? Math.min(500, runsFor(functions.length, usual))
      : runsFor(functions.length, usual);
    fc.assert(
      fc.property(CALLS[name]!, (call) => {
        const { value: answer, took } = timed(() => {
          try {
            return call();
          } catch (error) {
            if (MAY_ASSERT.has(name) && error instanceof ProgrammerError) return undefined;
            throw error;
          }
        });
        expect(badNumber(answer)).toBeUndefined();
        expect(took).toBeLessThan(HANG);
      }),
      { numRuns: runs },
    );
  });

  it('would find NaN, infinity and a plain exception', () => {
    expect(badNumber({ a: [1, NaN] })).toBe('the answer.a.1 is NaN');
    expect(badNumber(new Map([['x', Infinity]]))).toBe('the answer.x is Infinity');
    expect(badNumber({ a: [1, '2', null], b: undefined })).toBeUndefined();
    expect(cutsOf(core, '123456')).toHaveLength(6);
  });
});
