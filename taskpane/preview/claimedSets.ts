/** How new an Excel the preview plays. `?excel=1.13` in its address makes it one that the pane can't run in. */
import { DEFAULT_SETS, type RequirementSets } from '../../src/preview/host/index.ts';

export function claimedSets(search: string): RequirementSets {
  const asked = new URLSearchParams(search).get('excel');
  return asked !== null && /^\d+\.\d+$/.test(asked) ? { ...DEFAULT_SETS, ExcelApi: asked } : DEFAULT_SETS;
}
