/** Short names of findings for the column What; the sentence beside it is the keying room's. */
import type { Finding, SystemFinding } from '../keying/findings.ts';

const LABELS: Readonly<Record<SystemFinding['code'], string>> = {
  interchange: 'Key interchange',
  'lock-out': 'Lock-out',
  'near-interchange': 'Near miss',
  'thin-master-pin': 'Master pin too thin',
  'thin-build-up': 'Build-up pin too thin',
  'stack-too-tall': 'Stack too tall',
  'control-operates': 'Key pulls the core',
  'control-is-incidental': 'Control key operates the core',
  'control-locked-out': 'Control key fails',
  'wrong-keyway': 'Keyway',
  'too-few-cuts': 'Blank too short',
  'control-missing': 'No control cuts',
  'core-without-control': 'Core without control cuts',
  'key-missing': 'Key missing',
  'unusable-bitting': 'Bitting breaks a rule',
  'same-bitting': 'Same bitting',
  'bitting-reissued': 'Lost bitting issued again',
  'parent-missing': 'Parent missing',
};

const isSystemCode = (code: string): code is SystemFinding['code'] => Object.hasOwn(LABELS, code);

/** @example labelOf({ code: 'same-bitting', key: 'AA1', other: 'AA2' }) → 'Same bitting' */
export const labelOf = ({ code }: Finding): string => (isSystemCode(code) ? LABELS[code] : 'Bitting');
