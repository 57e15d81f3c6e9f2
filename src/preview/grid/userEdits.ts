/**
 * What the user does in the grid, told to the model. The component's log of mutations says where something changed;
 * what is there now is compared with the model and sent through its input rules. What the model refuses (a locked
 * cell, a broken formula, a name in use) is put back as it was, with the model's reason.
 */
import type { ICellData, IDisposable } from '@univerjs/core';
import { MAX_COLUMNS, MAX_ROWS } from '../model/address.ts';
import { ModelError } from '../model/error.ts';
import { readInput } from '../model/input.ts';
import type { SheetModel } from '../model/sheet.ts';
import type { CellStyle } from '../model/types.ts';
import type { Input } from '../model/workbook.ts';
import { SET_VALUES, type Bridge, type CommandOptions } from './bridge.ts';
import { layoutOnShow } from './layoutOnShow.ts';
import { areaOf, BOOLEAN, type Range } from './snapshot.ts';
import { fromUniverStyle, styleKey } from './univerStyle.ts';

interface MutationParams {
  unitId?: string;
  subUnitId?: string;
  cellValue?: Record<number, Record<number, ICellData | null> | undefined>;
  range?: Range;
  sheet?: { id: string; name: string };
  index?: number;
  name?: string;
  hidden?: number;
  toOrder?: number;
  tableId?: string;
  config?: { name?: string; updateRange?: { newRange: Range } };
}

/** The mutations after which a sheet's layout is read back. */
const LAYOUT = [
  'sheet.mutation.set-worksheet-col-width',
  'sheet.mutation.set-worksheet-row-height',
  'sheet.mutation.set-col-data',
  'sheet.mutation.set-row-data',
  'sheet.mutation.set-col-hidden',
  'sheet.mutation.set-col-visible',
  'sheet.mutation.set-row-hidden',
  'sheet.mutation.set-row-visible',
  'sheet.mutation.add-worksheet-merge',
  'sheet.mutation.remove-worksheet-merge',
  'sheet.mutation.set-frozen',
  'sheet.mutation.toggle-gridlines',
  'sheet.mutation.set-tab-color',
];

export class UserEdits {
  private readonly listener: IDisposable;
  private readonly touched = new Map<string, Set<number>>();
  private readonly layouts = new Set<string>();
  private waiting = false;
  /** Set while the component follows up a structural change: it shifts formulas itself, and so has the model. */
  private following = false;

  constructor(
    private readonly bridge: Bridge,
    private readonly onRefused: (sentence: string) => void,
  ) {
    this.listener = bridge.commands.onCommandExecuted((command, options) => {
      const params = (command.params ?? {}) as MutationParams;
      const { onlyLocal, fromFormula } = (options ?? {}) as CommandOptions;
      if (bridge.pushing || fromFormula === true || (onlyLocal === true && command.id === SET_VALUES)) return;
      if (params.unitId !== bridge.unit) return;
      this.take(command.id, params);
    });
  }

  dispose(): void {
    this.listener.dispose();
    this.touched.clear();
    this.layouts.clear();
  }

  private take(id: string, params: MutationParams): void {
    if (id === SET_VALUES) {
      if (this.following) return;
      this.touch(params);
    } else if (LAYOUT.includes(id)) this.layouts.add(params.subUnitId ?? '');
    else return this.takeStructure(id, params);
    // A paste or a drag comes as several mutations: they are one edit. Before the engine's timer, so that it never
    // sees a formula in the user's form.
    if (!this.waiting) queueMicrotask(() => this.flush());
    this.waiting = true;
  }

  private touch({ subUnitId = '', cellValue = {} }: MutationParams): void {
    const keys = this.touched.get(subUnitId) ?? new Set<number>();
    this.touched.set(subUnitId, keys);
    for (const [row, columns] of Object.entries(cellValue))
      for (const column of Object.keys(columns ?? {})) keys.add(Number(row) * MAX_COLUMNS + Number(column));
  }

  /** Sends what has gathered to the model, as one edit. */
  flush(): void {
    this.waiting = false;
    const { model } = this.bridge;
    for (const [id, keys] of this.touched) {
      const sheet = model.findSheet(id);
      if (sheet !== undefined)
        this.attempt(() => model.edit('Enter', 'user', () => this.sendCells(sheet, keys)), sheet, keys);
    }
    this.touched.clear();
    for (const id of this.layouts) {
      const sheet = model.findSheet(id);
      const shown = this.bridge.workbook.getSheetBySheetId(id);
      if (sheet !== undefined && shown)
        this.attempt(() => model.setLayout(sheet, layoutOnShow(shown, sheet.layout), 'user'));
    }
    this.layouts.clear();
    this.bridge.flush();
  }

  private attempt(action: () => void, sheet?: SheetModel, keys?: Iterable<number>): void {
    try {
      action();
    } catch (error) {
      if (!(error instanceof ModelError)) throw error;
      this.onRefused(error.message);
      if (sheet === undefined) this.bridge.showAll();
      else
        for (const key of keys ?? [])
          this.bridge.showCell(sheet.id, Math.floor(key / MAX_COLUMNS), key % MAX_COLUMNS);
    }
  }

  private sendCells(sheet: SheetModel, keys: ReadonlySet<number>): void {
    const { bridge } = this;
    const { model } = bridge;
    const shown = bridge.workbook.getSheetBySheetId(sheet.id);
    if (!shown) return;
    const inputs: { row: number; column: number; input: Input }[] = [];
    for (const key of keys) {
      const [row, column] = [Math.floor(key / MAX_COLUMNS), key % MAX_COLUMNS];
      const data = shown.getCellMatrix().getValue(row, column) ?? undefined;
      const style = fromUniverStyle(data?.s ? bridge.workbook.getStyles().getStyleByCell(data) : undefined);
      const before = sheet.cells.get(row, column);
      const restyled = JSON.stringify(style) !== styleKey(before?.style);
      const input = this.inputOf(sheet, row, column, data, style);
      if (
        (restyled || input !== undefined) &&
        sheet.protection !== null &&
        sheet.styleAt(row, column).locked !== false
      )
        throw new ModelError(
          'AccessDenied',
          `The sheet “${sheet.name}” is protected. Unprotect it to change this cell.`,
        );
      if (restyled)
        model.styleEach(sheet, { row, column, rows: 1, columns: 1 }, (was) => replacing(was, style), 'user');
      if (input !== undefined) inputs.push({ row, column, input });
    }
    enterAll(this.bridge, sheet, inputs);
  }

  /** What the user's cell says as typed input; undefined where the model has the same already. */
  private inputOf(
    sheet: SheetModel,
    row: number,
    column: number,
    data: ICellData | undefined,
    style: CellStyle,
  ): Input | undefined {
    const wanted = this.bridge.content(sheet, row, column);
    const formula = typeof data?.f === 'string' && data.f !== '' ? data.f : undefined;
    if (formula !== undefined) return formula.trim() === wanted.f?.trim() ? undefined : formula;
    const cell = sheet.cells.get(row, column);
    if (cell?.spilledFrom !== undefined && data?.v === undefined) return undefined;
    const rich = data?.p?.body?.dataStream.replace(/\r\n$/, '').replaceAll('\r', '\n');
    const value = rich ?? data?.v ?? null;
    const typed = data?.t === BOOLEAN && typeof value === 'number' ? value !== 0 : value;
    const empty = typed === null || typed === '';
    const now = cell?.spilledFrom === undefined ? (cell?.value ?? null) : null;
    if (wanted.f === undefined && (empty ? now === null : typed === now)) return undefined;
    if (empty) return null;
    if (typeof typed !== 'string' || style.numberFormat === '@') return typed;
    // Text that would be read as something else is text because the user or the component said so.
    const read = readInput(typed, { numberFormat: 'General', year: this.bridge.model.year });
    return read.value === typed ? typed : `'${typed}`;
  }

  private takeStructure(id: string, params: MutationParams): void {
    const { model } = this.bridge;
    const sheet = model.findSheet(params.subUnitId ?? '');
    const { range } = params;
    const rows = range === undefined ? 0 : range.endRow - range.startRow + 1;
    const columns = range === undefined ? 0 : range.endColumn - range.startColumn + 1;
    const run = (action: () => void): void => {
      // What the component did to formulas on the way is dropped; the model's own are shown afterwards.
      this.touched.clear();
      if (!this.following) setTimeout(() => this.endFollowing(), 0);
      this.following = true;
      this.attempt(action);
    };
    switch (id) {
      case 'sheet.mutation.insert-row':
        if (sheet && range) run(() => model.insertRows(this.open(sheet), range.startRow, rows, 'user'));
        break;
      case 'sheet.mutation.remove-rows':
        if (sheet && range) run(() => model.deleteRows(this.open(sheet), range.startRow, rows, 'user'));
        break;
      case 'sheet.mutation.insert-col':
        if (sheet && range)
          run(() => model.insertColumns(this.open(sheet), range.startColumn, columns, 'user'));
        break;
      case 'sheet.mutation.remove-col':
        if (sheet && range)
          run(() => model.deleteColumns(this.open(sheet), range.startColumn, columns, 'user'));
        break;
      case 'sheet.mutation.insert-sheet':
        run(() => this.addSheet(params));
        break;
      case 'sheet.mutation.remove-sheet':
        if (sheet) run(() => model.removeSheet(sheet, 'user'));
        break;
      case 'sheet.mutation.set-worksheet-name':
        if (sheet && params.name !== undefined)
          run(() => model.renameSheet(sheet, params.name ?? '', 'user'));
        break;
      case 'sheet.mutation.set-worksheet-hidden':
        if (sheet) run(() => model.showSheet(sheet, params.hidden === 1 ? 'hidden' : 'visible', 'user'));
        break;
      case 'sheet.mutation.set-worksheet-order':
        if (sheet && params.toOrder !== undefined)
          run(() => model.moveSheet(sheet, params.toOrder ?? 0, 'user'));
        break;
      case 'sheet.mutation.add-table':
        if (sheet && range)
          run(() =>
            this.bridge.adopt(
              params.tableId ?? '',
              model.addTable(sheet, areaOf(range), true, 'user', params.name).id,
            ),
          );
        break;
      case 'sheet.mutation.delete-table': {
        const table = model.findTable(this.bridge.tableId(params.tableId ?? ''));
        if (table) run(() => model.removeTable(table.id, true, 'user'));
        break;
      }
      case 'sheet.mutation.set-sheet-table': {
        const table = model.findTable(this.bridge.tableId(params.tableId ?? ''));
        const { name, updateRange } = params.config ?? {};
        if (table && name !== undefined && name !== table.name)
          run(() => model.renameTable(table.id, name, 'user'));
        if (table && updateRange !== undefined)
          run(() => model.resizeTable(table.id, areaOf(updateRange.newRange), 'user'));
        break;
      }
      default:
    }
  }

  private endFollowing(): void {
    this.following = false;
    this.bridge.showAll();
  }

  /** The sheet, unless it is protected. */
  private open(sheet: SheetModel): SheetModel {
    if (sheet.protection === null) return sheet;
    throw new ModelError(
      'AccessDenied',
      `The sheet “${sheet.name}” is protected. Unprotect it to insert or delete cells.`,
    );
  }

  /** The component names its new sheets by ids of its own; the model's sheet takes its place. */
  private addSheet({ sheet, index }: MutationParams): void {
    if (sheet === undefined) return;
    const { bridge } = this;
    const source = bridge.workbook.getSheetBySheetId(sheet.id);
    const added = bridge.model.addSheet(sheet.name, 'user', index);
    const cells: { row: number; column: number; data: ICellData; style: CellStyle }[] = [];
    source?.getCellMatrix().forValue((row, column, data) => {
      if (data)
        cells.push({
          row,
          column,
          data,
          style: fromUniverStyle(data.s ? bridge.workbook.getStyles().getStyleByCell(data) : undefined),
        });
    });
    bridge.model.edit('Copy sheet', 'user', () => {
      const inputs: { row: number; column: number; input: Input }[] = [];
      for (const { row, column, data, style } of cells) {
        if (Object.keys(style).length > 0)
          bridge.model.style(added, { row, column, rows: 1, columns: 1 }, style, 'user');
        const input = this.inputOf(added, row, column, data, style);
        if (input !== undefined) inputs.push({ row, column, input });
      }
      enterAll(bridge, added, inputs);
    });
    // Pushing removes the component's own sheet, so it happens outside the mutation that is still running.
    setTimeout(() => {
      bridge.flush();
      bridge.activate(added.id);
    }, 0);
  }
}

/** A style patch that takes away what the new style lacks; locking is not the component's business. */
function replacing(before: CellStyle, style: CellStyle): CellStyle {
  const cleared = Object.fromEntries(
    Object.keys(before)
      .filter((key) => key !== 'locked')
      .map((key) => [key, undefined]),
  );
  return { ...cleared, ...style } as CellStyle;
}

/** Enters inputs as one block where they lie together. */
function enterAll(
  bridge: Bridge,
  sheet: SheetModel,
  inputs: readonly { row: number; column: number; input: Input }[],
): void {
  if (inputs.length === 0) return;
  let [top, left, bottom, right] = [MAX_ROWS, MAX_COLUMNS, 0, 0];
  for (const { row, column } of inputs) {
    top = Math.min(top, row);
    left = Math.min(left, column);
    bottom = Math.max(bottom, row);
    right = Math.max(right, column);
  }
  const area = { row: top, column: left, rows: bottom - top + 1, columns: right - left + 1 };
  if (area.rows * area.columns > 4 * inputs.length + 64) {
    for (const { row, column, input } of inputs) bridge.model.enter(sheet, row, column, input, 'user');
    return;
  }
  const block: (Input | undefined)[][] = Array.from({ length: area.rows }, () => []);
  for (const { row, column, input } of inputs) {
    const line = block[row - top];
    if (line !== undefined) line[column - left] = input;
  }
  bridge.model.enterBlock(sheet, area, block, 'user');
}
