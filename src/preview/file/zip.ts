/**
 * The package around a workbook: a zip whose directory is read and judged before anything is inflated.
 *
 * Method: the central directory (PKWARE APPNOTE 4.3.12–4.3.16) states each part's inflated size, so a bomb is
 * refused on its own statement; each part is then inflated into a buffer of exactly the stated size, which
 * bounds memory even where the statement lies. Parts are inflated only when asked for.
 */
import { inflateSync, strFromU8, strToU8, zipSync, type Zippable } from 'fflate';
import { FileFault } from './problems.ts';

export interface ZipLimits {
  /** Bytes of all parts together, inflated. */
  readonly inflated: number;
  readonly parts: number;
}

export const ZIP_LIMITS: ZipLimits = { inflated: 200 * 1024 * 1024, parts: 5000 };

interface Entry {
  readonly name: string;
  readonly method: number;
  readonly packed: number;
  readonly size: number;
  readonly offset: number;
  readonly encrypted: boolean;
}

const END = 0x06054b50;
const CENTRAL = 0x02014b50;
const LOCAL = 0x04034b50;
const OLE = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];

function findEnd(view: DataView): number {
  const lowest = Math.max(0, view.byteLength - 22 - 0xffff);
  for (let at = view.byteLength - 22; at >= lowest; at--) if (view.getUint32(at, true) === END) return at;
  throw new FileFault({ code: 'truncated' });
}

/** An OLE container is either an encrypted workbook or one in the format before 2007. */
function rejectContainer(bytes: Uint8Array): void {
  if (!OLE.every((byte, i) => bytes[i] === byte)) return;
  const marker = [...'EncryptedPackage'].flatMap((c) => [c.charCodeAt(0), 0]);
  for (let at = 0; at + marker.length <= bytes.length; at += 2)
    if (bytes[at] === marker[0] && marker.every((byte, i) => bytes[at + i] === byte))
      throw new FileFault({ code: 'encrypted' });
  throw new FileFault({ code: 'legacy-xls' });
}

function readDirectory(bytes: Uint8Array, limits: ZipLimits): Entry[] {
  if (bytes.length === 0) throw new FileFault({ code: 'empty' });
  rejectContainer(bytes);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const first = bytes.length >= 4 ? view.getUint32(0, true) : 0;
  if (first !== LOCAL && first !== END) throw new FileFault({ code: 'not-zip' });
  if (bytes.length < 22) throw new FileFault({ code: 'truncated' });
  const end = findEnd(view);
  const count = view.getUint16(end + 10, true);
  if (count > limits.parts) throw new FileFault({ code: 'too-many-parts' });
  let at = view.getUint32(end + 16, true);
  const entries: Entry[] = [];
  let inflated = 0;
  for (let i = 0; i < count; i++) {
    if (at + 46 > bytes.length || view.getUint32(at, true) !== CENTRAL)
      throw new FileFault({ code: 'truncated' });
    const nameLength = view.getUint16(at + 28, true);
    const utf8 = (view.getUint16(at + 8, true) & 0x800) !== 0;
    const entry: Entry = {
      // Some writers use backslashes; the package format knows only "/".
      name: strFromU8(bytes.subarray(at + 46, at + 46 + nameLength), !utf8).replaceAll('\\', '/'),
      encrypted: (view.getUint16(at + 8, true) & 1) !== 0,
      method: view.getUint16(at + 10, true),
      packed: view.getUint32(at + 20, true),
      size: view.getUint32(at + 24, true),
      offset: view.getUint32(at + 42, true),
    };
    inflated += entry.size;
    if (inflated > limits.inflated) throw new FileFault({ code: 'too-large' });
    entries.push(entry);
    at += 46 + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return entries;
}

function inflateEntry(bytes: Uint8Array, entry: Entry): Uint8Array {
  if (entry.encrypted) throw new FileFault({ code: 'encrypted', part: entry.name });
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (entry.offset + 30 > bytes.length || view.getUint32(entry.offset, true) !== LOCAL)
    throw new FileFault({ code: 'damaged', part: entry.name });
  const from =
    entry.offset + 30 + view.getUint16(entry.offset + 26, true) + view.getUint16(entry.offset + 28, true);
  if (from + entry.packed > bytes.length) throw new FileFault({ code: 'truncated', part: entry.name });
  const packed = bytes.subarray(from, from + entry.packed);
  if (entry.method === 0) return packed.slice();
  if (entry.method !== 8) throw new FileFault({ code: 'damaged', part: entry.name });
  let part: Uint8Array;
  try {
    part = inflateSync(packed, { out: new Uint8Array(entry.size) });
  } catch {
    throw new FileFault({ code: 'damaged', part: entry.name });
  }
  if (part.length !== entry.size) throw new FileFault({ code: 'damaged', part: entry.name });
  return part;
}

/** The parts of a workbook file by name ("xl/workbook.xml"), in file order. */
export class ZipPackage {
  private readonly entries = new Map<string, Entry>();
  private readonly inflated = new Map<string, Uint8Array>();
  private readonly byLowerCase = new Map<string, string>();

  /** Reads the directory; throws {@link FileFault} for anything that is not a sound zip within the limits. */
  constructor(
    private readonly bytes: Uint8Array,
    limits: ZipLimits = ZIP_LIMITS,
  ) {
    for (const entry of readDirectory(bytes, limits)) {
      if (entry.name.endsWith('/')) continue;
      this.entries.set(entry.name, entry);
      this.byLowerCase.set(entry.name.toLowerCase(), entry.name);
    }
  }

  get names(): string[] {
    return [...this.entries.keys()];
  }

  /** Part names are compared without regard to case (ECMA-376 part 2, 6.2.2.3). */
  resolve(name: string): string | undefined {
    return this.entries.has(name) ? name : this.byLowerCase.get(name.toLowerCase());
  }

  bytesOf(name: string): Uint8Array | undefined {
    const own = this.resolve(name);
    if (own === undefined) return undefined;
    let part = this.inflated.get(own);
    if (part === undefined) {
      const entry = this.entries.get(own);
      if (entry === undefined) return undefined;
      part = inflateEntry(this.bytes, entry);
      this.inflated.set(own, part);
    }
    return part;
  }

  /** A part as text without byte-order mark. */
  textOf(name: string): string | undefined {
    const part = this.bytesOf(name);
    return part === undefined ? undefined : decodeXml(part);
  }
}

/** Decodes UTF-8, or UTF-16 where a byte-order mark says so. */
export function decodeXml(part: Uint8Array): string {
  if (part[0] === 0xff && part[1] === 0xfe) return new TextDecoder('utf-16le').decode(part);
  if (part[0] === 0xfe && part[1] === 0xff) return new TextDecoder('utf-16be').decode(part);
  return new TextDecoder('utf-8').decode(part);
}

/** Zips parts in the order given. The time stamp is fixed, so the same parts give the same file. */
export function packParts(parts: ReadonlyMap<string, Uint8Array | string>): Uint8Array {
  const files: Zippable = {};
  for (const [name, part] of parts) files[name] = typeof part === 'string' ? strToU8(part) : part;
  return zipSync(files, { level: 6, mtime: new Date(1980, 0, 1, 12) });
}
