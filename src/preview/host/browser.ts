/**
 * Makes a page believe that Excel is around it: `window.external` and the bridge, as office.js looks for them when it
 * loads. The page runs in an iframe of the preview; its host lives in the parent page.
 */
import type { Bridge } from './protocol.ts';
import { DEFAULT_SETS, type RequirementSets } from './requirementSets.ts';

export interface ShellOptions {
  sets?: RequirementSets;
  locale?: string;
  documentUrl?: string;
  /** Document settings of the older API (`Office.context.document.settings`), kept by the caller. */
  settings?: Record<string, string>;
}

/** Run it in the page before office.js loads: `installOfficeShell(iframe.contentWindow, host.bridge)`. */
export function installOfficeShell(win: Window, bridge: Bridge, options: ShellOptions = {}): void {
  const context = { ...solutionContext(options), GetOfficeThemeInfo: () => themeOf(win) };
  const external = {
    GetContext: () => context,
    GetHostInfo: () => `Excel$Win32$16.01$${options.locale ?? 'en-US'}$telemetry$$disableLogging$0`,
    GetLoggingAllowed: () => false,
    Execute: () => undefined,
    RegisterEvent: (...args: unknown[]) => {
      succeed(args.at(-1));
    },
    UnregisterEvent: (...args: unknown[]) => {
      succeed(args.at(-1));
    },
  };
  Object.defineProperty(win, 'external', { configurable: true, value: external });
  Object.defineProperty(win, '_richApiNativeBridge', { configurable: true, value: bridge });
}

/** Excel's colours as whole numbers, light or dark as the page's system is. */
function themeOf(win: Window): string {
  const dark = win.matchMedia('(prefers-color-scheme: dark)').matches;
  const [background, foreground] = dark ? [0x292929, 0xffffff] : [0xffffff, 0x242424];
  return JSON.stringify({
    bodyBackgroundColor: background,
    bodyForegroundColor: foreground,
    controlBackgroundColor: background,
    controlForegroundColor: foreground,
  });
}

/** Callbacks of the shell take a status; 0 is success. */
function succeed(callback: unknown): void {
  if (typeof callback === 'function') Reflect.apply(callback, undefined, [0]);
}

function solutionContext(options: ShellOptions): Record<string, () => unknown> {
  const locale = options.locale ?? 'en-US';
  const settings = options.settings ?? {};
  return {
    GetAppType: () => 1,
    GetSolutionRef: () => 'preview',
    GetAppVersionMajor: () => 16,
    GetAppVersionMinor: () => 1,
    GetAppUILocale: () => locale,
    GetAppDataLocale: () => locale,
    GetDocUrl: () => options.documentUrl ?? 'Book1.xlsx',
    GetAppCapabilities: () => 2,
    GetActivationMode: () => 1,
    GetControlIntegrationLevel: () => 1,
    GetSolutionToken: () => '',
    GetHostFullVersion: () => '16.0.20000.10000',
    GetSettings: () => ({
      Read: (keys: string[], values: string[]) => {
        for (const [key, value] of Object.entries(settings)) {
          keys.push(key);
          values.push(value);
        }
      },
      Write: (keys: readonly string[], values: readonly string[]) => {
        for (const key of Object.keys(settings)) Reflect.deleteProperty(settings, key);
        keys.forEach((key, i) => (settings[key] = values[i] ?? ''));
      },
    }),
    GetSupportedMatrix: () => JSON.stringify(options.sets ?? DEFAULT_SETS),
  };
}
