/**
 * Saves a workbook into the package it was opened from. Parts that nothing changed keep their bytes; in a changed
 * part everything keeps its text but what the model says anew. Saving can be repeated: it always starts from the
 * file as opened.
 */
import type { SheetModel } from '../model/sheet.ts';
import type { WorkbookModel } from '../model/workbook.ts';
import { blankPackage, EMPTY_SHEET, EMPTY_STYLES } from './blank.ts';
import type { XlsxBook } from './book.ts';
import { equal } from './equal.ts';
import {
  followChart,
  followPivotSource,
  shiftComments,
  shiftDrawing,
  shiftLegacyDrawing,
  shiftPassedThrough,
  type SheetMove,
} from './followShifts.ts';
import { NEW_METADATA, withDynamicMark } from './metadata.ts';
import { openXlsx } from './openXlsx.ts';
import { PackageEditor } from './packageEditor.ts';
import { FileFault } from './problems.ts';
import { SETTINGS_ID, settingsXml } from './settings.ts';
import { SharedStrings } from './sharedStrings.ts';
import { SheetEditor } from './sheetEditor.ts';
import { StyleTable } from './styles.ts';
import type { CellContext } from './writeCell.ts';
import { writeGrid } from './writeGrid.ts';
import { writeLayout } from './writeLayout.ts';
import { EMPTY_DRAWING, pictureBytes, pictureXml, withAnchors } from './writePictures.ts';
import { changedTableXml, newTableXml } from './writeTable.ts';
import { writeWorkbook } from './writeWorkbook.ts';
import { areaRef } from './refs.ts';
import { withoutPrefix } from './xml.ts';

const SPREADSHEET = 'application/vnd.openxmlformats-officedocument.spreadsheetml';

/**
 * A new workbook with one empty sheet.
 *
 * @example newXlsx('Book1.xlsx').model.sheets.length // 1
 */
export function newXlsx(name = 'Book1.xlsx', sheetName = 'Sheet1'): XlsxBook {
  const opened = openXlsx(blankPackage(sheetName), name);
  if (!opened.ok) throw new FileFault(opened.problem);
  return opened.book;
}

/**
 * The file as bytes, with everything the model says now.
 *
 * @param model the book's own model; another one is a programmer's error and throws
 * @example const bytes = saveXlsx(book, book.model)
 */
export function saveXlsx(book: XlsxBook, model: WorkbookModel = book.model): Uint8Array {
  if (model !== book.model) throw new Error('A book can only be saved with the model it was opened into.');
  return new Saver(book).save();
}

class Saver {
  private readonly editor: PackageEditor;
  private readonly styles: StyleTable;
  private readonly context: CellContext;
  private readonly addedSheets = new Map<string, string>();
  private tableNumber: number;
  private mark = 0;
  private anySheetChanged = false;

  constructor(private readonly book: XlsxBook) {
    this.editor = new PackageEditor(book.zip);
    const stylesXml = book.stylesPart === undefined ? undefined : book.zip.textOf(book.stylesPart);
    this.styles = new StyleTable(withoutPrefix(stylesXml ?? EMPTY_STYLES), book.theme);
    const strings = this.partOf('sharedStrings');
    const stringsXml = strings === undefined ? undefined : book.zip.textOf(strings);
    this.context = {
      strings: new SharedStrings(stringsXml === undefined ? undefined : withoutPrefix(stringsXml)),
      dynamicMark: () => (this.mark = this.mark === 0 ? this.prepareMark() : this.mark),
    };
    this.tableNumber = Math.max(0, ...[...book.tables.values()].map(({ table }) => table.fileId ?? 0));
  }

  private partOf(type: string): string | undefined {
    return this.editor.relationsOf(this.book.workbookPart).find((relation) => relation.type === type)?.target;
  }

  save(): Uint8Array {
    const { model, sheets } = this.book;
    for (const sheet of model.sheets) this.saveSheet(sheet);
    for (const [id, baseline] of sheets) {
      if (model.sheets.some((sheet) => sheet.id === id)) continue;
      this.editor.relations(this.book.workbookPart).remove(baseline.relationId);
      this.editor.remove(baseline.part);
      this.anySheetChanged = true;
    }
    this.followMoves();
    this.editor.put(this.book.workbookPart, writeWorkbook(this.book, this.addedSheets));
    this.saveXmlParts();
    this.saveStyles();
    if (this.anySheetChanged) this.dropCalcChain();
    return this.editor.toBytes();
  }

  private saveSheet(sheet: SheetModel): void {
    const { book, editor } = this;
    const baseline = book.sheets.get(sheet.id);
    const part = baseline?.part ?? this.addSheetPart(sheet);
    const original = editor.text(part) ?? EMPTY_SHEET;
    const text = new SheetEditor(original, part);
    const shifts = book.shifts.get(sheet.id) ?? [];
    const relations = editor.relations(part);
    text.grid = writeGrid({
      sheet,
      baseline,
      grid: text.originalGrid,
      tables: book.model.tablesOn(sheet),
      shifts,
      styles: this.styles,
      context: this.context,
    });
    writeLayout(text, sheet, baseline, this.styles, relations);
    this.saveTables(sheet, part, text);
    this.savePictures(sheet, baseline?.layout.pictures ?? [], part, text);
    if (shifts.length > 0) {
      text.rewrite((name, xml) => shiftPassedThrough(name, xml, shifts));
      this.shiftOwnedParts(part, shifts);
    }
    const used = book.model.usedArea(sheet);
    if (text.grid !== text.originalGrid && text.get('dimension') !== undefined)
      text.set('dimension', `<dimension ref="${used === null ? 'A1' : areaRef(used)}"/>`);
    const xml = text.toXml();
    if (xml !== original) this.anySheetChanged = true;
    editor.put(part, xml);
  }

  private addSheetPart(sheet: SheetModel): string {
    const part = this.editor.freeName('xl/worksheets/sheet', 'xml');
    this.editor.add(part, EMPTY_SHEET, `${SPREADSHEET}.worksheet+xml`);
    this.addedSheets.set(sheet.id, this.editor.link(this.book.workbookPart, 'worksheet', part));
    this.anySheetChanged = true;
    return part;
  }

  private saveTables(sheet: SheetModel, sheetPart: string, text: SheetEditor): void {
    const relations = this.editor.relations(sheetPart);
    const ids: string[] = [];
    let changed = false;
    const tables = this.book.model.tablesOn(sheet);
    for (const [id, baseline] of this.book.tables) {
      if (baseline.table.sheetId !== sheet.id || tables.some((table) => table.id === id)) continue;
      relations.remove(baseline.relationId);
      this.editor.remove(baseline.part);
      changed = true;
    }
    for (const table of tables) {
      const baseline = this.book.tables.get(table.id);
      if (baseline !== undefined) {
        const before = this.editor.text(baseline.part) ?? '';
        this.editor.put(baseline.part, changedTableXml(before, table, baseline.table, sheet));
        ids.push(baseline.relationId);
        continue;
      }
      const part = this.editor.freeName('xl/tables/table', 'xml');
      this.editor.add(part, newTableXml(table, sheet, ++this.tableNumber), `${SPREADSHEET}.table+xml`);
      ids.push(this.editor.link(sheetPart, 'table', part));
      changed = true;
    }
    if (!changed) return;
    const items = ids.map((id) => `<tablePart r:id="${id}"/>`);
    text.set(
      'tableParts',
      ids.length === 0 ? '' : `<tableParts count="${String(ids.length)}">${items.join('')}</tableParts>`,
    );
  }

  private savePictures(
    sheet: SheetModel,
    before: SheetModel['layout']['pictures'],
    sheetPart: string,
    text: SheetEditor,
  ): void {
    const added = sheet.layout.pictures.filter((picture) => !before.some((own) => own.id === picture.id));
    if (added.length === 0) return;
    const old = this.editor.relationsOf(sheetPart).find((relation) => relation.type === 'drawing');
    const part = old?.target ?? this.editor.freeName('xl/drawings/drawing', 'xml');
    if (old === undefined) {
      this.editor.add(part, EMPTY_DRAWING, 'application/vnd.openxmlformats-officedocument.drawing+xml');
      text.set('drawing', `<drawing r:id="${this.editor.link(sheetPart, 'drawing', part)}"/>`);
    }
    const drawing = this.editor.text(part) ?? EMPTY_DRAWING;
    let number = Math.max(1, ...[...drawing.matchAll(/cNvPr\b[^>]*\bid="(\d+)"/g)].map((m) => Number(m[1])));
    const anchors = added.map((picture) => {
      const extension = picture.format === 'JPEG' ? 'jpeg' : 'png';
      const media = this.editor.freeName('xl/media/image', extension);
      this.editor.add(media, pictureBytes(picture));
      this.editor.types.addExtension(extension, `image/${extension}`);
      const relation = this.editor.link(part, 'image', media);
      return pictureXml(picture, sheet.layout, relation, ++number);
    });
    this.editor.put(part, withAnchors(drawing, anchors));
  }

  private shiftOwnedParts(sheetPart: string, shifts: Parameters<typeof shiftComments>[1]): void {
    for (const relation of this.editor.relationsOf(sheetPart)) {
      const xml = relation.external ? undefined : this.editor.text(relation.target);
      if (xml === undefined) continue;
      if (relation.type === 'comments' || relation.type === 'threadedComment')
        this.editor.put(relation.target, shiftComments(xml, shifts));
      if (relation.type === 'vmlDrawing') this.editor.put(relation.target, shiftLegacyDrawing(xml, shifts));
      if (relation.type === 'drawing') this.editor.put(relation.target, shiftDrawing(xml, shifts));
    }
  }

  /** Charts and pivot tables name the cells of other sheets. */
  private followMoves(): void {
    const moves: SheetMove[] = [...this.book.sheets].map(([id, baseline]) => ({
      name: baseline.layout.name,
      newName: this.book.model.sheets.find((sheet) => sheet.id === id)?.name ?? null,
      shifts: this.book.shifts.get(id) ?? [],
    }));
    if (moves.every((move) => move.name === move.newName && move.shifts.length === 0)) return;
    this.editor.rewrite(/\/charts\/chart[^/]*\.xml$/, (xml) => followChart(xml, moves));
    this.editor.rewrite(/\/pivotCacheDefinition[^/]*\.xml$/, (xml) => followPivotSource(xml, moves));
  }

  private saveXmlParts(): void {
    const { model, xmlParts, settings } = this.book;
    for (const part of model.state.xmlParts) {
      const old = xmlParts.get(part.id);
      if (old !== undefined) {
        if (old.xml !== part.xml) this.editor.put(old.part, part.xml);
      } else this.addXmlPart(part.xml, part.id);
    }
    const relations = this.editor.relationsOf(this.book.workbookPart);
    for (const [id, old] of xmlParts) {
      if (id === SETTINGS_ID || model.state.xmlParts.some((part) => part.id === id)) continue;
      const relation = relations.find((own) => own.target === old.part);
      if (relation !== undefined) this.editor.relations(this.book.workbookPart).remove(relation.id);
      this.editor.remove(old.part);
    }
    if (equal(model.state.settings, settings)) return;
    const xml = settingsXml(model.state.settings);
    const old = xmlParts.get(SETTINGS_ID);
    if (old !== undefined) this.editor.put(old.part, xml);
    else this.addXmlPart(xml, undefined);
  }

  private addXmlPart(xml: string, id: string | undefined): void {
    const part = this.editor.freeName('customXml/item', 'xml');
    const properties = part.replace(/item(\d+)\.xml$/, 'itemProps$1.xml');
    this.editor.add(part, xml);
    this.editor.link(this.book.workbookPart, 'customXml', part);
    if (id === undefined) return;
    const head = '<?xml version="1.0" encoding="UTF-8" standalone="no"?>\n';
    const space = 'http://schemas.openxmlformats.org/officeDocument/2006/customXml';
    this.editor.add(
      properties,
      `${head}<ds:datastoreItem ds:itemID="${guidOf(id)}" xmlns:ds="${space}"><ds:schemaRefs/></ds:datastoreItem>`,
      'application/vnd.openxmlformats-officedocument.customXmlProperties+xml',
    );
    this.editor.link(part, 'customXmlProps', properties);
  }

  private saveStyles(): void {
    if (!this.styles.changed) return;
    if (this.book.stylesPart !== undefined) return this.editor.put(this.book.stylesPart, this.styles.toXml());
    const part = this.editor.freeName('xl/styles', 'xml');
    this.editor.add(part, this.styles.toXml(), `${SPREADSHEET}.styles+xml`);
    this.editor.link(this.book.workbookPart, 'styles', part);
  }

  /** Excel rebuilds its order of calculation; a stale one makes it call the file damaged. */
  private dropCalcChain(): void {
    const relation = this.editor.relationsOf(this.book.workbookPart).find((own) => own.type === 'calcChain');
    if (relation === undefined) return;
    this.editor.relations(this.book.workbookPart).remove(relation.id);
    this.editor.remove(relation.target);
  }

  private prepareMark(): number {
    const old = this.partOf('sheetMetadata');
    if (old !== undefined) {
      const marked = withDynamicMark(this.editor.text(old) ?? NEW_METADATA);
      this.editor.put(old, marked.xml);
      return marked.cm;
    }
    this.editor.add('xl/metadata.xml', NEW_METADATA, `${SPREADSHEET}.sheetMetadata+xml`);
    this.editor.link(this.book.workbookPart, 'sheetMetadata', 'xl/metadata.xml');
    return 1;
  }
}

/** Excel wants a GUID; the model's own short ids are padded into one. */
function guidOf(id: string): string {
  if (/^\{[0-9A-Fa-f]{8}(-[0-9A-Fa-f]{4}){3}-[0-9A-Fa-f]{12}\}$/.test(id)) return id;
  const digits = id.replace(/\D/g, '').padStart(12, '0').slice(-12);
  return `{4B590000-0000-4000-8000-${digits}}`;
}
