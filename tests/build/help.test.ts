/** The help as it is built: whole, linked, and showable under a strict content security policy. */
import '../functions/office.ts';
import { readFileSync, readdirSync } from 'node:fs';
import { join, posix } from 'node:path';
import { describe, expect, it } from 'vitest';
import { FUNCTIONS, type FunctionId } from '../../functions/functions.ts';
import { parseFormula, parseResult } from '../../src/build/formulaText.ts';
import { functionHelp } from '../../src/build/functionHelp.ts';
import { GLOSSARY } from '../../src/build/helpGlossary.ts';
import { licencesPage } from '../../src/build/licences.ts';
import { taskHelp } from '../../src/build/taskHelp.ts';
import { CAUTIONS } from '../../src/build/helpCautions.ts';
import { labelsIn, textsOf } from '../../src/build/taskHelpPage.ts';
import { TASK_PAGES } from '../../src/build/taskHelpPages.ts';

const pages = new Map<string, string>([
  ...(await functionHelp()),
  ...taskHelp(),
  ['licences.html', licencesPage([{ name: 'a', version: '1', licence: 'MIT', text: 'x' }])],
]);

/** Whether a source shows these words as a text of their own: between quotes, or between tags. */
function shows(source: string, label: string): boolean {
  const words = label.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
  return new RegExp(`(["'\`>}]\\s*)${words}(\\s*["'\`<{$]|:|\\s\\()`).test(source);
}

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
      for (const text of [task.what, task.writes, task.example]) expect(text, task.file).not.toBe('');
      for (const part of [task.steps, task.answers, task.trouble, task.cautions])
        expect(part.length, task.file).toBeGreaterThan(0);
    }
    const used = new Set(TASK_PAGES.flatMap((task) => task.cautions));
    expect([...used].sort()).toEqual(Object.keys(CAUTIONS).sort());
  });

  it.each(TASK_PAGES.map((task) => [task.file, task] as const))(
    '%s uses the words of its screen',
    (_, task) => {
      const inRoom = (room: string): string[] =>
        readdirSync(join('taskpane', room))
          .filter((name) => /\.tsx?$/.test(name))
          .map((name) => join('taskpane', room, name));
      const sources = [
        ...['shared', 'pictures', 'start', task.room].flatMap(inRoom),
        // the one field that many screens share from there
        'taskpane/specs/SpecSelect.tsx',
      ].map((file) => readFileSync(file, 'utf8').replace(/\s+/g, ' '));
      const labels = textsOf(task).flatMap(labelsIn);
      expect(labels.length).toBeGreaterThan(3);
      expect(labels.filter((label) => !sources.some((source) => shows(source, label)))).toEqual([]);
      for (const text of textsOf(task)) expect((text.match(/\*/g) ?? []).length % 2, text).toBe(0);
    },
  );

  it.each(TASK_PAGES.flatMap(({ formulas = [] }) => formulas))('%s → %s', (formula, result) => {
    const { id, args } = parseFormula(formula);
    const run = FUNCTIONS[id as FunctionId] as (...all: unknown[]) => unknown;
    expect(run(...args)).toEqual(parseResult(result));
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
