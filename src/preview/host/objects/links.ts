/** Hyperlinks of cells. */
import { intersect, within, type Area, type HyperLink, type SheetModel } from '../../model/index.ts';
import { asRecord, asText, isNothing } from '../args.ts';
import type { Book } from '../book.ts';
import { badArgument } from '../error.ts';

/** The link the whole range shares, else null. */
export function linkOf(sheet: SheetModel, area: Area): HyperLink | null {
  return sheet.layout.links.find((entry) => within(entry.area, area))?.link ?? null;
}

/** Sets or (null) removes the link; the cell shows the link's text. */
export function setLink(book: Book, sheet: SheetModel, area: Area, value: unknown): void {
  const kept = sheet.layout.links.filter((entry) => !intersect(entry.area, area));
  if (isNothing(value)) {
    book.model.setLayout(sheet, { links: kept }, 'addin');
    return;
  }
  book.guard(sheet, area, 'content');
  const given = asRecord(value);
  const read = (key: keyof HyperLink): Partial<HyperLink> =>
    isNothing(given[key]) ? {} : { [key]: asText(given[key]) };
  const link: HyperLink = {
    ...read('address'),
    ...read('documentReference'),
    ...read('screenTip'),
    ...read('textToDisplay'),
  };
  if (link.address === undefined && link.documentReference === undefined) badArgument();
  book.model.setLayout(sheet, { links: [...kept, { area: { ...area }, link }] }, 'addin');
  const shown = link.textToDisplay ?? link.address ?? link.documentReference ?? '';
  const isEmpty = book.model.value(sheet, area.row, area.column) === null;
  if (link.textToDisplay !== undefined || isEmpty)
    book.model.enter(sheet, area.row, area.column, shown, 'addin');
  book.model.style(sheet, area, { fontColor: '#0563C1', underline: true }, 'addin');
}
