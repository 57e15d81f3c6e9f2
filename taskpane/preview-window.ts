/** What the preview page leaves on its window for the add-in's page, and for tests. */
export interface KeyrowPreview {
  /** Makes `window.external` and the bridge of office.js in the add-in's page, before office.js loads. */
  installShell(page: Window): void;
}

export interface PreviewWindow extends Window {
  keyrowPreview?: KeyrowPreview;
}
