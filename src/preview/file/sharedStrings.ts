/**
 * The table of texts that cells share. Runs of rich text are joined for the model; the entry itself stays in the
 * file, so a cell nobody touches keeps its formatting.
 */
import { decodeText, escapeCellText } from './xml.ts';

const ITEM = /<si\b[^>]*?(?:\/>|>([\s\S]*?)<\/si>)/g;

/** The plain text of a `<si>` or `<is>`: all runs, phonetic hints left out. */
export function plainText(inside: string): string {
  let text = '';
  for (const m of inside
    .replace(/<rPh\b[\s\S]*?<\/rPh>/g, '')
    .matchAll(/<t\b[^>]*?(?:\/>|>([\s\S]*?)<\/t>)/g))
    text += decodeText(m[1] ?? '', true);
  // XML reads a bare CR LF as LF; Excel's own line break is LF.
  return text.replace(/\r\n/g, '\n');
}

export class SharedStrings {
  readonly texts: string[] = [];
  private readonly plain = new Map<string, number>();

  constructor(xml: string | undefined) {
    if (xml === undefined) return;
    for (const m of xml.matchAll(ITEM)) {
      const inside = m[1] ?? '';
      const text = plainText(inside);
      const number = this.texts.push(text) - 1;
      if (!/<r[\s>]|<rPh\b/.test(inside) && !this.plain.has(text)) this.plain.set(text, number);
    }
  }

  /** The cell content for a text: a shared entry where the file has a plain one, else the text in place. */
  cellContent(text: string): { type: 's' | 'inlineStr'; inside: string } {
    const number = this.plain.get(text);
    if (number !== undefined) return { type: 's', inside: `<v>${String(number)}</v>` };
    return { type: 'inlineStr', inside: `<is><t xml:space="preserve">${escapeCellText(text)}</t></is>` };
  }
}
