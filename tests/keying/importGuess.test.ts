import { describe, expect, it } from 'vitest';
import { formatBitting, packBitting } from '../../src/keying/bitting.ts';
import { guessColumns } from '../../src/keying/importColumns.ts';
import { readImport } from '../../src/keying/importRows.ts';
import { guessOrder, guessSpecs } from '../../src/keying/importSpec.ts';
import { isUsable } from '../../src/keying/rules.ts';
import type { Specification } from '../../src/keying/specification.ts';
import { STARTER_SPECS } from '../../src/keying/starters.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { randomOf } from '../bench/random.ts';
import { key, starter } from '../support/keys.ts';

const six = starter('S-018-6');

/** Bittings that a spec allows, drawn evenly. */
function drawn(spec: Specification, count: number, seed: number): string[] {
  const random = randomOf(seed);
  const list: string[] = [];
  while (list.length < count) {
    const cuts = spec.centres.map(() => random(spec.depths.length));
    if (isUsable(spec, cuts)) list.push(formatBitting(spec, cuts));
  }
  return list;
}

describe('guessSpecs', () => {
  it('finds the starter that a list was drawn from', () => {
    for (const spec of STARTER_SPECS) {
      const [first] = guessSpecs(drawn(spec, 60, 3), STARTER_SPECS);
      expect([first!.spec.name, first!.sure]).toEqual([spec.name, 'sure']);
      expect(first).toMatchObject({ codes: 60, read: 60, within: 60 });
    }
  });

  it('is not sure of a handful, nor of codes of no spec', () => {
    const [few] = guessSpecs(['274153', '241536'], STARTER_SPECS);
    expect(few!.spec.name).toBe('S-018-6');
    expect(few!.sure).not.toBe('sure');
    expect(guessSpecs(['KX 1042', 'KX 1043'], STARTER_SPECS)[0]!.sure).toBe('doubtful');
    const beliefs = guessSpecs(['274153'], STARTER_SPECS).reduce((sum, g) => sum + g.belief, 0);
    expect(beliefs).toBeCloseTo(1, 12);
  });

  it('lets a tenth of slips pass without another answer', () => {
    const list = drawn(six, 54, 5);
    const [first] = guessSpecs([...list, '090909', '190190', '27415', '2741', '99', '0909'], STARTER_SPECS);
    expect([first!.spec.name, first!.sure]).toEqual(['S-018-6', 'sure']);
  });
});

describe('guessOrder', () => {
  const known = new Set(['274153', '354635', '241536'].map((code) => packBitting(six, key(six, code))));
  it('goes by bittings that the workbook has', () => {
    const list = ['351472', '536453', '635142', '123321'].map((code) => key(six, code));
    expect(guessOrder(six, list, known)).toEqual({ order: 'tip-to-bow', sure: 'sure', own: 0, reversed: 3 });
  });
  it('says that nothing tells it otherwise', () => {
    const list = ['112233', '123321'].map((code) => key(six, code));
    expect(guessOrder(six, list, known)).toEqual({
      order: 'bow-to-tip',
      sure: 'doubtful',
      own: 0,
      reversed: 0,
    });
  });
});

describe('guessColumns', () => {
  const guess = (rows: readonly (readonly (string | number)[])[]) => guessColumns(rows, STARTER_SPECS);

  it('goes by headings', () => {
    expect(
      guess([
        ['Mark', 'Bitting (tip to bow)', 'Qty', 'Keyway', 'Blind code', 'Room'],
        ['AA1', '274153', 2, 'K1', 'KX1042', 'Office'],
        ['AA2', '354635', 1, 'K1', 'KX1043', 'Store'],
      ]),
    ).toEqual({
      headerRows: 1,
      roles: ['mark', 'code', 'quantity', 'blank', 'reference', 'note'],
      sure: 'sure',
      order: 'tip-to-bow',
    });
  });

  it('goes by content where there are no headings', () => {
    expect(
      guess([
        ['AA1', '274153', '2'],
        ['AA2', '354635', '1'],
        ['AA3', '241536', '12'],
      ]),
    ).toEqual({ headerRows: 0, roles: ['mark', 'code', 'quantity'], sure: 'sure' });
    expect(guess([['274153'], ['354635']])).toMatchObject({ headerRows: 0, roles: ['code'] });
  });

  it('finds cuts in columns of their own', () => {
    const rows = [
      ['AA1', 2, 7, 4, 1, 5, 3],
      ['AA2', 3, 5, 4, 6, 3, 5],
    ];
    const { roles } = guess(rows);
    expect(roles).toEqual(['mark', 'code', 'code', 'code', 'code', 'code', 'code']);
    const read = runToEnd(readImport({ spec: six, rows, roles, options: {} }));
    expect(read.map((row) => row.code.bitting)).toEqual([key(six, '274153'), key(six, '354635')]);
  });

  it('says that two columns of codes are doubtful', () => {
    expect(
      guess([
        ['274153', '354635'],
        ['241536', '635142'],
      ]).sure,
    ).toBe('doubtful');
  });
});

describe('readImport', () => {
  it('lets no row go, and reads quantities', () => {
    const rows = [
      ['AA1', '274153', '2 pcs'],
      ['', '', ''],
      ['AA2', 'KX 1042', ''],
      ['AA3', '', 'some'],
    ];
    const read = runToEnd(readImport({ spec: six, rows, roles: ['mark', 'code', 'quantity'], options: {} }));
    expect(read.map((r) => [r.index, r.mark, r.code.kind, r.quantity, r.quantityText])).toEqual([
      [0, 'AA1', 'bitting', 2, '2 pcs'],
      [2, 'AA2', 'reference', 1, ''],
      [3, 'AA3', 'empty', undefined, 'some'],
    ]);
  });
});
