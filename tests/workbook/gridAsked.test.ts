/** What new keys and cylinders are made of, by cells and by the pane, in charts made by hand. */
import { describe, expect, it } from 'vitest';
import type { ShopBlank } from '../../src/keying/shop.ts';
import {
  askedMetal,
  isControlSymbol,
  NO_WISH,
  operatingKeys,
  type MetalGround,
  type MetalWish,
} from '../../src/workbook/gridAsked.ts';
import type { ChartCylinder, ChartKey } from '../../src/workbook/gridChart.ts';
import type { Metal } from '../../src/workbook/gridMetal.ts';
import { told } from './byHand.ts';
import { SPEC, starter } from './school.ts';

const CORES = starter('T-0125-7');
const at = (address: string) => ({ sheet: 'Doors', address });
const key = (symbol: string, metal?: Metal): ChartKey => ({ symbol, at: at('A1'), ...(metal && { metal }) });
const door = (id: string, name?: string, metal?: Metal): ChartCylinder => ({
  id,
  at: at('A2'),
  ...(name && { door: name }),
  ...(metal && { metal }),
});
const said = (address: string, text: string) => ({ text, at: at(address) });
const blank = (name: string, keyways: readonly string[], cuts?: number): ShopBlank => ({
  name,
  keyways,
  equivalents: [],
  ...(cuts !== undefined && { cuts }),
});

const CHART = { keys: [key('M'), key('A')], cylinders: [door('1', 'Store'), door('2')] };
const asked = (
  wish: Partial<MetalWish> = {},
  chart: Parameters<typeof askedMetal>[0] = CHART,
  ground: Partial<MetalGround> = {},
) => askedMetal(chart, { ...NO_WISH, ...wish }, { spec: SPEC, blanks: [], ...ground });

describe('new keys and cylinders', () => {
  it('are of no keyway where nobody names one, and of the ground’s where it has one', () => {
    expect(asked()).toStrictEqual({
      keys: [{ symbol: 'M' }, { symbol: 'A' }],
      cylinders: [{ id: '1' }, { id: '2' }],
      problems: [],
      faults: new Map(),
    });
    expect(asked({}, CHART, { keyway: 'K7' })).toMatchObject({
      keys: [{ keyway: 'K7' }, { keyway: 'K7' }],
      cylinders: [{ keyway: 'K7' }, { keyway: 'K7' }],
      keyway: 'K7',
    });
  });

  it('are what the pane says of all, but for those that it names', () => {
    const read = asked({ blank: ' K1 ', others: ' K2 : a , store ;; K3 5 cuts: 2\n' }, CHART, {
      keyway: 'K7',
    });
    expect(read.keys).toStrictEqual([
      { symbol: 'M', keyway: 'K1' },
      { symbol: 'A', keyway: 'K2' },
    ]);
    expect(read.cylinders).toStrictEqual([
      { id: '1', keyway: 'K2' },
      { id: '2', keyway: 'K3', inUse: [true, true, true, true, true, false] },
    ]);
    expect([read.keyway, read.problems, read.faults.size]).toEqual(['K1', [], 0]);
    // a keyway of its own has the cuts of its own
    const short = asked({ blank: 'K1 5 cuts', others: 'K2: A, Store' });
    expect(short.keys).toStrictEqual([
      { symbol: 'M', keyway: 'K1', cuts: 5 },
      { symbol: 'A', keyway: 'K2' },
    ]);
    expect(short.cylinders[0]).toStrictEqual({ id: '1', keyway: 'K2' });
    expect(asked({ blank: ' ', others: ' ; ', control: '  ' })).toStrictEqual(asked());
    // a door by its own number as well as by its name
    expect(asked({ others: 'K2: 1' }).cylinders[0]).toStrictEqual({ id: '1', keyway: 'K2' });
    // a name with a colon in it
    const colon = { keys: [key('M')], cylinders: [door('B:1')] };
    expect(asked({ others: 'K2: B:1' }, colon).cylinders[0]).toStrictEqual({ id: 'B:1', keyway: 'K2' });
  });

  it('are what their cells say, and cuts alone leave the keyway to the pane', () => {
    const chart = {
      keys: [
        key('M', { blank: said('B1', 'K5'), cuts: said('B9', '4') }),
        key('A', { cuts: said('C9', '5') }),
      ],
      cylinders: [
        door('1', undefined, { blank: said('D2', 'K5') }),
        door('2', undefined, { cuts: said('E3', '4') }),
      ],
    };
    const read = asked({ blank: 'K1' }, chart);
    expect(read.keys).toStrictEqual([
      { symbol: 'M', keyway: 'K5', cuts: 4 },
      { symbol: 'A', keyway: 'K1', cuts: 5 },
    ]);
    expect(read.cylinders).toStrictEqual([
      { id: '1', keyway: 'K5' },
      { id: '2', keyway: 'K1', inUse: [true, true, true, true, false, false] },
    ]);
    expect([read.problems, read.faults.size]).toEqual([[], 0]);
  });

  it('say at its cell what can’t be read, and at the field of the pane what can’t', () => {
    const chart = {
      keys: [key('M', { cuts: said('B9', 'five') }), key('A', { blank: said('C1', 'K9') })],
      cylinders: [door('1', undefined, { blank: said('D2', 'K9'), control: said('E2', '012345') })],
    };
    const blanks = [blank('B1', ['K1'])];
    const read = asked({ blank: 'K8', control: '012345', others: 'K7: M' }, chart, { blanks });
    expect(told(read.problems)).toEqual([
      'fault Doors!B9 “five” is no number of cuts. Type one from 1 to 6.',
      'fault Doors!C1 No blank of the sheet Blanks enters a keyway K9. Correct it, or add the blank there.',
      'fault Doors!D2 No blank of the sheet Blanks enters a keyway K9. Correct it, or add the blank there.',
      'fault Doors!E2 Control cuts belong to interchangeable cores, and S-018-6 has none. Leave them out, or choose a spec of cores.',
    ]);
    expect([...read.faults.keys()].sort()).toEqual(['blank', 'control', 'others']);
    expect(read.faults.get('blank')).toContain('K8');
    expect(read.faults.get('others')).toContain('K7');
    expect(read.keys).toStrictEqual([{ symbol: 'M' }, { symbol: 'A' }]);
    expect(read).not.toHaveProperty('keyway');
  });

  it('take a blank that enters several keyways for a key, and not for a cylinder', () => {
    const blanks = [blank('B1', ['K1', 'K2'], 5), blank('B2', ['K2'])];
    const read = asked({ blank: 'B1', others: 'K2: 1, 2' }, CHART, { blanks });
    expect(read.keys).toStrictEqual([
      { symbol: 'M', keyway: 'B1', cuts: 5 },
      { symbol: 'A', keyway: 'B1', cuts: 5 },
    ]);
    expect(read.cylinders).toStrictEqual([
      { id: '1', keyway: 'K2' },
      { id: '2', keyway: 'K2' },
    ]);
    // as long as each cylinder's own keyway is named there is nothing to say
    expect(read.faults.size).toBe(0);
    expect(asked({ blank: 'B1' }, CHART, { blanks }).faults.get('blank')).toBe(
      'B1 is a blank that enters K1, K2, and a cylinder has one of them. Name the keyway.',
    );
  });

  it('need a blank with room for the cuts of a key, and not of a cylinder', () => {
    const blanks = [blank('B1', ['K1'], 5)];
    const room = /^The blanks for K1 have room for 5 cuts, and 6 are needed\./;
    expect(asked({ blank: 'K1' }, CHART, { blanks }).faults.get('blank')).toMatch(room);
    expect(asked({ others: 'K1: M' }, CHART, { blanks }).faults.get('others')).toMatch(room);
    expect(asked({ others: 'K1: 1' }, CHART, { blanks }).faults.size).toBe(0);
    const alone = askedMetal(undefined, { ...NO_WISH, others: 'K1: M' }, { spec: SPEC, blanks });
    expect(alone.faults.get('others')).toMatch(room);
  });

  it('have the first fault of each field alone', () => {
    const fault = (others: string, ground: Partial<MetalGround> = {}) =>
      asked({ others }, CHART, ground).faults.get('others');
    expect(fault('K1 M; K2 A')).toBe('“K1 M” names no keyway with its keys and doors. Type K2: A1, Store.');
    expect(fault(': M')).toBe('“: M” names no keyway with its keys and doors. Type K2: A1, Store.');
    expect(fault('K1: ')).toBe('“K1:” names no keyway with its keys and doors. Type K2: A1, Store.');
    expect(fault('K1: M, m')).toBe('m is named twice. Take it out of one of the two.');
    expect(fault('K1: Attic')).toBe(
      '“Attic” is no key and no door of this grid. Correct it, or take it out.',
    );
    expect(fault('K1: Attic', { standing: new Set(['attic']) })).toBe(
      'Attic stands already and stays as it is. Only what is new is named here.',
    );
    const chart = { ...CHART, keys: [key('M', { blank: said('B1', 'K5') })] };
    const twice = asked({ others: 'K1: M' }, chart);
    expect(twice.faults.get('others')).toBe(
      'B1 in the sheet says K5 of M already. Take one of the two away.',
    );
    // the pane's own word counts then
    expect(twice.keys[0]).toMatchObject({ keyway: 'K5' });
  });

  it('are read from the pane alone before there is a grid', () => {
    const blanks = [blank('B1', ['K1'])];
    const alone = (wish: Partial<MetalWish>) =>
      askedMetal(undefined, { ...NO_WISH, ...wish }, { spec: SPEC, blanks });
    const read = alone({ blank: 'K1', others: 'K1: Anything; K9: M' });
    expect([read.keys, read.cylinders, read.keyway]).toEqual([[], [], 'K1']);
    expect(read.faults.get('others')).toContain('K9');
    expect(alone({ others: 'K1: Anything' }).faults.size).toBe(0);
    // a name without keys is told as such, not as a keyway that no blank enters
    expect(alone({ others: 'K9' }).faults.get('others')).toContain('names no keyway');
  });
});

describe('control cuts of new cores', () => {
  const chart = {
    keys: [key('M')],
    cylinders: [door('1', undefined, { control: said('B2', '3575357') }), door('2')],
  };
  const cuts = (text: string) =>
    [...text].map((symbol) => CORES.depths.findIndex((d) => d.symbol === symbol));

  it('are those of their cells, of the pane, or of the cores that stand', () => {
    const controls = (wish: Partial<MetalWish>, ground: Partial<MetalGround> = {}) =>
      asked(wish, chart, { spec: CORES, ...ground }).cylinders.map(({ control }) => control);
    const [own, inherited] = [cuts('3575357'), cuts('7535357') as never];
    expect(controls({})).toEqual([own, undefined]);
    expect(controls({ control: ' 5753573 ' })).toEqual([own, cuts('5753573')]);
    expect(controls({}, { control: inherited })).toEqual([own, inherited]);
    expect(controls({ control: '5753573' }, { control: inherited })).toEqual([own, cuts('5753573')]);
    // of what has no cores there is nothing to inherit
    expect(asked({}, { ...chart, cylinders: [door('2')] }, { control: inherited }).cylinders).toStrictEqual([
      { id: '2' },
    ]);
  });

  it('are told by a column of control keys, which are no operating keys', () => {
    expect(['CTR', 'ctr2', 'M', 'CTRL', ''].map(isControlSymbol)).toEqual([true, true, false, false, false]);
    const keys = [key('M'), { ...key('CTR'), at: at('C1') }, { ...key('CTR2'), at: at('D1') }];
    expect(operatingKeys(keys, CORES)).toMatchObject({ keys: [{ symbol: 'M' }] });
    expect(told(operatingKeys(keys, CORES).problems)).toEqual([
      'fault Doors!D1 CTR2 is a second control key. Clear the columns of control keys, and type each core’s control cuts in a column Control.',
    ]);
    const plain = operatingKeys(keys, SPEC);
    expect(plain.keys).toBe(keys);
    expect(told(plain.problems)[0]).toBe(
      'warning Doors!C1 CTR is called like a control key, but S-018-6 has no interchangeable cores: it is made as a key that turns what it is marked for.',
    );
    expect(plain.problems).toHaveLength(2);
  });
});
