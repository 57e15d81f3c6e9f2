/** Conditional formats and data validations: the file's elements ↔ the model's records. */
import type { ConditionalFormat, ConditionalRule, Validation } from '../model/sheet.ts';
import { fromFileFormula, toFileFormula } from './formulas.ts';
import { areasRef, parseAreas } from './refs.ts';
import type { StyleTable } from './styles.ts';
import { childOf, childrenOf, escapeXml, flag, type XmlNode } from './xml.ts';

const capital = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1);
const small = (word: string): string => word.charAt(0).toLowerCase() + word.slice(1);

const TEXT_RULES: Record<string, string> = {
  containsText: 'Contains',
  notContainsText: 'NotContains',
  beginsWith: 'BeginsWith',
  endsWith: 'EndsWith',
};

/** The conditional formats of a sheet. Kinds the model has no word for keep their element under `bag.xml`. */
export function readConditionalFormats(root: XmlNode, xml: string, styles: StyleTable): ConditionalFormat[] {
  const out: ConditionalFormat[] = [];
  for (const group of childrenOf(root, 'conditionalFormatting')) {
    const areas = parseAreas(group.attributes['sqref'] ?? '');
    if (areas.length === 0) continue;
    for (const node of childrenOf(group, 'cfRule')) {
      const format = node.attributes['dxfId'];
      out.push({
        id: `file-${String(out.length + 1)}`,
        areas,
        rule: readRule(node, xml),
        style: format === undefined ? {} : styles.differenceOf(Number(format)),
        priority: Number(node.attributes['priority'] ?? out.length + 1),
        stopIfTrue: flag(node.attributes['stopIfTrue']),
      });
    }
  }
  return out;
}

function readRule(node: XmlNode, xml: string): ConditionalRule {
  const [first, second] = childrenOf(node, 'formula').map((own) => fromFileFormula(own.text));
  const type = node.attributes['type'] ?? '';
  if (type === 'expression' && first !== undefined) return { kind: 'custom', formula: first };
  if (type === 'cellIs' && first !== undefined)
    return {
      kind: 'cellValue',
      operator: capital(node.attributes['operator'] ?? 'equal'),
      formula1: first,
      ...(second === undefined ? {} : { formula2: second }),
    };
  const textRule = TEXT_RULES[type];
  const text = node.attributes['text'];
  if (textRule !== undefined && text !== undefined) return { kind: 'text', operator: textRule, text };
  return { kind: 'other', type, bag: { xml: xml.slice(node.start, node.end) } };
}

/** The elements of a sheet's conditional formats. `kept` gives a rule's own element where nothing about it changed. */
export function conditionalFormatsXml(
  formats: readonly ConditionalFormat[],
  styles: StyleTable,
  kept: (format: ConditionalFormat) => string | undefined,
): string {
  return formats
    .filter((format) => format.areas.length > 0)
    .map((format) => {
      const rule = kept(format) ?? ruleXml(format, styles);
      return rule === ''
        ? ''
        : `<conditionalFormatting sqref="${areasRef(format.areas)}">${rule}</conditionalFormatting>`;
    })
    .join('');
}

function ruleXml(format: ConditionalFormat, styles: StyleTable): string {
  const { rule } = format;
  if (rule.kind === 'other') return typeof rule.bag['xml'] === 'string' ? rule.bag['xml'] : '';
  const number =
    Object.keys(format.style).length === 0 ? '' : ` dxfId="${String(styles.addDifference(format.style))}"`;
  const rest = `${number} priority="${String(Math.max(1, format.priority))}"${format.stopIfTrue ? ' stopIfTrue="1"' : ''}`;
  const formula = (text: string): string => `<formula>${escapeXml(toFileFormula(text))}</formula>`;
  if (rule.kind === 'custom') return `<cfRule type="expression"${rest}>${formula(rule.formula)}</cfRule>`;
  if (rule.kind === 'cellValue') {
    const second = rule.formula2 === undefined ? '' : formula(rule.formula2);
    return `<cfRule type="cellIs"${rest} operator="${small(rule.operator)}">${formula(rule.formula1)}${second}</cfRule>`;
  }
  return textRuleXml(format, rule.operator, rule.text, rest);
}

function textRuleXml(format: ConditionalFormat, operator: string, text: string, rest: string): string {
  const type = Object.entries(TEXT_RULES).find(([, own]) => own === operator)?.[0] ?? 'containsText';
  const first = format.areas[0];
  const cell = first === undefined ? 'A1' : areasRef([{ ...first, rows: 1, columns: 1 }]);
  const quoted = `"${text.replaceAll('"', '""')}"`;
  const tests: Record<string, string> = {
    containsText: `NOT(ISERROR(SEARCH(${quoted},${cell})))`,
    notContainsText: `ISERROR(SEARCH(${quoted},${cell}))`,
    beginsWith: `LEFT(${cell},LEN(${quoted}))=${quoted}`,
    endsWith: `RIGHT(${cell},LEN(${quoted}))=${quoted}`,
  };
  const name = type === 'notContainsText' ? 'notContains' : type;
  return `<cfRule type="${type}"${rest} operator="${name}" text="${escapeXml(text)}"><formula>${escapeXml(tests[type] ?? '')}</formula></cfRule>`;
}

const ALERTS: Record<string, string> = { stop: 'Stop', warning: 'Warning', information: 'Information' };

/** The data validations of a sheet. */
export function readValidations(root: XmlNode): Validation[] {
  return childrenOf(childOf(root, 'dataValidations'), 'dataValidation').flatMap((node) => {
    const a = node.attributes;
    const areas = parseAreas(a['sqref'] ?? '');
    const type = a['type'] ?? 'none';
    if (areas.length === 0) return [];
    const [formula1, formula2] = ['formula1', 'formula2'].map((name) => childOf(node, name)?.text);
    const validation: Validation = {
      areas,
      type: capital(type === 'whole' ? 'wholeNumber' : type),
      rule: readValidationRule(type, formula1, formula2, a),
      ignoreBlanks: flag(a['allowBlank']),
      errorAlert: flag(a['showErrorMessage'])
        ? {
            showAlert: true,
            style: ALERTS[a['errorStyle'] ?? 'stop'] ?? 'Stop',
            title: a['errorTitle'] ?? '',
            message: a['error'] ?? '',
          }
        : null,
      prompt:
        a['prompt'] === undefined && a['promptTitle'] === undefined
          ? null
          : {
              showPrompt: flag(a['showInputMessage']),
              title: a['promptTitle'] ?? '',
              message: a['prompt'] ?? '',
            },
    };
    return [validation];
  });
}

function readValidationRule(
  type: string,
  formula1: string | undefined,
  formula2: string | undefined,
  a: Readonly<Record<string, string>>,
): Record<string, unknown> {
  if (type === 'none') return {};
  if (type === 'list') {
    const literal = /^"([\s\S]*)"$/.exec(formula1 ?? '')?.[1];
    const source = literal === undefined ? fromFileFormula(formula1 ?? '') : literal.replaceAll('""', '"');
    return { list: { source, inCellDropDown: !flag(a['showDropDown']) } };
  }
  if (type === 'custom') return { custom: { formula: fromFileFormula(formula1 ?? '') } };
  const term = (stored: string): string | number =>
    stored.trim() !== '' && !Number.isNaN(Number(stored)) ? Number(stored) : fromFileFormula(stored);
  return {
    [type === 'whole' ? 'wholeNumber' : type]: {
      formula1: term(formula1 ?? ''),
      ...(formula2 === undefined ? {} : { formula2: term(formula2) }),
      operator: capital(a['operator'] ?? 'between'),
    },
  };
}

/** `<dataValidations>` for the model's validations; empty for none. */
export function validationsXml(list: readonly Validation[]): string {
  const items = list.map(validationXml).filter((xml) => xml !== '');
  return items.length === 0
    ? ''
    : `<dataValidations count="${String(items.length)}">${items.join('')}</dataValidations>`;
}

function attribute(name: string, value: unknown): string {
  return typeof value === 'string' && value !== '' ? ` ${name}="${escapeXml(value)}"` : '';
}

function validationXml(own: Validation): string {
  if (own.areas.length === 0) return '';
  const [kind, content] = Object.entries(own.rule)[0] ?? ['none', {}];
  const rule = (content ?? {}) as Readonly<Record<string, unknown>>;
  const alert = own.errorAlert;
  const style = typeof alert?.['style'] === 'string' ? small(alert['style']) : 'stop';
  const head =
    (kind === 'none' ? '' : ` type="${kind === 'wholeNumber' ? 'whole' : kind}"`) +
    (style === 'stop' ? '' : ` errorStyle="${style}"`) +
    (typeof rule['operator'] === 'string' && rule['operator'] !== 'Between'
      ? ` operator="${small(rule['operator'])}"`
      : '') +
    (own.ignoreBlanks ? ' allowBlank="1"' : '') +
    (kind === 'list' && rule['inCellDropDown'] === false ? ' showDropDown="1"' : '') +
    (own.prompt !== null && own.prompt['showPrompt'] !== false ? ' showInputMessage="1"' : '') +
    (alert !== null && alert['showAlert'] !== false ? ' showErrorMessage="1"' : '') +
    attribute('errorTitle', alert?.['title']) +
    attribute('error', alert?.['message']) +
    attribute('promptTitle', own.prompt?.['title']) +
    attribute('prompt', own.prompt?.['message']);
  const formulas = [rule['source'] ?? rule['formula'] ?? rule['formula1'], rule['formula2']];
  const body = formulas.map((value, i) => {
    if (value === undefined || value === null) return '';
    const text = String(value);
    const literal = kind === 'list' && !text.startsWith('=');
    const stored = literal
      ? `"${text.replaceAll('"', '""')}"`
      : text.startsWith('=')
        ? toFileFormula(text)
        : text;
    return `<formula${String(i + 1)}>${escapeXml(stored)}</formula${String(i + 1)}>`;
  });
  return `<dataValidation${head} sqref="${areasRef(own.areas)}">${body.join('')}</dataValidation>`;
}
