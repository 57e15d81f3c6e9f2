/**
 * Choices that this workbook remembers: unit, spec, folded groups, switches. They live in the workbook's settings,
 * which hold no bitting and nothing about people; a host that can't keep them keeps them while the pane is open.
 */
import { createContext, useCallback, useContext, useEffect, useMemo, useState, type ReactNode } from 'react';
import { changeSettings, readSettings, type BookSettings } from '../../src/workbook/index.ts';
import type { Unit } from '../../src/keying/units.ts';
import { ShownUnit } from '../pictures/shownUnit.ts';

interface Preferences {
  /** Undefined until they have been read. */
  readonly chosen: BookSettings | undefined;
  readonly keep: (part: Partial<BookSettings>) => void;
}

const Context = createContext<Preferences>({ chosen: undefined, keep: () => undefined });

export function PreferencesProvider({ children }: { readonly children: ReactNode }) {
  const [chosen, setChosen] = useState<BookSettings>();
  useEffect(() => {
    let gone = false;
    void readSettings().then((read) => {
      // what was chosen while they were read stands
      if (!gone) setChosen((now) => ({ ...read, ...now }));
    });
    return () => {
      gone = true;
    };
  }, []);
  const keep = useCallback((part: Partial<BookSettings>) => {
    setChosen((now) => ({ ...now, ...part }));
    void changeSettings((now) => ({ ...now, ...part }));
  }, []);
  const value = useMemo(() => ({ chosen, keep }), [chosen, keep]);
  return (
    <Context.Provider value={value}>
      <ShownUnit.Provider value={chosenUnit(value)}>{children}</ShownUnit.Provider>
    </Context.Provider>
  );
}

/** The unit chosen for this workbook; undefined = as each spec is written. */
export const chosenUnit = ({ chosen }: Pick<Preferences, 'chosen'>): Unit | undefined =>
  chosen?.unit === 'spec' ? undefined : chosen?.unit;

export const usePreferences = (): Preferences => useContext(Context);
