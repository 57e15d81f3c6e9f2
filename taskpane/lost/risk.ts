/** How risky it is to leave a door as it is, guessed from words in its name and location; the user sees and edits them. */
import type { CylinderRow } from '../../src/workbook/index.ts';

export interface RiskWords {
  readonly outside: string;
  readonly sensitive: string;
}

export const RISK_WORDS: RiskWords = {
  outside: 'entrance, exit, gate, yard, outside, external, main door, loading, garage',
  sensitive: 'server, records, store, office, plant, electrical, boiler, cash, pharmacy, lab, chemicals',
};

export const PHASE_TITLES = ['Outside doors', 'Doors to what is sensitive', 'All others'] as const;

const wordsOf = (text: string): string[] =>
  text
    .toLowerCase()
    .split(/[,;\n]+/)
    .map((word) => word.trim())
    .filter((word) => word !== '');

/** 0 for outside doors, 1 for sensitive rooms, 2 for the rest. @example riskOf({ location: 'Main entrance' }) → 0 */
export function riskOf(
  { door = '', location = '', id }: Pick<CylinderRow, 'door' | 'location' | 'id'>,
  words: RiskWords,
): 0 | 1 | 2 {
  const text = `${door} ${location} ${id}`.toLowerCase();
  const has = (list: string): boolean => wordsOf(list).some((word) => text.includes(word));
  return has(words.outside) ? 0 : has(words.sensitive) ? 1 : 2;
}
