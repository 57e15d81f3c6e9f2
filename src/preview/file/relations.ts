/** The relationship parts that tie a package together, and the list of content types. */
import type { ZipPackage } from './zip.ts';
import { childOf, childrenOf, escapeXml, parseXml, withoutPrefix } from './xml.ts';

export interface Relation {
  readonly id: string;
  /** The last word of the type's address: `worksheet`, `table`, `sharedStrings`, … */
  readonly type: string;
  /** A part name for internal targets, the address as it stands for external ones. */
  readonly target: string;
  readonly external: boolean;
}

/** @example relationsPart('xl/workbook.xml') // 'xl/_rels/workbook.xml.rels' */
export function relationsPart(part: string): string {
  const slash = part.lastIndexOf('/') + 1;
  return `${part.slice(0, slash)}_rels/${part.slice(slash)}.rels`;
}

/** Resolves a target against the folder of the part that names it. */
export function resolveTarget(part: string, target: string): string {
  if (target.startsWith('/')) return target.slice(1);
  const path = part.split('/').slice(0, -1);
  for (const step of target.split('/')) {
    if (step === '..') path.pop();
    else if (step !== '.' && step !== '') path.push(step);
  }
  return path.join('/');
}

/** @example relativeTarget('xl/worksheets/sheet1.xml', 'xl/tables/table1.xml') // '../tables/table1.xml' */
export function relativeTarget(from: string, to: string): string {
  const here = from.split('/').slice(0, -1);
  const there = to.split('/');
  while (here.length > 0 && here[0] === there[0]) {
    here.shift();
    there.shift();
  }
  return '../'.repeat(here.length) + there.join('/');
}

export function readRelations(zip: ZipPackage, part: string): Relation[] {
  const name = relationsPart(part);
  const xml = zip.textOf(name);
  if (xml === undefined) return [];
  return childrenOf(parseXml(withoutPrefix(xml), name), 'Relationship').map(({ attributes }) => {
    const external = attributes['TargetMode'] === 'External';
    const target = attributes['Target'] ?? '';
    return {
      id: attributes['Id'] ?? '',
      type: (attributes['Type'] ?? '').split('/').at(-1) ?? '',
      target: external ? target : resolveTarget(part, target.split('#')[0] ?? ''),
      external,
    };
  });
}

const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships/';
const EMPTY_RELATIONS =
  '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"></Relationships>';

/** A relationship part being added to. */
export class RelationsEditor {
  private xml: string;
  private readonly ids: Set<string>;
  changed = false;

  constructor(text: string | undefined) {
    this.xml = withoutPrefix(text ?? EMPTY_RELATIONS).replace(
      /<Relationships([^>]*)\/>\s*$/,
      '<Relationships$1></Relationships>',
    );
    this.ids = new Set([...this.xml.matchAll(/\bId="([^"]*)"/g)].map((m) => m[1] ?? ''));
  }

  /** Adds a relationship and gives its id. `target` is relative to the owner's folder. */
  add(type: string, target: string, external = false): string {
    let n = this.ids.size + 1;
    while (this.ids.has(`rId${String(n)}`)) n++;
    const id = `rId${String(n)}`;
    this.ids.add(id);
    const mode = external ? ' TargetMode="External"' : '';
    const full = type.includes('://') ? type : OFFICE + type;
    const item = `<Relationship Id="${id}" Type="${full}" Target="${escapeXml(target)}"${mode}/>`;
    this.xml = this.xml.replace('</Relationships>', `${item}</Relationships>`);
    this.changed = true;
    return id;
  }

  remove(id: string): void {
    const next = this.xml.replace(
      new RegExp(`<Relationship\\b(?=[^>]*\\bId="${id}")[^>]*?(?:/>|>\\s*</Relationship>)`),
      '',
    );
    if (next !== this.xml) this.changed = true;
    this.xml = next;
  }

  toXml(): string {
    return this.xml;
  }
}

/** `[Content_Types].xml` being added to. */
export class ContentTypes {
  changed = false;
  private xml: string;

  constructor(xml: string) {
    this.xml = withoutPrefix(xml);
  }

  addPart(part: string, type: string): void {
    this.insert(`<Override PartName="/${escapeXml(part)}" ContentType="${type}"/>`);
  }

  addExtension(extension: string, type: string): void {
    const root = parseXml(this.xml, '[Content_Types].xml');
    const known = childrenOf(root, 'Default').some(
      (node) => node.attributes['Extension']?.toLowerCase() === extension,
    );
    if (!known) this.insert(`<Default Extension="${extension}" ContentType="${type}"/>`, true);
  }

  removePart(part: string): void {
    const root = parseXml(this.xml, '[Content_Types].xml');
    const node = childrenOf(root, 'Override').find(
      (own) => own.attributes['PartName']?.toLowerCase() === `/${part}`.toLowerCase(),
    );
    if (node === undefined) return;
    this.xml = this.xml.slice(0, node.start) + this.xml.slice(node.end);
    this.changed = true;
  }

  private insert(item: string, first = false): void {
    const root = parseXml(this.xml, '[Content_Types].xml');
    const at = first ? (childOf(root, 'Override')?.start ?? root.contentEnd) : root.contentEnd;
    this.xml = this.xml.slice(0, at) + item + this.xml.slice(at);
    this.changed = true;
  }

  toXml(): string {
    return this.xml;
  }
}
