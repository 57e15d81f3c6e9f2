/** A worksheet part as the model's sheet: cells, and the record of everything else. */
import { parseArea } from '../model/address.ts';
import {
  emptyLayout,
  type FilterState,
  type HyperLink,
  type SheetLayout,
  type SheetProtection,
  type SheetVisibility,
} from '../model/sheet.ts';
import type { Area, CellStyle } from '../model/types.ts';
import { readColor } from './colors.ts';
import { readPage } from './page.ts';
import { FileFault } from './problems.ts';
import { readProtection } from './protection.ts';
import { readGrid, type Context, type FileGrid } from './readCells.ts';
import { readFilter } from './readFilter.ts';
import type { Relation } from './relations.ts';
import { readConditionalFormats, readValidations } from './rules.ts';
import { cutSheet, parseAround } from './sheetScan.ts';
import { childOf, childrenOf, flag, withoutPrefix, type XmlNode } from './xml.ts';

export interface SheetSource {
  readonly xml: string;
  readonly part: string;
  readonly name: string;
  readonly visibility: SheetVisibility;
  readonly relations: readonly Relation[];
  readonly theme: readonly string[];
  /** Areas whose filters were all understood, with whether they hide rows. */
  readonly filtered: readonly Area[];
}

export interface FileSheet {
  readonly layout: SheetLayout;
  readonly protection: SheetProtection | null;
  readonly grid: FileGrid;
  readonly columnFormats: ReadonlyMap<number, number>;
}

export function readSheet(source: SheetSource, context: Context): FileSheet {
  const xml = withoutPrefix(source.xml);
  const text = cutSheet(xml);
  if (text === undefined) throw new FileFault({ code: 'damaged', part: source.part });
  const root = parseAround(text, source.part);
  const grid = readGrid(text.grid, context);
  const filterNode = childOf(root, 'autoFilter');
  const autoFilter = readAutoFilter(filterNode);
  const filtered = [...source.filtered];
  if (autoFilter !== null && autoFilter.criteria.size === childrenOf(filterNode, 'filterColumn').length)
    filtered.push(...(autoFilter.criteria.size > 0 ? [autoFilter.area] : []));
  const { columnFormats, ...columns } = readColumns(root, context);
  const view = childOf(childOf(root, 'sheetViews'), 'sheetView');
  const links = readLinks(root, source.relations);
  const layout: SheetLayout = {
    ...emptyLayout(source.name),
    visibility: source.visibility,
    tabColor: readColor(childOf(childOf(root, 'sheetPr'), 'tabColor'), source.theme) ?? '',
    showGridlines: flag(view?.attributes['showGridLines'], true),
    ...columns,
    ...readRows(grid, context, filtered),
    merges: childrenOf(childOf(root, 'mergeCells'), 'mergeCell').flatMap(
      (m) => parseArea(m.attributes['ref'] ?? '') ?? [],
    ),
    frozen: readFrozen(childOf(view, 'pane')),
    autoFilter,
    conditionalFormats: readConditionalFormats(root, text.head + text.tail, context.styles),
    validations: readValidations(root),
    links,
    page: { ...emptyLayout('').page, ...readPage(root) },
  };
  return { layout, protection: readProtection(childOf(root, 'sheetProtection')), grid, columnFormats };
}

function readAutoFilter(node: XmlNode | undefined): FilterState | null {
  const area = parseArea(node?.attributes['ref'] ?? '');
  return area === null ? null : { area, criteria: readFilter(node) };
}

function readColumns(
  root: XmlNode,
  context: Context,
): Pick<SheetLayout, 'columnWidths' | 'hiddenColumns' | 'columnStyles'> & {
  columnFormats: Map<number, number>;
} {
  const columnWidths = new Map<number, number>();
  const hiddenColumns = new Set<number>();
  const columnStyles = new Map<number, CellStyle>();
  const columnFormats = new Map<number, number>();
  for (const { attributes: a } of childrenOf(childOf(root, 'cols'), 'col')) {
    const format = Number(a['style'] ?? 0);
    const style = format === 0 ? undefined : context.styles.styleOf(format);
    for (let column = Number(a['min']) - 1; column < Math.min(Number(a['max']), 16_384); column++) {
      const width = Number(a['width']);
      // A width of nothing is another way to hide a column.
      if (width > 0) columnWidths.set(column, Math.round(width * 7));
      if (flag(a['hidden']) || width === 0) hiddenColumns.add(column);
      if (style !== undefined) columnStyles.set(column, style);
      if (format !== 0) columnFormats.set(column, format);
    }
  }
  return { columnWidths, hiddenColumns, columnStyles, columnFormats };
}

function readRows(
  grid: FileGrid,
  context: Context,
  filtered: readonly Area[],
): Pick<SheetLayout, 'rowHeights' | 'hiddenRows' | 'filteredRows' | 'rowStyles'> {
  const rowHeights = new Map<number, number>();
  const hiddenRows = new Set<number>();
  const filteredRows = new Set<number>();
  const rowStyles = new Map<number, CellStyle>();
  for (const [row, a] of grid.rows) {
    const height = Number(a['ht']);
    if (height > 0) rowHeights.set(row, height);
    if (flag(a['hidden']) || height === 0) {
      const byFilter = filtered.some((area) => row > area.row && row < area.row + area.rows);
      (byFilter ? filteredRows : hiddenRows).add(row);
    }
    const style = flag(a['customFormat']) ? context.styles.styleOf(Number(a['s'] ?? 0)) : undefined;
    if (style !== undefined) rowStyles.set(row, style);
  }
  return { rowHeights, hiddenRows, filteredRows, rowStyles };
}

function readFrozen(pane: XmlNode | undefined): { rows: number; columns: number } {
  const state = pane?.attributes['state'];
  if (pane === undefined || (state !== 'frozen' && state !== 'frozenSplit')) return { rows: 0, columns: 0 };
  return { rows: Number(pane.attributes['ySplit'] ?? 0), columns: Number(pane.attributes['xSplit'] ?? 0) };
}

function readLinks(root: XmlNode, relations: readonly Relation[]): { area: Area; link: HyperLink }[] {
  return childrenOf(childOf(root, 'hyperlinks'), 'hyperlink').flatMap(({ attributes: a }) => {
    const area = parseArea(a['ref'] ?? '');
    if (area === null) return [];
    const address = relations.find((relation) => relation.id === a['id'])?.target;
    const link: HyperLink = {
      ...(address === undefined ? {} : { address }),
      ...(a['location'] === undefined ? {} : { documentReference: a['location'] }),
      ...(a['tooltip'] === undefined ? {} : { screenTip: a['tooltip'] }),
      ...(a['display'] === undefined ? {} : { textToDisplay: a['display'] }),
    };
    return [{ area, link }];
  });
}
