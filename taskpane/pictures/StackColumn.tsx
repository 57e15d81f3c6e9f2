/** One chamber of the pin stack drawing: its bore, its pins, the spring on top, and what is wrong with it. */
import { mergeClasses } from '@fluentui/react-components';
import type { Specification } from '../../src/keying/specification.ts';
import { useInk } from './ink.ts';
import { LetterMark } from './LetterMark.tsx';
import { shearsAt, type DrawnChamber, type DrawnPin, type StackLayout } from './stackLayout.ts';

/** Room for two digits beside a pin. */
const LABEL = 15;

export interface StackColumnProps {
  readonly spec: Specification;
  readonly chamber: DrawnChamber;
  readonly layout: StackLayout;
  /** The depths at which it shears, and the baseline to write them on. */
  readonly shears: string;
  readonly shearsY: number;
  /** The hatching of thin and blocking pins. */
  readonly fill: string;
  /** Letters of the findings about this chamber. */
  readonly letters: string;
  /** Depth index of the key that is in the plug. */
  readonly cut?: number;
}

export function StackColumn(props: StackColumnProps) {
  const { spec, chamber, layout, shears, shearsY, fill, letters, cut } = props;
  const ink = useInk();
  const { column, pinWidth, top, bottom } = layout;
  const middle = chamber.x + column / 2;
  const bore = boreX(chamber, layout);
  const meets = cut === undefined || shearsAt(chamber, cut);
  const highest = chamber.pins[chamber.pins.length - 1];
  return (
    <g data-chamber={chamber.chamber}>
      <text x={middle} y={13} textAnchor="middle" className={ink.text}>
        {chamber.chamber}
      </text>
      <text x={middle} y={shearsY} textAnchor="middle" className={ink.small}>
        {shears}
      </text>
      <path
        d={`M${bore - 1} ${top}V${bottom}H${bore + pinWidth + 1}V${top}`}
        className={ink.hair}
        strokeDasharray={chamber.empty ? '3 3' : undefined}
      />
      {highest && <path d={spring(bore, pinWidth, top, highest.top)} className={ink.thin} />}
      {chamber.pins.map((pin, i) => (
        <g key={i}>
          <path
            d={pinPath(pin, bore, pinWidth)}
            className={pin.role === 'master' || pin.role === 'build-up' ? ink.paper : ink.metal}
          />
          {(pin.thin || pin.blocks) && <path d={pinPath(pin, bore, pinWidth)} fill={fill} />}
          <path
            d={pinPath(pin, bore, pinWidth)}
            className={pin.thin || pin.blocks ? ink.fault : ink.outline}
            data-pin={pin.role}
            data-thin={pin.thin}
          />
        </g>
      ))}
      {letters !== '' && <LetterMark x={bore + pinWidth / 2} y={top + 2} letters={letters} fault />}
      {cut !== undefined && (
        <text x={middle} y={bottom + 14} textAnchor="middle" className={meets ? ink.text : ink.faultText}>
          {`${spec.depths[cut]!.symbol} ${meets ? '✓' : '✕'}`}
        </text>
      )}
    </g>
  );
}

/** Left side of the pins; they and the labels at their right are centred together. */
const boreX = ({ x }: DrawnChamber, { column, pinWidth }: StackLayout): number =>
  x + (column - pinWidth - LABEL) / 2;

/** The steps of each pin, beside it and over the shear lines. */
export function StepLabels({ chamber, layout }: { chamber: DrawnChamber; layout: StackLayout }) {
  const ink = useInk();
  const x = boreX(chamber, layout) + layout.pinWidth + 3;
  return (
    <g>
      {chamber.pins.map(
        (pin, i) =>
          pin.steps !== undefined && (
            <text key={i} x={x} y={pin.labelY} className={mergeClasses(ink.small, ink.onPaper)}>
              {pin.steps}
            </text>
          ),
      )}
    </g>
  );
}

/** A bottom pin is tapered where it rides on the key. */
function pinPath({ role, top, height }: DrawnPin, x: number, width: number): string {
  if (role !== 'bottom') return `M${x} ${top}h${width}v${height}h${-width}Z`;
  const taper = Math.min(height * 0.6, width * 0.28);
  return (
    `M${x} ${top}h${width}v${height - taper}l${-width * 0.32} ${taper}` +
    `h${-width * 0.36}l${-width * 0.32} ${-taper}Z`
  );
}

function spring(x: number, width: number, from: number, to: number): string {
  const turns = 2 * Math.max(1, Math.round((to - from) / 12));
  const pitch = (to - from) / turns;
  const inset = width * 0.22;
  let path = `M${x + inset} ${from}`;
  for (let i = 0; i < turns; i++)
    path += `L${x + (i % 2 === 0 ? width - inset : inset)} ${from + pitch * (i + 1)}`;
  return path;
}
