/**
 * The built add-in as a host would serve it: budgets, content security policy, no evaluated code, help for every
 * function, licences of what is bundled. Run after `npm run build`.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, describe, expect, it } from 'vitest';
import { manifestFor } from '../../src/build/hostedManifest.ts';
import { PERMISSIVE } from '../../src/build/licences.ts';

const DIST = 'dist';
const html = readFileSync(join(DIST, 'taskpane.html'), 'utf8');
const files = readdirSync(DIST, { recursive: true, encoding: 'utf8' });
const code = files.filter((file) => /\.(js|css)$/.test(file) && !file.startsWith('help'));

describe('the bundle', () => {
  it('is below 500 kB gzipped, script and style together', () => {
    const sizes = code.map((file) => gzipSync(readFileSync(join(DIST, file))).length);
    expect(code.length).toBeGreaterThanOrEqual(4);
    expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThan(500_000);
  });

  it('registers the functions before the pane draws', () => {
    const scripts = [...html.matchAll(/<script[^>]*\bsrc="([^"]+)"/g)].map((m) => m[1]!);
    const functions = scripts.findIndex((src) => src.endsWith('functions.js'));
    const pane = scripts.findIndex((src) => /taskpane-[^/]*\.js$/.test(src));
    const merged = functions < 0;
    // a bundler may put both into one module; then the functions' part has to come first in it
    const first = merged ? readFileSync(join(DIST, scripts[pane]!), 'utf8') : '';
    expect(pane).toBeGreaterThanOrEqual(0);
    expect(
      merged
        ? /import\s*["']\.\.\/functions\.js["']|from\s*["']\.\.\/functions\.js["']/.test(first)
        : functions < pane,
    ).toBe(true);
    expect(readFileSync(join(DIST, 'functions.js'), 'utf8')).toContain('CustomFunctions.associate');
  });

  it('evaluates no text as code', () => {
    for (const file of code.filter((f) => f.endsWith('.js'))) {
      const source = readFileSync(join(DIST, file), 'utf8');
      expect(source, file).not.toMatch(/\beval\s*\(|\bsetTimeout\s*\(\s*["'`]|\bdocument\.write\s*\(/);
      // The one exception: the row reader's library could try to, and is told not to (jitless) before it does.
      const tried = source.match(/\bFunction\s*\(.{0,12}/g) ?? [];
      expect(
        tried.filter((found) => !found.startsWith('Function(``),!0}')),
        file,
      ).toEqual([]);
      if (tried.length > 0) expect(source, file).toContain('jitless:!0');
    }
  });
});

describe('the page', () => {
  const policy = /http-equiv="Content-Security-Policy"\s+content="([^"]+)"/.exec(html)?.[1] ?? '';

  it('has a strict content security policy before its first script', () => {
    const directives = new Map(
      policy.split(';').map((d) => {
        const [name = '', ...values] = d.trim().split(/\s+/);
        return [name, values] as const;
      }),
    );
    expect(directives.get('default-src')).toEqual(["'self'"]);
    expect(directives.get('script-src')).toEqual(["'self'", 'https://appsforoffice.microsoft.com']);
    expect(directives.get('connect-src')).toEqual(["'self'", 'https://appsforoffice.microsoft.com']);
    for (const closed of ['object-src', 'base-uri', 'form-action'])
      expect(directives.get(closed), closed).toEqual(["'none'"]);
    expect(policy).not.toMatch(/unsafe-eval|\*/);
    expect(html.indexOf('Content-Security-Policy')).toBeLessThan(html.indexOf('<script'));
  });

  it('has words for a browser that runs no modules, hidden from all that do', () => {
    expect(html).toMatch(/<\/div>\s*(?:<!--[^>]*-->\s*)?<p class="old-engine">\s*This Excel/);
    const styles = files.filter((file) => file.endsWith('.css') && !file.startsWith('help'));
    const css = styles.map((file) => readFileSync(join(DIST, file), 'utf8')).join('');
    // a browser without modules knows no @supports either, and so never hides the paragraph
    expect(css.split('.old-engine')).toHaveLength(2);
    expect(css).toMatch(/@supports\s*\(display:\s*grid\)\s*\{\s*\.old-engine\s*\{\s*display:\s*none/);
  });

  it('has no script of its own text and no handler in an attribute', () => {
    for (const [, attributes, body] of html.matchAll(/<script([^>]*)>([\s\S]*?)<\/script>/g)) {
      expect(attributes).toContain('src=');
      expect(body!.trim()).toBe('');
    }
    expect(html).not.toMatch(/\son\w+\s*=|javascript:/i);
  });
});

describe('what is served beside it', () => {
  it('has a help page for every function, where functions.json says', () => {
    const { functions } = JSON.parse(readFileSync(join(DIST, 'functions.json'), 'utf8')) as {
      functions: { id: string; helpUrl: string }[];
    };
    expect(functions.length).toBeGreaterThan(20);
    for (const { id, helpUrl } of functions) {
      const path = new URL(helpUrl).pathname.replace(/^.*\/help\//, 'help/');
      expect(existsSync(join(DIST, path)), `${id}: ${path}`).toBe(true);
    }
  });

  it('has every page that the manifest names', () => {
    const manifest = readFileSync(join(DIST, 'manifest.xml'), 'utf8');
    const base = /<SourceLocation DefaultValue="(.*)\/taskpane\.html"/.exec(manifest)![1]!;
    const named = [...manifest.matchAll(/DefaultValue="(https:[^"]+)"/g)].map((m) =>
      m[1]!.slice(base.length + 1),
    );
    expect(named).toContain('help/index.html');
    for (const path of named) expect(existsSync(join(DIST, path)), path).toBe(true);
  });

  it('lists the licence of every package in it, all permissive', () => {
    const page = readFileSync(join(DIST, 'help/licences.html'), 'utf8');
    const rows = [...page.matchAll(/<tr><td>([^<]+)<\/td><td>([^<]+)<\/td><td>([^<]+)<\/td><\/tr>/g)];
    const names = rows.map((row) => row[1]);
    for (const name of [
      'react',
      'react-dom',
      'scheduler',
      'zod',
      '@griffel/react',
      'keyborg',
      '@fluentui/react-button',
    ])
      expect(names).toContain(name);
    for (const [, name, , licence] of rows) expect(PERMISSIVE, name).toContain(licence);
  });
});

describe('a build for a host', () => {
  const base = 'https://keys.example.org/tools/keyrow';
  const out = mkdtempSync(join(tmpdir(), 'keyrow-hosted-'));
  afterAll(() => rmSync(out, { recursive: true }));

  it('points there and nowhere else, from every file that names an address', () => {
    execFileSync(
      process.execPath,
      ['node_modules/vite/bin/vite.js', 'build', '--outDir', out, '--logLevel', 'error'],
      {
        cwd: resolve('.'),
        env: { ...process.env, KEYROW_BASE_URL: base },
      },
    );
    const built = readdirSync(out, { recursive: true, encoding: 'utf8' }).filter((f) =>
      /\.(xml|json|html|js|css)$/.test(f),
    );
    expect(built.length).toBeGreaterThan(40);
    const text = (file: string): string => readFileSync(join(out, file), 'utf8');
    expect(built.filter((file) => text(file).includes('localhost:3000'))).toEqual([]);
    expect(text('manifest.xml')).toBe(manifestFor(base));
    const named = [
      ...`${text('manifest.xml')}${text('functions.json')}`.matchAll(/"(https:\/\/keys[^"]+)"/g),
    ];
    expect(named.length).toBeGreaterThan(40);
    for (const [, address] of named)
      expect(existsSync(join(out, address!.slice(base.length + 1))), address).toBe(true);
    // the official script, and neither the stand-in nor the development package's copy
    const page = text('taskpane.html');
    expect([...page.matchAll(/src="(https?:[^"]+)"/g)].map((m) => m[1])).toEqual([
      'https://appsforoffice.microsoft.com/lib/1/hosted/office.js',
    ]);
    expect(page).not.toMatch(/shell\.js|office-js\//);
    // our own files come while the official script does: they are named above it
    const files = [...page.matchAll(/(?:src|href)="([^"]+\.(?:js|css))"/g)].map((m) => m[1]!);
    expect(files.at(-1)).toMatch(/^https:.*\/office\.js$/);
    expect(files.filter((file) => file.startsWith('./')).length).toBeGreaterThan(2);
  });
});
