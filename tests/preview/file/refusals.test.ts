import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import {
  describeFileProblem,
  FILE_PROBLEMS,
  newXlsx,
  openXlsx,
  saveXlsx,
} from '../../../src/preview/file/index.ts';

function problemOf(bytes: Uint8Array, limits?: { inflated: number; parts: number }): string | undefined {
  const opened = openXlsx(bytes, 'x.xlsx', limits);
  return opened.ok ? undefined : opened.problem.code;
}

/** The head of an OLE container ([MS-CFB] 2.2), which holds old and encrypted workbooks. */
const OLE = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];
const good = (): Uint8Array => saveXlsx(newXlsx());

describe('files that are no workbook', () => {
  it('says what is wrong with each', () => {
    expect(problemOf(new Uint8Array())).toBe('empty');
    expect(problemOf(strToU8('Key;Bitting\nA;0123\n'))).toBe('not-zip');
    expect(problemOf(new Uint8Array([...OLE, ...new Array<number>(600).fill(0)]))).toBe('legacy-xls');
    const marker = [...'EncryptedPackage'].flatMap((c) => [c.charCodeAt(0), 0]);
    expect(problemOf(new Uint8Array([...OLE, ...new Array<number>(504).fill(0), ...marker]))).toBe(
      'encrypted',
    );
    expect(problemOf(zipSync({ 'readme.txt': strToU8('hello') }))).toBe('no-workbook');
    const relations = (target: string): Uint8Array =>
      strToU8(
        `<Relationships><Relationship Id="a" Type="x/officeDocument" Target="${target}"/></Relationships>`,
      );
    const base = { '[Content_Types].xml': strToU8('<Types/>') };
    expect(
      problemOf(
        zipSync({
          ...base,
          '_rels/.rels': relations('xl/workbook.bin'),
          'xl/workbook.bin': new Uint8Array(9),
        }),
      ),
    ).toBe('binary-workbook');
    expect(problemOf(zipSync({ ...base, '_rels/.rels': relations('xl/none.xml') }))).toBe('no-workbook');
    expect(
      problemOf(zipSync({ ...base, '_rels/.rels': relations('w.xml'), 'w.xml': strToU8('<document/>') })),
    ).toBe('no-workbook');
    expect(
      problemOf(
        zipSync({
          ...base,
          '_rels/.rels': relations('w.xml'),
          'w.xml': strToU8('<workbook><sheets/></workbook>'),
        }),
      ),
    ).toBe('no-sheets');
    expect(
      problemOf(
        zipSync({ ...base, '_rels/.rels': relations('w.xml'), 'w.xml': strToU8('<workbook><sheets>') }),
      ),
    ).toBe('damaged');
    expect(
      problemOf(
        zipSync({
          ...base,
          '_rels/.rels': relations('w.xml'),
          'w.xml': strToU8('<!DOCTYPE a [<!ENTITY b "c">]><workbook/>'),
        }),
      ),
    ).toBe('damaged');
  });

  it('refuses a file cut short anywhere', () => {
    const bytes = good();
    for (let length = 1; length < bytes.length; length += 37)
      expect(problemOf(bytes.slice(0, length))).toBeDefined();
  });

  it('never throws, whatever single byte is wrong', () => {
    const bytes = good();
    for (let at = 0; at < bytes.length; at += 5) {
      const broken = bytes.slice();
      broken[at] = (broken[at] ?? 0) ^ 0xff;
      expect(() => openXlsx(broken)).not.toThrow();
    }
  });

  it('refuses a bomb by what its directory says, before inflating it', () => {
    const bomb = zipSync({ 'xl/worksheets/sheet1.xml': new Uint8Array(1_000_003) });
    const view = new DataView(bomb.buffer);
    for (let at = 0; at < bomb.length - 4; at++)
      if (view.getUint32(at, true) === 1_000_003) view.setUint32(at, 300 * 1024 * 1024, true);
    expect(problemOf(bomb)).toBe('too-large');
    expect(problemOf(good(), { inflated: 1000, parts: 100 })).toBe('too-large');
    expect(problemOf(good(), { inflated: 1e6, parts: 2 })).toBe('too-many-parts');
  });

  it('refuses a part that inflates to more than it says', () => {
    const bytes = zipSync({ '[Content_Types].xml': strToU8('a'.repeat(100_000)) });
    const view = new DataView(bytes.buffer);
    for (let at = 0; at < bytes.length - 4; at++)
      if (view.getUint32(at, true) === 100_000) view.setUint32(at, 10, true);
    expect(problemOf(bytes)).toBeDefined();
  });

  it('has a sentence for every problem', () => {
    const sentences = FILE_PROBLEMS.map((code) => describeFileProblem({ code }));
    expect(new Set(sentences).size).toBe(FILE_PROBLEMS.length);
    for (const sentence of sentences) expect(sentence).toMatch(/^[A-Z].+\.$/);
    expect(describeFileProblem({ code: 'damaged', part: 'xl/a.xml' })).toContain('xl/a.xml');
  });
});
