/** The help as it is built: whole, linked, and showable under a strict content security policy. */
import { readFileSync } from 'node:fs';
import { posix } from 'node:path';
import { describe, expect, it } from 'vitest';
import { functionHelp } from '../../src/build/functionHelp.ts';
import { GLOSSARY } from '../../src/build/helpGlossary.ts';
import { licencesPage } from '../../src/build/licences.ts';
import { taskHelp } from '../../src/build/taskHelp.ts';
import { CAUTIONS } from '../../src/build/helpCautions.ts';
import { TASK_PAGES } from '../../src/build/taskHelpPages.ts';

const pages = new Map<string, string>([
  ...(await functionHelp()),
  ...taskHelp(),
  ['licences.html', licencesPage([{ name: 'a', version: '1', licence: 'MIT', text: 'x' }])],
]);

describe('the help', () => {
  it('has a page for every task that the start screen offers', () => {
    const source = readFileSync('taskpane/start/tasks.ts', 'utf8');
    const offered = [...source.matchAll(/\btitle: '([^']+)'/g)].map((m) => m[1]!);
    expect(offered.length).toBeGreaterThan(10);
    const titles = TASK_PAGES.map((task) => task.title);
    expect(offered.filter((title) => title !== 'About and cautions' && !titles.includes(title))).toEqual([]);
  });

  it('names each task and each word once, and says what each writes', () => {
    expect(new Set(TASK_PAGES.map((t) => t.file)).size).toBe(TASK_PAGES.length);
    expect(new Set(GLOSSARY.map(([word]) => word)).size).toBe(GLOSSARY.length);
    const words = GLOSSARY.map(([word]) => word.toLowerCase());
    expect(words).toEqual([...words].sort());
    for (const task of TASK_PAGES) {
      expect(task.writes, task.file).not.toBe('');
      expect(task.steps.length, task.file).toBeGreaterThan(0);
    }
    const used = new Set(TASK_PAGES.flatMap((task) => task.cautions));
    expect([...used].sort()).toEqual(Object.keys(CAUTIONS).sort());
  });

  it('links only to pages that there are', () => {
    for (const [path, html] of pages)
      for (const [, href] of html.matchAll(/href="([^"]+)"/g))
        expect(pages.has(posix.join(posix.dirname(path), href!)), `${path} → ${href!}`).toBe(true);
  });

  it('reaches every page from its index', () => {
    const seen = new Set<string>();
    const walk = (path: string): void => {
      if (seen.has(path)) return;
      seen.add(path);
      for (const [, href] of pages.get(path)!.matchAll(/href="([^"]+)"/g))
        walk(posix.join(posix.dirname(path), href!));
    };
    walk('index.html');
    expect([...pages.keys()].filter((path) => !seen.has(path))).toEqual([]);
  });

  it('runs nothing and loads nothing from elsewhere', () => {
    for (const [path, html] of pages)
      if (path.endsWith('.html')) {
        expect(html, path).not.toMatch(/<script|\sstyle=|\son\w+=|<style|src=/i);
        expect(html.match(/<h1>/g), path).toHaveLength(1);
        expect(html, path).toContain('<html lang="en">');
      }
  });
});
