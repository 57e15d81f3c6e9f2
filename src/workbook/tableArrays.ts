/**
 * Sheet `Array`: key bitting arrays that systems are to be made by, one row a chamber, where the locksmith edits them:
 * which depths a chamber may have, in which sequence, for which level. A system that was made keeps the array that it
 * was made by in Systems; this sheet is the draft before.
 */
import { arrayFaults, type KeyBittingArray } from '../keying/array.ts';
import { bittingOf, type Bitting } from '../keying/bitting.ts';
import { formatDepthList, parseDepthList } from '../keying/chamberText.ts';
import type { Deal } from '../keying/deal.ts';
import { positions, type Specification } from '../keying/specification.ts';
import { foldName } from '../keying/specTable.ts';
import { say } from '../keying/wording.ts';
import { missingColumns, type ColumnSpec } from './columns.ts';
import { codeField, countField, neededText, readRows, textField, wordField } from './fields.ts';
import { findTable } from './find.ts';
import { fold, TABLES } from './names.ts';
import type { Place } from './places.ts';
import type { CellInput } from './plan.ts';
import { chamberProblems } from './problems.ts';
import type { BookReading, Problem, TableReading } from './reading.ts';

export const ARRAY_COLUMNS = [
  { heading: 'System', format: 'text', width: 18, needed: true },
  { heading: 'Spec', format: 'text', width: 14 },
  { heading: 'Chamber', format: 'general', width: 12, needed: true },
  { heading: 'Top master', format: 'text', width: 12, needed: true },
  { heading: 'Depths in order', format: 'text', width: 22, needed: true },
  { heading: 'Level', format: 'text', width: 10 },
  { heading: 'Sequence', format: 'text', width: 12 },
] as const satisfies readonly ColumnSpec[];

/** What a chamber may be dealt to; blank leaves it to the program. */
const LEVEL_WORDS: Readonly<Record<string, Deal[number] | ''>> = {
  ck: 'CK',
  'change key': 'CK',
  mk: 'MK',
  master: 'MK',
  gmk: 'GMK',
  'grand master': 'GMK',
  kept: 'constant',
  constant: 'constant',
};

/** @example levelWord('constant') → 'kept' */
export const levelWord = (level: Deal[number]): string => (level === 'constant' ? 'kept' : level);

const FIELDS = {
  system: { heading: 'System', schema: neededText('system name') },
  spec: { heading: 'Spec', schema: textField },
  chamber: { heading: 'Chamber', schema: countField(undefined, 1) },
  topMaster: { heading: 'Top master', schema: codeField },
  depths: { heading: 'Depths in order', schema: codeField },
  level: { heading: 'Level', schema: wordField(LEVEL_WORDS, ['CK', 'MK', 'GMK', 'kept'], '') },
  sequence: { heading: 'Sequence', schema: countField(undefined, 1) },
};

/** An array as it stands in the sheet. */
export interface SheetArray {
  readonly topMaster: Bitting;
  readonly array: KeyBittingArray;
  /** Absent where every level is blank. */
  readonly deal?: Deal;
  /** Chambers (from 0) in the sequence of progression; absent where every one is blank. */
  readonly sequence?: readonly number[];
}

export interface ArrayReading {
  /** Undefined where anything is at fault. */
  readonly array?: SheetArray;
  readonly problems: readonly Problem[];
}

const tableOf = (book: BookReading): TableReading | undefined => findTable(book.tables, TABLES.Array);

/** Names of the systems that have an array in the sheet. */
export function arrayNames(book: BookReading): string[] {
  const table = tableOf(book);
  if (!table || missingColumns(table, ARRAY_COLUMNS).length > 0) return [];
  const names = readRows(table, FIELDS).rows.flatMap(({ values }) => values.system ?? []);
  return names.filter((name, i) => names.findIndex((other) => fold(other) === fold(name)) === i);
}

/**
 * The array of a system's name, or every reason why it can't be used, each at its cell. Undefined where the sheet has
 * none of that name.
 */
export function readArray(book: BookReading, name: string, spec: Specification): ArrayReading | undefined {
  const table = tableOf(book);
  if (!table) return undefined;
  const missing = missingColumns(table, ARRAY_COLUMNS);
  if (missing.length > 0) return { problems: missing };
  const { rows: all, problems: faults } = readRows(table, FIELDS);
  const rows = all.filter(({ values }) => fold(values.system ?? '') === fold(name));
  if (rows.length === 0) return undefined;
  const first = rows[0]!.at('system');
  const own = new Set(rows.map(({ row }) => row));
  const problems: Problem[] = faults.filter(({ address }) => own.has(Number(/\d+$/.exec(address)![0]) - 1));
  const fault = (at: Place, sentence: string): void =>
    void problems.push({ ...at, severity: 'fault', sentence });
  const count = positions(spec);
  const by = new Map<number, (typeof rows)[number]>();
  for (const row of rows) {
    const { chamber, spec: named } = row.values;
    if (named && foldName(named) !== foldName(spec.name))
      fault(
        row.at('spec'),
        `This array is for the spec ${named}, not for ${spec.name}. Choose that spec, or correct the cell.`,
      );
    if (chamber === undefined) fault(row.at('chamber'), `Type which chamber this is, from 1 to ${count}.`);
    else if (chamber > count)
      fault(row.at('chamber'), `${spec.name} has ${count} chambers. Take this row away.`);
    else if (by.has(chamber)) fault(row.at('chamber'), `Chamber ${chamber} has two rows. Take one away.`);
    else by.set(chamber, row);
  }
  const lost = spec.centres.flatMap((_, i) => (by.has(i + 1) ? [] : [i + 1]));
  if (lost.length > 0)
    fault(
      first,
      `The array of ${rows[0]!.values.system ?? name} has no row for chamber ${lost.join(', ')}. Give each chamber a row.`,
    );
  if (problems.length > 0) return { problems };

  const inOrder = spec.centres.map((_, i) => by.get(i + 1)!);
  const cuts: number[] = [];
  const array: (readonly number[])[] = [];
  for (const row of inOrder) {
    const [cut, ...more] = take(
      parseDepthList(spec, row.values.topMaster ?? ''),
      row.at('topMaster'),
      problems,
    );
    if (cut !== undefined && more.length === 0) cuts.push(cut);
    else if (!problems.some(({ address }) => address === row.at('topMaster').address))
      fault(row.at('topMaster'), 'Type the one cut of the top master in this chamber.');
    array.push(take(parseDepthList(spec, row.values.depths ?? ''), row.at('depths'), problems));
  }
  const levels = inOrder.map(({ values }) => values.level ?? '');
  const without = inOrder.find(({ values }) => !values.level);
  if (without && levels.some((level) => level !== ''))
    fault(without.at('level'), 'Give every chamber its level, or leave all of them blank.');
  const turns = inOrder.map(({ values }) => values.sequence);
  const numbered = turns.filter((turn) => turn !== undefined);
  if (numbered.length > 0 && [...numbered].sort((a, b) => a - b).join() !== turns.map((_, i) => i + 1).join())
    fault(
      inOrder[0]!.at('sequence'),
      `Number the chambers from 1 to ${count} in the sequence of progression, each once, or leave all blank.`,
    );
  if (problems.length > 0) return { problems };
  const topMaster = bittingOf(spec, cuts);
  for (const found of arrayFaults(spec, topMaster, array))
    if (found.code !== 'array-length') fault(inOrder[found.chamber - 1]!.at('depths'), say(found));
  if (problems.length > 0) return { problems };
  return {
    problems,
    array: {
      topMaster,
      array,
      ...(!without && { deal: levels as Deal }),
      ...(numbered.length > 0 && {
        sequence: turns.map((_, turn) => turns.indexOf(turn + 1)),
      }),
    },
  };
}

function take(read: ReturnType<typeof parseDepthList>, at: Place, problems: Problem[]): readonly number[] {
  if (read.ok) return read.value;
  problems.push(...chamberProblems(at, read.error));
  return [];
}

/** The rows of an array in the order of `ARRAY_COLUMNS`. */
export const arrayRows = (
  name: string,
  spec: Specification,
  { topMaster, array, deal, sequence }: SheetArray,
): CellInput[][] =>
  array.map((choices, i) => [
    name,
    spec.name,
    i + 1,
    formatDepthList(spec, [topMaster[i]!]),
    formatDepthList(spec, choices),
    deal ? levelWord(deal[i]!) : '',
    sequence ? String(sequence.indexOf(i) + 1) : '',
  ]);

/** Where the rows of a name stand now, by chamber. */
export function arrayPlaces(
  book: BookReading,
  name: string,
): ReadonlyMap<number, (field: keyof typeof FIELDS) => Place> {
  const table = tableOf(book);
  if (!table || missingColumns(table, ARRAY_COLUMNS).length > 0) return new Map();
  return new Map(
    readRows(table, FIELDS).rows.flatMap((row) =>
      fold(row.values.system ?? '') === fold(name) && row.values.chamber !== undefined
        ? [[row.values.chamber, row.at] as const]
        : [],
    ),
  );
}
