/** Tables and books made by hand, cell by cell, for what reads them without Excel. */
import { readAllSystems } from '../../src/workbook/assemble.ts';
import type { BookReading, CellValue, Problem, TableReading } from '../../src/workbook/reading.ts';
import { SPEC, starter } from './school.ts';

const CORES = starter('T-0125-7');

type Rows = readonly (readonly CellValue[])[];

/** A table whose headings stand in row 4 from column B on, unless `at` says otherwise. */
export function tableOf(
  name: string,
  sheet: string,
  [headers = [], ...values]: Rows,
  at: { readonly row?: number; readonly column?: number; readonly totals?: boolean } = {},
): TableReading {
  const { row = 3, column = 1, totals = false } = at;
  const width = headers.length;
  const padded = values.map((cells) => Array.from({ length: width }, (_, c) => cells[c] ?? ''));
  return {
    name,
    sheet,
    box: { sheet, row, column, rows: padded.length + 1, columns: width },
    headers: headers.map(String),
    values: padded,
    formulas: padded,
    totals,
    filtered: false,
  };
}

/** A book of these tables and two specs, one of them of cores, put together as reading does it. */
export function bookOf(...tables: readonly TableReading[]): BookReading {
  const problems: Problem[] = [];
  const specs = [SPEC, CORES].map((spec, r) => ({
    name: spec.name,
    spec,
    at: { sheet: 'Specs', address: `A${5 + r}` },
  }));
  const systems = readAllSystems(tables, specs, problems);
  return {
    specs,
    systems,
    problems,
    tables,
    sheets: [...new Set(tables.map(({ sheet }) => sheet))].map((name) => ({
      name,
      visible: true,
      protected: false,
    })),
    structureProtected: false,
    tableNames: tables.map(({ name }) => name),
    summary: {
      specs: specs.length,
      systems: systems.length,
      keys: 0,
      cylinders: 0,
      marks: 0,
      faults: 0,
      warnings: 0,
    },
  };
}

/** Where a problem is and what it says. */
export const told = (problems: readonly Problem[]): string[] =>
  problems.map(({ sheet, address, severity, sentence }) => `${severity} ${sheet}!${address} ${sentence}`);
