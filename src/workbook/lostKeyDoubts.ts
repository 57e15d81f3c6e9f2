/** Rows that can't be read, as they bear on one lost key: which of them bar new bittings, and which only have to be shut out. */
import { doubtOf, sayDoubt, type DoubtfulKey } from '../keying/doubtfulKeys.ts';
import { entersKeyway } from '../keying/keyways.ts';
import type { LostKeyScope } from '../keying/lostKey.ts';
import type { Place } from './places.ts';
import { zerosLost, type Mend } from './planMends.ts';
import type { BookReading, CylinderRow, KeyRow } from './reading.ts';
import type { SystemStanding } from './standing.ts';

/** A row that has to be mended first: the cell, what is wrong with it, and why it stands in the way. */
export interface Hindrance {
  readonly at: Place;
  readonly sentence: string;
}

export interface LostKeyDoubts {
  readonly bars: readonly Hindrance[];
  /** Keys that need not be mended first, since every bitting that they may have is shut out. */
  readonly doubtful: readonly DoubtfulKey[];
  /** Codes that can be read once their lost zero is back. */
  readonly mends: readonly Mend[];
}

/**
 * What the unread rows of a system mean for the change after a loss.
 * @example lostKeyDoubts(book, system, scope) → { bars: [], doubtful: [{ symbol: 'SKD4', … }], mends: [{ to: '027413', … }] }
 */
export function lostKeyDoubts(
  book: BookReading,
  { reading, audit }: SystemStanding,
  scope: LostKeyScope,
): LostKeyDoubts {
  const { system, marks } = audit;
  const change = {
    lost: system.keys[scope.lost]!.symbol,
    changing: [...scope.exposed, ...scope.along],
  };
  const bars: Hindrance[] = [];
  const doubtful: DoubtfulKey[] = [];
  for (const row of reading.keys) {
    if (row.record) continue;
    const { symbol, level, status, keyway } = row;
    const doubt = doubtOf(system, marks, change, {
      symbol,
      code: row.bittingText,
      ...(level !== undefined && { level }),
      ...(status !== undefined && { status }),
      ...(keyway !== undefined && { keyway }),
    });
    if (doubt.kind === 'limited') doubtful.push(doubt.key);
    if (doubt.kind === 'bars')
      bars.push(hindrance(book, `Key ${symbol || '(no symbol)'}`, cellsOf(row), sayDoubt(doubt)));
  }
  const moving = scope.replaced.map((k) => system.keys[k]!.keyway);
  for (const row of reading.cylinders)
    if (!row.chambers && moving.some((keyway) => entersKeyway(system.enters, keyway, row.keyway)))
      bars.push(
        hindrance(
          book,
          `Cylinder ${row.id || '(no number)'}`,
          cylinderCells(row),
          'Whether the lost key opens it, or a new one would, can’t be told until then.',
        ),
      );
  return { bars, doubtful, mends: zerosLost(book, reading) };
}

const cellsOf = ({ at }: KeyRow): Place[] => [at.bitting, at.row, at.system];
const cylinderCells = ({ at }: CylinderRow): Place[] => [
  ...at.chambers,
  ...(at.control ? [at.control] : []),
  at.row,
];

/** The first fault at one of the row's cells, else at any cell of that row. */
function hindrance(book: BookReading, name: string, cells: readonly Place[], why: string): Hindrance {
  const rowOf = ({ sheet, address }: Place): string => `${sheet} ${address.replace(/\D/g, '')}`;
  const here = book.problems.filter((p) => p.severity === 'fault');
  const problem =
    cells.flatMap((c) => here.filter((p) => p.sheet === c.sheet && p.address === c.address))[0] ??
    here.find((p) => rowOf(p) === rowOf(cells[0]!)) ??
    book.problems.find((p) => rowOf(p) === rowOf(cells[0]!));
  return {
    at: problem ? { sheet: problem.sheet, address: problem.address } : cells[0]!,
    sentence: `${name} can’t be read. ${problem ? `${problem.sentence} ` : ''}${why}`,
  };
}
