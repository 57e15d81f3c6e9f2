/** What an add-in may keep in a workbook: settings, custom XML parts, custom properties of sheets. */
import type { SheetModel } from '../../model/index.ts';
import { asText, isNothing } from '../args.ts';
import type { Book } from '../book.ts';
import { badArgument, fail } from '../error.ts';
import { HostCollection, HostObject } from '../object.ts';

export class SettingsObject extends HostCollection<SettingObject> {
  constructor(private readonly book: Book) {
    super();
  }

  override items(): SettingObject[] {
    return [...this.book.model.state.settings.keys()].map((key) => new SettingObject(this.book, key));
  }

  override find(key: unknown): SettingObject | null {
    return typeof key === 'string' && this.book.model.state.settings.has(key)
      ? new SettingObject(this.book, key)
      : null;
  }

  Add(key: unknown, value: unknown): SettingObject {
    const name = asText(key);
    this.book.model.setSetting(name, JSON.stringify(value ?? null), 'addin');
    return new SettingObject(this.book, name);
  }
}

export class SettingObject extends HostObject {
  override readonly scalars = ['key', 'value'];

  constructor(
    private readonly book: Book,
    private readonly key: string,
  ) {
    super();
  }

  override identity(): Record<string, unknown> {
    return { _Id: this.key };
  }

  get _Id(): string {
    return this.key;
  }

  get Key(): string {
    return this.key;
  }

  get Value(): unknown {
    return JSON.parse(this.book.model.state.settings.get(this.key) ?? fail('ItemNotFound')) as unknown;
  }

  set Value(value: unknown) {
    this.book.model.setSetting(this.key, JSON.stringify(value ?? null), 'addin');
  }

  Delete(): void {
    this.book.model.setSetting(this.key, null, 'addin');
  }
}

export class XmlPartsObject extends HostCollection<XmlPartObject> {
  constructor(
    private readonly book: Book,
    private readonly namespace: string | null = null,
  ) {
    super();
  }

  override items(): XmlPartObject[] {
    return this.book.model.state.xmlParts
      .map((part) => new XmlPartObject(this.book, part.id))
      .filter((part) => this.namespace === null || part.NamespaceUri === this.namespace);
  }

  override find(key: unknown): XmlPartObject | null {
    return this.items().find((part) => part.Id === key) ?? null;
  }

  Add(xml: unknown): XmlPartObject {
    const text = asText(xml);
    if (!isWellFormedEnough(text)) badArgument();
    return new XmlPartObject(this.book, this.book.model.addXmlPart(text, 'addin').id);
  }

  GetByNamespace(uri: unknown): XmlPartsObject {
    return new XmlPartsObject(this.book, asText(uri));
  }

  GetOnlyItemOrNullObject(): XmlPartObject | null {
    const [first, ...more] = this.items();
    return first && more.length === 0 ? first : null;
  }

  GetOnlyItem(): XmlPartObject {
    return this.GetOnlyItemOrNullObject() ?? fail('InvalidOperation');
  }
}

/** Starts with an element and ends with the same one; a full check is Excel's business. */
function isWellFormedEnough(xml: string): boolean {
  const body = xml.replace(/^\uFEFF?\s*(?:<\?xml[^>]*\?>)?\s*/, '').trim();
  const name = /^<([A-Za-z_][\w.:-]*)/.exec(body)?.[1];
  return name !== undefined && (body.endsWith('/>') || new RegExp(`</${name}\\s*>$`).test(body));
}

export class XmlPartObject extends HostObject {
  override readonly scalars = ['id', 'namespaceUri'];

  constructor(
    private readonly book: Book,
    private readonly id: string,
  ) {
    super();
  }

  override identity(): Record<string, unknown> {
    return { Id: this.id };
  }

  private get xml(): string {
    return this.book.model.state.xmlParts.find((part) => part.id === this.id)?.xml ?? fail('ItemNotFound');
  }

  get Id(): string {
    return this.id;
  }

  get NamespaceUri(): string {
    const root = /<([A-Za-z_][\w.-]*)(?::[\w.-]+)?(\s[^>]*)?>/.exec(this.xml.replace(/<\?[^>]*\?>/, ''));
    const prefixed = /^<([\w.-]+):/.exec(root?.[0] ?? '')?.[1];
    const attribute = prefixed === undefined ? 'xmlns' : `xmlns:${prefixed}`;
    return new RegExp(`\\s${attribute}\\s*=\\s*["']([^"']*)["']`).exec(root?.[2] ?? '')?.[1] ?? '';
  }

  GetXml(): string {
    return this.xml;
  }

  SetXml(value: unknown): void {
    const text = asText(value);
    if (!isWellFormedEnough(text)) badArgument();
    this.book.model.setXmlPart(this.id, text, 'addin');
  }

  Delete(): void {
    this.book.model.setXmlPart(this.id, null, 'addin');
  }
}

export class CustomPropertiesObject extends HostCollection<CustomPropertyObject> {
  constructor(
    private readonly book: Book,
    private readonly sheet: SheetModel,
  ) {
    super();
  }

  override items(): CustomPropertyObject[] {
    return [...this.sheet.layout.customProperties.keys()].map(
      (key) => new CustomPropertyObject(this.book, this.sheet, key),
    );
  }

  /** Keys differ only by more than case. */
  override find(key: unknown): CustomPropertyObject | null {
    const wanted = typeof key === 'string' ? key.toLowerCase() : null;
    return this.items().find((item) => item.Key.toLowerCase() === wanted) ?? null;
  }

  Add(key: unknown, value: unknown): CustomPropertyObject {
    const property = this.find(key) ?? new CustomPropertyObject(this.book, this.sheet, asText(key));
    property.Value = isNothing(value) ? '' : value;
    return property;
  }
}

export class CustomPropertyObject extends HostObject {
  override readonly scalars = ['key', 'value'];

  constructor(
    private readonly book: Book,
    private readonly sheet: SheetModel,
    private readonly key: string,
  ) {
    super();
  }

  override identity(): Record<string, unknown> {
    return { _Id: this.key };
  }

  get _Id(): string {
    return this.key;
  }

  get Key(): string {
    return this.key;
  }

  get Value(): unknown {
    return this.sheet.layout.customProperties.get(this.key) ?? fail('ItemNotFound');
  }

  set Value(value: unknown) {
    const customProperties = new Map(this.sheet.layout.customProperties).set(this.key, asText(value));
    this.book.model.setLayout(this.sheet, { customProperties }, 'addin');
  }

  Delete(): void {
    const customProperties = new Map(this.sheet.layout.customProperties);
    customProperties.delete(this.key);
    this.book.model.setLayout(this.sheet, { customProperties }, 'addin');
  }
}
