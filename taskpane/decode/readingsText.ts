/** Caliper readings as a person types them: lengths in a line, apart by spaces, semicolons or new lines. */
import { parseLength, type Length, type Unit } from '../../src/keying/units.ts';
import { err, ok, type Result } from '../../src/keying/result.ts';

/** A unit that stands apart from its number. */
const LONE_UNIT = /^(?:in|mm|")$/i;
const ENDS_IN_UNIT = /(?:in|mm|")$/i;

const EXAMPLES: Readonly<Record<Unit, string>> = { in: '0.280 0.189 0.242', mm: '7.11 4.80 6.15' };

/**
 * A unit that is typed goes before the one asked for; one behind the last reading alone is that of them all.
 * @example readLengths('0.280 0.189; 0,242', 'in') → ok([7_112_000, 4_800_600, 6_146_800])
 * @example readLengths('7.11 4.80 6.15 mm', 'in') → ok([7_110_000, 4_800_000, 6_150_000])
 */
export function readLengths(text: string, unit: Unit): Result<readonly Length[], string> {
  const tokens = withUnits(
    text
      .normalize('NFKC')
      // which takes the sign for inches apart
      .replaceAll('′′', '"')
      .split(/[\s;]+|,\s+/)
      .filter(Boolean),
  );
  const last = tokens.at(-1) ?? '';
  const forAll = ENDS_IN_UNIT.test(last) && !tokens.slice(0, -1).some((token) => ENDS_IN_UNIT.test(token));
  const asked: Unit = !forAll ? unit : /mm$/i.test(last) ? 'mm' : 'in';
  const lengths: Length[] = [];
  for (const token of tokens) {
    const read = parseLength(token, asked);
    if (!read.ok || read.value <= 0)
      return err(`“${token}” is not a reading; write lengths apart by spaces, such as ${EXAMPLES[unit]}.`);
    lengths.push(read.value);
  }
  return ok(lengths);
}

/** Puts a unit that stands apart behind its number: `0.28 in` was split at the space. */
function withUnits(tokens: readonly string[]): string[] {
  const joined: string[] = [];
  for (const token of tokens) {
    const before = joined.at(-1);
    if (LONE_UNIT.test(token) && before !== undefined && !ENDS_IN_UNIT.test(before))
      joined[joined.length - 1] = before + token;
    else joined.push(token);
  }
  return joined;
}
