/**
 * A letter in a box: the tie between a place in a drawing and the sentence about it. Filled for a fault, open for a
 * warning.
 */
import { mergeClasses } from '@fluentui/react-components';
import { useInk } from './ink.ts';

export interface LetterMarkProps {
  /** Centre. */
  readonly x: number;
  readonly y: number;
  readonly letters: string;
  readonly fault: boolean;
}

export function LetterMark({ x, y, letters, fault }: LetterMarkProps) {
  const ink = useInk();
  const width = Math.max(14, letters.length * 7 + 6);
  const box = { x: x - width / 2, y: y - 7, width, height: 14, rx: fault ? 2 : 7 };
  return (
    <g data-letters={letters} data-fault={fault}>
      <rect {...box} className={fault ? ink.faultSolid : ink.paper} />
      <rect {...box} className={ink.fault} />
      <text
        x={x}
        y={y + 4}
        textAnchor="middle"
        className={fault ? mergeClasses(ink.faultText, ink.onFault) : ink.faultText}
      >
        {letters}
      </text>
    </g>
  );
}
