import { describe, expect, it } from 'vitest';
import { depthSetOf } from '../../../src/keying/depthSet.ts';
import { checkBitting } from '../../../src/keying/index.ts';
import { headline } from '../../../taskpane/strip/headline.ts';
import { Strip } from '../../../taskpane/strip/Strip.tsx';
import type { StripSubject } from '../../../taskpane/strip/subject.ts';
import { key, starter } from '../../support/keys.ts';
import { attributes, render } from '../pictures/markup.ts';

const spec = starter('S-018-6');
const bitting = key(spec, '128345');
const chambers = [[2, 6], [7], [4, 8], [1, 3], [5], [3]].map(depthSetOf);

const SUBJECTS = {
  nothing: { kind: 'nothing' },
  key: {
    kind: 'key',
    symbol: 'AA12',
    spec,
    bitting,
    findings: checkBitting(spec, bitting),
    doors: [
      { name: '101', state: 'opens' },
      { name: '102', state: 'lock-out' },
      { name: '103', state: 'interchange' },
    ],
  },
  cylinder: {
    kind: 'cylinder',
    spec,
    cylinder: { id: 'C1', door: '101', chambers },
    keys: [{ name: 'A', state: 'opens' }],
  },
  'grid-cell': {
    kind: 'grid-cell',
    why: {
      spec,
      symbol: 'AA3',
      bitting: key(spec, '674253'),
      cylinder: { id: 'C1', door: '101', chambers },
      state: 'lock-out',
    },
  },
  holder: { kind: 'holder', name: 'Night shift', keys: [{ symbol: 'AA1', copy: '2', note: 'due 1 Dec' }] },
  spec: { kind: 'spec', spec },
  unreadable: { kind: 'unreadable', name: 'AA9', sentence: 'The code has 5 cuts; this spec has 6.' },
} as const satisfies { readonly [K in StripSubject['kind']]: Extract<StripSubject, { kind: K }> };

describe('the strip', () => {
  it('says in one line what is selected', () => {
    expect(Object.values(SUBJECTS).map(headline)).toEqual([
      'Nothing of the schedule selected',
      'Key AA12: 1 fault, opens 2 doors, 2 not as meant',
      '101: opened by 1 key',
      'AA3 at 101: should open and doesn’t',
      'Night shift: 1 key in hand',
      'Spec S-018-6: 6 cuts, 10 depths',
      'AA9: can’t be read',
    ]);
  });

  it('shows the blade of a key with its faults, and the doors that are not as meant first', () => {
    const markup = render(Strip, { subject: SUBJECTS.key });
    expect(attributes(markup, 'data-place')).toEqual(['2-3']);
    const doors = markup.slice(markup.indexOf('Doors'));
    expect(doors.indexOf('102')).toBeLessThan(doors.indexOf('101'));
    expect(doors).toContain('103: opens and should not');
  });

  it('shows the pins of a cylinder and who opens it', () => {
    const markup = render(Strip, { subject: SUBJECTS.cylinder });
    expect(attributes(markup, 'data-pin').filter((p) => p === 'bottom')).toHaveLength(6);
    expect(markup.slice(markup.indexOf('>Keys<'))).toContain('A');
  });

  it('shows why at a cell of the grid, the keys of a holder, and what can’t be read', () => {
    expect(render(Strip, { subject: SUBJECTS['grid-cell'] })).toContain('Should open and doesn’t.');
    expect(render(Strip, { subject: SUBJECTS.holder })).toContain('AA1 / 2 (due 1 Dec)');
    expect(render(Strip, { subject: SUBJECTS.unreadable })).toContain(
      'The code has 5 cuts; this spec has 6.',
    );
    expect(render(Strip, { subject: SUBJECTS.nothing })).toContain(
      'Select a key, a cylinder, a holder or a cell of the grid',
    );
  });

  it('folds to its line, and never asks for the focus', () => {
    const folded = render(Strip, { subject: SUBJECTS.key, folded: true });
    expect(folded).toContain('aria-expanded="false"');
    expect(folded).not.toContain('data-root');
    expect(folded).toContain('Key AA12');
    for (const subject of Object.values(SUBJECTS)) {
      const markup = render(Strip, { subject });
      expect(markup).not.toMatch(/autofocus/i);
      expect(markup).toContain('aria-live="polite"');
    }
  });
});
