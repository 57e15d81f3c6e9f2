/**
 * Keys as they are typed or scanned: `AA1/2` is copy 2 of AA1, `AA1 x3` any three copies, `AA1-AA8` one copy of each
 * from AA1 to AA8. One to a line, or with commas or semicolons between; a label printed `AA1 / 2` scans as it stands.
 */
import { err, ok, type Result } from './result.ts';

export interface WantedKey {
  readonly symbol: string;
  /** The copy that is meant; any when left out. */
  readonly copy?: number;
  /** Copies wanted where none is named. */
  readonly count: number;
}

export interface KeyListFault {
  readonly text: string;
  readonly sentence: string;
}

const MOST_IN_RANGE = 500;
const SYMBOL = String.raw`[A-Za-z0-9][A-Za-z0-9.]*(?: \([^)]*\))?`;
const COPY = new RegExp(`^(${SYMBOL})\\s*[/#]\\s*(\\d{1,5})$`);
const TIMES = new RegExp(`^(${SYMBOL})(?:\\s*[x×*]\\s*(\\d{1,3}))?$`, 'i');
const RANGE = /^([A-Za-z]*)(\d+)([A-Za-z]*)\s*(?:-|–|\.\.|to)\s*([A-Za-z]*)(\d+)([A-Za-z]*)$/;

/**
 * Reads a list of keys; every entry that can't be read is told.
 * @example parseKeyList('AA1/2, AA3–AA5') → ok([{ symbol: 'AA1', copy: 2, count: 1 }, { symbol: 'AA3', count: 1 }, …])
 */
export function parseKeyList(text: string): Result<WantedKey[], readonly KeyListFault[]> {
  const faults: KeyListFault[] = [];
  const wanted = text
    .normalize('NFKC')
    .split(/[\n,;\t]+/)
    .map((part) => part.trim())
    .filter((part) => part !== '')
    .flatMap((part): WantedKey[] => {
      const read = parseOne(part);
      if (read) return read;
      faults.push({
        text: part,
        sentence: `“${part}” is not a key. Type its symbol and copy, such as AA1/2, or AA1 x3, or AA1-AA8.`,
      });
      return [];
    });
  return faults.length > 0 ? err(faults) : ok(wanted);
}

function parseOne(part: string): WantedKey[] | undefined {
  const [, named, copy] = COPY.exec(part) ?? [];
  if (named !== undefined)
    return Number(copy) > 0 ? [{ symbol: named, copy: Number(copy), count: 1 }] : undefined;
  const range = RANGE.exec(part);
  if (range) return parseRange(range);
  const [, symbol, count] = TIMES.exec(part) ?? [];
  if (symbol === undefined) return undefined;
  return count === '0' ? undefined : [{ symbol, count: Number(count ?? 1) }];
}

/** Letters before and behind the number must be the same at both ends: AA1-AA8, 1AA-8AA. */
function parseRange(match: RegExpExecArray): WantedKey[] | undefined {
  const [, before = '', from = '', behind = '', before2 = '', to = '', behind2 = ''] = match;
  const same = (a: string, b: string): boolean => a.toUpperCase() === b.toUpperCase();
  const bare = before2 === '' && behind2 === '';
  if (!bare && !(same(before, before2) && same(behind, behind2))) return undefined;
  const [first, last] = [Number(from), Number(to)];
  if (last < first || last - first >= MOST_IN_RANGE) return undefined;
  return Array.from({ length: last - first + 1 }, (_, i) => ({
    symbol: `${before}${first + i}${behind}`,
    count: 1,
  }));
}
