/**
 * What reading asks Excel for: properties by their names. A load that names none fetches all of an object, for a range
 * with its texts and formats, and Excel on the web answers 5 MB at most ("Resource limits and performance optimization for
 * Office Add-ins", Microsoft's documentation, which asks for the necessary properties alone).
 */
import { describe, expect, it } from 'vitest';
import {
  goTo,
  readCodeRows,
  readGridSource,
  readQuotingSheets,
  readSchedule,
  readSettings,
  readTarget,
  readZones,
  watchSelection,
} from '../../src/workbook/index.ts';
import type { UndoPlan } from '../../src/workbook/outcome.ts';
import { referencesTo } from '../../src/workbook/references.ts';
import { openBook, type OpenBook } from '../support/office.ts';
import { reading, writeSystem } from './book.ts';
import { school } from './school.ts';

interface Asked {
  readonly QueryInfo?: { readonly Select?: readonly string[] };
}

/** A system, and a schedule of the shop's in a table, with merged cells, numbers and a second table. */
async function whole(): Promise<OpenBook> {
  const book = openBook();
  await writeSystem(school());
  book.host.userEdit('Sheet1', 'B3', [
    ['Door', 'Room', 'Keyset', 'Zone', 'Qty'],
    ['101', 'Hall', 'AA1', 'West', 1],
    ['102', 'Attic', 'AA2', 'West', 2],
  ]);
  book.model.addTable('Sheet1', { row: 2, column: 1, rows: 3, columns: 5 }, true, 'user', 'Doors');
  book.host.userEdit('Sheet1', 'B9', [['merged', ''], ['', '']]); // prettier-ignore
  await book.run(async (context) => {
    context.workbook.worksheets.getItem('Sheet1').getRange('B9:C9').merge();
    await context.sync();
  });
  return book;
}

const READINGS: readonly (readonly [string, (book: OpenBook) => Promise<unknown>])[] = [
  ['the book', () => reading()],
  ['a schedule', () => readSchedule('Sheet1')],
  ['the selection', () => readTarget('selection')],
  ['a list of codes', () => readCodeRows({ sheet: 'Sheet1', address: 'B3:F5' })],
  ['a grid', () => readGridSource({ sheet: 'Sheet1' })],
  ['the zones of doors', async () => readZones(await reading())],
  ['sheets that quote a bitting', async () => readQuotingSheets(await reading())],
  ['the settings', () => readSettings()],
  ['a cell to go to', () => goTo({ sheet: 'Keys', address: 'B5' })],
  ['the selected cell', async () => (await watchSelection(() => undefined))()],
  [
    'who refers to a sheet that goes',
    ({ run }) => {
      const undo = { title: '', steps: [{ kind: 'add-sheet', sheet: 'Keys' }], before: [], after: [] };
      return run((context) => referencesTo(context, undo as unknown as UndoPlan));
    },
  ],
];

describe('reading asks for no more than it names', () => {
  it.each(READINGS)('%s', async (_, read) => {
    const book = await whole();
    book.host.userSelect('Sheet1', 'C4');
    const asked: string[][] = [];
    book.host.intercept = (_index, body) => {
      for (const { QueryInfo } of body.Actions as readonly Asked[])
        if (QueryInfo) asked.push([...(QueryInfo.Select ?? [])]);
      return 'pass';
    };
    await read(book);
    expect(asked.length).toBeGreaterThan(0);
    expect(asked.filter((names) => names.length === 0)).toEqual([]);
  });
});
