/** The spreadsheet on screen. Node and the tests take `headless.ts`, which needs no browser. */
export {
  callFunction,
  type FunctionTable,
  type PreviewFunction,
  type PreviewParameter,
} from './arguments.ts';
export { functionTable, type FunctionsMetadata } from './functionTable.ts';
export { mountGrid, type GridOptions, type MountedGrid } from './mount.ts';
