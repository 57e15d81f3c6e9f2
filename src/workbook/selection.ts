/** What the selected cell is, and following the selection while the pane is open. */
import { toCells } from './cells.ts';
import { columnOf } from './columns.ts';
import { explain } from './excelErrors.ts';
import { runExcel } from './excelRun.ts';
import { findTable } from './find.ts';
import { fold, TABLES } from './names.ts';
import { contains, parseAddress, place, type Place } from './places.ts';
import { HOLDERS_TABLE } from './tableHolders.ts';
import { LEDGER_TABLE } from './tableLedger.ts';
import type { BookReading, CellValue, CylinderRow, KeyRow, SpecReading, SystemReading } from './reading.ts';

export type SelectedSubject =
  | { readonly kind: 'key'; readonly system: SystemReading; readonly key: KeyRow; readonly at: Place }
  | {
      readonly kind: 'cylinder';
      readonly system: SystemReading;
      readonly cylinder: CylinderRow;
      readonly at: Place;
    }
  | {
      readonly kind: 'grid';
      readonly system: SystemReading;
      readonly key?: KeyRow;
      readonly cylinder?: CylinderRow;
      readonly marked: boolean;
      readonly at: Place;
    }
  | { readonly kind: 'spec'; readonly spec: SpecReading; readonly at: Place }
  /** A row of the list of holders, or of the ledger where it names one. */
  | { readonly kind: 'holder'; readonly name: string; readonly at: Place }
  | { readonly kind: 'other'; readonly at: Place; readonly value: CellValue };

/** What a selected cell is, by its place in the last reading. */
export function subjectAt(book: BookReading, at: Place, value: CellValue = ''): SelectedSubject {
  const other: SelectedSubject = { kind: 'other', at, value };
  const cell = parseAddress(at.address);
  if (!cell) return other;
  const within = (name: string): boolean => {
    const table = findTable(book.tables, name);
    return (
      table !== undefined &&
      fold(table.sheet) === fold(at.sheet) &&
      contains(table.box, cell.row, cell.column)
    );
  };
  const rowOf = (p: Place): number => parseAddress(p.address)?.row ?? -1;
  if (within(TABLES.Specs)) {
    const spec = book.specs.find((s) => rowOf(s.at) === cell.row);
    return spec ? { kind: 'spec', spec, at } : other;
  }
  for (const name of [HOLDERS_TABLE, LEDGER_TABLE]) {
    if (!within(name)) continue;
    const table = findTable(book.tables, name)!;
    const holder = String(
      table.values[cell.row - table.box.row - 1]?.[columnOf(table, 'Holder')] ?? '',
    ).trim();
    return holder === '' ? other : { kind: 'holder', name: holder, at };
  }
  const inKeys = within(TABLES.Keys);
  const inCylinders = within(TABLES.Cylinders);
  for (const system of book.systems) {
    const key = inKeys && system.keys.find((k) => rowOf(k.at.row) === cell.row);
    if (key) return { kind: 'key', system, key, at };
    const cylinder = inCylinders && system.cylinders.find((c) => rowOf(c.at.row) === cell.row);
    if (cylinder) return { kind: 'cylinder', system, cylinder, at };
    const { grid } = system;
    if (grid && fold(grid.box.sheet) === fold(at.sheet) && contains(grid.box, cell.row, cell.column))
      return gridSubject(system, grid, cell, at);
  }
  return other;
}

function gridSubject(
  system: SystemReading,
  grid: NonNullable<SystemReading['grid']>,
  cell: { readonly row: number; readonly column: number },
  at: Place,
): SelectedSubject {
  const nameAt = (map: ReadonlyMap<string, number>, index: number): string | undefined =>
    [...map].find(([, i]) => i === index)?.[0];
  const symbol = nameAt(grid.keys, cell.column);
  const id = nameAt(grid.cylinders, cell.row);
  const key = symbol === undefined ? undefined : system.keys.find((k) => fold(k.symbol) === fold(symbol));
  const cylinder = id === undefined ? undefined : system.cylinders.find((c) => fold(c.id) === fold(id));
  const { address } = place(at.sheet, cell.row, cell.column);
  return {
    kind: 'grid',
    system,
    marked: grid.marks.some((mark) => mark.at.address === address),
    at,
    ...(key && { key }),
    ...(cylinder && { cylinder }),
  };
}

/**
 * Calls back with the active cell at once and after each change; the result stops it. While one look-up runs,
 * further changes are gathered into one more.
 */
export async function watchSelection(
  onSelect: (at: Place, value: CellValue) => void,
): Promise<() => Promise<void>> {
  let looking = false;
  let again = false;
  let stopped = false;
  const look = async (): Promise<void> => {
    if (looking) {
      again = true;
      return;
    }
    looking = true;
    do {
      again = false;
      const found = await activeCell();
      if (found && !stopped) onSelect(found.at, found.value);
    } while (again && !stopped);
    looking = false;
  };
  const handle = await runExcel(async (context) => {
    const added = context.workbook.onSelectionChanged.add(look);
    await context.sync();
    return added;
  });
  await look();
  return async () => {
    stopped = true;
    await Excel.run(handle.context, async (context) => {
      handle.remove();
      await context.sync();
    });
  };
}

/** Undefined where there is none: a chart is selected, or a cell is being edited. */
async function activeCell(): Promise<{ at: Place; value: CellValue } | undefined> {
  try {
    return await runExcel(async (context) => {
      const cell = context.workbook.getActiveCell();
      cell.load('rowIndex,columnIndex,values');
      cell.worksheet.load('name');
      await context.sync();
      return {
        at: place(cell.worksheet.name, cell.rowIndex, cell.columnIndex),
        value: toCells(cell.values)[0]?.[0] ?? '',
      };
    });
  } catch (error) {
    explain(error);
    return undefined;
  }
}

/** Shows a cell. False where its sheet is gone or hidden. */
export async function goTo(at: Place): Promise<boolean> {
  try {
    return await runExcel(async (context) => {
      const sheet = context.workbook.worksheets.getItemOrNullObject(at.sheet);
      sheet.load('visibility');
      await context.sync();
      if (sheet.isNullObject || sheet.visibility !== 'Visible') return false;
      sheet.activate();
      sheet.getRange(at.address).select();
      await context.sync();
      return true;
    });
  } catch (error) {
    explain(error);
    return false;
  }
}
