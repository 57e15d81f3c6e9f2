/** Readings made by hand, for plans that are looked at as data: sheets and tables from rows of cells, without Excel. */
import { readAllSystems } from '../../src/workbook/assemble.ts';
import { parseAddress } from '../../src/workbook/places.ts';
import { planNewSystem, type NewSystem } from '../../src/workbook/planSystem.ts';
import { school } from '../workbook/school.ts';
import type {
  BookReading,
  Box,
  CellInput,
  CellValue,
  PlanStep,
  Problem,
  SheetReading,
  SpecReading,
  TableReading,
  WriteBlock,
  WritePlan,
} from '../../src/workbook/index.ts';

type Rows = readonly (readonly CellValue[])[];

export const EMPTY_BOOK: BookReading = {
  specs: [],
  systems: [],
  problems: [],
  tables: [],
  sheets: [],
  structureProtected: false,
  tableNames: [],
  summary: { specs: 0, systems: 0, keys: 0, cylinders: 0, marks: 0, faults: 0, warnings: 0 },
};

/** A sheet whose filled cells begin at its first one. */
export const sheetWith = (name: string, rows: Rows, more: Partial<SheetReading> = {}): SheetReading => ({
  name,
  visible: true,
  protected: false,
  ...(rows.length > 0 && {
    used: { sheet: name, row: 0, column: 0, rows: rows.length, columns: rows[0]!.length },
    values: rows,
    formulas: rows,
  }),
  ...more,
});

/** A table from rows of cells, the first of them its header. */
export const tableWith = (
  name: string,
  sheet: string,
  [headers, ...rows]: Rows,
  more: Partial<TableReading> & { readonly row?: number; readonly column?: number } = {},
): TableReading => {
  const { row = 3, column = 0, ...rest } = more;
  return {
    name,
    sheet,
    box: { sheet, row, column, rows: rows.length + 1, columns: headers!.length },
    headers: headers!.map(String),
    values: rows,
    formulas: rows,
    totals: false,
    filtered: false,
    ...rest,
  };
};

/** A table of ours as its sheet has it: title, line, a blank row, then the table. */
export function standing(
  name: string,
  sheet: string,
  rows: Rows,
  more: Partial<SheetReading> = {},
): { readonly table: TableReading; readonly sheet: SheetReading } {
  const blank = rows[0]!.map((): CellValue => '');
  const head = (text: string): CellValue[] => [text, ...blank.slice(1)];
  return {
    table: tableWith(name, sheet, rows),
    sheet: sheetWith(sheet, [head('Title'), head('Line'), blank, ...rows], more),
  };
}

export const bookWith = (
  ...parts: readonly { readonly table?: TableReading; readonly sheet?: SheetReading }[]
): BookReading => {
  const tables = parts.flatMap(({ table }) => (table ? [table] : []));
  return {
    ...EMPTY_BOOK,
    tables,
    tableNames: tables.map(({ name }) => name),
    sheets: parts.flatMap(({ sheet }) => (sheet ? [sheet] : [])),
  };
};

export const writesOf = (plan: { readonly steps: readonly PlanStep[] }, sheet?: string): WriteBlock[] =>
  plan.steps.flatMap((step) =>
    step.kind === 'write' && (sheet === undefined || step.sheet === sheet) ? [step] : [],
  );

export const sentences = (plan: Pick<WritePlan, 'conflicts'>): string[] =>
  plan.conflicts.map(({ sentence }) => sentence);

/** What a plan writes below the header of a sheet that it adds, row by row, formulas as their text. */
export function rowsOf(plan: { readonly steps: readonly PlanStep[] }, sheet: string): CellValue[][] {
  const rows: CellValue[][] = [];
  for (const { row, column, cells } of writesOf(plan, sheet))
    cells.forEach((line, r) =>
      line.forEach((cell, c) => {
        if (row + r < 4) return;
        const at = (rows[row + r - 4] ??= []);
        at[column + c] = typeof cell === 'object' ? cell.formula : cell;
      }),
    );
  return rows;
}

/** The cells of one row of a sheet that a plan adds, zero-based: 0 title, 1 line, 3 headings. */
export const lineOf = (plan: { readonly steps: readonly PlanStep[] }, sheet: string, row: number) =>
  writesOf(plan, sheet).flatMap((step) =>
    row >= step.row && row < step.row + step.cells.length ? [...step.cells[row - step.row]!] : [],
  );

/** A book of sheets and tables with the systems that are read from it. */
export function read(book: BookReading, specs: readonly SpecReading[] = book.specs): BookReading {
  const problems: Problem[] = [];
  const systems = readAllSystems(book.tables, specs, problems);
  return { ...book, specs, systems, problems };
}

/** The book once a plan is carried out. A formula comes to nothing here: its value is blank. */
export function carriedOut(book: BookReading, plan: WritePlan, specs = book.specs): BookReading {
  const sheets = new Map(
    book.sheets.map(({ name, formulas = [] }) => [name, formulas.map((row) => [...row])]),
  );
  const boxes = new Map<string, Box>(book.tables.map(({ name, box }) => [name, box]));
  for (const step of plan.steps) {
    if (step.kind === 'add-sheet') sheets.set(step.sheet, []);
    if (step.kind === 'add-table') boxes.set(step.name, step.box);
    if (step.kind === 'resize-table') boxes.set(step.name, step.to);
    if (step.kind !== 'write') continue;
    const rows = sheets.get(step.sheet)!;
    step.cells.forEach((line, r) =>
      line.forEach((cell, c) => {
        const row = (rows[step.row + r] ??= []);
        row[step.column + c] = typeof cell === 'object' ? cell.formula : cell;
      }),
    );
  }
  const contents = new Map([...sheets].map(([name, rows]) => [name, filledUp(rows)]));
  const value = (cell: CellValue): CellValue => (isFormula(cell) ? '' : cell);
  return read(
    {
      ...book,
      sheets: [...contents].map(([name, rows]) =>
        sheetWith(name, rows, rows.length > 0 ? { values: rows.map((row) => row.map(value)) } : {}),
      ),
      tables: [...boxes].map(([name, box]) => {
        const cells = contents
          .get(box.sheet)!
          .slice(box.row, box.row + box.rows)
          .map((row) => row.slice(box.column, box.column + box.columns));
        return {
          ...tableWith(name, box.sheet, cells, { row: box.row, column: box.column }),
          values: cells.slice(1).map((row) => row.map(value)),
        };
      }),
      tableNames: [...boxes.keys()],
    },
    specs,
  );
}

const isFormula = (cell: CellInput): boolean => typeof cell === 'string' && cell.startsWith('=');

/** Rows of the same length, without gaps. */
function filledUp(rows: readonly (readonly CellValue[] | undefined)[]): CellValue[][] {
  const columns = Math.max(0, ...Array.from(rows, (row) => row?.length ?? 0));
  return Array.from({ length: rows.length }, (_, r) =>
    Array.from({ length: columns }, (__, c) => rows[r]?.[c] ?? ''),
  );
}

/** A book with a newly made system in it, the school of `school.ts` where none is given. */
export function systemBook(made: NewSystem = school()): BookReading {
  const { spec } = made.system;
  const specs = [{ name: spec.name, spec, at: { sheet: 'Specs', address: 'A5' } }];
  return carriedOut(EMPTY_BOOK, planNewSystem(EMPTY_BOOK, made, { made: '24 Nov 2026' }), specs);
}

/** The book once a person has typed into cells. */
export function typed(
  book: BookReading,
  sheet: string,
  cells: Readonly<Record<string, CellValue>>,
): BookReading {
  const steps = Object.entries(cells).map(([address, cell]): WriteBlock => {
    const { row, column } = parseAddress(address)!;
    return { kind: 'write', sheet, row, column, cells: [[cell]], formats: ['general'], expected: 'empty' };
  });
  return carriedOut(book, { title: '', steps, effects: [], conflicts: [] });
}

/** One cell of a reading, by its address. */
export function cellOf(book: BookReading, sheet: string, address: string): CellValue {
  const box = parseAddress(address)!;
  return book.sheets.find(({ name }) => name === sheet)?.formulas?.[box.row]?.[box.column] ?? '';
}
