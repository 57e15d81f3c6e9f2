/**
 * Which packages' code ships in the add-in, and under which licence: read from the bundle itself, not from what is
 * installed. The page is served with the add-in; a package whose licence is not permissive stops the build.
 */
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { escape, page, paragraph, section } from './helpPage.ts';

export interface Shipped {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
  /** The text of its licence file; '' where the package has none. */
  readonly text: string;
}

/** Licences that ask for no more than their own text and the names of the authors. */
export const PERMISSIVE: readonly string[] = [
  'MIT',
  'ISC',
  'BSD-2-Clause',
  'BSD-3-Clause',
  '0BSD',
  'Apache-2.0',
];

/**
 * The package that a module belongs to, as its folder below the innermost node_modules.
 * @example packageFolder('/x/node_modules/@scope/name/lib/a.js') → '/x/node_modules/@scope/name'
 */
export function packageFolder(moduleId: string): string | undefined {
  const match = /^(?:\0)?(.*[\\/]node_modules[\\/](?:@[^\\/]+[\\/])?[^\\/]+)[\\/]/.exec(moduleId);
  return match?.[1];
}

/** The packages of some modules, sorted by name. Virtual modules and our own are passed over. */
export function shippedPackages(moduleIds: Iterable<string>): Shipped[] {
  const folders = new Set<string>();
  for (const id of moduleIds) {
    const folder = packageFolder(id);
    if (folder !== undefined && existsSync(join(folder, 'package.json'))) folders.add(folder);
  }
  const found = new Map<string, Shipped>();
  for (const folder of folders) {
    const shipped = readPackage(folder);
    found.set(`${shipped.name} ${shipped.version}`, shipped);
  }
  return [...found.values()].sort(
    (a, b) => a.name.localeCompare(b.name) || a.version.localeCompare(b.version),
  );
}

function readPackage(folder: string): Shipped {
  const json = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as Record<string, unknown>;
  const file = readdirSync(folder).find((name) => /^licen[cs]e(\.|$)/i.test(name));
  return {
    name: String(json['name']),
    version: String(json['version']),
    licence: typeof json['license'] === 'string' ? json['license'] : 'not stated',
    text: file === undefined ? '' : readFileSync(join(folder, file), 'utf8').trim(),
  };
}

/** What may not ship, as sentences; none when all may. */
export const licenceProblems = (shipped: readonly Shipped[]): string[] =>
  shipped
    .filter(({ licence }) => !PERMISSIVE.includes(licence))
    .map(
      ({ name, version, licence }) =>
        `${name} ${version} is under ${licence}, which is not on the list of permissive licences.`,
    );

/** `help/licences.html`. */
export function licencesPage(shipped: readonly Shipped[]): string {
  const rows = shipped.map(
    ({ name, version, licence }) =>
      `<tr><td>${escape(name)}</td><td>${escape(version)}</td><td>${escape(licence)}</td></tr>`,
  );
  // most packages of a family share one text, word for word
  const texts = new Map<string, string[]>();
  for (const { name, text } of shipped) if (text !== '') texts.set(text, [...(texts.get(text) ?? []), name]);
  return page(
    'Licences',
    [
      '<nav><a href="index.html">All help</a></nav>',
      '<h1>Licences</h1>',
      paragraph(
        'Code of others that is part of this add-in, with thanks. Excel’s own script, office.js, is loaded from its maker and is not part of it.',
      ),
      `<div class="wide" role="group" tabindex="0" aria-label="Table"><table>\n<tr><th>Package</th><th>Version</th><th>Licence</th></tr>\n${rows.join('\n')}\n</table></div>`,
      ...[...texts].map(([text, names]) =>
        section(
          escape(names.join(', ')),
          text
            .split(/\n\s*\n/)
            .map(paragraph)
            .join('\n'),
        ),
      ),
    ].join('\n'),
    'functions/help.css',
  );
}
