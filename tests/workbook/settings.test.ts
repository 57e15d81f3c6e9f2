/** Choices kept in the workbook's settings: what is kept, what a bad part costs, and that no change is lost. */
import { describe, expect, it } from 'vitest';
import { changeSettings, readSettings } from '../../src/workbook/index.ts';
import { parseSettings } from '../../src/workbook/settings.ts';
import { openBook } from '../support/office.ts';

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

  it('lose only the part that cannot be read', () => {
    expect(parseSettings('{"spec":"S-018-6","unit":"furlong","begun":true,"later":1}')).toEqual({
      spec: 'S-018-6',
      begun: true,
    });
    for (const text of ['', 'null', '[]', '{', '"x"']) expect(parseSettings(text), text).toEqual({});
  });
});
