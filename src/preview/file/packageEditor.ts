/** The parts of a package while it is being saved: originals, replacements, new ones and their relationships. */
import {
  ContentTypes,
  readRelations,
  RelationsEditor,
  relationsPart,
  relativeTarget,
  resolveTarget,
} from './relations.ts';
import { decodeXml, packParts, type ZipPackage } from './zip.ts';
import { childrenOf, parseXml, withoutPrefix } from './xml.ts';

const CONTENT_TYPES = '[Content_Types].xml';

export class PackageEditor {
  readonly types: ContentTypes;
  private readonly parts = new Map<string, Uint8Array | string>();
  private readonly editors = new Map<string, RelationsEditor>();
  private removed = false;

  constructor(private readonly zip: ZipPackage) {
    for (const name of zip.names) this.parts.set(name, zip.bytesOf(name) ?? new Uint8Array());
    this.types = new ContentTypes(this.text(CONTENT_TYPES) ?? '');
  }

  private own(name: string): string {
    return this.zip.resolve(name) ?? name;
  }

  text(name: string): string | undefined {
    const part = this.parts.get(this.own(name));
    return part === undefined || typeof part === 'string' ? part : decodeXml(part);
  }

  /** Replaces a part, unless the text is the one it has. */
  put(name: string, content: Uint8Array | string): void {
    if (typeof content === 'string' && this.text(name) === content) return;
    this.parts.set(this.own(name), content);
  }

  add(name: string, content: Uint8Array | string, type?: string): void {
    this.parts.set(name, content);
    if (type !== undefined) this.types.addPart(name, type);
  }

  remove(name: string): void {
    const own = this.own(name);
    if (!this.parts.delete(own)) return;
    this.parts.delete(this.own(relationsPart(own)));
    this.editors.delete(own);
    this.types.removePart(own);
    this.removed = true;
  }

  /** A part name not in use: `xl/tables/table` + number + `.xml`. */
  freeName(stem: string, extension: string): string {
    const used = new Set([...this.parts.keys()].map((name) => name.toLowerCase()));
    for (let n = 1; ; n++)
      if (!used.has(`${stem}${String(n)}.${extension}`.toLowerCase()))
        return `${stem}${String(n)}.${extension}`;
  }

  relations(part: string): RelationsEditor {
    const own = this.own(part);
    let editor = this.editors.get(own);
    if (editor === undefined) {
      editor = new RelationsEditor(this.text(relationsPart(own)));
      this.editors.set(own, editor);
    }
    return editor;
  }

  /** Ties a part to another and gives the relationship's id. */
  link(from: string, type: string, to: string): string {
    return this.relations(from).add(type, relativeTarget(from, to));
  }

  /** Changes every present part whose name fits. */
  rewrite(pattern: RegExp, change: (xml: string) => string): void {
    for (const name of [...this.parts.keys()]) {
      if (!pattern.test(name)) continue;
      const text = this.text(name);
      if (text !== undefined) this.put(name, change(text));
    }
  }

  /** Takes out parts that only removed ones pointed to. */
  private sweep(): void {
    const before = this.reach((name) => this.zip.textOf(name));
    const now = this.reach((name) => this.text(name));
    for (const name of before)
      if (!now.has(name) && this.parts.has(name)) {
        this.parts.delete(name);
        this.parts.delete(this.own(relationsPart(name)));
        this.types.removePart(name);
      }
  }

  private reach(textOf: (name: string) => string | undefined): Set<string> {
    const seen = new Set<string>();
    const todo = [''];
    for (let part = todo.pop(); part !== undefined; part = todo.pop()) {
      const xml = textOf(this.own(relationsPart(part)));
      if (xml === undefined) continue;
      for (const { attributes } of childrenOf(
        parseXml(withoutPrefix(xml), relationsPart(part)),
        'Relationship',
      )) {
        if (attributes['TargetMode'] === 'External') continue;
        const target = this.own(resolveTarget(part, attributes['Target'] ?? ''));
        if (seen.has(target)) continue;
        seen.add(target);
        todo.push(target);
      }
    }
    return seen;
  }

  toBytes(): Uint8Array {
    for (const [part, editor] of this.editors)
      if (editor.changed && this.parts.has(part)) this.put(relationsPart(part), editor.toXml());
    if (this.removed) this.sweep();
    if (this.types.changed) this.put(CONTENT_TYPES, this.types.toXml());
    return packParts(this.parts);
  }

  relationsOf(part: string): ReturnType<typeof readRelations> {
    return readRelations(this.zip, part);
  }
}
