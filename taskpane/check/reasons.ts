/** What a check found, counted by reason, in a few words each: the heading of a list of faulty rows. */
import type { BittingFinding } from '../../src/keying/findings.ts';
import { counted, grouped } from '../pictures/numbers.ts';
import type { CheckReport } from './checkRows.ts';

type Words = readonly [one: string, many: string];

const REASONS: Record<BittingFinding['code'], Words> = {
  length: ['has the wrong number of cuts', 'have the wrong number of cuts'],
  'lost-zero': ['has probably lost leading zeros', 'have probably lost leading zeros'],
  'unknown-depth': ['holds a depth that the spec lacks', 'hold a depth that the spec lacks'],
  'not-a-code': ['is no code', 'are no codes'],
  macs: ['breaks the adjacent-cut limit', 'break the adjacent-cut limit'],
  'few-depths': ['has too few different depths', 'have too few different depths'],
  'equal-run': ['has too many equal cuts side by side', 'have too many equal cuts side by side'],
  stair: ['is a straight stair', 'are straight stairs'],
  'pulls-out-turned': ['could be drawn out turned', 'could be drawn out turned'],
  'grade-equal-share': ['has too many cuts of one depth', 'have too many cuts of one depth'],
  'grade-equal-neighbours': [
    'has too many equal neighbours for the grade',
    'have too many equal neighbours for the grade',
  ],
  duplicate: ['is a duplicate', 'are duplicates'],
  'already-used': ['was used in the system before', 'were used in the system before'],
  'equals-master': ['equals a master', 'equal a master'],
  parity: ['is off the progression', 'are off the progression'],
  'operates-existing': ['operates an existing cylinder', 'operate an existing cylinder'],
  'near-miss': ['is a near miss', 'are near misses'],
};

/** @example reasonLine({ code: 'macs', cells: 4 }) → '4 break the adjacent-cut limit' */
export function reasonLine({ code, cells }: CheckReport['reasons'][number]): string {
  const [one, many] = REASONS[code];
  return `${grouped(cells)} ${cells === 1 ? one : many}`;
}

/** @example checkSentence(report) → '212 codes: 205 good, 4 faulty, 3 with a warning.' */
export function checkSentence({ codes, good, faulty, warned, empty }: CheckReport): string {
  const parts = [
    `${grouped(good)} good`,
    ...(faulty > 0 ? [`${grouped(faulty)} faulty`] : []),
    ...(warned > 0 ? [`${grouped(warned)} with a warning`] : []),
  ];
  const passedOver = empty > 0 ? ` ${counted(empty, 'empty cell')} passed over.` : '';
  return `${counted(codes, 'code')}: ${parts.join(', ')}.${passedOver}`;
}
