/** Keyways, blanks and control keys of a grid: as they are named, and what opens what once it is solved with them. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { auditSystem } from '../../../src/keying/audit.ts';
import { bittingOf, type Bitting } from '../../../src/keying/bitting.ts';
import { controlKeysFor } from '../../../src/keying/controlKeys.ts';
import {
  gridOf,
  readBlank,
  readControl,
  readCuts,
  sayBlank,
  sayControl,
  solveGrid,
  type Grid,
  type Solved,
} from '../../../src/keying/grid/index.ts';
import { auditInputOf } from '../../../src/keying/intended.ts';
import type { Entering } from '../../../src/keying/keyways.ts';
import { enteringOf, type ShopBlank } from '../../../src/keying/shop.ts';
import { systemOfSolved } from '../../../src/keying/solvedSystem.ts';
import { starterSpec } from '../../../src/keying/starters.ts';
import { runToEnd, type KeyRecord } from '../../../src/keying/system.ts';
import { noRules, randomOf, smallSpec } from './charts.ts';

const spec = smallSpec(5, 4);
const BLANKS: readonly ShopBlank[] = [
  { name: 'B1', keyways: ['K1'], equivalents: [] },
  { name: 'B1-4', keyways: ['K1'], cuts: 4, equivalents: [] },
  { name: 'B12', keyways: ['K1', 'K2'], cuts: 5, equivalents: [] },
  { name: 'B3', keyways: ['K3'], cuts: 3, equivalents: [] },
  { name: 'B?', keyways: [], equivalents: [] },
];
const key = (text: string, blanks = BLANKS) => readBlank(text, spec, blanks, 'key');
const cylinder = (text: string) => readBlank(text, spec, BLANKS, 'cylinder');
const wrong = (read: ReturnType<typeof readBlank>): string => (read.ok ? '' : sayBlank(read.error));

describe('what a person names', () => {
  it('is a keyway, a blank of the shop’s, a number of cuts, or two of these', () => {
    expect(key('K1')).toEqual({ ok: true, value: { keyway: 'K1' } });
    expect(key('k1 4 cuts')).toEqual({ ok: true, value: { keyway: 'k1', cuts: 4 } });
    expect(key('4 cuts')).toEqual({ ok: true, value: { cuts: 4 } });
    expect(key('5 cuts')).toEqual({ ok: true, value: {} });
    expect(key(' b1-4 ')).toEqual({ ok: true, value: { keyway: 'K1', cuts: 4 } });
    // the sheet Keys names a blank of several keyways by its own name
    expect(key('B12')).toEqual({ ok: true, value: { keyway: 'B12' } });
    expect(cylinder('B1-4')).toEqual({ ok: true, value: { keyway: 'K1', cuts: 4 } });
    expect(readCuts('3', spec)).toEqual({ ok: true, value: { cuts: 3 } });
  });

  it('is read whatever stands around it, and one cut is a cut', () => {
    for (const text of ['4 cuts', '4cuts', '4  CUTS', ' 4 cut '])
      expect(key(text)).toEqual({ ok: true, value: { cuts: 4 } });
    expect(key(' K1,  4 cuts ')).toEqual({ ok: true, value: { keyway: 'K1', cuts: 4 } });
    expect(key('1 cut')).toEqual({ ok: true, value: { cuts: 1 } });
    expect(readCuts(' 1 ', spec)).toEqual({ ok: true, value: { cuts: 1 } });
    expect(key('12 cuts')).toEqual({
      ok: false,
      error: { code: 'no-number-of-cuts', text: '12', most: 5 },
    });
    for (const text of ['x4', '4x', '4.5', '', '-4'])
      expect(readCuts(text, spec)).toEqual({
        ok: false,
        error: { code: 'no-number-of-cuts', text, most: 5 },
      });
  });

  it('of a cylinder may be a keyway whose blanks are all too short: it has no cuts', () => {
    expect(cylinder('K3')).toEqual({ ok: true, value: { keyway: 'K3' } });
    expect(key('K3').ok).toBe(false);
    // a blank of the spec's own length leaves nothing to say, nor one without a number
    const whole: ShopBlank = { name: 'B5', keyways: ['K5'], cuts: 5, equivalents: [] };
    expect(key('B5', [whole])).toStrictEqual({ ok: true, value: { keyway: 'K5' } });
    expect(key('B1')).toStrictEqual({ ok: true, value: { keyway: 'K1' } });
  });

  it('may be any keyway where the shop has no table of blanks', () => {
    expect(key('Any name', [])).toEqual({ ok: true, value: { keyway: 'Any name' } });
  });

  it('has a sentence where it can’t be', () => {
    expect(wrong(key('K9'))).toBe(
      'No blank of the sheet Blanks enters a keyway K9. Correct it, or add the blank there.',
    );
    expect(wrong(key('K3'))).toBe(
      'The blanks for K3 have room for 3 cuts, and 5 are needed. Name one of them (B3), or the number: K3 3 cuts.',
    );
    expect(key('K3 3 cuts')).toEqual({ ok: true, value: { keyway: 'K3', cuts: 3 } });
    expect(wrong(cylinder('B12'))).toBe(
      'B12 is a blank that enters K1, K2, and a cylinder has one of them. Name the keyway.',
    );
    expect(wrong(cylinder('B?'))).toBe(
      'The sheet Blanks doesn’t say which keyway B? enters. Name the cylinder’s keyway.',
    );
    for (const text of ['6 cuts', '0 cuts'])
      expect(wrong(key(text))).toBe(`“${text[0]!}” is no number of cuts. Type one from 1 to 5.`);
  });

  it('is a control key only of cores, with cuts that can be made', () => {
    const say = (code: string, name: string): string => {
      const read = readControl(code, starterSpec(name)!);
      return read.ok ? read.value.join('') : sayControl(read.error[0]!);
    };
    expect(say('2468642', 'T-0125-7')).toBe('2468642');
    expect(say('24686424', 'T-0125-7')).toMatch(/^The code has 8 cuts; this spec has 7/);
    const tight = { ...starterSpec('T-0125-7')!, macs: 4 };
    const far = readControl('2468192', tight);
    expect(!far.ok && sayControl(far.error[0]!)).toMatch(
      /^The 8 and 1 at cuts 4 and 5 differ by 7 steps; this spec allows 4/,
    );
    expect(say('274153', 'S-018-6')).toBe(
      'Control cuts belong to interchangeable cores, and S-018-6 has none. Leave them out, or choose a spec of cores.',
    );
  });
});

/** By the plain definition: the blank goes in, it has a cut for each pinned chamber, and each cut is one of the depths. */
function opens(grid: Grid, { keys, cylinders }: Solved, k: number, c: number): boolean {
  const blank = grid.keys[k]!;
  const { keyway } = grid.cylinders[c]!;
  const own = blank.keyway ?? '';
  const enters =
    own === '' || keyway === undefined || own === keyway || (grid.enters?.[own] ?? []).includes(keyway);
  return (
    enters &&
    cylinders[c]!.chambers.every(
      (set, i) => set === -1 || (i < (blank.cuts ?? 5) && ((set >> keys[k]!.bitting[i]!) & 1) === 1),
    )
  );
}

/** Some keys and cylinders of every kind; a mark only where the metal doesn't forbid it. */
function gridWithBlanks(seed: number): Grid {
  const random = randomOf(seed);
  const enters: Entering = enteringOf(BLANKS)!;
  const keys = Array.from({ length: 4 + random(4) }, (_, k) => {
    const keyway = [undefined, 'K1', 'K2', 'B12'][random(4)];
    const cuts = random(4) === 0 ? 4 : undefined;
    return { symbol: `Key ${k}`, ...(keyway && { keyway }), ...(cuts && { cuts }) };
  });
  const cylinders = Array.from({ length: 5 + random(4) }, (_, c) => {
    const keyway = [undefined, 'K1', 'K2'][random(3)];
    const short = random(3) === 0;
    return {
      id: `Door ${c}`,
      ...(keyway && { keyway }),
      ...(short && { inUse: spec.centres.map((_centre, i) => i < 4) }),
    };
  });
  const goes = ({ keyway: own, cuts }: (typeof keys)[number], door: (typeof cylinders)[number]): boolean =>
    (!own || !door.keyway || own === door.keyway || (enters[own] ?? []).includes(door.keyway)) &&
    (!cuts || door.inUse !== undefined);
  const marks = cylinders.flatMap((door) => {
    const able = keys.filter((each) => goes(each, door));
    return able.filter(() => random(3) === 0).map(({ symbol }) => ({ key: symbol, cylinder: door.id }));
  });
  return gridOf(spec, keys, cylinders, marks, enters);
}

describe('a grid of several keyways and short blanks', () => {
  it('opens as marked by the plain definition, and the audit of its system finds nothing', () => {
    let apart = 0;
    fc.assert(
      fc.property(fc.nat(1e6), (seed) => {
        const grid = gridWithBlanks(seed);
        const found = runToEnd(solveGrid(grid, { rules: noRules, sameMarks: 'different', budget: 60_000 }));
        // a grid that has no solution is for the tests of proofs
        if (found.kind !== 'solved') return;
        grid.cylinders.forEach((_, c) => {
          if (grid.marks[c]!.length === 0) return;
          grid.keys.forEach((_key, k) => expect(opens(grid, found, k, c)).toBe(grid.marks[c]!.includes(k)));
        });
        const made = systemOfSolved(grid, found, { name: 'Mixed' });
        if (!made.ok) throw new Error(made.error.code);
        const { system, marks } = made.value;
        expect(system.keys.map(({ keyway }) => keyway)).toEqual(grid.keys.map(({ keyway }) => keyway));
        expect(system.keys.map(({ cuts }) => cuts)).toEqual(grid.keys.map(({ cuts }) => cuts));
        const { counts } = runToEnd(
          auditSystem(auditInputOf(system, marks), { near: false, rules: noRules }),
        );
        expect(counts).toEqual({});
        if (new Set(grid.keys.map(({ keyway }) => keyway)).size > 1) apart++;
      }),
      { numRuns: 60 },
    );
    expect(apart).toBeGreaterThan(10);
  });
});

describe('control keys', () => {
  const core = starterSpec('T-0125-7')!;
  const CUTS = [bittingOf(core, [3, 5, 7, 5, 3, 5, 7]), bittingOf(core, [5, 3, 5, 7, 5, 3, 5])] as const;

  it('pull every core whose cuts they have and whose keyway they enter, each core by just one', () => {
    const keyway = fc.constantFrom(undefined, 'K1', 'K2', 'K3');
    const core = fc.record({ keyway, cuts: fc.constantFrom(...CUTS) });
    fc.assert(
      fc.property(
        fc.array(core, { maxLength: 12 }),
        keyway,
        fc.constantFrom(undefined, { B12: ['K1', 'K2'] }, { K3: ['K1'], B23: ['K2', 'K3'] }),
        fc.boolean(),
        (asked, main, enters: Entering | undefined, there) => {
          const cores = asked.map(({ keyway: own, cuts }, c) => ({
            id: `${c}`,
            control: cuts,
            ...(own && { keyway: own }),
          }));
          const old: KeyRecord[] = there
            ? [{ symbol: 'CTR', level: 'control', bitting: CUTS[0], status: 'issued', keyway: 'K1' }]
            : [];
          const { keys, marks } = controlKeysFor(cores, { keys: old, keyway: main, enters });
          const goes = (own: string | undefined, door: string | undefined): boolean =>
            !own || !door || own === door || (enters?.[own] ?? []).includes(door);
          const all = [...old, ...keys];
          expect(new Set(all.map(({ symbol }) => symbol)).size).toBe(all.length);
          expect(marks.map(({ cylinder }) => Number(cylinder)).sort((a, b) => a - b)).toEqual(
            cores.map((_, c) => c),
          );
          for (const { key: symbol, cylinder: id } of marks) {
            const puller = all.find((each) => each.symbol === symbol)!;
            const pulled = cores[Number(id)]!;
            expect(puller.bitting).toEqual(pulled.control);
            expect(goes(puller.keyway, pulled.keyway)).toBe(true);
          }
          // none is made for nothing
          for (const { symbol } of keys) expect(marks.some((mark) => mark.key === symbol)).toBe(true);
        },
      ),
    );
  });

  it('are one on a blank for all keyways where there is such a blank, else one for each', () => {
    const cores = ['K1', 'K2'].map((own) => ({ id: own, keyway: own, control: CUTS[0] }));
    const symbols = (enters?: Entering) =>
      controlKeysFor(cores, { keys: [], keyway: 'K1', enters }).keys.map((k) => [k.symbol, k.keyway]);
    expect(symbols({ B12: ['K1', 'K2'] })).toEqual([['CTR', 'B12']]);
    expect(symbols()).toEqual([
      ['CTR', 'K1'],
      ['CTR1', 'K2'],
    ]);
  });

  it('of a solved grid are those that were named, and one is found for the other cores', () => {
    const control: Bitting = CUTS[0];
    const grid = gridOf(
      core,
      ['M', 'A', 'B'],
      [{ id: '1', control }, { id: '2' }],
      [
        { key: 'M', cylinder: '1' },
        { key: 'A', cylinder: '1' },
        { key: 'M', cylinder: '2' },
        { key: 'B', cylinder: '2' },
      ],
    );
    const found = runToEnd(solveGrid(grid));
    if (found.kind !== 'solved') throw new Error(found.kind);
    const made = systemOfSolved(grid, found, { name: 'Cores' });
    if (!made.ok) throw new Error(made.error.code);
    const { system, marks } = made.value;
    expect(system.cylinders[0]!.control).toEqual(control);
    expect(system.cylinders[1]!.control).toBeDefined();
    const controls = system.keys.filter(({ level }) => level === 'control');
    expect(controls.map(({ bitting }) => bitting)).toEqual(system.cylinders.map((each) => each.control));
    expect(runToEnd(auditSystem(auditInputOf(system, marks), { near: false })).counts).toEqual({});
  });
});
