/** Sheet `Systems`: one row a system, with its key bitting array where the shop can edit it. */
import { formatBitting, parseBitting, type Bitting } from '../keying/bitting.ts';
import { formatDepthList, parseDepthList } from '../keying/chamberText.ts';
import { MOST_POSITIONS, positions, type Specification } from '../keying/specification.ts';
import type { KeySystem } from '../keying/system.ts';
import { columnOf, type ColumnSpec } from './columns.ts';
import { codeField, isBlank, neededText, readRows, textField } from './fields.ts';
import { place, type Place } from './places.ts';
import type { CellInput } from './plan.ts';
import { bittingProblems, chamberProblems, numberProblem } from './problems.ts';
import type { CellValue, Problem, TableReading } from './reading.ts';

const CHAMBERS = Array.from({ length: MOST_POSITIONS }, (_, i) => i + 1);
const arrayHeading = (chamber: number): string => `Array ${chamber}`;

/** Array 1, Array 2 … hold the change depths of a chamber in their sequence. */
export const SYSTEM_COLUMNS: readonly ColumnSpec[] = [
  { heading: 'System', format: 'text', width: 18, needed: true },
  { heading: 'Spec', format: 'text', width: 14, needed: true },
  { heading: 'Keyway', format: 'text', width: 10 },
  { heading: 'Levels', format: 'general', width: 10 },
  { heading: 'Top master', format: 'text', width: 14 },
  ...CHAMBERS.map((c) => ({ heading: arrayHeading(c), format: 'text' as const, width: 10 })),
  { heading: 'Deal', format: 'text', width: 16 },
  { heading: 'Seed', format: 'general', width: 8 },
  { heading: 'Rules', format: 'text', width: 30 },
  { heading: 'Grid', format: 'text', width: 14 },
  { heading: 'Note', format: 'text', width: 30 },
];

const FIELDS = {
  name: { heading: 'System', schema: neededText('system name') },
  spec: { heading: 'Spec', schema: neededText('spec name') },
  keyway: { heading: 'Keyway', schema: textField },
  topMaster: { heading: 'Top master', schema: codeField },
  deal: { heading: 'Deal', schema: textField },
  grid: { heading: 'Grid', schema: textField },
  note: { heading: 'Note', schema: textField },
};

export interface SystemRow {
  readonly name: string;
  readonly specName: string;
  readonly spec?: Specification;
  readonly keyway?: string;
  readonly topMaster?: Bitting;
  readonly array?: readonly (readonly number[])[];
  readonly grid?: string;
  readonly note?: string;
  readonly at: Place;
}

/** `specNamed` gives a sound spec by its name. */
export function readSystems(
  table: TableReading,
  specNamed: (name: string) => Specification | undefined,
): { readonly rows: readonly SystemRow[]; readonly problems: readonly Problem[] } {
  const { rows, problems } = readRows(table, FIELDS);
  const all = [...problems];
  const columns = CHAMBERS.map((c) => columnOf(table, arrayHeading(c)));
  const systems = rows.map((read): SystemRow => {
    const v = read.values;
    const spec = v.spec ? specNamed(v.spec) : undefined;
    if (v.spec && !spec)
      all.push({
        ...read.at('spec'),
        severity: 'fault',
        sentence: `There is no sound spec “${v.spec}” in the sheet Specs, so nothing of this system can be checked. Add or correct it.`,
      });
    let topMaster: Bitting | undefined;
    const code = v.topMaster ?? '';
    if (spec && code !== '') {
      if (typeof code === 'number') all.push(numberProblem(read.at('topMaster')));
      const parsed = parseBitting(spec, code);
      if (parsed.ok) topMaster = parsed.value;
      else all.push(...bittingProblems(read.at('topMaster'), parsed.error));
    }
    const cells = table.values[read.row - table.box.row - 1]!;
    const at = (c: number): Place => place(table.sheet, read.row, table.box.column + Math.max(0, c));
    const array = spec && readArray(spec, columns, cells, at, all);
    return {
      name: v.name ?? '',
      specName: v.spec ?? '',
      at: read.at('name'),
      ...(spec && { spec }),
      ...(v.keyway && { keyway: v.keyway }),
      ...(topMaster && { topMaster }),
      ...(array && { array }),
      ...(v.grid && { grid: v.grid }),
      ...(v.note && { note: v.note }),
    };
  });
  return { rows: systems, problems: all };
}

/** Undefined where the array is blank or has a fault. A single blank chamber is a constant: no choice there. */
function readArray(
  spec: Specification,
  columns: readonly number[],
  cells: readonly CellValue[],
  at: (column: number) => Place,
  problems: Problem[],
): number[][] | undefined {
  const used = columns.slice(0, positions(spec));
  if (used.every((c) => isBlank(cells[c]))) return undefined;
  const array: number[][] = [];
  for (const c of used) {
    // a column that is gone has no cell
    const read = parseDepthList(spec, String(cells[c] ?? ''));
    if (read.ok) array.push([...read.value]);
    else problems.push(...chamberProblems(at(c), read.error));
  }
  return array.length === used.length ? array : undefined;
}

/** The cells of a system's row in the order of `SYSTEM_COLUMNS`. */
export function systemRow(
  system: KeySystem,
  beside: {
    readonly keyway?: string | undefined;
    readonly levels: number;
    readonly deal?: string | undefined;
    readonly seed?: number | undefined;
    readonly rules?: string | undefined;
    readonly grid?: string | undefined;
    readonly note?: string | undefined;
  },
): CellInput[] {
  const { spec } = system;
  return [
    system.name,
    spec.name,
    beside.keyway ?? '',
    beside.levels,
    system.topMaster ? formatBitting(spec, system.topMaster) : '',
    ...CHAMBERS.map((c) => formatDepthList(spec, system.array?.[c - 1] ?? [])),
    beside.deal ?? '',
    beside.seed ?? '',
    beside.rules ?? '',
    beside.grid ?? '',
    beside.note ?? '',
  ];
}
