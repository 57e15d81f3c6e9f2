/** Which control keys new cores need, worked by hand. */
import { describe, expect, it } from 'vitest';
import { controlKeysFor, type ControlGround } from '../../src/keying/controlKeys.ts';
import type { KeyRecord } from '../../src/keying/system.ts';
import { cutsOf, plainSpec } from '../support/systems.ts';

const spec = plainSpec({ positions: 4, depths: 5, increment: 0.0125, macs: 4 });
const [ONE, TWO] = [cutsOf(spec, '0123'), cutsOf(spec, '3210')];

/** Cores numbered from 1, as keyway and control cuts. */
const cores = (...of: readonly (readonly [keyway: string | undefined, control?: typeof ONE])[]) =>
  of.map(([keyway, control], c) => ({
    id: `${c + 1}`,
    ...(keyway !== undefined && { keyway }),
    ...(control && { control }),
  }));
const there = (level: KeyRecord['level'], status: KeyRecord['status'], symbol = 'OLD'): KeyRecord => ({
  symbol,
  level,
  bitting: ONE,
  status,
});
const NOTHING: ControlGround = { keys: [] };
const said = (...asked: Parameters<typeof controlKeysFor>) => {
  const { keys, marks } = controlKeysFor(...asked);
  return {
    keys: keys.map(({ symbol, keyway }) => `${symbol} ${keyway ?? '-'}`),
    marks: marks.map(({ key, cylinder }) => `${key} ${cylinder}`),
  };
};

describe('the control keys of new cores', () => {
  it('are issued, of the cores’ control cuts, and name no keyway where there is none', () => {
    const { keys } = controlKeysFor(cores([undefined, ONE]), NOTHING);
    expect(keys).toStrictEqual([{ symbol: 'CTR', level: 'control', bitting: ONE, status: 'issued' }]);
    expect(controlKeysFor(cores(['K1', ONE]), NOTHING).keys[0]).toMatchObject({ keyway: 'K1' });
  });

  it('are none for a cylinder that is no core', () => {
    expect(said(cores(['K1'], [undefined]), NOTHING)).toEqual({ keys: [], marks: [] });
    expect(said(cores(['K1'], ['K1', ONE]), NOTHING)).toEqual({ keys: ['CTR K1'], marks: ['CTR 2'] });
  });

  it('are none where a control key is there that is in use, and that alone serves', () => {
    const asked = cores([undefined, ONE]);
    for (const status of ['issued', 'reserved'] as const)
      expect(said(asked, { keys: [there('control', status)] })).toEqual({ keys: [], marks: ['OLD 1'] });
    const own = { keys: ['CTR -'], marks: ['CTR 1'] };
    for (const status of ['free', 'void', 'retired'] as const)
      expect(said(asked, { keys: [there('control', status)] })).toEqual(own);
    expect(said(asked, { keys: [there('CK', 'issued')] })).toEqual(own);
  });

  it('have symbols that no key has, whatever became of it', () => {
    const taken = [there('CK', 'issued', ' ctr'), there('control', 'void', 'CTR1')];
    expect(said(cores([undefined, ONE], [undefined, TWO]), { keys: taken }).keys).toEqual([
      'CTR2 -',
      'CTR3 -',
    ]);
  });

  it('are on the blank that enters most cores of the same cuts, of those that enter the first', () => {
    // K2 would enter two of them, but not the first
    const asked = cores(['K1', ONE], ['K2', ONE], ['K2', ONE]);
    expect(said(asked, NOTHING)).toEqual({
      keys: ['CTR K1', 'CTR1 K2'],
      marks: ['CTR 1', 'CTR1 2', 'CTR1 3'],
    });
    const enters = { B13: ['K1', 'K3'], B12: ['K1', 'K2'] };
    expect(said(asked, { ...NOTHING, enters })).toEqual({
      keys: ['CTR B12'],
      marks: ['CTR 1', 'CTR 2', 'CTR 3'],
    });
    // the cores of K3 have other cuts, so that it doesn't matter that B13 enters them
    const mixed = cores(['K1', ONE], ['K2', ONE], ['K3', TWO], ['K3', TWO]);
    expect(said(mixed, { ...NOTHING, enters }).keys).toEqual(['CTR B12', 'CTR1 K3']);
  });

  it('are on the keyway given where no other blank enters more of them', () => {
    const enters = { B1: ['K1'] };
    const asked = cores(['K1', ONE], ['K1', ONE]);
    expect(said(asked, { keys: [], keyway: 'B1', enters }).keys).toEqual(['CTR B1']);
    expect(said(asked, { keys: [], keyway: 'K9', enters }).keys).toEqual(['CTR K1']);
    // a keyway without a name would count as entering every core
    for (const keyway of ['', ' '])
      expect(said(cores(['K1', ONE], ['K2', ONE]), { keys: [], keyway })).toEqual({
        keys: ['CTR K1', 'CTR1 K2'],
        marks: ['CTR 1', 'CTR1 2'],
      });
    expect(said(cores([undefined, ONE], ['K2', ONE]), { keys: [], keyway: 'K1' }).keys).toEqual(['CTR K2']);
  });
});
