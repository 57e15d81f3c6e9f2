import { describe, expect, it } from 'vitest';
import { sameDimensions } from '../../src/keying/specTable.ts';
import { STARTER_SPECS, starterSpec } from '../../src/keying/starters.ts';
import { emptySpecForm, readSpecForm, specForm } from '../../taskpane/specs/specForm.ts';
import { limitHints, macsSentence, specFacts } from '../../taskpane/specs/explain.ts';
import { readSpecText, specText } from '../../taskpane/specs/specText.ts';

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

describe('limits while a spec is typed', () => {
  it('stand there before it has a name or a MACS', () => {
    const { shape, spec: whole } = readSpecForm({ ...own, Name: '', MACS: '' });
    expect(whole).toBeUndefined();
    // published form: (spacing − root width) / (increment · tan(angle / 2)) = (0.156 − 0.054) / 0.018 = 5.67
    expect(limitHints(shape).macs).toBe('Most between neighbours. Root width, angle and spacing allow 5.');
    // thinnest master pin 0.023 in: two steps of 0.018
    expect(limitHints(shape).step).toBe('2 steps: the thinnest master pin is 0.036 in.');
  });

  it('follow what is typed', () => {
    const { shape } = readSpecForm({ ...own, 'Root width': '0.084' });
    // (0.156 − 0.084) / 0.018 = 4
    expect(limitHints(shape).macs).toContain('allow 4.');
    expect(readSpecForm({ ...own, Spacing: 'wide' }).shape).toBeUndefined();
  });
});

describe('specs as text', () => {
  it('come back as they went, uneven spacing, letters and cores among them', () => {
    const letters = readSpecForm({
      ...own,
      Name: 'Letters',
      Cuts: '4',
      'First cut': '',
      Spacing: '',
      Centres: '0.2; 0.35; 0.52; 0.7',
      Depths: 'A=0.2\nB=0.22\nC=0.25\nD=0.29',
      MACS: '2',
    }).spec!;
    const all = [...STARTER_SPECS, letters];
    const read = readSpecText(`Out of the shop’s book\n${specText(all)}`);
    expect(read.faults).toEqual([]);
    expect(read.specs).toEqual(all);
  });

  it('are refused by name and field', () => {
    const text = specText([{ ...spec, name: 'SHOP-6' }]).replace('\t90\t', '\t190\t');
    const { specs, faults } = readSpecText(text);
    expect(specs).toEqual([]);
    expect(faults).toHaveLength(1);
    expect(faults[0]).toMatch(/^SHOP-6: Angle/);
    expect(readSpecText('274153\n352416').faults).toEqual([
      'No headings here. Copy the rows with the headings above them, from Name on.',
    ]);
    expect(readSpecText(specText([])).faults).toEqual(['There is no row below the headings.']);
  });
});
