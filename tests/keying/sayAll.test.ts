/** Several findings in words. The sentences are ours; that nothing is lost in them is held against the findings. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  cutterFindings,
  inches,
  parseBitting,
  say,
  sayAll,
  sayGroups,
  type BittingFinding,
} from '../../src/keying/index.ts';
import { key, starter } from '../support/keys.ts';

const near = (other: string, chamber = 2): BittingFinding => ({
  code: 'near-miss',
  other,
  chamber,
  thousandths: 18,
});

describe('several findings in words', () => {
  it('tell one of a kind as it is told alone, in the order of the findings', () => {
    const found: BittingFinding[] = [
      { code: 'duplicate', of: 'A10' },
      near('B6'),
      { code: 'stair', direction: 'deeper' },
    ];
    expect(sayAll(found)).toEqual(found.map((f) => say(f)));
    expect(sayAll([])).toEqual([]);
  });

  it('tell many near misses once, by name and distance', () => {
    expect(sayAll([near('B6'), near('B10', 4)])).toEqual([
      'One chamber alone keeps this key from each of B6 (chamber 2, by 0.018 in), B10 (chamber 4, by 0.018 in); in a worn lock it may turn. Choose a bitting that differs in more chambers if you can.',
    ]);
    const [sentence] = sayAll(Array.from({ length: 9 }, (_, i) => near(`B${i}`)));
    expect(sentence).toContain('B4 (chamber 2, by 0.018 in) and 4 more;');
    expect(sentence).not.toContain('B5');
  });

  it('tell unknown depths of a code by symbol, and the depths there are once', () => {
    const read = parseBitting(starter('M-050-5'), '98019');
    if (read.ok) throw new Error('five of its depths are none');
    expect(sayAll(read.error)).toEqual([
      'Not depths of this spec: “9” at cuts 1, 5; “8” at cut 2; “0” at cut 3. Its depths are 7, 6, 5, 4, 3, 2, 1.',
    ]);
  });

  it('tell every pair of neighbours too far apart', () => {
    const macs = (first: number, from: string, to: string, steps: number): BittingFinding => ({
      code: 'macs',
      first,
      from,
      to,
      steps,
      allowed: 5,
    });
    expect(sayAll([macs(1, '1', '9', 8), macs(2, '9', '0', 9)])).toEqual([
      'Neighbours lie too far apart at cuts 1 and 2 (1 and 9, 8 steps), 2 and 3 (9 and 0, 9 steps); this spec allows 5. Choose depths closer together.',
    ]);
  });

  it('tell every flat that is eaten', () => {
    const spec = starter('S-018-6');
    const found = cutterFindings(spec, key(spec, '272722'), { flat: inches(0.09), angle: 90 });
    const [tooWide, eaten, ...more] = sayAll(found);
    expect(more).toEqual([]);
    expect(tooWide).toContain('0.036 in wider');
    // 5 × 0.018 + (0.09 + 0.054) ÷ 2 − 0.156 = 0.006, worked out by hand
    const pairs = ['1 and 2 (2 and 7', '2 and 3 (7 and 2', '3 and 4 (2 and 7', '4 and 5 (7 and 2'];
    expect(eaten).toBe(
      `The deeper cut eats its neighbour's flat at cuts ${pairs.map((pair) => `${pair}, by 0.006 in)`).join(', ')}. Use a narrower cutter, or depths closer together.`,
    );
  });

  it('leave no finding out and tell none twice', () => {
    const finding = fc.oneof(
      fc.integer({ min: 1, max: 8 }).map((n) => near(`K${n}`, n)),
      fc.constantFrom<BittingFinding>(
        { code: 'duplicate', of: 'A1' },
        { code: 'operates-existing', cylinder: 'C1' },
        { code: 'parity', at: 3, steps: 1, step: 2, master: 'A' },
      ),
    );
    fc.assert(
      fc.property(fc.array(finding, { maxLength: 20 }), (findings) => {
        const groups = sayGroups(findings);
        expect(groups.flatMap((g) => g.findings)).toHaveLength(findings.length);
        expect(new Set(groups.flatMap((g) => g.findings))).toEqual(new Set(findings));
        for (const { findings: all } of groups) expect(new Set(all.map((f) => f.code)).size).toBe(1);
      }),
    );
  });
});
