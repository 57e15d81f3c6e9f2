/** Cells about what keys and cylinders are made of: which columns and rows they stand in, and what each says. */
import { describe, expect, it } from 'vitest';
import {
  againIn,
  columnsAbout,
  columnsAgain,
  firstOf,
  isKeyRow,
  metalAt,
  rowAbout,
  rowsAbout,
} from '../../src/workbook/gridMetal.ts';
import { place } from '../../src/workbook/places.ts';

describe('columns about cylinders', () => {
  it('are told by their headings, the first of each kind', () => {
    const header = ['Door', ' KEYWAY ', 'M', 'Pins', 'Blank', 'Control cuts', 'chambers', 7];
    expect([...columnsAbout(header)]).toEqual([
      ['blank', 1],
      ['cuts', 3],
      ['control', 5],
    ]);
    // the second of a kind with the first that it repeats
    expect(columnsAgain(header)).toEqual([
      [4, 1],
      [6, 3],
    ]);
    for (const word of ['keyway', 'keyways', 'key section', 'blank', 'key blank'])
      expect([...columnsAbout([word]).keys()]).toEqual(['blank']);
    for (const word of ['pins', 'chambers', 'No. of pins', 'number of pins'])
      expect([...columnsAbout([word]).keys()]).toEqual(['cuts']);
    for (const word of ['control', 'control key', 'control cuts', 'control bitting'])
      expect([...columnsAbout([word]).keys()]).toEqual(['control']);
    // cuts are a key's, pins a cylinder's
    expect(columnsAbout(['cuts']).size).toBe(0);
    expect(columnsAbout([]).size).toBe(0);
  });

  it('of each kind are the first, and what comes after it', () => {
    expect([...firstOf([undefined, 'cuts', 'blank', 'cuts', 'cuts'])]).toEqual([
      ['cuts', 1],
      ['blank', 2],
    ]);
    expect(againIn([undefined, 'cuts', 'blank', 'cuts', undefined, 'cuts'])).toEqual([
      [3, 1],
      [5, 1],
    ]);
  });
});

describe('a row about keys', () => {
  const names = { keys: [2, 3], cylinder: 0, door: 1 };
  const cells = [
    ['', 'Keyway', 'K1', 'K2'],
    ['Cyl.', 'Door', 'M', 'A'],
    ['C1', 'Front', 'x', ''],
    ['Cuts', '', 5, 6],
  ];

  it('has the one name beside its keys where cylinders or doors are named', () => {
    expect(rowsAbout(cells, names)).toEqual(['blank', undefined, undefined, 'cuts']);
    expect(['Keyway', ' number of CUTS ', 'key blank'].map(isKeyRow)).toEqual([true, true, true]);
    expect(['Pins', 'Control', '', undefined, 7].map(isKeyRow)).toEqual([false, false, false, false, false]);
    expect(rowAbout(cells, 9, names)).toBeUndefined();
  });

  it('has no second name', () => {
    expect(rowAbout([['Keyway', 'Front', 'x', '']], 0, names)).toBeUndefined();
    expect(rowAbout([['Keyway', '', '', '', 'note']], 0, names)).toBeUndefined();
    // what stands among the keys is theirs, also left of the name
    expect(rowAbout([['K1', 'Keyway', ' ']], 0, { keys: [0], cylinder: 1 })).toBe('blank');
  });

  it('may be named in a column that holds nothing but such names', () => {
    const beside = [
      ['Cyl.', 'M', ''],
      ['C1', 'x', ''],
      ['', 'K1', 'Keyway'],
      ['', '5', 'Cuts'],
    ];
    expect(rowsAbout(beside, { keys: [1], cylinder: 0 })).toEqual([undefined, undefined, 'blank', 'cuts']);
    const noted = beside.map((row, r) => (r === 1 ? ['C1', 'x', 'Hall'] : row));
    expect(rowsAbout(noted, { keys: [1], cylinder: 0 })).toEqual([
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
  });
});

describe('what is said of one key or cylinder', () => {
  const about = new Map([
    ['blank', 1],
    ['cuts', 2],
  ] as const);
  const cells = [['C1', ' K1 ', 5], ['C2', ' ', ''], ['C3']];
  const said = (row: number) =>
    metalAt(
      cells,
      about,
      (column) => [row, column],
      (r, c) => place('Grid', r, c),
    );

  it('is what its cells hold, or nothing', () => {
    expect(said(0)).toStrictEqual({
      blank: { text: 'K1', at: { sheet: 'Grid', address: 'B1' } },
      cuts: { text: '5', at: { sheet: 'Grid', address: 'C1' } },
    });
    expect([said(1), said(2), said(9)]).toEqual([undefined, undefined, undefined]);
  });
});
