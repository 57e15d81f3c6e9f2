/** Words for what an import took for something else, and for a first article. */
import type { CodeReading, ImportNote } from './importCode.ts';
import type { Judgement } from './judge.ts';
import { sayAll } from './sayAll.ts';
import type { Specification } from './specification.ts';
import { formatNumber, lengthOf } from './units.ts';
import { brief, counted, listed, type Words } from './words.ts';

const NOTES: Words<ImportNote> = {
  'look-alike': (n) => `“${n.from}” at cut ${n.at} was taken for ${n.to}, which it looks like.`,
  'full-width': () => 'Full-width characters were taken for plain ones.',
  'stray-space': () => 'Spaces or unseen characters around the code were left out.',
  'zero-restored': (n) => `The number had lost zeros at its front; read as ${n.text}.`,
  'was-date': (n) =>
    n.suggestions.length > 0
      ? `This is a date, which a spreadsheet makes of a code with hyphens. It may have been ${listed(n.suggestions)}: look it up and type it as text.`
      : 'This is a date, which a spreadsheet may have made of a code with hyphens. Look the code up and type it as text.',
  'blind-code': () =>
    'A blind code or other reference, not cuts: look its bitting up. None is made up for it.',
};

/** @example sayImportNote({ code: 'full-width' }) → 'Full-width characters were taken for plain ones.' */
export function sayImportNote(note: ImportNote): string {
  // the table's type ties each code to its own note, which an indexed call can't express
  return brief((NOTES[note.code] as (note: ImportNote) => string)(note));
}

/** Everything there is to say about how a cell was read, in one line; '' where nothing is. */
export function sayReading({ notes, faults }: CodeReading): string {
  const date = notes.some((note) => note.code === 'was-date');
  return [...(date ? [] : sayAll(faults)), ...notes.map(sayImportNote)].join(' ');
}

/**
 * A judgement in words; `OK` where every cut is within tolerance.
 * @example sayJudgement(spec, judgement) → 'Cut 3 reads 0.225, 0.018 too deep: that is a 5, and it should be a 4 (0.243).'
 */
export function sayJudgement(spec: Specification, { cuts, missing, good, bad }: Judgement): string {
  if (good) return 'OK';
  const { unit } = spec;
  const wrong = cuts
    .filter((cut) => !cut.within)
    .map(({ at, reading, deviation, reads, symbol, root }) => {
      const off = `${formatNumber(lengthOf(Math.abs(deviation)), unit)} too ${deviation < 0 ? 'deep' : 'shallow'}`;
      const meant = `${symbol} (${formatNumber(root, unit)})`;
      return reads === undefined
        ? `Cut ${at} reads ${formatNumber(reading, unit)}, ${off} for a ${meant}.`
        : `Cut ${at} reads ${formatNumber(reading, unit)}, ${off}: that is a ${reads}, and it should be a ${meant}.`;
    });
  const waiting = missing.length > 0 ? [`${counted(missing.length, 'cut')} not read yet.`] : [];
  return [...wrong, ...(bad ? [] : cuts.length > 0 ? ['Good so far.'] : []), ...waiting].join(' ');
}
