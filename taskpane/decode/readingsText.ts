/** Caliper readings as a person types them: lengths in a line, apart by spaces, semicolons or new lines. */
import { parseLength, type Length, type Unit } from '../../src/keying/units.ts';
import { err, ok, type Result } from '../../src/keying/result.ts';

/**
 * @example readLengths('0.280 0.189; 0,242', 'in') → ok([7_112_000, 4_800_600, 6_146_800])
 */
export function readLengths(text: string, unit: Unit): Result<readonly Length[], string> {
  const tokens = text
    .normalize('NFKC')
    .split(/[\s;]+|,\s+/)
    .filter(Boolean);
  const lengths: Length[] = [];
  for (const token of tokens) {
    const read = parseLength(token, unit);
    if (!read.ok || read.value <= 0)
      return err(`“${token}” is not a reading; write lengths apart by spaces, such as 0.280 0.189 0.242.`);
    lengths.push(read.value);
  }
  return ok(lengths);
}
