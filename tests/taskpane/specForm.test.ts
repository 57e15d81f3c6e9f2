import { describe, expect, it } from 'vitest';
import { sameDimensions } from '../../src/keying/specTable.ts';
import { STARTER_SPECS, starterSpec } from '../../src/keying/starters.ts';
import { emptySpecForm, readSpecForm, specForm } from '../../taskpane/specs/specForm.ts';
import { macsSentence, specFacts } from '../../taskpane/specs/explain.ts';

const spec = starterSpec('S-018-6')!;
const own = { ...specForm(spec), Name: 'SHOP-6' };

describe('the form of a spec', () => {
  it.each(STARTER_SPECS.map((s) => [s.name, s] as const))(
    'reads %s back with its dimensions',
    (_, starter) => {
      const read = readSpecForm({ ...specForm(starter), Name: 'SHOP' });
      expect([...read.faults]).toEqual([]);
      expect(sameDimensions(read.spec!, starter)).toBe(true);
    },
  );

  it('takes depths as they are copied out of a sheet', () => {
    const pasted = specForm(spec)
      .Depths.split('\n')
      .map((line) => line.replace('=', '\t'))
      .join('\n');
    const read = readSpecForm({ ...own, Depths: pasted });
    expect(sameDimensions(read.spec!, spec)).toBe(true);
  });

  it('says each fault at its field, also before there is a name', () => {
    const read = readSpecForm({ ...own, Name: '', Angle: '190', MACS: '12' });
    expect(read.spec).toBeUndefined();
    expect([...read.faults].map(([column, { code }]) => [column, code]).sort()).toEqual([
      ['Angle', 'angle-too-wide'],
      ['MACS', 'macs-bad'],
      ['Name', 'cell-blank'],
    ]);
  });

  it('refuses names that are taken or kept for starters', () => {
    expect(readSpecForm(own, ['shop-6']).faults.get('Name')).toMatchObject({ code: 'name-repeated' });
    expect(readSpecForm({ ...specForm(spec), MACS: '4' }).faults.get('Name')).toMatchObject({
      code: 'name-reserved',
    });
  });

  it('starts empty with what has an everyday answer', () => {
    const read = readSpecForm(emptySpecForm());
    expect(read.spec).toBeUndefined();
    expect(read.faults.get('Depths')).toEqual({ code: 'cell-blank' });
  });
});

describe('a spec in words', () => {
  it('gives every dimension with its unit', () => {
    const facts = new Map(specFacts(spec).map((f) => [f.label, f.value]));
    expect(facts.get('Centres')).toBe('first 0.237 in, then every 0.156 in');
    expect(facts.get('Root width')).toBe('0.054 in');
    // OEIS A126531: strings of 6 over 10 depths whose neighbours differ by at most 5
    expect(facts.get('Bittings')).toBe('367,826');
  });

  it('says where the MACS and the geometry differ', () => {
    expect(macsSentence({ ...spec, macs: 7 })).toContain('beyond 5');
    expect(macsSentence({ ...spec, macs: 3 })).toContain('would allow 5');
  });
});
