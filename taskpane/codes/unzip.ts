/**
 * The files inside a ZIP archive, as far as an .xlsx needs them: stored or deflated, not encrypted, not split. Reads the
 * central directory (APPNOTE 6.3.10, 4.3.12 and 4.3.16) and inflates with the browser's own stream, which is stopped
 * as soon as it gives more than a list of codes can need: an archive may claim any size for what it holds.
 */
import { err, ok, type Result } from '../../src/keying/result.ts';

export interface Archive {
  readonly names: readonly string[];
  /** The text of a file, or undefined where there is none of that name. */
  readonly text: (name: string) => Promise<Result<string | undefined, ArchiveFault>>;
}

/** `broken`: cut off or no archive. `too-much`: inflates to more than `MOST_BYTES`. `old`: the browser can't inflate. */
export type ArchiveFault = 'broken' | 'too-much' | 'old';

/** Of all files that are read from it, inflated. 100,000 rows of codes take about 30 MB. */
export const MOST_BYTES = 150_000_000;

interface Entry {
  readonly deflated: boolean;
  readonly packed: number;
  /** Of the local header. */
  readonly offset: number;
}

const END = 0x06054b50;
const CENTRAL = 0x02014b50;
const LOCAL = 0x04034b50;
const END_LENGTH = 22;

/** @example openArchive(bytes) → err('broken') for a file that was cut off */
export function openArchive(bytes: Uint8Array, most = MOST_BYTES): Result<Archive, ArchiveFault> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = findEnd(view);
  if (end === undefined) return err('broken');
  const entries = new Map<string, Entry>();
  let at = view.getUint32(end + 16, true);
  for (let n = view.getUint16(end + 10, true); n > 0; n--) {
    if (at + 46 > bytes.length || view.getUint32(at, true) !== CENTRAL) return err('broken');
    const [flags, method] = [view.getUint16(at + 8, true), view.getUint16(at + 10, true)];
    const nameLength = view.getUint16(at + 28, true);
    const rest = view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    const name = new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + nameLength));
    if ((flags & 1) === 0 && (method === 0 || method === 8))
      entries.set(name.replace(/^\//, ''), {
        deflated: method === 8,
        packed: view.getUint32(at + 20, true),
        offset: view.getUint32(at + 42, true),
      });
    at += 46 + nameLength + rest;
  }
  let left = most;
  return ok({
    names: [...entries.keys()],
    text: async (name) => {
      const entry = entries.get(name);
      if (!entry) return ok(undefined);
      const read = await inflate(bytes, view, entry, left);
      if (!read.ok) return read;
      left -= read.value.size;
      return ok(read.value.text);
    },
  });
}

/** The end record, searched from the back: a comment of up to 65,535 bytes may follow it. */
function findEnd(view: DataView): number | undefined {
  const last = view.byteLength - END_LENGTH;
  for (let at = last; at >= Math.max(0, last - 0xffff); at--) if (view.getUint32(at, true) === END) return at;
  return undefined;
}

interface Inflated {
  readonly text: string;
  readonly size: number;
}

async function inflate(
  bytes: Uint8Array,
  view: DataView,
  { deflated, packed, offset }: Entry,
  most: number,
): Promise<Result<Inflated, ArchiveFault>> {
  if (offset + 30 > bytes.length || view.getUint32(offset, true) !== LOCAL) return err('broken');
  const start = offset + 30 + view.getUint16(offset + 26, true) + view.getUint16(offset + 28, true);
  if (start + packed > bytes.length) return err('broken');
  const content = bytes.slice(start, start + packed);
  if (!deflated)
    return content.length > most
      ? err('too-much')
      : ok({ text: new TextDecoder().decode(content), size: content.length });
  if (typeof DecompressionStream === 'undefined') return err('old');
  const reader = new Blob([content]).stream().pipeThrough(new DecompressionStream('deflate-raw')).getReader();
  const decoder = new TextDecoder();
  const parts: string[] = [];
  let size = 0;
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      size += value.length;
      if (size > most) {
        await reader.cancel();
        return err('too-much');
      }
      parts.push(decoder.decode(value, { stream: true }));
    }
  } catch {
    return err('broken');
  }
  return ok({ text: parts.join('') + decoder.decode(), size });
}
