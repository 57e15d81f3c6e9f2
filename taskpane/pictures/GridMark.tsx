/** The marks of the key-by-door grid, told apart by shape: dot, ring, triangle. */
import { useInk } from './ink.ts';
import type { GridState } from './gridStates.ts';

/** Centred on the origin of its parent; `size` is the side of the cell. */
export function GridMark({ state, size = 24 }: { state: GridState; size?: number }) {
  const ink = useInk();
  const r = size * 0.24;
  switch (state) {
    case 'opens':
      return <circle r={r} className={ink.solid} data-mark="dot" />;
    case 'lock-out':
      return <circle r={r} className={ink.fault} strokeWidth={2} data-mark="ring" />;
    case 'interchange':
      return (
        <path
          d={`M0 ${-r * 1.15}L${r * 1.2} ${r * 0.95}H${-r * 1.2}Z`}
          className={ink.faultSolid}
          data-mark="triangle"
        />
      );
    case 'closed':
      return null;
  }
}

/** The mark in a box of its own, for legends and cells. */
export function MarkBox({ state, size = 24 }: { state: GridState; size?: number }) {
  return (
    <svg width={size} height={size} viewBox={`${-size / 2} ${-size / 2} ${size} ${size}`} aria-hidden>
      <GridMark state={state} size={size} />
    </svg>
  );
}
