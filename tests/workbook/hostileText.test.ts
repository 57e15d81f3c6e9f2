/**
 * Text that a spreadsheet would take for a formula. The leading characters are those of OWASP's page on CSV injection
 * (https://owasp.org/www-community/attacks/CSV_Injection): = + - @, tab, carriage return; and the full-width = + - @,
 * which some programs take for them. Whatever we write, it stays the text that it was.
 */
import { describe, expect, it } from 'vitest';
import type { Day } from '../../src/keying/calendar.ts';
import { planCutting } from '../../src/workbook/index.ts';
import { planLedger } from '../../src/workbook/planLedger.ts';
import { openBook } from '../support/office.ts';
import { at, MADE, reading, write, writeSystem } from './book.ts';
import { school, SPEC } from './school.ts';

const LEADS = ['=', '+', '-', '@', '\t', '\r', '＝', '＋', '－', '＠', '\t=', ' =', "'="];
const PAYLOADS = LEADS.map((lead) => `${lead}HYPERLINK("http://x","y")`);

/** Formulas of the whole workbook that are not our own functions, nor our links within it. */
function foreignFormulas(model: ReturnType<typeof openBook>['model']): string[] {
  return model.sheets
    .flatMap((sheet) => [...sheet.cells.all()].flatMap(({ cell }) => cell.formula ?? []))
    .filter((formula) => !formula.startsWith('=KEYROW.') && !formula.startsWith('=HYPERLINK("#'));
}

describe('text that begins as a formula does', () => {
  it.each(PAYLOADS)('%j stays text on a cutting sheet', async (payload) => {
    const { model } = openBook();
    const line = {
      rows: [0],
      marks: [payload],
      originals: [payload],
      blank: payload,
      keys: 1,
      remarks: [payload],
    };
    await write(planCutting(await reading(), { ...MADE, spec: SPEC, lines: [line] }));
    for (const column of ['A', 'B', 'D'])
      expect(String(at(model, 'Cutting', `${column}5`)).trim()).toBe(payload.trim());
    expect(foreignFormulas(model)).toEqual([]);
  });

  it.each(PAYLOADS)('%j stays text in the ledger and as the name of a system', async (payload) => {
    const { model } = openBook();
    await writeSystem(school(`${payload} A`));
    const system = (await reading()).systems[0]!.name;
    expect(system.trim()).toBe(`${payload} A`.trim());
    const entry = {
      event: 'issued',
      system,
      symbol: 'AA1',
      copy: 1,
      holder: payload,
      day: 46_095 as Day,
    } as const;
    const plan = planLedger(await reading(), {
      title: 'Issue',
      entries: [entry],
      holders: [{ name: payload }],
      made: '2026-03-14',
    });
    await write(plan);
    const texts = model.sheets
      .filter((sheet) => ['Ledger', 'Holders'].includes(sheet.name))
      .map((sheet) =>
        [...sheet.cells.all()].filter(({ cell }) => String(cell.value).trim() === payload.trim()),
      );
    expect(texts.map((cells) => cells.length)).toEqual([1, 1]);
    expect(foreignFormulas(model)).toEqual([]);
  });
});
