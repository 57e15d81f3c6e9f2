/** What changed since the audit before, in words. */
import type { FindingNote, NamesChange } from '../../src/keying/auditNotes.ts';
import type { FindingCode } from '../../src/keying/auditFindings.ts';
import { counted, grouped, listed } from '../pictures/numbers.ts';
import { codeWords } from './words.ts';

/** More names than these are counted. */
const MOST = 12;

const some = (names: readonly string[]): string =>
  listed(
    names.length > MOST ? [...names.slice(0, MOST - 1), `${grouped(names.length - MOST + 1)} more`] : names,
  );

/** @example sayNames('key', { added: ['AB7'], gone: [], changed: [] }) → ['1 key added: AB7.'] */
export function sayNames(noun: 'key' | 'cylinder', { added, gone, changed }: NamesChange): string[] {
  const to = noun === 'key' ? '' : 'keyed to ';
  return [
    ...(added.length > 0 ? [`${counted(added.length, noun)} added: ${some(added)}.`] : []),
    ...(gone.length > 0 ? [`${counted(gone.length, noun)} gone: ${some(gone)}.`] : []),
    ...(changed.length > 0
      ? [
          `${counted(changed.length, noun)} ${noun === 'key' ? 'with another status' : 'keyed otherwise'}: ${some(
            changed.map(
              (each) => `${each.name} ${to}${each.to || 'nothing'} (was ${each.from || 'nothing'})`,
            ),
          )}.`,
        ]
      : []),
  ];
}

/** @example sayMetal({ recut: ['AA3'], repinned: [] }) → ['1 key with another bitting: AA3.'] */
export const sayMetal = ({
  recut,
  repinned,
}: {
  readonly recut: readonly string[];
  readonly repinned: readonly string[];
}): string[] => [
  ...(recut.length > 0 ? [`${counted(recut.length, 'key')} with another bitting: ${some(recut)}.`] : []),
  ...(repinned.length > 0
    ? [`${counted(repinned.length, 'cylinder')} with other pins: ${some(repinned)}.`]
    : []),
];

/** @example sayGone(['interchange', 'AA3', '12', '']) → 'Key interchange: key AA3, cylinder 12.' */
export function sayGone([code, key, cylinder, about]: FindingNote): string {
  const [one] = codeWords(code) ?? [code];
  const where = [
    ...(key === '' ? [] : [`key ${key}`]),
    ...(cylinder === '' ? [] : [`cylinder ${cylinder}`]),
    ...(/^\d+$/.test(about) && cylinder !== '' ? [`chamber ${about}`] : []),
  ];
  return `${one.charAt(0).toUpperCase()}${one.slice(1)}: ${where.join(', ')}.`;
}

/** @example sayCount({ code: 'interchange', before: 3, now: 1 }) → '1 key interchange, 3 before.' */
export function sayCount({
  code,
  before,
  now,
}: {
  readonly code: FindingCode;
  readonly before: number;
  readonly now: number;
}): string {
  const [one, many] = codeWords(code) ?? [code, code];
  return `${counted(now, one, many)}, ${grouped(before)} before.`;
}
