/** Further ways of writing, on a book in which there is something to mend, to freeze and to hand over. */
import { defaultArray } from '../../src/keying/array.ts';
import { bittingOf } from '../../src/keying/bitting.ts';
import { constructionKeying } from '../../src/keying/construction.ts';
import { evenTree, generateSystem } from '../../src/keying/hierarchy.ts';
import { runToEnd } from '../../src/keying/system.ts';
import {
  auditInput,
  freezeTable,
  openConstructions,
  planArray,
  planConstruction,
  planFreeze,
  planHandOver,
  planMends,
  planPicture,
  planRepair,
  planSample,
  sampleRequest,
  zerosLost,
  type BookReading,
  type NewSystem,
  type WritePlan,
} from '../../src/workbook/index.ts';
import { openBook, type OpenBook } from '../support/office.ts';
import { MADE, reading, write, writeSystem } from './book.ts';
import type { WritePath } from './paths.ts';
import { school, SPEC } from './school.ts';

const TOP = bittingOf(SPEC, [3, 5, 4, 6, 3, 5]);

/** A PNG of 2 × 3 pixels; only the size in its head matters here (PNG 3rd edition, 11.2.1). */
const PNG = btoa('\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR\0\0\0\x02\0\0\0\x03\x08\x02\0\0\0');

function made(request: Parameters<typeof generateSystem>[0]): NewSystem {
  const system = runToEnd(generateSystem(request));
  if (!system.ok) throw new Error(JSON.stringify(system.problems));
  return system;
}

const house = (name: string): NewSystem =>
  made({ name, spec: SPEC, levels: 3, grands: evenTree(3, { masters: 2, changeKeys: 2 }) });

function construction(book: BookReading, name: string): WritePlan {
  const { system, marks } = auditInput(book, name)!;
  const cylinders = system.cylinders.map(({ id }) => id);
  const asked = { symbol: 'CON', oneWay: 'loose-pin' } as const;
  const result = runToEnd(constructionKeying({ system, marks, cylinders, ...asked }));
  if (!result.ok) throw new Error(result.fault.code);
  return planConstruction(book, { ...result, system: name, ...asked }, MADE).plan;
}

/** A school with a formula written over, one that shows its result, and a code without its zero; two houses, one begun. */
export async function moreBook(): Promise<OpenBook> {
  const book = openBook();
  book.host.userEdit('Sheet1', 'A1', [['ours', '=1+1']]);
  await writeSystem(school());
  await writeSystem(house('Lodge'));
  await writeSystem(house('Barn'));
  await write(construction(await reading(), 'Lodge'));
  const keys = (await reading()).tables.find(({ name }) => name === 'KeyrowKeys')!;
  const check = keys.headers.indexOf('Check');
  const bitting = keys.headers.indexOf('Bitting');
  const first = keys.box.row + 1;
  for (let row = first; row < keys.box.row + keys.box.rows; row++)
    book.model.setResult('Keys', row, check, 'good');
  await Excel.run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Keys');
    sheet.getRangeByIndexes(first, check, 1, 1).values = [['my own note']];
    const code = sheet.getRangeByIndexes(first + 5, bitting, 1, 1);
    code.numberFormat = [['General']];
    code.values = [[13_645]];
    await context.sync();
  });
  await write(planPicture(await reading(), picture('Blade 1')));
  await book.settled();
  return book;
}

const picture = (name: string) => ({
  ...MADE,
  name,
  shows: `What ${name} looks like.`,
  base64: PNG,
  widthPixels: 560,
  heightPixels: 300,
});

export const MORE_PATHS: readonly WritePath[] = [
  ['sample data', (book) => planSample(book, made(sampleRequest()), MADE)],
  [
    'an array',
    (book) => {
      const input = { system: 'Annex', spec: SPEC, topMaster: TOP, array: defaultArray(SPEC, TOP) };
      return planArray(book, input, MADE).plan;
    },
  ],
  ['construction keying', (book) => construction(book, 'Barn')],
  ['handing over', (book) => planHandOver(book, openConstructions(book)[0]!, ['C1'], MADE).plan],
  ['formulas put back', (book) => planRepair(book)],
  ['formulas frozen', (book) => planFreeze(book, freezeTable(book, 'KeyrowKeys')!).plan],
  ['lost zeros put back', (book) => planMends(book, zerosLost(book, book.systems[0]!))],
  ['a further picture', (book) => planPicture(book, picture('Blade 2'))],
  ['a picture again', (book) => planPicture(book, picture('Blade 1'))],
];
