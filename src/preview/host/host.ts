/**
 * Answers office.js from a workbook model: what Excel does behind the bridge, with limits, faults and undo that tests
 * can steer. Responses come in a macrotask of their own, events in a later one, as from Excel.
 */
import {
  ModelError,
  parseArea,
  type Area,
  type Change,
  type Input,
  type WorkbookModel,
} from '../model/index.ts';
import { Book } from './book.ts';
import { HostError } from './error.ts';
import { EventTranslator, type EventMessage } from './events.ts';
import type { HostObject } from './object.ts';
import { WorkbookObject } from './objects/workbook.ts';
import { Processor, type Session } from './processor.ts';
import {
  DELAY_FOR_CELL_EDIT,
  MESSAGE,
  type Bridge,
  type RequestBody,
  type RequestMessage,
  type ResponseBody,
} from './protocol.ts';
import { Registrations } from './registrations.ts';
import { shiftArea } from '../model/shift.ts';
import { MAKERS } from './wiring.ts';

/**
 * What a test does to one request: let it pass; lose it (`drop`) or only its answer (`mute`); fail it after some of its
 * actions; refuse it as a whole, as for its size, before or after it was carried out; or make it wait.
 */
export type Fault =
  | 'pass'
  | 'drop'
  | 'mute'
  | { error: string; afterActions?: number }
  | { refuse: string; done?: boolean }
  | { delay: number };

export interface HostOptions {
  /** Bytes; Excel on the web takes and gives 5 MB. */
  requestLimit?: number;
  responseLimit?: number;
}

export const PAYLOAD_LIMIT = 5 * 1024 * 1024;

export class Host {
  readonly book: Book;
  readonly registrations = new Registrations();
  readonly bridge: Bridge;
  /** Asked before each request, with its number from 0. */
  intercept: ((requestIndex: number, body: RequestBody) => Fault) | null = null;
  /** Sees each request and its answer. */
  onExchange: ((body: RequestBody, response: ResponseBody | null) => void) | null = null;
  requestCount = 0;

  private readonly session: Session;
  private readonly events: EventTranslator;
  private readonly messages: EventMessage[] = [];
  private readonly limits: Required<HostOptions>;
  private readonly stopListening: () => void;
  private queue: Promise<void> = Promise.resolve();
  private editing: { done: Promise<void>; end: () => void } | null = null;
  private undoGroup: { length: number; label: string } | null = null;
  private flushPlanned = false;

  constructor(
    readonly model: WorkbookModel,
    options: HostOptions = {},
  ) {
    this.limits = { requestLimit: PAYLOAD_LIMIT, responseLimit: PAYLOAD_LIMIT, ...options };
    this.book = new Book(model, MAKERS);
    this.events = new EventTranslator(this.book, this.registrations);
    this.session = {
      book: this.book,
      root: new WorkbookObject(this.book),
      kept: new Map<string, HostObject>(),
      registrations: this.registrations,
      nextReference: 1,
    };
    this.bridge = {
      onMessageFromHost: null,
      sendMessageToHost: (text) => {
        this.receive(text);
      },
    };
    this.stopListening = model.subscribe((change) => {
      this.follow(change);
    });
  }

  /** Stops following the model. */
  dispose(): void {
    this.stopListening();
  }

  // ---- what a user does

  /** Types into a sheet as a user would; throws a `ModelError` where Excel would refuse. */
  userEdit(sheetName: string, address: string, input: Input | readonly (readonly Input[])[]): void {
    const sheet = this.model.sheet(sheetName);
    const area = parseArea(address);
    if (!area) throw new ModelError('InvalidArgument', `"${address}" is not an address.`);
    const inputs = Array.isArray(input) ? (input as readonly (readonly Input[])[]) : [[input as Input]];
    const whole: Area = { ...area, rows: inputs.length, columns: inputs[0]?.length ?? 1 };
    this.book.guard(sheet, whole, 'content');
    const { row, column } = area;
    this.book.before = { sheetId: sheet.id, row, column, value: this.model.value(sheet, row, column) };
    this.model.enterBlock(sheet, whole, inputs, 'user');
  }

  /** Selects cells as a user would. */
  userSelect(sheetName: string, address: string): void {
    const areas = address.split(',').map((part) => {
      const area = parseArea(part.trim());
      if (!area) throw new ModelError('InvalidArgument', `"${part}" is not an address.`);
      return area;
    });
    this.model.select(sheetName, areas, 'user');
  }

  /** While a user is typing in a cell, requests fail, or wait where the add-in asked for that. */
  setCellEditMode(on: boolean): void {
    if (on && !this.editing) {
      let end = (): void => undefined;
      const done = new Promise<void>((resolve) => (end = resolve));
      this.editing = { done, end };
    } else if (!on && this.editing) {
      this.editing.end();
      this.editing = null;
    }
  }

  /** From here to `endUndoGroup` all requests make one undo entry (`Excel.run({ mergeUndoGroup: true })`). */
  beginUndoGroup(label = 'Add-in'): void {
    this.undoGroup ??= { length: this.model.undoStack.length, label };
  }

  endUndoGroup(): void {
    if (this.undoGroup) this.model.undoStack.joinFrom(this.undoGroup.length, this.undoGroup.label);
    this.undoGroup = null;
  }

  // ---- requests

  private receive(text: string): void {
    const message = JSON.parse(text) as RequestMessage;
    if (message.type !== MESSAGE.request) return;
    const { body: raw } = message.message;
    const body = typeof raw === 'string' ? (JSON.parse(raw) as RequestBody) : raw;
    const index = this.requestCount++;
    const turn = this.queue.then(() => this.answer(message, body, text.length, index));
    // an answer never rejects; a bug in here must not stop the requests behind it
    this.queue = turn.catch((bug: unknown) => {
      this.respond(message.id, failed(new HostError('GeneralException', String(bug))));
    });
  }

  private async answer(
    message: RequestMessage,
    body: RequestBody,
    size: number,
    index: number,
  ): Promise<void> {
    await macrotask();
    const fault = this.intercept?.(index, body) ?? 'pass';
    if (fault === 'drop') {
      this.onExchange?.(body, null);
      return;
    }
    if (typeof fault === 'object' && 'delay' in fault) await macrotask(fault.delay);
    if (this.editing) {
      if (((message.flags ?? 0) & DELAY_FOR_CELL_EDIT) === 0) {
        this.respond(message.id, failed(new HostError('InvalidOperationInCellEditMode')));
        return;
      }
      await this.editing.done;
    }
    const refused = typeof fault === 'object' && 'refuse' in fault ? fault : null;
    if (refused && refused.done !== true) {
      this.refuse(message.id, new HostError(refused.refuse));
      return;
    }
    if (size > this.limits.requestLimit) {
      this.refuse(message.id, new HostError('RequestPayloadSizeLimitExceeded'));
      return;
    }
    const response = await this.process(body, fault);
    this.onExchange?.(body, response);
    if (fault === 'mute') return;
    if (refused) {
      this.refuse(message.id, new HostError(refused.refuse));
      return;
    }
    const text = JSON.stringify(response);
    if (text.length > this.limits.responseLimit) {
      this.refuse(message.id, new HostError('ResponsePayloadSizeLimitExceeded'));
      return;
    }
    this.respond(message.id, response);
  }

  private async process(body: RequestBody, fault: Fault): Promise<ResponseBody> {
    const injected = typeof fault === 'object' && 'error' in fault ? fault : null;
    const limit = injected ? (injected.afterActions ?? 0) : Infinity;
    const processor = new Processor(this.session, body);
    this.model.undoStack.begin('Add-in');
    try {
      const settle = async (): Promise<void> => {
        if (this.book.calculationMode !== 'Manual') await this.model.engine?.settle();
      };
      const response = await processor.run(settle, limit);
      if (!injected || response.Error) return response;
      return { ...response, ...failed(new HostError(injected.error)), Results: response.Results };
    } finally {
      this.model.undoStack.end();
      processor.release();
    }
  }

  private respond(id: number, body: ResponseBody): void {
    this.push({ id, type: MESSAGE.request, message: { statusCode: 200, headers: {}, body } });
  }

  /** A failure outside the request itself, such as its size. */
  private refuse(id: number, error: HostError): void {
    const body = { error: { code: error.code, message: error.message } };
    this.push({ id, type: MESSAGE.request, message: { statusCode: error.status, headers: {}, body } });
  }

  private push(message: unknown): void {
    this.bridge.onMessageFromHost?.(JSON.stringify(message));
  }

  // ---- changes and events

  private follow(change: Change): void {
    if (change.kind === 'inserted' || change.kind === 'deleted') this.moveLiveRanges(change);
    this.messages.push(...this.events.translate(change));
    if (this.flushPlanned || this.messages.length === 0) return;
    this.flushPlanned = true;
    void this.flushLater();
  }

  private async flushLater(): Promise<void> {
    await macrotask();
    await this.queue;
    await macrotask();
    this.flushPlanned = false;
    const entries = this.messages.splice(0);
    if (entries.length > 0) this.push({ type: MESSAGE.event, message: { entries } });
  }

  private moveLiveRanges(change: Extract<Change, { kind: 'inserted' | 'deleted' }>): void {
    const { axis, at, lane } = change;
    const count = change.kind === 'inserted' ? change.count : -change.count;
    const shift = { axis, at, count, ...(lane ? { lane } : {}) };
    for (const range of this.book.live) {
      if (range.sheet.id !== change.sheetId || range.gone) continue;
      const moved = shiftArea(range.area, shift);
      if (moved) range.area = moved;
      else range.gone = true;
    }
  }
}

function failed(error: HostError): ResponseBody {
  return {
    Results: [],
    Error: {
      Code: error.code,
      Message: error.message,
      HttpStatusCode: error.status,
      Location: '',
      ActionIndex: -1,
    },
  };
}

/** Node has a macrotask that doesn't wait for the next millisecond. */
function macrotask(delay = 0): Promise<void> {
  return new Promise((resolve) => {
    if (delay === 0 && typeof setImmediate === 'function') setImmediate(resolve);
    else setTimeout(resolve, delay);
  });
}
