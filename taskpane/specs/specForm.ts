/**
 * The spec as a form: the cells of its row in the Specs table as text, read by the same reader as the table, so that
 * form and sheet can't disagree. Depths stand one a line; a line copied from a data sheet (symbol, tab, root) is
 * taken as well as `0=0.335`.
 */
import {
  foldName,
  readSpecTable,
  SPEC_COLUMNS,
  specTableRow,
  type SpecColumn,
  type SpecTableFault,
} from '../../src/keying/specTable.ts';
import type { Specification } from '../../src/keying/specification.ts';
import type { Unit } from '../../src/keying/units.ts';

export type SpecForm = Readonly<Record<SpecColumn, string>>;

export interface SpecFormReading {
  /** Absent when a field has a fault. */
  readonly spec?: Specification;
  /** The dimensions as soon as they are complete: a name, and the MACS that geometry gives, can come later. */
  readonly shape?: Specification;
  /** The first fault of each field. */
  readonly faults: ReadonlyMap<SpecColumn, SpecTableFault>;
}

const LISTS: readonly SpecColumn[] = ['Depths', 'Pins'];

/** The form that stands for a spec. `readSpecForm(specForm(spec)).spec` has the same dimensions. */
export function specForm(spec: Specification): SpecForm {
  const row = specTableRow(spec);
  const entries = SPEC_COLUMNS.map((column, i) => {
    const text = String(row[i] ?? '');
    return [column, LISTS.includes(column) ? text.replaceAll('; ', '\n') : text] as const;
  });
  return Object.fromEntries(entries) as Record<SpecColumn, string>;
}

/** A form to start an own spec from: only what has an everyday answer is filled in. */
export function emptySpecForm(unit: Unit = 'in'): SpecForm {
  const blank = Object.fromEntries(SPEC_COLUMNS.map((c) => [c, ''])) as Record<SpecColumn, string>;
  return { ...blank, Unit: unit, Gauge: 'shoulder', Order: 'bow-to-tip', Cuts: '6' };
}

/** Lets the dimensions be checked before the spec has a name. */
const STAND_IN = 'unnamed spec';

/** `0 0.335`, `0<tab>0.335` and `0, 0.335` as `0=0.335`; other lines as they are. */
const pairLine = (line: string): string =>
  line.replace(/^\s*([0-9A-Za-z]{1,2})(?:\s+|\s*,\s+)(?=[\d.])/, '$1=');

/** Reads the form: the spec, or the faults by field. `others` are the names already used in the workbook. */
export function readSpecForm(form: SpecForm, others: readonly string[] = []): SpecFormReading {
  const name = form.Name.trim();
  const table = readSpecTable([SPEC_COLUMNS, cellsOf(form, name || STAND_IN)]);
  const faults = new Map<SpecColumn, SpecTableFault>();
  for (const { column, fault } of table.faults) if (!faults.has(column)) faults.set(column, fault);
  if (name === '') faults.set('Name', { code: 'cell-blank' });
  if (!faults.has('Name') && others.some((other) => foldName(other) === foldName(name)))
    faults.set('Name', { code: 'name-repeated', name, row: 0 });
  const spec = table.specs.get(foldName(form.Name));
  const shape = shapeOf(form) ?? shapeOf({ ...form, MACS: '1' });
  return {
    faults,
    ...(spec && faults.size === 0 ? { spec } : {}),
    ...(shape && { shape }),
  };
}

const shapeOf = (form: SpecForm): Specification | undefined =>
  readSpecTable([SPEC_COLUMNS, cellsOf(form, STAND_IN)]).specs.get(STAND_IN);

const cellsOf = (form: SpecForm, name: string): string[] =>
  SPEC_COLUMNS.map((column) => {
    if (column === 'Name') return name;
    return LISTS.includes(column) ? form[column].split('\n').map(pairLine).join('\n') : form[column];
  });
