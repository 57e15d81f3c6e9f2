/** Words for what a grid's new keys and cylinders are made of. A table for each union: a code without words does not compile. */
import { say } from '../wording.ts';
import { counted, listed, type Words } from '../words.ts';
import type { BlankFault, ControlFault } from './blanks.ts';

const BLANK_WORDS: Words<BlankFault> = {
  'keyway-without-blank': (f) =>
    `No blank of the sheet Blanks enters a keyway ${f.keyway}. Correct it, or add the blank there.`,
  'blanks-too-short': (f) =>
    `The blanks for ${f.keyway} have room for ${counted(f.cuts, 'cut')}, and ${f.needed} are needed. Name one of them (${listed(f.blanks)}), or the number: ${f.keyway} ${counted(f.cuts, 'cut')}.`,
  'not-one-keyway': (f) =>
    f.keyways.length === 0
      ? `The sheet Blanks doesn’t say which keyway ${f.blank} enters. Name the cylinder’s keyway.`
      : `${f.blank} is a blank that enters ${listed(f.keyways)}, and a cylinder has one of them. Name the keyway.`,
  'no-number-of-cuts': (f) => `“${f.text}” is no number of cuts. Type one from 1 to ${f.most}.`,
};

/** @example sayBlank({ code: 'keyway-without-blank', keyway: 'K9' }) */
export const sayBlank = (fault: BlankFault): string =>
  // Each entry takes the fault with its own code; the table's type holds that for every code.
  (BLANK_WORDS[fault.code] as (f: BlankFault) => string)(fault);

/** What is wrong with control cuts, in a sentence. */
export const sayControl = (fault: ControlFault): string =>
  fault.code === 'control-without-core'
    ? `Control cuts belong to interchangeable cores, and ${fault.spec} has none. Leave them out, or choose a spec of cores.`
    : say(fault);
