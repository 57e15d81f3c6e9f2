/**
 * One row of the `Specs` table ↔ one specification. Reading and writing are inverse (a property test holds that):
 * lengths go out as plain numbers of the spec's own unit, and even spacing as first cut and spacing.
 */
import {
  cellText,
  isBlank,
  lengthText,
  readChoiceCell,
  readLengthCell,
  readLengthList,
  readNumberCell,
  readSymbolList,
  type Cell,
  type CellFault,
} from './specCells.ts';
import { assert, type Result } from './result.ts';
import {
  evenCentres,
  GAUGES,
  makeSpecification,
  ORDERS,
  positions,
  type Depth,
  type Specification,
  type SpecificationDraft,
  type SpecificationFault,
} from './specification.ts';
import { lengthOf, toUnit, UNITS, type Length, type Unit } from './units.ts';

/** Headers of the `Specs` table, in the order in which it is laid out. */
export const SPEC_COLUMNS = [
  'Name',
  'Title',
  'Unit',
  'Gauge',
  'Order',
  'Cuts',
  'First cut',
  'Spacing',
  'Centres',
  'Depths',
  'Root width',
  'Angle',
  'MACS',
  'Step',
  'Tolerance',
  'Blade height',
  'Plug diameter',
  'Target stack',
  'Core total',
  'Core addition',
  'Pins',
  'Source',
] as const;
export type SpecColumn = (typeof SPEC_COLUMNS)[number];

/** Columns without which no spec can be read; the others may be missing or blank. */
export const NEEDED_COLUMNS: readonly SpecColumn[] = [
  'Name',
  'Unit',
  'Gauge',
  'Order',
  'Cuts',
  'Depths',
  'Root width',
  'Angle',
  'MACS',
];

export type SpecRowFault =
  | CellFault
  | { readonly code: 'centres-twice' }
  | { readonly code: 'core-half' }
  | { readonly code: 'pin-without-depth'; readonly symbol: string }
  | SpecificationFault;

export interface ColumnFault {
  readonly column: SpecColumn;
  readonly fault: SpecRowFault;
}

const UNIT_WORDS: Readonly<Record<string, Unit>> = {
  '"': 'in',
  '″': 'in',
  inch: 'in',
  inches: 'in',
  millimetre: 'mm',
  millimetres: 'mm',
  millimeter: 'mm',
  millimeters: 'mm',
};

/**
 * Reads one row, its cells looked up by column, or gives every fault with its column.
 * A blank step or tolerance takes the default; blank optional lengths stay out of the spec.
 */
export function readSpecRow(
  cell: (column: SpecColumn) => Cell,
): Result<Specification, readonly ColumnFault[]> {
  const faults: ColumnFault[] = [];
  function take<T>(column: SpecColumn, read: (cell: Cell) => Result<T, CellFault>): T | undefined {
    const value = cell(column);
    if (isBlank(value)) {
      if (NEEDED_COLUMNS.includes(column)) faults.push({ column, fault: { code: 'cell-blank' } });
      return undefined;
    }
    const result = read(value);
    if (result.ok) return result.value;
    faults.push({ column, fault: result.error });
    return undefined;
  }
  take('Name', () => ({ ok: true, value: '' }));
  const unit = take('Unit', (c) => readChoiceCell(c, UNITS, UNIT_WORDS));
  const lengthIn = (column: SpecColumn): Length | undefined =>
    take(column, (c) => readLengthCell(c, unit ?? 'in'));
  const numberIn = (column: SpecColumn): number | undefined => take(column, readNumberCell);
  const gauge = take('Gauge', (c) => readChoiceCell(c, GAUGES));
  const order = take('Order', (c) => readChoiceCell(c, ORDERS));
  const cuts = numberIn('Cuts');
  const first = lengthIn('First cut');
  const spacing = lengthIn('Spacing');
  const centres = take('Centres', (c) => readLengthList(c, unit ?? 'in'));
  if (centres && (first !== undefined || spacing !== undefined))
    faults.push({ column: 'Centres', fault: { code: 'centres-twice' } });
  const roots = take('Depths', (c) => readSymbolList(c, unit ?? 'in'));
  const pins = take('Pins', (c) => readSymbolList(c, unit ?? 'in')) ?? [];
  const depths = withPins(roots ?? [], pins, faults);
  const rootWidth = lengthIn('Root width');
  const angle = numberIn('Angle');
  const macs = numberIn('MACS');
  const optional = {
    step: numberIn('Step'),
    tolerance: lengthIn('Tolerance'),
    bladeHeight: lengthIn('Blade height'),
    plugDiameter: lengthIn('Plug diameter'),
    targetStack: lengthIn('Target stack'),
    first,
    spacing,
    centres,
    source: cellText(cell('Source')) || undefined,
    core: coreOf(numberIn('Core total'), numberIn('Core addition'), faults),
  };
  if (faults.length > 0) return { ok: false, error: faults };
  const made = makeSpecification({
    name: cellText(cell('Name')),
    title: cellText(cell('Title')),
    unit: unit!,
    gauge: gauge!,
    order: order!,
    positions: cuts!,
    depths,
    rootWidth: rootWidth!,
    angle: angle!,
    macs: macs!,
    ...present(optional),
  });
  if (made.ok) return made;
  return { ok: false, error: made.error.map((fault) => ({ column: columnOf(fault, centres), fault })) };
}

/** The fields that have a value: an optional field is absent, never undefined. */
function present<T extends object>(fields: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  const kept = Object.entries(fields).filter(([, value]) => value !== undefined);
  return Object.fromEntries(kept) as { [K in keyof T]?: Exclude<T[K], undefined> };
}

function withPins(
  roots: readonly [string, Length][],
  pins: readonly [string, Length][],
  faults: ColumnFault[],
): Depth[] {
  const bySymbol = new Map(pins.map(([symbol, pin]) => [symbol.toUpperCase(), pin]));
  const known = new Set(roots.map(([symbol]) => symbol.toUpperCase()));
  for (const [symbol] of pins)
    if (!known.has(symbol.toUpperCase()))
      faults.push({ column: 'Pins', fault: { code: 'pin-without-depth', symbol } });
  return roots.map(([symbol, root]) => {
    const pin = bySymbol.get(symbol.toUpperCase());
    return pin === undefined ? { symbol, root } : { symbol, root, pin };
  });
}

function coreOf(
  total: number | undefined,
  addition: number | undefined,
  faults: ColumnFault[],
): SpecificationDraft['core'] {
  if (total === undefined && addition === undefined) return undefined;
  if (total !== undefined && addition !== undefined) return { total, addition };
  const column = total === undefined ? 'Core total' : 'Core addition';
  // a cell that can't be read is not a missing one
  if (!faults.some((f) => f.column === column)) faults.push({ column, fault: { code: 'core-half' } });
  return undefined;
}

const FIELD_COLUMNS = {
  rootWidth: 'Root width',
  angle: 'Angle',
  tolerance: 'Tolerance',
  bladeHeight: 'Blade height',
  plugDiameter: 'Plug diameter',
  targetStack: 'Target stack',
} as const;

/** The cell to look at for a fault of the whole specification. */
function columnOf(fault: SpecificationFault, centres: readonly Length[] | undefined): SpecColumn {
  switch (fault.code) {
    case 'name-missing':
      return 'Name';
    case 'positions-out-of-range':
      return 'Cuts';
    case 'centres-missing':
      return 'First cut';
    case 'centres-count':
      return 'Centres';
    case 'centres-not-rising':
      return centres ? 'Centres' : fault.position === 1 ? 'First cut' : 'Spacing';
    case 'not-positive':
      return FIELD_COLUMNS[fault.field];
    case 'angle-too-wide':
      return 'Angle';
    case 'macs-bad':
      return 'MACS';
    case 'step-bad':
      return 'Step';
    case 'core-bad':
      return fault.field === 'total' ? 'Core total' : 'Core addition';
    default:
      return 'Depths';
  }
}

/**
 * The cells of a spec's row in the order of `SPEC_COLUMNS`, blank where the spec has no value.
 * @example specTableRow(spec)[9] → '0=0.315; 1=0.297; …'
 */
export function specTableRow(spec: Specification): (string | number)[] {
  const { unit, centres } = spec;
  const plain = (length: Length | undefined): number | '' =>
    length === undefined ? '' : toUnit(length, unit);
  const [first, second] = centres;
  assert(first !== undefined && second !== undefined, 'a spec has two positions or more');
  const spacing = lengthOf(second - first);
  const even = evenCentres(first, spacing, positions(spec)).every((c, i) => c === centres[i]);
  const pairs = (of: (depth: Depth) => Length | undefined): string =>
    spec.depths
      .flatMap((d) => (of(d) === undefined ? [] : [`${d.symbol}=${lengthText(of(d)!, unit)}`]))
      .join('; ');
  const cells: Record<SpecColumn, string | number> = {
    Name: spec.name,
    Title: spec.title,
    Unit: unit,
    Gauge: spec.gauge,
    Order: spec.order,
    Cuts: positions(spec),
    'First cut': even ? plain(first) : '',
    Spacing: even ? plain(spacing) : '',
    Centres: even ? '' : centres.map((c) => lengthText(c, unit)).join('; '),
    Depths: pairs((d) => d.root),
    'Root width': plain(spec.rootWidth),
    Angle: spec.angle,
    MACS: spec.macs,
    Step: spec.step,
    Tolerance: plain(spec.tolerance),
    'Blade height': plain(spec.bladeHeight),
    'Plug diameter': plain(spec.plugDiameter),
    'Target stack': plain(spec.targetStack),
    'Core total': spec.core?.total ?? '',
    'Core addition': spec.core?.addition ?? '',
    Pins: pairs((d) => d.pin),
    Source: spec.source ?? '',
  };
  return SPEC_COLUMNS.map((column) => cells[column]);
}
