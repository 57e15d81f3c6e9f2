/** A cutting list against a plain group-by of d3-array (npm package d3-array 3.2.4, ISC licence). */
import { rollup, sum } from 'd3-array';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { barsCutting, cuttingLines } from '../../src/keying/cutting.ts';
import type { BittingFinding } from '../../src/keying/findings.ts';
import { readCode } from '../../src/keying/importCode.ts';
import type { ImportRow } from '../../src/keying/importRows.ts';
import { key, starter } from '../support/keys.ts';

const six = starter('S-018-6');

const rowOf = (index: number, code: string, more: Partial<ImportRow> = {}): ImportRow => ({
  index,
  mark: '',
  code: readCode(six, code),
  reference: '',
  blank: '',
  quantity: 1,
  quantityText: '1',
  note: '',
  ...more,
});
const macs: BittingFinding = { code: 'macs', cut: 2, from: '0', to: '9', steps: 9, most: 5 } as never;
const stair: BittingFinding = { code: 'stair', direction: 'deeper' } as never;

describe('a cutting list', () => {
  it('has one line for each bitting on each blank, by blank, with all its keys, marks and rows', () => {
    const rows = fc.array(
      fc.record({
        code: fc.constantFrom('274153', '2-7-4-1-5-3', '354635', '241536'),
        blank: fc.constantFrom('', 'K1', 'k1', 'K2'),
        mark: fc.constantFrom('', 'AA1', 'AA2', 'AB1'),
        quantity: fc.nat({ max: 5 }),
      }),
      { maxLength: 20 },
    );
    fc.assert(
      fc.property(rows, (list) => {
        const given = list.map(({ code, ...more }, i) => rowOf(i * 2, code, more));
        const lines = cuttingLines(six, given, []);
        const id = (row: { code: string; blank: string }) =>
          `${row.code.replaceAll('-', '')} ${row.blank.toLowerCase()}`;
        const groups = rollup(
          list.map((row, i) => ({ ...row, index: i * 2 })),
          (group) => ({
            marks: [...new Set(group.map((row) => row.mark))].filter((mark) => mark !== ''),
            originals: [...new Set(group.map((row) => row.code))],
            bitting: key(six, group[0]!.code),
            blank: group[0]!.blank,
            keys: sum(group, (row) => row.quantity),
            rows: group.map((row) => row.index),
          }),
          id,
        );
        // plain and stable: these names have nothing to do with numbers
        const byBlank = ['', 'k1', 'k2'].flatMap((blank) =>
          [...groups.values()].filter((group) => group.blank.toLowerCase() === blank),
        );
        expect(lines.map((line) => ({ ...line, remarks: undefined }))).toEqual(byBlank);
        expect(lines.flatMap((line) => line.rows).length).toBe(list.length);
      }),
    );
  });

  it('takes blanks from the board one after the other, B2 before B10', () => {
    const rows = ['B10', 'b2', '', 'B10', 'B2'].map((blank, i) => rowOf(i, `27415${i}`, { blank }));
    const uncut = rowOf(5, 'KX 1042', { blank: 'A1' });
    const lines = cuttingLines(six, [uncut, ...rows], []);
    expect(lines.map((line) => [line.blank, line.rows[0]])).toEqual([
      ['', 2],
      ['b2', 1],
      ['B2', 4],
      ['B10', 0],
      ['B10', 3],
      ['A1', 5],
    ]);
  });

  it('doesn’t know how many where one of the rows says no number', () => {
    const [line, ...rest] = cuttingLines(
      six,
      [rowOf(0, '274153'), rowOf(1, '274153', { quantity: undefined, quantityText: 'some' })],
      [],
    );
    expect(rest).toEqual([]);
    expect(line).toMatchObject({ keys: undefined, rows: [0, 1] });
    expect(line!.remarks).toEqual(['“some” is no number of keys: fill in how many.']);
  });

  it('leaves what can’t be cut uncut, a line each, with the reason first', () => {
    const rows = [
      rowOf(0, '090909', { mark: 'AA1' }),
      rowOf(1, '090909', { mark: 'AA2' }),
      rowOf(2, '', { mark: 'AA3' }),
      rowOf(3, '', { reference: 'KX1' }),
      rowOf(4, '274153', { note: 'rush', reference: 'R 7' }),
      rowOf(5, 'KX 1042'),
    ];
    const lines = cuttingLines(six, rows, [[macs], [macs], undefined, [], [stair]]);
    // after what is cut
    expect(lines.map((line) => [line.rows, line.bitting !== undefined])).toEqual([
      [[4], true],
      [[0], false],
      [[1], false],
      [[2], false],
      [[3], false],
      [[5], false],
    ]);
    const remarks = lines.toSorted((a, b) => a.rows[0]! - b.rows[0]!).map((line) => line.remarks);
    expect(remarks.map((said) => said[0] === 'NOT CUT.')).toEqual([true, true, true, true, false, true]);
    expect(remarks[2]).toEqual(['NOT CUT.', 'There is no code here.']);
    expect(remarks[3]).toEqual(['NOT CUT.', 'Only a reference: look its bitting up.', 'Reference KX1.']);
    expect(remarks[4]!.slice(1)).toEqual(['Reference R 7.', 'rush']);
    expect(remarks[5]).toHaveLength(2);
    // no line has the words of an empty cell where there is something
    expect(remarks.flat().filter((said) => said.trim() === '')).toEqual([]);
  });

  it('doesn’t say that a code comes twice, nor a remark twice', () => {
    const twice: BittingFinding = { code: 'duplicate', of: 'AA1' };
    const rows = [rowOf(0, '274153', { note: 'rush' }), rowOf(1, '274153', { note: 'rush' })];
    expect(cuttingLines(six, rows, [[twice], [twice]])[0]!.remarks).toEqual(['rush']);
  });
});

describe('what bars cutting', () => {
  it('is what metal can’t get round, wherever it stands among the findings', () => {
    const of = (...codes: string[]) => barsCutting(codes.map((code) => ({ code }) as BittingFinding));
    for (const code of ['length', 'unknown-depth', 'lost-zero', 'not-a-code', 'macs'])
      expect([of(code), of('stair', code), of(code, 'stair')], code).toEqual([true, true, true]);
    for (const code of ['few-depths', 'equal-run', 'stair', 'duplicate', 'already-used', 'near-miss'])
      expect(of(code), code).toBe(false);
    expect(of()).toBe(false);
  });
});
