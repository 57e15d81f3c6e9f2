/** Conditional formats of a range: own formulas, comparisons of the cell's value, text; other kinds are kept as given. */
import {
  intersect,
  type Area,
  type ConditionalFormat,
  type ConditionalRule,
  type SheetModel,
} from '../../model/index.ts';
import { asFlag, asOneOf, asRecord, asText, asWhole, isNothing } from '../args.ts';
import type { Book } from '../book.ts';
import { badArgument, fail } from '../error.ts';
import { HostCollection, HostObject } from '../object.ts';
import type { RangeAreasObject } from './rangeAreas.ts';
import type { RangeObject } from './range.ts';

import { ConditionalStyleObject } from './conditionalStyle.ts';

const TYPES = [
  'Custom',
  'DataBar',
  'ColorScale',
  'IconSet',
  'TopBottom',
  'PresetCriteria',
  'ContainsText',
  'CellValue',
] as const;

function emptyRule(type: (typeof TYPES)[number]): ConditionalRule {
  if (type === 'Custom') return { kind: 'custom', formula: '' };
  if (type === 'CellValue') return { kind: 'cellValue', operator: '', formula1: '' };
  if (type === 'ContainsText') return { kind: 'text', operator: 'Contains', text: '' };
  return { kind: 'other', type, bag: {} };
}

export class ConditionalFormatsObject extends HostCollection<ConditionalFormatObject> {
  constructor(
    private readonly book: Book,
    private readonly sheet: SheetModel,
    private readonly area: Area,
  ) {
    super();
  }

  private here(): readonly ConditionalFormat[] {
    return this.sheet.layout.conditionalFormats.filter((one) =>
      one.areas.some((area) => intersect(area, this.area)),
    );
  }

  override items(): ConditionalFormatObject[] {
    return this.here().map((one) => new ConditionalFormatObject(this.book, this.sheet, one.id));
  }

  override find(key: unknown): ConditionalFormatObject | null {
    return this.items().find((one) => one.Id === key) ?? null;
  }

  Add(type: unknown): ConditionalFormatObject {
    this.book.guard(this.sheet, this.area, 'allowFormatCells');
    const id = this.book.model.nextId('C');
    const all = this.sheet.layout.conditionalFormats;
    const fresh: ConditionalFormat = {
      id,
      areas: [{ ...this.area }],
      rule: emptyRule(asOneOf(type, TYPES)),
      style: {},
      priority: 0,
      stopIfTrue: false,
    };
    // a new format comes first
    const conditionalFormats = [fresh, ...all.map((one) => ({ ...one, priority: one.priority + 1 }))];
    this.book.model.setLayout(this.sheet, { conditionalFormats }, 'addin');
    return new ConditionalFormatObject(this.book, this.sheet, id);
  }

  ClearAll(): void {
    const gone = new Set(this.here().map((one) => one.id));
    if (gone.size === 0) return;
    this.book.guard(this.sheet, this.area, 'allowFormatCells');
    const conditionalFormats = this.sheet.layout.conditionalFormats.filter((one) => !gone.has(one.id));
    this.book.model.setLayout(this.sheet, { conditionalFormats }, 'addin');
  }
}

export class ConditionalFormatObject extends HostObject {
  override readonly scalars = ['id', 'priority', 'stopIfTrue', 'type'];

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

  get model(): ConditionalFormat {
    return this.sheet.layout.conditionalFormats.find((one) => one.id === this.id) ?? fail('ItemNotFound');
  }

  change(patch: Partial<ConditionalFormat>): void {
    const conditionalFormats = this.sheet.layout.conditionalFormats.map((one) =>
      one.id === this.id ? { ...one, ...patch } : one,
    );
    this.book.model.setLayout(this.sheet, { conditionalFormats }, 'addin');
  }

  get Id(): string {
    return this.id;
  }

  get Type(): string {
    const { rule } = this.model;
    if (rule.kind === 'custom') return 'Custom';
    if (rule.kind === 'cellValue') return 'CellValue';
    return rule.kind === 'text' ? 'ContainsText' : rule.type;
  }

  get Priority(): number {
    return this.model.priority;
  }

  set Priority(value: unknown) {
    this.change({ priority: asWhole(value) });
  }

  get StopIfTrue(): boolean {
    return this.model.stopIfTrue;
  }

  set StopIfTrue(value: unknown) {
    this.change({ stopIfTrue: asFlag(value) });
  }

  private part(type: string): RulePartObject | null {
    return this.Type === type ? new RulePartObject(this) : null;
  }

  get CustomOrNullObject(): RulePartObject | null {
    return this.part('Custom');
  }

  get Custom(): RulePartObject {
    return this.CustomOrNullObject ?? fail('ItemNotFound');
  }

  get CellValueOrNullObject(): RulePartObject | null {
    return this.part('CellValue');
  }

  get CellValue(): RulePartObject {
    return this.CellValueOrNullObject ?? fail('ItemNotFound');
  }

  get TextComparisonOrNullObject(): RulePartObject | null {
    return this.part('ContainsText');
  }

  get TextComparison(): RulePartObject {
    return this.TextComparisonOrNullObject ?? fail('ItemNotFound');
  }

  get PresetOrNullObject(): RulePartObject | null {
    return this.part('PresetCriteria');
  }

  get Preset(): RulePartObject {
    return this.PresetOrNullObject ?? fail('ItemNotFound');
  }

  GetRangeOrNullObject(): RangeObject | null {
    const [first, ...more] = this.model.areas;
    return first && more.length === 0 ? this.book.range(this.sheet, first) : null;
  }

  GetRange(): RangeObject {
    return this.GetRangeOrNullObject() ?? fail('ItemNotFound');
  }

  GetRanges(): RangeAreasObject {
    return this.book.makers.rangeAreas(this.book, this.sheet, this.model.areas);
  }

  Delete(): void {
    const conditionalFormats = this.sheet.layout.conditionalFormats.filter((one) => one.id !== this.id);
    this.book.model.setLayout(this.sheet, { conditionalFormats }, 'addin');
  }
}

/** `custom`, `cellValue`, `textComparison`, `preset`: a rule and a format. */
class RulePartObject extends HostObject {
  override readonly scalars = ['rule'];

  constructor(private readonly format: ConditionalFormatObject) {
    super();
  }

  /** An object of its own for own formulas, a plain record for the other kinds. */
  get Rule(): unknown {
    const { rule } = this.format.model;
    if (rule.kind === 'custom') return new FormulaRuleObject(this.format);
    if (rule.kind === 'other') return rule.bag;
    return Object.fromEntries(Object.entries(rule).filter(([key]) => key !== 'kind'));
  }

  set Rule(value: unknown) {
    const given = asRecord(value);
    const { rule } = this.format.model;
    if (rule.kind === 'cellValue') {
      const formula2 = given['formula2'];
      this.format.change({
        rule: {
          kind: 'cellValue',
          operator: asText(given['operator']),
          formula1: asText(given['formula1']),
          ...(isNothing(formula2) ? {} : { formula2: asText(formula2) }),
        },
      });
    } else if (rule.kind === 'text') {
      this.format.change({
        rule: { kind: 'text', operator: asText(given['operator']), text: asText(given['text']) },
      });
    } else if (rule.kind === 'other') {
      this.format.change({ rule: { ...rule, bag: given } });
    } else badArgument();
  }

  get Format(): ConditionalStyleObject {
    return new ConditionalStyleObject(this.format);
  }
}

class FormulaRuleObject extends HostObject {
  override readonly scalars = ['formula'];

  constructor(private readonly format: ConditionalFormatObject) {
    super();
  }

  get Formula(): string {
    const { rule } = this.format.model;
    return rule.kind === 'custom' ? rule.formula : '';
  }

  set Formula(value: unknown) {
    const formula = asText(value);
    this.format.change({
      rule: { kind: 'custom', formula: formula.startsWith('=') ? formula : `=${formula}` },
    });
  }
}
