/** The model on screen: the grid component in a container, in step with the model both ways. */
import '@univerjs/preset-sheets-core/lib/index.css';
import '@univerjs/preset-sheets-table/lib/index.css';
import { LocaleType, LogLevel, mergeLocales, Univer } from '@univerjs/core';
import { FUniver } from '@univerjs/core/facade';
import { UniverSheetsCorePreset } from '@univerjs/preset-sheets-core';
import coreEnglish from '@univerjs/preset-sheets-core/locales/en-US';
import { UniverSheetsTablePreset } from '@univerjs/preset-sheets-table';
import tableEnglish from '@univerjs/preset-sheets-table/locales/en-US';
import { defaultTheme } from '@univerjs/themes';
import type { Area, Change } from '../model/types.ts';
import type { WorkbookModel } from '../model/workbook.ts';
import type { FunctionTable } from './arguments.ts';
import { Bridge } from './bridge.ts';
import { registerPlugins } from './plugins.ts';
import { TableView } from './pushTables.ts';
import { range } from './snapshot.ts';
import { UserEdits } from './userEdits.ts';

export interface GridOptions {
  /** The add-in's functions, where they are known already; `setFunctions` brings them later. */
  readonly functions?: () => FunctionTable;
  readonly dark?: boolean;
  /** Hears why an edit of the user's was put back. */
  readonly onRefused?: (sentence: string) => void;
}

export interface MountedGrid {
  /** Resolves when the model holds all results. Also reached as `model.engine`. */
  settle(): Promise<void>;
  setFunctions(table: FunctionTable): void;
  setDark(dark: boolean): void;
  dispose(): void;
}

/** Words that the component's English lacks and asks for all the same. */
const MISSING = {
  'sheets-formula': {
    progress: {
      analyzing: 'Analyzing',
      calculating: 'Calculating',
      'array-analysis': 'Analyzing arrays',
      'array-calculation': 'Calculating arrays',
      done: 'Done',
    },
  },
};

/**
 * Shows a model in `container`, which needs a height. One grid for one model; dispose before mounting another.
 *
 * @example const grid = mountGrid(element, book.model, { functions: () => table })
 */
export function mountGrid(
  container: HTMLElement,
  model: WorkbookModel,
  options: GridOptions = {},
): MountedGrid {
  const univer = new Univer({
    theme: defaultTheme,
    darkMode: options.dark === true,
    locale: LocaleType.EN_US,
    locales: { [LocaleType.EN_US]: mergeLocales(coreEnglish, tableEnglish, MISSING) },
    logLevel: LogLevel.WARN,
  });
  const core = UniverSheetsCorePreset({ container, formula: { initialFormulaComputing: 0 } });
  registerPlugins(univer, [...core.plugins, ...UniverSheetsTablePreset().plugins]);
  const api = FUniver.newAPI(univer);
  const bridge = new Bridge(model, univer, api, new TableView());
  const edits = new UserEdits(bridge, options.onRefused ?? (() => undefined));
  if (options.functions !== undefined) bridge.setFunctions(options.functions());
  const unfollow = [followSelection(model, bridge, api), followUndo(model, edits, api)];
  bridge.activate(model.active.id);
  // The component measures itself when the window changes; a pane that opens beside it changes the container alone.
  const observer = new ResizeObserver(() => window.dispatchEvent(new Event('resize')));
  observer.observe(container);
  return {
    settle: () => {
      edits.flush();
      return bridge.settle();
    },
    setFunctions: (table) => bridge.setFunctions(table),
    setDark: (dark) => api.toggleDarkMode(dark),
    dispose: () => {
      observer.disconnect();
      for (const stop of unfollow) stop();
      edits.dispose();
      bridge.dispose();
      univer.dispose();
    },
  };
}

/** Active sheet and selection, both ways. */
function followSelection(model: WorkbookModel, bridge: Bridge, api: FUniver): () => void {
  let telling = false;
  const tell = (action: () => void): void => {
    if (telling || bridge.pushing) return;
    telling = true;
    try {
      action();
    } finally {
      telling = false;
    }
  };
  const selected = api.addEvent(api.Event.SelectionChanged, ({ worksheet, selections }) => {
    const sheet = model.findSheet(worksheet.getSheetId());
    const areas = selections.map((own): Area => ({
      row: Math.max(0, own.startRow),
      column: Math.max(0, own.startColumn),
      rows: own.endRow - Math.max(0, own.startRow) + 1,
      columns: own.endColumn - Math.max(0, own.startColumn) + 1,
    }));
    if (sheet !== undefined && areas.every((area) => area.rows > 0 && area.columns > 0) && areas.length > 0)
      tell(() => model.select(sheet, areas, 'user'));
  });
  const activated = api.addEvent(api.Event.ActiveSheetChanged, ({ activeSheet }) => {
    const sheet = model.findSheet(activeSheet.getSheetId());
    if (sheet !== undefined) tell(() => model.activate(sheet, 'user'));
  });
  const unsubscribe = model.subscribe((change: Change) => {
    if (change.kind === 'active')
      tell(() => {
        bridge.flush();
        bridge.activate(change.sheetId);
      });
    if (change.kind === 'selection')
      tell(() => {
        bridge.flush();
        bridge.activate(change.sheetId);
        const { startRow, startColumn, endRow, endColumn } = range(change.area);
        const sheet = api.getActiveWorkbook()?.getActiveSheet();
        if (sheet === undefined) return;
        const [rows, columns] = [sheet.getMaxRows(), sheet.getMaxColumns()];
        const area = sheet.getRange(
          startRow,
          startColumn,
          Math.min(endRow, rows - 1) - startRow + 1,
          Math.min(endColumn, columns - 1) - startColumn + 1,
        );
        area.activate();
      });
  });
  return () => {
    selected.dispose();
    activated.dispose();
    unsubscribe();
  };
}

/** Undo is the model's, which also knows the add-in's changes. The model has no redo, so neither has the grid. */
function followUndo(model: WorkbookModel, edits: UserEdits, api: FUniver): () => void {
  const undo = api.addEvent(api.Event.BeforeUndo, (event) => {
    event.cancel = true;
    edits.flush();
    model.undo();
  });
  const redo = api.addEvent(api.Event.BeforeRedo, (event) => {
    event.cancel = true;
  });
  return () => {
    undo.dispose();
    redo.dispose();
  };
}
