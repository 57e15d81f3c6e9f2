/** Turns the model's change notices into the event messages office.js expects. */
import {
  areaAddress,
  intersect,
  type Area,
  type CellValue,
  type Change,
  type Origin,
} from '../model/index.ts';
import type { Book } from './book.ts';
import { EVENT_CATEGORY } from './protocol.ts';
import type { Registrations } from './registrations.ts';
import { valueType, wireValue } from './values.ts';

export interface EventMessage {
  messageCategory: number;
  messageType: number;
  targetId: string;
  message: string;
}

/** Message types by the kind under which office.js registers them. */
const SHEET_EVENTS = {
  DataChanged: 10,
  Activated: 11,
  Deactivated: 12,
  Added: 13,
  SelectionChanged: 14,
  Deleted: 15,
  Calculated: 16,
  FormatChanged: 18,
  ProtectionChanged: 24,
  NameChanged: 25,
  VisibilityChanged: 26,
  Moved: 27,
} as const;
const TABLE_EVENTS = { SelectionChanged: 100, DataChanged: 101, Added: 102, Deleted: 103 } as const;
const BOOK_SELECTION = 2;
const WORKBOOK = 'Workbook';

/** `shiftDirection` on the wire. */
const SHIFTED = {
  none: 'None',
  left: 'ShiftCellLeft',
  up: 'ShiftCellUp',
  right: 'ShiftCellRight',
  down: 'ShiftCellDown',
} as const;

type Payload = Record<string, unknown>;

export class EventTranslator {
  private activeId: string;
  private tableNames = new Map<string, string>();
  private sheetFacts = new Map<string, { name: string; position: number; visibility: string }>();

  constructor(
    private readonly book: Book,
    private readonly registrations: Registrations,
  ) {
    this.activeId = book.model.active.id;
    this.remember();
  }

  /** The messages a change gives rise to, for whoever has registered. */
  translate(change: Change): EventMessage[] {
    // opening a file is no event
    const silent = !this.book.eventsEnabled || change.origin === 'file';
    const messages = silent ? [] : this.messages(change);
    if (change.kind === 'sheet' || change.kind === 'table') this.remember();
    if (change.kind === 'active') this.activeId = change.sheetId;
    return messages;
  }

  private remember(): void {
    const { model } = this.book;
    for (const table of model.tables) this.tableNames.set(table.id, table.name);
    model.sheets.forEach((sheet, position) => {
      this.sheetFacts.set(sheet.id, { name: sheet.name, position, visibility: sheet.layout.visibility });
    });
  }

  private messages(change: Change): EventMessage[] {
    switch (change.kind) {
      case 'cells':
        return change.origin === 'calculation'
          ? this.sheetEvent('Calculated', change.sheetId, { address: areaAddress(change.area) })
          : this.dataChanged(change.sheetId, change.area, 'RangeEdited', SHIFTED.none, change.origin);
      case 'styles':
        return this.sheetEvent('FormatChanged', change.sheetId, {
          address: areaAddress(change.area),
          source: 'Local',
          triggerSource: trigger(change.origin),
        });
      case 'inserted':
      case 'deleted':
        return this.shifted(change);
      case 'active':
        return [
          ...this.sheetEvent('Deactivated', this.activeId, {}),
          ...this.sheetEvent('Activated', change.sheetId, {}),
        ];
      case 'selection':
        return this.selected(change.sheetId, change.area);
      case 'sheet':
        return this.sheetChanged(change);
      case 'table':
        return this.tableChanged(change);
      default:
        return [];
    }
  }

  private event(type: number, targetId: string, payload: Payload): EventMessage {
    return { messageCategory: EVENT_CATEGORY, messageType: type, targetId, message: JSON.stringify(payload) };
  }

  private sheetEvent(kind: keyof typeof SHEET_EVENTS, sheetId: string, payload: Payload): EventMessage[] {
    const full = { ...payload, worksheetId: sheetId };
    return [sheetId, WORKBOOK]
      .filter((target) => this.registrations.has(kind, target))
      .map((target) => this.event(SHEET_EVENTS[kind], target, full));
  }

  private dataChanged(
    sheetId: string,
    area: Area,
    changeType: string,
    shift: string,
    origin: Origin,
  ): EventMessage[] {
    const before = this.takeBefore(sheetId, area);
    const payload: Payload = {
      changeType,
      source: 'Local',
      address: areaAddress(area),
      triggerSource: trigger(origin),
      shiftDirection: shift,
      ...(before ? this.details(sheetId, area, before.value) : {}),
    };
    const messages = this.sheetEvent('DataChanged', sheetId, payload);
    for (const table of this.book.model.tables) {
      const shared = table.sheetId === sheetId ? intersect(table.area, area) : null;
      if (!shared) continue;
      for (const target of [table.id, sheetId, WORKBOOK]) {
        if (!this.registrations.has(target === table.id ? 'DataChanged' : 'TableDataChanged', target))
          continue;
        const address = areaAddress(shared);
        messages.push(
          this.event(TABLE_EVENTS.DataChanged, target, {
            ...payload,
            address,
            tableId: table.id,
            worksheetId: sheetId,
          }),
        );
      }
    }
    return messages;
  }

  private takeBefore(sheetId: string, area: Area): { value: CellValue } | null {
    const { before } = this.book;
    if (!before || area.rows * area.columns !== 1) return null;
    if (before.sheetId !== sheetId || before.row !== area.row || before.column !== area.column) return null;
    this.book.before = null;
    return before;
  }

  private details(sheetId: string, area: Area, before: CellValue): Payload {
    const after = this.book.model.value(sheetId, area.row, area.column);
    return {
      valueBefore: wireValue(before),
      valueAfter: wireValue(after),
      valueTypeBefore: valueType(before),
      valueTypeAfter: valueType(after),
    };
  }

  private shifted(change: Extract<Change, { kind: 'inserted' | 'deleted' }>): EventMessage[] {
    const rows = change.axis === 'rows';
    const inserted = change.kind === 'inserted';
    const what = change.lane ? 'Cell' : rows ? 'Row' : 'Column';
    const lane = change.lane ?? { start: 0, count: rows ? 16_384 : 1_048_576 };
    const area = rows
      ? { row: change.at, column: lane.start, rows: change.count, columns: lane.count }
      : { row: lane.start, column: change.at, rows: lane.count, columns: change.count };
    const direction = rows ? (inserted ? SHIFTED.down : SHIFTED.up) : inserted ? SHIFTED.right : SHIFTED.left;
    return this.dataChanged(
      change.sheetId,
      area,
      `${what}${inserted ? 'Inserted' : 'Deleted'}`,
      change.lane ? direction : SHIFTED.none,
      change.origin,
    );
  }

  private selected(sheetId: string, area: Area): EventMessage[] {
    const address = areaAddress(area);
    const messages = [
      this.event(BOOK_SELECTION, '', {}),
      ...this.sheetEvent('SelectionChanged', sheetId, { address }),
    ];
    for (const table of this.book.model.tablesOn(sheetId)) {
      if (!this.registrations.has('SelectionChanged', table.id)) continue;
      const shared = intersect(table.area, area);
      messages.push(
        this.event(TABLE_EVENTS.SelectionChanged, table.id, {
          address: shared ? areaAddress(shared) : '',
          isInsideTable: shared !== null,
          tableId: table.id,
          worksheetId: sheetId,
        }),
      );
    }
    return messages;
  }

  private sheetChanged(change: Extract<Change, { kind: 'sheet' }>): EventMessage[] {
    const { sheetId } = change;
    const before = this.sheetFacts.get(sheetId);
    const sheet = this.book.model.findSheet(sheetId);
    const source = { source: 'Local', triggerSource: trigger(change.origin) };
    switch (change.what) {
      case 'added':
        return this.sheetEvent('Added', sheetId, source);
      case 'removed':
        return this.sheetEvent('Deleted', sheetId, source);
      case 'renamed':
        return this.sheetEvent('NameChanged', sheetId, {
          ...source,
          nameBefore: before?.name,
          nameAfter: sheet?.name,
        });
      case 'moved':
        return this.sheetEvent('Moved', sheetId, {
          ...source,
          positionBefore: before?.position,
          positionAfter: sheet ? this.book.model.sheets.indexOf(sheet) : null,
        });
      case 'shown':
        return this.sheetEvent('VisibilityChanged', sheetId, {
          ...source,
          visibilityBefore: capital(before?.visibility),
          visibilityAfter: capital(sheet?.layout.visibility),
        });
      case 'protection':
        return this.sheetEvent('ProtectionChanged', sheetId, {
          ...source,
          isProtected: sheet?.protection !== null,
        });
      case 'layout':
        return [];
    }
  }

  private tableChanged(change: Extract<Change, { kind: 'table' }>): EventMessage[] {
    if (change.what === 'changed') return [];
    const kind = change.what === 'added' ? 'Added' : 'Deleted';
    const payload = {
      source: 'Local',
      tableId: change.tableId,
      tableName: this.tableNames.get(change.tableId),
      worksheetId: change.sheetId,
    };
    return [change.sheetId, WORKBOOK]
      .filter((target) => this.registrations.has(`Table${kind}`, target))
      .map((target) => this.event(TABLE_EVENTS[kind], target, payload));
  }
}

function trigger(origin: Origin): string {
  return origin === 'addin' ? 'ThisLocalAddin' : 'Unknown';
}

function capital(word: string | undefined): string | null {
  return word === undefined ? null : word.charAt(0).toUpperCase() + word.slice(1);
}
