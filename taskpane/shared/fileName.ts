/** Names of files that come from others, made fit to be shown in a sentence and to be saved under. */

/** Characters that aren't seen but change what is: controls, line breaks, and those that turn the run of letters round. */
const UNSEEN = /[\p{Cc}\p{Zl}\p{Zp}\p{Cs}\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069\uFEFF]/gu;
/** More would push the sentence out of sight. */
const LONGEST = 60;

/**
 * What a sentence calls a file, or a sheet in it. The end of a long name stays, since it tells the kind of file.
 * @example shownFileName('codes\u202Evsc.exe') → 'codesvsc.exe'; shownFileName('') → 'The chosen file'
 */
export function shownFileName(name: string, otherwise = 'The chosen file'): string {
  const letters = [...name.replace(UNSEEN, '').trim()];
  if (letters.length === 0) return otherwise;
  return letters.length <= LONGEST
    ? letters.join('')
    : `${letters.slice(0, LONGEST - 16).join('')}…${letters.slice(-15).join('')}`;
}

/**
 * A name to save a workbook under, without a path and without what a file system refuses.
 * @example fileNameToSave('../../x.xlsx') → 'x.xlsx'; fileNameToSave('') → 'Workbook.xlsx'
 */
export function fileNameToSave(name: string): string {
  const last = name.split(/[\\/]/).at(-1)!;
  const plain = shownFileName(last, '')
    .replace(/[<>:"|?*]/g, '_')
    .replace(/^[.\s]+|[.\s]+$/g, '');
  return plain === '' ? 'Workbook.xlsx' : plain;
}
