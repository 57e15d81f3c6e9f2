/**
 * Every help page as a host would serve it, in Chromium: nothing for axe to find in light, dark and forced colours,
 * readable at 350 px and at 200 %, nothing refused by the page's own content security policy.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import { createRequire } from 'node:module';
import type { AddressInfo } from 'node:net';
import type { AxeResults } from 'axe-core';
import { chromium, type Browser, type BrowserContextOptions, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { answerFrom } from '../../src/build/serve.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const PAGES = readdirSync('dist/help', { recursive: true, encoding: 'utf8' }).filter((f) =>
  f.endsWith('.html'),
);

let server: Server;
let browser: Browser;
beforeAll(async () => {
  server = createServer(answerFrom([['/', 'dist/']]));
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  browser = await chromium.launch({
    executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
  });
});
afterAll(async () => {
  await browser.close();
  server.close();
});

interface AxeWindow extends Window {
  readonly axe: { run: (options: object) => Promise<AxeResults> };
}

/** The width of a pane or a small phone. */
const NARROW = { width: 350, height: 600 };
/** One of each kind: they share one style sheet, so that looks differ by kind and not by page. */
const KINDS = ['index', 'make-keys', 'hosting', 'functions/pinstacks'].map((name) => `${name}.html`);

const LOOKS: readonly (readonly [look: string, pages: readonly string[], BrowserContextOptions])[] = [
  ['light', PAGES.filter((p) => !p.startsWith('functions') || KINDS.includes(p)), { viewport: NARROW }],
  ['dark', KINDS, { colorScheme: 'dark', viewport: NARROW }],
  ['forced', KINDS, { forcedColors: 'active', viewport: NARROW }],
];

describe('the help pages', () => {
  it('are there', () => expect(PAGES.length).toBeGreaterThan(45));

  const watched = async (options: BrowserContextOptions): Promise<[Page, string[]]> => {
    const page = await (await browser.newContext(options)).newPage();
    const faults: string[] = [];
    page.on('console', (message) => message.type() === 'error' && faults.push(message.text()));
    return [page, faults];
  };
  const address = (path: string): string =>
    `http://127.0.0.1:${(server.address() as AddressInfo).port}/help/${path}`;

  it.each(LOOKS)('pass axe, %s', { timeout: 300_000 }, async (look, pages, options) => {
    const [page, faults] = await watched(options);
    for (const path of pages) {
      await page.goto(address(path));
      await page.evaluate(axe);
      const { violations } = await page.evaluate(() => (window as unknown as AxeWindow).axe.run({}));
      faults.push(...violations.flatMap((v) => v.nodes.map((n) => `${path}: ${v.id} ${n.target.join(' ')}`)));
      if (KINDS.includes(path))
        await page.screenshot({
          path: `artifacts/screenshots/${look}-help-${path.replace(/\W+/g, '-')}.png`,
          fullPage: true,
        });
    }
    expect(faults.filter((text) => !text.includes('favicon'))).toEqual([]);
    await page.context().close();
  });

  // a window of 640 px shows 320 at 200 %
  it('fit at 320 px, every one', { timeout: 300_000 }, async () => {
    const [page, faults] = await watched({ viewport: { width: 320, height: 400 } });
    for (const path of PAGES) {
      const answer = await page.goto(address(path));
      expect(answer?.status(), path).toBe(200);
      const wide = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      if (wide > 0) faults.push(`${path}: ${wide} px too wide`);
    }
    expect(faults.filter((text) => !text.includes('favicon'))).toEqual([]);
    await page.context().close();
  });
});
