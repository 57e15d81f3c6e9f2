/**
 * The part that marks cells as dynamic arrays: a cell's `cm` points into it ([MS-XLSX] 2.3.5, "XLDAPR"). Without the
 * mark Excel shows a spilled formula as an old array formula in braces.
 */
import { attributeText, childOf, childrenOf, parseXml, withoutPrefix } from './xml.ts';

const MARK =
  '<ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}"><xda:dynamicArrayProperties fDynamic="1" fCollapsed="0"/></ext>';
const XDA = 'http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray';
const TYPE =
  '<metadataType name="XLDAPR" minSupportedVersion="120000" copy="1" pasteAll="1" pasteValues="1" merge="1" splitFirst="1" rowColShift="1" clearFormats="1" clearComments="1" assign="1" coerce="1" cellMeta="1"/>';

/** A metadata part with the mark as its first entry. */
export const NEW_METADATA =
  '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n' +
  `<metadata xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:xda="${XDA}">` +
  `<metadataTypes count="1">${TYPE}</metadataTypes>` +
  `<futureMetadata name="XLDAPR" count="1"><bk><extLst>${MARK}</extLst></bk></futureMetadata>` +
  '<cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata></metadata>';

/** Finds the number (`cm`) of the dynamic-array mark in a metadata part, adding what is missing. */
export function withDynamicMark(part: string): { xml: string; cm: number } {
  const xml = withoutPrefix(part);
  const root = parseXml(xml, 'xl/metadata.xml');
  const types = childrenOf(childOf(root, 'metadataTypes'), 'metadataType');
  const type = types.findIndex((node) => node.attributes['name'] === 'XLDAPR') + 1;
  const marks = childrenOf(childOf(root, 'cellMetadata'), 'bk');
  const known = marks.findIndex((bk) => childOf(bk, 'rc')?.attributes['t'] === String(type));
  if (type > 0 && known >= 0) return { xml: part, cm: known + 1 };
  const number = type > 0 ? type : types.length + 1;
  const future = `<futureMetadata name="XLDAPR" count="1"><bk><extLst>${MARK.replace('<xda:dynamicArrayProperties', `<xda:dynamicArrayProperties xmlns:xda="${XDA}"`)}</extLst></bk></futureMetadata>`;
  const group = (name: string, kept: string, count: number): string =>
    `<${name}${attributeText({ count: String(count) })}>${kept}</${name}>`;
  const inner = (name: string): string => {
    const node = childOf(root, name);
    return node === undefined ? '' : xml.slice(node.contentStart, node.contentEnd);
  };
  const rebuilt: Record<string, string> = {
    metadataTypes: type > 0 ? '' : group('metadataTypes', inner('metadataTypes') + TYPE, types.length + 1),
    cellMetadata: group(
      'cellMetadata',
      `${inner('cellMetadata')}<bk><rc t="${String(number)}" v="0"/></bk>`,
      marks.length + 1,
    ),
  };
  const order = [
    'metadataTypes',
    'metadataStrings',
    'mdxMetadata',
    'futureMetadata',
    'cellMetadata',
    'valueMetadata',
    'extLst',
  ];
  const body = order.flatMap((name) => {
    const own = rebuilt[name];
    if (own) return [own];
    const kept = childrenOf(root, name).map((node) => xml.slice(node.start, node.end));
    return name === 'futureMetadata' && type === 0 ? [...kept, future] : kept;
  });
  return {
    xml: xml.slice(0, root.contentStart) + body.join('') + xml.slice(root.contentEnd),
    cm: marks.length + 1,
  };
}
