/**
 * Page set-up: the file's elements ↔ the model's record, which speaks as Excel's interface does (margins in points,
 * paper by name). Print area and repeated rows are defined names in a file and are read and written with those.
 */
import type { PageLayout } from '../model/sheet.ts';
import { childOf, escapeXml, flag, type XmlNode } from './xml.ts';

/** Paper sizes by number (ECMA-376 part 1, 18.3.1.63). */
const PAPERS: Record<string, string> = {
  '1': 'Letter',
  '3': 'Tabloid',
  '4': 'Ledger',
  '5': 'Legal',
  '7': 'Executive',
  '8': 'A3',
  '9': 'A4',
  '11': 'A5',
  '12': 'B4',
  '13': 'B5',
};

const MARGINS = ['left', 'right', 'top', 'bottom', 'header', 'footer'] as const;
const DEFAULT_MARGINS: Record<(typeof MARGINS)[number], number> = {
  left: 0.7,
  right: 0.7,
  top: 0.75,
  bottom: 0.75,
  header: 0.3,
  footer: 0.3,
};
const SECTIONS = { L: 'left', C: 'center', R: 'right' } as const;

/** What the sheet's own elements say; print area and titles come from the defined names. */
export function readPage(root: XmlNode): Pick<PageLayout, 'orientation' | 'zoom' | 'headersFooters' | 'bag'> {
  const setup = childOf(root, 'pageSetup')?.attributes ?? {};
  const options = childOf(root, 'printOptions')?.attributes ?? {};
  const margins = childOf(root, 'pageMargins')?.attributes ?? {};
  const bag: Record<string, unknown> = {};
  for (const side of MARGINS) {
    const inches = margins[side];
    if (inches !== undefined) bag[`${side}Margin`] = Math.round(Number(inches) * 7200) / 100;
  }
  const paper = PAPERS[setup['paperSize'] ?? ''];
  if (paper !== undefined) bag['paperSize'] = paper;
  if (flag(options['horizontalCentered'])) bag['centerHorizontally'] = true;
  if (flag(options['verticalCentered'])) bag['centerVertically'] = true;
  if (flag(options['gridLines'])) bag['printGridlines'] = true;
  if (flag(options['headings'])) bag['printHeadings'] = true;
  const fits = flag(childOf(childOf(root, 'sheetPr'), 'pageSetUpPr')?.attributes['fitToPage']);
  return {
    orientation: setup['orientation'] === 'landscape' ? 'landscape' : 'portrait',
    zoom: fits
      ? {
          horizontalFitToPages: Number(setup['fitToWidth'] ?? 1),
          verticalFitToPages: Number(setup['fitToHeight'] ?? 1),
        }
      : { scale: Number(setup['scale'] ?? 100) },
    headersFooters: readHeadersFooters(childOf(root, 'headerFooter')),
    bag,
  };
}

function readHeadersFooters(node: XmlNode | undefined): Record<string, string> {
  const out: Record<string, string> = {};
  for (const [element, place] of [
    ['oddHeader', 'Header'],
    ['oddFooter', 'Footer'],
  ] as const) {
    const text = childOf(node, element)?.text ?? '';
    // `&L`, `&C`, `&R` open the three sections; `&&` is an ampersand.
    for (const part of text.split(/(?<!&)(?:&&)*(?=&[LCR])/)) {
      const section = SECTIONS[part.charAt(1) as keyof typeof SECTIONS];
      if (part.startsWith('&') && section !== undefined) out[section + place] = part.slice(2);
      else if (part !== '') out[`center${place}`] = part;
    }
  }
  return out;
}

/** The elements from `<printOptions>` to `<headerFooter>`, by name; an empty text stands for none. */
export function pageXml(page: PageLayout, setupXml: string | undefined): Record<string, string> {
  const { bag } = page;
  const number = (key: string): number | undefined => (typeof bag[key] === 'number' ? bag[key] : undefined);
  const on = (key: string, attribute: string): string => (bag[key] === true ? ` ${attribute}="1"` : '');
  const options =
    on('centerHorizontally', 'horizontalCentered') +
    on('centerVertically', 'verticalCentered') +
    on('printHeadings', 'headings') +
    on('printGridlines', 'gridLines');
  const margins = MARGINS.map((side) => {
    const points = number(`${side}Margin`);
    return ` ${side}="${String(points === undefined ? DEFAULT_MARGINS[side] : Math.round(points / 0.0072) / 10_000)}"`;
  }).join('');
  const paper = Object.entries(PAPERS).find(([, name]) => name === bag['paperSize'])?.[0];
  const fit = fitsPages(page);
  const scale = typeof page.zoom['scale'] === 'number' && !fit ? page.zoom['scale'] : 100;
  const pages = (key: string): string => String(typeof page.zoom[key] === 'number' ? page.zoom[key] : 0);
  const setup =
    (paper === undefined ? '' : ` paperSize="${paper}"`) +
    (scale === 100 ? '' : ` scale="${String(scale)}"`) +
    (fit
      ? ` fitToWidth="${pages('horizontalFitToPages')}" fitToHeight="${pages('verticalFitToPages')}"`
      : '') +
    ` orientation="${page.orientation}"`;
  // The printer's own settings hang on a relationship, which stays.
  const printer = /\s[\w]+:id="[^"]*"/.exec(setupXml ?? '')?.[0] ?? '';
  return {
    printOptions: options === '' ? '' : `<printOptions${options}/>`,
    pageMargins: `<pageMargins${margins}/>`,
    pageSetup: `<pageSetup${setup}${printer}/>`,
    headerFooter: headerFooterXml(page.headersFooters),
  };
}

export function fitsPages(page: PageLayout): boolean {
  return page.zoom['horizontalFitToPages'] !== undefined || page.zoom['verticalFitToPages'] !== undefined;
}

function headerFooterXml(texts: Readonly<Record<string, string>>): string {
  const joined = (place: string): string =>
    Object.entries(SECTIONS)
      .map(([letter, section]) => {
        const text = texts[section + place];
        return text === undefined || text === '' ? '' : `&${letter}${text}`;
      })
      .join('');
  const header = joined('Header');
  const footer = joined('Footer');
  if (header === '' && footer === '') return '';
  return (
    '<headerFooter>' +
    (header === '' ? '' : `<oddHeader>${escapeXml(header)}</oddHeader>`) +
    (footer === '' ? '' : `<oddFooter>${escapeXml(footer)}</oddFooter>`) +
    '</headerFooter>'
  );
}
