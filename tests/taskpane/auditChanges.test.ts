/** What changed since the audit before, as it is said. */
import { describe, expect, it } from 'vitest';
import { AuditChanges, type SinceLast } from '../../taskpane/audit/AuditChanges.tsx';
import { sayNames } from '../../taskpane/audit/changeWords.ts';
import { render } from './pictures/markup.ts';

const SAME: SinceLast = {
  made: '2026-11-24',
  change: {
    findings: { fresh: [], gone: [], same: 14 },
    counts: [],
    keys: { added: [], gone: [], changed: [] },
    cylinders: { added: [], gone: [], changed: [] },
  },
  metal: { recut: [], repinned: [] },
  withheld: 0,
};
const textOf = (since: SinceLast): string =>
  render(AuditChanges, { since })
    .replace(/<[^>]+>/g, ' ')
    .replace(/\s+/g, ' ');

describe('what changed since the last audit', () => {
  it('is said to be nothing where it is', () => {
    expect(textOf(SAME)).toContain('Nothing has changed: the same findings, keys and cylinders.');
  });

  it('names findings, keys and cylinders', () => {
    const text = textOf({
      ...SAME,
      change: {
        ...SAME.change,
        findings: { fresh: [0, 1], gone: [['interchange', 'AA3', '12', '']], same: 1204 },
        keys: { added: ['AB7'], gone: [], changed: [{ name: 'AA2', from: 'issued', to: 'retired' }] },
        cylinders: { added: [], gone: ['9'], changed: [{ name: '12', from: 'AA3', to: 'AB7' }] },
      },
      metal: { recut: ['AA4'], repinned: ['12', '13'] },
    });
    for (const words of [
      'Findings: 2 new, 1 gone, 1,204 as before.',
      '1 key added: AB7.',
      '1 key with another status: AA2 retired (was issued).',
      '1 cylinder gone: 9.',
      '1 cylinder keyed otherwise: 12 keyed to AB7 (was AA3).',
      '1 key with another bitting: AA4.',
      '2 cylinders with other pins: 12 and 13.',
      'Key interchange: key AA3, cylinder 12.',
    ])
      expect(text).toContain(words);
  });

  it('says what it can’t tell', () => {
    expect(textOf({ ...SAME, metal: undefined })).toContain('hold no bitting to compare with');
    const large = textOf({
      ...SAME,
      change: { counts: [{ code: 'lock-out', before: 3, now: 1 }] },
      withheld: 2,
    });
    expect(large).toContain('1 lock-out, 3 before.');
    expect(large).toContain('too large to remember by name');
    expect(large).toContain('2 names look like a bitting');
  });

  it('counts names that are too many to read', () => {
    const added = Array.from({ length: 40 }, (_, i) => `K${i}`);
    expect(sayNames('key', { added, gone: [], changed: [] })[0]).toMatch(
      /^40 keys added: K0, .*, K10 and 29 more\.$/,
    );
  });
});
