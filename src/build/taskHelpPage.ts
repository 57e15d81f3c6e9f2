/** What a help page of a task holds. In its texts *stars* stand around words as the pane shows them. */
import type { CautionName } from './helpCautions.ts';

export interface TaskPage {
  /** File name below `help/`, without the ending. */
  readonly file: string;
  /** As the start screen calls it. */
  readonly title: string;
  /** The folder of its screen below `taskpane/`: the words between stars are looked for there. */
  readonly room: string;
  readonly what: string;
  readonly steps: readonly string[];
  /** What the screen may answer, and what that means. */
  readonly answers: readonly (readonly [said: string, meaning: string])[];
  /** What it writes, and where. */
  readonly writes: string;
  /** What may be said on the way, and what to do about it. */
  readonly trouble: readonly (readonly [said: string, remedy: string])[];
  readonly example: string;
  /** Worksheet functions that do a part of it in a cell, with their results. */
  readonly formulas?: readonly (readonly [formula: string, result: string])[];
  readonly cautions: readonly CautionName[];
}

export const LEFT_ALONE =
  'It touches nothing else, and *Undo* takes it back as long as nobody has changed those cells.';

/** Every text of a page that may hold words between stars. */
export const textsOf = (page: TaskPage): string[] => [
  page.what,
  ...page.steps,
  ...page.answers.flat(),
  page.writes,
  ...page.trouble.flat(),
  page.example,
];

/** @example labelsIn('Press *Make the keys*, then *Done*.') → ['Make the keys', 'Done'] */
export const labelsIn = (text: string): string[] => [...text.matchAll(/\*([^*]+)\*/g)].map((m) => m[1]!);
