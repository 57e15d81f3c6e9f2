/** Specs as lines of text, and back: the way from one workbook to another, or into a mail. */
import { splitPasted } from '../../src/keying/importText.ts';
import { foldName, readSpecTable, SPEC_COLUMNS, specTableRow } from '../../src/keying/specTable.ts';
import { saySpecFault } from '../../src/keying/specWording.ts';
import type { Specification } from '../../src/keying/specification.ts';

/** Headings and a row a spec, apart by tabs, as a sheet gives and takes them. */
export const specText = (specs: readonly Specification[]): string =>
  [SPEC_COLUMNS, ...specs.map(specTableRow)].map((row) => row.map(String).join('\t')).join('\n');

export interface SpecTextReading {
  readonly specs: readonly Specification[];
  /** What can't be read, with the row of the text, or that there is nothing to read. */
  readonly faults: readonly string[];
}

/**
 * Reads rows of a Specs table, their headings above them. Lines above the headings are passed over.
 * @example readSpecText(specText([spec])).specs → [spec]
 */
export function readSpecText(text: string): SpecTextReading {
  const { rows } = splitPasted(text, text.includes('\t') ? 'tab' : undefined);
  const head = rows.findIndex((row) => row.some((cell) => foldName(cell) === 'name'));
  if (head < 0)
    return {
      specs: [],
      faults: ['No headings here. Copy the rows with the headings above them, from Name on.'],
    };
  const table = readSpecTable(rows.slice(head));
  const faults = table.faults.map(({ row, column, fault }) => {
    const name = table.rows.find((r) => r.row === row)?.name;
    return `${row === 0 ? 'Headings' : name || `Row ${row}`}: ${saySpecFault({ column, fault })}`;
  });
  const specs = table.rows.flatMap(({ spec }) => (spec ? [spec] : []));
  return {
    specs,
    faults: specs.length === 0 && faults.length === 0 ? ['There is no row below the headings.'] : faults,
  };
}
