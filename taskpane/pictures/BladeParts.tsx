/** The parts of the blade drawing: body, stop, ruler, dimensions and the arrow of reading. */
import { mergeClasses } from '@fluentui/react-components';
import type { Specification } from '../../src/keying/specification.ts';
import type { BladeLayout, DrawnCut } from './bladeLayout.ts';
import { readingWords } from './bladeText.ts';
import { useInk } from './ink.ts';

/** From the baseline of the symbols to the top of the blade. */
export const BELOW_SYMBOLS = 10;
const READING = 11;

/** The arrow along which the code is read, over the cuts. */
export function Reading({ spec, cuts }: { spec: Specification; cuts: readonly DrawnCut[] }) {
  const ink = useInk();
  const [left, right] = [cuts[0]!.x, cuts[cuts.length - 1]!.x];
  const forward = spec.order === 'bow-to-tip';
  const head = forward ? right : left;
  const back = forward ? -8 : 8;
  const y = READING - 4;
  const words = readingWords(spec);
  const middle = (left + right) / 2;
  // the line stops short of the words: half of their width at 11 px, and a little air
  const half = words.length * 2.7 + 4;
  return (
    <g>
      <line x1={left} x2={middle - half} y1={y} y2={y} className={ink.thin} />
      <line x1={middle + half} x2={right} y1={y} y2={y} className={ink.thin} />
      <path d={`M${head} ${y}l${back} -3.5v7z`} className={ink.arrow} data-reading={spec.order} />
      <text x={middle} y={READING} textAnchor="middle" className={ink.small}>
        {words}
      </text>
    </g>
  );
}

/** The blade, with a bit of the bow beyond a shoulder stop, broken off where its length isn't known. */
export function Body({ spec, layout }: { spec: Specification; layout: BladeLayout }) {
  const ink = useInk();
  const { edge, top, bottom, stopX, breakX } = layout;
  const shoulder = spec.gauge === 'shoulder';
  const cutEdge = edge.map((p) => `L${round(p.x)} ${round(p.y)}`).join('');
  const down = wave(breakX, edge[shoulder ? edge.length - 1 : 0]!.y, bottom);
  const bowX = 3;
  const path = shoulder
    ? `M${bowX} ${top - 8}H${round(stopX)}${cutEdge}`
    : `M${round(edge[0]!.x)} ${round(edge[0]!.y)}${cutEdge}V${round(bottom)}`;
  const closed = shoulder
    ? `${path}V${round(bottom)}H${round(stopX)}v8H${bowX}Z`
    : `${path}H${round(breakX)}Z`;
  const visible = shoulder
    ? `${path}M${round(breakX)} ${round(bottom)}H${round(stopX)}v8H${bowX}`
    : `${path}H${round(breakX)}`;
  return (
    <g>
      <path d={closed} className={ink.metal} />
      <path d={visible} className={ink.outline} data-part="outline" />
      <path d={down} className={ink.thin} />
      {shoulder && <path d={wave(bowX, top - 8, bottom + 8)} className={ink.thin} />}
    </g>
  );
}

const round = (n: number): number => Math.round(n * 100) / 100;

/** The free-hand line that ends a part which goes on. */
function wave(x: number, from: number, to: number): string {
  const half = (to - from) / 2;
  return `M${round(x)} ${round(from)}c4 ${round(half * 0.6)} -4 ${round(half * 0.6)} 0 ${round(half)}s-4 ${round(half * 0.4)} 0 ${round(half)}`;
}

/** Blade bottom to root, the way a caliper reads it. */
export function RootDimension({
  cut,
  bottom,
  withText,
}: {
  cut: DrawnCut;
  bottom: number;
  withText: boolean;
}) {
  const ink = useInk();
  const { x, rootY } = cut;
  return (
    <g data-root={cut.rootText}>
      <line x1={x} x2={x} y1={rootY + 1} y2={bottom} className={ink.thin} />
      <path d={`M${x} ${rootY + 1}l-2.5 6h5z`} className={ink.arrow} />
      <path d={`M${x} ${bottom}l-2.5 -6h5z`} className={ink.arrow} />
      {withText && (
        <text
          x={x}
          y={(rootY + bottom) / 2 + 4}
          textAnchor="middle"
          className={mergeClasses(ink.small, ink.onMetal)}
        >
          {cut.rootText}
        </text>
      )}
    </g>
  );
}

export function Stop({ spec, layout }: { spec: Specification; layout: BladeLayout }) {
  const ink = useInk();
  const { stopX, top, bottom, width } = layout;
  const shoulder = spec.gauge === 'shoulder';
  return (
    <g data-stop={spec.gauge}>
      <line
        x1={stopX}
        x2={stopX}
        y1={top - 8}
        y2={bottom + 18}
        className={mergeClasses(ink.shear, ink.dashed)}
      />
      <text
        x={shoulder ? 0 : width}
        y={top - BELOW_SYMBOLS - 2}
        textAnchor={shoulder ? 'start' : 'end'}
        className={ink.small}
      >
        {spec.gauge}
      </text>
    </g>
  );
}

export function Ruler({ spec, layout, y }: { spec: Specification; layout: BladeLayout; y: number }) {
  const ink = useInk();
  const { ticks, stopX } = layout;
  const far = ticks[ticks.length - 1]!.x;
  return (
    <g>
      <line x1={stopX} x2={far} y1={y} y2={y} className={ink.thin} />
      {ticks.map((tick, i) => (
        <g key={i}>
          <line
            x1={tick.x}
            x2={tick.x}
            y1={y}
            y2={y + (tick.label === undefined ? 4 : 7)}
            className={ink.thin}
          />
          {tick.label !== undefined && (
            <text x={tick.x} y={y + 18} textAnchor="middle" className={ink.small}>
              {tick.label}
            </text>
          )}
        </g>
      ))}
      <text x={0} y={y + 18} className={ink.small}>
        {spec.unit}
      </text>
    </g>
  );
}
