/**
 * The width that a drawing has, in pixels. Drawings are laid out again for each width rather than stretched, so
 * that their type never falls below its size and their lines stay thin.
 */
import { useEffect, useRef, useState, type RefObject } from 'react';

/** What is left of a pane 350 px wide between its margins; used until the element has been measured. */
export const USUAL_WIDTH = 318;

/** Narrowest and widest that a drawing is laid out for. */
const LEAST = 240;
const MOST = 560;

export function useWidth<E extends HTMLElement>(initial = USUAL_WIDTH): [RefObject<E | null>, number] {
  const ref = useRef<E>(null);
  const [width, setWidth] = useState(initial);
  useEffect(() => {
    const element = ref.current;
    if (!element || typeof ResizeObserver === 'undefined') return;
    const observer = new ResizeObserver((entries) => {
      const measured = entries[0]?.contentRect.width ?? 0;
      if (measured > 0) setWidth(Math.round(Math.min(MOST, Math.max(LEAST, measured))));
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [ref, width];
}
