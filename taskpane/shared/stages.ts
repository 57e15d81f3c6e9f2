/** What long work is doing, in words. The rooms name their stages by a code. */
const WORDS: Readonly<Record<string, string>> = {
  'choosing-keys': 'Choosing keys',
  auditing: 'Auditing',
};

/** @example stageWords('auditing') → 'Auditing'; a stage without words is shown as it is */
export const stageWords = (stage: string): string => WORDS[stage] ?? stage;
