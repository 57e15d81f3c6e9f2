/**
 * One polite live region for the whole pane: what a sighted person sees change, a screen reader says. Messages go
 * through `useAnnounce`; progress is thinned out by its callers, since a region that never rests is never heard.
 */
import { createContext, useCallback, useContext, useState, type ReactNode } from 'react';

const Announce = createContext<(text: string) => void>(() => undefined);

export const useAnnounce = (): ((text: string) => void) => useContext(Announce);

export function Announcer({ children }: { readonly children: ReactNode }) {
  const [said, setSaid] = useState({ text: '', turn: 0 });
  const say = useCallback((text: string) => setSaid((last) => ({ text, turn: last.turn + 1 })), []);
  return (
    <Announce.Provider value={say}>
      {children}
      <div className="unseen" role="status" aria-live="polite">
        {/* a new key makes the same sentence count as new */}
        <span key={said.turn}>{said.text}</span>
      </div>
    </Announce.Provider>
  );
}
