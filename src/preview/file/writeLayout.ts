/** Everything of a sheet but its rows, for the file: only what differs from the opened file is written. */
import { MAX_COLUMNS } from '../model/address.ts';
import { emptyLayout, type SheetLayout, type SheetModel } from '../model/sheet.ts';
import type { SheetBaseline } from './book.ts';
import { equal } from './equal.ts';
import { fitsPages, pageXml } from './page.ts';
import { filterXml } from './readFilter.ts';
import { protectionXml } from './protection.ts';
import { areaRef } from './refs.ts';
import type { RelationsEditor } from './relations.ts';
import { conditionalFormatsXml, validationsXml } from './rules.ts';
import type { SheetEditor } from './sheetEditor.ts';
import { type StyleTable } from './styles.ts';
import { argb } from './colors.ts';
import {
  attributeText,
  withAttribute,
  childOf,
  childrenOf,
  escapeXml,
  parseXml,
  type XmlNode,
} from './xml.ts';

/** Brings the elements round the rows up to date. */
export function writeLayout(
  editor: SheetEditor,
  sheet: SheetModel,
  baseline: SheetBaseline | undefined,
  styles: StyleTable,
  relations: RelationsEditor,
): void {
  const now = sheet.layout;
  const before = baseline?.layout ?? emptyLayout(sheet.name);
  const changed = (...keys: (keyof SheetLayout)[]): boolean =>
    keys.some((key) => !equal(now[key], before[key]));
  const pageChanged = !equal(pageOnly(now), pageOnly(before));

  if (changed('tabColor') || fitsPages(now.page) !== fitsPages(before.page)) writeProperties(editor, now);
  if (changed('showGridlines', 'frozen')) writeView(editor, now);
  if (changed('columnWidths', 'hiddenColumns', 'columnStyles'))
    editor.set('cols', columnsXml(editor.get('cols'), now, baseline, styles));
  if (!equal(sheet.protection, baseline?.protection ?? null))
    editor.set('sheetProtection', sheet.protection === null ? '' : protectionXml(sheet.protection));
  if (changed('autoFilter')) editor.set('autoFilter', autoFilterXml(editor.get('autoFilter'), now, before));
  if (changed('merges')) {
    const items = now.merges.map((area) => `<mergeCell ref="${areaRef(area)}"/>`);
    editor.set(
      'mergeCells',
      items.length === 0 ? '' : `<mergeCells count="${String(items.length)}">${items.join('')}</mergeCells>`,
    );
  }
  if (changed('conditionalFormats')) writeConditionalFormats(editor, now, before, styles);
  if (changed('validations')) editor.set('dataValidations', validationsXml(now.validations));
  if (changed('links')) editor.set('hyperlinks', linksXml(now, relations));
  if (pageChanged)
    for (const [name, xml] of Object.entries(pageXml(now.page, editor.get('pageSetup'))))
      editor.set(name, xml);
}

/** Print area and titles are defined names, so they do not touch the sheet's part. */
function pageOnly(layout: SheetLayout): unknown {
  const { orientation, zoom, headersFooters, bag } = layout.page;
  return { orientation, zoom, headersFooters, bag };
}

function writeProperties(editor: SheetEditor, layout: SheetLayout): void {
  const old = editor.get('sheetPr') ?? '<sheetPr/>';
  const node = parseXml(old, 'sheetPr');
  const kept = (name: string): string => {
    const child = childOf(node, name);
    return child === undefined ? '' : old.slice(child.start, child.end);
  };
  const color = argb(layout.tabColor);
  const tab = color === undefined ? '' : `<tabColor rgb="${color}"/>`;
  const setup = fitsPages(layout.page)
    ? '<pageSetUpPr fitToPage="1"/>'
    : kept('pageSetUpPr').replace(/\sfitToPage="[^"]*"/, '');
  const body = tab + kept('outlinePr') + setup;
  editor.set(
    'sheetPr',
    body === ''
      ? `<sheetPr${attributeText(node.attributes)}/>`
      : `<sheetPr${attributeText(node.attributes)}>${body}</sheetPr>`,
  );
}

function writeView(editor: SheetEditor, layout: SheetLayout): void {
  const old = editor.get('sheetViews') ?? '<sheetViews><sheetView workbookViewId="0"/></sheetViews>';
  const node = parseXml(old, 'sheetViews');
  const view = childOf(node, 'sheetView');
  if (view === undefined) return;
  const open = withAttribute(
    old.slice(view.start, view.contentStart).replace(/\s*\/?>$/, '>'),
    'showGridLines',
    layout.showGridlines ? '1' : '0',
  );
  const rest = view.children
    .filter((child) => child.name !== 'pane' && child.name !== 'selection')
    .map((child) => old.slice(child.start, child.end));
  const { rows, columns } = layout.frozen;
  const quadrant = rows > 0 ? (columns > 0 ? 'bottomRight' : 'bottomLeft') : 'topRight';
  const corner = areaRef({ row: rows, column: columns, rows: 1, columns: 1 });
  const pane =
    rows + columns === 0
      ? ''
      : `<pane${columns > 0 ? ` xSplit="${String(columns)}"` : ''}${rows > 0 ? ` ySplit="${String(rows)}"` : ''} topLeftCell="${corner}" activePane="${quadrant}" state="frozen"/><selection pane="${quadrant}"/>`;
  editor.set(
    'sheetViews',
    `${old.slice(0, view.start)}${open}${pane}${rest.join('')}</sheetView>${old.slice(view.end)}`,
  );
}

function columnsXml(
  old: string | undefined,
  now: SheetLayout,
  baseline: SheetBaseline | undefined,
  styles: StyleTable,
): string {
  const before = baseline?.layout ?? emptyLayout('');
  const kept = new Map<number, Record<string, string>>();
  for (const { attributes } of old === undefined ? [] : childrenOf(parseXml(old, 'cols'), 'col'))
    for (
      let column = Number(attributes['min']) - 1;
      column < Math.min(Number(attributes['max']), MAX_COLUMNS);
      column++
    )
      kept.set(column, attributes);
  const columns = new Set([
    ...kept.keys(),
    ...now.columnWidths.keys(),
    ...now.hiddenColumns,
    ...now.columnStyles.keys(),
  ]);
  const runs: { from: number; to: number; text: string }[] = [];
  for (const column of [...columns].sort((a, b) => a - b)) {
    const a: Record<string, string> = { ...kept.get(column) };
    delete a['min'];
    delete a['max'];
    const width = now.columnWidths.get(column);
    if (width !== before.columnWidths.get(column) || a['width'] === undefined) {
      // The attribute is needed even where only hiding or a format is said.
      a['width'] = String(Math.round(((width ?? 64) / 7) * 256) / 256);
      if (width === undefined) delete a['customWidth'];
      else a['customWidth'] = '1';
    }
    if (now.hiddenColumns.has(column)) a['hidden'] = '1';
    else delete a['hidden'];
    const style = now.columnStyles.get(column);
    if (!equal(style, before.columnStyles.get(column))) {
      const format = styles.formatFor(style, baseline?.columnFormats.get(column) ?? 0);
      if (format === 0) delete a['style'];
      else a['style'] = String(format);
    }
    const text = attributeText(a);
    const last = runs.at(-1);
    if (last?.to === column - 1 && last.text === text) last.to = column;
    else runs.push({ from: column, to: column, text });
  }
  const items = runs.map(
    ({ from, to, text }) => `<col min="${String(from + 1)}" max="${String(to + 1)}"${text}/>`,
  );
  return items.length === 0 ? '' : `<cols>${items.join('')}</cols>`;
}

function autoFilterXml(old: string | undefined, now: SheetLayout, before: SheetLayout): string {
  const filter = now.autoFilter;
  if (filter === null) return '';
  // Kinds of filter that the model does not know survive as long as nobody changes the criteria.
  if (old !== undefined && equal(filter.criteria, before.autoFilter?.criteria))
    return old.replace(/\sref="[^"]*"/, ` ref="${areaRef(filter.area)}"`);
  const body = filterXml(filter.criteria);
  return `<autoFilter ref="${areaRef(filter.area)}"${body === '' ? '/>' : `>${body}</autoFilter>`}`;
}

function writeConditionalFormats(
  editor: SheetEditor,
  now: SheetLayout,
  before: SheetLayout,
  styles: StyleTable,
): void {
  // Same order as they were read in, so a rule that only moved finds its own element.
  const texts = new Map<string, string>();
  let count = 0;
  editor.rewrite((name, xml) => {
    if (name !== 'conditionalFormatting') return xml;
    const group: XmlNode = parseXml(xml, name);
    for (const rule of childrenOf(group, 'cfRule'))
      texts.set(`file-${String(++count)}`, xml.slice(rule.start, rule.end));
    return xml;
  });
  const xml = conditionalFormatsXml(now.conditionalFormats, styles, (format) => {
    const was = before.conditionalFormats.find((own) => own.id === format.id);
    const same = was !== undefined && equal({ ...was, areas: [] }, { ...format, areas: [] });
    return same ? texts.get(format.id) : undefined;
  });
  editor.set('conditionalFormatting', xml);
}

function linksXml(layout: SheetLayout, relations: RelationsEditor): string {
  const items = layout.links.map(({ area, link }) => {
    const attribute = (name: string, value: string | undefined): string =>
      value === undefined || value === '' ? '' : ` ${name}="${escapeXml(value)}"`;
    return (
      `<hyperlink ref="${areaRef(area)}"` +
      attribute('r:id', link.address ? relations.add('hyperlink', link.address, true) : undefined) +
      attribute('location', link.documentReference) +
      attribute('tooltip', link.screenTip) +
      attribute('display', link.textToDisplay) +
      '/>'
    );
  });
  return items.length === 0 ? '' : `<hyperlinks>${items.join('')}</hyperlinks>`;
}
