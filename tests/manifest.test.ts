/**
 * The manifest checked offline, since the platform's own validator is a web service. Element order from the schemas
 * of the Office add-ins manifest (MS-OWEMXML, "Office Web Extensibility Manifest Format", types TaskPaneApp 1.1
 * and VersionOverridesV1_0), icon sizes from the add-in documentation.
 */
import { existsSync, readFileSync } from 'node:fs';
import { OfficeAddinManifest } from 'office-addin-manifest';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { COMMANDS } from '../taskpane/commands.ts';
import { manifestFor } from '../src/build/hostedManifest.ts';

const source = readFileSync('manifest.xml', 'utf8');

interface Node {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly text: string;
  readonly children: readonly Node[];
}

function parse(xml: string): Node {
  const raw = new XMLParser({ ignoreAttributes: false, preserveOrder: true, attributeNamePrefix: '' }).parse(
    xml,
  ) as unknown[];
  const nodes = raw.map(toNode).filter((n) => n.name !== '?xml');
  return nodes.at(-1)!;
}

function toNode(raw: unknown): Node {
  const entry = raw as Record<string, unknown>;
  const name = Object.keys(entry).find((k) => k !== ':@')!;
  const inside = Array.isArray(entry[name]) ? (entry[name] as Record<string, unknown>[]) : [];
  return {
    name,
    attributes: (entry[':@'] ?? {}) as Record<string, string>,
    text: inside.map((c) => ('#text' in c ? String(c['#text']) : '')).join(''),
    children: inside.filter((c) => !('#text' in c)).map(toNode),
  };
}

const root = parse(source);

function all(node: Node, name: string): Node[] {
  return [...(node.name === name ? [node] : []), ...node.children.flatMap((c) => all(c, name))];
}

const one = (name: string, from: Node = root): Node => {
  const found = all(from, name);
  expect(found.length, `${name} appears once`).toBe(1);
  return found[0]!;
};

const names = (node: Node): string[] => node.children.map((c) => c.name);

describe('the manifest', () => {
  it('is well-formed', () => {
    expect(XMLValidator.validate(source)).toBe(true);
  });

  it('has the fields that a store or a shared folder asks for', () => {
    const field = (name: string): string => {
      const node = root.children.find((c) => c.name === name);
      return node?.attributes['DefaultValue'] ?? node?.text ?? '';
    };
    const shape = z.object({
      Id: z.uuid(),
      Version: z.string().regex(/^\d+\.\d+\.\d+\.\d+$/),
      ProviderName: z.string().min(1).max(125),
      DefaultLocale: z.literal('en-US'),
      DisplayName: z.string().min(1).max(125),
      Description: z.string().min(1).max(250),
      IconUrl: z.url({ protocol: /^https$/ }),
      HighResolutionIconUrl: z.url({ protocol: /^https$/ }),
      SupportUrl: z.url({ protocol: /^https$/ }),
      Permissions: z.literal('ReadWriteDocument'),
    });
    const found = Object.fromEntries(Object.keys(shape.shape).map((name) => [name, field(name)]));
    expect(shape.safeParse(found).error?.issues ?? []).toEqual([]);
  });

  it('keeps the order of the schema', () => {
    expect(names(root)).toEqual([
      'Id',
      'Version',
      'ProviderName',
      'DefaultLocale',
      'DisplayName',
      'Description',
      'IconUrl',
      'HighResolutionIconUrl',
      'SupportUrl',
      'AppDomains',
      'Hosts',
      'Requirements',
      'DefaultSettings',
      'Permissions',
      'VersionOverrides',
    ]);
    const overrides = one('VersionOverrides');
    expect(names(overrides)).toEqual(['Hosts', 'Resources']);
    expect(names(one('Host', one('Hosts', overrides)))).toEqual([
      'Runtimes',
      'AllFormFactors',
      'DesktopFormFactor',
    ]);
    expect(names(one('DesktopFormFactor'))).toEqual(['GetStarted', 'FunctionFile', 'ExtensionPoint']);
    expect(names(one('Resources'))).toEqual(['bt:Images', 'bt:Urls', 'bt:ShortStrings', 'bt:LongStrings']);
    expect(names(one('Group'))).toEqual([
      'Label',
      'Icon',
      ...all(one('Group'), 'Control').map(() => 'Control'),
    ]);
    for (const control of all(root, 'Control'))
      expect(names(control)).toEqual(['Label', 'Supertip', 'Icon', 'Action']);
  });

  it('asks a host for no more than it takes to say what is missing', () => {
    const sets = all(one('Requirements'), 'Set').map(({ attributes }) => [
      attributes['Name'],
      attributes['MinVersion'],
    ]);
    expect(sets).toEqual([
      ['ExcelApi', '1.1'],
      ['SharedRuntime', '1.1'],
    ]);
  });

  it('shares one runtime between the pane, the commands and the functions', () => {
    const page = one('Runtime').attributes['resid'];
    expect(one('Runtime').attributes['lifetime']).toBe('long');
    expect(one('SourceLocation', one('Page')).attributes['resid']).toBe(page);
    expect(one('FunctionFile').attributes['resid']).toBe(page);
    for (const action of all(root, 'Action')) {
      if (action.attributes['xsi:type'] !== 'ShowTaskpane') continue;
      expect(one('SourceLocation', action).attributes['resid']).toBe(page);
    }
  });

  it('has a button for the pane and one for each command that the pane knows', () => {
    const controls = all(one('Group'), 'Control');
    // ids and labels apart, a tip each: that is all that a person sees of a command
    expect(new Set(controls.map((c) => c.attributes['id'])).size).toBe(controls.length);
    const labels = new Map(
      one('bt:ShortStrings').children.map((s) => [s.attributes['id'], s.attributes['DefaultValue']!]),
    );
    const tips = new Map(
      one('bt:LongStrings').children.map((s) => [s.attributes['id'], s.attributes['DefaultValue']!]),
    );
    const seen = controls.map((control) => {
      const label = labels.get(control.children.find((c) => c.name === 'Label')!.attributes['resid']);
      const tip = tips.get(one('Description', control).attributes['resid']);
      expect(tip!.length).toBeGreaterThan(20);
      return label;
    });
    expect(seen).toEqual(['Keying', 'Check selection', 'Audit system', 'Undo last']);
    const functions = controls.flatMap((c) => all(c, 'FunctionName').map((f) => f.text));
    expect(functions).toEqual([...COMMANDS]);
    expect(controls.map((c) => one('Action', c).attributes['xsi:type'])).toEqual([
      'ShowTaskpane',
      'ExecuteFunction',
      'ExecuteFunction',
      'ExecuteFunction',
    ]);
  });

  it('names every resource that it uses, and uses every one that it names', () => {
    const resources = one('Resources');
    const defined = resources.children.flatMap((group) =>
      group.children.map((r) => r.attributes['id'] ?? ''),
    );
    const used = all(root, 'VersionOverrides').flatMap((n) => residsIn(n));
    expect(new Set(defined).size).toBe(defined.length);
    expect([...new Set(used)].sort()).toEqual([...defined].sort());
    for (const id of defined) expect(id.length, id).toBeLessThanOrEqual(32);
    for (const text of one('bt:ShortStrings').children)
      expect(text.attributes['DefaultValue']!.length).toBeLessThanOrEqual(125);
    for (const text of one('bt:LongStrings').children)
      expect(text.attributes['DefaultValue']!.length).toBeLessThanOrEqual(250);
  });

  it('has icons of every size, and they are that size', () => {
    const wanted = [16, 20, 24, 32, 40, 48, 64, 80];
    for (const icon of all(root, 'Icon')) {
      expect(icon.children.map((i) => Number(i.attributes['size']))).toEqual(wanted);
      const families = icon.children.map((image) => image.attributes['resid']!.replace(/\.\d+$/, ''));
      expect(new Set(families).size).toBe(1);
      for (const image of icon.children)
        expect(image.attributes['resid']).toBe(`${families[0]!}.${image.attributes['size']}`);
    }
    const addresses = [...source.matchAll(/https:\/\/localhost:3000\/(icons\/[a-z]+-(\d+)\.png)/g)];
    expect(addresses.length).toBeGreaterThanOrEqual(wanted.length);
    for (const [, path, size] of addresses) {
      const file = `taskpane/${path}`;
      expect(existsSync(file), file).toBe(true);
      const png = readFileSync(file);
      expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([Number(size), Number(size)]);
    }
  });

  it('has a namespace that functions can carry', () => {
    const id = one('Namespace').attributes['resid'];
    const namespace = one('bt:ShortStrings').children.find((s) => s.attributes['id'] === id);
    expect(namespace?.attributes['DefaultValue']).toMatch(/^[A-Z][A-Z0-9.]{2,31}$/);
  });

  it('is read offline by the add-in tools', async () => {
    const info = await OfficeAddinManifest.readManifestFile('manifest.xml');
    expect(info.displayName).toBe('Keyrow');
    expect(info.hosts).toEqual(['Workbook']);
  });

  it('moves every address to the host and keeps https', () => {
    const moved = manifestFor('https://keys.example.org/keyrow');
    expect(moved).not.toContain('localhost');
    expect(moved).toContain('<AppDomain>https://keys.example.org</AppDomain>');
    expect(moved).toContain('DefaultValue="https://keys.example.org/keyrow/taskpane.html"');
    expect(XMLValidator.validate(moved)).toBe(true);
    expect(() => manifestFor('http://keys.example.org')).toThrow(/https/);
  });
});

function residsIn(node: Node): string[] {
  const own = node.attributes['resid'];
  return [...(own === undefined ? [] : [own]), ...node.children.flatMap(residsIn)];
}
