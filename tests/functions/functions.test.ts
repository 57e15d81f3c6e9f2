import { errorCell, refusal } from './office.ts';
import { describe, expect, it } from 'vitest';
import { FUNCTIONS as F } from '../../functions/functions.ts';
import { reservedRow, specsRange } from './tables.ts';

const specs = specsRange;
const messages = (cells: unknown[][]): unknown[] =>
  cells.flat().map((cell) => (typeof cell === 'object' && cell !== null ? (cell as Error).message : cell));

describe('the spec argument', () => {
  it('takes a name of the table in any case, or a starter', () => {
    expect(F.CUTCENTRE(1, 'HOUSE 6', specs())).toBe(0.237);
    expect(F.CUTCENTRE(1, 's-018-6')).toBe(0.237);
    expect(F.CUTCENTRE(1, 'S-018-6', specs())).toBe(0.237);
  });

  it('never works with a spec that is missing, unknown, faulty or another under a starter’s name', () => {
    expect(refusal(() => F.CUTCENTRE(1, ''))).toMatch(/spec is missing/);
    expect(refusal(() => F.CUTCENTRE(1, 'House 6'))).toMatch(/no spec called “House 6”.*KeyrowSpecs\[#All\]/);
    expect(refusal(() => F.CUTCENTRE(1, 'House 7', specs()))).toMatch(/The range holds House 6, Letters/);
    expect(refusal(() => F.CUTCENTRE(1, 'Broken', specs()))).toMatch(/Row 5 .*MACS is blank/);
    expect(refusal(() => F.CUTCENTRE(1, 'S-018-6', specs([reservedRow])))).toMatch(/starter spec/);
    expect(refusal(() => F.CUTCENTRE(1, 'House 6', specs().slice(1)))).toMatch(/includes the header row/);
  });

  it('follows a table that changed', () => {
    const table = specs();
    expect(F.CHECK('271111', 'House 6', table)).toBe(false);
    table[1]![table[0]!.indexOf('First cut')] = 0.3;
    expect(F.CUTCENTRE(1, 'House 6', table)).toBe(0.3);
    expect(F.CUTCENTRE(1, 'House 6', specs())).toBe(0.237);
  });

  it('reads a table with an error cell, but no row that it spoils', () => {
    const table = specs();
    table[2]![table[0]!.indexOf('MACS')] = errorCell();
    expect(F.CUTCENTRE(1, 'House 6', table)).toBe(0.237);
    expect(refusal(() => F.CUTCENTRE(1, 'Letters', table))).toMatch(/#ERROR/);
  });
});

describe('blanks', () => {
  const blank = [null, '', '  ', undefined];
  it.each(blank)('%j in gives a blank out', (cell) => {
    expect(F.BITTING(cell, 'S-018-6')).toBe('');
    expect(F.CHECK(cell, 'S-018-6')).toBe('');
    expect(F.WHY(cell, 'S-018-6')).toBe('');
    expect(F.CHANGES(cell, 'S-018-6')).toBe('');
    expect(F.USABLECHANGES(cell, 'S-018-6')).toBe('');
    expect(F.CUTCENTRE(cell, 'S-018-6')).toBe('');
    expect(F.ROOTDEPTH(cell, 'S-018-6')).toBe('');
    expect(F.ROOTDEPTHS(cell, 'S-018-6')).toEqual([['']]);
    expect(F.CUTLIST(cell, 'S-018-6')).toEqual([['']]);
    expect(F.PINSTACK(cell, 'S-018-6')).toBe('');
    expect(F.PINSTACKWHY(cell, 'S-018-6')).toBe('');
    expect(F.CORESTACK(cell, '5', 'T-0125-7')).toBe('');
    expect(F.PASSES(cell, 'S-018-6')).toBe('');
    expect(F.PASSOFFSETS(cell, 'S-018-6')).toEqual([['']]);
    expect(F.OPERATES(cell, [['2', '4', '1', '5', '3', '6']], 'S-018-6')).toBe('');
    expect(F.OPERATESWHY('241536', [[cell, cell, cell, cell, cell, cell]], 'S-018-6')).toBe('');
    expect(F.OPERATES('241536', [[cell], [cell]], 'S-018-6')).toBe('');
    expect(F.OPERATINGCOUNT([[cell, cell]], 'S-018-6')).toBe('');
    expect(F.PINSTACKS([[cell, cell]], 'S-018-6')).toEqual([['']]);
    expect(F.CORESTACKWHY([[cell]], '', 'T-0125-7')).toBe('');
    expect(F.DECODE([[cell, cell, cell, cell, cell, cell]], 'S-018-6')).toBe('');
    expect(F.DECODEWHY([[cell]], 'S-018-6')).toBe('');
  });

  it('ends a spill with the last row that isn’t blank', () => {
    const column = [['241536'], [''], [null], ['283456'], [''], [null]];
    expect(F.CHECKS(column, 'S-018-6')).toEqual([[true], [''], [''], [false]]);
    expect(F.BITTINGS([[''], [null]], 'S-018-6')).toEqual([['']]);
    expect(
      F.DECODES(
        [
          [null, ''],
          ['', ''],
        ],
        'S-018-6',
      ),
    ).toEqual([['']]);
  });
});

describe('codes', () => {
  it('takes numbers and text alike, and reports digits that a cell dropped', () => {
    expect(F.BITTING(274153, 'S-018-6')).toBe('274153');
    expect(F.BITTING('０35214', 'S-018-6')).toBe('035214');
    expect(F.CHECK(35214, 'S-018-6')).toBe(false);
    expect(F.WHY(35214, 'S-018-6')).toMatch(/dropped leading zeros.*035214/);
    expect(refusal(() => F.BITTING(35214, 'S-018-6'))).toMatch(/035214/);
  });

  it('takes letters, and counts steps rather than symbols', () => {
    expect(F.BITTING('d-c-b-a', 'Letters', specs())).toBe('DCBA');
    expect(F.CHECK('DBCA', 'Letters', specs())).toBe(true);
    expect(F.WHY('DABC', 'Letters', specs())).toMatch(/D and A at cuts 1 and 2 differ by 3 steps/);
    expect(F.BITTING('9 10 11 10', 'Wide', specs())).toBe('9-10-11-10');
  });

  it('refuses what is not a code', () => {
    expect(refusal(() => F.BITTING('27?153', 'S-018-6'))).toMatch(/not a code/);
    expect(refusal(() => F.BITTING(true, 'S-018-6'))).toMatch(/TRUE/);
    expect(refusal(() => F.CHECK(errorCell(), 'S-018-6'))).toMatch(/is an error/);
    expect(F.CHECK('27X153', 'S-018-6')).toBe(false);
    expect(F.CHECK('2.5', 'S-018-6')).toBe(false);
    expect(F.WHY('27X153', 'S-018-6')).toMatch(/“X” at cut 3/);
  });

  it('checks parity only where a master is named', () => {
    expect(F.CHECK('241536', 'S-018-6', null as never, '463758')).toBe(true);
    expect(F.CHECK('241537', 'S-018-6', null as never, '463758')).toBe(false);
    expect(F.WHY('241537', 'S-018-6', null as never, '463758')).toMatch(/Cut 6 lies 1 step/);
    expect(refusal(() => F.CHECK('241536', 'S-018-6', null as never, '46'))).toMatch(/^The master: /);
  });

  it('leaves a warning TRUE and says it', () => {
    expect(F.CHECK('123456', 'S-018-6')).toBe(true);
    expect(F.WHY('123456', 'S-018-6')).toMatch(/^OK, but: .*deeper all along/);
  });

  it('answers for a whole column, each cell on its own', () => {
    const column = [['241536'], [errorCell()], [35214], ['2-4-1-5-3-6']];
    expect(messages(F.CHECKS(column, 'S-018-6'))).toEqual([
      true,
      'The code is an error; correct the cell that it comes from.',
      false,
      true,
    ]);
    expect(messages(F.CHECKS(column, 'S-018-6', null as never, null, true))[0]).toBe(false);
    expect(messages(F.WHYS(column, 'S-018-6', null as never, null, true))[3]).toMatch(/another place/);
    expect(messages(F.BITTINGS(column, 'S-018-6'))).toEqual([
      '241536',
      'The code is an error; correct the cell that it comes from.',
      expect.stringMatching(/035214/),
      '241536',
    ]);
    expect(refusal(() => F.CHECKS(column, 'S-018-6', null as never, null, 'yes'))).toMatch(/TRUE or FALSE/);
  });
});

describe('cuts', () => {
  // six cuts from 0.237 in by 0.156 in, ten depths from 0.315 in by 0.018 in: common practice
  it('gives the values of common practice', () => {
    expect([1, 2, 3, 4, 5, 6].map((n) => F.CUTCENTRE(n, 'House 6', specs()))).toEqual([
      0.237, 0.393, 0.549, 0.705, 0.861, 1.017,
    ]);
    expect([0, 1, 2, 3, 4, 5, 6, 7, 8, 9].map((d) => F.ROOTDEPTH(d, 'House 6', specs()))).toEqual([
      0.315, 0.297, 0.279, 0.261, 0.243, 0.225, 0.207, 0.189, 0.171, 0.153,
    ]);
    expect(F.ROOTDEPTHS('059059', 'House 6', specs())).toEqual([[0.315, 0.225, 0.153, 0.315, 0.225, 0.153]]);
  });

  it('converts by 25.4 mm to the inch (international yard and pound agreement, 1959)', () => {
    expect(F.CUTCENTRE(1, 'House 6', specs(), 'mm')).toBe(6.0198);
    expect(F.CUTCENTRES('Letters', specs(), 'IN')[0]![1]).toBeCloseTo(7 / 25.4, 12);
  });

  it('counts positions from the tip where that is the stop, and root depths along the code', () => {
    expect(F.CUTLIST('DCBA', 'Letters', specs()).slice(1)).toEqual([
      [1, 4, 'A', 3, 5],
      [2, 3, 'B', 7, 5.5],
      [3, 2, 'C', 11, 6.2],
      [4, 1, 'D', 15, 7],
    ]);
    expect(F.ROOTDEPTHS('DCBA', 'Letters', specs())).toEqual([[7, 6.2, 5.5, 5]]);
    expect(F.ROOTDEPTH('c', 'Letters', specs())).toBe(6.2);
  });

  it('refuses positions, depths and units that don’t exist', () => {
    for (const n of [0, 7, 1.5, 'first', -1])
      expect(refusal(() => F.CUTCENTRE(n, 'S-018-6'))).toMatch(/The position is/);
    expect(refusal(() => F.ROOTDEPTH('X', 'S-018-6'))).toMatch(/its depths are 0 1 2/);
    expect(refusal(() => F.CUTCENTRE(1, 'S-018-6', null as never, 'cm'))).toMatch(/in \(inches\) or mm/);
  });
});

describe('decoding', () => {
  const readings = [0.279, 0.189, 0.243, 0.297, 0.225, 0.261];

  it('reads a row, a column, text and another unit', () => {
    expect(F.DECODE([readings], 'S-018-6')).toBe('274153');
    expect(
      F.DECODE(
        readings.map((r) => [r]),
        'S-018-6',
      ),
    ).toBe('274153');
    expect(F.DECODE([readings.map((r) => `${r} in`)], 'S-018-6')).toBe('274153');
    expect(F.DECODE([readings.map((r) => r * 25.4)], 'S-018-6', null as never, 'mm')).toBe('274153');
    expect(F.DECODE([[5, 5.5, 6.2, 7]], 'Letters', specs())).toBe('ABCD');
    expect(F.DECODE([[5, 5.25, 6.2, 5.5]], 'Wide', specs())).toBe('9-?-11-10');
  });

  it('marks every doubtful cut and says why', () => {
    const off = readings.with(2, 0.246);
    expect(F.DECODE([off], 'S-018-6')).toBe('27?153');
    expect(F.DECODEWHY([off], 'S-018-6')).toMatch(/Cut 3 is nearest to 4, but off by 0\.003 in/);
    expect(F.DECODEWHY([readings.map((r) => r - 0.0015)], 'S-018-6')).toMatch(/All cuts are off/);
    // 0.003 in are 0.0762 mm, of 25.4 mm an inch (ISO 80000-3)
    expect(F.DECODEWHY([off.map((r) => r * 25.4)], 'S-018-6', null as never, 'mm')).toMatch(
      /off by 0\.08 mm; the tolerance is 0\.05 mm/,
    );
    expect(F.JUDGE([off.map((r) => r * 25.4)], '274153', 'S-018-6', null as never, 'mm')).toBe(
      'Cut 3 reads 6.25, 0.08 too shallow for a 4 (6.17).',
    );
    expect(F.DECODE([readings.map((r) => r * 25.4)], 'S-018-6')).toBe('??????');
  });

  it('refuses readings that are missing, too many or no lengths', () => {
    expect(refusal(() => F.DECODE([readings.slice(1)], 'S-018-6'))).toMatch(/5 readings; S-018-6 has 6 cuts/);
    expect(refusal(() => F.DECODE([[...readings.slice(1), '']], 'S-018-6'))).toMatch(/Reading 6 is blank/);
    expect(refusal(() => F.DECODE([['deep', ...readings.slice(1)]], 'S-018-6'))).toMatch(
      /Reading 1 is “deep”/,
    );
    expect(refusal(() => F.DECODE([readings, readings], 'S-018-6'))).toMatch(/one row or one column/);
    expect(messages(F.DECODES([readings, readings.with(0, 0.9)], 'S-018-6'))).toEqual(['274153', '?74153']);
    expect(messages(F.DECODES([[...readings.slice(1), '']], 'S-018-6'))[0]).toMatch(/Reading 6/);
  });
});

describe('pins', () => {
  it('stacks by the plug diameter, by the pin table and in parts', () => {
    expect(F.PINSTACK('2 6', 'S-018-6')).toBe('bottom 0.221 + master 0.072 + top 0.207 in');
    expect(F.PINSTACK('1 3 7', 'S-018-6', null as never, 'Master 2')).toBe(0.072);
    expect(F.PINSTACK(4, 'S-018-6', null as never, 'bottom')).toBe(0.257);
    expect(F.PINSTACK(4, 'S-018-6', null as never, 'master')).toBe('');
    expect(F.PINSTACK('any', 'S-018-6')).toBe('empty');
    expect(F.PINSTACK('any', 'S-018-6', null as never, 'top')).toBe('');
    expect(F.PINSTACK('A/C', 'Letters', specs())).toBe(
      'bottom 4.80 + master 1.20 + top not known (no target stack) mm',
    );
  });

  it('says what is wrong rather than a wrong length', () => {
    expect(F.PINSTACK('2 3', 'S-018-6')).toMatch(/master 0\.018 .*too thin \(1 of at least 2 steps\)$/);
    expect(F.PINSTACKWHY('2 3', 'S-018-6')).toMatch(/^The master pin between 2 and 3 is too thin/);
    expect(F.PINSTACKWHY('any', 'S-018-6')).toBe('OK');
    expect(refusal(() => F.PINSTACK('26', 'S-018-6'))).toMatch(/runs together.*2 6/);
    expect(refusal(() => F.PINSTACK(26, 'S-018-6'))).toMatch(/runs together/);
    expect(refusal(() => F.PINSTACK(errorCell(), 'S-018-6'))).toMatch(/is an error/);
    expect(refusal(() => F.PINSTACK('2 6', 'S-018-6', null as never, 'middle'))).toMatch(/bottom, master/);
    expect(refusal(() => F.PINSTACK('A', 'Letters', specs(), 'top'))).toMatch(/no target stack/);
    expect(refusal(() => F.PINSTACK('9', 'Wide', specs()))).toMatch(/no plug diameter/);
    expect(refusal(() => F.PINSTACK('2', 'T-0125-7'))).toMatch(/CORESTACK/);
  });

  it('spills a whole cylinder', () => {
    const table = F.PINSTACKS([['2 6'], ['4'], ['any'], ['1 3 7'], ['5'], ['0']], 'S-018-6');
    expect(table[0]).toEqual(['Chamber', 'Depths', 'Bottom', 'Master', 'Master 2', 'Top']);
    expect(table[3]).toEqual([3, 'any', '', '', '', '']);
    expect(table[4]).toEqual([4, '1 3 7', 0.203, 0.036, 0.072, 0.189]);
    expect(new Set(table.map((row) => row.length))).toEqual(new Set([6]));
    expect(refusal(() => F.PINSTACKS([['2', '', '1', '5', '3', '6']], 'S-018-6'))).toMatch(
      /Chamber 2: the cell is blank; write any/,
    );
    expect(refusal(() => F.PINSTACKS([['2', '4']], 'S-018-6'))).toMatch(/2 chambers in the range/);
  });

  it('stacks interchangeable cores in steps', () => {
    // total and addition of 0.0125 in and 0.021 in cores: core service manual, section on pinning
    for (const [spec, total] of [
      ['T-0125-7', 23],
      ['T-021-7', 14],
    ] as const) {
      const part = (name: string): number => F.CORESTACK('1 4', '3', spec, null as never, name) as number;
      expect(part('bottom') + part('master') + part('build-up') + part('top')).toBe(total);
    }
    expect(F.CORESTACK('1 4', '3', 'T-021-7')).toBe('bottom 1 + master 3 + build-up 5 + top 5 = 14');
    expect(F.CORESTACK('any', '3', 'T-021-7')).toBe('empty');
    expect(F.CORESTACK('1 4', 3, 'T-021-7', null as never, 'master 2')).toBe('');
    expect(refusal(() => F.CORESTACK('1 4', '', 'T-021-7'))).toMatch(/control cut is blank/);
    expect(refusal(() => F.CORESTACK('1 4', '9', 'T-021-7'))).toMatch(/not a depth/);
    expect(refusal(() => F.CORESTACK('1 4', '3', 'S-018-6'))).toMatch(/not an interchangeable core/);
    expect(refusal(() => F.CORESTACK('1', '1', 'T-021-7', null as never, 'spring'))).toMatch(
      /build-up or top/,
    );
  });

  it('tells the faults of a core’s chamber with its pins', () => {
    // build-up 0 + 10 − 9 = 1, one less than the two steps of 0.0125 in
    expect(F.CORESTACK('9', '0', 'T-0125-7')).toMatch(
      /= 23; a build-up pin of 1 is too thin; the least is 2/,
    );
    expect(F.CORESTACK('8', '0', 'T-0125-7')).toMatch(/= 23$/);
  });

  it('finds a control key that is an ordinary key too', () => {
    const core = [['2 6', '3 5', '1', '4', '0 2', '5', '3']];
    expect(F.CORESTACKWHY(core, '2314053', 'T-0125-7')).toMatch(/also operates/);
    expect(refusal(() => F.CORESTACKWHY(core, '', 'T-0125-7'))).toMatch(/^The control key: /);
  });
});

describe('operating', () => {
  const cylinder = [['2 6', '4', '1 3', 'any', '3', '6 8']];

  it('needs every chamber to shear', () => {
    expect(F.OPERATES('241936', cylinder, 'S-018-6')).toBe(true);
    expect(F.OPERATES('341936', cylinder, 'S-018-6')).toBe(false);
    expect(
      F.OPERATES(
        641038,
        cylinder[0]!.map((c) => [c]),
        'S-018-6',
      ),
    ).toBe(true);
    expect(F.OPERATESWHY('341936', cylinder, 'S-018-6')).toBe(
      'Chamber 1 shears at 2 6, the key is cut to 3.',
    );
  });

  it('counts the bittings that operate it', () => {
    expect(F.OPERATINGCOUNT(cylinder, 'S-018-6')).toBe(2 * 1 * 2 * 10 * 1 * 2);
    // a sheet with columns for eight chambers leaves the last two blank
    expect(F.OPERATINGCOUNT([[...(cylinder[0] ?? []), '', '']], 'S-018-6')).toBe(2 * 1 * 2 * 10 * 1 * 2);
    const few = F.OPERATINGCOUNT(cylinder, 'S-018-6', null as never, true);
    expect(few).toBeLessThan(80);
  });

  it('refuses keys and chambers that can’t be read', () => {
    expect(refusal(() => F.OPERATES('24193', cylinder, 'S-018-6'))).toMatch(/^The key: .*5 /);
    expect(refusal(() => F.OPERATES('241936', [['2 X', '4', '1', '1', '3', '6']], 'S-018-6'))).toMatch(
      /Chamber 1: there is no depth X/,
    );
  });
});

describe('changes', () => {
  it('agrees with published totals', () => {
    // six chambers of four choices: 4,096 (US patent 6,516,644; trade-association magazine, cores at 0.0125 in)
    expect(F.CHANGES('241536', 'House 6', specs())).toBe(4096);
    // seven chambers of four and of six and five choices (the same magazine, fig. 11)
    expect(F.CHANGES('2415362', 'T-0125-7')).toBe(16_384);
    expect(F.CHANGES('2415362', 'T-018-7')).toBe(279_936);
    expect(F.CHANGES('2415325', 'T-021-7')).toBe(78_125);
  });

  it('counts usable ones, counted by another program once', () => {
    expect(F.USABLECHANGES('241536', 'S-018-6')).toBe(1029);
    expect(F.USABLECHANGES('241536', 'S-018-6')).toBe(1029);
  });

  it('refuses masters that break a rule, and counts too long for a cell', () => {
    expect(refusal(() => F.USABLECHANGES('222222', 'S-018-6'))).toMatch(/breaks a rule itself/);
    const big = { ...reservedRow, Name: 'Big', Cuts: 8, Step: 1 };
    expect(refusal(() => F.USABLECHANGES('24153624', 'Big', specs([big])))).toMatch(/43046721 changes/);
    expect(F.CHANGES('24153624', 'Big', specs([big]))).toBe(9 ** 8);
  });
});

describe('cutters', () => {
  it('gives the published form of MACS', () => {
    // (0.156 − 0.031) ÷ (0.015 · tan 50°) = 6.992 (Pulford 2007; inputs from memory): at 7 steps 0.0001 in is eaten,
    // which is within the 0.001 in that is let pass
    const six = { ...reservedRow, Name: 'Fifteen', Angle: 100, 'Root width': 0.031 };
    const depths = Array.from({ length: 10 }, (_, i) => `${i}=${(0.335 - i * 0.015).toFixed(3)}`).join(';');
    expect(F.GEOMETRICMACS('Fifteen', specs([{ ...six, Depths: depths }]))).toBe(7);
    expect(F.GEOMETRICMACS('House 6', specs())).toBe(5);
  });

  it('takes the cutter at hand in its own unit', () => {
    expect(F.GEOMETRICMACS('House 6', specs(), 2.286, null, 'mm')).toBe(
      F.GEOMETRICMACS('House 6', specs(), 0.09),
    );
    expect(F.GEOMETRICMACS('House 6', specs(), null, 60)).toBeGreaterThan(5);
    expect(F.PASSES(0.02, 'House 6', specs())).toBe(3);
    expect(F.PASSOFFSETS(0.02, 'House 6', specs())).toEqual([[-0.017, 0, 0.017]]);
    expect(F.PASSES('0,6 mm', 'Letters', specs())).toBe(3);
  });

  it('refuses cutters that can’t be, or are too wide', () => {
    expect(refusal(() => F.PASSES(0.06, 'House 6', specs()))).toMatch(/0\.006 in wider .* at most 5 steps/);
    expect(refusal(() => F.PASSES(0, 'House 6', specs()))).toMatch(/more than zero/);
    expect(refusal(() => F.GEOMETRICMACS('House 6', specs(), null, 180))).toMatch(/less than 180/);
  });
});
