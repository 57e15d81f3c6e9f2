/** Licences of what ships: which module belongs to which package, and what may not ship. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { build } from 'vite';
import { describe, expect, it } from 'vitest';
import { WorkerModules } from '../../src/build/addinAssets.ts';
import { licenceProblems, licencesPage, packageFolder, shippedPackages } from '../../src/build/licences.ts';

describe('the packages of a bundle', () => {
  it.each([
    ['/r/node_modules/zod/v4/index.js', '/r/node_modules/zod'],
    ['/r/node_modules/@griffel/react/lib/a.js', '/r/node_modules/@griffel/react'],
    ['/r/node_modules/a/node_modules/b/c.js', '/r/node_modules/a/node_modules/b'],
    ['\0/r/node_modules/react/index.js?commonjs-module', '/r/node_modules/react'],
    ['/r/src/keying/audit.ts', undefined],
    ['\0vite/preload-helper', undefined],
  ])('%s lies in %s', (id, folder) => {
    expect(packageFolder(id)).toBe(folder);
  });

  it('are read from their own package.json, once each', () => {
    const root = process.cwd();
    const found = shippedPackages([
      `${root}/node_modules/react/index.js`,
      `${root}/node_modules/react/jsx-runtime.js`,
      `${root}/node_modules/zod/index.js`,
      `${root}/src/keying/audit.ts`,
    ]);
    expect(found.map(({ name, licence }) => [name, licence])).toEqual([
      ['react', 'MIT'],
      ['zod', 'MIT'],
    ]);
    expect(found[0]!.text).toContain('Permission is hereby granted');
  });

  it('may not ship under a licence that asks for more, or none', () => {
    const one = { name: 'a', version: '1.0.0', text: '' };
    expect(licenceProblems([{ ...one, licence: 'MIT' }])).toEqual([]);
    for (const licence of ['GPL-3.0', 'UNLICENSED', 'SEE LICENSE IN x', 'not stated', 'MIT AND GPL-3.0'])
      expect(licenceProblems([{ ...one, licence }])[0]).toContain(`a 1.0.0 is under ${licence}`);
  });

  it('stand on a page as text', () => {
    const html = licencesPage([{ name: '<b>', version: '1', licence: 'MIT', text: 'a <script> & b' }]);
    expect(html).toContain('&lt;b&gt;');
    expect(html).toContain('a &lt;script&gt; &amp; b');
  });
});

describe('the web worker', () => {
  it('has the licences of its own bundle read too', async () => {
    const root = mkdtempSync(join(tmpdir(), 'keyrow-worker-'));
    const put = (path: string, text: string): void => {
      mkdirSync(dirname(join(root, path)), { recursive: true });
      writeFileSync(join(root, path), text);
    };
    put('main.js', "new Worker(new URL('./worker.js', import.meta.url), { type: 'module' });");
    put('worker.js', "import { deep } from 'deep'; postMessage(deep());");
    put('node_modules/deep/package.json', '{ "name": "deep", "version": "2.0.0", "license": "GPL-3.0" }');
    put('node_modules/deep/index.js', 'export const deep = () => self.name;');
    const worker = new WorkerModules();
    let seen: string[] = [];
    await build({
      root,
      configFile: false,
      logLevel: 'silent',
      build: { write: false, rolldownOptions: { input: join(root, 'main.js') } },
      worker: { format: 'es', plugins: () => [worker.plugin()] },
      plugins: [
        {
          name: 'look',
          generateBundle: () => {
            seen = licenceProblems(shippedPackages(worker.ids));
          },
        },
      ],
    });
    expect(seen).toEqual([expect.stringContaining('deep 2.0.0 is under GPL-3.0')]);
    rmSync(root, { recursive: true });
  });
});

/** What a look into a database of known faults can't replace, and what can be held without one. */
describe('the packages that we take', () => {
  interface Locked {
    readonly version: string;
    readonly integrity?: string;
    readonly resolved?: string;
    readonly dev?: boolean;
    readonly hasInstallScript?: boolean;
  }
  const json = (file: string): unknown => JSON.parse(readFileSync(file, 'utf8'));
  const named = json('package.json') as Record<'dependencies' | 'devDependencies', Record<string, string>>;
  const { packages } = json('package-lock.json') as { packages: Record<string, Locked> };
  const locked = Object.entries(packages).filter(([path]) => path !== '');

  it('are five at run time, and each is one exact version', () => {
    expect(Object.keys(named.dependencies).sort()).toEqual([
      '@fluentui/react-components',
      '@fluentui/react-icons',
      'react',
      'react-dom',
      'zod',
    ]);
    for (const [name, version] of Object.entries({ ...named.dependencies, ...named.devDependencies })) {
      expect(version, name).toMatch(/^\d+\.\d+\.\d+$/);
      expect(packages[`node_modules/${name}`]?.version, name).toBe(version);
    }
  });

  it('come from the registry, each held to the hash of its content', () => {
    expect(locked.length).toBeGreaterThan(100);
    for (const [path, { integrity, resolved }] of locked) {
      expect(integrity, path).toMatch(/^sha512-/);
      // the lock file leaves addresses out where they are the registry's own
      if (resolved !== undefined) expect(resolved, path).toMatch(/^https:\/\/registry\.npmjs\.org\//);
    }
  });

  it('run nothing at installation when they ship', () => {
    const shipped = locked.filter(([, { dev }]) => dev !== true);
    expect(shipped.length).toBeGreaterThan(20);
    expect(shipped.filter(([, { hasInstallScript }]) => hasInstallScript).map(([path]) => path)).toEqual([]);
  });
});
