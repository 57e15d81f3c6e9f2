/**
 * How the add-in's page starts, in Chromium, as built: what is registered before the first thing is drawn, and how
 * much has to be read for it. Milliseconds are in `npm run bench`; these hold on a busy machine too.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startStage, type Stage } from './preview.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await startStage();
});
afterAll(() => stage.close());

interface Started extends Window {
  CustomFunctions?: { _association?: { mappings: Record<string, unknown> } };
  /** Ids of the functions that were registered when the pane drew its first element. */
  registeredAtFirstDraw?: string[];
  /** Tasks that were offered while the workbook was still being read. */
  offeredWhileReading?: number;
}

describe('the start of the pane', () => {
  it('has every function registered and the tasks on offer when the pane first draws', async () => {
    const wanted = (
      JSON.parse(readFileSync('dist/functions.json', 'utf8')) as { functions: { id: string }[] }
    ).functions.map(({ id }) => id);
    const preview = await stage.open();
    // a second load, watched from before its first script
    await preview.page.addInitScript(() => {
      if (!location.pathname.endsWith('/taskpane.html')) return;
      const page = window as Started;
      new MutationObserver((_, observer) => {
        if (!document.getElementById('root')?.firstElementChild) return;
        page.registeredAtFirstDraw = Object.keys(page.CustomFunctions?._association?.mappings ?? {});
        if (document.querySelector('.start-reading'))
          page.offeredWhileReading = document.querySelectorAll('nav[aria-label="Tasks"] button').length;
        observer.disconnect();
      }).observe(document, { childList: true, subtree: true });
    });
    await preview.page.reload();
    await preview.pane.getByRole('contentinfo').getByRole('button', { name: 'Read again' }).waitFor();
    const frame = preview.page.frames().find((f) => f.url().includes('taskpane.html'))!;
    const [registered, offered] = await frame.evaluate(() => {
      const { registeredAtFirstDraw, offeredWhileReading } = window as Started;
      return [registeredAtFirstDraw, offeredWhileReading] as const;
    });
    expect([...(registered ?? [])].sort()).toEqual([...wanted].sort());
    // the tasks don't wait for the workbook; the foot's buttons do
    expect(offered).toBeGreaterThan(10);
    await preview.page.context().close();
  });

  it('says in an Excel too old for it what it needs', async () => {
    const preview = await stage.open();
    await preview.page.goto(`${new URL('/', preview.page.url()).href}?excel=1.13`);
    await preview.pane.getByText('This Excel is too old for Keyrow’s pane').waitFor();
    await preview.pictured('too-old');
    expect(preview.errors).toEqual([]);
    await preview.page.context().close();
  });

  it('reads below 420 kB gzipped before it draws', () => {
    // what the page names and what those files import at once; the worker and whatever else comes later is not in it
    const seen = new Set<string>();
    const walk = (file: string): void => {
      if (seen.has(file)) return;
      seen.add(file);
      const source = readFileSync(join('dist', file), 'utf8');
      for (const [, path] of source.matchAll(/(?:\bfrom|\bimport)\s*["'](\.{1,2}\/[^"']+\.js)["']/g))
        walk(join(file, '..', path!));
    };
    const html = readFileSync('dist/taskpane.html', 'utf8');
    for (const [, path] of html.matchAll(/(?:src|href)="\.\/([^"]+\.(?:js|css))"/g)) walk(path!);
    expect([...seen]).toContain('functions.js');
    const bytes = [...seen].reduce((sum, file) => sum + gzipSync(readFileSync(join('dist', file))).length, 0);
    expect(bytes).toBeLessThan(420_000);
    expect(bytes).toBeGreaterThan(50_000);
  });
});
