/**
 * The rows of a sheet for the file. What is as it was keeps its text to the letter; a cell whose result alone
 * changed keeps its formula's element; anything else is written anew.
 */
import { cellAddress, contains, MAX_COLUMNS } from '../model/address.ts';
import type { SheetModel } from '../model/sheet.ts';
import type { Shift } from '../model/shift.ts';
import type { TableModel } from '../model/tables.ts';
import type { Cell, CellValue } from '../model/types.ts';
import type { SheetBaseline } from './book.ts';
import { equal } from './equal.ts';
import { traceOrigins, type Origins } from './origins.ts';
import { areaRef } from './refs.ts';
import { formulaOf, scanCells, scanRows, type ScannedCell, type ScannedRow } from './sheetScan.ts';
import { type StyleTable } from './styles.ts';
import { attributeText } from './xml.ts';
import { cellXml, storedError, valueXml, type CellContext } from './writeCell.ts';

export interface GridSource {
  readonly sheet: SheetModel;
  readonly baseline: SheetBaseline | undefined;
  /** The rows' text in the opened file. */
  readonly grid: string;
  readonly tables: readonly TableModel[];
  readonly shifts: readonly Shift[];
  readonly styles: StyleTable;
  readonly context: CellContext;
}

interface Old {
  readonly rows: Map<number, ScannedRow>;
  readonly cells: Map<number, ScannedCell>;
}

type Placed = readonly [column: number, cell: Cell];

/** The new text between the tags of `<sheetData>`; the old one where nothing changed. */
export function writeGrid(source: GridSource): string {
  const old: Old = { rows: new Map(), cells: new Map() };
  for (const row of scanRows(source.grid)) {
    old.rows.set(row.row, row);
    for (const cell of scanCells(row)) old.cells.set(cell.row * MAX_COLUMNS + cell.column, cell);
  }
  return new GridWriter(source, old).write();
}

class GridWriter {
  private readonly origins: Origins;
  private readonly baseCells: ReadonlyMap<number, Cell>;
  /** Groups of shared formulas of which a member changed: all their cells get formulas of their own. */
  private readonly broken = new Set<string>();
  private readonly headers = new Map<number, string>();

  constructor(
    private readonly source: GridSource,
    private readonly old: Old,
  ) {
    this.baseCells = source.baseline?.cells ?? new Map<number, Cell>();
    this.origins = traceOrigins(this.baseCells, old.rows.keys(), source.shifts);
    for (const table of source.tables)
      if (table.showHeaders)
        table.columns.forEach((column, i) =>
          this.headers.set(table.area.row * MAX_COLUMNS + table.area.column + i, column.name),
        );
    this.findBroken();
  }

  write(): string {
    const rows = this.gatherRows();
    const numbers = [...new Set([...rows.keys(), ...this.rowsWithLayout()])].sort((a, b) => a - b);
    const out: string[] = [];
    let changed = numbers.length !== this.old.rows.size;
    for (const row of numbers) {
      const xml = this.rowXml(row, rows.get(row) ?? []);
      if (xml !== this.old.rows.get(row)?.xml) changed = true;
      out.push(xml);
    }
    return changed ? out.join('') : this.source.grid;
  }

  private gatherRows(): Map<number, Placed[]> {
    const rows = new Map<number, Placed[]>();
    const put = (row: number, column: number, cell: Cell): void => {
      const list = rows.get(row);
      if (list === undefined) rows.set(row, [[column, cell]]);
      else list.push([column, cell]);
    };
    const missing = new Map(this.headers);
    for (const { row, column, cell } of this.source.sheet.cells.all()) {
      const key = row * MAX_COLUMNS + column;
      const header = this.headers.get(key);
      missing.delete(key);
      put(row, column, header === undefined ? cell : asHeader(cell, header));
    }
    for (const [key, name] of missing) put(Math.floor(key / MAX_COLUMNS), key % MAX_COLUMNS, { value: name });
    for (const list of rows.values()) list.sort((a, b) => a[0] - b[0]);
    return rows;
  }

  /** Rows that must be there for their own sake: heights, hiding, formats, outline. */
  private *rowsWithLayout(): Generator<number> {
    const { layout } = this.source.sheet;
    yield* layout.rowHeights.keys();
    yield* layout.hiddenRows;
    yield* layout.filteredRows;
    yield* layout.rowStyles.keys();
    if (this.source.shifts.length === 0) yield* this.old.rows.keys();
  }

  private findBroken(): void {
    for (const [key, scanned] of this.old.cells) {
      if (!scanned.inside.includes('t="shared"')) continue;
      const group = formulaOf(scanned.inside)?.attributes['si'];
      if (group === undefined || this.broken.has(group)) continue;
      const now = this.source.sheet.cells.get(scanned.row, scanned.column);
      if (now?.formula !== this.baseCells.get(key)?.formula || this.origins.cell(key, now) !== key)
        this.broken.add(group);
    }
  }

  private rowXml(row: number, cells: readonly Placed[]): string {
    const originRow = this.origins.row(row);
    const old = originRow === undefined ? undefined : this.old.rows.get(originRow);
    const parts = cells.map(([column, cell]) => this.cellText(row, column, cell));
    const attributes = this.rowAttributes(row, old);
    if (old !== undefined && old.row === row && attributes === undefined && this.isWhole(old, parts))
      return old.xml;
    const open = attributes ?? old?.open ?? ` r="${String(row + 1)}"`;
    // A span that no longer holds is worse than none.
    const clean = open.replace(/\s+spans="[^"]*"/, '').trimEnd();
    return parts.length === 0 ? `<row${clean}/>` : `<row${clean}>${parts.join('')}</row>`;
  }

  /** Whether the row's cells, as text, are just the ones it had; bare cells that say nothing do not count. */
  private isWhole(old: ScannedRow, parts: readonly string[]): boolean {
    const before: string[] = [];
    for (const cell of scanCells(old))
      if (this.baseCells.has(cell.row * MAX_COLUMNS + cell.column)) before.push(cell.xml);
    return before.length === parts.length && before.every((xml, i) => xml === parts[i]);
  }

  /** The row's attributes where they differ from the file's, else undefined. */
  private rowAttributes(row: number, old: ScannedRow | undefined): string | undefined {
    const { layout } = this.source.sheet;
    const before = this.source.baseline?.layout;
    const was = old?.row ?? row;
    const height = layout.rowHeights.get(row);
    const hidden = layout.hiddenRows.has(row) || layout.filteredRows.has(row);
    const style = layout.rowStyles.get(row);
    const sameHeight = old !== undefined ? before?.rowHeights.get(was) === height : height === undefined;
    const wasHidden =
      old !== undefined && (before?.hiddenRows.has(was) === true || before?.filteredRows.has(was) === true);
    const sameStyle = old !== undefined ? equal(before?.rowStyles.get(was), style) : style === undefined;
    if (old !== undefined && old.row === row && sameHeight && hidden === wasHidden && sameStyle)
      return undefined;
    let open = old?.open ?? '';
    const set = (name: string, value: string | undefined): void => {
      open =
        open.replace(new RegExp(`\\s+${name}="[^"]*"`), '') +
        (value === undefined ? '' : ` ${name}="${value}"`);
    };
    open = ` r="${String(row + 1)}"${open.replace(/\s+r="[^"]*"/, '').trimEnd()}`;
    if (!sameHeight) {
      set('ht', height === undefined ? undefined : String(height));
      set('customHeight', height === undefined ? undefined : '1');
    }
    if (hidden !== wasHidden) set('hidden', hidden ? '1' : undefined);
    if (!sameStyle) {
      set('s', style === undefined ? undefined : String(this.source.styles.formatFor(style)));
      set('customFormat', style === undefined ? undefined : '1');
    }
    return open;
  }

  private cellText(row: number, column: number, cell: Cell): string {
    const key = row * MAX_COLUMNS + column;
    const from = this.origins.cell(key, cell);
    const before = from === undefined ? undefined : this.baseCells.get(from);
    const old = from === undefined ? undefined : this.old.cells.get(from);
    const format = this.formatOf(cell, before, row, column);
    if (
      before !== undefined &&
      old !== undefined &&
      cell.formula === before.formula &&
      format === (before.fileFormat ?? 0)
    ) {
      const kept = this.keptText(cell, before, old, row, column);
      if (kept !== undefined) return kept;
    }
    const table = this.source.tables.find((own) => contains(own.area, row, column))?.name;
    return cellXml(cell, { row, column, format, table }, this.source.context);
  }

  /** The old element, with place and result brought up to date; undefined where it must be written anew. */
  private keptText(
    cell: Cell,
    before: Cell,
    old: ScannedCell,
    row: number,
    column: number,
  ): string | undefined {
    const formula = formulaOf(old.inside);
    const group = formula?.attributes['si'];
    if (group !== undefined && this.broken.has(group)) return undefined;
    const sameSpot = old.row === row && old.column === column;
    const sameValue = cell === before || keepsResult(cell, before);
    const sameSpill = equal(cell.spill, before.spill) || old.attributes['cm'] === undefined;
    if (sameValue && sameSpill && sameSpot) return old.xml;
    const isArray = formula?.attributes['t'] === 'array';
    if (sameValue && sameSpill && !isArray)
      return old.xml.replace(
        /^<c\b[^>]*?(?=\/?>)/,
        (head) => `${head.replace(/\s+r="[^"]*"/, '').replace(/^<c/, `<c r="${cellAddress(row, column)}"`)}`,
      );
    if (formula === undefined) return undefined;
    const span = cell.spill ?? { rows: 1, columns: 1 };
    const rewritten =
      !isArray || (sameSpot && sameSpill)
        ? formula.xml
        : formula.xml.replace(/\bref="[^"]*"/, `ref="${areaRef({ row, column, ...span })}"`);
    const kept: Record<string, string> = { ...old.attributes, r: cellAddress(row, column) };
    delete kept['t'];
    delete kept['vm'];
    const { type, inside } = sameValue
      ? this.oldValue(old, formula.xml)
      : valueXml(cell.value, true, this.source.context.strings);
    return `<c${attributeText(kept)}${type}>${rewritten}${inside}</c>`;
  }

  private oldValue(old: ScannedCell, formula: string): { type: string; inside: string } {
    const type = old.attributes['t'];
    return { type: type === undefined ? '' : ` t="${type}"`, inside: old.inside.replace(formula, '') };
  }

  private formatOf(cell: Cell, before: Cell | undefined, row: number, column: number): number {
    if (cell.fileFormat !== undefined) return cell.fileFormat;
    if (cell.style === undefined) return 0;
    const base =
      before?.fileFormat ??
      Number(
        this.source.baseline?.rows.get(row)?.['s'] ?? this.source.baseline?.columnFormats.get(column) ?? 0,
      );
    return this.source.styles.formatFor(cell.style, base);
  }
}

/** A table's header must be the text that the table's part names, or Excel calls the file damaged. */
function asHeader(cell: Cell, name: string): Cell {
  if (cell.value === name && cell.formula === undefined) return cell;
  const header: Cell = { ...cell, value: name };
  delete header.formula;
  return header;
}

/**
 * Whether the file's stored result may stay: it is the same, or differs only in the last digits, or the engine here
 * does not know a function and the file's own result is better than `#NAME?`.
 */
function keepsResult(cell: Cell, before: Cell): boolean {
  if (sameValue(cell.value, before.value)) return true;
  if (cell.formula === undefined) return false;
  if (typeof cell.value === 'number' && typeof before.value === 'number')
    return (
      Math.abs(cell.value - before.value) <= 1e-13 * Math.max(Math.abs(cell.value), Math.abs(before.value))
    );
  return (
    storedError(cell.value) === '#NAME?' && before.value !== null && storedError(before.value) === undefined
  );
}

function sameValue(a: CellValue, b: CellValue): boolean {
  const [left, right] = [storedError(a), storedError(b)];
  return left !== undefined || right !== undefined ? left === right : a === b;
}
