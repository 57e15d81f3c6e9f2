/** Every formula that we write, in one place. */
import { MOST_POSITIONS } from '../keying/specification.ts';
import type { Unit } from '../keying/units.ts';
import { TABLES } from './names.ts';
import { formatPlace, quoteSheet, type Place } from './places.ts';

const SPECS = `${TABLES.Specs}[#All]`;

/** What is wrong with a key's bitting, as a sentence. */
export const CHECK_KEY = `=KEYROW.WHY(${TABLES.Keys}[@Bitting],${TABLES.Keys}[@Spec],${SPECS})`;

/** The same for a code in the shop's own sheet: `code` is a cell address or a structured reference. */
export const checkCode = (code: string, spec: string): string =>
  `=KEYROW.WHY(${code},"${spec.replaceAll('"', '""')}",${SPECS})`;

/**
 * How the readings of a first article compare with its bitting. The headings are those of the cutting sheet; `unit` is
 * that of the readings where it isn't the spec's.
 */
export const judgeReadings = (
  table: string,
  first: string,
  last: string,
  spec: string,
  unit?: Unit,
): string =>
  `=KEYROW.JUDGE(${table}[@[${first}]:[${last}]],${table}[@Bitting],"${spec.replaceAll('"', '""')}",${SPECS}${unit === undefined ? '' : `,"${unit}"`})`;

const CHAMBERS = `${TABLES.Cylinders}[@[Ch 1]:[Ch ${MOST_POSITIONS}]]`;

/** How many bittings operate the cylinder, issued or not. */
export const COMBINATIONS = `=KEYROW.OPERATINGCOUNT(${CHAMBERS},${TABLES.Cylinders}[@Spec],${SPECS})`;

/** A link to a cell of this workbook, showing its place. */
export function linkTo(at: Place): string {
  const quoted = (text: string): string => text.replaceAll('"', '""');
  return `=HYPERLINK("#${quoted(`${quoteSheet(at.sheet)}!${at.address}`)}","${quoted(formatPlace(at))}")`;
}

/** A header as it stands between the brackets of a structured reference. */
export const headerReference = (header: string): string => header.replace(/['#[\]@]/g, "'$&");
