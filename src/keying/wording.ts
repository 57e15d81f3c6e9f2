/**
 * The words for every finding, in one place so that they can be reworded or translated without touching a rule. Each
 * is a sentence that says what is wrong and what to do. A table for each union: a code without words does not
 * compile.
 */
import type { BittingFinding, CutFinding, Finding, SystemFinding } from './findings.ts';
import { HIERARCHY_WORDS } from './hierarchyWording.ts';
import type { RuleName } from './rules.ts';
import type { SpecificationFault } from './specification.ts';
import { formatLength, type LengthFault, type Unit } from './units.ts';
import { brief, counted, listed, steps, type Words } from './words.ts';

/**
 * How near, in the spec's unit: 18 thousandths → `0.018 in`, 12.5 → `0.0125 in`, 19.7 of a metric spec → `0.50 mm`
 * (a tenth of a thousandth is less than half of the last digit).
 */
export const apart = ({
  thousandths,
  unit = 'in',
}: {
  readonly thousandths: number;
  readonly unit?: Unit;
}): string =>
  unit === 'in'
    ? `${(thousandths / 1000).toFixed(Number.isInteger(thousandths) ? 3 : 4)} in`
    : `${(thousandths * 0.0254).toFixed(2)} mm`;

const LENGTH_WORDS: Words<LengthFault> = {
  'not-a-length': (f) =>
    f.text.trim() === ''
      ? 'There is no length here; type a number, such as 0.237.'
      : `“${f.text}” is not a length; type a number, with its unit if it isn't the spec's, such as 0.237 or 6.02 mm.`,
};

const BITTING_WORDS: Words<BittingFinding> = {
  length: (f) =>
    `The code has ${counted(f.found, 'cut')}; this spec has ${f.expected}. Check the code, or choose the spec it belongs to.`,
  'lost-zero': (f) =>
    `The code has ${counted(f.found, 'digit')} instead of ${f.expected}, so the cell has probably dropped leading zeros. If ${f.suggestion} is meant, format the cell as text and type it again.`,
  'unknown-depth': (f) =>
    `“${f.symbol}” at cut ${f.at} is not a depth of this spec; its depths are ${listed(f.allowed)}.`,
  'not-a-code': (f) =>
    f.text.trim() === ''
      ? 'There is no code here; type the symbols of the cuts.'
      : `“${f.text}” is not a code; type the symbols of the cuts, such as 2-7-4-1-5-3.`,
  macs: (f) =>
    `The ${f.from} and ${f.to} at cuts ${f.first} and ${f.first + 1} differ by ${steps(f.steps)}; this spec allows ${f.allowed}. Choose depths closer together.`,
  'few-depths': (f) =>
    `The key has only ${counted(f.found, 'different depth')}; use at least ${f.least}, since keys of few depths are too much alike.`,
  'equal-run': (f) =>
    `Cuts ${f.first} to ${f.first + f.length - 1} are all ${f.symbol}: ${f.length} equal cuts side by side, and at most ${f.most} are allowed. Change one of them.`,
  stair: (f) => `The cuts get ${f.direction} all along, a straight stair; change one of them if you can.`,
  'pulls-out-turned': () =>
    'The blade nowhere rises towards the tip, so the key could be drawn out while the plug is turned; put a shallower cut nearer the tip.',
  'grade-equal-share': (f) =>
    `${f.percent} % of the cuts are of one depth; EN 1303 key-related grade ${f.grade} allows ${f.most} %. Change some of them.`,
  'grade-equal-neighbours': (f) =>
    `${f.found} equal cuts stand side by side; EN 1303 key-related grade ${f.grade} allows ${f.most}. Change one of them.`,
  duplicate: (f) => `The same bitting is in the list at ${f.of}; give one of them another.`,
  'already-used': (f) =>
    `This bitting belongs to ${f.symbol} (${f.status}) in this system; a bitting that was ever used is not issued again, so choose another.`,
  'equals-master': (f) =>
    `This is the bitting of the master ${f.symbol}; a key cut to it opens all that ${f.symbol} opens. Choose another.`,
  parity: (f) =>
    `Cut ${f.at} lies ${steps(f.steps)} from the top master ${f.master}, which is not a multiple of ${f.step}; the master pin would be too thin. Choose another depth there.`,
  'operates-existing': (f) =>
    `A key with this bitting operates cylinder ${f.cylinder}, which it should not; choose another bitting.`,
  'near-miss': (f) =>
    `Only chamber ${f.chamber} keeps this key from ${f.other}, and there by ${apart(f)}; in a worn lock it may turn. Choose a bitting that differs in more chambers if you can.`,
};

const CUT_WORDS: Words<CutFinding> = {
  'eaten-flat': (f) =>
    `The ${f.from} and ${f.to} at cuts ${f.first} and ${f.first + 1} meet: the deeper cut eats ${formatLength(f.by, f.unit)} of its neighbour's flat. Use a narrower cutter, or depths closer together.`,
  'macs-differs': (f) =>
    `The spec allows ${steps(f.stated)} between neighbours, but the geometry of this cutter gives ${f.geometric}. Check the root width, angle and spacing against your data.`,
  'cutter-too-wide': (f) =>
    `The cutter is ${formatLength(f.by, f.unit)} wider than the spec's root width; with it neighbours may differ by at most ${steps(f.macs)}. Use a narrower one.`,
  'suspect-cut': (f) =>
    `Cut ${f.at} is nearest to ${f.symbol}, but off by ${formatLength(f.deviation, f.unit)}; the tolerance is ${formatLength(f.tolerance, f.unit)}. Measure it again.`,
  'ambiguous-cut': (f) =>
    `Cut ${f.at} lies between ${f.symbol} and ${f.other}; ${f.symbol} is only a little nearer. Measure it again, or try both.`,
  'shared-offset': (f) =>
    `All cuts are off by about ${formatLength(f.offset, f.unit)}: the key may be worn, or the stop or caliper out of true. Check before you trust the code.`,
};

const SYSTEM_WORDS: Words<SystemFinding> = {
  interchange: (f) =>
    `Key ${f.key} operates cylinder ${f.cylinder}, which it should not; change the bitting of the key or re-pin the cylinder.`,
  'lock-out': (f) =>
    `Key ${f.key} does not operate cylinder ${f.cylinder}: its cut in chamber ${f.chamber} is ${f.cut}, and the chamber shears at ${listed(f.shears)}. Pin the chamber for it, or correct the key.`,
  'near-interchange': (f) =>
    `Only chamber ${f.chamber} keeps key ${f.key} from cylinder ${f.cylinder}, and there by ${apart(f)}; when worn it may turn. Change one of the two if you can.`,
  'thin-master-pin': (f) =>
    `A master pin in chamber ${f.chamber} of cylinder ${f.cylinder} is ${steps(f.steps)}; the thinnest allowed is ${f.step}. Move one of the two depths.`,
  'thin-build-up': (f) =>
    `The build-up pin in chamber ${f.chamber} of core ${f.cylinder} is ${steps(f.steps)}; the thinnest allowed is ${f.step}. Change the control cut there.`,
  'stack-too-tall': (f) =>
    `The pins in chamber ${f.chamber} of cylinder ${f.cylinder} are taller than the target stack and leave no room for a top pin; check the depths and the target stack.`,
  'control-operates': (f) =>
    `Key ${f.key} works the control line of core ${f.cylinder} and would pull the core; change its bitting, or the control key.`,
  'control-is-incidental': (f) =>
    `The control key also operates core ${f.cylinder} as an ordinary key; change a control cut so that it doesn't.`,
  'control-locked-out': (f) =>
    `Control key ${f.key} does not pull core ${f.cylinder}: its cut in chamber ${f.chamber} is not the core's control cut. Correct the key or re-pin the core.`,
  'wrong-keyway': (f) =>
    `Key ${f.key} is on a blank for keyway ${f.found} and does not enter cylinder ${f.cylinder}, whose keyway is ${f.expected}. Cut it on a blank that enters both, or change the keyway.`,
  'too-few-cuts': (f) =>
    `Key ${f.key} has ${counted(f.cuts, 'cut')}, but chamber ${f.chamber} of cylinder ${f.cylinder} is pinned. Use a longer blank, or leave that chamber empty.`,
  'control-missing': (f) =>
    `Control key ${f.key} is marked for cylinder ${f.cylinder}, which has no control cuts; take the mark away, or enter the control cuts.`,
  'core-without-control': (f) =>
    `Core ${f.cylinder} has no control cuts, so its build-up and top pins can't be worked out; enter the control cuts in its row.`,
  'key-missing': (f) =>
    `Cylinder ${f.cylinder} is keyed to ${f.symbol}, but no key ${f.symbol} is issued or reserved; add the key or correct the symbol.`,
  'unusable-bitting': (f) => `Key ${f.key}: ${f.reasons.map((reason) => say(reason)).join(' ')}`,
  'same-bitting': (f) => `Keys ${f.key} and ${f.other} have the same bitting; give one of them another.`,
  'bitting-reissued': (f) =>
    `Key ${f.key} has the bitting of an earlier ${f.key} that is lost or void, so the old key still fits; give the new one another.`,
  'parent-missing': (f) =>
    `Key ${f.key} is said to stand under ${f.parent}, but there is no such key; add it or correct the entry.`,
};

/** Fields of a spec by the names that a user knows. */
const FIELD_WORDS = {
  rootWidth: 'root width',
  angle: 'angle',
  tolerance: 'tolerance',
  bladeHeight: 'blade height',
  plugDiameter: 'plug diameter',
  targetStack: 'target stack',
  total: 'total stack',
  addition: 'control addition',
} as const;

const SPECIFICATION_WORDS: Words<SpecificationFault> = {
  'positions-out-of-range': (f) =>
    `The number of cuts is ${f.found}; it must be a whole number from ${f.least} to ${f.most}.`,
  'centres-missing': () =>
    'The places of the cuts are missing; give the first cut and the spacing, or a list of centres.',
  'centres-count': (f) =>
    `There are ${counted(f.found, 'centre')} for ${counted(f.expected, 'cut')}; give one for each.`,
  'centres-not-rising': (f) =>
    `The centre of cut ${f.position} is not farther from the stop than the one before it; list the centres from the stop outward.`,
  'depths-too-few': (f) =>
    `There ${f.found === 1 ? 'is' : 'are'} only ${counted(f.found, 'depth')}; a spec needs at least 2.`,
  'depths-too-many': (f) => `There are ${counted(f.found, 'depth')}; at most ${f.most} are supported.`,
  'depth-symbol-repeated': (f) => `The depth symbol ${f.symbol} is there twice; give each depth its own.`,
  'depth-symbol-bad': (f) => `“${f.symbol}” can't be a depth symbol; use one or two letters or digits.`,
  'depth-root-repeated': (f) =>
    `Depths ${f.other} and ${f.symbol} have the same root depth; correct one of them.`,
  'depth-root-bad': (f) => `The root depth of ${f.symbol} must be more than zero; correct it.`,
  'depth-above-blade': (f) =>
    `The root depth of ${f.symbol} is more than the blade height; correct one of the two.`,
  'depth-below-plug': (f) =>
    `The root depth of ${f.symbol} leaves no room for a bottom pin in the plug; correct it or the plug diameter.`,
  'not-positive': (f) => `The ${FIELD_WORDS[f.field]} must be more than zero; correct it.`,
  'angle-too-wide': (f) => `The included angle is ${f.found}°; it must be less than 180°.`,
  'macs-bad': (f) =>
    `The MACS is ${f.found}; it must be a whole number of steps from 1 to ${f.most}, the steps between the shallowest and deepest cut.`,
  'step-bad': (f) => `The step is ${f.found}; it must be a whole number from 1 to ${f.most}.`,
  'core-bad': (f) => `The ${FIELD_WORDS[f.field]} of the core must be a whole number of steps, 1 or more.`,
  'core-depths-uneven': (f) =>
    `The step from depth ${f.from} to ${f.to} is not that of the shallowest two; the pins of a core are made in whole steps, so give root depths at even steps, without rounding.`,
  'name-missing': () => 'The spec has no name; give it one.',
};

const WORDS: Words<Finding> = {
  ...LENGTH_WORDS,
  ...BITTING_WORDS,
  ...CUT_WORDS,
  ...SYSTEM_WORDS,
  ...SPECIFICATION_WORDS,
  ...HIERARCHY_WORDS,
};

/**
 * A finding as a sentence, led by the place where there is one (a cell, a row, a symbol).
 * @example say({ code: 'macs', first: 3, from: '2', to: '8', steps: 6, allowed: 5 }, 'B7')
 *   → 'B7: The 2 and 8 at cuts 3 and 4 differ by 6 steps; this spec allows 5. Choose depths closer together.'
 */
export function say(finding: Finding, place?: string): string {
  // the table's type ties each code to its own finding, which an indexed call can't express
  const word = WORDS[finding.code] as (finding: Finding) => string;
  const sentence = brief(word(finding));
  return place === undefined ? sentence : `${place}: ${sentence}`;
}

const RULE_WORDS: Record<RuleName, string> = {
  macs: 'Neighbours within MACS',
  fewDepths: 'Enough different depths',
  equalRun: 'No long run of equal cuts',
  stair: 'No straight stair',
  pullsOutTurned: 'Cannot be drawn out turned',
  grade: 'EN 1303 key-related grade',
  duplicate: 'Once in the list',
  alreadyUsed: 'Never used in the system',
  equalsMaster: 'Not a master',
  parity: 'Whole steps from the top master',
  operatesExisting: 'Operates no existing cylinder',
  nearMiss: 'No near miss',
};

const RULE_REASONS: Record<RuleName, string> = {
  macs: 'A deeper cut would eat the flat of its neighbour, and the key would not sit at its depth.',
  fewDepths: 'Keys of few depths are too much alike.',
  equalRun: 'Long runs of equal cuts make keys too much alike.',
  stair: 'Such a blade is easily recognised and imitated.',
  pullsOutTurned: 'Nothing would hold the key in while the plug is turned.',
  grade: 'The European standard for lock cylinders asks it of its key-related grades.',
  duplicate: 'Two marks would open each other’s locks.',
  alreadyUsed: 'A lost or old key of that bitting may still be about.',
  equalsMaster: 'Such a key would open all that the master opens.',
  parity: 'Half a step from the master makes a master pin too thin to be cut or to last.',
  operatesExisting: 'It would open a door that is none of its business.',
  nearMiss: 'A single small step keeps the key out; in a worn lock it may turn.',
};

/** Why a rule is there, in a sentence. @example ruleReason('duplicate') → 'Two marks would open each other’s locks.' */
export const ruleReason = (rule: RuleName): string => RULE_REASONS[rule];

/** A rule by the name that a panel shows. @example ruleTitle('macs') → 'Neighbours within MACS' */
export const ruleTitle = (rule: RuleName): string => RULE_WORDS[rule];
