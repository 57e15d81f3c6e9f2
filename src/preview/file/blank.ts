/** The parts of a workbook made from nothing. */
import { packParts } from './zip.ts';

const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const RELATIONS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006';
const TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml';

/** The style table of a plain workbook. The two fills are the ones every workbook must begin with. */
export const EMPTY_STYLES =
  `${HEAD}<styleSheet xmlns="${MAIN}">` +
  '<fonts count="1"><font><sz val="11"/><color theme="1"/><name val="Calibri"/><family val="2"/></font></fonts>' +
  '<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>' +
  '<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>' +
  '<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>' +
  '<cellXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/></cellXfs>' +
  '<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles>' +
  '<dxfs count="0"/></styleSheet>';

export const EMPTY_SHEET =
  `${HEAD}<worksheet xmlns="${MAIN}" xmlns:r="${RELATIONS}">` +
  '<sheetViews><sheetView workbookViewId="0"/></sheetViews><sheetFormatPr defaultRowHeight="15"/><sheetData/>' +
  '<pageMargins left="0.7" right="0.7" top="0.75" bottom="0.75" header="0.3" footer="0.3"/></worksheet>';

/** The file of an empty workbook with one sheet. */
export function blankPackage(sheetName: string): Uint8Array {
  return packParts(
    new Map([
      [
        '[Content_Types].xml',
        `${HEAD}<Types xmlns="${PACKAGE}/content-types">` +
          '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>' +
          '<Default Extension="xml" ContentType="application/xml"/>' +
          `<Override PartName="/xl/workbook.xml" ContentType="${TYPE}.sheet.main+xml"/>` +
          `<Override PartName="/xl/worksheets/sheet1.xml" ContentType="${TYPE}.worksheet+xml"/>` +
          `<Override PartName="/xl/styles.xml" ContentType="${TYPE}.styles+xml"/></Types>`,
      ],
      [
        '_rels/.rels',
        `${HEAD}<Relationships xmlns="${PACKAGE}/relationships">` +
          `<Relationship Id="rId1" Type="${RELATIONS}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
      ],
      [
        'xl/workbook.xml',
        `${HEAD}<workbook xmlns="${MAIN}" xmlns:r="${RELATIONS}"><bookViews><workbookView/></bookViews>` +
          `<sheets><sheet name="${sheetName}" sheetId="1" r:id="rId1"/></sheets></workbook>`,
      ],
      [
        'xl/_rels/workbook.xml.rels',
        `${HEAD}<Relationships xmlns="${PACKAGE}/relationships">` +
          `<Relationship Id="rId1" Type="${RELATIONS}/worksheet" Target="worksheets/sheet1.xml"/>` +
          `<Relationship Id="rId2" Type="${RELATIONS}/styles" Target="styles.xml"/></Relationships>`,
      ],
      ['xl/worksheets/sheet1.xml', EMPTY_SHEET],
      ['xl/styles.xml', EMPTY_STYLES],
    ]),
  );
}
