/** The trade's cautions, shown in the help where a person acts on them. */

export type CautionName = 'secret' | 'exit-doors' | 'first-original' | 'master-keyed' | 'memory' | 'personal';

export const CAUTIONS: Readonly<Record<CautionName, readonly [heading: string, text: string]>> = {
  secret: [
    'Bittings are secrets',
    'Whoever has the number can cut the key. Keep the workbook as you would keep the keys. Hiding or protecting a sheet keeps out slips of the hand, not people; a password to open the file does more.',
  ],
  'exit-doors': [
    'Exit, fire and accessible doors',
    'They fall under local codes. Keying never replaces free exit from the inside, and work on life-safety hardware belongs to licensed practice.',
  ],
  'first-original': [
    'Before you duplicate',
    'Cut one original to code, try it in the lock, then duplicate from that original.',
  ],
  'master-keyed': [
    'What master keying costs',
    'A master-keyed cylinder is weaker than a plain one: more keys operate it, and a change key with its lock gives the master away. Use no more levels than the building needs.',
  ],
  memory: [
    'The starter specs are from memory',
    'Check them against your depth and space data before you cut.',
  ],
  personal: [
    'Names are personal data',
    'They stay in this workbook; nothing is sent anywhere. Whoever can open the file can read them, so share it accordingly, and take people out once their keys are settled.',
  ],
};
