/**
 * Every worksheet function with cells that nobody should type. It answers with text, numbers or truth values, or
 * refuses with #VALUE! and a sentence; it never throws anything else, never gives NaN, and never holds up the sheet.
 */
import { associated, errorCell } from '../functions/office.ts';
import '../../functions/index.ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FUNCTIONS } from '../../functions/functions.ts';
import { functionDocs } from '../../src/build/functionDocs.ts';
import { specsRange } from '../functions/tables.ts';
import { HANG, number, runsFor, text, timed } from './hostile.ts';

const ErrorOfCell = CustomFunctions.Error;

const cell: fc.Arbitrary<unknown> = fc.oneof(
  { weight: 5, arbitrary: text },
  { weight: 3, arbitrary: number },
  { weight: 1, arbitrary: fc.boolean() },
  { weight: 1, arbitrary: fc.constantFrom(null, undefined, '') },
  { weight: 1, arbitrary: fc.constant(null).map(errorCell) },
);
const range: fc.Arbitrary<unknown> = fc.oneof(
  // every row as long as the others: a sheet has no other ranges
  fc.tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 7 })).chain(([rows, columns]) =>
    fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), {
      minLength: rows,
      maxLength: rows,
    }),
  ),
  fc
    .array(fc.constantFrom<unknown>('2 6', 'any', '0', 4, 0.261, 0.237), { minLength: 6, maxLength: 6 })
    .map((row) => [row]),
  cell,
);

/** Names that are found more often than not, so that what lies behind the spec is reached. */
const specName = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.constantFrom<unknown>('S-018-6', 'T-0125-7', 'M-050-5', 'House 6', 'Letters', 'Wide'),
  },
  { weight: 1, arbitrary: cell },
);
/** A good table, one with a cell replaced, or anything. */
const specTable = fc.oneof(
  { weight: 2, arbitrary: fc.constant(undefined) },
  { weight: 4, arbitrary: fc.constant(null).map(() => specsRange()) },
  {
    weight: 3,
    arbitrary: fc.tuple(fc.nat(), fc.nat(), cell).map(([r, c, value]) => {
      const rows = specsRange();
      const row = rows[r % rows.length]!;
      row[c % row.length] = value;
      return rows;
    }),
  },
  { weight: 1, arbitrary: range },
);

const RANGES = ['codes', 'chambers', 'readings'];
const argument = (name: string): fc.Arbitrary<unknown> => {
  if (name === 'spec') return specName;
  if (name === 'specs') return specTable;
  if (name === 'unit') return fc.oneof(fc.constantFrom<unknown>(undefined, 'in', 'mm'), cell);
  if (name === 'part')
    return fc.oneof(fc.constantFrom<unknown>(undefined, 'top', 'master 2', 'master 99999999999'), cell);
  if (['unique', 'cuttable'].includes(name)) return fc.oneof(fc.constantFrom<unknown>(true, false), cell);
  return RANGES.includes(name) ? range : fc.oneof(fc.constantFrom<unknown>('274153', '2 6', '0'), cell);
};

const isCellValue = (value: unknown): boolean =>
  typeof value === 'string' ||
  typeof value === 'boolean' ||
  (typeof value === 'number' && Number.isFinite(value));

/** What is wrong with an answer; undefined where nothing is. */
function wrongWith(answer: unknown): string | undefined {
  if (!Array.isArray(answer)) return isCellValue(answer) ? undefined : `answered ${String(answer)}`;
  const rows = answer as unknown[];
  const width = Array.isArray(rows[0]) ? rows[0].length : 0;
  if (width === 0) return 'answered an empty range';
  if (rows.some((row) => !Array.isArray(row) || row.length !== width)) return 'answered a ragged range';
  const bad = (rows as unknown[][]).flat().find((value) => !isCellValue(value) && !isRefusal(value));
  return bad === undefined ? undefined : `a cell holds ${String(bad)}`;
}

const isRefusal = (value: unknown): boolean =>
  value instanceof ErrorOfCell && typeof value.message === 'string' && /[.!?)]$/.test(value.message.trim());

const docs = functionDocs();

describe('worksheet functions and hostile cells', () => {
  it('are all fuzzed', () => {
    expect(docs.map((doc) => doc.id).sort()).toEqual([...associated.keys()].sort());
  });

  const runs = runsFor(docs.length, 150);
  it.each(docs.map((doc) => [doc.id, doc] as const))('%s', { timeout: 3_600_000 }, (id, doc) => {
    const run = FUNCTIONS[id as keyof typeof FUNCTIONS] as (...given: unknown[]) => unknown;
    const given = fc.tuple(...doc.parameters.map((p) => argument(p.name)));
    fc.assert(
      fc.property(given, (cells) => {
        const { value, took } = timed(() => {
          try {
            return wrongWith(run(...cells));
          } catch (error) {
            return isRefusal(error) ? undefined : `threw ${String(error)}`;
          }
        });
        expect(value).toBeUndefined();
        expect(took).toBeLessThan(HANG);
      }),
      { numRuns: runs },
    );
  });
});
