/** Words for why there is no construction key. */
import type { ConstructionFault } from './construction.ts';
import { counted, listed, type Words } from './words.ts';

const WORDS: Words<ConstructionFault> = {
  'construction-core': () =>
    'This spec is of interchangeable cores. There the trade exchanges temporary cores for the final ones at hand-over: key the temporary cores alike under Keys without a master.',
  'construction-symbol-taken': (f) =>
    `There is a key ${f.symbol} in this system already. Give the construction key another symbol.`,
  'construction-no-cylinder': () => 'Choose at least one cylinder that is pinned.',
  'construction-keyways': (f) =>
    `No blank enters the keyways ${listed(f.keyways)} alike. Choose the cylinders of one keyway, and give each keyway a construction key of its own.`,
  'construction-system-faulty': (f) =>
    `The audit of this system finds ${counted(f.findings, 'wrong pair')} of key and cylinder. Mend that first: a construction key on top would hide it.`,
  'construction-none': (f) =>
    `${
      f.tried === 0
        ? 'No chamber has room for a further pin in all of these cylinders.'
        : `No construction bitting was found among ${counted(f.tried, 'bitting')}${f.all ? ': no other serves all these cylinders with up to three pins that leave' : '; the search stopped at its limit'}.`
    } Choose fewer cylinders, let them be re-pinned at hand-over, or keep a chamber at the top master’s cut when the system is made.`,
};

/** One sentence or two. @example sayConstructionFault({ code: 'construction-no-cylinder' }) */
export const sayConstructionFault = (fault: ConstructionFault): string =>
  // Each entry takes the fault with its own code; the table's type holds that for every code.
  (WORDS[fault.code] as (f: ConstructionFault) => string)(fault);
