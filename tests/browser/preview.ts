/** The built preview in real Chromium: server, browser and the few things that every browser test does. */
import { mkdirSync, readFileSync } from 'node:fs';
import {
  chromium,
  type Browser,
  type BrowserContextOptions,
  type FrameLocator,
  type Locator,
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
  /** Two screenshots, `-light` and `-dark`, each taken when the pane has taken the theme, with `inView` scrolled to; leaves it light. */
  readonly pictured: (name: string, inView?: Locator) => Promise<void>;
  readonly saved: () => Promise<Uint8Array>;
  /** The button of that name in the pane's foot. */
  readonly primary: (name: string | RegExp) => Locator;
  /** Goes back to the start screen, whatever is open. */
  readonly toStart: () => Promise<void>;
  /** Goes back to the start screen, whatever is open, and from there to the task. */
  readonly openTask: (title: string) => Promise<void>;
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
  const primary = (name: string | RegExp): Locator =>
    pane.getByRole('contentinfo').getByRole('button', { name });
  await primary('Read again').waitFor();
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
    pictured: async (name, inView) => {
      await inView?.scrollIntoViewIfNeeded();
      for (const scheme of ['light', 'dark'] as const) {
        await switchTheme(page, scheme);
        await page.screenshot({ path: `${PICTURES}/${name}-${scheme}.png` });
      }
      await switchTheme(page, 'light');
    },
    saved: async () => {
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: 'Save a copy' }).click(),
      ]);
      return new Uint8Array(readFileSync(await download.path()));
    },
    primary,
    toStart: () => toStart(pane),
    openTask: (title) => openTask(pane, title),
  };
}

/** How long a screen may take to come before the click is held to have missed, in ms. */
const MISSED = 5_000;

async function openTask(pane: FrameLocator, title: string, tries = 3): Promise<void> {
  await toStart(pane);
  await pane
    .getByRole('navigation', { name: 'Tasks' })
    .getByRole('button', { name: new RegExp(`^${title}`) })
    .first()
    .click();
  const heading = pane.getByRole('heading', { level: 1, name: title });
  // the start screen grows when it has read what was just typed, so a click can miss, as a person's can
  if (tries === 1) await heading.waitFor();
  else await heading.waitFor({ timeout: MISSED }).catch(() => openTask(pane, title, tries - 1));
}

async function toStart(pane: FrameLocator): Promise<void> {
  const back = pane.getByRole('button', { name: /^Back/ });
  while (await back.count()) {
    const label = (await back.first().getAttribute('aria-label')) ?? (await back.first().innerText());
    await back.first().click();
    await pane.getByRole('button', { name: label, exact: true }).waitFor({ state: 'detached' });
  }
  await pane.getByRole('contentinfo').getByRole('button', { name: 'Read again' }).waitFor();
}

/** Asks for a colour scheme and waits until the pane is painted in it: React renders it later than the media query. */
async function switchTheme(page: Page, colorScheme: 'light' | 'dark'): Promise<void> {
  await page.emulateMedia({ colorScheme });
  await page.evaluate(forgetTheme);
  await page.waitForFunction((dark) => {
    const frame = document.querySelector<HTMLIFrameElement>('iframe[title="Keyrow"]');
    const inside = frame?.contentDocument;
    const pane = inside?.querySelector('.pane');
    if (!inside || !pane) return false;
    const [red = 0, green = 0, blue = 0] = (getComputedStyle(pane).backgroundColor.match(/\d+/g) ?? []).map(
      Number,
    );
    const painted = red + green + blue < 3 * 128;
    return painted === dark && inside.getAnimations().every(({ playState }) => playState !== 'running');
  }, colorScheme === 'dark');
}

/** office.js gives the theme it last read for five seconds: its clock runs on by more while the pane asks again. */
function forgetTheme(): void {
  const inside = document.querySelector<HTMLIFrameElement>('iframe[title="Keyrow"]')?.contentWindow as
    (Window & typeof globalThis & { ranOn?: number }) | null | undefined;
  if (!inside) return;
  const { prototype } = inside.Date;
  const { getTime } = prototype;
  const ranOn = (inside.ranOn ?? 0) + 60_000;
  inside.ranOn = ranOn;
  prototype.getTime = function () {
    return getTime.call(this) + ranOn;
  };
  inside.dispatchEvent(new inside.Event('focus'));
  prototype.getTime = getTime;
}
