/**
 * How the pane feels: from the start of its page's load to its first buttons, in Chromium with the built files, and
 * how long the thread is held when Excel asks for 20,000 function cells at once.
 */
import '../functions/office.ts';
import { existsSync } from 'node:fs';
import { chromium } from 'playwright-core';
import { FUNCTIONS, type FunctionId } from '../../functions/functions.ts';
import { parseFormula } from '../../src/build/formulaText.ts';
import { startServer } from '../../src/build/serve.ts';

const LOADS = 5;
const CELLS = 20_000;

/** One call a row, as in a column of formulas. */
const COLUMNS: readonly string[] = [
  '=KEYROW.CHECK("274153","S-018-6")',
  '=KEYROW.WHY("283456","S-018-6")',
  '=KEYROW.CUTCENTRE(2,"S-018-6")',
  '=KEYROW.PINSTACK("2 6","S-018-6")',
  '=KEYROW.OPERATES("241536",{"2 6","4","1 3","5","3","6 8"},"S-018-6")',
];

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!;

/** Median milliseconds of the pane's page; undefined without both builds and Chromium. */
async function paneLoads(): Promise<{ usable: number; script: number } | undefined> {
  const executablePath = process.env['CHROMIUM'] ?? '/usr/bin/chromium';
  if (!['dist/taskpane.html', 'dist-preview/preview.html', executablePath].every((f) => existsSync(f)))
    return undefined;
  const { server, address } = await startServer(0);
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
  const usable: number[] = [];
  const script: number[] = [];
  const page = await browser.newPage();
  await page.goto(address);
  const pane = page.frameLocator('iframe[title="Keyrow"]');
  const ready = (): Promise<void> =>
    pane.getByRole('contentinfo').getByRole('button', { name: 'Read again' }).waitFor();
  await ready();
  await page.addInitScript(() => {
    if (!location.pathname.endsWith('/taskpane.html')) return;
    const seen = window as Window & { usableAt?: number; longTasks?: number };
    seen.longTasks = 0;
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries())
        if (seen.usableAt === undefined) seen.longTasks! += entry.duration;
    }).observe({ type: 'longtask' });
    new MutationObserver((_, observer) => {
      if (!document.querySelector('#root footer button, #root nav button')) return;
      seen.usableAt = performance.now();
      observer.disconnect();
    }).observe(document, { childList: true, subtree: true });
  });
  for (let i = 0; i < LOADS; i++) {
    // the pane alone anew: the stand-in spreadsheet around it shares its thread and has long been loaded
    const frame = page.frames().find((f) => f.url().includes('taskpane.html'))!;
    await frame.goto(frame.url());
    await ready();
    const [at, held] = await frame.evaluate(() => {
      const seen = window as Window & { usableAt?: number; longTasks?: number };
      return [seen.usableAt ?? Number.NaN, seen.longTasks ?? Number.NaN] as const;
    });
    usable.push(at);
    script.push(held);
  }
  await browser.close();
  server.close();
  return { usable: median(usable), script: median(script) };
}

/** Milliseconds for a column of 20,000 cells of one function, each cell a call of its own. */
function columnTime(formula: string): number {
  const { id, args } = parseFormula(formula);
  const run = FUNCTIONS[id as FunctionId] as (...all: unknown[]) => unknown;
  const times = Array.from({ length: LOADS }, () => {
    const start = performance.now();
    // Excel hands over arrays anew for every cell
    for (let i = 0; i < CELLS; i++)
      run(...args.map((a) => (Array.isArray(a) ? a.map((row) => [...row]) : a)));
    return performance.now() - start;
  });
  return median(times);
}

export async function printPane(): Promise<void> {
  const columns = COLUMNS.map((formula) => ({
    what: `${CELLS.toLocaleString('en-US')} × ${formula}`,
    'thread held, ms (median of 5)': Math.round(columnTime(formula)),
  }));
  console.table(columns);
  const loads = await paneLoads();
  console.log(
    loads
      ? `Pane: first buttons ${Math.round(loads.usable)} ms after its load began, ${Math.round(loads.script)} ms of that in tasks over 50 ms (median of ${LOADS} loads; budget 500 ms)`
      : 'Pane: not measured; needs npm run build, npm run build:preview and Chromium.',
  );
}
