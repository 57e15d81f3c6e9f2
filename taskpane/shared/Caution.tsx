/**
 * Cautions, shown where the hand is. Each is a plain statement with what to do; none is legal advice, and the
 * codes that apply to a door are local.
 *
 * The figure for master-keyed cylinders: at most P × (H − 1) trials show the master to the holder of one change key
 * and its lock, for P chambers and H depths. Source: M. Blaze, "Rights amplification in master-keyed mechanical
 * locks", IEEE Security & Privacy 1(2), 2003, doi 10.1109/MSECP.2003.1193208.
 */
import { masterExposure } from '../../src/keying/exposure.ts';
import type { Specification } from '../../src/keying/specification.ts';
import { counted } from '../pictures/numbers.ts';
import { Notice } from './Notice.tsx';

export type CautionAbout =
  'secret' | 'exit-doors' | 'first-original' | 'master-keyed' | 'protection' | 'holders';

/** The caution in a sentence or two. `spec` puts the figure into the one about master keying. */
export function cautionText(about: CautionAbout, spec?: Specification): string {
  switch (about) {
    case 'secret':
      return 'Bittings are secrets: whoever has the number can cut the key. Keep this workbook as you would keep the keys.';
    case 'protection':
      return 'Hiding or protecting a sheet keeps out slips of the hand, not people: sheet protection is easily removed. Protect the file with a password to open, and send copies without bittings.';
    case 'holders':
      return 'Names and departments are personal data. They stay in this workbook; nothing is sent anywhere. Whoever can open the file can read them, so share it accordingly, and take out people once their keys are settled.';
    case 'exit-doors':
      return 'Doors on an exit route, fire doors and accessible doors fall under local codes. Keying never replaces free exit from the inside; work on life-safety hardware belongs to licensed practice.';
    case 'first-original':
      return 'Cut one original to code, try it in the lock, then duplicate from it. Check the spec against your depth and space data before you cut.';
    case 'master-keyed':
      return spec
        ? `A master-keyed cylinder is weaker than a plain one. With this spec, ${counted(masterExposure(spec), 'trial')} at most show the master to someone who holds one change key and its lock.`
        : 'A master-keyed cylinder is weaker than a plain one: more keys operate it, and a change key with its lock gives the master away.';
  }
}

interface Props {
  readonly about: readonly CautionAbout[];
  readonly spec?: Specification;
}

/** The cautions that bear on one decision, together. */
export function Cautions({ about, spec }: Props) {
  return (
    <Notice kind="warning">
      {about.map((each) => (
        <p key={each}>{cautionText(each, spec)}</p>
      ))}
    </Notice>
  );
}
