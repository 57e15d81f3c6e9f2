import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatBitting } from '../../src/keying/bitting.ts';
import { canonicalCode, readCode, type ImportCell } from '../../src/keying/importCode.ts';
import { codesBehind, dateOfSerial, readDate } from '../../src/keying/importDates.ts';
import { sayReading } from '../../src/keying/importWording.ts';
import type { Specification } from '../../src/keying/specification.ts';
import { keysArbitrary } from '../support/keyingArbitraries.ts';
import { starter } from '../support/keys.ts';

const six = starter('S-018-6');
const five = starter('S-025-5');
const codes = (cell: ImportCell, spec: Specification = six) => readCode(spec, cell).notes.map((n) => n.code);

describe('readCode', () => {
  it('keeps what came and gives the canonical form beside it', () => {
    for (const cell of ['274153', '2-7-4-1-5-3', ' 2 7 4 1 5 3', '２７４１５３', '274\u00A0153', 274153]) {
      const reading = readCode(six, cell);
      expect(canonicalCode(six, reading)).toBe('274153');
      expect(reading.original).toBe(String(cell));
    }
  });

  it('says what it took for something else', () => {
    expect(codes('274153')).toEqual([]);
    expect(codes('２７４１５３')).toEqual(['full-width']);
    expect(codes(' 274153')).toEqual(['stray-space']);
    expect(codes('274153\u200B')).toEqual(['stray-space']);
    expect(readCode(six, '27415O').notes).toEqual([{ code: 'look-alike', from: 'O', to: '0', at: 6 }]);
    expect(readCode(six, '2-7-4-l-5-3').notes).toEqual([{ code: 'look-alike', from: 'l', to: '1', at: 4 }]);
    expect(canonicalCode(six, readCode(six, '2\u041E41I3'))).toBe('204113');
  });

  it('leaves look-alikes alone where it is told to, and where the spec has the letter', () => {
    expect(readCode(six, '27415O', { lookAlikes: false }).kind).toBe('unreadable');
    const letters: Specification = {
      ...six,
      depths: six.depths.map((d, i) => ({ ...d, symbol: 'KLMNOPQRST'[i]! })),
    };
    expect(canonicalCode(letters, readCode(letters, 'klmnop'))).toBe('KLMNOP');
    // 0 for O, and 1 for L where there is no I
    expect(canonicalCode(letters, readCode(letters, 'K1MN0P'))).toBe('KLMNOP');
  });

  it('takes an error of the sheet’s for no blind code', () => {
    expect(readCode(six, 'KX 1042').kind).toBe('reference');
    for (const error of ['#N/A', '#REF!', '#DIV/0!', '#NAME?'])
      expect(readCode(six, error)).toMatchObject({ kind: 'unreadable', faults: [{ code: 'not-a-code' }] });
  });

  it('shows lost zeros, and puts them back only when told to', () => {
    const lost = readCode(six, 27415);
    expect(lost).toMatchObject({ kind: 'unreadable', faults: [{ code: 'lost-zero', suggestion: '027415' }] });
    const restored = readCode(six, 27415, { lostZeros: true });
    expect(canonicalCode(six, restored)).toBe('027415');
    expect(restored.original).toBe('27415');
    expect(restored.notes.map((n) => n.code)).toEqual(['zero-restored']);
  });

  it('never makes a bitting of a blind code', () => {
    for (const cell of ['KX 1042', 'HD1234', 'A-10293', 'N123456'])
      expect(readCode(six, cell)).toMatchObject({ kind: 'reference', notes: [{ code: 'blind-code' }] });
    // one wrong symbol in a code of the right length is a slip, not a reference
    expect(readCode(six, '2741X3')).toMatchObject({
      kind: 'unreadable',
      faults: [{ code: 'unknown-depth' }],
    });
    expect(readCode(six, '12345678').kind).toBe('unreadable');
  });

  it('offers what a date may have been and chooses nothing', () => {
    const cell = { serial: 41590, shown: '12.11.2013' };
    expect(readCode(six, cell)).toMatchObject({ kind: 'unreadable', original: '12.11.2013' });
    expect(sayReading(readCode(six, cell))).toBe(
      'This is a date, which a spreadsheet makes of a code with hyphens. It may have been 111213, 121113, 131112: look it up and type it as text.',
    );
    expect(codes('2013-11-12 00:00:00')).toEqual(['was-date']);
    expect(codes('12-Nov-13')).toEqual(['was-date']);
    // readable as it stands
    expect(codes('11-12-13')).toEqual([]);
    expect(sayReading(readCode(five, { serial: 36526, shown: 'Jan-00' }))).toBe(
      'This is a date, which a spreadsheet may have made of a code with hyphens. Look the code up and type it as text.',
    );
  });

  it('turns codes that are read the other way round', () => {
    expect(canonicalCode(six, readCode(six, '351472', { order: 'tip-to-bow' }))).toBe('274153');
    expect(canonicalCode(six, readCode(six, '274153', { order: 'bow-to-tip' }))).toBe('274153');
  });

  it('reads every bitting of every spec in every way of writing', () => {
    fc.assert(
      fc.property(
        keysArbitrary(4),
        fc.constantFrom('', ' ', '\u00A0'),
        fc.constantFrom('', '\u200B', ' '),
        ({ spec, bittings }, before, after) => {
          for (const bitting of bittings) {
            const reading = readCode(spec, before + formatBitting(spec, bitting) + after);
            // four cuts from 1900 on may look like a year, but never like a whole date
            expect(reading.bitting).toEqual(bitting);
          }
        },
      ),
    );
  });
});

describe('dates', () => {
  // ISO/IEC 29500-1:2016, 18.17.4.1: serial 2 is 1 January 1900 plus one day in the 1900 system; 41590 by any spreadsheet
  it('counts serial dates as spreadsheets do', () => {
    expect(dateOfSerial(41590)).toEqual({ year: 2013, month: 11, day: 12 });
    expect(dateOfSerial(43831)).toEqual({ year: 2020, month: 1, day: 1 });
    expect(dateOfSerial(43831.75)).toEqual({ year: 2020, month: 1, day: 1 });
  });

  it('reads only what can be nothing else', () => {
    expect(readDate('31/12/1999')).toEqual({ year: 1999, month: 12, day: 31 });
    expect(readDate('Nov-13')).toEqual({ year: 2013, month: 11, day: 1 });
    for (const text of ['11-12-13', '274153', '1/2/3', '2013-13-01', '1-2-3-4-5-6', '99-Nov'])
      expect(readDate(text)).toBeUndefined();
  });

  it('gives only codes of the spec', () => {
    expect(codesBehind(five, { year: 2345, month: 1, day: 1 })).toContain('12345');
    expect(codesBehind(five, { year: 2013, month: 11, day: 12 })).toEqual([]);
  });
});
