import { describe, expect, it } from 'vitest';
import { parseBitting, type Bitting } from '../../src/keying/bitting.ts';
import { capacity } from '../../src/keying/capacity.ts';
import { generateSystem } from '../../src/keying/hierarchy.ts';
import { starterSpec } from '../../src/keying/starters.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { keptWords, reserveWords } from '../../taskpane/make/Reserve.tsx';
import {
  DEFAULT_MAKE,
  nextName,
  readMakeForm,
  wantedSentence,
  type MakeForm,
} from '../../taskpane/make/makeForm.ts';

const spec = starterSpec('S-018-6')!;
const read = (change: Partial<MakeForm>, taken: string[] = []) =>
  readMakeForm({ ...DEFAULT_MAKE, ...change }, spec, taken);

const readBitting = (text: string): Bitting => {
  const parsed = parseBitting(spec, text);
  if (!parsed.ok) throw new Error(text);
  return parsed.value;
};

const NO_SPARES = { spareMasters: 0, spareGrands: 0 };

describe('readMakeForm', () => {
  it('refuses a typed top master that was retired where the new keyway is entered', () => {
    const retired = (keyway: string) => (keyway === 'K1' ? [readBitting('253641')] : []);
    const fault = (topMaster: string, keyway: string) =>
      readMakeForm({ ...DEFAULT_MAKE, topMaster, keyway }, spec, [], undefined, {
        retiredFor: retired,
      }).faults.get('topMaster');
    expect(fault('2-5-3-6-4-1', 'K1')).toMatch(/retired in this workbook.*choose another top master/);
    expect(fault('2-5-3-6-4-1', 'K2')).toBeUndefined();
    expect(fault('2-5-3-6-4-2', 'K1')).toBeUndefined();
  });

  it('asks for what the workbook knows of the keyway: retired bittings, and what its blanks enter', () => {
    const lost = readBitting('253641');
    const ground = {
      retiredFor: (keyway: string) => (keyway === 'K1' ? [lost] : []),
      entering: { K12: ['K1', 'K2'] },
    };
    const asked = (keyway: string) =>
      readMakeForm({ ...DEFAULT_MAKE, keyway }, spec, [], undefined, ground).request;
    expect(asked(' K1 ')).toMatchObject({ keyway: 'K1', avoid: [lost], enters: { K12: ['K1', 'K2'] } });
    expect(asked('K2')).not.toHaveProperty('avoid');
    expect(read({ keyway: 'K1' }).request).not.toHaveProperty('enters');
  });

  it('has defaults that can be pressed at once', () => {
    const { request, wanted, faults } = read({});
    expect(faults.size).toBe(0);
    expect(request).toMatchObject({ name: 'System 1', levels: 3, order: 'scattered', seed: 1 });
    expect(wanted).toEqual({ grands: 0, masters: 4, changeKeys: 48, spares: 0, ...NO_SPARES, cylinders: 48 });
  });

  it('deals the counts to the groups in order', () => {
    const { request } = read({ levels: 4, grands: '2', masters: '2, 1', changeKeys: '12, 8, 20' });
    expect(request!.grands.map((g) => g.masters.map((m) => m.changeKeys))).toEqual([[12, 8], [20]]);
  });

  it('has one group in a system of two levels, whatever the masters field holds', () => {
    const { request, wanted } = read({ levels: 2, masters: 'nonsense', changeKeys: '30' });
    expect(request!.grands).toEqual([{ masters: [{ changeKeys: 30, spares: 0, doorsPerKey: 1 }] }]);
    expect(wanted).toMatchObject({ masters: 0, changeKeys: 30 });
  });

  it('counts doors and spares', () => {
    const { wanted } = read({ masters: '2', changeKeys: '3', spares: '2', doorsPerKey: '2' });
    expect(wanted).toEqual({ grands: 0, masters: 2, changeKeys: 6, spares: 4, ...NO_SPARES, cylinders: 12 });
  });

  it('says every fault at its field', () => {
    const { request, faults } = read(
      { name: 'Elm', masters: '0', spares: 'x', topMaster: '12', seed: '-1', difference: '7' },
      ['elm '],
    );
    expect(request).toBeUndefined();
    expect([...faults.keys()].sort()).toEqual([
      'difference',
      'masters',
      'name',
      'seed',
      'spares',
      'topMaster',
    ]);
  });

  it('refuses more keys than a sheet can show', () => {
    expect(read({ changeKeys: '9999' }).faults.get('changeKeys')).toContain('20,000');
  });

  it('passes on a top master, a keyway and a rotating constant', () => {
    const { request } = read({
      topMaster: '2-5-3-6-4-1',
      keyway: ' K1 ',
      progression: 'rotating',
      constants: '2',
    });
    expect(request).toMatchObject({
      topMaster: [2, 5, 3, 6, 4, 1],
      keyway: 'K1',
      progression: { kind: 'rotating', constants: 2 },
    });
  });
});

/** Four change depths in each of six positions: 1 5 7 9 under a top master's 3, and so on. */
const ARRAY = ['1 5 7 9', '1 3 7 9', '0 2 6 8', '0 2 4 8', '1 5 7 9', '1 3 7 9'];
/** Only what the progression does is counted: no rule is on. */
const theoretical = (change: Partial<MakeForm>): number => {
  const { request, faults } = read({ ...ARRAY_FORM, ...change });
  if (!request) throw new Error([...faults.values()].join(' '));
  return capacity(request).figures!.theoretical;
};
const ARRAY_FORM: Partial<MakeForm> = {
  topMaster: '354635',
  array: ARRAY,
  levels: 2,
  changeKeys: '1',
};

describe('the key bitting array of the form', () => {
  it('has the published numbers of changes', () => {
    // six positions of four choices 4,096, five 1,024: trade-association magazine article on interchangeable-core
    // systems, fig. 11; and 16, 64, 256, 1024 of 4,096 as blocks: US patent 6,516,644
    expect(theoretical({})).toBe(4096);
    expect(theoretical({ progression: 'partial', kept: '6' })).toBe(1024);
    expect(theoretical({ progression: 'partial', kept: '5, 6' })).toBe(256);
    expect(theoretical({ progression: 'partial', kept: '4 5 6' })).toBe(64);
    expect(theoretical({ deal: ['CK', 'CK', 'constant', 'constant', 'constant', 'constant'] })).toBe(16);
  });

  it('counts a rotating constant by the sum over the positions that rotate', () => {
    // choose which two of six positions stay the top master's, four choices in each other: C(6, 2) · 4^4
    expect(theoretical({ progression: 'rotating', constants: '2' })).toBe(15 * 256);
  });

  it('takes depths in the sequence typed, levels and a sequence of progression', () => {
    const deal = ['MK', 'CK', 'CK', 'CK', 'CK', 'CK'] as const;
    const { request } = read({
      ...ARRAY_FORM,
      levels: 3,
      masters: '2',
      array: ['9 7', ...ARRAY.slice(1)],
      deal,
      sequence: '6 5 4 3 2 1',
    });
    expect(request).toMatchObject({ deal, sequence: [5, 4, 3, 2, 1, 0] });
    expect(request!.array![0]).toEqual([9, 7]);
    const made = runToEnd(generateSystem({ ...request!, order: 'progression' }));
    if (!made.ok) throw new Error('does not fit');
    // chamber 1 moves through its depths in the order typed, master by master
    expect(made.system.keys.filter((k) => k.level === 'MK').map((k) => k.bitting[0])).toEqual([9, 7]);
  });

  it('says what is wrong at its field', () => {
    expect(read({ array: ARRAY }).faults.get('topMaster')).toMatch(/belongs to a top master/);
    expect(read({ ...ARRAY_FORM, array: ['2x', ...ARRAY.slice(1)] }).faults.get('array')).toMatch(
      /^Chamber 1: /,
    );
    expect(read({ sequence: '1 2 3' }).faults.get('sequence')).toMatch(/^Each chamber from 1 to 6 once/);
    expect(read({ progression: 'partial', kept: '' }).faults.has('kept')).toBe(true);
    expect(read({ progression: 'partial', kept: '7' }).faults.has('kept')).toBe(true);
  });
});

describe('the reserve', () => {
  it('is asked for by level, and counted', () => {
    const { request, wanted } = read({ levels: 4, masters: '2', spareMasters: '1', spareGrands: '2' });
    expect(request).toMatchObject({ spareGrands: 2 });
    expect(request!.grands.map((grand) => grand.spares)).toEqual([1, 1]);
    expect(wanted).toMatchObject({ spareMasters: 2, spareGrands: 2 });
    expect(read({ levels: 2, spareMasters: '3' }).wanted).toMatchObject(NO_SPARES);
  });

  it('is said in words, with chambers that no level uses', () => {
    expect(reserveWords([{ level: 'GMK' }, { level: 'CK' }, { level: 'CK' }])).toBe(
      '1 grand master and 2 change keys in reserve.',
    );
    expect(keptWords([[1, 2], [3, 4, 5], []], ['CK', 'constant', 'constant'])).toBe(
      'Chamber 2 is kept at the top master’s cut: a later level has 3 changes there.',
    );
    expect(keptWords([[1], [2]], ['MK', 'CK'])).toBeUndefined();
  });
});

describe('names and sentences', () => {
  it('finds a free name', () => {
    expect(nextName([])).toBe('System 1');
    expect(nextName(['system 1', 'System 3'])).toBe('System 2');
  });

  it('says what is wanted', () => {
    expect(
      wantedSentence(3, { grands: 0, masters: 4, changeKeys: 48, spares: 0, ...NO_SPARES, cylinders: 48 }),
    ).toBe('A grand master, 4 masters and 48 change keys, for 48 cylinders.');
    expect(
      wantedSentence(4, { grands: 2, masters: 3, changeKeys: 1200, spares: 6, ...NO_SPARES, cylinders: 1 }),
    ).toBe(
      'A great grand master, 2 grand masters, 3 masters, 1,200 change keys and 6 spares, for 1 cylinder.',
    );
    expect(
      wantedSentence(2, { grands: 0, masters: 0, changeKeys: 1, spares: 0, ...NO_SPARES, cylinders: 1 }),
    ).toBe('A master and 1 change key, for 1 cylinder.');
  });
});
