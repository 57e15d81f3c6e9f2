/** From a reading to what the keying room audits, and from its findings back to the cells. */
import type { Finding } from '../keying/findings.ts';
import { intendedByHierarchy } from '../keying/intended.ts';
import { enteringOf } from '../keying/shop.ts';
import type { CylinderRecord, KeyRecord, KeySystem } from '../keying/system.ts';
import { systemNamed } from './find.ts';
import { fold } from './names.ts';
import { place, type Place } from './places.ts';
import { readShop } from './tableShop.ts';
import type { BookReading, CylinderRow, GridReading, KeyRow, SystemReading } from './reading.ts';

/** A system ready for the audit, as plain data that can be posted to a worker. */
export interface SystemAudit {
  readonly system: KeySystem;
  /** Which key must operate which cylinder: the grid's marks; where the grid has no column or row, the hierarchy. */
  readonly marks: readonly { readonly key: string; readonly cylinder: string }[];
  /** Rows left out because they could not be read. */
  readonly leftOut: { readonly keys: readonly string[]; readonly cylinders: readonly string[] };
}

/**
 * Undefined where there is no such system or its spec could not be read.
 * @example auditInput(book, 'School')?.marks → [{ key: 'AA1', cylinder: '1' }, { key: 'AA', cylinder: '1' }, …]
 */
export function auditInput(book: BookReading, name: string): SystemAudit | undefined {
  const reading = systemNamed(book, name);
  if (!reading?.spec) return undefined;
  const entering = enteringOf(readShop(book).blanks);
  const keys = reading.keys.flatMap((row): KeyRecord[] => (row.record ? [row.record] : []));
  const cylinders = reading.cylinders.flatMap((row) => recordOf(row));
  return {
    system: {
      name: reading.name,
      spec: reading.spec,
      keys,
      cylinders,
      ...(reading.topMaster && { topMaster: reading.topMaster }),
      ...(reading.array && { array: reading.array }),
      ...(entering && { enters: entering }),
    },
    marks: marksOf(reading.grid, keys, cylinders),
    leftOut: {
      keys: reading.keys.filter((row) => !row.record).map(nameOfKey),
      cylinders: reading.cylinders.filter((row) => !row.chambers).map(nameOfCylinder),
    },
  };
}

/** Rows that could be read, numbered as the audit numbers its keys and cylinders. */
export const auditedKeys = ({ keys }: SystemReading): KeyRow[] => keys.filter((row) => row.record);
export const auditedCylinders = ({ cylinders }: SystemReading): CylinderRow[] =>
  cylinders.filter((row) => row.chambers);

const nameOfKey = (row: KeyRow): string => row.symbol || row.at.row.address;
const nameOfCylinder = (row: CylinderRow): string => row.id || row.at.row.address;

function recordOf(row: CylinderRow): CylinderRecord[] {
  if (!row.chambers) return [];
  const { id, symbol, door, keyway, chambers, control } = row;
  return [
    {
      id,
      symbol,
      chambers,
      ...(door && { door }),
      ...(keyway && { keyway }),
      ...(control && { control }),
    },
  ];
}

function marksOf(
  grid: GridReading | undefined,
  keys: readonly KeyRecord[],
  cylinders: readonly CylinderRecord[],
): SystemAudit['marks'] {
  const columns = new Set([...(grid?.keys.keys() ?? [])].map(fold));
  const rows = new Set([...(grid?.cylinders.keys() ?? [])].map(fold));
  const marked = new Map<string, string[]>();
  for (const { key, cylinder } of grid?.marks ?? []) {
    const list = marked.get(fold(cylinder));
    if (list) list.push(key);
    else marked.set(fold(cylinder), [key]);
  }
  return intendedByHierarchy(keys, cylinders).flatMap((indices, c) => {
    const cylinder = cylinders[c]!.id;
    const inGrid = rows.has(fold(cylinder));
    const implied = indices
      .map((k) => keys[k]!.symbol)
      .filter((symbol) => !inGrid || !columns.has(fold(symbol)));
    return [...(marked.get(fold(cylinder)) ?? []), ...implied].map((key) => ({ key, cylinder }));
  });
}

/** Look-up tables of a system, made once: an audit can have thousands of findings. */
interface Index {
  readonly keys: ReadonlyMap<string, KeyRow>;
  readonly cylinders: ReadonlyMap<string, CylinderRow>;
  readonly columns: ReadonlyMap<string, number>;
  readonly rows: ReadonlyMap<string, number>;
}
const indices = new WeakMap<SystemReading, Index>();

function indexOf(system: SystemReading): Index {
  let index = indices.get(system);
  if (!index) {
    const folded = (map: ReadonlyMap<string, number> | undefined): Map<string, number> =>
      new Map([...(map ?? [])].map(([name, at]) => [fold(name), at]));
    // a symbol's live row wins over one whose bitting is retired
    const live = (row: KeyRow): number => (row.status === 'issued' || row.status === 'reserved' ? 1 : 0);
    const sorted = [...system.keys].sort((a, b) => live(a) - live(b));
    index = {
      keys: new Map(sorted.map((row) => [fold(row.symbol), row])),
      cylinders: new Map(system.cylinders.map((row) => [fold(row.id), row])),
      columns: folded(system.grid?.keys),
      rows: folded(system.grid?.cylinders),
    };
    indices.set(system, index);
  }
  return index;
}

/** Key and cylinder that a finding names, where it does. */
export function namesIn(finding: Finding): {
  readonly key?: string;
  readonly cylinder?: string;
  readonly chamber?: number;
} {
  return {
    ...('key' in finding && { key: finding.key }),
    ...(finding.code === 'key-missing' && { key: finding.symbol }),
    ...('cylinder' in finding && { cylinder: finding.cylinder }),
    ...('chamber' in finding && { chamber: finding.chamber }),
  };
}

/**
 * Cells that a finding is about, the one to go to first: the grid's cell where key and cylinder cross, the key's
 * bitting, the cylinder's chamber.
 */
export function placesOf(system: SystemReading, finding: Finding): Place[] {
  const { keys, cylinders, columns, rows } = indexOf(system);
  const names = namesIn(finding);
  const key = names.key === undefined ? undefined : keys.get(fold(names.key));
  const cylinder = names.cylinder === undefined ? undefined : cylinders.get(fold(names.cylinder));
  const places: Place[] = [];
  const column = names.key === undefined ? undefined : columns.get(fold(names.key));
  const row = names.cylinder === undefined ? undefined : rows.get(fold(names.cylinder));
  if (system.grid && column !== undefined && row !== undefined)
    places.push(place(system.grid.box.sheet, row, column));
  if (finding.code === 'key-missing' && cylinder) places.push(cylinder.at.symbol);
  if (key) places.push(finding.code === 'parent-missing' ? key.at.symbol : key.at.bitting);
  if (finding.code === 'same-bitting') {
    const other = keys.get(fold(finding.other));
    if (other) places.push(other.at.bitting);
  }
  if (cylinder) places.push(chamberPlace(cylinder, names.chamber, finding));
  return places;
}

/** Findings about the control cuts, which have a cell of their own. */
const CONTROL_CODES: ReadonlySet<Finding['code']> = new Set<Finding['code']>([
  'control-is-incidental',
  'core-without-control',
]);

function chamberPlace(cylinder: CylinderRow, chamber: number | undefined, finding: Finding): Place {
  if (CONTROL_CODES.has(finding.code) && cylinder.at.control) return cylinder.at.control;
  return (chamber === undefined ? undefined : cylinder.at.chambers[chamber - 1]) ?? cylinder.at.row;
}
