/** Choices kept in the workbook's settings: what is kept, what a bad part costs, and that no change is lost. */
import { describe, expect, it } from 'vitest';
import { auditSystem } from '../../src/keying/audit.ts';
import { depthSetOf } from '../../src/keying/depthSet.ts';
import { noteAudit } from '../../src/keying/auditNotes.ts';
import { auditInputOf } from '../../src/keying/intended.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { auditInput, changeSettings, readSettings, secretsIn } from '../../src/workbook/index.ts';
import { parseSettings } from '../../src/workbook/settings.ts';
import { openBook } from '../support/office.ts';
import { reading, writeSystem } from './book.ts';
import { school, SPEC } from './school.ts';

describe('the settings of a workbook', () => {
  it('keep choices, each change beside the others', async () => {
    openBook();
    expect(await readSettings()).toEqual({});
    const kept = await Promise.all([
      changeSettings((now) => ({ ...now, spec: 'S-018-6' })),
      changeSettings((now) => ({ ...now, unit: 'mm' })),
      changeSettings((now) => ({ ...now, folded: ['Keys in hand'] })),
    ]);
    expect(kept).toEqual([true, true, true]);
    expect(await readSettings()).toEqual({ spec: 'S-018-6', unit: 'mm', folded: ['Keys in hand'] });
  });

  it('remember an audit without any bitting', async () => {
    const { model } = openBook();
    await writeSystem(school());
    const book = await reading();
    const { system, marks } = auditInput(book, 'School')!;
    // pinned wrong, so that there are findings to remember
    const wrong = {
      ...system,
      cylinders: system.cylinders.map((c) => ({ ...c, chambers: c.chambers.with(0, depthSetOf([0])) })),
    };
    const report = runToEnd(auditSystem(auditInputOf(wrong, marks)));
    expect(report.findings.map((finding) => finding.code)).toContain('lock-out');
    const notes = noteAudit(wrong, report, secretsIn(book));
    await changeSettings((now) => ({
      ...now,
      lastAudits: [{ system: 'School', made: '2026-11-24', ...notes }],
    }));
    expect((await readSettings()).lastAudits).toEqual([{ system: 'School', made: '2026-11-24', ...notes }]);
    const kept = JSON.stringify([...model.state.settings]);
    expect(kept).toContain('lock-out');
    const codes = school().system.keys.map(({ bitting }) =>
      bitting.map((d) => SPEC.depths[d]!.symbol).join(''),
    );
    for (const code of codes) expect(kept.replace(/[^0-9A-Za-z]/g, '')).not.toContain(code);
  });

  it('lose only the part that cannot be read', () => {
    expect(parseSettings('{"spec":"S-018-6","unit":"furlong","begun":true,"later":1}')).toEqual({
      spec: 'S-018-6',
      begun: true,
    });
    for (const text of ['', 'null', '[]', '{', '"x"']) expect(parseSettings(text), text).toEqual({});
  });
});
