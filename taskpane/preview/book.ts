/** One opened workbook in the preview: file, model, host and grid, made and taken down together. */
import {
  describeFileProblem,
  newXlsx,
  openXlsx,
  saveXlsx,
  type XlsxBook,
} from '../../src/preview/file/index.ts';
import { mountGrid, type MountedGrid } from '../../src/preview/grid/index.ts';
import { Host } from '../../src/preview/host/index.ts';
import { fileNameToSave } from '../shared/fileName.ts';

export interface OpenedFile {
  readonly name: string;
  readonly book: XlsxBook;
  readonly host: Host;
}

/** A file's bytes as a workbook with its host, or the sentence that says why not. */
export function openFile(bytes: Uint8Array, name: string): OpenedFile | string {
  const opened = openXlsx(bytes, name);
  return opened.ok ? withHost(opened.book, name) : describeFileProblem(opened.problem);
}

export const emptyFile = (): OpenedFile => withHost(newXlsx(), 'Book1.xlsx');

function withHost(book: XlsxBook, name: string): OpenedFile {
  return { name, book, host: new Host(book.model) };
}

export const bytesOf = ({ book }: OpenedFile): Uint8Array => saveXlsx(book);

export function showGrid(
  container: HTMLElement,
  { book }: OpenedFile,
  onRefused: (sentence: string) => void,
): MountedGrid {
  return mountGrid(container, book.model, {
    dark: matchMedia('(prefers-color-scheme: dark)').matches,
    onRefused,
  });
}

/** Gives the browser a file to save. */
export function download(bytes: Uint8Array, name: string): void {
  const type = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';
  const address = URL.createObjectURL(new Blob([new Uint8Array(bytes)], { type }));
  const link = Object.assign(document.createElement('a'), { href: address, download: fileNameToSave(name) });
  link.click();
  URL.revokeObjectURL(address);
}
