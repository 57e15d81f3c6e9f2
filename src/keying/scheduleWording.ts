/** Findings of a schedule in words: what is wrong and what to do, without the cell's address. */
import type { ScheduleFinding, UntidyWhy } from './scheduleFindings.ts';
import type { CautionKind } from './scheduleWords.ts';
import { brief, counted, grouped } from './words.ts';

const WHY: Readonly<Record<UntidyWhy, string>> = {
  case: 'is in small letters',
  spaces: 'has stray spaces',
  'look-alike': 'has a character that only looks right',
};

const CAUTION: Readonly<Record<CautionKind, string>> = {
  exit: 'is on an exit route: keying never replaces free exit from the inside.',
  fire: 'is a fire or smoke door: its hardware must stay as listed.',
  accessible: 'is to be accessible: what a user must grip or turn is ruled by local codes.',
};

/** @example sayScheduleFinding({ code: 'not-keyed', doors: 14, row: 57, role: 'symbol' }) → '14 doors have no keyset yet. …' */
export const sayScheduleFinding = (finding: ScheduleFinding): string => brief(wordsOf(finding));

function wordsOf(finding: ScheduleFinding): string {
  switch (finding.code) {
    case 'no-door':
      return 'This row has a keyset or a quantity but no door. Type the door’s number, or clear the row.';
    case 'cell-error':
      return `This cell shows the error ${finding.text}. Correct its formula.`;
    case 'not-a-number':
      return `“${finding.text}” is not a whole number of ${finding.role === 'keys' ? 'keys' : 'cylinders'}. Type one.`;
    case 'symbol-too-long':
      return `A keyset symbol of ${finding.length} characters: at most ${finding.most} are read. Shorten it.`;
    case 'symbol-untidy':
      return `“${finding.fix.from}” ${WHY[finding.why]}; the coding has ${finding.fix.to}.`;
    case 'symbol-own':
      return `${finding.symbol} is a symbol of your own, outside the standard key coding (${counted(finding.doors, 'door')}). It is taken as it stands.`;
    case 'symbol-letter':
      return finding.reserved
        ? `${finding.symbol} starts with ${finding.letter}, which the key coding keeps for cross-keying. Use another letter.`
        : `${finding.symbol} uses ${finding.letter}, which the key coding avoids since it reads like a digit. Check it.`;
    case 'symbol-other-levels':
      return finding.numberFirst
        ? `${finding.symbol} has its number first, as in a system of two levels; the others here have it last. Check it.`
        : `${finding.symbol} has its number last, but in a system of two levels it comes first. Check it.`;
    case 'symbol-is-master':
      return `${finding.symbol} is a ${finding.level === 'MK' ? 'master' : 'grand master'} key’s symbol: the cylinder would have no change key of its own. Check that this is meant.`;
    case 'parent-missing':
      return `${finding.symbol} stands under ${finding.parent}, but there is no key ${finding.parent}. Make it first, or correct the symbol.`;
    case 'keyset-without-key':
      return finding.void
        ? `The key ${finding.symbol} is void or retired, so this door has no key in use. Give it another keyset.`
        : `There is no key ${finding.symbol} in the sheet Keys. Make it, or correct the symbol.`;
    case 'operated-by-unknown':
      return `${finding.symbol} is said to be operated by ${finding.key}, but there is no such key. Make it, or correct the symbol.`;
    case 'door-twice':
      return finding.symbols
        ? `Door ${finding.door} stands above already, there with ${finding.symbols[0] || 'no keyset'}, here with ${finding.symbols[1] || 'none'}. Correct one, or tell the two sides apart.`
        : `Door ${finding.door} stands above already. Delete one row, or tell the two sides apart.`;
    case 'cylinders-differ':
      return `The schedule has ${counted(finding.schedule, 'cylinder')} with ${finding.symbol}, the sheet Cylinders has ${grouped(finding.cylinders)}. Correct one of them.`;
    case 'keys-differ':
      return `The schedule asks for ${counted(finding.schedule, 'key')} ${finding.symbol}, the sheet Keys for ${counted(finding.copies, 'copy', 'copies')}. Correct one of them.`;
    case 'total-differs':
      return `This total says ${grouped(finding.stated)}, but the rows above it come to ${grouped(finding.counted)}. Check its formula.`;
    case 'not-keyed':
      return `${counted(finding.doors, 'door')} ${finding.doors === 1 ? 'has' : 'have'} no keyset yet. This is the first.`;
    case 'caution':
      return `Door ${finding.door} (“${finding.word}”) ${CAUTION[finding.kind]}`;
    case 'key-without-door':
      return `The key ${finding.symbol} is issued, but no door of this schedule has its keyset.`;
    case 'spare-keys':
      return `${counted(finding.count, 'change key')} ${finding.count === 1 ? 'is' : 'are'} reserved and at no door: spares for later.`;
  }
}
