/**
 * Every screen against axe-core's rules (WCAG 2.2 A and AA) at the pane's width, light, dark and in forced colours,
 * and at the smallest pane that Excel gives (350 × 378 px, from the add-in documentation): nothing scrolls sideways.
 */
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
import type { AxeResults } from 'axe-core';
import type { BrowserContextOptions, Frame } from 'playwright-core';
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

/** Waits until no colour or place is on its way: axe measures contrast as it stands in that very frame. */
async function settled(frame: Frame): Promise<void> {
  await frame.evaluate(async () => {
    const moving = (): boolean =>
      document
        .getAnimations()
        // a spinner's animation never ends
        .some((a) => a.playState === 'running' && Number.isFinite(a.effect?.getComputedTiming().endTime));
    for (let still = 0; still < 3; still = moving() ? 0 : still + 1) {
      await new Promise((resolve) => requestAnimationFrame(resolve));
    }
  });
}

/** What axe finds wrong in the pane, as "rule: element". */
async function violations({ page }: Preview): Promise<string[]> {
  const frame = page.frames().find((f) => f.url().includes('taskpane.html'))!;
  await frame.evaluate(axe);
  await settled(frame);
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

/** Sizes of the pane that must do: Excel's smallest, and 640 px at 200 %. */
const SMALL = [
  [350, 378],
  [320, 189],
] as const;

/** What goes wrong in a small pane: something sticks out, or the foot with its buttons is out of view. */
async function tooSmall({ page, screenshot }: Preview, name: string): Promise<string[]> {
  const frame = page.frames().find((f) => f.url().includes('taskpane.html'))!;
  const size = (width: string, height: string): Promise<void> =>
    page.locator('iframe[title="Keyrow"]').evaluate(
      (element, [w, h]) => {
        (element as HTMLElement).style.width = w;
        (element as HTMLElement).style.height = h;
      },
      [width, height] as const,
    );
  const wrong: string[] = [];
  for (const [width, height] of SMALL) {
    await size(`${width}px`, `${height}px`);
    const { wide, below } = await frame.evaluate(() => ({
      wide: document.documentElement.scrollWidth - document.documentElement.clientWidth,
      below: (document.querySelector('.screen-foot')?.getBoundingClientRect().bottom ?? 0) - innerHeight,
    }));
    if (wide > 0) wrong.push(`${width} × ${height}: ${wide} px too wide`);
    if (below > 1) wrong.push(`${width} × ${height}: the foot lies ${below} px below the pane`);
    if (height > 300) await screenshot(`small-${name}`);
  }
  await size('', '');
  return wrong;
}

/** Screens that show a result: the task, the button to press, and what to wait for. */
const RESULTS = [
  ['Make keys', 'Make the keys', 'Write the system'],
  ['Audit a system', /^Audit /, 'Audit again'],
  ['Pin cylinders', 'Plan the pinning sheet and kit list', 'Write the pinning sheet'],
  ['Reports and privacy', 'Report for the customer', 'Write the report'],
] as const;

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
      const file = name.toLowerCase().replace(/[^a-z]+/g, '-');
      await preview.screenshot(`${look}-${file}`);
      // the same in every look
      const small = look === 'light' ? await tooSmall(preview, file) : [];
      if (list.length > 0 || wide > 0 || small.length > 0) found[name] = { list, wide, small };
    };
    const open = async (name: string): Promise<void> => {
      await preview.pane
        .getByRole('navigation', { name: 'Tasks' })
        .getByRole('button', { name })
        .first()
        .click();
      await preview.pane.getByRole('button', { name: /^Back to/ }).waitFor();
    };
    const back = async (): Promise<void> => {
      const tasksShown = preview.pane.getByRole('navigation', { name: 'Tasks' });
      // from a result back to its form, and from there to the start
      for (let i = 0; i < 3 && !(await tasksShown.isVisible()); i++) {
        await preview.pane.getByRole('button', { name: /^Back to/ }).click();
        await preview.page.waitForTimeout(200);
      }
      await tasksShown.waitFor();
    };
    await check('start');
    const names = await tasks(preview);
    const titles = [...readFileSync('taskpane/start/tasks.ts', 'utf8').matchAll(/\btitle: '([^']+)'/g)];
    // so that every screen is seen, and has its picture in artifacts/screenshots in every look
    expect([...names].sort()).toEqual(titles.map((m) => m[1]!).sort());
    expect(names).toEqual(expect.arrayContaining(['Make keys', 'Check codes', 'Audit a system', 'Specs']));
    for (const name of names) {
      await open(name);
      await preview.page.waitForTimeout(400);
      await check(name);
      await back();
    }
    for (const [name, press, wait] of RESULTS) {
      await open(name);
      const foot = preview.pane.getByRole('contentinfo').first();
      await foot.getByRole('button', { name: press }).first().click();
      await preview.pane.getByRole('button', { name: wait }).first().waitFor();
      await check(`result of ${name}`);
      await back();
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
    // what only an empty workbook shows, and what a host that is too old does
    await preview.page.getByRole('button', { name: 'Empty workbook' }).click();
    await preview.pane.getByRole('region', { name: 'Begin' }).waitFor();
    await check('begin');
    await preview.pane.getByRole('button', { name: /^Sample data/ }).click();
    await preview.pane.getByRole('button', { name: 'Write the sample' }).waitFor();
    await check('sample data');
    await preview.page.goto(`${new URL('/', preview.page.url()).href}?excel=1.13`);
    await preview.pane.getByText('This Excel is too old').waitFor();
    await check('too old');
    expect(found).toEqual({});
  });
});
