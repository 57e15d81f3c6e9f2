/** `range.dataValidation`: lists are understood, other kinds kept as given. */
import {
  intersect,
  subtract,
  within,
  type Area,
  type SheetModel,
  type Validation,
} from '../../model/index.ts';
import { asFlag, asRecord, isNothing } from '../args.ts';
import type { Book } from '../book.ts';
import { badArgument } from '../error.ts';
import { HostObject } from '../object.ts';

const TYPES = {
  list: 'List',
  wholeNumber: 'WholeNumber',
  decimal: 'Decimal',
  date: 'Date',
  time: 'Time',
  textLength: 'TextLength',
  custom: 'Custom',
} as const;

/** A list typed into the rule may hold so many characters; a longer one needs a range. */
const LIST_LIMIT = 255;

export class DataValidationObject extends HostObject {
  override readonly scalars = ['errorAlert', 'ignoreBlanks', 'prompt', 'rule', 'type', 'valid'];

  constructor(
    private readonly book: Book,
    private readonly sheet: SheetModel,
    private readonly area: Area,
  ) {
    super();
  }

  /** The one validation of the whole range; null for none, `mixed` where the cells differ. */
  private current(): Validation | 'mixed' | null {
    const here = this.sheet.layout.validations.filter((one) =>
      one.areas.some((area) => intersect(area, this.area)),
    );
    if (here.length === 0) return null;
    const whole = here.find((one) => one.areas.some((area) => within(area, this.area)));
    return whole ?? 'mixed';
  }

  private one(): Validation | null {
    const current = this.current();
    return current === 'mixed' ? null : current;
  }

  get Type(): string {
    const current = this.current();
    return current === null ? 'None' : current === 'mixed' ? 'Inconsistent' : current.type;
  }

  get Rule(): unknown {
    return this.one()?.rule ?? {};
  }

  set Rule(value: unknown) {
    const rule = asRecord(value);
    const kinds = Object.keys(TYPES).filter((key) => !isNothing(rule[key]));
    const kind = kinds[0];
    if (kind === undefined || kinds.length > 1) badArgument();
    if (kind === 'list') checkList(asRecord(rule['list'])['source']);
    const clean = { [kind]: rule[kind] };
    this.store({ ...this.kept(), type: TYPES[kind as keyof typeof TYPES], rule: clean });
  }

  get IgnoreBlanks(): boolean {
    return this.one()?.ignoreBlanks ?? true;
  }

  set IgnoreBlanks(value: unknown) {
    this.store({ ...this.kept(), ignoreBlanks: asFlag(value) });
  }

  get ErrorAlert(): unknown {
    return this.one()?.errorAlert ?? { message: '', showAlert: true, style: 'Stop', title: '' };
  }

  set ErrorAlert(value: unknown) {
    this.store({ ...this.kept(), errorAlert: asRecord(value) });
  }

  get Prompt(): unknown {
    return this.one()?.prompt ?? { message: '', showPrompt: true, title: '' };
  }

  set Prompt(value: unknown) {
    this.store({ ...this.kept(), prompt: asRecord(value) });
  }

  /** Whether all cells keep to a list typed into the rule; null where that cannot be told here. */
  get Valid(): boolean | null {
    const list = this.one()?.rule['list'];
    if (isNothing(list)) return this.current() === null ? true : null;
    const { source } = asRecord(list);
    if (typeof source !== 'string' || source.startsWith('=')) return null;
    const words = source.split(',').map((word) => word.trim());
    return this.sheet.cells
      .in(this.area)
      .every(
        ({ cell }) =>
          cell.value === null || (typeof cell.value !== 'object' && words.includes(String(cell.value))),
      );
  }

  Clear(): void {
    this.book.guard(this.sheet, this.area, 'content');
    this.book.model.setLayout(this.sheet, { validations: this.others() }, 'addin');
  }

  private kept(): Omit<Validation, 'areas'> {
    return this.one() ?? { type: 'None', rule: {}, ignoreBlanks: true, errorAlert: null, prompt: null };
  }

  private others(): Validation[] {
    return this.sheet.layout.validations
      .map((one) => ({ ...one, areas: one.areas.flatMap((area) => subtract(area, this.area)) }))
      .filter((one) => one.areas.length > 0);
  }

  private store(entry: Omit<Validation, 'areas'>): void {
    this.book.guard(this.sheet, this.area, 'content');
    const validations = [...this.others(), { ...entry, areas: [{ ...this.area }] }];
    this.book.model.setLayout(this.sheet, { validations }, 'addin');
  }
}

function checkList(source: unknown): void {
  if (typeof source !== 'string' || source === '') badArgument();
  if (!source.startsWith('=') && source.length > LIST_LIMIT) badArgument();
}
