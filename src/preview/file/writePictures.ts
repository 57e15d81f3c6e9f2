/** Pictures put on a sheet in this session, as a drawing part. */
import { DEFAULT_COLUMN_PIXELS, DEFAULT_ROW_POINTS, type Picture, type SheetLayout } from '../model/sheet.ts';
import { escapeXml } from './xml.ts';

const EMU_PER_POINT = 12_700;
const DRAWING = 'http://schemas.openxmlformats.org/drawingml/2006';

export const EMPTY_DRAWING =
  '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n' +
  `<xdr:wsDr xmlns:xdr="${DRAWING}/spreadsheetDrawing" xmlns:a="${DRAWING}/main"></xdr:wsDr>`;

/** Finds the cell a distance from the edge falls in, and the rest. */
function locate(points: number, sizeOf: (index: number) => number): { index: number; rest: number } {
  let rest = Math.max(0, points);
  for (let index = 0; ; index++) {
    const size = sizeOf(index);
    if (rest < size || index > 16_000) return { index, rest };
    rest -= size;
  }
}

/** The anchor of one picture; its image hangs on relationship `relation` of the drawing. */
export function pictureXml(picture: Picture, layout: SheetLayout, relation: string, number: number): string {
  const column = locate(picture.left, (i) =>
    layout.hiddenColumns.has(i) ? 0 : (layout.columnWidths.get(i) ?? DEFAULT_COLUMN_PIXELS) * 0.75,
  );
  const row = locate(picture.top, (i) =>
    layout.hiddenRows.has(i) || layout.filteredRows.has(i)
      ? 0
      : (layout.rowHeights.get(i) ?? DEFAULT_ROW_POINTS),
  );
  const emu = (points: number): string => String(Math.round(points * EMU_PER_POINT));
  const place = `<xdr:from><xdr:col>${String(column.index)}</xdr:col><xdr:colOff>${emu(column.rest)}</xdr:colOff><xdr:row>${String(row.index)}</xdr:row><xdr:rowOff>${emu(row.rest)}</xdr:rowOff></xdr:from>`;
  const size = `cx="${emu(picture.width)}" cy="${emu(picture.height)}"`;
  const alt = picture.altText === '' ? '' : ` descr="${escapeXml(picture.altText)}"`;
  return (
    `<xdr:oneCellAnchor xmlns:xdr="${DRAWING}/spreadsheetDrawing" xmlns:a="${DRAWING}/main">${place}<xdr:ext ${size}/><xdr:pic>` +
    `<xdr:nvPicPr><xdr:cNvPr id="${String(number)}" name="${escapeXml(picture.name)}"${alt}/><xdr:cNvPicPr><a:picLocks noChangeAspect="1"/></xdr:cNvPicPr></xdr:nvPicPr>` +
    `<xdr:blipFill><a:blip xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships" r:embed="${relation}"/><a:stretch><a:fillRect/></a:stretch></xdr:blipFill>` +
    `<xdr:spPr><a:xfrm><a:off x="${emu(picture.left)}" y="${emu(picture.top)}"/><a:ext ${size}/></a:xfrm><a:prstGeom prst="rect"><a:avLst/></a:prstGeom></xdr:spPr>` +
    '</xdr:pic><xdr:clientData/></xdr:oneCellAnchor>'
  );
}

/** The bytes of a picture given as base64, with or without a `data:` head. */
export function pictureBytes(picture: Picture): Uint8Array {
  const text = atob(picture.base64.replace(/^data:[^,]*,/, ''));
  return Uint8Array.from(text, (c) => c.charCodeAt(0));
}

/** Adds anchors at the end of a drawing part. */
export function withAnchors(drawing: string, anchors: readonly string[]): string {
  const open = drawing.replace(/<((?:\w+:)?wsDr)\b([^>]*)\/>\s*$/, '<$1$2></$1>');
  return open.replace(/(<\/(?:\w+:)?wsDr>)\s*$/, (end) => anchors.join('') + end);
}
