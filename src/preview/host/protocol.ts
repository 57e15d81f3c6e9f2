/**
 * The JSON that office.js exchanges with its host: a request is a list of object paths and a list of actions on
 * them. The protocol is not documented; these shapes were read off the requests of `@microsoft/office-js` 1.1.110,
 * which is why that version is pinned.
 */

export const PATH = {
  root: 1,
  service: 2,
  method: 3,
  property: 4,
  indexer: 5,
  reference: 6,
  nothing: 7,
} as const;

export const ACTION = {
  instantiate: 1,
  query: 2,
  method: 3,
  setProperty: 4,
  trace: 5,
  queryAsJson: 7,
  ensureUnchanged: 8,
  update: 9,
} as const;

export interface ArgumentInfo {
  Arguments?: unknown[];
  /** Beside each argument: the path id it stands for, a list of ids for an array, or 0. */
  ReferencedObjectPathIds?: (number | number[] | null)[] | null;
}

export interface ObjectPath {
  Id: number;
  ObjectPathType: number;
  Name: string;
  ParentObjectPathId?: number;
  ArgumentInfo?: ArgumentInfo;
}

export interface QueryInfo {
  Select?: string[];
  Expand?: string[];
  Skip?: number;
  Top?: number;
}

export interface Action {
  Id: number;
  ActionType: number;
  Name: string;
  ObjectPathId: number;
  ArgumentInfo?: ArgumentInfo;
  QueryInfo?: QueryInfo;
  ObjectState?: Record<string, unknown>;
}

export interface RequestBody {
  Actions: Action[];
  ObjectPaths: Record<string, ObjectPath>;
}

export interface RequestMessage {
  id: number;
  type: number;
  flags?: number;
  message: { url?: string; body: RequestBody | string };
}

export interface ResponseError {
  Code: string;
  Message: string;
  HttpStatusCode: number;
  Location: string;
  ActionIndex: number;
}

export interface ResponseBody {
  Results: { ActionId: number; Value: unknown }[];
  /** The trace actions that were reached; office.js takes up event handlers by them. */
  TraceIds?: number[];
  Error?: ResponseError;
}

/** Message types of the bridge. */
export const MESSAGE = { request: 1, event: 3 } as const;

export const EVENT_CATEGORY = 65_536;

/** Set where the add-in asked that the request wait until the user leaves a cell. */
export const DELAY_FOR_CELL_EDIT = 64;

/** What office.js looks for as `globalThis._richApiNativeBridge`. */
export interface Bridge {
  sendMessageToHost(text: string): void;
  onMessageFromHost: ((text: string) => void) | null;
}
