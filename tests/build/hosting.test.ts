/**
 * The base address, said once: the manifest for a host differs from ours in its addresses and in nothing else, so
 * what the manifest's own tests hold (order, ids, resources, sizes) holds for every host. Read offline by the add-in
 * vendor's own tool.
 */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { OfficeAddinManifest } from 'office-addin-manifest';
import { describe, expect, it } from 'vitest';
import { functionsMetadata, type FunctionsMetadata } from '../../src/build/functionsMetadata.ts';
import { baseUrl, DEVELOPMENT_BASE, manifestFor } from '../../src/build/hostedManifest.ts';

const HOST = 'https://keys.example.org/tools/keyrow';
const source = readFileSync('manifest.xml', 'utf8').replace(/\s*<!-- The base address[^>]*-->/, '');

describe('the base address', () => {
  it('is the environment’s, else that of package.json, else the development one', () => {
    expect(baseUrl({ KEYROW_BASE_URL: `${HOST}/` }, { config: { base: 'https://other.example' } })).toBe(
      HOST,
    );
    expect(baseUrl({ KEYROW_BASE_URL: ' ' }, { config: { base: HOST } })).toBe(HOST);
    expect(baseUrl({}, { config: { base: '' } })).toBe(DEVELOPMENT_BASE);
    expect(baseUrl({}, {})).toBe(DEVELOPMENT_BASE);
  });

  it.each([
    'http://keys.example.org',
    'keys.example.org',
    'https://',
    'https://a b',
    'https://a.b/?x=1',
    'https://a.b/#x',
  ])('is refused when it is %s', (base) => {
    expect(() => baseUrl({ KEYROW_BASE_URL: base }, {})).toThrow(/must be an https address/);
    expect(() => manifestFor(base)).toThrow(/must be an https address/);
  });

  it('as the repository has it is the development one', () => {
    expect(baseUrl({})).toBe(DEVELOPMENT_BASE);
  });
});

describe('the manifest for a host', () => {
  it('moves every address and changes nothing else', () => {
    fc.assert(
      fc.property(
        fc.domain(),
        fc.array(fc.stringMatching(/^[a-z0-9-]{1,8}$/), { maxLength: 3 }),
        (domain, path) => {
          const base = ['https://' + domain, ...path].join('/');
          const moved = manifestFor(base, source);
          expect(moved).not.toContain('localhost');
          expect(moved).toContain(`<AppDomain>${new URL(base).origin}</AppDomain>`);
          const back = moved
            .replace(
              `<AppDomain>${new URL(base).origin}</AppDomain>`,
              `<AppDomain>${DEVELOPMENT_BASE}</AppDomain>`,
            )
            .replaceAll(`"${base}/`, `"${DEVELOPMENT_BASE}/`);
          expect(back).toBe(source);
        },
      ),
      { numRuns: 50 },
    );
  });

  it('is read by the add-in tools, with the same id and version', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'keyrow-manifest-'));
    writeFileSync(join(folder, 'manifest.xml'), manifestFor(HOST));
    const [ours, hosted] = await Promise.all(
      ['manifest.xml', join(folder, 'manifest.xml')].map((path) =>
        OfficeAddinManifest.readManifestFile(path),
      ),
    );
    expect([hosted!.id, hosted!.version]).toEqual([ours!.id, ours!.version]);
    expect(hosted!.defaultSettings?.sourceLocation).toBe(`${HOST}/taskpane.html`);
    expect(hosted!.iconUrl).toBe(`${HOST}/icons/keyrow-32.png`);
    expect(hosted!.supportUrl).toBe(`${HOST}/help/index.html`);
  });

  it('carries the version of package.json', () => {
    const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
    expect(source).toContain(`<Version>${version}.0</Version>`);
  });
});

describe('functions.json for a host', () => {
  it('moves the help addresses and changes nothing else', async () => {
    const [ours, hosted] = (await Promise.all([DEVELOPMENT_BASE, HOST].map(functionsMetadata))).map(
      (text) => JSON.parse(text) as FunctionsMetadata,
    );
    expect(hosted!.functions.length).toBeGreaterThan(20);
    for (const f of hosted!.functions)
      expect(f.helpUrl).toBe(`${HOST}/help/functions/${f.id.toLowerCase()}.html`);
    const bare = ({ functions }: FunctionsMetadata): unknown => functions.map((f) => ({ ...f, helpUrl: '' }));
    expect(bare(hosted!)).toEqual(bare(ours!));
  });
});
