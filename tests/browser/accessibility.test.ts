/**
 * Every screen against axe-core's rules (WCAG 2.2 A and AA) at the pane's width, light, dark and in forced colours,
 * and at the smallest pane that Excel gives (350 × 378 px, from the add-in documentation): nothing scrolls sideways.
 */
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
import type { AxeResults } from 'axe-core';
import type { BrowserContextOptions } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startStage, type Preview, type Stage } from './preview.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let stage: Stage;
beforeAll(async () => {
  stage = await startStage();
});
afterAll(() => stage.close());

const LOOKS: readonly (readonly [string, BrowserContextOptions])[] = [
  ['light', { colorScheme: 'light' }],
  ['dark', { colorScheme: 'dark' }],
  ['forced', { forcedColors: 'active' }],
];

interface AxeWindow extends Window {
  readonly axe: { run: (options: object) => Promise<AxeResults> };
}

/** What axe finds wrong in the pane, as "rule: element". */
async function violations({ page }: Preview): Promise<string[]> {
  const frame = page.frames().find((f) => f.url().includes('taskpane.html'))!;
  await frame.evaluate(axe);
  const results = await frame.evaluate(() =>
    (window as unknown as AxeWindow).axe.run({
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
    }),
  );
  return results.violations.flatMap((v) =>
    v.nodes.map((n) => `${v.id}: ${n.target.join(' ')} ${n.failureSummary ?? ''}`),
  );
}

/** Elements that stick out to the right of the pane. */
async function tooWide({ page }: Preview): Promise<number> {
  const frame = page.frames().find((f) => f.url().includes('taskpane.html'))!;
  return frame.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
}

/** Tasks as the start screen offers them. */
async function tasks({ pane }: Preview): Promise<string[]> {
  const buttons = pane.getByRole('navigation', { name: 'Tasks' }).getByRole('button');
  return Promise.all((await buttons.all()).map(async (b) => (await b.innerText()).split('\n')[0]!));
}

describe.each(LOOKS)('screens in the %s look', (look, options) => {
  let preview: Preview;
  beforeAll(async () => {
    preview = await stage.open(options);
  });
  afterAll(() => preview.page.context().close());

  it('have nothing for axe to find, and fit the pane', { timeout: 300_000 }, async () => {
    const found: Record<string, unknown> = {};
    const check = async (name: string): Promise<void> => {
      const list = await violations(preview);
      const wide = await tooWide(preview);
      if (list.length > 0 || wide > 0) found[name] = { list, wide };
      await preview.screenshot(`${look}-${name.toLowerCase().replace(/[^a-z]+/g, '-')}`);
    };
    await check('start');
    const names = await tasks(preview);
    expect(names).toEqual(expect.arrayContaining(['Make keys', 'Check codes', 'Audit a system', 'Specs']));
    for (const name of names) {
      await preview.pane
        .getByRole('navigation', { name: 'Tasks' })
        .getByRole('button', { name })
        .first()
        .click();
      await preview.pane.getByRole('button', { name: /^Back to/ }).waitFor();
      await preview.page.waitForTimeout(400);
      await check(name);
      await preview.pane.getByRole('button', { name: /^Back to/ }).click();
      await preview.pane.getByRole('navigation', { name: 'Tasks' }).waitFor();
    }
    for (const [sheet, address, name] of [
      ['Keys', 'E7', 'strip key'],
      ['Cylinders', 'B6', 'strip cylinder'],
      ['Grid', 'G5', 'strip grid cell'],
    ] as const) {
      await preview.call('select', sheet, address);
      await preview.page.waitForTimeout(1500);
      await check(name);
    }
    expect(found).toEqual({});
  });
});
