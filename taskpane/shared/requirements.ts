/**
 * What the pane needs of its host. The manifest asks for less (a shared runtime and any Excel interface): a host that
 * doesn't meet the manifest hides the add-in without a word, and a person would never learn why. What is really needed
 * is asked for here, and said.
 */
export const NEEDED_API = '1.14';

export type Unfit = 'not-excel' | 'too-old';

/** Why this host can't run the pane; undefined where it can. Newer parts than `NEEDED_API` are asked for where used. */
export function unfit(
  host: Office.HostType | null,
  requirements: { isSetSupported(name: string, version?: string): boolean },
): Unfit | undefined {
  if (host !== Office.HostType.Excel) return 'not-excel';
  return requirements.isSetSupported('ExcelApi', NEEDED_API) ? undefined : 'too-old';
}
