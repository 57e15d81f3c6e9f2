/** The cells of the grid, read on demand; a failure is a sentence. */
import { useCallback, useState } from 'react';
import { readGridSource, type GridSource } from '../../src/workbook/index.ts';

export type SourceState =
  | { readonly step: 'none' }
  | { readonly step: 'reading' }
  | { readonly step: 'failed'; readonly sentence: string }
  | { readonly step: 'read'; readonly source: GridSource };

/** The choice that stands for the selected cells: no sheet can be called so. */
export const SELECTION = '';

export function useGridSource(): readonly [
  SourceState,
  (sheet: string) => Promise<GridSource | undefined>,
  () => void,
] {
  const [state, setState] = useState<SourceState>({ step: 'none' });
  const read = useCallback(async (sheet: string) => {
    setState({ step: 'reading' });
    const source = await readGridSource(sheet === SELECTION ? 'selection' : { sheet });
    if (!source.ok) {
      setState({ step: 'failed', sentence: source.error.sentence });
      return undefined;
    }
    setState({ step: 'read', source: source.value });
    return source.value;
  }, []);
  const forget = useCallback(() => setState({ step: 'none' }), []);
  return [state, read, forget];
}
