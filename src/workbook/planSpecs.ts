/** Specs into the sheet `Specs`. The sheet is the truth: a spec that is there already is never rewritten. */
import {
  foldName,
  sameDimensions,
  SPEC_COLUMNS,
  specTableRow,
  type SpecColumn,
} from '../keying/specTable.ts';
import type { Specification } from '../keying/specification.ts';
import type { ColumnSpec } from './columns.ts';
import { findTable } from './find.ts';
import { TABLES } from './names.ts';
import type { WritePlan } from './plan.ts';
import { appendOrCreate } from './planRows.ts';
import { PlanBuilder } from './planTable.ts';
import type { BookReading } from './reading.ts';

const TEXT_WIDTHS: Partial<Record<SpecColumn, number>> = {
  Name: 14,
  Title: 40,
  Unit: 6,
  Gauge: 10,
  Order: 12,
  Centres: 24,
  Depths: 60,
  Pins: 30,
  Source: 40,
};

const SPEC_SHEET_COLUMNS: readonly ColumnSpec[] = SPEC_COLUMNS.map((heading) => {
  const width = TEXT_WIDTHS[heading];
  return { heading, format: width === undefined ? 'general' : 'text', width: width ?? 10 };
});

/** Adds specs to the Specs sheet. A name that is taken with other dimensions is a conflict; the same spec again is nothing to do. */
export function planSpecs(
  book: BookReading,
  specs: readonly Specification[],
  options: { readonly made: string },
): WritePlan {
  const builder = new PlanBuilder(book);
  addSpecs(builder, specs, options.made);
  return builder.plan('Add specs');
}

/** The same within another plan: specs come before whatever refers to them. */
export function addSpecs(builder: PlanBuilder, specs: readonly Specification[], made: string): void {
  const missing = specs.filter((spec) => {
    const there = builder.book.specs.find((s) => foldName(s.name) === foldName(spec.name));
    if (!there) return true;
    if (!there.spec)
      builder.conflict(`The spec ${there.name} in the sheet can’t be read. Correct it first.`, there.at);
    else if (!sameDimensions(there.spec, spec))
      builder.conflict(
        `There is a spec ${there.name} with other dimensions. Give the new one another name.`,
        there.at,
      );
    return false;
  });
  if (missing.length === 0) return;
  appendOrCreate(builder, findTable(builder.book.tables, TABLES.Specs), {
    table: TABLES.Specs,
    sheet: 'Specs',
    title: 'Key bitting specifications',
    line: `One row a spec: the dimensions that turn a code into cuts. First written ${made}. Check every number against your depth and space data before you cut.`,
    columns: SPEC_SHEET_COLUMNS,
    rows: missing.map(specTableRow),
    frozen: 1,
  });
}
