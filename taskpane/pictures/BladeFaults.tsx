/** What is wrong with a blade, where it is wrong: hatched walls, a thick edge and a letter in a box. */
import type { BladeLayout, DrawnCut, Point } from './bladeLayout.ts';
import { groupByPlace, type BladeMark, type Place } from './bladeMarks.ts';
import { LetterMark } from './LetterMark.tsx';
import { useInk } from './ink.ts';

export interface BladeFaultsProps {
  readonly layout: BladeLayout;
  readonly marks: readonly BladeMark[];
  /** The hatching. */
  readonly fill: string;
  /** Centre of the letters. */
  readonly y: number;
}

export function BladeFaults({ layout, marks, fill, y }: BladeFaultsProps) {
  const ink = useInk();
  return (
    <g>
      {groupByPlace(marks).map(({ place, letters, fault }) => {
        const [left, right] = endsOf(layout, place);
        const wall = edgeBetween(layout.edge, left.x, right.x);
        const floor = Math.max(left.rootY, right.rootY);
        return (
          <g key={`${place.first}-${place.last}`} data-place={`${place.first}-${place.last}`}>
            {left !== right && (
              <>
                <path d={`${pathOf(wall)}V${floor}H${left.x}Z`} fill={fill} />
                <path d={pathOf(wall)} className={ink.fault} style={{ strokeWidth: 3 }} />
              </>
            )}
            <LetterMark x={(left.x + right.x) / 2} y={y} letters={letters} fault={fault} />
          </g>
        );
      })}
    </g>
  );
}

/** The outermost cuts of a place, the one nearer the bow first. */
function endsOf({ cuts }: BladeLayout, { first, last }: Place): [DrawnCut, DrawnCut] {
  const inside = cuts.filter((c) => c.symbolNumber >= first && c.symbolNumber <= last);
  const [left, right] = [inside[0] ?? cuts[0]!, inside[inside.length - 1] ?? cuts[0]!];
  return [left, right];
}

/** The part of a rising-x polyline between two x, with points of its own at both ends. */
export function edgeBetween(edge: readonly Point[], from: number, to: number): Point[] {
  const inside = edge.filter((p) => p.x > from && p.x < to);
  return [{ x: from, y: heightAt(edge, from) }, ...inside, { x: to, y: heightAt(edge, to) }];
}

function heightAt(edge: readonly Point[], x: number): number {
  const after = edge.findIndex((p) => p.x >= x);
  const [a, b] = [edge[Math.max(0, after - 1)]!, edge[after < 0 ? edge.length - 1 : after]!];
  return b.x === a.x ? b.y : a.y + ((x - a.x) / (b.x - a.x)) * (b.y - a.y);
}

const pathOf = (points: readonly Point[]): string =>
  points.map((p, i) => `${i === 0 ? 'M' : 'L'}${p.x.toFixed(2)} ${p.y.toFixed(2)}`).join('');
