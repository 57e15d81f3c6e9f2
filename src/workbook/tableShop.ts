/**
 * The shop's own small tables: `Cutters`, `Setups`, `Blanks` and `Pins`, each on a sheet of its own. They are the
 * shop's to fill; we add them without any example rows, since an example on a shelf gets cut with.
 */
import { z } from 'zod';
import type { PinKind, ShopPin } from '../keying/pinKit.ts';
import type { ShopBlank, ShopCutter, ShopSetup } from '../keying/shop.ts';
import { parseLength, UNITS, type Length, type Unit } from '../keying/units.ts';
import { columnOf, missingColumns, type ColumnSpec } from './columns.ts';
import { countField, isBlank, neededText, readRows, textField, wordField } from './fields.ts';
import { findTable } from './find.ts';
import { TABLES } from './names.ts';
import type { BookReading, CellValue, Problem, TableReading } from './reading.ts';

export const CUTTER_COLUMNS: readonly ColumnSpec[] = [
  { heading: 'Cutter', format: 'text', width: 18, needed: true },
  { heading: 'Flat', format: 'general', width: 10, needed: true },
  { heading: 'Angle', format: 'general', width: 10, needed: true },
  { heading: 'Unit', format: 'text', width: 8 },
  { heading: 'Note', format: 'text', width: 40 },
];

export const SETUP_COLUMNS: readonly ColumnSpec[] = [
  { heading: 'Spec', format: 'text', width: 16, needed: true },
  { heading: 'Cutter', format: 'text', width: 18 },
  { heading: 'Held', format: 'text', width: 36 },
  { heading: 'Stopped', format: 'text', width: 36 },
  { heading: 'Note', format: 'text', width: 40 },
];

export const BLANK_COLUMNS: readonly ColumnSpec[] = [
  { heading: 'Blank', format: 'text', width: 16, needed: true },
  { heading: 'Keyways', format: 'text', width: 24, needed: true },
  { heading: 'Cuts', format: 'general', width: 8 },
  { heading: 'Equivalents', format: 'text', width: 30 },
  { heading: 'Note', format: 'text', width: 40 },
];

export const PIN_COLUMNS: readonly ColumnSpec[] = [
  { heading: 'Pin', format: 'text', width: 18 },
  { heading: 'Kind', format: 'text', width: 12 },
  { heading: 'Length', format: 'general', width: 10, needed: true },
  { heading: 'Unit', format: 'text', width: 8 },
  { heading: 'In stock', format: 'general', width: 10 },
  { heading: 'Note', format: 'text', width: 40 },
];

export interface ShopReading {
  readonly cutters: readonly ShopCutter[];
  readonly setups: readonly ShopSetup[];
  readonly blanks: readonly ShopBlank[];
  readonly pins: readonly ShopPin[];
  readonly problems: readonly Problem[];
  /** Tables that the workbook has, full or not. */
  readonly present: readonly ShopTable[];
}

export const SHOP_TABLES = ['Cutters', 'Setups', 'Blanks', 'Pins'] as const;
export type ShopTable = (typeof SHOP_TABLES)[number];

export const SHOP_COLUMNS: Readonly<Record<ShopTable, readonly ColumnSpec[]>> = {
  Cutters: CUTTER_COLUMNS,
  Setups: SETUP_COLUMNS,
  Blanks: BLANK_COLUMNS,
  Pins: PIN_COLUMNS,
};

/**
 * Reads whatever of the four tables is there. A fault is reported with its cell; a row whose name or measure can't be
 * read is left out.
 */
export function readShop(book: Pick<BookReading, 'tables'>): ShopReading {
  const problems: Problem[] = [];
  function take<T>(name: ShopTable, read: (table: TableReading, problems: Problem[]) => T[]): T[] {
    const table = findTable(book.tables, TABLES[name]);
    if (!table) return [];
    const missing = missingColumns(table, SHOP_COLUMNS[name]);
    problems.push(...missing);
    return missing.length > 0 ? [] : read(table, problems);
  }
  return {
    cutters: take('Cutters', readCutters),
    setups: take('Setups', readSetups),
    blanks: take('Blanks', readBlanks),
    pins: take('Pins', readPins),
    problems,
    present: SHOP_TABLES.filter((name) => findTable(book.tables, TABLES[name])),
  };
}

const UNIT_WORDS: Readonly<Record<string, Unit>> = { in: 'in', inch: 'in', '"': 'in', mm: 'mm' };
const unitField = wordField(UNIT_WORDS, UNITS, 'in');

/** What a blank cell would give stands in for a column that is not there, and never for a cell with a fault. */
const orWithout = <T>(table: TableReading, heading: string, read: T | undefined, blank: T): T | undefined =>
  read ?? (columnOf(table, heading) < 0 ? blank : undefined);

/** A cell kept until its unit is known. */
const cellField: z.ZodType<CellValue, CellValue> = z.union([z.string(), z.number(), z.boolean()]);

const angleField: z.ZodType<number, CellValue> = cellField.transform((v, ctx) => {
  const n = Number(String(v).replace('°', '').replace(',', '.'));
  if (n > 0 && n < 180) return n;
  ctx.addIssue({
    code: 'custom',
    message: `“${String(v)}” is no included angle. Type degrees, more than 0 and less than 180.`,
  });
  return z.NEVER;
});

const namesIn = (text: string | undefined): string[] =>
  (text ?? '')
    .split(/[,;/\n]/)
    .map((name) => name.trim())
    .filter(Boolean);

/** A length of more than nothing, or undefined with the problem reported. */
function lengthIn(
  cell: CellValue | undefined,
  unit: Unit,
  what: string,
  report: (sentence: string) => void,
): Length | undefined {
  if (cell === undefined || isBlank(cell)) {
    report(`There is no ${what} here. Type a length, such as 0.054.`);
    return undefined;
  }
  const read = typeof cell === 'boolean' ? undefined : parseLength(cell, unit);
  if (read?.ok && read.value > 0) return read.value;
  report(`“${String(cell)}” is no ${what}. Type a length of more than zero, such as 0.054.`);
  return undefined;
}

function readCutters(table: TableReading, problems: Problem[]): ShopCutter[] {
  const { rows, problems: found } = readRows(table, {
    name: { heading: 'Cutter', schema: neededText('name of a cutter') },
    flat: { heading: 'Flat', schema: cellField },
    angle: { heading: 'Angle', schema: angleField },
    unit: { heading: 'Unit', schema: unitField },
  });
  problems.push(...found);
  return rows.flatMap((row): ShopCutter[] => {
    const { name, angle } = row.values;
    const unit = orWithout(table, 'Unit', row.values.unit, 'in');
    if (!unit) return [];
    const flat = lengthIn(row.values.flat, unit, 'flat', (sentence) =>
      problems.push({ ...row.at('flat'), severity: 'fault', sentence }),
    );
    return name && angle !== undefined && flat !== undefined ? [{ name, angle, flat }] : [];
  });
}

function readSetups(table: TableReading, problems: Problem[]): ShopSetup[] {
  const { rows, problems: found } = readRows(table, {
    spec: { heading: 'Spec', schema: neededText('spec') },
    cutter: { heading: 'Cutter', schema: textField },
    hold: { heading: 'Held', schema: textField },
    stop: { heading: 'Stopped', schema: textField },
    note: { heading: 'Note', schema: textField },
  });
  problems.push(...found);
  return rows.flatMap(({ values: v }): ShopSetup[] =>
    v.spec
      ? [
          {
            spec: v.spec,
            hold: v.hold ?? '',
            stop: v.stop ?? '',
            ...(v.cutter && { cutter: v.cutter }),
            ...(v.note && { note: v.note }),
          },
        ]
      : [],
  );
}

function readBlanks(table: TableReading, problems: Problem[]): ShopBlank[] {
  const { rows, problems: found } = readRows(table, {
    name: { heading: 'Blank', schema: neededText('name of a blank') },
    keyways: { heading: 'Keyways', schema: textField },
    cuts: { heading: 'Cuts', schema: countField(undefined, 1) },
    equivalents: { heading: 'Equivalents', schema: textField },
  });
  problems.push(...found);
  return rows.flatMap(({ values: v }): ShopBlank[] =>
    v.name
      ? [
          {
            name: v.name,
            keyways: namesIn(v.keyways),
            equivalents: namesIn(v.equivalents),
            ...(v.cuts !== undefined && { cuts: v.cuts }),
          },
        ]
      : [],
  );
}

const KIND_WORDS: Readonly<Record<string, PinKind>> = {
  bottom: 'bottom',
  master: 'master',
  'build-up': 'build-up',
  'build up': 'build-up',
  control: 'build-up',
  top: 'top',
  any: 'any',
};

function readPins(table: TableReading, problems: Problem[]): ShopPin[] {
  const { rows, problems: found } = readRows(table, {
    name: { heading: 'Pin', schema: textField },
    kind: {
      heading: 'Kind',
      schema: wordField(KIND_WORDS, ['bottom', 'master', 'build-up', 'top', 'any'], 'any'),
    },
    length: { heading: 'Length', schema: cellField },
    unit: { heading: 'Unit', schema: unitField },
    stock: { heading: 'In stock', schema: countField(undefined) },
  });
  problems.push(...found);
  return rows.flatMap((row): ShopPin[] => {
    const { name, stock } = row.values;
    const kind = orWithout(table, 'Kind', row.values.kind, 'any');
    const unit = orWithout(table, 'Unit', row.values.unit, 'in');
    if (!unit || !kind) return [];
    const length = lengthIn(row.values.length, unit, 'length of a pin', (sentence) =>
      problems.push({ ...row.at('length'), severity: 'fault', sentence }),
    );
    if (length === undefined) return [];
    return [{ name: name ?? '', kind, length, ...(stock !== undefined && { stock }) }];
  });
}
