/** Every published value beside the program's own: what, source, theirs, and how ours is worked out. */
import { calendarDate, type Day } from '../../src/keying/calendar.ts';
import { depthSetOf, EVERY, type DepthSet } from '../../src/keying/depthSet.ts';
import { solveGrid } from '../../src/keying/grid/index.ts';
import {
  checkBitting,
  coreStack,
  countWithinMacs,
  countWithinMacsOf,
  cutCentres,
  defaultArray,
  defaultStep,
  DEFAULT_TOLERANCE,
  EN1303,
  formatNumber,
  gradeReached,
  grandSymbol,
  increment,
  inches,
  levelChanges,
  masterExposure,
  masterSymbol,
  NO_RULES,
  parentSymbol,
  parseBitting,
  parseKeySymbol,
  publishedMacs,
  rootDepths,
  theoreticalChanges,
  toUnit,
  topSymbol,
  type Deal,
  type Grade,
  type Specification,
} from '../../src/keying/index.ts';
import type { LedgerEntry, LedgerKey } from '../../src/keying/ledger.ts';
import { accounts, keysOfLeavers, unaccounted } from '../../src/keying/ledgerAnswers.ts';
import { replayLedger } from '../../src/keying/ledgerReplay.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { LEDGER_COLUMNS } from '../../src/workbook/tableLedger.ts';
import { plainGrid, smallSpec } from '../keying/grid/charts.ts';
import { key, starter } from '../support/keys.ts';
import { cutsOf, plainSpec } from '../support/systems.ts';
import * as published from './values.ts';
import type { SourceName } from './values.ts';

export type Value = number | string | boolean | null | readonly Value[];

export interface Comparison {
  readonly what: string;
  readonly source: SourceName;
  readonly theirs: Value;
  readonly ours: () => Value;
  /** How far ours may be off; numbers are equal when left out. */
  readonly within?: number;
}

const compare = (
  source: SourceName,
  what: string,
  theirs: Value,
  ours: () => Value,
  within?: number,
): Comparison => ({ what, source, theirs, ours, ...(within !== undefined && { within }) });

/** The counts of one sequence by number of cuts, up to eight cuts: the most that a spec has. */
const withinMacs = published.WITHIN_MACS.flatMap(({ id, depths, macs, offset, terms }) =>
  [4, 5, 6, 7, 8].map((cuts) =>
    compare(
      'oeis',
      `${id}: bittings of ${cuts} cuts, ${depths} depths, MACS ${macs}`,
      terms[cuts - offset]!,
      () => countWithinMacs(depths, cuts, macs),
    ),
  ),
);

const { NO_LEADING_ZERO } = published;
const noLeadingZero = NO_LEADING_ZERO.terms.map((term, i) =>
  compare('oeis', `${NO_LEADING_ZERO.id}: ${i + 1} cuts, 10 depths, MACS 7, first cut not 0`, term, () => {
    const first = depthSetOf([1, 2, 3, 4, 5, 6, 7, 8, 9]);
    return countWithinMacsOf([first, ...new Array<DepthSet>(i).fill(EVERY)], 10, NO_LEADING_ZERO.macs);
  }),
);

const coreOf = (wanted: number, positions: number): Specification => {
  const { increment: steps, depths, macs, core } = published.CORE_KINDS.find((k) => k.increment === wanted)!;
  return plainSpec({ positions, increment: steps, depths, macs, core });
};

const capacities = published.CORE_CAPACITIES.flatMap(([inch, positions, choices, changes]) => {
  const array = () =>
    defaultArray(coreOf(inch, positions), cutsOf(coreOf(inch, positions), '1234512'.slice(0, positions)));
  const name = `core at ${inch} in, ${positions} positions`;
  return [
    compare('coreArticle', `${name}: choices a position`, choices, () =>
      Math.max(...array().map((c) => c.length)),
    ),
    compare('coreArticle', `${name}: changes`, changes, () => theoreticalChanges(array())),
  ];
});

const blocks = published.PROGRESSION_BLOCKS.blocks.map((changes, i) =>
  compare('patent', `block of ${i + 2} positions that progress`, changes, () => {
    const spec = coreOf(0.0125, published.PROGRESSION_BLOCKS.pins);
    const topMaster = cutsOf(spec, '246824');
    const array = defaultArray(spec, topMaster);
    const deal: Deal = array.map((_, at) => (at >= array.length - i - 2 ? 'CK' : 'MK'));
    const sequence = array.map((_, at) => at);
    const progression = { kind: 'total' } as const;
    return levelChanges(
      { levels: 4, topMaster, array, progression, sequence, minimumDifference: 1 },
      deal,
      'CK',
    );
  }),
);
const wholeProgression = compare(
  'patent',
  'six pins of five bittings in all',
  published.PROGRESSION_BLOCKS.total,
  () => {
    const spec = coreOf(0.0125, published.PROGRESSION_BLOCKS.pins);
    return theoreticalChanges(defaultArray(spec, cutsOf(spec, '246824')));
  },
);

const steps = published.STEPS.map(([inch, step]) =>
  compare('stepArticle', `steps of progression at an increment of ${inch} in`, step, () =>
    defaultStep([0, 1, 2, 3].map((i) => ({ symbol: String(i), root: inches(0.33 - i * inch) }))),
  ),
);

const cores = published.CORE_KINDS.flatMap(({ increment: inch, source, step, core }) => {
  const name = `core at ${inch} in`;
  const spec = () => coreOf(inch, 7);
  const stack = () => coreStack(spec(), depthSetOf([1, 3]), 4)!;
  return [
    compare('stepArticle', `${name}: steps of progression`, step, () => spec().step),
    compare(source, `${name}: total of a stack, in steps`, core.total, () => stack().total),
    compare(
      source,
      `${name}: build-up over cuts 1 and 3 under control cut 4`,
      4 + core.addition - 3,
      () => stack().buildUp.steps,
    ),
    compare(
      source,
      `${name}: top pin over control cut 4`,
      core.total - 4 - core.addition,
      () => stack().top.steps,
    ),
    compare(
      source,
      `${name}: control sleeve in inches`,
      published.CONTROL_SLEEVE,
      () => core.addition * toUnit(increment(spec().depths), 'in'),
      0.001 + 1e-9,
    ),
  ];
});

const macs = published.MACS_GEOMETRY;
const geometry = compare(
  'encyclopedia',
  `MACS of ${macs.spacing} in spacing, ${macs.rootWidth} in root, ${macs.increment} in, ${macs.angle}°`,
  macs.value,
  () => publishedMacs(inches(macs.spacing), inches(macs.rootWidth), inches(macs.increment), macs.angle),
  1e-12,
);

const levels = published.LEVEL_TABLE.flatMap(([count, symbols]) => [
  compare('keyCoding', `top of ${count} levels`, symbols[0]!, () => topSymbol(count)),
  ...symbols
    .slice(1)
    .map((symbol, i) =>
      compare(
        'keyCoding',
        `key above ${symbol} in ${count} levels`,
        symbols[i]!,
        () => parentSymbol(symbol, { levels: count }) ?? null,
      ),
    ),
]);
const kinds = published.SYMBOL_KINDS.map(([text, kind]) =>
  compare('keyCoding', `what ${text} means`, kind, () => {
    const read = parseKeySymbol(text);
    return read.ok ? read.value.kind : read.error.code;
  }),
);
const letters = [
  compare('keyCoding', 'letters that no grand master has', published.LETTERS_AVOIDED, () => {
    const used = Array.from({ length: 30 }, (_, n) => grandSymbol(n) ?? '').join('');
    return [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'].filter((letter) => !used.includes(letter)).join('');
  }),
  compare('keyCoding', 'first master after the letters of grand A', 'A2A', () =>
    masterSymbol('A', published.MASTERS_OF_A_GRAND),
  ),
];

const exposures = published.EXPOSURES.map(([positions, depths, trials]) =>
  compare(
    'exposure',
    `trials that show a master of ${positions} positions and ${depths} depths`,
    trials,
    () => masterExposure(plainSpec({ positions, depths, increment: 0.015, macs: 4 })),
  ),
);

const grades = published.EN1303_TABLE.flatMap(([grade, differs, detainers, share, neighbours]) => [
  compare('en1303', `grade ${grade}: share of equal cuts, equal neighbours`, [share, neighbours], () => {
    const row = EN1303.find((r) => r.grade === grade)!;
    return [row.equalShare, row.equalNeighbours ?? null];
  }),
  compare(
    'en1303',
    `grade ${grade} is reached with ${detainers} detainers and ${differs} differs`,
    true,
    () => (gradeReached(detainers, differs) ?? 0) >= grade,
  ),
  compare(
    'en1303',
    `grade ${grade} is not reached with one differ less`,
    false,
    () => (gradeReached(detainers, differs - 1) ?? 0) >= grade,
  ),
]);
/** Six cuts of which so many are equal and none of those side by side where that can be had. */
const EQUAL_CUTS: readonly (readonly [code: string, grade: Grade, allowed: boolean])[] = [
  ['242526', 6, true],
  ['242522', 5, false],
  ['242522', 2, true],
  ['422256', 2, false],
  ['422256', 1, true],
];
const equalCuts = EQUAL_CUTS.map(([code, grade, allowed]) =>
  compare('en1303', `grade ${grade} allows ${code}`, allowed, () => {
    const spec = starter('S-018-6');
    return checkBitting(spec, key(spec, code), { ...NO_RULES, grade }).length === 0;
  }),
);

const sperner = published.SPERNER.flatMap(([positions, most]) =>
  [most, most + 1].map((changeKeys) =>
    compare(
      'sperner',
      `${changeKeys} change keys under one master, ${positions} positions of two depths`,
      changeKeys === most,
      () => {
        const marks = Array.from({ length: changeKeys }, (_, n) => [0, n + 1]);
        const grid = plainGrid(smallSpec(positions, 2), changeKeys + 1, marks);
        return runToEnd(solveGrid(grid, { rules: NO_RULES })).kind === 'solved';
      },
    ),
  ),
);

const KEYS: readonly LedgerKey[] = [
  { system: 'Hall', symbol: 'AA1', level: 'CK', status: 'issued', copies: 3 },
];
const entry = (day: number, event: LedgerEntry['event'], copy: number, holder: string): LedgerEntry => ({
  day: day as Day,
  event,
  system: 'Hall',
  symbol: 'AA1',
  copy,
  holder,
});
const ledger = () =>
  replayLedger(
    {
      keys: KEYS,
      entries: [
        entry(46_000, 'issued', 1, 'Office'),
        entry(46_001, 'issued', 2, 'Kitchen'),
        entry(46_002, 'lost', 1, 'Office'),
      ],
    },
    46_100 as Day,
  );
const [counted, lost, leaves] = published.CONTROL_EVENTS;
const control = [
  compare('keyControl', `${counted}: stock, held, lost`, [1, 1, 1], () => {
    const [account] = accounts(ledger());
    return [account!.stock, account!.held, account!.lost];
  }),
  compare('keyControl', `${lost}: the copy is named`, [1], () => unaccounted(ledger()).map((c) => c.copy)),
  compare('keyControl', `${leaves}: the copy to call back is named`, [2], () =>
    keysOfLeavers(ledger(), [{ name: 'Kitchen', left: 46_050 as Day }]).map((c) => c.copy),
  ),
];
const register = published.REGISTER_FIELDS.map(([field, column]) =>
  compare(
    'keyRegister',
    `${field} has a column in the ledger`,
    column,
    () => LEDGER_COLUMNS.find((c) => c.heading === column)?.heading ?? null,
  ),
);

const lengths = [
  compare('inch', 'one inch in nanometres', published.INCH_NM, () => inches(1)),
  compare('inch', '0.0125 in in nanometres', published.INCH_NM / 80, () => inches(0.0125)),
];
const days = published.SERIAL_DAYS.map(([serial, day]) =>
  compare('serialDates', `day number ${serial}`, day, () => {
    const found = calendarDate(serial as Day);
    return `${found.year}-${String(found.month).padStart(2, '0')}-${String(found.day).padStart(2, '0')}`;
  }),
);

const { SIX_CUT } = published;
const practice = [
  compare('practice', 'six cuts from 0.237 in by 0.156 in: centres', SIX_CUT.centres, () =>
    cutCentres(starter('S-018-6')).map((l) => formatNumber(l, 'in')),
  ),
  compare('practice', `root depths of ${SIX_CUT.code} by 0.018 in from 0.315 in`, SIX_CUT.roots, () => {
    const spec = starter('S-018-6');
    const read = parseBitting(spec, SIX_CUT.code);
    return read.ok ? rootDepths(spec, read.value).map((l) => formatNumber(l, 'in')) : null;
  }),
  compare('practice', 'tolerance of a cut in inches', published.CUT_TOLERANCE, () =>
    toUnit(DEFAULT_TOLERANCE, 'in'),
  ),
];

export const COMPARISONS: readonly Comparison[] = [
  ...withinMacs,
  ...noLeadingZero,
  ...capacities,
  ...blocks,
  wholeProgression,
  ...steps,
  ...cores,
  geometry,
  ...levels,
  ...kinds,
  ...letters,
  ...exposures,
  ...grades,
  ...equalCuts,
  ...sperner,
  ...control,
  ...register,
  ...lengths,
  ...days,
  ...practice,
];

/** Whether ours is theirs. */
export function agrees({ theirs, within }: Comparison, ours: Value): boolean {
  if (within !== undefined) return typeof ours === 'number' && Math.abs(ours - Number(theirs)) <= within;
  return JSON.stringify(ours) === JSON.stringify(theirs);
}
