/** What the preview page leaves on its window for the add-in's page, and for the browser tests. */
export interface KeyrowPreview {
  /** Makes `window.external` and the bridge of office.js in the add-in's page, before office.js loads. */
  installShell(page: Window): void;
  /** Resolves when every formula has its result. */
  settle(): Promise<void>;
  /** The value of a cell, rows and columns from 0. */
  value(sheet: string, row: number, column: number): unknown;
  /** Names of the sheets in order. */
  sheets(): string[];
  /** Types into a cell, as the user does. */
  type(sheet: string, address: string, input: string): void;
  select(sheet: string, address: string): void;
}

export interface PreviewWindow extends Window {
  keyrowPreview?: KeyrowPreview;
}
