/** Sheet `Cylinders`: one row a cylinder, a column a chamber. */
import { formatBitting, parseBitting, type Bitting } from '../keying/bitting.ts';
import { formatDepthSet, parseDepthSet } from '../keying/chamberText.ts';
import { NONE, type DepthSet } from '../keying/depthSet.ts';
import { MOST_POSITIONS, positions, type Specification } from '../keying/specification.ts';
import type { CylinderRecord } from '../keying/system.ts';
import { columnOf, missingColumns, type ColumnSpec } from './columns.ts';
import { codeField, isBlank, neededText, readRows, textField } from './fields.ts';
import { COMBINATIONS } from './formulas.ts';
import { place } from './places.ts';
import type { CellInput } from './plan.ts';
import { bittingProblems, chamberProblems, numberProblem } from './problems.ts';
import type { CylinderRow, Problem, TableReading } from './reading.ts';

const chamberHeading = (chamber: number): string => `Ch ${chamber}`;
const CHAMBERS = Array.from({ length: MOST_POSITIONS }, (_, i) => i + 1);

const chamberColumn = (c: number): ColumnSpec => ({ heading: chamberHeading(c), format: 'text', width: 8 });

/** Chambers up to the longest key; those that a spec doesn't have stay blank. */
export const CYLINDER_COLUMNS: readonly ColumnSpec[] = [
  { heading: 'System', format: 'text', width: 16, needed: true },
  { heading: 'Cylinder', format: 'text', width: 12, needed: true },
  { heading: 'Door', format: 'text', width: 14 },
  { heading: 'Location', format: 'text', width: 24 },
  { heading: 'Symbol', format: 'text', width: 10, needed: true },
  { heading: 'Keyway', format: 'text', width: 10 },
  ...CHAMBERS.map(chamberColumn),
  { heading: 'Control', format: 'text', width: 12 },
  { heading: 'Spec', format: 'text', width: 12 },
  { heading: 'Combinations', format: 'general', width: 14, formula: COMBINATIONS },
  { heading: 'Note', format: 'text', width: 24 },
];

const FIELDS = {
  system: { heading: 'System', schema: textField },
  id: { heading: 'Cylinder', schema: neededText('cylinder number') },
  door: { heading: 'Door', schema: textField },
  location: { heading: 'Location', schema: textField },
  symbol: { heading: 'Symbol', schema: neededText('keyset symbol') },
  keyway: { heading: 'Keyway', schema: textField },
  control: { heading: 'Control', schema: codeField },
};

/** `specFor` gives the spec of a system; undefined where it has none. */
export function readCylinders(
  table: TableReading,
  specFor: (system: string) => Specification | undefined,
): { readonly rows: readonly CylinderRow[]; readonly problems: readonly Problem[] } {
  const { rows, problems } = readRows(table, FIELDS);
  const all = [...problems];
  const columns = CHAMBERS.map((c) => columnOf(table, chamberHeading(c)));
  let needed = 0;
  const cylinders = rows.map((read): CylinderRow => {
    const v = read.values;
    const spec = specFor(v.system ?? '');
    const cells = table.values[read.row - table.box.row - 1]!;
    const count = spec ? positions(spec) : MOST_POSITIONS;
    const places = columns
      .slice(0, count)
      .map((c) => place(table.sheet, read.row, table.box.column + Math.max(0, c)));
    const chambers = spec && readChambers(spec, columns, cells, places, all);
    if (spec) needed = Math.max(needed, positions(spec));
    if (spec) reportExtra(spec, columns, cells, table, read.row, all);
    let control: Bitting | undefined;
    const code = v.control ?? '';
    if (spec && code !== '') {
      if (typeof code === 'number') all.push(numberProblem(read.at('control')));
      const parsed = parseBitting(spec, code);
      if (parsed.ok) control = parsed.value;
      else all.push(...bittingProblems(read.at('control'), parsed.error));
    }
    const controlBad = code !== '' && control === undefined;
    return {
      system: v.system ?? '',
      id: v.id ?? '',
      symbol: v.symbol ?? '',
      ...(v.door && { door: v.door }),
      ...(v.location && { location: v.location }),
      ...(v.keyway && { keyway: v.keyway }),
      ...(chambers && !controlBad && { chambers }),
      ...(control && { control }),
      at: {
        row: read.at('id'),
        system: read.at('system'),
        symbol: read.at('symbol'),
        chambers: places,
        ...(columnOf(table, 'Control') >= 0 && { control: read.at('control') }),
      },
    };
  });
  const chambers = CHAMBERS.slice(0, needed).map((c) => ({ ...chamberColumn(c), needed: true }));
  all.push(...missingColumns(table, chambers));
  return { rows: cylinders, problems: all };
}

function readChambers(
  spec: Specification,
  columns: readonly number[],
  cells: TableReading['values'][number],
  places: CylinderRow['at']['chambers'],
  problems: Problem[],
): DepthSet[] | undefined {
  if (columns.slice(0, positions(spec)).every((c) => isBlank(cells[c]))) {
    problems.push({
      ...places[0]!,
      severity: 'warning',
      sentence: 'This cylinder is not pinned yet, so it is not audited.',
    });
    return undefined;
  }
  const sets: DepthSet[] = [];
  for (let i = 0; i < positions(spec); i++) {
    // a column that is gone is told once for the whole table
    if (columns[i]! < 0) continue;
    const cell = cells[columns[i]!] ?? '';
    const read = parseDepthSet(spec, String(cell));
    if (read.ok) sets.push(read.value);
    else problems.push(...chamberProblems(places[i]!, read.error));
  }
  return sets.length === positions(spec) ? sets : undefined;
}

function reportExtra(
  spec: Specification,
  columns: readonly number[],
  cells: TableReading['values'][number],
  table: TableReading,
  row: number,
  problems: Problem[],
): void {
  for (const c of columns.slice(positions(spec))) {
    if (isBlank(cells[c])) continue;
    problems.push({
      ...place(table.sheet, row, table.box.column + c),
      severity: 'warning',
      sentence: `${spec.name} has ${positions(spec)} chambers, so this cell is not read. Clear it, or check the spec.`,
    });
  }
}

/** The cells of a cylinder's row in the order of `CYLINDER_COLUMNS`, without the formula. */
export function cylinderRow(
  cylinder: CylinderRecord,
  spec: Specification,
  beside: { readonly system: string; readonly location?: string | undefined },
): CellInput[] {
  return [
    beside.system,
    cylinder.id,
    cylinder.door ?? '',
    beside.location ?? '',
    cylinder.symbol,
    cylinder.keyway ?? '',
    ...CHAMBERS.map((c) =>
      c > positions(spec) ? '' : formatDepthSet(spec, cylinder.chambers[c - 1] ?? NONE),
    ),
    cylinder.control ? formatBitting(spec, cylinder.control) : '',
    spec.name,
    '',
    '',
  ];
}
