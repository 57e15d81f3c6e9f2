/**
 * A small reader of XML parts. It keeps where each element stands in the text, so that a part can be changed
 * by replacing whole elements and leaving every other character as it was.
 *
 * Names lose their prefix: worksheet parts use one main namespace, and the few places where the prefix matters
 * (`r:id`) differ by local name. Document type declarations are refused: no workbook needs one, and they are the
 * way entity bombs come in.
 */
import { FileFault } from './problems.ts';

export interface XmlNode {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: XmlNode[];
  /** Character data directly inside, entities decoded. */
  text: string;
  /** Offsets of the whole element in the text parsed. */
  readonly start: number;
  end: number;
  /** Offsets of what stands between the tags; equal for `<a/>`. */
  contentStart: number;
  contentEnd: number;
}

const NAMED: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

/** Decodes entities, and Excel's `_x000D_` escapes where asked. */
export function decodeText(text: string, excelEscapes = false): string {
  let out = text;
  if (out.includes('&'))
    out = out.replace(
      /&(?:#x([0-9a-fA-F]{1,6})|#(\d{1,7})|(\w+));/g,
      (whole, hex: string, dec: string, name: string) => {
        if (name) return NAMED[name] ?? whole;
        const code = hex ? parseInt(hex, 16) : Number(dec);
        return code <= 0x10ffff ? String.fromCodePoint(code) : whole;
      },
    );
  if (excelEscapes && out.includes('_x'))
    out = out.replace(/_x([0-9a-fA-F]{4})_/g, (_, hex: string) => String.fromCharCode(parseInt(hex, 16)));
  return out;
}

/** Escapes text for element content or a double-quoted attribute. */
export function escapeXml(text: string): string {
  return text.replace(/[&<>"]/g, (c) =>
    c === '&' ? '&amp;' : c === '<' ? '&lt;' : c === '>' ? '&gt;' : '&quot;',
  );
}

/** Escapes a cell's text: control characters and literal `_x0041_` become Excel's `_xHHHH_`. */
export function escapeCellText(text: string): string {
  return escapeXml(
    text
      .replace(/_x[0-9a-fA-F]{4}_/g, (m) => `_x005F${m}`)
      // exactly the characters XML 1.0 forbids, plus CR, which XML normalises away
      .replace(/[\u0000-\u0008\u000b-\u000d\u000e-\u001f\ufffe\uffff]/g, (c) => {
        return `_x${c.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}_`;
      }),
  );
}

const localName = (name: string): string => name.slice(name.indexOf(':') + 1);

const ATTRIBUTE = /([^\s=]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/g;

/** Reads the attributes of a tag's inside (`r="A1" s="3"`), prefixes dropped except for namespace declarations. */
export function readAttributes(inside: string): Record<string, string> {
  const out: Record<string, string> = {};
  for (const m of inside.matchAll(ATTRIBUTE)) {
    const name = m[1] as string;
    out[name.startsWith('xmlns') ? name : localName(name)] = decodeText(m[2] ?? m[3] ?? '');
  }
  return out;
}

const TOKEN =
  /<!--[\s\S]*?-->|<!\[CDATA\[([\s\S]*?)\]\]>|<\?[\s\S]*?\?>|<!DOCTYPE|<(\/?)([^\s/>!?]+)((?:"[^"]*"|'[^']*'|[^>"'])*?)(\/?)>/g;

/**
 * Parses a part; throws {@link FileFault} `damaged` when it is not well formed.
 *
 * @example parseXml('<a x="1"><b>t</b></a>', 'p').children[0]?.text // "t"
 */
export function parseXml(xml: string, part: string): XmlNode {
  const stack: XmlNode[] = [];
  let root: XmlNode | undefined;
  let last = 0;
  const fail = (): never => {
    throw new FileFault({ code: 'damaged', part });
  };
  for (const token of xml.matchAll(TOKEN)) {
    const [whole, cdata, closing, rawName, inside, selfClosed] = token;
    const top = stack.at(-1);
    if (top !== undefined && token.index > last) top.text += decodeText(xml.slice(last, token.index));
    last = token.index + whole.length;
    if (whole === '<!DOCTYPE') fail();
    if (cdata !== undefined && top !== undefined) top.text += cdata;
    if (rawName === undefined) continue;
    const name = localName(rawName);
    if (closing) {
      if (top === undefined || top.name !== name) return fail();
      top.contentEnd = token.index;
      top.end = last;
      stack.pop();
      continue;
    }
    const node: XmlNode = {
      name,
      attributes: inside ? readAttributes(inside) : {},
      children: [],
      text: '',
      start: token.index,
      end: last,
      contentStart: last,
      contentEnd: last,
    };
    if (top !== undefined) top.children.push(node);
    else if (root === undefined) root = node;
    else return fail();
    if (!selfClosed) stack.push(node);
  }
  if (root === undefined || stack.length > 0) return fail();
  return root;
}

export function childOf(node: XmlNode | undefined, name: string): XmlNode | undefined {
  return node?.children.find((child) => child.name === name);
}

export function childrenOf(node: XmlNode | undefined, name: string): XmlNode[] {
  return node?.children.filter((child) => child.name === name) ?? [];
}

/** `1` and `true` are true; an absent flag takes the schema's default, given by the caller. */
export function flag(value: string | undefined, absent = false): boolean {
  return value === undefined ? absent : value === '1' || value === 'true';
}

/** Some writers put every tag behind a prefix (`<x:row>`); this gives the same part with the main namespace unprefixed. */
export function withoutPrefix(xml: string): string {
  const root =
    /<([A-Za-z_][\w.-]*):(?:worksheet|workbook|styleSheet|sst|table|Types|Relationships)[\s>]/.exec(xml);
  const prefix = root?.[1];
  if (prefix === undefined) return xml;
  return xml
    .replaceAll(`<${prefix}:`, '<')
    .replaceAll(`</${prefix}:`, '</')
    .replace(new RegExp(`\\sxmlns:${prefix}=`), ' xmlns=');
}

/** Attributes as they stand in a tag, each behind a blank. */
export function attributeText(attributes: Readonly<Record<string, string>>): string {
  return Object.entries(attributes)
    .map(([name, value]) => ` ${name}="${escapeXml(value)}"`)
    .join('');
}

/** An opening tag with one attribute set, every other character kept. */
export function withAttribute(tag: string, name: string, value: string): string {
  const own = new RegExp(`(\\s${name}=)(?:"[^"]*"|'[^']*')`);
  if (own.test(tag)) return tag.replace(own, (_, head: string) => `${head}"${escapeXml(value)}"`);
  return tag.replace(/\s*\/?>$/, (end) => ` ${name}="${escapeXml(value)}"${end}`);
}
