import { createElement } from 'react';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { GridPicture } from '../../../taskpane/pictures/GridPicture.tsx';
import {
  faultCells,
  findCell,
  nextFault,
  type GridData,
  type GridState,
} from '../../../taskpane/pictures/gridStates.ts';
import { CELL, inView, move, reveal } from '../../../taskpane/pictures/gridWindow.ts';
import { attributes, render } from './markup.ts';

const STATES: readonly (readonly GridState[])[] = [
  ['opens', 'closed', 'opens'],
  ['opens', 'opens', 'interchange'],
  ['lock-out', 'closed', 'opens'],
];
const small: GridData = {
  keys: [{ symbol: 'A' }, { symbol: 'AA1' }, { symbol: 'AA2' }],
  cylinders: [{ id: 'C1', door: '101' }, { id: 'C2', door: 'Stair' }, { id: 'C3' }],
  stateOf: (row, column) => STATES[row]![column]!,
};
const large: GridData = {
  keys: Array.from({ length: 200 }, (_, i) => ({ symbol: `AA${i + 1}` })),
  cylinders: Array.from({ length: 200 }, (_, i) => ({ id: `C${i + 1}` })),
  stateOf: (row, column) => (row === column ? 'opens' : 'closed'),
};

describe('the grid', () => {
  const markup = render(GridPicture, {
    data: small,
    why: (row, column) => createElement('p', null, `why ${row} ${column}`),
  });

  it('tells the states apart by shape', () => {
    const cells = markup.slice(0, markup.indexOf('<ul'));
    expect(attributes(cells, 'data-mark')).toEqual(['dot', 'dot', 'dot', 'dot', 'triangle', 'ring', 'dot']);
  });

  it('names each cell and says what it is', () => {
    expect(attributes(markup, 'aria-label')).toEqual(
      expect.arrayContaining([
        'AA2, Stair: opens and should not',
        'A, C3: should open and doesn’t',
        'AA1, 101: doesn’t open, as meant',
      ]),
    );
    expect(markup).toContain('2 cells not as meant');
  });

  it('is one stop of the Tab key and names the cell in hand, which exists', () => {
    const [active] = attributes(markup, 'aria-activedescendant');
    expect(attributes(markup, 'id')).toContain(active);
    expect(markup).toContain('why 0 0');
    const grid = markup.slice(markup.indexOf('role="grid"'), markup.indexOf('<ul'));
    expect(attributes(grid, 'tabindex')).toEqual(['0']);
  });

  it('says the same as a list', () => {
    const list = render(GridPicture, { data: small, asList: true });
    expect(list).toContain('<strong>101</strong>: opened as meant by A and AA2.');
    expect(list).toContain(
      '<strong>Stair</strong>: opened as meant by A and AA1. AA2: opens and should not.',
    );
    expect(list).toContain('<strong>C3</strong>: opened as meant by AA2. A: should open and doesn’t.');
  });

  it('draws only what is in view of 40,000 cells, and tells their number', () => {
    const big = render(GridPicture, { data: large });
    const cells = attributes(big, 'data-row').length;
    expect(cells).toBeGreaterThan(60);
    expect(cells).toBeLessThan(400);
    expect(attributes(big, 'aria-rowcount')).toEqual(['201']);
    expect(attributes(big, 'aria-colcount')).toEqual(['201']);
  });

  it('says what is missing where there is no grid', () => {
    expect(render(GridPicture, { data: { ...small, keys: [] } })).toContain(
      'at least one key and one cylinder',
    );
  });
});

describe('moving about', () => {
  const extent = { rows: 200, columns: 150 };

  it('goes where the keys lead, and stays inside', () => {
    const from = { row: 10, column: 20 };
    expect(move(from, 'ArrowRight', false, extent, 8)).toEqual({ row: 10, column: 21 });
    expect(move(from, 'ArrowUp', false, extent, 8)).toEqual({ row: 9, column: 20 });
    expect(move(from, 'PageDown', false, extent, 8)).toEqual({ row: 18, column: 20 });
    expect(move(from, 'Home', false, extent, 8)).toEqual({ row: 10, column: 0 });
    expect(move(from, 'End', true, extent, 8)).toEqual({ row: 199, column: 149 });
    expect(move({ row: 0, column: 0 }, 'ArrowLeft', false, extent, 8)).toEqual({ row: 0, column: 0 });
    expect(move(from, 'x', false, extent, 8)).toBeUndefined();
  });

  it('scrolls no farther than it must to show a cell', () => {
    fc.assert(
      fc.property(fc.nat(199), fc.nat(4000), fc.integer({ min: CELL, max: 400 }), (index, offset, room) => {
        const at = reveal(index, offset, room);
        expect(index * CELL).toBeGreaterThanOrEqual(at);
        expect((index + 1) * CELL).toBeLessThanOrEqual(at + room);
        const seen = index * CELL >= offset && (index + 1) * CELL <= offset + room;
        if (seen) expect(at).toBe(offset);
        const view = inView(at, room, 200);
        expect(view.from <= index && index < view.to).toBe(true);
      }),
    );
  });

  it('goes from fault to fault and round again', () => {
    const faults = faultCells(small);
    expect(faults).toEqual([
      { row: 1, column: 2 },
      { row: 2, column: 0 },
    ]);
    expect(nextFault(faults, { row: 0, column: 0 }, 1)).toEqual(faults[0]);
    expect(nextFault(faults, faults[1]!, 1)).toEqual(faults[0]);
    expect(nextFault(faults, faults[0]!, -1)).toEqual(faults[1]);
    expect(nextFault([], { row: 0, column: 0 }, 1)).toBeUndefined();
  });

  it('finds keys and doors by their names, the whole name first', () => {
    const here = { row: 1, column: 1 };
    expect(findCell(small, 'aa2', here)).toEqual({ row: 1, column: 2 });
    expect(findCell(small, 'a', here)).toEqual({ row: 1, column: 0 });
    expect(findCell(small, 'stair', here)).toEqual({ row: 1, column: 1 });
    expect(findCell(small, 'C3', here)).toEqual({ row: 2, column: 1 });
    expect(findCell(small, ' ', here)).toBeUndefined();
    expect(findCell(small, 'B7', here)).toBeUndefined();
  });
});
