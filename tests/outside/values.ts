/**
 * Values published outside the project, as data, each with its source. `comparisons.ts` holds the program against
 * them one by one, and the tests of this folder use the same tables.
 *
 * Status of a source: `seen` = read in the source itself; `secondary` = read in somebody else's copy or summary;
 * `memory` = from memory, no source seen; `common practice` = a fact of the trade without one source.
 */
import type { Grade, SystemLevels } from '../../src/keying/index.ts';

export type Status = 'seen' | 'secondary' | 'memory' | 'common practice';

export interface Source {
  readonly status: Status;
  readonly title: string;
}

export const SOURCES = {
  oeis: {
    status: 'seen',
    title: 'On-Line Encyclopedia of Integer Sequences, https://oeis.org',
  },
  coreArticle: {
    status: 'seen',
    title: 'trade-association magazine, article on interchangeable-core systems, fig. 11',
  },
  stepArticle: {
    status: 'seen',
    title: 'trade-association magazine, July/August 2017, steps of progression',
  },
  patent: {
    status: 'seen',
    title: 'US patent 6,516,644 (filed 1999), abstract and claims 10 and 13',
  },
  encyclopedia: {
    status: 'seen',
    title: 'Pulford, High-Security Mechanical Locks: An Encyclopedic Reference, 2007',
  },
  coreManual: { status: 'seen', title: 'core service manual, section on pinning' },
  coreMemory: { status: 'memory', title: 'cores at 0.018 in: from memory' },
  keyCoding: {
    status: 'seen',
    title: 'key coding of ANSI/BHMA A156.28 and the LIST Council level table, as reprinted in the trade',
  },
  exposure: {
    status: 'secondary',
    title:
      'Blaze, Rights amplification in master-keyed mechanical locks, IEEE Security & Privacy 1(2), 2003; preprint IACR ePrint 2002/160, section 2.2.2',
  },
  en1303: {
    status: 'secondary',
    title: 'EN 1303:2015, key-related security, as summarised in a locksmith lexicon (Czech)',
  },
  sperner: {
    status: 'memory',
    title: 'Sperner, Ein Satz über Untermengen einer endlichen Menge, Mathematische Zeitschrift 27, 1928',
  },
  keyControl: {
    status: 'seen',
    title: 'NIST SP 800-53 Rev. 5.1.1, PE-3 and PS-4 (public domain, OSCAL catalogue)',
  },
  keyRegister: {
    status: 'seen',
    title: 'US Army correspondence course MP1001, The Physical Security Plan, p. 3-2',
  },
  inch: { status: 'memory', title: 'international yard and pound agreement, 1959' },
  serialDates: { status: 'memory', title: 'ISO/IEC 29500-1, 18.17.4, the 1900 date system' },
  practice: { status: 'common practice', title: 'common practice of the trade' },
} as const satisfies Record<string, Source>;

export type SourceName = keyof typeof SOURCES;

/** Strings over `depths` symbols whose neighbours differ by at most `macs`; `offset` = positions of the first term. */
export interface MacsSequence {
  readonly id: string;
  readonly depths: number;
  readonly macs: number;
  readonly offset: number;
  readonly terms: readonly number[];
}

const sequence = (
  id: string,
  depths: number,
  macs: number,
  offset: number,
  terms: readonly number[],
): MacsSequence => ({ id, depths, macs, offset, terms });

// prettier-ignore
export const WITHIN_MACS: readonly MacsSequence[] = [
  sequence('A055099', 4, 2, 0, [1, 4, 14, 50, 178, 634, 2258, 8042, 28642, 102010]),
  sequence('A126392', 5, 2, 0, [1, 5, 19, 75, 295, 1161, 4569, 17981, 70763, 278483]),
  sequence('A126473', 5, 3, 0, [1, 5, 23, 107, 497, 2309, 10727, 49835, 231521, 1075589]),
  sequence('A126474', 6, 3, 0, [1, 6, 30, 154, 788, 4034, 20650, 105708, 541122, 2770018]),
  sequence('A126501', 6, 4, 0, [1, 6, 34, 194, 1106, 6306, 35954, 204994, 1168786, 6663906]),
  sequence('A126394', 7, 2, 0, [1, 7, 29, 125, 543, 2363, 10287, 44787, 194995, 848979]),
  sequence('A126475', 7, 3, 0, [1, 7, 37, 203, 1111, 6083, 33305, 182349, 998383, 5466269]),
  sequence('A126502', 7, 4, 0, [1, 7, 43, 269, 1679, 10483, 65449, 408623, 2551187, 15928021]),
  sequence('A126503', 8, 4, 0, [1, 8, 52, 348, 2322, 15500, 103462, 690610, 4609826, 30770620]),
  sequence('A126504', 9, 4, 0, [1, 9, 61, 429, 3011, 21141, 148433, 1042167, 7317185, 51374875]),
  sequence('A126364', 10, 1, 1, [10, 28, 80, 230, 664, 1922, 5574, 16188, 47064, 136946]),
  sequence('A126397', 10, 2, 0, [1, 10, 44, 200, 918, 4236, 19598, 90790, 420870, 1951636]),
  sequence('A126478', 10, 3, 0, [1, 10, 58, 350, 2130, 12990, 79258, 483646, 2951370, 18010366]),
  sequence('A126505', 10, 4, 0, [1, 10, 70, 510, 3720, 27142, 198034, 1444904, 10542368, 76919662]),
  sequence('A126531', 10, 5, 0, [1, 10, 80, 660, 5430, 44692, 367826, 3027314, 24915652, 205062892]),
];

/** OEIS A383202: positive integers with n digits whose neighbours differ by at most 7; the first digit is not 0. */
export const NO_LEADING_ZERO = {
  id: 'A383202',
  depths: 10,
  macs: 7,
  terms: [9, 86, 813, 7693, 72786, 688661, 6515721, 61648078],
} as const;

/** Kinds of interchangeable core: increment in inches, depths, MACS, step of progression, stack in steps. */
export interface CoreKind {
  readonly increment: number;
  readonly depths: number;
  readonly macs: number;
  readonly step: number;
  readonly core: { readonly total: number; readonly addition: number };
  readonly source: SourceName;
}

export const CORE_KINDS: readonly CoreKind[] = [
  {
    increment: 0.0125,
    depths: 10,
    macs: 9,
    step: 2,
    core: { total: 23, addition: 10 },
    source: 'coreManual',
  },
  { increment: 0.021, depths: 6, macs: 5, step: 1, core: { total: 14, addition: 6 }, source: 'coreManual' },
  { increment: 0.018, depths: 7, macs: 6, step: 1, core: { total: 16, addition: 7 }, source: 'coreMemory' },
];

/** Each control addition is the same sleeve, in inches. */
export const CONTROL_SLEEVE = 0.125;

/** Changes of total position progression: increment of the core, positions, choices a position, changes. */
export const CORE_CAPACITIES: readonly (readonly [
  increment: number,
  positions: number,
  choices: number,
  changes: number,
])[] = [
  [0.0125, 6, 4, 4096],
  [0.0125, 5, 4, 1024],
  [0.0125, 7, 4, 16384],
  [0.018, 6, 6, 46656],
  [0.018, 7, 6, 279936],
  [0.021, 6, 5, 15625],
  [0.021, 7, 5, 78125],
];

/** Six pins of five bittings: changes in the blocks of one, two, three … positions. */
export const PROGRESSION_BLOCKS = {
  pins: 6,
  bittingsPerPin: 5,
  blocks: [16, 64, 256, 1024],
  total: 4096,
} as const;

/** Increment in inches → steps of progression; below 0.023 in the trade progresses in two steps. */
export const STEPS: readonly (readonly [increment: number, step: number])[] = [
  [0.0125, 2],
  [0.015, 2],
  [0.018, 2],
  [0.02, 2],
  [0.0229, 2],
  [0.023, 1],
  [0.025, 1],
  [0.028, 1],
];

/** (spacing − root width) ÷ (increment · tan(angle ÷ 2)); inputs from memory, the value worked out apart. */
export const MACS_GEOMETRY = {
  spacing: 0.156,
  rootWidth: 0.031,
  increment: 0.015,
  angle: 100,
  value: 6.992496926477334,
} as const;

/** Symbols of a hierarchy, top to bottom. */
export const LEVEL_TABLE: readonly (readonly [SystemLevels, readonly string[]])[] = [
  [2, ['AA', '1AA']],
  [3, ['A', 'AA', 'AA1']],
  [4, ['GGMK', 'A', 'AA', 'AA1']],
  [5, ['GGGMK', 'A', 'AA', 'AAA', 'AAA1']],
  [6, ['GGGMK', 'A', 'AA', 'AAA', 'AAAA', 'AAAA1']],
];

/** Symbol as written → what it means. */
export const SYMBOL_KINDS: readonly (readonly [text: string, kind: string])[] = [
  ['SKD1', 'single-keyed'],
  ['CTR', 'control'],
  ['KA1', 'keyed-alike'],
  ['KA/2', 'keyed-alike'],
  ['X1X', 'cross-keyed-only'],
  ['XAA3 (operated by AA1, AA2, AA and A)', 'cross-keyed'],
  ['1AA (NMK)', 'hierarchy'],
  ['AA1 (ENG)', 'hierarchy'],
];

/** Letters that no grand master has: I and O, which read as digits, and X, kept for cross-keying. */
export const LETTERS_AVOIDED = 'IOX';

/** Masters of one grand before A2A follows. */
export const MASTERS_OF_A_GRAND = 24;

/** Positions, depths → most trials that show the master. */
export const EXPOSURES: readonly (readonly [positions: number, depths: number, trials: number])[] = [
  [5, 10, 45],
  [6, 10, 54],
  [7, 10, 63],
  [5, 6, 25],
];

/**
 * EN 1303: grade, fewest effective differs, fewest movable detainers, largest share of equal cuts in percent, most
 * equal cuts side by side (null = no limit).
 */
export const EN1303_TABLE: readonly (readonly [Grade, number, number, number, number | null])[] = [
  [1, 100, 2, 100, null],
  [2, 300, 3, 70, 2],
  [3, 15000, 5, 60, 2],
  [4, 30000, 5, 60, 2],
  [5, 30000, 6, 60, 2],
  [6, 100000, 6, 50, 2],
];

/** Change keys under one master with two depths: C(n, ⌊n/2⌋). */
export const SPERNER: readonly (readonly [positions: number, most: number])[] = [
  [4, 6],
  [5, 10],
  [6, 20],
];

/** Fields of a key register, and the column of the ledger that holds each. Issue and return are rows of their own. */
export const REGISTER_FIELDS: readonly (readonly [field: string, column: string])[] = [
  ['key number', 'Key'],
  ['date of issue or return', 'Date'],
  ['time of issue or return', 'Time'],
  ['issuer', 'Given by'],
  ['receiver', 'Holder'],
  ['receiver of the return', 'Taken by'],
  ['signature', 'Signature'],
];

/** What PE-3 f has counted, and on which events PE-3 g and PS-4 have keys changed or called back. */
export const CONTROL_EVENTS = ['keys are counted', 'a key is lost', 'a holder leaves'] as const;

/** Nanometres of one inch, exactly. */
export const INCH_NM = 25_400_000;

/** Serial number of a day → the day. 1 January 2000 is 36526 in the 1900 date system. */
export const SERIAL_DAYS: readonly (readonly [serial: number, day: string])[] = [
  [36_526, '2000-01-01'],
  [39_448, '2008-01-01'],
];

/** Six cuts from the shoulder, 0.156 in apart, ten depths by 0.018 in: centres, and root depths of 274153. */
export const SIX_CUT = {
  centres: ['0.237', '0.393', '0.549', '0.705', '0.861', '1.017'],
  code: '274153',
  roots: ['0.279', '0.189', '0.243', '0.297', '0.225', '0.261'],
} as const;

/** ±, in inches: what a cut may be off. */
export const CUT_TOLERANCE = 0.002;
