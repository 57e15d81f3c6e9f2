import { describe, expect, it } from 'vitest';
import { dayOf } from '../../src/keying/calendar.ts';
import { starterSpec } from '../../src/keying/starters.ts';
import { DEFAULT_RULES, NO_RULES } from '../../src/keying/rules.ts';
import { auditCounts, auditSentence, partSentence } from '../../taskpane/audit/words.ts';
import { rulesText } from '../../taskpane/make/newSystem.ts';
import { masterExposure } from '../../src/keying/exposure.ts';
import { cautionText } from '../../taskpane/shared/Caution.tsx';
import { isDark } from '../../taskpane/shared/theme.ts';
import { readDay } from '../../taskpane/people/useStanding.ts';
import { today } from '../../taskpane/shared/today.ts';
import { holdsSentence, troubleSentence } from '../../taskpane/start/summary.ts';

const NOTHING = { specs: 0, systems: 0, keys: 0, cylinders: 0, marks: 0, faults: 0, warnings: 0 };

describe('the start screen', () => {
  it('says what the workbook holds', () => {
    expect(holdsSentence({ ...NOTHING, specs: 2, systems: 1, keys: 1148, cylinders: 60 })).toBe(
      '2 specs · 1 system · 1,148 keys · 60 cylinders',
    );
    expect(holdsSentence(NOTHING)).toBeUndefined();
  });

  it('says what is wrong only when something is', () => {
    expect(troubleSentence({ ...NOTHING, faults: 3, warnings: 1 })).toContain('3 faults and 1 warning');
    expect(troubleSentence(NOTHING)).toBeUndefined();
  });
});

describe('an audit in words', () => {
  const report = { keys: 148, cylinders: 60, pairs: 8880 };

  it('puts faults before warnings, most first', () => {
    const counts = { 'near-interchange': 9, 'lock-out': 1, interchange: 1204 };
    expect(auditCounts({ counts }).map((c) => [c.words, c.severity])).toEqual([
      ['1,204 key interchanges', 'fault'],
      ['1 lock-out', 'fault'],
      ['9 near misses', 'warning'],
    ]);
    expect(auditSentence({ ...report, counts })).toBe(
      '148 keys against 60 cylinders, 8,880 pairs: 1,205 faults, 9 warnings.',
    );
  });

  it('says that nothing was found', () => {
    expect(auditSentence({ ...report, counts: {} })).toBe(
      '148 keys against 60 cylinders, 8,880 pairs: no fault.',
    );
  });
});

describe('an audit that was stopped', () => {
  it('says how far it came and that nothing is said of the rest', () => {
    expect(partSentence({ cylinders: 312, unaudited: 688 })).toBe(
      'Stopped after 312 of 1,000 cylinders; nothing is said of the rest.',
    );
    expect(partSentence({ cylinders: 1000 })).toBeUndefined();
  });
});

describe('cautions', () => {
  // M. Blaze, IEEE Security & Privacy 1(2), 2003, doi 10.1109/MSECP.2003.1193208: P(H − 1); 6 pins, 10 depths → 54
  it('shows the published figure for master keying', () => {
    const spec = starterSpec('S-018-6')!;
    expect(masterExposure(spec)).toBe(54);
    expect(cautionText('master-keyed', spec)).toContain('54 trials');
  });
});

describe('what is kept with a system', () => {
  it('names the rules that held, with their limits', () => {
    expect(rulesText(NO_RULES)).toBe('');
    expect(rulesText(DEFAULT_RULES)).toContain('at least 3');
  });

  it('writes the date of the user’s own calendar', () => {
    expect(today(new Date(2025, 0, 9, 23, 59))).toBe('2025-01-09');
  });

  // Zones from the IANA time zone database: UTC−11, UTC+14 and two that skip or repeat an hour at midnight.
  it.each(['Pacific/Pago_Pago', 'Pacific/Kiritimati', 'America/Santiago', 'Africa/Cairo', 'UTC'])(
    'holds in %s, where a key due today is not overdue before the clock strikes midnight',
    (zone) => {
      const before = process.env.TZ;
      process.env.TZ = zone;
      try {
        for (const month of [0, 3, 8])
          for (const dayOfMonth of [1, 6, 24]) {
            const due = dayOf({ year: 2025, month: month + 1, day: dayOfMonth })!;
            const first = new Date(2025, month, dayOfMonth, 1, 30);
            const last = new Date(2025, month, dayOfMonth, 23, 59, 59);
            const next = new Date(2025, month, dayOfMonth + 1, 1, 30);
            expect([first, last, next].map((now) => readDay('', today(now)).day - due)).toEqual([0, 0, 1]);
            // the same moment in the zone's own calendar, told by another library
            expect(today(last)).toBe(new Intl.DateTimeFormat('sv-SE', { timeZone: zone }).format(last));
          }
      } finally {
        if (before === undefined) delete process.env.TZ;
        else process.env.TZ = before;
      }
    },
  );
});

describe('the theme', () => {
  it.each([
    ['#ffffff', false],
    ['#F3F2F1', false],
    ['#262626', true],
    ['#000000', true],
    ['not a colour', false],
  ])('takes %s as dark: %s', (colour, dark) => {
    expect(isDark(colour)).toBe(dark);
  });
});
