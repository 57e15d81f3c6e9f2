/** Progress of the search in words: what is done, how much is still wrong, counted in steps. */

/** @example searchWords('searching: 12 left') → 'Searching, 12 still open. Steps:' */
export function searchWords(stage: string): string {
  const match = /^(.+): (\d+) left$/.exec(stage);
  const words = match ? `${match[1]!}, ${Number(match[2]).toLocaleString('en-US')} still open` : stage;
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}. Steps:`;
}
