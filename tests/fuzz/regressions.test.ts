/** What fuzzing found, one by one. */
import { refusal } from '../functions/office.ts';
import { describe, expect, it } from 'vitest';
import { FUNCTIONS as F } from '../../functions/functions.ts';
import { entersKeyway } from '../../src/keying/keyways.ts';
import { readSpecTable, rotatingSpace, stampingOf, tidySymbol } from '../../src/keying/index.ts';
import { foldHeading } from '../../src/keying/scheduleColumns.ts';
import { wordField } from '../../src/workbook/fields.ts';
import { specsRange } from '../functions/tables.ts';
import { timed } from './hostile.ts';

/** Names that every object has, though nobody put them there. */
const NAMES = ['constructor', 'toString', '__proto__', 'hasOwnProperty'];

describe('a full cell as a code', () => {
  // a finding for each of its characters, put into words, took most of a minute
  it('is refused in one sentence by every starter', () => {
    for (const spec of ['S-018-6', 'T-0125-7', 'M-050-5']) {
      const said = refusal(() => F.BITTING('0'.repeat(32_767), spec, specsRange()));
      expect(said).toMatch(/is not a code/);
      expect(said.length).toBeLessThan(300);
    }
  });
});

describe('names of object prototypes', () => {
  it.each(NAMES)('%s is no unit, gauge or order of a spec', (name) => {
    const [header, row] = specsRange() as string[][];
    for (const column of ['Unit', 'Gauge', 'Order']) {
      const changed = header!.map((h, c) => (h === column ? name : row![c]!));
      expect(readSpecTable([header!, changed]).faults).toMatchObject([
        { row: 1, column, fault: { code: 'cell-not-choice', text: name } },
      ]);
    }
  });

  it.each(NAMES)('%s is no word of a column of words', (name) => {
    const field = wordField({ issued: 'issued', lost: 'lost' }, ['Issued', 'Lost'], 'issued');
    expect(field.safeParse('Lost')).toMatchObject({ success: true, data: 'lost' });
    expect(field.safeParse(name).success).toBe(false);
  });

  it.each(NAMES)('a blank for keyway %s enters no other', (name) => {
    expect(entersKeyway({ K1: ['K2'] }, name, 'K2')).toBe(false);
    expect(entersKeyway({ K1: ['K2'] }, 'K1', 'K2')).toBe(true);
  });
});

describe('a rotating constant that there is none of', () => {
  it.each([-1, 0.5, 4])('%d of three positions has no change, and ends', (constants) => {
    const over = [0, 1, 2].map((chamber) => ({ chamber, master: 0, choices: [2, 4] }));
    expect(rotatingSpace(over, constants).size).toBe(0);
    expect(rotatingSpace(over, 1).size).toBe(12);
  });
});

describe('a flat far below the root width', () => {
  it.each([1e-7, 0.0005])('of %d in fills no sheet with passes', (flat) => {
    expect(refusal(() => F.PASSES(flat, 'S-018-6'))).toMatch(/one in 100 of the root width/);
    expect(refusal(() => F.PASSOFFSETS(flat, 'S-018-6'))).toMatch(/one in 100 of the root width/);
  });

  it('is widened as before where it makes sense', () => {
    expect(F.PASSES(0.01, 'S-018-6')).toBe(6);
  });
});

describe('a stamping of very many keys with a very long word before it', () => {
  it('ends, where the word used to be written out anew for each key', () => {
    const [line] = stampingOf([{ symbol: 'AA1', copies: 274_153 }], { before: 'x'.repeat(32_767) });
    expect(line!.stamps).toHaveLength(274_153);
    expect(line!.stamps.at(-1)!.endsWith('x AA1-274153')).toBe(true);
  });
});

describe('a heading of opening brackets', () => {
  it('is folded as others are, where each bracket used to be followed to the end of the cell', () => {
    expect(foldHeading('Length (mm)')).toBe('length');
    expect(foldHeading('a) b (c (d) e')).toBe('a) b e');
    // the quickest of five, so that a busy machine is no matter; it took 1.8 s
    const took = Array.from({ length: 5 }, () => {
      const start = performance.now();
      foldHeading('('.repeat(32_767));
      return performance.now() - start;
    });
    expect(Math.min(...took)).toBeLessThan(200);
  });
});

describe('a symbol of nothing but digits', () => {
  it('is tidied as others are, where a digit used to be sought from every place of the cell', () => {
    expect(tidySymbol('1OAA', { levels: 2 })).toEqual({ to: '10AA', why: 'look-alike' });
    expect(tidySymbol('OlIAA', { levels: 2 })).toBeUndefined();
    // the quickest of five, so that a busy machine is no matter; it took 0.8 s
    const took = Array.from({ length: 5 }, () => timed(() => tidySymbol('1'.repeat(32_767))).took);
    expect(Math.min(...took)).toBeLessThan(200);
  });
});
