/** Pictures on a sheet; no other shapes. */
import type { Picture, SheetModel } from '../../model/index.ts';
import { asNumber, asText } from '../args.ts';
import type { Book } from '../book.ts';
import { badArgument, fail } from '../error.ts';
import { HostCollection, HostObject } from '../object.ts';
import { POINTS_PER_PIXEL } from './geometry.ts';

export class ShapesObject extends HostCollection<ShapeObject> {
  constructor(
    private readonly book: Book,
    private readonly sheet: SheetModel,
  ) {
    super();
  }

  override items(): ShapeObject[] {
    return this.sheet.layout.pictures.map((picture) => new ShapeObject(this.book, this.sheet, picture.id));
  }

  override find(key: unknown): ShapeObject | null {
    return this.items().find((shape) => shape.Id === key || shape.Name === key) ?? null;
  }

  AddImage(base64: unknown): ShapeObject {
    const data = asText(base64);
    const image = readImage(data) ?? badArgument();
    this.book.guard(this.sheet, { row: 0, column: 0, rows: 1, columns: 1 }, 'allowEditObjects');
    const { pictures } = this.sheet.layout;
    const picture: Picture = {
      id: this.book.model.nextId('P'),
      name: `Picture ${String(pictures.length + 1)}`,
      base64: data,
      left: 0,
      top: 0,
      altText: '',
      ...image,
    };
    this.book.model.setLayout(this.sheet, { pictures: [...pictures, picture] }, 'addin');
    return new ShapeObject(this.book, this.sheet, picture.id);
  }
}

export class ShapeObject extends HostObject {
  override readonly scalars = [
    'altTextDescription',
    'height',
    'id',
    'left',
    'name',
    'top',
    'type',
    'visible',
    'width',
  ];

  constructor(
    private readonly book: Book,
    private readonly sheet: SheetModel,
    private readonly id: string,
  ) {
    super();
  }

  override identity(): Record<string, unknown> {
    return { Id: this.id };
  }

  private get picture(): Picture {
    return this.sheet.layout.pictures.find((one) => one.id === this.id) ?? fail('ItemNotFound');
  }

  private change(patch: Partial<Picture>): void {
    const pictures = this.sheet.layout.pictures.map((one) =>
      one.id === this.id ? { ...one, ...patch } : one,
    );
    this.book.model.setLayout(this.sheet, { pictures }, 'addin');
  }

  get Id(): string {
    return this.id;
  }

  get Type(): string {
    return 'Image';
  }

  get Visible(): boolean {
    return true;
  }

  get Name(): string {
    return this.picture.name;
  }

  set Name(value: unknown) {
    this.change({ name: asText(value) });
  }

  get AltTextDescription(): string {
    return this.picture.altText;
  }

  set AltTextDescription(value: unknown) {
    this.change({ altText: asText(value) });
  }

  get AltTextTitle(): string {
    return this.picture.altTitle ?? '';
  }

  set AltTextTitle(value: unknown) {
    this.change({ altTitle: asText(value) });
  }

  get Placement(): string {
    return this.picture.placement ?? 'OneCell';
  }

  set Placement(value: unknown) {
    this.change({ placement: asText(value) });
  }

  get LockAspectRatio(): boolean {
    return this.picture.lockAspectRatio ?? true;
  }

  set LockAspectRatio(value: unknown) {
    this.change({ lockAspectRatio: value === true });
  }

  get Left(): number {
    return this.picture.left;
  }

  set Left(value: unknown) {
    this.change({ left: asNumber(value) });
  }

  get Top(): number {
    return this.picture.top;
  }

  set Top(value: unknown) {
    this.change({ top: asNumber(value) });
  }

  get Width(): number {
    return this.picture.width;
  }

  set Width(value: unknown) {
    const width = asNumber(value);
    const { picture } = this;
    this.change(
      this.LockAspectRatio ? { width, height: (picture.height * width) / picture.width } : { width },
    );
  }

  get Height(): number {
    return this.picture.height;
  }

  set Height(value: unknown) {
    const height = asNumber(value);
    const { picture } = this;
    this.change(
      this.LockAspectRatio ? { height, width: (picture.width * height) / picture.height } : { height },
    );
  }

  /** The picture as it was given: only of its own format, since nothing is drawn here. */
  GetAsImage(format: unknown): string {
    const { picture } = this;
    if (asText(format).toUpperCase() !== picture.format) badArgument();
    return picture.base64.replace(/^data:[^,]*,/, '');
  }

  Delete(): void {
    const pictures = this.sheet.layout.pictures.filter((one) => one.id !== this.id);
    this.book.model.setLayout(this.sheet, { pictures }, 'addin');
  }
}

/** Kind and size of a PNG or JPEG; anything else is refused, as by Excel. */
function readImage(base64: string): Pick<Picture, 'format' | 'width' | 'height'> | null {
  let bytes: string;
  try {
    bytes = atob(base64.slice(0, 64));
  } catch {
    return null;
  }
  if (bytes.startsWith('\x89PNG\r\n\x1a\n')) {
    const at = (offset: number): number =>
      [0, 1, 2, 3].reduce((sum, i) => sum * 256 + bytes.charCodeAt(offset + i), 0);
    return { format: 'PNG', width: at(16) * POINTS_PER_PIXEL, height: at(20) * POINTS_PER_PIXEL };
  }
  return bytes.startsWith('\xff\xd8\xff') ? { format: 'JPEG', width: 96, height: 96 } : null;
}
