import { describe, expect, it } from 'vitest';
import { fromFileFormula, toFileFormula } from '../../../src/preview/file/index.ts';
import { passwordHash } from '../../../src/preview/file/protection.ts';
import { applyTint } from '../../../src/preview/file/colors.ts';

describe('formulas in files', () => {
  // Stored forms: [MS-XLSX] for _xlfn and _xlpm, ECMA-376 part 1, 18.17.2 for structured references.
  const pairs: [user: string, stored: string, table?: string][] = [
    ['=SUM(A1:B2)', 'SUM(A1:B2)'],
    ['=KEYROW.CUTS(A1)', '_xldudf_KEYROW_CUTS(A1)'],
    [
      '=IF(A1="KEYROW.CUTS(","_xlfn.",KEYROW.CHECK([@Bitting]))',
      'IF(A1="KEYROW.CUTS(","_xlfn.",_xldudf_KEYROW_CHECK(Keys[[#This Row],[Bitting]]))',
      'Keys',
    ],
    ['=[@[Depth 1]]*2', 'Keys[[#This Row],[Depth 1]]*2', 'Keys'],
    ['=Keys[@Bitting]', 'Keys[[#This Row],[Bitting]]'],
    ['=SUM([@[a]:[b]])', 'SUM(Keys[[#This Row],[a]:[b]])', 'Keys'],
    ["=Keys[[#All],[it''s '[mm']]]", "Keys[[#All],[it''s '[mm']]]"],
    ['=FILTER(A1:A9,B1:B9>0)', '_xlfn._xlws.FILTER(A1:A9,B1:B9>0)'],
    ['=XLOOKUP(1,A:A,B:B)', '_xlfn.XLOOKUP(1,A:A,B:B)'],
    ['=STDEV.S(A1:A3)', '_xlfn.STDEV.S(A1:A3)'],
    ['=LET(x,1,y,x+1,x*y)', '_xlfn.LET(_xlpm.x,1,_xlpm.y,_xlpm.x+1,_xlpm.x*_xlpm.y)'],
    ['=MAP(A1:A3,LAMBDA(v,v*2))', '_xlfn.MAP(A1:A3,_xlfn.LAMBDA(_xlpm.v,_xlpm.v*2))'],
    ['=SUM(A1#)', 'SUM(_xlfn.ANCHORARRAY(A1))'],
    ['=\'x # [1]\'!A1&"#"', '\'x # [1]\'!A1&"#"'],
  ];
  it.each(pairs)('%s', (user, stored, table) => {
    expect(toFileFormula(user, table)).toBe(stored);
    expect(fromFileFormula(stored, table)).toBe(user);
  });

  it('reads the add-in behind a link number', () => {
    expect(fromFileFormula('[1]!_xldudf_KEYROW_CUTS(A1)+[2]!_xldudf_KEYROW_PIN_STACK(B1)')).toBe(
      '=KEYROW.CUTS(A1)+KEYROW.PIN_STACK(B1)',
    );
  });

  it('leaves names alone that only look like functions or parameters', () => {
    expect(toFileFormula('=MyFILTER(1)+Sheet1!SORT')).toBe('MyFILTER(1)+Sheet1!SORT');
  });
});

describe('small formats', () => {
  it('hashes a password as the old format does', () => {
    // Worked example of ECMA-376 part 4, 14.7.1 in the form published with the OpenOffice Excel file format
    // documentation, 4.18: "abcdefghij" gives FEF1.
    expect(passwordHash('abcdefghij')).toBe('FEF1');
  });

  it('lightens and darkens theme colours', () => {
    // From memory of the palette of Excel's colour picker: accent 1 (4F81BD) "80% lighter" is DCE6F1. Excel counts
    // luminance in whole steps, the standard's formula does not: one step of difference a channel.
    const channels = (hex: string): number[] => [0, 2, 4].map((at) => parseInt(hex.slice(at, at + 2), 16));
    const lighter = channels(applyTint('4F81BD', 0.7999));
    channels('DCE6F1').forEach((value, i) =>
      expect(Math.abs((lighter[i] ?? 0) - value)).toBeLessThanOrEqual(1),
    );
    expect(applyTint('FFFFFF', -0.15)).toBe('D9D9D9');
    expect(applyTint('000000', 0.5)).toBe('808080');
  });
});
