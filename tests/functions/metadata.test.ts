import { associated } from './office.ts';
import '../../functions/index.ts';
import { describe, expect, it } from 'vitest';
import { FUNCTIONS } from '../../functions/functions.ts';
import { functionDocs, type FunctionDoc } from '../../src/build/functionDocs.ts';
import { functionHelp } from '../../src/build/functionHelp.ts';
import {
  docProblems,
  functionsMetadata,
  helpPath,
  metadataProblems,
  type FunctionMetadata,
  type FunctionsMetadata,
} from '../../src/build/functionsMetadata.ts';

const BASE = 'https://keys.example.org/keyrow';
const metadata = JSON.parse(await functionsMetadata(BASE)) as FunctionsMetadata;

/** Workbooks hold these: an id never changes or goes, and parameters are only ever added at the end. */
const FROZEN: Record<string, string> = {
  BITTING: 'code, spec, [specs]',
  BITTINGS: 'codes, spec, [specs]',
  CHANGES: 'master, spec, [specs]',
  CHECK: 'code, spec, [specs], [master]',
  CHECKS: 'codes, spec, [specs], [master], [unique]',
  CORESTACK: 'depths, control, spec, [specs], [part]',
  CORESTACKWHY: 'chambers, control, spec, [specs]',
  CUTCENTRE: 'position, spec, [specs], [unit]',
  CUTCENTRES: 'spec, [specs], [unit]',
  CUTLIST: 'code, spec, [specs], [unit]',
  DECODE: 'readings, spec, [specs], [unit]',
  DECODES: 'readings, spec, [specs], [unit]',
  DECODEWHY: 'readings, spec, [specs], [unit]',
  FITSPEC: 'readings, [specs], [centres], [unit]',
  GEOMETRICMACS: 'spec, [specs], [flat], [angle], [unit]',
  JUDGE: 'readings, code, spec, [specs], [unit]',
  OPERATES: 'key, chambers, spec, [specs]',
  OPERATESWHY: 'key, chambers, spec, [specs]',
  OPERATINGCOUNT: 'chambers, spec, [specs], [cuttable]',
  PASSES: 'flat, spec, [specs], [unit]',
  PASSOFFSETS: 'flat, spec, [specs], [unit]',
  PINSTACK: 'depths, spec, [specs], [part], [unit]',
  PINSTACKS: 'chambers, spec, [specs], [unit]',
  PINSTACKWHY: 'depths, spec, [specs]',
  ROOTDEPTH: 'symbol, spec, [specs], [unit]',
  ROOTDEPTHS: 'code, spec, [specs], [unit]',
  USABLECHANGES: 'master, spec, [specs]',
  WHY: 'code, spec, [specs], [master]',
  WHYS: 'codes, spec, [specs], [master], [unique]',
};

/** Those that spill; every other answers with one value, and so works inside tables. */
const SPILLING = [
  'BITTINGS',
  'CHECKS',
  'CUTCENTRES',
  'CUTLIST',
  'DECODES',
  'PASSOFFSETS',
  'PINSTACKS',
  'ROOTDEPTHS',
  'WHYS',
];

describe('functions.json', () => {
  it('has the ids and parameters that workbooks hold', () => {
    const found = metadata.functions.map((f) => [
      f.id,
      f.parameters.map((p) => (p.optional ? `[${p.name}]` : p.name)).join(', '),
    ]);
    expect(Object.fromEntries(found)).toEqual(FROZEN);
  });

  it('is what the script registers, and at once', () => {
    expect([...associated.keys()].sort()).toEqual(Object.keys(FROZEN));
    for (const [id, run] of Object.entries(FUNCTIONS)) expect(associated.get(id)).toBe(run);
    for (const f of metadata.functions)
      expect(FUNCTIONS[f.id as keyof typeof FUNCTIONS].length, f.id).toBe(f.parameters.length);
  });

  it('lets ranges with an error cell through, and links each function to its page', () => {
    expect(metadata.allowErrorForDataTypeAny).toBe(true);
    for (const f of metadata.functions) expect(f.helpUrl).toBe(`${BASE}/${helpPath(f.id)}`);
  });

  it('declares which functions spill', () => {
    const spilling = metadata.functions.filter((f) => f.result.dimensionality === 'matrix').map((f) => f.id);
    expect(spilling).toEqual(SPILLING);
  });

  it('takes ranges as ranges and names as text', () => {
    for (const f of metadata.functions)
      for (const p of f.parameters) {
        const range = ['specs', 'codes', 'chambers', 'readings', 'centres'].includes(p.name);
        expect(p.dimensionality === 'matrix', `${f.id} ${p.name}`).toBe(range);
        expect(p.type, `${f.id} ${p.name}`).toBe(
          ['spec', 'unit', 'part'].includes(p.name) ? 'string' : 'any',
        );
      }
  });
});

describe('the lint of the metadata', () => {
  const good = metadata.functions[0]!;
  const problemsOf = (change: Partial<FunctionMetadata>): string[] =>
    metadataProblems({ allowErrorForDataTypeAny: true, functions: [{ ...good, ...change }] });

  it.each(['CUT1', 'A1', 'AB', 'XFD1048576', 'cut', '1CUT', 'PIN2'])('refuses the name %s', (name) => {
    expect(problemsOf({ id: name, name })).toHaveLength(1);
  });

  it('refuses what is missing, repeated or out of order', () => {
    const parameter = { name: 'code', description: 'The code.', type: 'any' };
    expect(problemsOf({})).toEqual([]);
    expect(problemsOf({ name: 'OTHER' })).toHaveLength(1);
    expect(problemsOf({ description: '' })).toHaveLength(1);
    expect(problemsOf({ helpUrl: 'help/functions/x.html' })).toHaveLength(1);
    expect(problemsOf({ parameters: [{ name: 'code' }] })).toHaveLength(1);
    expect(problemsOf({ parameters: [{ ...parameter, optional: true }, parameter] })).toHaveLength(1);
    expect(metadataProblems({ ...metadata, functions: [good, good] })).toHaveLength(1);
  });

  it('refuses types that Excel would take as any, and comments that don’t say enough', () => {
    const doc = functionDocs()[0]!;
    const problems = (change: Partial<FunctionDoc>): number => docProblems([{ ...doc, ...change }]).length;
    const parameter = { name: 'n', description: 'n', optional: false };
    expect(problems({})).toBe(0);
    expect(problems({ parameters: [{ ...parameter, type: 'string | number' }, ...doc.parameters] })).toBe(1);
    expect(problems({ parameters: [{ ...parameter, type: 'any' }, ...doc.parameters] })).toBe(1);
    expect(
      problems({ parameters: [{ ...parameter, description: '', type: 'unknown' }, ...doc.parameters] }),
    ).toBe(1);
    expect(problems({ resultType: 'any' })).toBe(1);
    expect(problems({ family: '', returns: '', examples: [], errors: [], sources: [] })).toBe(5);
    expect(problems({ examples: [{ formula: '=CHECK(1)', result: 'TRUE' }] })).toBe(1);
    expect(problems({ parameters: [...doc.parameters].reverse() })).toBe(1);
  });
});

describe('the help pages', () => {
  it('are one for each function, an index and a style sheet', async () => {
    const pages = new Map(await functionHelp());
    const expected = Object.keys(FROZEN).map((id) => helpPath(id).replace(/^help\//, ''));
    expect([...pages.keys()].sort()).toEqual(
      ['functions/help.css', 'functions/index.html', ...expected].sort(),
    );
    for (const doc of functionDocs()) {
      const page = pages.get(`functions/${doc.id.toLowerCase()}.html`)!;
      for (const p of doc.parameters) expect(page).toContain(`<dt><code>${p.name}</code>`);
      expect(page.match(/<figure>/g)).toHaveLength(doc.examples.length);
      expect(pages.get('functions/index.html')).toContain(`href="${doc.id.toLowerCase()}.html"`);
    }
  });

  it('load nothing but their own style sheet, and run nothing', async () => {
    for (const [path, page] of await functionHelp()) {
      if (!path.endsWith('.html')) continue;
      expect(page, path).not.toMatch(/<script|\sstyle=|\son\w+=|https?:|<style/i);
      expect([...page.matchAll(/<link[^>]*>/g)].map(String)).toEqual([
        '<link rel="stylesheet" href="help.css">',
      ]);
      expect(page).toMatch(/<html lang="en">[\s\S]*<title>[^<]+<\/title>[\s\S]*<h1>/);
    }
  });
});
