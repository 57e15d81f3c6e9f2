/**
 * The real front half of Excel's JavaScript API, in Node: loads the Excel proxies of `@microsoft/office-js` (a
 * development dependency) once per test worker and lets them talk to the stand-in host. `Office.onReady` and
 * `CustomFunctions.associate` live in office.js, which needs a browser, so they are stood in for here.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { runInThisContext } from 'node:vm';
import {
  DEFAULT_SETS,
  Host,
  followUndoGroups,
  isSetSupported,
  type Bridge,
  type HostOptions,
  type RequirementSets,
  type Runner,
} from './index.ts';
import { WorkbookModel, type WorkbookOptions } from '../model/index.ts';

/** The one bridge the proxies ever see; it leads to whichever book is open. */
const switchboard: Bridge = {
  onMessageFromHost: null,
  sendMessageToHost: (text) => {
    if (!current) throw new Error('open a book first');
    current.host.bridge.sendMessageToHost(text);
  },
};

let current: OpenBook | null = null;
let sets: RequirementSets = DEFAULT_SETS;

export const associated = new Map<string, unknown>();

function define(name: string, value: unknown): void {
  Object.defineProperty(globalThis, name, { value, configurable: true, writable: true });
}

function element(): object {
  return { style: {}, appendChild: () => null, setAttribute: () => null, getElementsByTagName: () => [] };
}

function installStubs(): void {
  const location = { href: 'https://localhost/', hash: '', search: '', origin: 'https://localhost' };
  define('window', globalThis);
  define('self', globalThis);
  define('navigator', { userAgent: 'node', language: 'en-US' });
  define('addEventListener', () => undefined);
  define('removeEventListener', () => undefined);
  define('location', location);
  define('document', {
    getElementById: () => null,
    getElementsByTagName: () => [],
    createElement: element,
    head: element(),
    body: element(),
    addEventListener: () => undefined,
    readyState: 'complete',
    URL: location.href,
    location,
    cookie: '',
  });
  define('_richApiNativeBridge', switchboard);
  const mappings: Record<string, unknown> = {};
  const associate = (id: string | Record<string, unknown>, run?: unknown): void => {
    const entries = typeof id === 'string' ? [[id, run] as const] : Object.entries(id);
    for (const [name, call] of entries) {
      mappings[name.toUpperCase()] = call;
      associated.set(name.toUpperCase(), call);
    }
  };
  define('CustomFunctionMappings', {});
  define('CustomFunctions', { _association: { mappings, onchange: () => undefined, associate }, associate });
}

function load(): void {
  installStubs();
  const path = createRequire(import.meta.url).resolve('@microsoft/office-js/dist/excel-web-16.00.debug.js');
  runInThisContext(readFileSync(path, 'utf8'), { filename: path });
  const info = { host: 'Excel', platform: 'PC' };
  const context = {
    ...info,
    contentLanguage: 'en-US',
    displayLanguage: 'en-US',
    requirements: { isSetSupported: (name: string, version?: string) => isSetSupported(sets, name, version) },
  };
  const { OSF, Office: office } = globalThis as unknown as { OSF: Record<string, object>; Office: object };
  OSF['_OfficeAppFactory'] = {
    ...OSF['_OfficeAppFactory'],
    getContext: () => context,
    getHostInfo: () => ({ hostType: 'excel', hostPlatform: 'win32', isDialog: false }),
  };
  Object.defineProperty(office, 'onReady', {
    configurable: true,
    value: (callback?: (ready: typeof info) => unknown) => Promise.resolve(callback?.(info)).then(() => info),
  });
  followUndoGroups(Excel as unknown as Runner, () => current?.host ?? null);
}

if (!('Excel' in globalThis)) load();

export interface OpenBook {
  readonly host: Host;
  readonly model: WorkbookModel;
  /** `Excel.run`. */
  readonly run: <T>(batch: (context: Excel.RequestContext) => Promise<T>) => Promise<T>;
  /** Waits until all events so far have arrived. */
  readonly settled: () => Promise<void>;
}

export interface BookOptions extends HostOptions {
  sets?: RequirementSets;
}

/** Handlers of earlier books would hear the events of later ones on the same targets. */
function forgetHandlers(): void {
  const { GenericEventRegistration } = OfficeExtension as unknown as {
    GenericEventRegistration: {
      s_genericEventRegistrations: Record<
        string,
        { m_eventRegistration: { m_handlersByEventByTarget: object } }
      >;
    };
  };
  for (const registration of Object.values(GenericEventRegistration.s_genericEventRegistrations)) {
    registration.m_eventRegistration.m_handlersByEventByTarget = {};
  }
}

/** Opens a workbook under the proxies; whatever was open before is closed. */
export function openBook(book: WorkbookModel | WorkbookOptions = {}, options: BookOptions = {}): OpenBook {
  current?.host.dispose();
  forgetHandlers();
  const model = book instanceof WorkbookModel ? book : new WorkbookModel(book);
  const host = new Host(model, options);
  host.bridge.onMessageFromHost = (text) => {
    // a book that was closed meanwhile has nothing to say any more
    if (current?.host === host) switchboard.onMessageFromHost?.(text);
  };
  sets = options.sets ?? DEFAULT_SETS;
  current = {
    host,
    model,
    run: (batch) => Excel.run(batch),
    settled: async () => {
      for (let turn = 0; turn < 4; turn++) await new Promise((resolve) => setTimeout(resolve, 0));
    },
  };
  return current;
}

/** The code of the error a call fails with; fails where the call succeeds. */
export async function errorCode(call: () => Promise<unknown>): Promise<string> {
  try {
    await call();
  } catch (error) {
    if (error instanceof OfficeExtension.Error) return error.code;
    throw error;
  }
  throw new Error('the call did not fail');
}
