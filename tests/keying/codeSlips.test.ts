/** Codes of a list that were typed, printed or converted badly: what is put right, and what never is. */
import { describe, expect, it } from 'vitest';
import { canonicalCode, readCode, shownText, withLookAlikes } from '../../src/keying/importCode.ts';
import { codesBehind, dateOfSerial, readDate } from '../../src/keying/importDates.ts';
import type { Specification } from '../../src/keying/specification.ts';
import { starter } from '../support/keys.ts';

const six = starter('S-018-6');

describe('a cell', () => {
  it('that is a tick is no code, one that shows nothing is empty', () => {
    expect(readCode(six, true)).toEqual({
      kind: 'unreadable',
      original: 'true',
      faults: [{ code: 'not-a-code', text: 'true' }],
      notes: [],
    });
    for (const cell of ['', '  ', '\u200B'])
      expect(readCode(six, cell)).toEqual({ kind: 'empty', original: cell, faults: [], notes: [] });
    expect(canonicalCode(six, readCode(six, ''))).toBe('');
    expect(shownText({ serial: 1, shown: '31.12.1899' })).toBe('31.12.1899');
    expect(shownText(7)).toBe('7');
  });

  it('with full-width signs set apart is noted once for each thing', () => {
    const { kind, notes } = readCode(six, ' ２ ７ ４ １ ５ ３');
    expect(kind).toBe('bitting');
    expect(notes).toEqual([{ code: 'full-width' }, { code: 'stray-space' }]);
  });

  it('with a date says so and has no bitting', () => {
    expect(readCode(six, { serial: 41_590, shown: '12.11.2013' })).toEqual({
      kind: 'unreadable',
      original: '12.11.2013',
      faults: [{ code: 'not-a-code', text: '12.11.2013' }],
      notes: [{ code: 'was-date', shown: '12.11.2013', suggestions: ['111213', '121113', '131112'] }],
    });
  });
});

describe('look-alikes', () => {
  const spec = (symbols: string): Specification => ({
    ...six,
    depths: [...symbols].map((symbol, i) => ({ ...six.depths[i]!, symbol })),
  });

  it('are taken only for a symbol that the spec has, and never for one that it has itself', () => {
    expect(withLookAlikes(spec('234'), '2O4')).toEqual({ changed: '2O4', replaced: [] });
    expect(withLookAlikes(spec('0O1'), '0Oo').replaced).toEqual([]);
    expect(withLookAlikes(spec('KLM'), '1')).toMatchObject({ changed: 'L' });
    expect(withLookAlikes(spec('HIL'), '1')).toMatchObject({ changed: 'I' });
    expect(withLookAlikes(spec('KLM'), '0').replaced).toEqual([]);
    expect(withLookAlikes(spec('KLO'), '0')).toMatchObject({ changed: 'O' });
    expect(withLookAlikes(spec('123'), '2-|-l')).toEqual({
      changed: '2-1-1',
      replaced: [
        { code: 'look-alike', from: '|', to: '1', at: 2 },
        { code: 'look-alike', from: 'l', to: '1', at: 3 },
      ],
    });
  });

  it('make no code of what isn’t one: the text stays unreadable or a reference', () => {
    expect(readCode(six, 'O1')).toMatchObject({ kind: 'reference' });
    expect(readCode(six, 'X27415')).toMatchObject({ kind: 'reference', notes: [{ code: 'blind-code' }] });
    expect(readCode(six, '27415X')).toMatchObject({ kind: 'unreadable' });
    expect(readCode(six, '2X7415')).toMatchObject({ kind: 'unreadable' });
    expect(readCode(six, '2741XY')).toMatchObject({ kind: 'reference' });
    expect(readCode(six, '2741')).toMatchObject({ kind: 'unreadable', faults: [{ code: 'lost-zero' }] });
    expect(readCode(six, '2741', { lostZeros: true })).toMatchObject({ kind: 'bitting' });
    expect(readCode(six, '274', { lostZeros: true })).toMatchObject({ kind: 'unreadable' });
  });
});

// day counts from spreadsheets: ISO/IEC 29500-1, 18.17.4; 36526 is 1 January 2000
describe('dates', () => {
  it('are counted from 30 December 1899, parts of a day left out', () => {
    expect(dateOfSerial(36_526)).toEqual({ year: 2000, month: 1, day: 1 });
    expect(dateOfSerial(36_525.99)).toEqual({ year: 1999, month: 12, day: 31 });
    expect(dateOfSerial(45_351)).toEqual({ year: 2024, month: 2, day: 29 });
  });

  it.each<[string, [number, number, number]]>([
    ['2013-11-12', [2013, 11, 12]],
    ['2013/1/2', [2013, 1, 2]],
    ['2013.11.12 00:00:00', [2013, 11, 12]],
    ['2013-11-12T10:20:30.5Z', [2013, 11, 12]],
    ['1999-12-31', [1999, 12, 31]],
    ['11/12/2013', [2013, 11, 12]],
    ['13/12/2013', [2013, 12, 13]],
    ['12/13/1999', [1999, 12, 13]],
    ['1.2.2003 10:15', [2003, 1, 2]],
    ['12-Nov-2013', [2013, 11, 12]],
    ['12-Nov-13', [2013, 11, 12]],
    ['12 November 2013', [2013, 11, 12]],
    ['12-Nov', [2000, 11, 12]],
    ['29-feb', [2000, 2, 29]],
    ['1.jan', [2000, 1, 1]],
    ['31-Dec-1999', [1999, 12, 31]],
    ['Nov-13', [2013, 11, 1]],
    ['January 2013', [2013, 1, 1]],
    ['Dec/1999', [1999, 12, 1]],
  ])('%s', (text, [year, month, day]) => {
    expect(readDate(text)).toEqual({ year, month, day });
  });

  it.each([
    '11-12-13',
    '2013-13-12',
    '2013-11-31',
    '2013-00-12',
    '2013-11-00',
    '2023-02-29',
    '31/31/2013',
    '0/1/2013',
    '12-Non-2013',
    '32-Nov-2013',
    '12-Nov-2',
    'Non-13',
    'Nov-1',
    'x2013-11-12',
    '2013-11-12x',
    'x11/12/2013',
    '11/12/2013x',
    '1812-11-12',
    '2013-111-12',
    'x12-Nov-2013',
    '12-Nov-2013x',
    '12-Nov-201',
    'xNov-13 ',
    '274153',
  ])('%s is none', (text) => {
    expect(readDate(text)).toBeUndefined();
  });

  it('may have been codes written with or without zeros, the first of a month also with its year', () => {
    expect(codesBehind(six, { year: 2003, month: 1, day: 2 })).toEqual(['030102', '010203', '020103']);
    expect(codesBehind(six, { year: 2013, month: 11, day: 12 })).toEqual(['111213', '121113', '131112']);
    expect(codesBehind(six, { year: 4153, month: 12, day: 1 })).toContain('124153');
    expect(codesBehind(six, { year: 4153, month: 2, day: 1 })).toContain('024153');
    expect(codesBehind(six, { year: 4153, month: 2, day: 2 })).not.toContain('024153');
  });
});
