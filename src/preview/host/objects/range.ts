/** Ranges: what lies below and around them, and their movement. Content is in `rangeContent.ts`. */
import { MAX_COLUMNS, MAX_ROWS, bounding, intersect, type Area } from '../../model/index.ts';
import { asFlag, asMatrix, asOneOf, asRecord, asText, asWhole, isNothing } from '../args.ts';
import { apiNotFound, fail } from '../error.ts';
import { update } from '../update.ts';
import { ConditionalFormatsObject } from './conditionalFormats.ts';
import { copyInto } from './copying.ts';
import { DataValidationObject } from './dataValidation.ts';
import { isHidden, keepFirst, setHidden } from './geometry.ts';
import { setLink } from './links.ts';
import { RangeFormatObject } from './rangeFormat.ts';
import { RangeViewObject } from './rangeView.ts';
import { findIn, specialAreas } from './searching.ts';
import { SortObject } from './sort.ts';
import type { RangeAreasObject } from './rangeAreas.ts';
import type { TablesObject } from './tables.ts';

import { RangeContent } from './rangeContent.ts';

export class RangeObject extends RangeContent {
  private at(area: Area): RangeObject {
    return this.book.range(this.sheet, area);
  }

  /** A range argument: an object or an address on this sheet. */
  other(value: unknown): RangeObject {
    return value instanceof RangeObject ? value : this.book.parseRange(asText(value), this.sheet);
  }

  Clear(what: unknown): void {
    const word = isNothing(what) ? 'All' : asOneOf(what, CLEARED);
    const act = word === 'Formats' ? 'allowFormatCells' : 'content';
    this.book.guard(this.sheet, this.place(), act);
    if (word === 'Hyperlinks' || word === 'RemoveHyperlinks') {
      setLink(this.book, this.sheet, this.place(), null);
      return;
    }
    const scope = word === 'All' ? 'all' : word === 'Formats' ? 'formats' : 'contents';
    this.book.model.clear(this.sheet, this.place(), scope, 'addin');
    if (scope === 'all') this.ConditionalFormats.ClearAll();
  }

  CopyFrom(source: unknown, copyType: unknown, skipBlanks: unknown, transpose: unknown): void {
    const from = source instanceof RangeObject ? source : this.book.parseAnywhere(asText(source));
    const what = isNothing(copyType) ? 'All' : asOneOf(copyType, ['All', 'Formulas', 'Values', 'Formats']);
    if (transpose === true || skipBlanks === true) apiNotFound('Range.copyFrom with transpose or skipBlanks');
    copyInto(this.book, from, this, what);
  }

  Calculate(): void {
    this.book.model.emit({ kind: 'calculate', origin: 'addin' });
  }

  /** `[[{ format: { fill: { color: … } } }]]`, one entry a cell. */
  SetCellProperties(value: unknown): void {
    const area = this.place();
    const entries = asMatrix(value, area.rows, area.columns, (one) =>
      isNothing(one) ? null : asRecord(one),
    );
    entries.forEach((line, i) => {
      line.forEach((entry, j) => {
        if (entry) update(this.GetCell(i, j), entry);
      });
    });
  }

  // ---- below it

  get Format(): RangeFormatObject {
    return new RangeFormatObject(this.book, this.sheet, [this.place()]);
  }

  get ConditionalFormats(): ConditionalFormatsObject {
    return new ConditionalFormatsObject(this.book, this.sheet, this.place());
  }

  get DataValidation(): DataValidationObject {
    return new DataValidationObject(this.book, this.sheet, this.place());
  }

  get Sort(): SortObject {
    return new SortObject(this.book, this.sheet, () => this.place());
  }

  GetVisibleView(): RangeViewObject {
    return new RangeViewObject(this.book, this.sheet, this.place());
  }

  GetTables(fullyContained: unknown): TablesObject {
    const { makers, model } = this.book;
    const area = this.place();
    const found = model.tablesOn(this.sheet, area).filter((table) => {
      if (fullyContained !== true) return true;
      const shared = intersect(table.area, area);
      return shared?.rows === table.area.rows && shared.columns === table.area.columns;
    });
    return makers.tables(
      this.book,
      this.sheet,
      found.map((table) => table.id),
    );
  }

  // ---- other ranges

  GetCell(row: unknown, column: unknown): RangeObject {
    const area = this.place();
    return this.at({
      row: area.row + asWhole(row),
      column: area.column + asWhole(column),
      rows: 1,
      columns: 1,
    });
  }

  GetOffsetRange(rows: unknown, columns: unknown): RangeObject {
    const area = this.place();
    return this.at({ ...area, row: area.row + asWhole(rows), column: area.column + asWhole(columns) });
  }

  GetResizedRange(rows: unknown, columns: unknown): RangeObject {
    const area = this.place();
    return this.at({ ...area, rows: area.rows + asWhole(rows), columns: area.columns + asWhole(columns) });
  }

  GetAbsoluteResizedRange(rows: unknown, columns: unknown): RangeObject {
    return this.at({ ...this.place(), rows: asWhole(rows), columns: asWhole(columns) });
  }

  GetRow(index: unknown): RangeObject {
    const area = this.place();
    return this.at({ ...area, row: area.row + asWhole(index), rows: 1 });
  }

  GetColumn(index: unknown): RangeObject {
    const area = this.place();
    return this.at({ ...area, column: area.column + asWhole(index), columns: 1 });
  }

  GetLastRow(): RangeObject {
    return this.GetRow(this.place().rows - 1);
  }

  GetLastColumn(): RangeObject {
    return this.GetColumn(this.place().columns - 1);
  }

  GetLastCell(): RangeObject {
    const { rows, columns } = this.place();
    return this.GetCell(rows - 1, columns - 1);
  }

  GetRowsAbove(count: unknown): RangeObject {
    const area = this.place();
    const rows = isNothing(count) ? 1 : asWhole(count);
    return this.at({ ...area, row: area.row - rows, rows });
  }

  GetRowsBelow(count: unknown): RangeObject {
    const area = this.place();
    return this.at({ ...area, row: area.row + area.rows, rows: isNothing(count) ? 1 : asWhole(count) });
  }

  GetColumnsBefore(count: unknown): RangeObject {
    const area = this.place();
    const columns = isNothing(count) ? 1 : asWhole(count);
    return this.at({ ...area, column: area.column - columns, columns });
  }

  GetColumnsAfter(count: unknown): RangeObject {
    const area = this.place();
    return this.at({
      ...area,
      column: area.column + area.columns,
      columns: isNothing(count) ? 1 : asWhole(count),
    });
  }

  GetEntireRow(): RangeObject {
    return this.at({ ...this.place(), column: 0, columns: MAX_COLUMNS });
  }

  GetEntireColumn(): RangeObject {
    return this.at({ ...this.place(), row: 0, rows: MAX_ROWS });
  }

  GetBoundingRect(other: unknown): RangeObject {
    return this.at(bounding(this.place(), this.other(other).place()));
  }

  GetIntersectionOrNullObject(other: unknown): RangeObject | null {
    const range = this.other(other);
    const shared = range.sheet === this.sheet ? intersect(this.place(), range.place()) : null;
    return shared ? this.at(shared) : null;
  }

  GetIntersection(other: unknown): RangeObject {
    return this.GetIntersectionOrNullObject(other) ?? fail('ItemNotFound');
  }

  GetUsedRangeOrNullObject(valuesOnly: unknown): RangeObject | null {
    const area = this.place();
    const used = this.book.model.usedArea(this.sheet, valuesOnly === true);
    const shared = used && intersect(area, used);
    if (!shared) return null;
    // trim to the used part inside this range
    const inside = this.sheet.cells
      .in(shared)
      .filter(
        ({ cell }) =>
          cell.value !== null || cell.formula !== undefined || (valuesOnly !== true && cell.style),
      )
      .map(({ row, column }) => ({ row, column, rows: 1, columns: 1 }));
    const first = inside[0];
    return first ? this.at(inside.reduce((box, cell) => bounding(box, cell), first)) : null;
  }

  GetUsedRange(valuesOnly: unknown): RangeObject {
    return this.GetUsedRangeOrNullObject(valuesOnly) ?? this.GetCell(0, 0);
  }

  GetSurroundingRegion(): RangeObject {
    const { row, column, rows, columns } = this.place();
    const box = { top: row, left: column, bottom: row + rows, right: column + columns };
    const filled = (area: Area): boolean =>
      this.sheet.cells.in(area).some(({ cell }) => cell.value !== null || cell.formula !== undefined);
    // the line beyond each side, with the corners
    const line = (at: number): Area => {
      const left = Math.max(0, box.left - 1);
      return { row: at, rows: 1, column: left, columns: Math.min(MAX_COLUMNS, box.right + 1) - left };
    };
    const lane = (at: number): Area => {
      const top = Math.max(0, box.top - 1);
      return { column: at, columns: 1, row: top, rows: Math.min(MAX_ROWS, box.bottom + 1) - top };
    };
    for (;;) {
      const { top, left, bottom, right } = box;
      // a long list is walked down once, and only then looked at from its sides
      while (box.top > 0 && filled(line(box.top - 1))) box.top--;
      while (box.bottom < MAX_ROWS && filled(line(box.bottom))) box.bottom++;
      while (box.left > 0 && filled(lane(box.left - 1))) box.left--;
      while (box.right < MAX_COLUMNS && filled(lane(box.right))) box.right++;
      if (box.top === top && box.left === left && box.bottom === bottom && box.right === right)
        return this.at({ row: top, column: left, rows: bottom - top, columns: right - left });
    }
  }

  FindOrNullObject(text: unknown, criteria: unknown): RangeObject | null {
    const found = findIn(
      this.sheet,
      this.place(),
      asText(text),
      isNothing(criteria) ? {} : asRecord(criteria),
    )[0];
    return found ? this.at(found) : null;
  }

  Find(text: unknown, criteria: unknown): RangeObject {
    return this.FindOrNullObject(text, criteria) ?? fail('ItemNotFound');
  }

  GetSpecialCellsOrNullObject(type: unknown, valueTypes: unknown): RangeAreasObject | null {
    const areas = specialAreas(
      this.book,
      this.sheet,
      this.place(),
      asText(type),
      isNothing(valueTypes) ? 'All' : asText(valueTypes),
    );
    return areas.length > 0 ? this.book.makers.rangeAreas(this.book, this.sheet, areas) : null;
  }

  GetSpecialCells(type: unknown, valueTypes: unknown): RangeAreasObject {
    return this.GetSpecialCellsOrNullObject(type, valueTypes) ?? fail('ItemNotFound');
  }

  GetMergedAreasOrNullObject(): RangeAreasObject | null {
    const area = this.place();
    const merges = this.sheet.layout.merges.filter((merge) => intersect(merge, area));
    return merges.length > 0 ? this.book.makers.rangeAreas(this.book, this.sheet, merges) : null;
  }

  get HasSpill(): boolean | null {
    const cells = this.sheet.cells.in(this.place());
    const spilled = cells.filter(({ cell }) => cell.spill ?? cell.spilledFrom).length;
    if (spilled === 0) return false;
    return spilled === this.CellCount ? true : null;
  }

  GetSpillingToRangeOrNullObject(): RangeObject | null {
    const { row, column } = this.place();
    const spill = this.sheet.cells.get(row, column)?.spill;
    return spill ? this.at({ row, column, ...spill }) : null;
  }

  GetSpillingToRange(): RangeObject {
    return this.GetSpillingToRangeOrNullObject() ?? fail('ItemNotFound');
  }

  GetSpillParentOrNullObject(): RangeObject | null {
    const { row, column } = this.place();
    const cell = this.sheet.cells.get(row, column);
    const anchor = cell?.spilledFrom ?? (cell?.spill ? { row, column } : null);
    return anchor ? this.at({ ...anchor, rows: 1, columns: 1 }) : null;
  }

  GetSpillParent(): RangeObject {
    return this.GetSpillParentOrNullObject() ?? fail('ItemNotFound');
  }

  // ---- shape

  get RowHidden(): boolean | null {
    return isHidden(this.sheet, this.place(), 'rows');
  }

  set RowHidden(value: unknown) {
    this.book.guard(this.sheet, this.place(), 'allowFormatRows');
    setHidden(this.book, this.sheet, this.place(), 'rows', asFlag(value));
  }

  get ColumnHidden(): boolean | null {
    return isHidden(this.sheet, this.place(), 'columns');
  }

  set ColumnHidden(value: unknown) {
    this.book.guard(this.sheet, this.place(), 'allowFormatColumns');
    setHidden(this.book, this.sheet, this.place(), 'columns', asFlag(value));
  }

  get Hidden(): boolean | null {
    const rows = this.RowHidden;
    const columns = this.ColumnHidden;
    if (rows === true || columns === true) return true;
    return rows === false && columns === false ? false : null;
  }

  Insert(shift: unknown): RangeObject {
    const down = asOneOf(shift, ['Down', 'Right']) === 'Down';
    const area = { ...this.place() };
    this.guardShift(area, down, 'Insert');
    this.book.model.insertCells(this.sheet, area, down ? 'down' : 'right', 'addin');
    return this.at(area);
  }

  Delete(shift: unknown): void {
    const up = asOneOf(shift, ['Up', 'Left']) === 'Up';
    const area = { ...this.place() };
    this.guardShift(area, up, 'Delete');
    this.book.model.deleteCells(this.sheet, area, up ? 'up' : 'left', 'addin');
  }

  private guardShift(area: Area, vertical: boolean, verb: 'Insert' | 'Delete'): void {
    if (area.rows === MAX_ROWS) this.book.guard(this.sheet, area, `allow${verb}Columns`);
    else if (area.columns === MAX_COLUMNS) this.book.guard(this.sheet, area, `allow${verb}Rows`);
    else this.book.guard(this.sheet, vertical ? { ...area, rows: MAX_ROWS - area.row } : area, 'content');
  }

  Merge(across: unknown): void {
    const area = this.place();
    this.book.guard(this.sheet, area, 'content');
    if (this.book.model.tablesOn(this.sheet, area).length > 0) {
      fail('InvalidOperation', 'Cells of a table cannot be merged.');
    }
    const kept = this.sheet.layout.merges.filter((merge) => !intersect(merge, area));
    const added =
      across === true
        ? Array.from({ length: area.rows }, (_, i) => ({ ...area, row: area.row + i, rows: 1 }))
        : [{ ...area }];
    for (const merge of added) {
      keepFirst(this.book, this.sheet, merge);
    }
    this.book.model.setLayout(
      this.sheet,
      { merges: [...kept, ...added.filter((m) => m.rows * m.columns > 1)] },
      'addin',
    );
  }

  Unmerge(): void {
    const area = this.place();
    this.book.guard(this.sheet, area, 'content');
    const merges = this.sheet.layout.merges.filter((merge) => !intersect(merge, area));
    this.book.model.setLayout(this.sheet, { merges }, 'addin');
  }

  Select(): void {
    this.book.model.select(this.book.requireSheet(this.sheet), { ...this.place() }, 'addin');
  }
}

const CLEARED = ['All', 'Formats', 'Contents', 'Hyperlinks', 'RemoveHyperlinks'] as const;
