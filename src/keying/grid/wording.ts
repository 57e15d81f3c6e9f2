/** Words for what solving a grid answers. A table for each union: a code without words does not compile. */
import { counted, grouped, listed, type Words } from '../words.ts';
import type { Impossible, NotFound, ProofReason, Repin, SolveResult } from './result.ts';

const PROOF_WORDS: Words<ProofReason> = {
  'too-many-keys': (f) =>
    `${counted(f.needed, 'key')} with different marks need ${counted(f.needed, 'bitting')}, but only ${grouped(f.possible)} are usable. Ease a rule, or use a spec with more depths or positions.`,
  'too-many-under-master': (f) =>
    `At least ${counted(f.needed, 'key')} under ${f.master} must not open each other's doors, but no more than ${counted(f.possible, 'bitting')} can be told apart under one master. Use fewer keys under it, or a spec with more depths or positions.`,
  'fixed-lock-out': (f) =>
    `The existing key ${f.key} is marked for the existing cylinder ${f.cylinder} and doesn't operate it. Correct the mark, the bitting or the chambers, or let ${f.cylinder} be re-pinned.`,
  'fixed-interchange': (f) =>
    `The existing key ${f.key} operates the existing cylinder ${f.cylinder} and isn't marked for it. Mark it, correct the bitting or the chambers, or let ${f.cylinder} be re-pinned.`,
  'no-bitting-for-key': (f) =>
    `No usable bitting operates the existing cylinders that ${f.key} is marked for and none of the others. Let one of them be re-pinned, or change a mark.`,
  'fixed-keys-admit': (f) =>
    `The existing keys marked for ${f.cylinder} already let ${f.key} in, however the rest is chosen. Mark ${f.key} for it, or give one of those keys a new bitting.`,
  'fixed-keys-thin': (f) =>
    `The existing keys marked for ${f.cylinder} have cuts in chamber ${f.chamber} too close for a master pin. Take one of them off this cylinder, or leave that chamber empty.`,
  'blank-does-not-enter': (f) =>
    `${f.key} is marked for ${f.cylinder}, whose keyway its blank doesn't enter. Take the mark away, or correct the keyway of one of them.`,
  'blank-too-short': (f) =>
    `${f.key} is marked for ${f.cylinder}, but its blank is too short for chamber ${f.chamber}. Take the mark away, use a longer blank, or leave that chamber of ${f.cylinder} empty.`,
  'control-is-a-key': (f) =>
    `The existing key ${f.key} has the control cuts of ${f.cylinder} and would pull its core. Choose other control cuts.`,
  'control-without-room': (f) =>
    `The control cut of ${f.cylinder} leaves no room for pins in chamber ${f.chamber}. Choose another control cut there.`,
  'too-many-on-door': (f) =>
    `${counted(f.needed, 'key')} of ${f.cylinder} need different bittings, but its chambers can only tell ${grouped(f.possible)} apart. Allow more depths in a chamber, or mark fewer keys for it.`,
  'difference-too-large': (f) =>
    `Keys are to differ in ${counted(f.asked, 'chamber')}, but only ${f.possible} can differ. Ask for a smaller difference, or keep fewer positions for later.`,
  'too-many-apart': (f) =>
    `${counted(f.needed, 'key')} are to differ in ${counted(f.difference, 'chamber')} from one another, and no more than ${counted(f.possible, 'bitting')} can. Ask for a smaller difference, or use a spec with more depths or positions.`,
  'fixed-keys-crowd': (f) =>
    `The existing keys marked for ${f.cylinder} have more than ${counted(f.most, 'different cut')} in chamber ${f.chamber}. Allow more depths in a chamber, or take one of them off this cylinder.`,
  'skips-level': (f) =>
    `${f.cylinder} is marked for a key and for one two levels above, but not for ${f.key} between them. Under total position progression ${f.key} always gets in; mark it, or let the grid be solved without dealing positions to levels.`,
  'no-dealing-fits': (f) =>
    `The grid is a hierarchy, but dealing positions to its levels can't do: ${counted(f.needed, 'key')} are wanted ${f.under === undefined ? 'in the system' : `under ${f.under}`}, and the roomiest dealing has ${grouped(f.possible)}. This rules out total position progression only. Use smaller groups, or a spec with more depths or positions.`,
  'search-exhausted': (f) =>
    `Every bitting was tried (${counted(f.steps, 'step')}), and none lets these keys operate exactly these cylinders. Change a mark among them, or use a spec with more depths or positions.`,
};

/** One sentence for a reason. @example sayProof({ code: 'fixed-lock-out', key: 'AA1', cylinder: 'Door 3' }) */
export const sayProof = (reason: ProofReason): string =>
  // Each entry takes the reason with its own code; the table's type holds that for every code.
  (PROOF_WORDS[reason.code] as (f: ProofReason) => string)(reason);

const MOST_NAMES = 12;

/**
 * What re-pinning would do, with the doors as people call them.
 * @example sayRepin({ cylinders: ['C4'], kind: 'proved-smallest', atLeast: 1 }) → 'Re-pinning C4 makes it fit. …'
 */
export function sayRepin(
  { cylinders, kind, atLeast }: Repin,
  nameOf: (cylinder: string) => string = (id) => id,
): string {
  const names = cylinders.slice(0, MOST_NAMES).map(nameOf);
  const more = cylinders.length - names.length;
  const proved =
    kind === 'proved-smallest'
      ? 'Proved smallest: no fewer cylinders will do.'
      : `Best found: at least ${grouped(atLeast)} must be, and fewer than these may do.`;
  return `Re-pinning ${listed(names)}${more > 0 ? ` and ${grouped(more)} more` : ''} makes it fit. ${proved}`;
}

const someOf = (names: readonly string[]): string =>
  `${listed(names.slice(0, MOST_NAMES))}${names.length > MOST_NAMES ? ' …' : ''}`;

const sayImpossible = ({ reason, scope, keys, cylinders }: Impossible): string[] => [
  sayProof(reason),
  ...(keys.length + cylinders.length > 0 && reason.code !== 'too-many-keys'
    ? [
        `In conflict: ${[keys, cylinders]
          .filter((names) => names.length > 0)
          .map(someOf)
          .join(' at ')}.`,
      ]
    : []),
  ...(scope === 'this-deal'
    ? ['This holds for the top master and constant positions that were asked for; others may do.']
    : []),
];

const sayNotFound = ({ steps, left, unplaced, keysRight, keys, hints }: NotFound): string[] => [
  `Nothing was found in ${counted(steps, 'step')}, and nothing is proved. The best attempt leaves ${counted(left, 'pair')} wrong${unplaced > 0 ? `, ${counted(unplaced, 'key')} without a bitting,` : ''} and has ${grouped(keysRight)} of ${counted(keys, 'key')} right everywhere.`,
  ...hints.slice(0, 5).map(sayProof),
];

/** The answer in sentences, the most important first; what re-pinning would do is told by `sayRepin`. */
export function sayAnswer(result: SolveResult): string[] {
  if (result.kind === 'impossible') return sayImpossible(result);
  if (result.kind === 'not-found') return sayNotFound(result);
  const { cost, keys, cylinders, alike } = result;
  const saved = cost.asFound.extraMasterPins - cost.extraMasterPins;
  return [
    `Solved: ${counted(keys.length, 'key')} and ${counted(cylinders.length, 'cylinder')}, each pair audited. ${counted(cost.masterPins, 'master pin')}, of which ${grouped(cost.extraMasterPins)} beyond one in a chamber; at most ${counted(cost.mostCombinations, 'combination')} in one cylinder.`,
    ...(saved > 0 ? [`Cuts were changed afterwards to save ${counted(saved, 'extra master pin')}.`] : []),
    ...alike.map((symbols) => `${listed(symbols)} have the same marks and are cut alike.`),
  ];
}
