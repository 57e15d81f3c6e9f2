/** The built preview in real Chromium: server, browser and the few things that every browser test does. */
import { mkdirSync, readFileSync } from 'node:fs';
import {
  chromium,
  type Browser,
  type BrowserContextOptions,
  type FrameLocator,
  type Page,
} from 'playwright-core';
import { startServer } from '../../src/build/serve.ts';
import type { KeyrowPreview, PreviewWindow } from '../../taskpane/preview/window.ts';

export interface Preview {
  readonly page: Page;
  /** The add-in's pane. */
  readonly pane: FrameLocator;
  /** Addresses asked for that are not the preview's own. */
  readonly outside: readonly string[];
  /** Errors on the console and uncaught ones. */
  readonly errors: readonly string[];
  /** Calls what the preview leaves on its window. */
  readonly call: (
    name: keyof KeyrowPreview,
    ...args: readonly string[] | readonly [string, number, number]
  ) => Promise<unknown>;
  readonly screenshot: (name: string) => Promise<void>;
  readonly saved: () => Promise<Uint8Array>;
}

export interface Stage {
  readonly open: (options?: BrowserContextOptions) => Promise<Preview>;
  readonly close: () => Promise<void>;
}

/** Pictures of every run, for people to look at. */
const PICTURES = 'artifacts/screenshots';

export async function startStage(): Promise<Stage> {
  const { server, address } = await startServer(0);
  const browser: Browser = await chromium.launch({
    executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--disable-component-update'],
  });
  mkdirSync(PICTURES, { recursive: true });
  return {
    open: async (options = {}) => openPreview(browser, address, options),
    close: async () => {
      await browser.close();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}

async function openPreview(
  browser: Browser,
  address: string,
  options: BrowserContextOptions,
): Promise<Preview> {
  const context = await browser.newContext({
    viewport: { width: 1400, height: 850 },
    acceptDownloads: true,
    ...options,
  });
  const page = await context.newPage();
  page.setDefaultTimeout(60_000);
  const outside: string[] = [];
  const errors: string[] = [];
  page.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith(address) && !/^(data|blob|about):/.test(url)) outside.push(url);
  });
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  // in every frame, the pane's too: what its content security policy refused counts as an error
  await page.addInitScript(() =>
    document.addEventListener('securitypolicyviolation', (e) =>
      // eslint-disable-next-line no-console -- this runs in the page; the console is how it reaches the test
      console.error(`Content security policy: ${e.effectiveDirective} refused ${e.blockedURI}`),
    ),
  );
  page.on('pageerror', (error) => errors.push(String(error)));
  await page.goto(address);
  const pane = page.frameLocator('iframe[title="Keyrow"]');
  await pane.getByRole('contentinfo').getByRole('button', { name: 'Read again' }).waitFor();
  return {
    page,
    pane,
    outside,
    errors,
    call: (name, ...args) =>
      page.evaluate(
        ([method, values]) => {
          const preview = (window as PreviewWindow).keyrowPreview as unknown as Record<
            string,
            (...list: unknown[]) => unknown
          >;
          return preview[method]!(...values);
        },
        [name, [...args] as (string | number)[]] as [string, (string | number)[]],
      ),
    screenshot: async (name) => {
      await page.screenshot({ path: `${PICTURES}/${name}.png` });
    },
    saved: async () => {
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: 'Save a copy' }).click(),
      ]);
      return new Uint8Array(readFileSync(await download.path()));
    },
  };
}
