/** Which cells and sheets of a book made by hand hold bittings. */
import { describe, expect, it } from 'vitest';
import { bittingsIn, secretSheets, secretsIn } from '../../src/workbook/secretCells.ts';
import { bookOf, tableOf } from './byHand.ts';

describe('bittings of a book', () => {
  it('are those of four tables, readable or not', () => {
    const book = bookOf(
      tableOf('KeyrowKeys', 'Keys', [['Note', 'BITTING'], ['999999', '012345'], ['', ' '], ['', 274153], ['', 'old']]), // prettier-ignore
      tableOf('KeyrowSystems', 'Systems', [
        ['Top master', 'Note'],
        ['354635', '888888'],
      ]),
      tableOf('KeyrowCylinders', 'Cylinders', [
        ['Cylinder', 'Control'],
        ['C1', '712345'],
      ]),
      tableOf('KeyrowConstruction', 'Construction', [
        ['Symbol', 'Bitting'],
        ['CON', '512345'],
      ]),
      tableOf('KeyrowFindings', 'Findings', [['Bitting'], ['777777']]),
    );
    expect(bittingsIn(book)).toEqual(['012345', '274153', 'old', '354635', '712345', '512345']);
    expect([...secretsIn(book).codes]).toContain('274153');
    const without = tableOf('KeyrowKeys', 'Keys', [['Symbol'], ['A']]);
    expect(bittingsIn(bookOf(without))).toEqual([]);
    expect(bittingsIn(bookOf())).toEqual([]);
  });

  it('stand on the sheets of these tables and of cutting jobs, in the order of the workbook', () => {
    const names = ['Keys', 'Systems', 'Cylinders', 'Pinning', 'ShopDoors', 'ShopKeys', 'Pictures', 'Array', 'Construction', 'Cutting', 'Cutting12']; // prettier-ignore
    const open = ['Specs', 'Grid1', 'Findings', 'Order', 'CustomerKeys', 'Ledger', 'Cutters', 'CuttingX'];
    const table = (name: string) => tableOf(`Keyrow${name}`, `Sheet of ${name}`, [['A']]);
    const book = bookOf(...[...open, ...names].map(table));
    expect(secretSheets(book)).toEqual(names.map((name) => `Sheet of ${name}`));
    const turned = { ...book, sheets: [...book.sheets].reverse() };
    expect(secretSheets(turned)).toEqual(names.map((name) => `Sheet of ${name}`).reverse());
    expect(secretSheets(bookOf(tableOf('KEYROWCUTTING2', 'Job', [['A']]), tableOf('MyKeyrowCutting', 'Mine', [['A']])))).toEqual(['Job']); // prettier-ignore
  });
});
