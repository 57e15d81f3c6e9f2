/**
 * A worksheet part as its top-level elements, each kept as text, so that one can be replaced and the others stay to
 * the letter. New elements go where the schema wants them (ECMA-376 part 1, 18.3.1.99), since Excel refuses others.
 */
import { cutSheet, parseAround } from './sheetScan.ts';
import { FileFault } from './problems.ts';
import { withoutPrefix } from './xml.ts';

const ORDER =
  `sheetPr dimension sheetViews sheetFormatPr cols sheetData sheetCalcPr sheetProtection protectedRanges
scenarios autoFilter sortState dataConsolidate customSheetViews mergeCells phoneticPr conditionalFormatting
dataValidations hyperlinks printOptions pageMargins pageSetup headerFooter rowBreaks colBreaks customProperties
cellWatches ignoredErrors smartTags drawing legacyDrawing legacyDrawingHF drawingHF picture oleObjects controls
webPublishItems tableParts extLst`.split(/\s+/);

const RELATIONS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';

interface Piece {
  readonly name: string;
  readonly xml: string;
}

export class SheetEditor {
  /** The rows, between the tags of `<sheetData>`. */
  grid: string;
  readonly originalGrid: string;
  private open: string;
  private readonly close: string;
  private pieces: Piece[];
  private touched = false;

  constructor(
    private readonly original: string,
    part: string,
  ) {
    const xml = withoutPrefix(original);
    const text = cutSheet(xml);
    if (text === undefined) throw new FileFault({ code: 'damaged', part });
    const around = text.head + text.tail;
    const root = parseAround(text, part);
    this.grid = this.originalGrid = text.grid;
    this.open = around.slice(0, root.contentStart);
    this.close = around.slice(root.contentEnd);
    this.pieces = root.children.map((child) => ({
      name: child.name,
      xml: around.slice(child.start, child.end),
    }));
  }

  /** The element of that name as text; the first where there are several. */
  get(name: string): string | undefined {
    return this.pieces.find((piece) => piece.name === name)?.xml;
  }

  /** Replaces all elements of that name by `xml`; an empty text takes them away. */
  set(name: string, xml: string): void {
    if ((this.get(name) ?? '') === xml && this.pieces.filter((piece) => piece.name === name).length <= 1)
      return;
    this.touched = true;
    const at = this.pieces.findIndex((piece) => piece.name === name);
    const rest = this.pieces.filter((piece) => piece.name !== name);
    if (xml !== '') rest.splice(at >= 0 ? at : this.placeOf(name, rest), 0, { name, xml });
    this.pieces = rest;
    if (xml.includes(' r:') && !this.open.includes('xmlns:r=')) this.declareRelations();
  }

  /** Rewrites every element but the grid. */
  rewrite(change: (name: string, xml: string) => string): void {
    this.pieces = this.pieces.map((piece) => {
      if (piece.name === 'sheetData') return piece;
      const xml = change(piece.name, piece.xml);
      if (xml !== piece.xml) this.touched = true;
      return { name: piece.name, xml };
    });
  }

  private placeOf(name: string, pieces: readonly Piece[]): number {
    const rank = ORDER.indexOf(name);
    const before = pieces.findLastIndex((piece) => {
      const own = ORDER.indexOf(piece.name);
      return own >= 0 && own <= rank;
    });
    return before + 1;
  }

  private declareRelations(): void {
    this.open = this.open.replace(/<worksheet\b/, `<worksheet xmlns:r="${RELATIONS}"`);
  }

  /** The part; the very text it was made from where nothing changed. */
  toXml(): string {
    if (!this.touched && this.grid === this.originalGrid) return this.original;
    const body = this.pieces.map((piece) =>
      piece.name === 'sheetData' ? `<sheetData>${this.grid}</sheetData>` : piece.xml,
    );
    return this.open + body.join('') + this.close;
  }
}
