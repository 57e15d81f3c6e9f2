/**
 * The README's picture: the sample in the preview, with the grid's interchange selected. Needs both builds and
 * Chromium. Use: `tsx src/build/screenshot.ts FILE`
 */
import { chromium } from 'playwright-core';
import { startServer } from './serve.ts';

const file = process.argv[2];
if (file === undefined) throw new Error('name the picture to write');
const { server, address } = await startServer(0);
const browser = await chromium.launch({
  executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
});
const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
await page.goto(address);
const pane = page.frameLocator('iframe[title="Keyrow"]');
await pane.getByRole('button', { name: /^Audit a system/ }).click();
await pane.getByRole('contentinfo').getByRole('button').first().click();
await pane
  .getByRole('button', { name: /^Go to cell Grid!/ })
  .first()
  .click();
// the scroll to the selected cell is animated
await page.waitForTimeout(2500);
await page.screenshot({ path: file });
await browser.close();
server.close();
