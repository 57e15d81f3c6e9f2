/** Every way on which the add-in reads a workbook of the shop's, and the sentences that it tells meanwhile. */
import { formatBitting } from '../../src/keying/bitting.ts';
import { guessColumns } from '../../src/keying/importColumns.ts';
import { readImport } from '../../src/keying/importRows.ts';
import { sayReading } from '../../src/keying/importWording.ts';
import { runToEnd } from '../../src/keying/system.ts';
import {
  answer,
  arrayNames,
  auditInput,
  brokenFormulas,
  chartOf,
  freezableTables,
  freezeTable,
  goTo,
  knownKeys,
  openBook,
  openConstructions,
  planFreeze,
  readAuthorised,
  readCodeRows,
  readExtension,
  readFreezeSource,
  readGridSource,
  readLedger,
  readLeftover,
  readQuotingSheets,
  readSchedule,
  readSettings,
  readShop,
  readTarget,
  readZones,
  retiredUnder,
  sayBroken,
  standingOn,
  subjectAt,
  watchSelection,
  zerosLost,
  type BookReading,
  type Problem,
} from '../../src/workbook/index.ts';
import type { Day } from '../../src/keying/calendar.ts';
import type { OpenBook } from '../support/office.ts';
import type { Shop } from './paths.ts';
import { SPEC } from './school.ts';

/** The codes of a block of cells, a dash for each that can't be read, and what is said about them. */
export async function codesIn(
  request: Shop['codes'],
): Promise<{ readonly codes: readonly string[]; readonly sentences: readonly string[] }> {
  const read = await readCodeRows(request);
  if (!read.ok) return { codes: [], sentences: [read.error.sentence] };
  const { rows } = read.value;
  const { headerRows, roles } = guessColumns(rows, [SPEC]);
  const list = runToEnd(readImport({ spec: SPEC, rows: rows.slice(headerRows), roles, options: {} }));
  return {
    codes: list.map(({ code }) => (code.bitting ? formatBitting(SPEC, code.bitting) : '-')),
    // what was read with a note needs nothing to be done
    sentences: list.flatMap(({ code }) => (code.bitting || code.kind === 'empty' ? [] : [sayReading(code)])),
  };
}

/** A fault told at a cell, or without one. */
export interface Told {
  readonly sentence: string;
  readonly address?: string;
}

const told = (problems: readonly Problem[]): Told[] =>
  problems.map(({ sentence, address }) => ({ sentence, address }));
const refused = (sentence: string): Told[] => [{ sentence }];

export interface ReadPathInput {
  readonly open: OpenBook;
  readonly book: BookReading;
  readonly shop: Shop;
}

export type ReadPath = readonly [name: string, run: (input: ReadPathInput) => Promise<readonly Told[]>];

export const READ_PATHS: readonly ReadPath[] = [
  [
    'the book',
    async () => {
      const read = await openBook();
      return read.ok ? told(read.value.problems) : refused(read.error.sentence);
    },
  ],
  [
    'the schedule',
    async ({ shop }) => {
      const read = await readSchedule(shop.schedule);
      return read.ok ? told(read.value.problems) : refused(read.error.sentence);
    },
  ],
  [
    'the codes as a schedule',
    async ({ shop }) => {
      const read = await readSchedule(shop.codes.sheet);
      return read.ok ? told(read.value.problems) : refused(read.error.sentence);
    },
  ],
  [
    'zones of doors',
    async ({ book }) => {
      await readZones(book);
      return [];
    },
  ],
  [
    'the ledger',
    ({ book }) => {
      const read = readLedger(book);
      answer(standingOn(book, 46_095 as Day), { question: 'everything', about: '' });
      return Promise.resolve(told(read.problems));
    },
  ],
  [
    'a code list',
    async ({ shop }) => {
      const { sentences } = await codesIn(shop.codes);
      return sentences.map((sentence) => ({ sentence }));
    },
  ],
  [
    'the schedule as a code list',
    async ({ shop }) => {
      const { sentences } = await codesIn({ sheet: shop.schedule, address: 'A1:F1048576' });
      return sentences.map((sentence) => ({ sentence }));
    },
  ],
  [
    'a column to be checked',
    async ({ open, shop }) => {
      open.host.userSelect(shop.codes.sheet, 'B2');
      const read = await readTarget('selection');
      return read.ok ? [] : refused(read.error.sentence);
    },
  ],
  [
    'whole columns',
    async ({ open, shop }) => {
      open.host.userSelect(shop.codes.sheet, 'A1:C1048576');
      const read = await readTarget('selection');
      return read.ok ? [] : refused(read.error.sentence);
    },
  ],
  [
    'nothing',
    async ({ open, shop }) => {
      open.host.userSelect(shop.codes.sheet, 'AA900:AB901');
      const read = await readTarget('selection');
      return read.ok ? [] : refused(read.error.sentence);
    },
  ],
  [
    'several areas',
    async ({ open, shop }) => {
      open.host.userSelect(shop.codes.sheet, 'A1:A2,B2:B3');
      const read = await readTarget('selection');
      return read.ok ? [] : refused(read.error.sentence);
    },
  ],
  ...['schedule', 'codes'].map((which): ReadPath => [
    `a grid on the sheet of the ${which}`,
    async ({ shop }) => {
      const source = await readGridSource({ sheet: which === 'codes' ? shop.codes.sheet : shop.schedule });
      return source.ok ? told(chartOf(source.value)?.problems ?? []) : refused(source.error.sentence);
    },
  ]),
  [
    'a grid around the selection',
    async ({ open, shop }) => {
      open.host.userSelect(shop.schedule, 'C3');
      const source = await readGridSource('selection');
      return source.ok ? told(chartOf(source.value)?.problems ?? []) : refused(source.error.sentence);
    },
  ],
  [
    'a system to be audited',
    ({ book }) => {
      for (const { name } of book.systems) auditInput(book, name);
      return Promise.resolve([]);
    },
  ],
  [
    'a system to be extended',
    ({ book }) =>
      Promise.resolve(
        book.systems.flatMap(({ name }) => {
          const read = readExtension(book, name);
          return read.ok ? [] : told(read.error);
        }),
      ),
  ],
  ['the shop’s tables', ({ book }) => Promise.resolve(told(readShop(book).problems))],
  [
    'keys known by their bitting',
    ({ book }) => {
      retiredUnder(book, SPEC, 'K1');
      readAuthorised(book, 'School');
      arrayNames(book);
      openConstructions(book);
      for (const system of book.systems) {
        knownKeys(system);
        zerosLost(book, system);
      }
      return Promise.resolve([]);
    },
  ],
  [
    'formulas that broke',
    ({ book }) => {
      for (const { name } of freezableTables(book)) planFreeze(book, freezeTable(book, name)!);
      return Promise.resolve(
        brokenFormulas(book).map((one) => ({ sentence: sayBroken(one), address: one.at.address })),
      );
    },
  ],
  [
    'formulas to be frozen',
    async ({ open, shop }) => {
      open.host.userSelect(shop.schedule, 'A1:F9');
      const read = await readFreezeSource();
      return read.ok ? [] : refused(read.error.sentence);
    },
  ],
  [
    'sheets that quote a bitting',
    async ({ book }) => {
      await readQuotingSheets(book);
      return [];
    },
  ],
  [
    'the selected cell',
    async ({ open, book, shop }) => {
      open.host.userSelect(shop.schedule, 'C6');
      const stop = await watchSelection((at, value) => void subjectAt(book, at, value));
      await stop();
      await goTo({ sheet: shop.codes.sheet, address: 'B2' });
      return [];
    },
  ],
  [
    'choices and notes',
    async () => {
      await readSettings();
      const left = await readLeftover();
      return left.ok ? [] : refused(left.error.sentence);
    },
  ],
];
