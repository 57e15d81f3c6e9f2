/** Worksheet functions down a column of 100,000 bittings, ours and as one would first write them. */
import '../functions/office.ts';
import { check, checks } from '../../functions/codes.ts';
import { specTableRow, SPEC_COLUMNS } from '../../src/keying/specTable.ts';
import { starterSpec } from '../../src/keying/starters.ts';
import { randomOf } from './random.ts';
import type { Comparison } from './table.ts';

const ROWS = 100_000;

function codes(): string[] {
  const random = randomOf(11);
  return Array.from({ length: ROWS }, () => Array.from({ length: 6 }, () => String(random(10))).join(''));
}

/** Length, depths, MACS, different depths, equal runs: by splitting strings, the spec looked up for every row. */
function naiveCheck(code: string, table: readonly (readonly unknown[])[]): boolean {
  const header = table[0]!;
  const row = table.slice(1).find((r) => r[header.indexOf('Name')] === 'SHOP')!;
  const depths = Object.fromEntries(
    String(row[header.indexOf('Depths')])
      .split(';')
      .map((part, i) => [part.split('=')[0]!.trim(), i]),
  );
  const steps = code.split('').map((symbol) => depths[symbol]);
  if (steps.length !== Number(row[header.indexOf('Cuts')]) || steps.includes(undefined)) return false;
  const macs = Number(row[header.indexOf('MACS')]);
  const neighbours = steps.slice(1).map((s, i) => Math.abs(s! - steps[i]!));
  if (neighbours.some((n) => n > macs)) return false;
  return new Set(steps).size >= 3 && !/(.)\1\1\1/.test(code);
}

export function columnComparisons(): Comparison[] {
  const spec = { ...starterSpec('S-018-6')!, name: 'SHOP' };
  const cells: (string | number)[][] = [[...SPEC_COLUMNS], specTableRow(spec)];
  const table = (): (string | number)[][] => cells.map((row) => [...row]);
  const column = codes();
  const range = column.map((code) => [code]);
  const good = (answers: unknown): number => (answers as unknown[]).filter((a) => a === true).length;
  return [
    {
      what: `CHECK, a formula a row, ${ROWS.toLocaleString('en-US')} rows`,
      items: ROWS,
      unit: 'codes',
      // Excel hands the range over anew for every cell, so each call gets an array of its own.
      ours: () => good(column.map((code) => check(code, 'SHOP', table()))),
      naive: () => good(column.map((code) => naiveCheck(code, table()))),
      against: 'table read and strings split for every row',
      same: (a, b) => a === b,
    },
    {
      what: `CHECKS, one formula for the column`,
      items: ROWS,
      unit: 'codes',
      ours: () => good(checks(range, 'SHOP', table()).flat()),
      naive: () => good(column.map((code) => naiveCheck(code, table()))),
      against: 'table read and strings split for every row',
      same: (a, b) => a === b,
    },
  ];
}
