/** A table part as the model's table. */
import { parseArea } from '../model/address.ts';
import type { TableModel } from '../model/tables.ts';
import { FileFault } from './problems.ts';
import { readFilter } from './readFilter.ts';
import { childOf, childrenOf, flag, parseXml, withoutPrefix } from './xml.ts';

/** @throws FileFault where the part is no table */
export function readTable(xml: string, part: string, sheetId: string): Omit<TableModel, 'id'> {
  const root = parseXml(withoutPrefix(xml), part);
  const a = root.attributes;
  const area = parseArea(a['ref'] ?? '');
  if (root.name !== 'table' || area === null) throw new FileFault({ code: 'damaged', part });
  const filter = childOf(root, 'autoFilter');
  const style = childOf(root, 'tableStyleInfo')?.attributes ?? {};
  return {
    name: a['displayName'] ?? a['name'] ?? `Table${a['id'] ?? ''}`,
    sheetId,
    area,
    columns: childrenOf(childOf(root, 'tableColumns'), 'tableColumn').map((column, i) => ({
      id: Number(column.attributes['id'] ?? i + 1),
      // A line break in a header is stored escaped.
      name: (column.attributes['name'] ?? '').replace(/_x000a_/gi, '\n').replace(/_x000d_/gi, '\r'),
    })),
    showHeaders: a['headerRowCount'] !== '0',
    showTotals: Number(a['totalsRowCount'] ?? 0) > 0,
    showBandedRows: flag(style['showRowStripes']),
    showBandedColumns: flag(style['showColumnStripes']),
    showFilterButton: filter !== undefined,
    highlightFirstColumn: flag(style['showFirstColumn']),
    highlightLastColumn: flag(style['showLastColumn']),
    style: style['name'] ?? '',
    filter: readFilter(filter),
    fileId: Number(a['id'] ?? 0),
  };
}
