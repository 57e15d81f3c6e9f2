/** Why no new bittings are proposed for a lost key, in words. */
import type { Finding } from './findings.ts';
import type { LostKeyProblem } from './freshBittings.ts';
import { say } from './wording.ts';
import type { Words } from './words.ts';

const WORDS: Words<LostKeyProblem> = {
  'no-array': () =>
    'This system has no top master or no key bitting array on the sheet Systems, and a system is never extended blind. Fill them in from the system’s own records, or key these doors singly or in a new system.',
  'control-lost': () =>
    'A lost control key means a new control cut in every core. That is not proposed here: make the cores anew with the generator, or ask the maker of the cores.',
  'not-in-use': (f) => `The bitting of ${f.symbol} is not in use, so there is nothing to change for it.`,
  'levels-mixed': () =>
    'The positions of this system can’t be told apart by level, so no new top master fits the keys that stay. Start a new system for these doors.',
  'no-bitting': (f) =>
    `No bitting was found for ${f.symbol} that opens its doors and nothing else. Start a new system for these doors, or key them singly.`,
  'audit-failed': (f) =>
    `The bittings that were found don’t pass the audit, most likely because of cylinders that were cross-keyed by hand: ${f.findings
      .slice(0, 3)
      .map((finding) => say(finding))
      .join(' ')} Solve these doors by the grid, or start a new system for them.`,
};

const isOwn = (problem: LostKeyProblem | Finding): problem is LostKeyProblem =>
  Object.hasOwn(WORDS, problem.code);

/** A problem as a sentence. */
export function sayLostKey(problem: LostKeyProblem | Finding): string {
  if (!isOwn(problem)) return say(problem);
  const words = WORDS[problem.code] as (problem: LostKeyProblem) => string;
  return words(problem);
}
