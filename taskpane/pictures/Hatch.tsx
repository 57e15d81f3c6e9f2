/** Hatching, so that nothing is told by colour alone. Use as `fill={hatchFill(id)}`. */
import { useInk } from './ink.ts';

export interface HatchProps {
  /** Unique in the page: from `hatchId`. */
  readonly id: string;
  /** Strong for faults, quiet for what is out of bounds. */
  readonly tone: 'fault' | 'quiet';
}

export function Hatch({ id, tone }: HatchProps) {
  const ink = useInk();
  const gap = tone === 'fault' ? 4 : 5;
  return (
    <pattern id={id} width={gap} height={gap} patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
      <line x1={0} y1={0} x2={0} y2={gap} className={tone === 'fault' ? ink.hatchLine : ink.quietHatchLine} />
    </pattern>
  );
}

/** React's own ids may hold characters that a url() reference can't. */
export const hatchId = (reactId: string, tone: HatchProps['tone']): string =>
  `hatch-${tone}-${reactId.replace(/[^\w-]/g, '')}`;

export const hatchFill = (id: string): string => `url(#${id})`;
