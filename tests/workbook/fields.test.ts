/** Cells read by the fields of our tables, one by one: what they give, and what they say of a cell that they refuse. */
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { parseMoment } from '../../src/keying/calendar.ts';
import { dayField, neededDay, timeField } from '../../src/workbook/dateFields.ts';
import {
  codeField,
  countField,
  isBlank,
  neededText,
  readRows,
  textField,
  wordField,
} from '../../src/workbook/fields.ts';
import { missingColumns } from '../../src/workbook/columns.ts';
import type { CellValue, TableReading } from '../../src/workbook/reading.ts';

/** What a field gives, or its sentence. */
function read<T>(field: z.ZodType<T, CellValue>, cell: CellValue): T | string {
  const found = field.safeParse(cell);
  return found.success ? found.data : found.error.issues.map((issue) => issue.message).join(' ');
}

describe('fields of a row', () => {
  it('are blank where nothing but spaces is there', () => {
    expect([undefined, '', ' ', '\u00A0\t'].map(isBlank)).toEqual([true, true, true, true]);
    expect([0, false, 'x', ' x '].map(isBlank)).toEqual([false, false, false, false]);
  });

  it('give texts without the spaces around them, and codes as they stand', () => {
    expect([' AA1 ', 7, true, ''].map((cell) => read(textField, cell))).toEqual(['AA1', '7', 'true', '']);
    expect([' 0274 ', 274, true].map((cell) => read(codeField, cell))).toEqual(['0274', 274, 'true']);
    const name = neededText('name');
    const missing = 'There is no name here. Type one, or clear the whole row.';
    expect([' a ', '#1', '', '  ', '#N/A', '#NAME?'].map((cell) => read(name, cell))).toEqual([
      'a',
      '#1',
      missing,
      missing,
      missing,
      missing,
    ]);
  });

  it('count in whole numbers from the least on', () => {
    const field = countField(3);
    expect(['', ' ', 0, 5, ' 7 '].map((cell) => read(field, cell))).toEqual([3, 3, 0, 5, 7]);
    for (const cell of [-1, 1.5, 'x', '1.5', true, '-2'])
      expect(read(field, cell)).toBe(`“${cell}” is not a whole number from 0 on.`);
    expect(read(countField(undefined, 2), '')).toBeUndefined();
    expect(read(countField(undefined, 2), 2)).toBe(2);
    expect(read(countField(undefined, 2), 1)).toBe('“1” is not a whole number from 2 on.');
  });

  it('know their words in any case and width, with any spaces between', () => {
    const field = wordField({ 'in use': 1 as never, lost: 2 as never }, ['In use', 'Lost'], 0 as never);
    expect(['', ' ', 'In  Use', 'ＬOST', ' lost '].map((cell) => read(field, cell))).toEqual([0, 0, 1, 2, 2]);
    expect(read(field, ' gone')).toBe('“gone” is none of In use, Lost.');
  });

  it('give days and times, and say what is none', () => {
    const day = parseMoment('2026-03-14');
    if (!day.ok) throw new Error('no day');
    expect(read(dayField, '2026-03-14')).toEqual(day.value);
    expect(read(dayField, ' ')).toBeUndefined();
    expect(read(dayField, 'soon')).toContain('soon');
    expect(read(dayField, true)).toContain('true');
    expect(read(neededDay, '2026-03-14')).toEqual(day.value);
    expect(read(neededDay, '')).toBe('There is no date here. Type one, year first.');
    const times: readonly (readonly [CellValue, number])[] = [
      ['9:30', 570],
      [' 09:30 ', 570],
      ['9.05', 545],
      ['0:00', 0],
      ['23:59', 1_439],
      ['23:59:59', 1_439],
      [0, 0],
      [0.5, 720],
      [0.999_99, 1_439],
    ];
    for (const [cell, minutes] of times) expect(read(timeField, cell)).toBe(minutes);
    expect(read(timeField, '')).toBeUndefined();
    for (const cell of ['24:00', '9:60', '9', '9:3', 'x9:30', '9:30x', 1, -0.1, true, '123:00', '0.5'])
      expect(read(timeField, cell)).toBe(`“${cell}” is not a time of day, such as 09:30.`);
  });
});

describe('rows of a table', () => {
  const table: TableReading = {
    name: 'KeyrowKeys',
    sheet: 'Keys',
    box: { sheet: 'Keys', row: 3, column: 2, rows: 5, columns: 3 },
    headers: ['Mine', ' COPIES', 'Symbol'],
    values: [
      ['x', 2, 'AA1'],
      ['only mine', '', ' '],
      ['', 'two', 'AA2'],
      ['', '', 'AA3'],
    ],
    formulas: [],
    totals: false,
    filtered: false,
  };
  const fields = {
    symbol: { heading: 'Symbol', schema: neededText('symbol') },
    copies: { heading: 'Copies', schema: countField(1) },
    note: { heading: 'Note', schema: textField },
  };

  it('are found by their headings, and a fault in a cell leaves the others', () => {
    const { rows, problems } = readRows(table, fields);
    expect(rows.map(({ values, row }) => [row, values])).toEqual([
      [4, { symbol: 'AA1', copies: 2, note: undefined }],
      [6, { symbol: 'AA2', copies: undefined, note: undefined }],
      [7, { symbol: 'AA3', copies: 1, note: undefined }],
    ]);
    expect(problems).toEqual([
      {
        sheet: 'Keys',
        address: 'D7',
        severity: 'fault',
        sentence: '“two” is not a whole number from 0 on.',
      },
    ]);
    expect(rows[0]!.at('symbol')).toEqual({ sheet: 'Keys', address: 'E5' });
    // of a column that is not there, the first cell of the row
    expect(rows[0]!.at('note')).toEqual({ sheet: 'Keys', address: 'C5' });
  });

  it('are read from the first column on, with all that is wrong with a cell', () => {
    const twice: z.ZodType<CellValue, CellValue> = z.any().superRefine((_, ctx) => {
      ctx.addIssue({ code: 'custom', message: 'One.' });
      ctx.addIssue({ code: 'custom', message: 'Two.' });
    });
    const { rows, problems } = readRows(table, {
      mine: { heading: 'mine', schema: textField },
      copies: { heading: 'Copies', schema: twice },
    });
    expect(rows.map(({ row, values }) => [row, values.mine])).toEqual([
      [4, 'x'],
      [5, 'only mine'],
      [6, ''],
    ]);
    expect(rows[0]!.at('mine').address).toBe('C5');
    expect(problems.map(({ address, sentence }) => [address, sentence])).toEqual([
      ['D5', 'One. Two.'],
      ['D6', 'One. Two.'],
      ['D7', 'One. Two.'],
    ]);
  });

  it('say which needed columns are gone', () => {
    const column = { format: 'text', width: 8 } as const;
    expect(
      missingColumns(table, [
        { ...column, heading: 'Mine', needed: true },
        { ...column, heading: 'Bitting', needed: true },
        { ...column, heading: 'Note' },
      ]),
    ).toEqual([
      {
        sheet: 'Keys',
        address: 'C4',
        severity: 'fault',
        sentence:
          'The table KeyrowKeys has no column “Bitting”. Add it, or give the renamed column its name back.',
      },
    ]);
  });
});
