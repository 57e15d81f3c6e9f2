/**
 * Sheets as shops have them: each lays a schedule of doors and a list of codes into an empty book, and says what a
 * person reads there. What is expected was written down from the cells by hand, never taken from the reader.
 */
import type { OpenBook } from '../support/office.ts';
import { SCHEDULE_ROWS, type Shop } from './paths.ts';

type Row = readonly (string | number | boolean)[];
type Rows = readonly Row[];

export interface UglySheets {
  readonly name: string;
  readonly lay: (book: OpenBook) => Shop;
  /** "door symbol", as they stand there. */
  readonly doors: readonly string[];
  /** The codes that can be read, and a dash for each that can't. */
  readonly codes: readonly string[];
  /** Cells that the schedule's findings name. */
  readonly doubts?: readonly string[];
  /** Write paths that are refused with a sentence; all the others are carried out. */
  readonly barred?: readonly string[];
}

const CODES: Rows = [
  ['Door', 'Code'],
  ["'0101", "'354635"],
  ["'0102", "'554635"],
];
const PLAIN_CODES = ['354635', '554635'];
const PLAIN_DOORS = ['0101 aa1', '0102 AA2', '0103 AB1', '0104 AB2'];
/** What the formula of the fourth door comes to. */
const SOLVED = 'AB2';

interface Laid {
  readonly schedule?: string;
  readonly at?: string;
  readonly rows?: Rows;
  readonly codes?: Rows;
  readonly codesSheet?: string;
}

/** Types the rows in and gives the formulas among them a result, as Excel would. */
function laid(book: OpenBook, given: Laid = {}): Shop {
  const { at = 'A1', rows = SCHEDULE_ROWS, codes = CODES } = given;
  const { schedule = 'Sheet1', codesSheet = 'Codes' } = given;
  if (schedule !== 'Sheet1') book.model.renameSheet('Sheet1', schedule, 'user');
  book.host.userEdit(schedule, at, rows);
  for (const { row, column, cell } of [...book.model.sheet(schedule).cells.all()])
    if (cell.formula?.startsWith('=UPPER')) book.model.setResult(schedule, row, column, SOLVED);
  book.model.addSheet(codesSheet, 'user');
  book.host.userEdit(codesSheet, 'A1', codes);
  return { schedule, codes: { sheet: codesSheet, address: `A1:B${codes.length}` } };
}

const LARGE = 20_000;
const largeRows: Rows = [
  ['Door', 'Room', 'Keyset', 'Qty'],
  ...Array.from({ length: LARGE }, (_, n) => [`'${n + 1}`, `Room ${n + 1}`, n === 7 ? 'aa1' : 'AA1', 1]),
];

export const UGLY_SHEETS: readonly UglySheets[] = [
  {
    name: 'a merged title, merged section headings and a room merged downwards',
    lay: (book) => {
      const [head, first, [second, , ...rest], ...doors] = SCHEDULE_ROWS as readonly [
        Row,
        Row,
        Row,
        ...Row[],
      ];
      const shop = laid(book, {
        at: 'B2',
        rows: [
          ['TARN HOLLOW, block 2', '', '', '', '', ''],
          head,
          ['WEST WING', '', '', '', '', ''],
          first,
          // of merged cells only the first holds anything
          [second!, '', ...rest],
          ...doors,
        ],
      });
      const merges = [
        { row: 1, column: 1, rows: 1, columns: 6 },
        { row: 3, column: 1, rows: 1, columns: 6 },
        { row: 4, column: 2, rows: 2, columns: 1 },
      ];
      book.model.setLayout('Sheet1', { merges }, 'user');
      return shop;
    },
    doors: PLAIN_DOORS,
    codes: PLAIN_CODES,
  },
  {
    name: 'hidden rows and columns',
    lay: (book) => {
      const shop = laid(book);
      const hidden = { hiddenRows: new Set([2]), hiddenColumns: new Set([1, 2]) };
      book.model.setLayout('Sheet1', hidden, 'user');
      book.model.setLayout('Codes', { hiddenRows: new Set([1]) }, 'user');
      return shop;
    },
    doors: PLAIN_DOORS,
    codes: PLAIN_CODES,
  },
  {
    name: 'blank rows and columns between',
    lay: (book) => {
      const spread = SCHEDULE_ROWS.flatMap((row) => [
        row.flatMap((cell) => [cell, '']),
        row.flatMap(() => ['', '']),
      ]);
      return laid(book, {
        at: 'C5',
        rows: spread,
        codes: [CODES[0]!, ['', ''], CODES[1]!, ['', ''], ['', ''], CODES[2]!],
      });
    },
    doors: PLAIN_DOORS,
    codes: PLAIN_CODES,
  },
  {
    name: 'several tables on the sheet',
    lay: (book) => {
      const shop = laid(book);
      book.model.addTable('Sheet1', { row: 0, column: 0, rows: 5, columns: 6 }, true, 'user', 'Doors');
      book.host.userEdit('Sheet1', 'I1', [
        ['Contact', 'Phone'],
        ['Office', '555 0101'],
      ]);
      book.model.addTable('Sheet1', { row: 0, column: 8, rows: 2, columns: 2 }, true, 'user', 'Contacts');
      book.model.addTable('Codes', { row: 0, column: 0, rows: 3, columns: 2 }, true, 'user', 'OldCodes');
      return shop;
    },
    doors: PLAIN_DOORS,
    codes: PLAIN_CODES,
  },
  {
    name: 'protected sheets',
    lay: (book) => {
      const shop = laid(book);
      for (const sheet of ['Sheet1', 'Codes']) book.model.protect(sheet, { options: {} }, 'user');
      return shop;
    },
    doors: PLAIN_DOORS,
    codes: PLAIN_CODES,
    barred: ['a check column', 'schedule fixes'],
  },
  {
    name: 'filtered sheets',
    lay: (book) => {
      const shop = laid(book);
      const only = (value: string, column: number) =>
        new Map([[column, { filterOn: 'Values', values: [value] }]]);
      book.model.filterSheet(
        'Sheet1',
        { area: { row: 0, column: 0, rows: 5, columns: 6 }, criteria: only('AB1', 2) },
        'user',
      );
      book.model.filterSheet(
        'Codes',
        { area: { row: 0, column: 0, rows: 3, columns: 2 }, criteria: only('554635', 1) },
        'user',
      );
      return shop;
    },
    doors: PLAIN_DOORS,
    codes: PLAIN_CODES,
    barred: ['a check column', 'schedule fixes'],
  },
  {
    name: 'filtered tables',
    lay: (book) => {
      const shop = laid(book);
      book.model.addTable('Sheet1', { row: 0, column: 0, rows: 5, columns: 6 }, true, 'user', 'Doors');
      book.model.addTable('Codes', { row: 0, column: 0, rows: 3, columns: 2 }, true, 'user', 'OldCodes');
      book.model.filterTable('Doors', 2, { filterOn: 'Values', values: ['AB1'] }, 'user');
      book.model.filterTable('OldCodes', 1, { filterOn: 'Values', values: ['554635'] }, 'user');
      return shop;
    },
    doors: PLAIN_DOORS,
    codes: PLAIN_CODES,
    barred: ['a check column', 'schedule fixes'],
  },
  {
    name: 'formulas that come to errors',
    lay: (book) => {
      const shop = laid(book, {
        rows: [
          ...SCHEDULE_ROWS,
          ["'0105", '=#REF!', '=VLOOKUP(1,Z1:Z2,1,FALSE)', '=1/0', '#N/A', ''],
          ['#N/A', 'Hall', 'AA1', 1, '', ''],
        ],
        codes: [...CODES, ["'0103", '=NA()'], ["'0104", '#REF!']],
      });
      const results = [
        ['Sheet1', 5, 1, '#REF!'],
        ['Sheet1', 5, 2, '#N/A'],
        ['Sheet1', 5, 3, '#DIV/0!'],
        ['Codes', 3, 1, '#N/A'],
      ] as const;
      for (const [sheet, row, column, error] of results) book.model.setResult(sheet, row, column, { error });
      return shop;
    },
    // a symbol that can't be read is none; a door whose number can't be read is no door
    doors: [...PLAIN_DOORS, '0105 '],
    doubts: ['B6', 'C6', 'E6', 'D6', 'A7'],
    codes: [...PLAIN_CODES, '-', '-'],
  },
  {
    name: 'twenty thousand rows',
    lay: (book) => laid(book, { rows: largeRows }),
    doors: largeRows.slice(1).map(([door, , symbol]) => `${String(door).slice(1)} ${String(symbol)}`),
    codes: PLAIN_CODES,
  },
  {
    name: 'Hebrew, from right to left in its cells',
    lay: (book) =>
      laid(book, {
        schedule: 'דלתות',
        codesSheet: 'קודים',
        rows: [
          ['Door', 'Room', 'Keyset', 'Qty'],
          ['דלת 1', 'משרד', 'aa1', 1],
          ['\u200Fדלת 2\u200F', 'מחסן', 'AB1', 1],
        ],
      }),
    doors: ['דלת 1 aa1', '\u200Fדלת 2\u200F AB1'],
    codes: PLAIN_CODES,
  },
  {
    name: 'Cyrillic, Chinese, emoji and combining marks',
    lay: (book) =>
      laid(book, {
        schedule: 'Двери 门 🚪',
        codesSheet: 'Cle\u0301s',
        rows: [
          ['Door', 'Room', 'Keyset', 'Qty'],
          ['Щ-1', 'Кладовая', 'aa1', 1],
          ['三〇一', '会议室', 'AA2', 1],
          ['🚪1', '👩‍🏫', 'AB1', 1],
          ['E\u0301tage 1', 'Re\u0301serve', 'АА1', 1],
        ],
        codes: [...CODES, ["'0103", "'５５４６３５"]],
      }),
    // the last symbol is Cyrillic: it reads as AA1 and is another
    doors: ['Щ-1 aa1', '三〇一 AA2', '🚪1 AB1', 'E\u0301tage 1 АА1'],
    codes: [...PLAIN_CODES, '554635'],
  },
  {
    name: 'line breaks within cells and headings',
    lay: (book) =>
      laid(book, {
        rows: [
          ['Door\nno.', 'Room', 'Key\nset', 'Qty'],
          ["'0101", 'Front\ndoor', 'aa1', 1],
          ["'0102", 'Office\r\nupstairs', 'AA2', 1],
          ["'0103", '', 'AB1', 1],
        ],
        codes: [
          ['Door', 'Key\ncode'],
          ["'0101", "'354635\n"],
          ["'0102", "'554635"],
        ],
      }),
    doors: ['0101 aa1', '0102 AA2', '0103 AB1'],
    codes: PLAIN_CODES,
  },
  {
    name: 'numbers as text and text as numbers',
    lay: (book) =>
      laid(book, {
        rows: [
          ['Door', 'Room', 'Keyset', 'Qty'],
          [101, 'Front', 'aa1', "'1"],
          ["'0102", 204, 'AA2', "'2 "],
          [103.5, true, 'AB1', 1],
        ],
        codes: [CODES[0]!, [101, 354_635], ["'0102", "'554635"]],
      }),
    doors: ['101 aa1', '0102 AA2', '103.5 AB1'],
    codes: PLAIN_CODES,
  },
  {
    name: 'codes that turned into dates',
    lay: (book) => {
      // typed as 3-5-46 and 1-2-3 into General cells, which make days of them
      const shop = laid(book, { codes: [CODES[0]!, CODES[1]!, ["'0102", '1-2-3'], ["'0103", '3/5/46']] });
      return shop;
    },
    doors: PLAIN_DOORS,
    // three numbers are no code of six cuts, so no day can be one
    codes: ['354635', '-', '-'],
  },
  {
    name: 'sheet names with quotes, apostrophes and spaces',
    lay: (book) => laid(book, { schedule: 'Jo\'s "doors", 2 & 3!', codesSheet: "  it's (old) = codes" }),
    doors: PLAIN_DOORS,
    codes: PLAIN_CODES,
  },
  {
    name: 'sheet names that look like cells, numbers and ours',
    lay: (book) => laid(book, { schedule: 'Findings2', codesSheet: 'A1' }),
    doors: PLAIN_DOORS,
    codes: PLAIN_CODES,
  },
];
