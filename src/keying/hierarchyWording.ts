/** Words for key bitting arrays, key symbols and systems that can't be made. */
import type { ArrayFault } from './array.ts';
import type { CapacityProblem } from './capacityProblem.ts';
import type { SymbolFault, SymbolNote } from './symbolText.ts';
import type { Level } from './system.ts';
import { counted, steps, type Words } from './words.ts';

const LEVEL_WORDS: Record<Level, string> = {
  CK: 'change keys (CK)',
  MK: 'masters (MK)',
  GMK: 'grand masters (GMK)',
  GGMK: 'great grand masters (GGMK)',
};

/** What a key of the level stands under, for "… under one …". */
const UNDER: Record<Level, string> = {
  CK: 'under one master',
  MK: 'under one grand master',
  GMK: 'in the system',
  GGMK: 'in the system',
};

const ARRAY_WORDS: Words<ArrayFault> = {
  'array-length': (f) =>
    `The key bitting array has ${counted(f.found, 'chamber')}; this spec has ${f.expected}. Give each chamber its choices.`,
  'array-unknown-depth': (f) =>
    `The key bitting array names a depth ${steps(f.index)} from the shallowest in chamber ${f.chamber}, which this spec doesn't have; correct it.`,
  'array-master-cut': (f) =>
    `Depth ${f.symbol} in chamber ${f.chamber} of the key bitting array is the top master's own cut; take it out.`,
  'array-repeated': (f) =>
    `Depth ${f.symbol} is twice in chamber ${f.chamber} of the key bitting array; take one out.`,
  'array-thin': (f) =>
    `Depth ${f.symbol} in chamber ${f.chamber} of the key bitting array lies ${steps(f.steps)} from the top master's cut; the thinnest master pin is ${f.step}. Choose another depth.`,
  'array-parity': (f) =>
    `Depth ${f.symbol} in chamber ${f.chamber} of the key bitting array lies ${steps(f.steps)} from the top master's cut, which is not a multiple of ${f.step}; choose another depth.`,
};

const CAPACITY_WORDS: Words<CapacityProblem> = {
  'nothing-wanted': () => 'No change key is asked for; give at least one group a number of change keys.',
  'too-few-changes': (f) =>
    `${f.needed} change keys are wanted, but this top master has only ${f.possible} changes before any rule. Use fewer groups or keys, a smaller step, or a spec with more depths or positions.`,
  'no-deal-fits': (f) =>
    `${f.needed} ${LEVEL_WORDS[f.level]} ${UNDER[f.level]} are wanted; the roomiest way of dealing the positions to the levels has ${f.possible}. ` +
    (f.proven
      ? 'Use smaller groups, fewer levels or fewer spares, or ease a rule.'
      : `The search was cut off after ${counted(f.tried, 'way')}, so there may be one that fits: choose the top master or deal the positions yourself, or use smaller groups.`),
  'group-too-small': (f) =>
    `${f.needed} ${LEVEL_WORDS[f.level]} ${UNDER[f.level]} are wanted, but only ${f.possible} can be used. Deal more positions to that level, or ask for fewer.`,
  'deal-bad': (f) =>
    `The positions can't be dealt so: the level of the ${LEVEL_WORDS[f.level]} has no position, isn't in this system, or has one without choices. Deal at least one position with choices to each level.`,
  'deal-length': (f) =>
    `The deal names ${counted(f.found, 'position')}; this spec has ${f.expected}. Give each position its level.`,
  'top-master-unusable': () => 'The top master breaks a rule itself; choose another, or ease the rule.',
  'no-top-master': (f) =>
    `None of ${counted(f.tried, 'bitting')} drawn can be the top master; ease a rule, or enter the top master yourself.`,
  'master-off-deal': (f) =>
    `The existing master ${f.symbol || 'of one group'} doesn't follow the key bitting array and the deal in chamber ${f.chamber}; check its bitting, or deal the positions as the system was made.`,
  'letters-used-up': (f) =>
    `The key coding has letters for ${f.possible} ${LEVEL_WORDS[f.level]}; give the others symbols of your own.`,
  'symbol-repeated': (f) => `The symbol ${f.symbol} is asked for twice; give each group its own.`,
  'no-control-key': (f) =>
    `None of ${counted(f.tried, 'bitting')} drawn passes the rules as a control key and operates no core; ease a rule, or enter the control key yourself.`,
};

const SYMBOL_WORDS: Words<SymbolFault | SymbolNote> = {
  'symbol-empty': () => 'There is no key symbol here; type one, such as AA1.',
  'symbol-too-long': (f) =>
    `The key symbol has ${f.length} characters; at most ${f.most} are supported. Shorten it.`,
  'avoided-letter': (f) =>
    `${f.symbol} uses the letter ${f.letter}, which key symbols avoid because it reads like a digit; use another if you can.`,
  'reserved-letter': (f) =>
    `${f.symbol} begins with ${f.letter}, which is kept for cross-keying; use another letter for a grand master.`,
};

export const HIERARCHY_WORDS: Words<ArrayFault | CapacityProblem | SymbolFault | SymbolNote> = {
  ...ARRAY_WORDS,
  ...CAPACITY_WORDS,
  ...SYMBOL_WORDS,
};
