/**
 * Counts for groups as a person types them: `12` for every group alike, `12, 8, 20` for one after the other,
 * `3 × 12, 20` for runs of the same. Faults are sentences, since a field shows them as they are.
 */
import { err, ok, type Result } from '../../src/keying/result.ts';
import { counted, grouped } from '../pictures/numbers.ts';

/** Far more groups or keys than a pin tumbler system can hold: catches a code typed where a count belongs. */
const MOST = 100_000;

/**
 * Reads the counts of `groups` groups. `what` is the noun of one group, for the sentences.
 * @example parseCounts('12', 3, 'master') → ok([12, 12, 12])
 * @example parseCounts('2 × 12, 20', 3, 'master') → ok([12, 12, 20])
 */
export function parseCounts(text: string, groups: number, what: string): Result<number[], string> {
  const parts = text
    .normalize('NFKC')
    .replace(/\s*[x×*]\s*/gi, '×')
    .split(/[,;\s]+/)
    .filter((p) => p !== '');
  if (parts.length === 0) return err('Type a count, such as 12.');
  const counts: number[] = [];
  for (const part of parts) {
    const match = /^(?:(\d+)×)?(\d+)$/.exec(part);
    if (!match)
      return err(`“${part}” is not a count. Write 12, or 12, 8, 20 for one ${what} after the other.`);
    const [times, each] = [Number(match[1] ?? 1), Number(match[2])];
    if (times > MOST || each > MOST) return err(`${part} is more than a system can hold.`);
    for (let i = 0; i < times && counts.length <= MOST; i++) counts.push(each);
  }
  if (counts.length === 1) return ok(Array.from({ length: groups }, () => counts[0]!));
  if (counts.length !== groups)
    return err(
      `${counted(counts.length, 'count')} for ${counted(groups, what)}: give one for all, or one each.`,
    );
  return ok(counts);
}

/** Reads one whole number within bounds. @example parseWhole('4', 1, 20, 'grand masters') → ok(4) */
export function parseWhole(text: string, least: number, most: number, what: string): Result<number, string> {
  const trimmed = text.normalize('NFKC').trim();
  const value = /^\d+$/.test(trimmed) ? Number(trimmed) : NaN;
  if (Number.isNaN(value)) return err(`Type a whole number of ${what}.`);
  if (value < least || value > most) return err(`From ${least} to ${grouped(most)} ${what}.`);
  return ok(value);
}
