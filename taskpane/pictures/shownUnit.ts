/** The unit in which lengths are shown below here. Where none was chosen, each spec is shown as it is written. */
import { createContext, useContext, useMemo } from 'react';
import { shownIn } from '../../src/keying/shownIn.ts';
import type { Specification } from '../../src/keying/specification.ts';
import type { Unit } from '../../src/keying/units.ts';

export const ShownUnit = createContext<Unit | undefined>(undefined);

export const useShownUnit = (): Unit | undefined => useContext(ShownUnit);

/** The spec as it is to be shown. Nothing may be written from it but text: it is the same spec in another unit. */
export function useShown(spec: Specification): Specification {
  const unit = useShownUnit();
  return useMemo(() => shownIn(spec, unit), [spec, unit]);
}
