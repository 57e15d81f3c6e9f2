/** Sheet `Holders`: people, tenants and firms that keys are given to. Personal data, so it stays in this workbook. */
import type { Holder } from '../keying/ledger.ts';
import { formatDay } from '../keying/calendar.ts';
import type { ColumnSpec } from './columns.ts';
import { dayField } from './dateFields.ts';
import { neededText, readRows, textField } from './fields.ts';
import { fold } from './names.ts';
import type { CellInput } from './plan.ts';
import type { Place } from './places.ts';
import type { Problem, TableReading } from './reading.ts';

export const HOLDERS_TABLE = 'KeyrowHolders';

export const HOLDER_COLUMNS = [
  { heading: 'Holder', format: 'text', width: 28, needed: true },
  { heading: 'Department', format: 'text', width: 20 },
  { heading: 'Contact', format: 'text', width: 24 },
  { heading: 'Left on', format: 'text', width: 12 },
  { heading: 'Note', format: 'text', width: 28 },
] as const satisfies readonly ColumnSpec[];

const FIELDS = {
  name: { heading: 'Holder', schema: neededText('name') },
  department: { heading: 'Department', schema: textField },
  contact: { heading: 'Contact', schema: textField },
  left: { heading: 'Left on', schema: dayField },
};

export interface HolderRow extends Holder {
  readonly at: Place;
}

/** Rows with a name; a name that is there twice is reported, since keys could belong to either. */
export function readHolders(table: TableReading): {
  readonly rows: readonly HolderRow[];
  readonly problems: readonly Problem[];
} {
  const { rows, problems } = readRows(table, FIELDS);
  const all = [...problems];
  const seen = new Map<string, string>();
  const holders = rows.flatMap((read): HolderRow[] => {
    const { name, department, contact, left } = read.values;
    if (name === undefined) return [];
    const at = read.at('name');
    const first = seen.get(fold(name));
    if (first !== undefined) {
      all.push({
        ...at,
        severity: 'fault',
        sentence: `There is another holder “${name}” at ${first}. Tell the two apart, by department perhaps.`,
      });
      return [];
    }
    seen.set(fold(name), at.address);
    return [
      {
        name,
        at,
        ...(department && { department }),
        ...(contact && { contact }),
        ...(left && { left: left.day }),
      },
    ];
  });
  return { rows: holders, problems: all };
}

/** The cells of a holder's row in the order of `HOLDER_COLUMNS`. */
export const holderRow = ({ name, department, contact, left }: Holder): CellInput[] => [
  name,
  department ?? '',
  contact ?? '',
  left === undefined ? '' : formatDay(left),
  '',
];
