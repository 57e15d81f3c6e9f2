/** Calculation of a model without a screen, for Node and the tests. */
import { LocaleType, LogLevel, Univer } from '@univerjs/core';
import { FUniver } from '@univerjs/core/facade';
import { UniverSheetsNodeCorePreset } from '@univerjs/preset-sheets-node-core';
import type { WorkbookModel } from '../model/workbook.ts';
import type { FunctionTable } from './arguments.ts';
import { Bridge } from './bridge.ts';
import { registerPlugins } from './plugins.ts';

export interface HeadlessEngine {
  /** Resolves when the model holds all results. Also reached as `model.engine`. */
  settle(): Promise<void>;
  setFunctions(table: FunctionTable): void;
  /** The component's own interface, for what the model has no word for. */
  readonly api: FUniver;
  dispose(): void;
}

/** Ties a model to a calculation engine that follows its changes until disposed. */
export function attachHeadless(model: WorkbookModel, functions: FunctionTable = new Map()): HeadlessEngine {
  const univer = new Univer({
    locale: LocaleType.EN_US,
    locales: { [LocaleType.EN_US]: {} },
    logLevel: LogLevel.ERROR,
  });
  registerPlugins(univer, UniverSheetsNodeCorePreset({ formula: { initialFormulaComputing: 0 } }).plugins);
  const bridge = new Bridge(model, univer, FUniver.newAPI(univer));
  bridge.setFunctions(functions);
  return {
    api: bridge.api,
    settle: () => bridge.settle(),
    setFunctions: (table) => bridge.setFunctions(table),
    dispose: () => {
      bridge.dispose();
      univer.dispose();
    },
  };
}

/**
 * Calculates all formulas of a model once.
 *
 * @example await calculateHeadless(model, functions); model.value('Sheet1', 0, 0) // 42
 */
export async function calculateHeadless(
  model: WorkbookModel,
  functions: FunctionTable = new Map(),
): Promise<void> {
  const engine = attachHeadless(model, functions);
  try {
    await engine.settle();
  } finally {
    engine.dispose();
  }
}
