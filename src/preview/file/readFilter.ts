/** Filters: the file's elements ↔ the criteria Excel's interface speaks of. */
import type { FilterCriteria } from '../model/sheet.ts';
import { childOf, childrenOf, escapeXml, flag, type XmlNode } from './xml.ts';

const OPERATORS: Record<string, string> = {
  equal: '=',
  notEqual: '<>',
  greaterThan: '>',
  greaterThanOrEqual: '>=',
  lessThan: '<',
  lessThanOrEqual: '<=',
};

/** The criteria of an `<autoFilter>` by column offset. Kinds the model has no word for are left out. */
export function readFilter(node: XmlNode | undefined): Map<number, FilterCriteria> {
  const criteria = new Map<number, FilterCriteria>();
  for (const column of childrenOf(node, 'filterColumn')) {
    const own = readColumn(column);
    if (own !== undefined) criteria.set(Number(column.attributes['colId']), own);
  }
  return criteria;
}

function readColumn(column: XmlNode): FilterCriteria | undefined {
  const list = childOf(column, 'filters');
  if (list !== undefined && childOf(list, 'dateGroupItem') === undefined) {
    const values = childrenOf(list, 'filter').map((item) => item.attributes['val'] ?? '');
    if (flag(list.attributes['blank'])) values.push('');
    return { filterOn: 'Values', values };
  }
  const custom = childOf(column, 'customFilters');
  const [first, second] = childrenOf(custom, 'customFilter').map(
    ({ attributes }) => (OPERATORS[attributes['operator'] ?? 'equal'] ?? '=') + (attributes['val'] ?? ''),
  );
  if (first === undefined) return undefined;
  if (second === undefined) return { filterOn: 'Custom', criterion1: first };
  const operator = flag(custom?.attributes['and']) ? 'And' : 'Or';
  return { filterOn: 'Custom', criterion1: first, criterion2: second, operator };
}

/** `<filterColumn>` elements for criteria; kinds that have no form here give nothing. */
export function filterXml(criteria: ReadonlyMap<number, FilterCriteria>): string {
  return [...criteria]
    .sort(([a], [b]) => a - b)
    .map(([column, own]) => {
      const body = columnXml(own);
      return body === '' ? '' : `<filterColumn colId="${String(column)}">${body}</filterColumn>`;
    })
    .join('');
}

function columnXml(own: FilterCriteria): string {
  if (own.filterOn === 'Values') {
    const values = own.values ?? [];
    const blank = values.includes('') ? ' blank="1"' : '';
    const items = values
      .filter((value) => value !== '')
      .map((value) => `<filter val="${escapeXml(value)}"/>`);
    return `<filters${blank}>${items.join('')}</filters>`;
  }
  if (own.filterOn !== 'Custom' || own.criterion1 === undefined) return '';
  const parts = [own.criterion1, ...(own.criterion2 === undefined ? [] : [own.criterion2])].map(customXml);
  return `<customFilters${own.operator === 'And' ? ' and="1"' : ''}>${parts.join('')}</customFilters>`;
}

function customXml(criterion: string): string {
  const sign = /^(<>|>=|<=|=|>|<)/.exec(criterion)?.[0] ?? '';
  const name =
    Object.entries(OPERATORS).find(([, own]) => own === (sign === '' ? '=' : sign))?.[0] ?? 'equal';
  return `<customFilter operator="${name}" val="${escapeXml(criterion.slice(sign.length))}"/>`;
}
