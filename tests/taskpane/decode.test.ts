import { describe, expect, it } from 'vitest';
import { fitSpacing } from '../../src/keying/fitSpacing.ts';
import { fitSpecs } from '../../src/keying/fitSpecs.ts';
import { inches, millimetres } from '../../src/keying/units.ts';
import { sayFit, saySpacing, sayVerdict, sureCode } from '../../taskpane/decode/decodeWords.ts';
import { readLengths } from '../../taskpane/decode/readingsText.ts';
import { starter } from '../support/keys.ts';

describe('readLengths', () => {
  it('takes spaces, semicolons, commas after a reading and decimal commas', () => {
    const wanted = [0.28, 0.189, 0.242].map(inches);
    for (const text of ['0.280 0.189 0.242', '0.28;0.189;0.242', '0,28 0,189 0,242', '0.280, 0.189, 0.242'])
      expect(readLengths(text, 'in')).toEqual({ ok: true, value: wanted });
    expect(readLengths('7.5mm 0.28', 'in')).toEqual({ ok: true, value: [millimetres(7.5), inches(0.28)] });
  });
  it('takes a unit as it was typed, with a space before it, or once for all', () => {
    const metric = [7.11, 4.8, 6.15].map(millimetres);
    for (const text of [
      '7.11 mm 4.80 mm 6.15 mm',
      '7.11mm; 4.80mm; 6.15mm',
      '7.11 4.80 6.15 mm',
      '7,11 4,80 6,15mm',
    ])
      expect(readLengths(text, 'in'), text).toEqual({ ok: true, value: metric });
    for (const text of ['0.28 0.189 in', '0.28" 0.189"', '0.28 ″ 0.189 in'])
      expect(readLengths(text, 'mm'), text).toEqual({ ok: true, value: [0.28, 0.189].map(inches) });
    expect(readLengths('mm', 'in').ok).toBe(false);
    expect(readLengths('0.28 in mm', 'in').ok).toBe(false);
  });
  it('names what it cannot read', () => {
    expect(readLengths('deep', 'mm')).toEqual({
      ok: false,
      error: '“deep” is not a reading; write lengths apart by spaces, such as 7.11 4.80 6.15.',
    });
    expect(readLengths('0.28 deep', 'in')).toEqual({
      ok: false,
      error: '“deep” is not a reading; write lengths apart by spaces, such as 0.280 0.189 0.242.',
    });
  });
});

describe('the words of a fit', () => {
  it('say how far off the spaces are where no depth is known', () => {
    const six = starter('S-018-6');
    const [exact] = fitSpacing([six], six.centres);
    expect(saySpacing(exact!, 'in')).toBe('Spaces off by up to 0.000 in.');
    const [moved] = fitSpacing([six], [0.239, 0.395, 0.551, 0.707, 0.863, 1.019].map(inches));
    expect(saySpacing(moved!, 'in')).toBe('Spaces off by up to 0.000 in, the stop by 0.002 in.');
  });

  it('say how far off depths and centres are', () => {
    const roots = [0.28, 0.19, 0.244, 0.298, 0.226, 0.262].map(inches);
    const centres = [0.239, 0.395, 0.551, 0.707, 0.863, 1.019].map(inches);
    const [fit] = fitSpecs([starter('S-018-6')], { roots, centres });
    expect([sayVerdict(fit!), sayFit(fit!)]).toEqual([
      'Fits well',
      'Depths off by 0.001 in, centres by 0.000 in, the stop by 0.002 in.',
    ]);
  });

  it('put a question mark where a cut is in doubt', () => {
    const roots = [0.279, 0.189, 0.2335, 0.297, 0.225, 0.261].map(inches);
    expect(sureCode(fitSpecs([starter('S-018-6')], { roots })[0]!)).toBe('27?153');
  });
});
