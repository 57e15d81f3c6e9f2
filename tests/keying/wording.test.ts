import { describe, expect, it } from 'vitest';
import {
  checkBitting,
  inches,
  makeSpecification,
  parseBitting,
  parseLength,
  RULE_NAMES,
  ruleReason,
  ruleTitle,
  say,
  severityOf,
  type Finding,
} from '../../src/keying/index.ts';
import { findingIn } from '../../src/keying/shownIn.ts';
import { key, starter } from '../support/keys.ts';

/** One finding of each code: a new code does not compile until it has an example here, and words in the table. */
const SAMPLES: { readonly [C in Finding['code']]: Extract<Finding, { readonly code: C }> } = {
  'not-a-length': { code: 'not-a-length', text: 'abc' },
  length: { code: 'length', found: 5, expected: 6 },
  'lost-zero': { code: 'lost-zero', found: 5, expected: 6, suggestion: '074153' },
  'unknown-depth': { code: 'unknown-depth', symbol: '9', at: 2, allowed: ['1', '2', '3'] },
  'not-a-code': { code: 'not-a-code', text: '?' },
  macs: { code: 'macs', first: 3, from: '2', to: '8', steps: 6, allowed: 5 },
  'few-depths': { code: 'few-depths', found: 2, least: 3 },
  'equal-run': { code: 'equal-run', symbol: '4', first: 2, length: 4, most: 3 },
  stair: { code: 'stair', direction: 'deeper' },
  'pulls-out-turned': { code: 'pulls-out-turned' },
  'grade-equal-share': { code: 'grade-equal-share', grade: 6, percent: 66.7, most: 50 },
  'grade-equal-neighbours': { code: 'grade-equal-neighbours', grade: 6, found: 3, most: 2 },
  duplicate: { code: 'duplicate', of: 'AA3' },
  'already-used': { code: 'already-used', symbol: 'AA3', status: 'retired' },
  'equals-master': { code: 'equals-master', symbol: 'AA' },
  parity: { code: 'parity', at: 3, steps: 1, step: 2, master: 'A' },
  'operates-existing': { code: 'operates-existing', cylinder: 'D12' },
  'near-miss': { code: 'near-miss', other: 'AA3', chamber: 4, thousandths: 12.5 },
  interchange: { code: 'interchange', key: 'AA3', cylinder: 'D12' },
  'lock-out': {
    code: 'lock-out',
    key: 'AA3',
    cylinder: 'D12',
    chamber: 2,
    cut: '4',
    shears: ['2', '6'],
  },
  'near-interchange': { code: 'near-interchange', key: 'AA3', cylinder: 'D12', chamber: 4, thousandths: 18 },
  'thin-master-pin': { code: 'thin-master-pin', cylinder: 'D12', chamber: 2, steps: 1, step: 2 },
  'thin-build-up': { code: 'thin-build-up', cylinder: 'D12', chamber: 2, steps: 1, step: 2 },
  'stack-too-tall': { code: 'stack-too-tall', cylinder: 'D12', chamber: 2 },
  'control-operates': { code: 'control-operates', key: 'AA3', cylinder: 'D12' },
  'control-is-incidental': { code: 'control-is-incidental', cylinder: 'D12' },
  'control-locked-out': { code: 'control-locked-out', key: 'CTR', cylinder: 'D12', chamber: 2 },
  'wrong-keyway': { code: 'wrong-keyway', key: 'AA3', cylinder: 'D12', found: 'K2', expected: 'K1' },
  'too-few-cuts': { code: 'too-few-cuts', key: 'AA3', cylinder: 'D12', cuts: 5, chamber: 6 },
  'control-missing': { code: 'control-missing', key: 'CTR', cylinder: 'D12' },
  'core-without-control': { code: 'core-without-control', cylinder: 'D1' },
  'bitting-reissued': { code: 'bitting-reissued', key: 'AA1' },
  'key-missing': { code: 'key-missing', symbol: 'AA3', cylinder: 'D12' },
  'unusable-bitting': {
    code: 'unusable-bitting',
    key: 'SKD1',
    reasons: [{ code: 'macs', first: 1, from: '2', to: '8', steps: 6, allowed: 5 }],
  },
  'same-bitting': { code: 'same-bitting', key: 'AA3', other: 'AA4' },
  'parent-missing': { code: 'parent-missing', key: 'AA3', parent: 'AA' },
  'array-length': { code: 'array-length', found: 5, expected: 6 },
  'array-unknown-depth': { code: 'array-unknown-depth', chamber: 2, index: 12 },
  'array-master-cut': { code: 'array-master-cut', chamber: 2, symbol: '4' },
  'array-repeated': { code: 'array-repeated', chamber: 2, symbol: '4' },
  'array-thin': { code: 'array-thin', chamber: 2, symbol: '4', steps: 1, step: 2 },
  'array-parity': { code: 'array-parity', chamber: 2, symbol: '4', steps: 3, step: 2 },
  'nothing-wanted': { code: 'nothing-wanted' },
  'too-few-changes': { code: 'too-few-changes', needed: 5000, possible: 4096 },
  'no-deal-fits': {
    code: 'no-deal-fits',
    level: 'MK',
    needed: 70,
    possible: 64,
    tried: 20,
    proven: false,
  },
  'group-too-small': { code: 'group-too-small', level: 'CK', needed: 70, possible: 64 },
  'deal-bad': { code: 'deal-bad', level: 'MK' },
  'deal-length': { code: 'deal-length', found: 5, expected: 6 },
  'top-master-unusable': { code: 'top-master-unusable' },
  'no-top-master': { code: 'no-top-master', tried: 12 },
  'master-off-deal': { code: 'master-off-deal', symbol: 'AA', chamber: 3 },
  'letters-used-up': { code: 'letters-used-up', level: 'GMK', possible: 23 },
  'symbol-repeated': { code: 'symbol-repeated', symbol: 'AA' },
  'no-control-key': { code: 'no-control-key', tried: 12 },
  'symbol-empty': { code: 'symbol-empty' },
  'symbol-too-long': { code: 'symbol-too-long', length: 80, most: 60 },
  'avoided-letter': { code: 'avoided-letter', symbol: 'AI', letter: 'I' },
  'reserved-letter': { code: 'reserved-letter', symbol: 'XA', letter: 'X' },
  'eaten-flat': { code: 'eaten-flat', first: 3, from: '2', to: '8', by: inches(0.006), unit: 'in' },
  'macs-differs': { code: 'macs-differs', stated: 7, geometric: 5 },
  'cutter-too-wide': { code: 'cutter-too-wide', by: inches(0.036), macs: 4, unit: 'in' },
  'suspect-cut': {
    code: 'suspect-cut',
    at: 3,
    symbol: '4',
    deviation: inches(0.0031),
    tolerance: inches(0.002),
    unit: 'in',
  },
  'ambiguous-cut': { code: 'ambiguous-cut', at: 3, symbol: '4', other: '3' },
  'shared-offset': { code: 'shared-offset', offset: inches(-0.004), unit: 'in' },
  'positions-out-of-range': { code: 'positions-out-of-range', found: 9, least: 4, most: 8 },
  'centres-missing': { code: 'centres-missing' },
  'centres-count': { code: 'centres-count', found: 5, expected: 6 },
  'centres-not-rising': { code: 'centres-not-rising', position: 3 },
  'depths-too-few': { code: 'depths-too-few', found: 1 },
  'depths-too-many': { code: 'depths-too-many', found: 27, most: 26 },
  'depth-symbol-repeated': { code: 'depth-symbol-repeated', symbol: '3' },
  'depth-symbol-bad': { code: 'depth-symbol-bad', symbol: '1.5' },
  'depth-root-repeated': { code: 'depth-root-repeated', symbol: '4', other: '3' },
  'depth-root-bad': { code: 'depth-root-bad', symbol: '4' },
  'depth-above-blade': { code: 'depth-above-blade', symbol: '0' },
  'depth-below-plug': { code: 'depth-below-plug', symbol: '0' },
  'not-positive': { code: 'not-positive', field: 'rootWidth' },
  'angle-too-wide': { code: 'angle-too-wide', found: 180 },
  'macs-bad': { code: 'macs-bad', found: 0, most: 9 },
  'step-bad': { code: 'step-bad', found: 0, most: 9 },
  'core-bad': { code: 'core-bad', field: 'total' },
  'core-depths-uneven': { code: 'core-depths-uneven', from: '3', to: '4' },
  'name-missing': { code: 'name-missing' },
};

const samples: readonly Finding[] = Object.values(SAMPLES);

describe('the words', () => {
  it.each(samples.map((finding) => [finding.code, finding] as const))(
    'say what is wrong: %s',
    (code, finding) => {
      const words = say(finding);
      expect(words).toMatch(/^[A-Z0-9“].*\.$/);
      expect(words.split(' ').length).toBeGreaterThan(5);
      expect(words).not.toMatch(/undefined|NaN|\[object|\bnull\b| {2}/);
      expect(code.includes('-') && words.includes(code)).toBe(false);
    },
  );

  it('differ for every code', () => {
    expect(new Set(samples.map((finding) => say(finding))).size).toBe(samples.length);
  });

  it('hold every text and every number of the finding, but for lengths, which are shown in their unit', () => {
    for (const finding of samples)
      for (const [name, value] of Object.entries(finding)) {
        const shown = ![
          'code',
          'unit',
          'by',
          'deviation',
          'tolerance',
          'offset',
          'field',
          'length',
          'thousandths',
        ].includes(name);
        if (shown && typeof value === 'number') expect(say(finding)).toContain(String(value));
        if (shown && typeof value === 'string') expect(say(finding)).toContain(value);
      }
  });

  it.each<[Finding, string]>([
    [
      SAMPLES.macs,
      'The 2 and 8 at cuts 3 and 4 differ by 6 steps; this spec allows 5. Choose depths closer together.',
    ],
    [
      { ...SAMPLES.macs, steps: 1 },
      'The 2 and 8 at cuts 3 and 4 differ by 1 step; this spec allows 5. Choose depths closer together.',
    ],
    [
      SAMPLES['equal-run'],
      'Cuts 2 to 5 are all 4: 4 equal cuts side by side, and at most 3 are allowed. Change one of them.',
    ],
    [
      SAMPLES['near-miss'],
      'Only chamber 4 keeps this key from AA3, and there by 0.0125 in; in a worn lock it may turn. Choose a bitting that differs in more chambers if you can.',
    ],
    [
      SAMPLES['eaten-flat'],
      "The 2 and 8 at cuts 3 and 4 meet: the deeper cut eats 0.006 in of its neighbour's flat. Use a narrower cutter, or depths closer together.",
    ],
    [
      SAMPLES['suspect-cut'],
      'Cut 3 is nearest to 4, but off by 0.0031 in; the tolerance is 0.002 in. Measure it again.',
    ],
    [SAMPLES['not-positive'], 'The root width must be more than zero; correct it.'],
    [{ ...SAMPLES['depths-too-few'], found: 0 }, 'There are only 0 depths; a spec needs at least 2.'],
    [{ code: 'not-a-code', text: ' ' }, 'There is no code here; type the symbols of the cuts.'],
    [{ code: 'not-a-length', text: '' }, 'There is no length here; type a number, such as 0.237.'],
  ])('%j', (finding, words) => {
    expect(say(finding)).toBe(words);
  });

  it('say their lengths in the unit that is asked for, and nothing else otherwise', () => {
    for (const finding of samples) {
      const [plain, metric, imperial] = [undefined, 'mm', 'in'].map((unit) =>
        say(findingIn(finding, unit as 'in' | 'mm' | undefined)),
      );
      expect(plain).toBe(say(finding));
      expect(metric).not.toMatch(/\d\.\d+ in\b/);
      if (finding.code !== 'not-a-length') expect(imperial).not.toMatch(/\d\.\d+ mm\b/);
      if (!/\d\.\d+ (?:in|mm)\b/.test(say(finding))) expect(metric).toBe(say(finding));
    }
    const near = { code: 'near-miss', other: 'AA3', chamber: 4, thousandths: 12.5 } as const;
    // 12.5 thousandths of 25.4 mm are 0.3175 mm
    expect(say(findingIn({ code: 'unusable-bitting', key: 'A', reasons: [near] }, 'mm'))).toContain(
      '0.32 mm',
    );
    expect(findingIn(near, undefined)).toBe(near);
  });

  it('are led by the place', () => {
    expect(say(SAMPLES.macs, 'B7')).toBe(`B7: ${say(SAMPLES.macs)}`);
    expect(say({ ...SAMPLES['near-interchange'] })).toContain('0.018 in');
    // 0.35 and 0.5 mm are 13.8 and 19.7 thousandths of an inch, of 25.4 mm (ISO 80000-3)
    expect(say({ ...SAMPLES['near-interchange'], thousandths: 13.8, unit: 'mm' })).toContain('by 0.35 mm');
    expect(say({ ...SAMPLES['near-miss'], thousandths: 19.7, unit: 'mm' })).toContain('by 0.50 mm');
  });

  it('speak of what the parsers and checks return', () => {
    const six = starter('S-018-6');
    const code = parseBitting(six, 74153);
    expect(code.ok || say(code.error[0]!)).toContain('074153');
    const length = parseLength('wide', 'in');
    expect(length.ok || say(length.error)).toContain('“wide” is not a length');
    const spec = makeSpecification({ ...six, name: '', positions: 6 });
    expect(spec.ok || say(spec.error[0]!)).toBe('The spec has no name; give it one.');
    expect(checkBitting(six, key(six, '282153')).map((finding) => say(finding))).toHaveLength(2);
  });
});

it('has a title for every rule', () => {
  const titles = RULE_NAMES.map(ruleTitle);
  expect(new Set(titles).size).toBe(RULE_NAMES.length);
  for (const title of titles) expect(title).toMatch(/^[A-Z]/);
});

it('has a reason for every rule', () => {
  const reasons = RULE_NAMES.map(ruleReason);
  expect(new Set(reasons).size).toBe(RULE_NAMES.length);
  for (const reason of reasons) expect(reason).toMatch(/^[A-Z].*\.$/);
});

it('counts only advice as a warning', () => {
  const warnings = samples
    .filter((finding) => severityOf(finding) === 'warning')
    .map((finding) => finding.code);
  expect(warnings.sort()).toEqual(
    [
      'ambiguous-cut',
      'avoided-letter',
      'eaten-flat',
      'macs-differs',
      'near-interchange',
      'near-miss',
      'pulls-out-turned',
      'reserved-letter',
      'shared-offset',
      'stair',
      'suspect-cut',
    ].sort(),
  );
});
