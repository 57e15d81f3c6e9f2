/** Which hosts the pane runs in, and what it says in the others. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEFAULT_SETS, isSetSupported } from '../../src/preview/host/index.ts';
import { claimedSets } from '../../taskpane/preview/claimedSets.ts';
import { NEEDED_API, unfit } from '../../taskpane/shared/requirements.ts';
import { WhyNot } from '../../taskpane/shared/TooOld.tsx';
import { render } from './pictures/markup.ts';

const office = globalThis as { Office?: unknown };
const before = office.Office;
beforeAll(() => {
  office.Office = { HostType: { Excel: 'Excel', Word: 'Word' }, context: {} };
});
afterAll(() => {
  office.Office = before;
});

const excel = 'Excel' as unknown as Office.HostType;
const host = (version: string) => ({
  isSetSupported: (name: string, wanted?: string) =>
    isSetSupported({ ...DEFAULT_SETS, ExcelApi: version }, name, wanted),
});

describe('the host', () => {
  it.each([
    ['1.1', 'too-old'],
    ['1.9', 'too-old'],
    ['1.13', 'too-old'],
    ['1.14', undefined],
    ['1.20', undefined],
  ])('of ExcelApi %s is %s', (version, why) => {
    expect(unfit(excel, host(version))).toBe(why);
  });

  it('has to be Excel', () => {
    expect(unfit('Word' as unknown as Office.HostType, host('1.20'))).toBe('not-excel');
    expect(unfit(null, host('1.20'))).toBe('not-excel');
  });

  it('is told what is missing and what to do', () => {
    const old = render(WhyNot, { why: 'too-old' });
    expect(old).toContain(`ExcelApi ${NEEDED_API}`);
    expect(old).toContain('Update Excel, or open the workbook on the web.');
    expect(render(WhyNot, { why: 'not-excel' })).toContain('Keyrow works inside Excel.');
  });
});

it('is as old in the preview as its address says', () => {
  expect(claimedSets('?excel=1.13')).toEqual({ ...DEFAULT_SETS, ExcelApi: '1.13' });
  for (const search of ['', '?excel=', '?excel=new', '?other=1.1'])
    expect(claimedSets(search)).toBe(DEFAULT_SETS);
});
