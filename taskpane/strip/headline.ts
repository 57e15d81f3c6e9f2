/** One line that says what is selected; all that is seen of a folded strip. */
import { severityOf } from '../../src/keying/findings.ts';
import { positions } from '../../src/keying/specification.ts';
import { isFault, stateWords } from '../pictures/gridStates.ts';
import { counted } from '../pictures/numbers.ts';
import { whyChambers, whySentence, type Why } from '../pictures/why.ts';
import type { Pairing, StripSubject } from './subject.ts';

export function headline(subject: StripSubject): string {
  switch (subject.kind) {
    case 'nothing':
      return 'Nothing of the schedule selected';
    case 'key': {
      const faults = subject.findings.filter((f) => severityOf(f) === 'fault').length;
      return `Key ${subject.symbol}: ${faults === 0 ? 'no faults' : counted(faults, 'fault')}${subject.doors ? `, ${opened(subject.doors)}` : ''}`;
    }
    case 'cylinder':
      return `${subject.cylinder.door ?? subject.cylinder.id}: ${openedBy(subject.keys)}`;
    case 'grid-cell':
      return cellLine(subject.why);
    case 'holder':
      return `${subject.name}: ${counted(subject.keys.length, 'key')} in hand${subject.doors ? `, ${opened(subject.doors)}` : ''}`;
    case 'spec':
      return `Spec ${subject.spec.name}: ${positions(subject.spec)} cuts, ${subject.spec.depths.length} depths`;
    case 'unreadable':
      return `${subject.name}: can’t be read`;
  }
}

/** The panel below says which chamber; a folded strip needs only the outcome. */
function cellLine(why: Why): string {
  const place = `${why.symbol} at ${why.cylinder.door ?? why.cylinder.id}`;
  return why.state ? `${place}: ${stateWords(why.state)}` : whySentence(why, whyChambers(why));
}

const opening = (pairs: readonly Pairing[]) => pairs.filter((p) => p.state !== 'lock-out').length;
const wrong = (pairs: readonly Pairing[]) => {
  const n = pairs.filter((p) => isFault(p.state)).length;
  return n === 0 ? '' : `, ${n} not as meant`;
};

const opened = (doors: readonly Pairing[]): string =>
  `opens ${counted(opening(doors), 'door')}${wrong(doors)}`;

const openedBy = (keys: readonly Pairing[]): string =>
  `opened by ${counted(opening(keys), 'key')}${wrong(keys)}`;
