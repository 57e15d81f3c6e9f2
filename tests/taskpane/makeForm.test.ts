import { describe, expect, it } from 'vitest';
import { starterSpec } from '../../src/keying/starters.ts';
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

describe('readMakeForm', () => {
  it('has defaults that can be pressed at once', () => {
    const { request, wanted, faults } = read({});
    expect(faults.size).toBe(0);
    expect(request).toMatchObject({ name: 'System 1', levels: 3, order: 'scattered', seed: 1 });
    expect(wanted).toEqual({ grands: 0, masters: 4, changeKeys: 48, spares: 0, cylinders: 48 });
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
    expect(wanted).toEqual({ grands: 0, masters: 2, changeKeys: 6, spares: 4, cylinders: 12 });
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

describe('names and sentences', () => {
  it('finds a free name', () => {
    expect(nextName([])).toBe('System 1');
    expect(nextName(['system 1', 'System 3'])).toBe('System 2');
  });

  it('says what is wanted', () => {
    expect(wantedSentence(3, { grands: 0, masters: 4, changeKeys: 48, spares: 0, cylinders: 48 })).toBe(
      'A grand master, 4 masters and 48 change keys, for 48 cylinders.',
    );
    expect(wantedSentence(4, { grands: 2, masters: 3, changeKeys: 1200, spares: 6, cylinders: 1 })).toBe(
      'A great grand master, 2 grand masters, 3 masters, 1,200 change keys and 6 spares, for 1 cylinder.',
    );
    expect(wantedSentence(2, { grands: 0, masters: 0, changeKeys: 1, spares: 0, cylinders: 1 })).toBe(
      'A master and 1 change key, for 1 cylinder.',
    );
  });
});
