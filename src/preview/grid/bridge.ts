/**
 * Keeps the grid component and its calculation in step with the model. The model is the truth: whatever changed, the
 * cells concerned are compared and only differences are pushed, so nothing runs in circles. Results of formulas come
 * back from the engine's own messages, which carry them typed and with their spills.
 *
 * The component batches recalculation by 100 ms; `settle` waits for that only when something was pushed.
 */
import {
  ICommandService,
  type ICellData,
  type IDisposable,
  type Univer,
  type Workbook,
} from '@univerjs/core';
import { IFunctionService } from '@univerjs/engine-formula';
import type { FUniver } from '@univerjs/core/facade';
import { MAX_COLUMNS } from '../model/address.ts';
import type { SheetModel } from '../model/sheet.ts';
import type { Area, Change } from '../model/types.ts';
import type { Engine, WorkbookModel } from '../model/workbook.ts';
import type { FunctionTable } from './arguments.ts';
import { cellDifferences } from './cellDifferences.ts';
import { describeFunctions, executorsFor } from './executors.ts';
import { mendFormulaReader } from './plugins.ts';
import { pushLayout, pushNames, pushSheets, type Push } from './pushLayout.ts';
import type { TableView } from './pushTables.ts';
import { Results, type BySheet } from './results.ts';
import { cellContent, sheetSize, workbookData } from './snapshot.ts';

export const SET_VALUES = 'sheet.mutation.set-range-values';
/**
 * Named as the trigger of values that carry formats alone. Without it the component takes a cell without a formula
 * for one that lost its formula, and drops the one it had.
 */
const SET_STYLE = 'sheet.command.set-style';
const ARRAYS = 'formula.mutation.set-array-formula-data';
const RESULT = 'formula.mutation.set-formula-calculation-result';
const NOTICE = 'formula.mutation.set-formula-calculation-notification';
/** The engine's word for a run broken off. */
const STOPPED = 1;
const START = 'formula.mutation.set-formula-calculation-start';

export interface CommandOptions {
  readonly onlyLocal?: boolean;
  readonly fromFormula?: boolean;
}

/** The engine keeps parsed formulas by workbook id for the whole page, so every bridge takes an id of its own. */
let bridges = 0;

export class Bridge implements Engine {
  readonly unit = `k${String(++bridges)}`;
  readonly workbook: Workbook;
  readonly commands: ICommandService;
  /** True while the bridge itself changes the component: such changes are no user's edits. */
  pushing = false;

  private readonly cleanup: (() => void)[] = [];
  private readonly dirty = new Map<string, Area | 'all'>();
  private layoutDirty = new Set<string>();
  private structureDirty = false;
  private namesDirty = false;
  private flushing: ReturnType<typeof setTimeout> | undefined;
  private calculating = false;
  private awaitingStart = false;
  private running = false;
  private waiters: (() => void)[] = [];
  private watchdog: ReturnType<typeof setTimeout> | undefined;
  private readonly results: Results;
  private table: FunctionTable = new Map();
  private generation = 0;

  constructor(
    readonly model: WorkbookModel,
    readonly univer: Univer,
    readonly api: FUniver,
    /** The tables, where the component can show them. */
    private readonly tables: TableView | null = null,
  ) {
    this.commands = univer.__getInjector().get(ICommandService);
    mendFormulaReader(univer);
    this.results = new Results(model, this.unit);
    this.listen();
    const opened = api.createWorkbook(workbookData(model, this.unit));
    this.workbook = opened.getWorkbook();
    this.expectCalculation();
    this.inPush(() => pushNames(this.model, this.push));
    this.inPush(() => tables?.push(this.model, this.push));
    this.cleanup.push(model.subscribe((change) => this.follow(change)));
    model.engine = this;
  }

  /** Makes the add-in's functions known, or replaces them, and calculates everything anew. */
  setFunctions(table: FunctionTable): void {
    this.table = table;
    this.generation++;
    const functions = this.univer.__getInjector().get(IFunctionService);
    functions.registerExecutors(
      ...executorsFor(
        () => this.table,
        (...at) => this.results.note(...at),
      ),
    );
    functions.registerDescriptions(...describeFunctions(table));
    // Formulas parsed before the functions came are remembered as unknown names.
    functions.deleteFormulaAstCacheKey(...table.keys());
    if (this.generation > 1) {
      this.markFormulas();
      this.flush();
    }
    this.calculateAll();
  }

  /**
   * A cell's content for the component. A long formula is remembered under a hash and so cannot be forgotten by
   * name; a blank at its end makes it a new one whenever the functions change.
   */
  content(sheet: SheetModel, row: number, column: number): ICellData {
    const content = cellContent(this.model, sheet, row, column, sheet.cells.get(row, column));
    const formula = content.f;
    if (this.generation < 2 || typeof formula !== 'string' || formula.length <= 50) return content;
    const upper = formula.toUpperCase();
    if (![...this.table.keys()].some((name) => upper.includes(name))) return content;
    return { ...content, f: formula + ' '.repeat(this.generation - 1) };
  }

  /** Calculates every formula. */
  calculateAll(): void {
    this.expectCalculation();
    this.api.getFormula().executeCalculation();
  }

  /** Resolves when everything pushed has been calculated and its results are in the model. */
  async settle(): Promise<void> {
    this.flush();
    while (this.calculating || this.running) {
      await new Promise<void>((resolve) => this.waiters.push(resolve));
      this.flush();
    }
  }

  dispose(): void {
    for (const undo of this.cleanup.splice(0)) undo();
    if (this.flushing !== undefined) clearTimeout(this.flushing);
    if (this.watchdog !== undefined) clearTimeout(this.watchdog);
    if (this.model.engine === this) delete this.model.engine;
    this.finish();
  }

  /** Shows one cell, or everything, as the model has it: after an edit that the model refused. */
  showCell(sheetId: string, row: number, column: number): void {
    this.mark(sheetId, { row, column, rows: 1, columns: 1 });
    this.schedule();
  }

  showAll(): void {
    this.structureDirty = true;
    for (const sheet of this.model.sheets) this.layoutDirty.add(sheet.id);
    this.markFormulas();
    this.schedule();
  }

  /** The model's id of a table by the component's. */
  tableId(viewId: string): string {
    return this.tables?.modelId(viewId) ?? viewId;
  }

  /** Notes that a table the component made is the model's `id`. */
  adopt(viewId: string, id: string): void {
    this.tables?.adopt(viewId, this.model.table(id));
  }

  /** Brings a sheet to the front; without a screen there is no front. */
  activate(sheetId: string): void {
    if (this.workbook.getActiveSheet().getSheetId() !== sheetId && this.workbook.getSheetBySheetId(sheetId))
      this.push('sheet.operation.set-worksheet-active', { subUnitId: sheetId });
  }

  private schedule(): void {
    this.flushing ??= setTimeout(() => this.flush(), 0);
  }

  /** Runs a mutation of the component as the bridge's own. */
  readonly push: Push = (id, params) => {
    this.inPush(() => this.commands.syncExecuteCommand(id, { unitId: this.unit, ...params }));
  };

  private inPush(action: () => void): void {
    const outer = this.pushing;
    this.pushing = true;
    try {
      action();
    } finally {
      this.pushing = outer;
    }
  }

  // ---- the model's changes

  private follow(change: Change): void {
    switch (change.kind) {
      case 'cells':
        // What calculation brought is on show already.
        if (change.origin === 'calculation') return;
        this.mark(change.sheetId, change.area);
        break;
      case 'styles':
        this.mark(change.sheetId, change.area);
        if (change.area.rows > 100_000 || change.area.columns === MAX_COLUMNS)
          this.layoutDirty.add(change.sheetId);
        break;
      case 'inserted':
      case 'deleted':
        this.mark(change.sheetId, 'all');
        this.layoutDirty.add(change.sheetId);
        this.markFormulas();
        this.namesDirty = true;
        break;
      case 'sheet':
        if (change.what === 'layout') this.layoutDirty.add(change.sheetId);
        else this.structureDirty = true;
        if (change.what === 'renamed' || change.what === 'removed' || change.what === 'added')
          this.markFormulas();
        break;
      case 'table':
        this.structureDirty = true;
        this.markFormulas();
        break;
      case 'name':
        this.namesDirty = true;
        break;
      case 'calculate':
        this.calculateAll();
        return;
      default:
        return;
    }
    this.schedule();
  }

  private mark(sheetId: string, area: Area | 'all'): void {
    const before = this.dirty.get(sheetId);
    if (before === 'all') return;
    if (area === 'all' || before === undefined) this.dirty.set(sheetId, area);
    else {
      const row = Math.min(before.row, area.row);
      const column = Math.min(before.column, area.column);
      const rows = Math.max(before.row + before.rows, area.row + area.rows) - row;
      const columns = Math.max(before.column + before.columns, area.column + area.columns) - column;
      this.dirty.set(sheetId, { row, column, rows, columns });
    }
  }

  /** Formulas elsewhere may name what moved or was renamed. */
  private markFormulas(): void {
    for (const sheet of this.model.sheets) this.dirty.set(sheet.id, 'all');
  }

  /**
   * Pushes what has gathered. Not while the engine runs: a formula that changes under it leaves the old one in its
   * tree of dependencies for good. The end of the run comes back here.
   */
  flush(): void {
    if (this.flushing !== undefined) clearTimeout(this.flushing);
    this.flushing = undefined;
    if (this.running) return;
    if (this.structureDirty) {
      this.structureDirty = false;
      this.inPush(() => pushSheets(this.model, this.workbook, this.push));
      this.inPush(() => this.tables?.push(this.model, this.push));
    }
    for (const id of this.layoutDirty) {
      const sheet = this.model.findSheet(id);
      const shown = this.workbook.getSheetBySheetId(id);
      if (sheet !== undefined && shown) this.inPush(() => pushLayout(sheet, shown, this.push));
    }
    this.layoutDirty = new Set();
    if (this.namesDirty) {
      this.namesDirty = false;
      this.inPush(() => pushNames(this.model, this.push));
      this.calculateAll();
    }
    for (const [id, area] of this.dirty) {
      const sheet = this.model.findSheet(id);
      if (sheet !== undefined) this.pushCells(sheet, area);
    }
    this.dirty.clear();
  }

  private pushCells(sheet: SheetModel, area: Area | 'all'): void {
    const shown = this.workbook.getSheetBySheetId(sheet.id);
    if (!shown) return;
    const size = sheetSize(this.model, sheet);
    const at = { subUnitId: sheet.id };
    if (size.rows - 400 > shown.getRowCount())
      this.push('sheet.mutation.set-worksheet-row-count', { ...at, rowCount: size.rows });
    if (size.columns - 20 > shown.getColumnCount())
      this.push('sheet.mutation.set-worksheet-column-count', { ...at, columnCount: size.columns });
    const update = cellDifferences(sheet, shown, this.workbook.getStyles(), area, (row, column) =>
      this.content(sheet, row, column),
    );
    if (update.content) {
      this.expectCalculation();
      this.push(SET_VALUES, { ...at, cellValue: update.content });
    }
    if (update.formats) this.push(SET_VALUES, { ...at, cellValue: update.formats, trigger: SET_STYLE });
  }

  // ---- the engine's results

  private listen(): void {
    const listener: IDisposable = this.commands.onCommandExecuted((command) => {
      if (command.id === START) {
        this.awaitingStart = false;
        this.running = true;
        this.watch(60_000);
      } else if (command.id === ARRAYS) {
        this.results.takeArrays(command.params as Parameters<Results['takeArrays']>[0]);
      } else if (command.id === RESULT)
        this.results.take((command.params as { unitData: BySheet<ICellData> }).unitData);
      else if (command.id === NOTICE) {
        const state = (command.params as { functionsExecutedState?: number }).functionsExecutedState;
        // A stopped run starts again by itself; a run begun before the last change does not count.
        if (state === undefined || state === STOPPED) return;
        this.running = false;
        this.flush();
        if (!this.awaitingStart) this.finish();
      }
    });
    this.cleanup.push(() => listener.dispose());
  }

  private expectCalculation(): void {
    this.calculating = true;
    this.awaitingStart = true;
    this.watch(5_000);
  }

  /** Should the engine stay silent, nobody waits for ever. */
  private watch(limit: number): void {
    if (this.watchdog !== undefined) clearTimeout(this.watchdog);
    this.watchdog = setTimeout(() => this.finish(), limit);
  }

  private finish(): void {
    this.calculating = false;
    this.running = false;
    this.awaitingStart = false;
    if (this.watchdog !== undefined) clearTimeout(this.watchdog);
    this.watchdog = undefined;
    for (const resolve of this.waiters.splice(0)) resolve();
  }
}
