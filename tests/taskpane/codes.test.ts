import { describe, expect, it } from 'vitest';
import { guessSpecs } from '../../src/keying/importSpec.ts';
import { DEFAULT_RULES } from '../../src/keying/rules.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { STARTER_SPECS } from '../../src/keying/starters.ts';
import { readCodes, isBarred } from '../../taskpane/codes/codesJob.ts';
import {
  countsOf,
  reasonOf,
  rowSentence,
  samplesOf,
  sayBetterSpec,
  saySpecGuess,
} from '../../taskpane/codes/codesWords.ts';
import { guessList } from '../../taskpane/codes/useList.ts';
import { starter } from '../support/keys.ts';

const ROWS = [
  ['AA1', '274153', '2'],
  ['AA2', '090909', '1'],
  ['AA3', 'KX 1042', '1'],
  ['AA4', '24153O', 'some'],
  ['AA5', '', '1'],
];

const report = () =>
  runToEnd(
    readCodes({
      list: { spec: starter('S-018-6'), rows: ROWS, roles: ['mark', 'code', 'quantity'], options: {} },
      rules: DEFAULT_RULES,
      firstRow: 1,
    }),
  );

describe('readCodes', () => {
  it('counts every row once', () => {
    const found = report();
    expect(countsOf(found)).toBe('5 rows: 1 plain, 1 to look at, 3 can’t be cut.');
    expect(found.plain + found.doubtful + found.barred).toBe(ROWS.length);
    expect(found.reasons.map(reasonOf).sort()).toEqual([
      '1 breaks the adjacent-cut limit',
      '1 has look-alike letters',
      '1 has no code',
      '1 has no readable quantity',
      '1 has too few different depths',
      '1 is a blind code or reference',
    ]);
  });

  it('says what is wrong with a row, led by its mark and the code as it came', () => {
    const { rows, findings } = report();
    expect(rowSentence(rows[3]!, findings[3])).toBe(
      'AA4 · 24153O. “O” at cut 6 was taken for 0, which it looks like. “some” is no number of keys.',
    );
    expect(rows.map((row, i) => isBarred(row, findings[i]))).toEqual([false, true, true, false, true]);
  });
});

describe('guessList', () => {
  it('guesses columns and spec together', () => {
    const rows = [['Mark', 'Bitting'], ...ROWS.map((row) => row.slice(0, 2))];
    const guess = guessList({ rows, name: 'list' }, { own: [], starters: STARTER_SPECS });
    expect(guess.columns).toMatchObject({ headerRows: 1, roles: ['mark', 'code'] });
    expect(guess.specs[0]!.spec.name).toBe('S-018-6');
    expect(saySpecGuess(guess.specs[0]!)).toBe('Likely: 2 of 3 codes fit it within MACS, 1 more beyond it.');
    expect(samplesOf(rows.slice(1), 1)).toBe('274153, 090909, KX 1042, …');
  });
});

describe('a spec that a list fits much better', () => {
  const cells = ['274153', '352416', '453216', '163524', '246135', '531642'];
  const guesses = guessSpecs(cells, STARTER_SPECS);

  it('is named with its figures', () => {
    // six cuts can't be read by a spec of five
    expect(sayBetterSpec(guesses, 'M-050-5')).toMatch(
      /^S-0\d+-6 fits better: 6 of 6 codes within MACS, against 0\.$/,
    );
  });

  it('is none where the chosen one is the best, or not half bad', () => {
    expect(sayBetterSpec(guesses, guesses[0]!.spec.name)).toBe('');
    const even = guesses.map((guess) => ({ ...guess, within: 4 }));
    expect(sayBetterSpec(even, even.at(-1)!.spec.name)).toBe('');
  });
});
