/**
 * Which screen is shown, and the drafts that outlive it. A person who looks something up on another screen finds
 * the form as it was; drafts live in memory only, since they may hold bittings.
 */
import { createContext, useCallback, useContext, useMemo, useState, type ReactNode } from 'react';

export const SCREENS = [
  'start',
  'specs',
  'make',
  'solve',
  'extend',
  'cross',
  'construction',
  'pools',
  'audit',
  'check',
  'pin',
  'codes',
  'shop',
  'decode',
  'schedule',
  'people',
  'ledger',
  'count',
  'lost',
  'reports',
  'repair',
  'about',
  'sample',
] as const;
export type ScreenName = (typeof SCREENS)[number];

interface Navigation {
  readonly screen: ScreenName;
  readonly go: (to: ScreenName) => void;
  /** False until the first change: opening the pane must not take the focus from the sheet. */
  readonly moved: boolean;
  /** Counts the changes: a screen that is gone to again starts afresh. */
  readonly turn: number;
  readonly drafts: Map<string, unknown>;
}

const Context = createContext<Navigation | undefined>(undefined);

export function NavigationProvider({ children }: { readonly children: ReactNode }) {
  const [at, setAt] = useState<{ screen: ScreenName; moved: boolean; turn: number }>({
    screen: 'start',
    moved: false,
    turn: 0,
  });
  const [drafts] = useState(() => new Map<string, unknown>());
  const value = useMemo<Navigation>(
    () => ({ ...at, drafts, go: (screen) => setAt(({ turn }) => ({ screen, moved: true, turn: turn + 1 })) }),
    [at, drafts],
  );
  return <Context.Provider value={value}>{children}</Context.Provider>;
}

export function useNavigation(): Navigation {
  const navigation = useContext(Context);
  if (!navigation) throw new Error('useNavigation outside NavigationProvider');
  return navigation;
}

/** The draft that names a system to audit as soon as the screen opens. */
export const AUDIT_START = 'audit.start';

/** Goes to the audit of a system, which then starts by itself. */
export function useGoToAudit(): (system: string) => void {
  const { drafts, go } = useNavigation();
  return (system) => {
    drafts.set(AUDIT_START, system);
    go('audit');
  };
}

/** The draft that asks for the selection to be checked as soon as the screen opens. */
export const CHECK_START = 'check.start';

/** The draft that other screens set to hand a spec over to "Make keys". */
export const MAKE_SPEC = 'make.spec';

/** As `useState`, but kept while the pane is open. `name` is unique across the pane. */
export function useDraft<T>(name: string, initial: T | (() => T)): [T, (next: T) => void] {
  const { drafts } = useNavigation();
  const [value, setValue] = useState<T>(() =>
    drafts.has(name) ? (drafts.get(name) as T) : initial instanceof Function ? initial() : initial,
  );
  const set = useCallback(
    (next: T) => {
      drafts.set(name, next);
      setValue(() => next);
    },
    [drafts, name],
  );
  return [value, set];
}
