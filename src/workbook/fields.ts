/**
 * One sheet row → one record of fields, each read by a zod schema of its own: a fault in one cell leaves the other
 * fields standing and keeps its address. Nothing is repaired; blank rows are skipped.
 */
import { z } from 'zod';
import { columnOf } from './columns.ts';
import { place, type Place } from './places.ts';
import type { CellValue, Problem, TableReading } from './reading.ts';

// Never compile a schema to code, nor try whether that is allowed: the page's policy forbids it and reports the try.
z.config({ jitless: true });

export interface Field<T> {
  readonly heading: string;
  readonly schema: z.ZodType<T, CellValue>;
}
type Fields = Readonly<Record<string, Field<unknown>>>;
type Values<F extends Fields> = {
  readonly [K in keyof F]: F[K] extends Field<infer T> ? T | undefined : never;
};

export interface ReadRow<F extends Fields> {
  /** Undefined where the cell was faulty or its column is missing. */
  readonly values: Values<F>;
  /** Zero-based row of the sheet. */
  readonly row: number;
  at(field: keyof F): Place;
}

/** Reads the table's rows and reports each cell that its schema refuses. */
export function readRows<F extends Fields>(
  table: TableReading,
  fields: F,
): { readonly rows: readonly ReadRow<F>[]; readonly problems: readonly Problem[] } {
  const columns = Object.entries(fields).map(([key, field]) => ({
    key,
    field,
    index: columnOf(table, field.heading),
  }));
  const problems: Problem[] = [];
  const rows: ReadRow<F>[] = [];
  table.values.forEach((cells, i) => {
    if (columns.every(({ index }) => index < 0 || isBlank(cells[index]))) return;
    const row = table.box.row + 1 + i;
    const entries = columns.map(({ key, field, index }) => {
      if (index < 0) return [key, undefined] as const;
      const read = field.schema.safeParse(cells[index] ?? '');
      if (read.success) return [key, read.data] as const;
      const sentence = read.error.issues.map((issue) => issue.message).join(' ');
      problems.push({ ...place(table.sheet, row, table.box.column + index), severity: 'fault', sentence });
      return [key, undefined] as const;
    });
    rows.push({
      values: Object.fromEntries(entries) as Values<F>,
      row,
      at: (field) => {
        const index = columns.find((c) => c.key === field)?.index ?? -1;
        return place(table.sheet, row, table.box.column + Math.max(0, index));
      },
    });
  });
  return { rows, problems };
}

/** Empty, or nothing but spaces. */
export const isBlank = (cell: CellValue | undefined): boolean =>
  cell === undefined || (typeof cell === 'string' && cell.trim() === '');

const cell: z.ZodType<CellValue, CellValue> = z.union([z.string(), z.number(), z.boolean()]);

/** What the cell shows, trimmed; '' for a blank one. */
export const textField = cell.transform((v) => String(v).trim());

/** As `textField`, but a blank cell or one with an error value is a fault. */
export const neededText = (what: string): z.ZodType<string, CellValue> =>
  textField.refine((t) => t !== '' && !t.startsWith('#N'), {
    error: `There is no ${what} here. Type one, or clear the whole row.`,
  });

/** A code as it stands in the cell: a number there has lost its leading zeros, and whoever reads on has to say so. */
export const codeField = cell.transform((v) => (typeof v === 'number' ? v : String(v).trim()));

/** A whole number from `least` on; blank gives the default. */
export const countField = (
  fallback: number | undefined,
  least = 0,
): z.ZodType<number | undefined, CellValue> =>
  cell.transform((v, ctx) => {
    if (isBlank(v)) return fallback;
    const n = Number(String(v));
    if (Number.isInteger(n) && n >= least) return n;
    ctx.addIssue({ code: 'custom', message: `“${String(v)}” is not a whole number from ${least} on.` });
    return z.NEVER;
  });

/** One of a set of words, folded; blank gives the default. */
export function wordField<T extends string>(
  words: Readonly<Record<string, T>>,
  shown: readonly string[],
  fallback: T,
): z.ZodType<T, CellValue> {
  return textField.transform((t, ctx) => {
    if (t === '') return fallback;
    const folded = t.normalize('NFKC').toLowerCase().replace(/\s+/g, ' ');
    // own words only: every record also answers to "constructor"
    const found = Object.hasOwn(words, folded) ? words[folded] : undefined;
    if (found !== undefined) return found;
    ctx.addIssue({ code: 'custom', message: `“${t}” is none of ${shown.join(', ')}.` });
    return z.NEVER;
  });
}
