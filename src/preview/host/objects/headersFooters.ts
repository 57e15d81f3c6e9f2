/** `pageLayout.headersFooters`: one set for all pages. */
import { type SheetModel } from '../../model/index.ts';
import { asText } from '../args.ts';
import type { Book } from '../book.ts';
import { HostObject } from '../object.ts';

export class HeadersFootersObject extends HostObject {
  override readonly scalars = ['state'];

  constructor(
    private readonly book: Book,
    private readonly sheet: SheetModel,
  ) {
    super();
  }

  get State(): string {
    return 'Default';
  }

  get DefaultForAllPages(): HeaderFooterObject {
    return new HeaderFooterObject(this.book, this.sheet);
  }
}

class HeaderFooterObject extends HostObject {
  override readonly scalars = [
    'centerFooter',
    'centerHeader',
    'leftFooter',
    'leftHeader',
    'rightFooter',
    'rightHeader',
  ];

  constructor(
    private readonly book: Book,
    private readonly sheet: SheetModel,
  ) {
    super();
  }

  private read(key: string): string {
    return this.sheet.layout.page.headersFooters[key] ?? '';
  }

  private keep(key: string, value: unknown): void {
    const { page } = this.sheet.layout;
    const headersFooters = { ...page.headersFooters, [key]: asText(value) };
    this.book.model.setLayout(this.sheet, { page: { ...page, headersFooters } }, 'addin');
  }

  get CenterFooter(): string {
    return this.read('centerFooter');
  }

  set CenterFooter(value: unknown) {
    this.keep('centerFooter', value);
  }

  get CenterHeader(): string {
    return this.read('centerHeader');
  }

  set CenterHeader(value: unknown) {
    this.keep('centerHeader', value);
  }

  get LeftFooter(): string {
    return this.read('leftFooter');
  }

  set LeftFooter(value: unknown) {
    this.keep('leftFooter', value);
  }

  get LeftHeader(): string {
    return this.read('leftHeader');
  }

  set LeftHeader(value: unknown) {
    this.keep('leftHeader', value);
  }

  get RightFooter(): string {
    return this.read('rightFooter');
  }

  set RightFooter(value: unknown) {
    this.keep('rightFooter', value);
  }

  get RightHeader(): string {
    return this.read('rightHeader');
  }

  set RightHeader(value: unknown) {
    this.keep('rightHeader', value);
  }
}
