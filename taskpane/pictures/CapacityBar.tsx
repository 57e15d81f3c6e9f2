/**
 * Theoretical, usable and needed changes on one line to scale. The numbers stand in words above it, since a bar
 * alone can't be read to the last change.
 */
import { makeStyles, tokens } from '@fluentui/react-components';
import { useId } from 'react';
import { Hatch, hatchFill, hatchId } from './Hatch.tsx';
import { useInk } from './ink.ts';
import { counted, grouped } from './numbers.ts';
import { useWidth } from './useWidth.ts';

export interface CapacityBarProps {
  readonly theoretical: number;
  readonly usable: number;
  readonly needed: number;
  /** Usable changes of the smallest and the largest group: whether it fits is decided group by group. */
  readonly groups?: { readonly smallest: number; readonly largest: number };
}

const useStyles = makeStyles({
  box: { minWidth: 0 },
  words: {
    margin: 0,
    fontSize: tokens.fontSizeBase300,
    lineHeight: tokens.lineHeightBase300,
    color: tokens.colorNeutralForeground1,
    fontVariantNumeric: 'tabular-nums',
  },
});

/** @example capacitySentence({ theoretical: 4096, usable: 2637, needed: 148 }) → '4,096 theoretical changes; 2,637 usable under these rules; 148 needed, 2,489 to spare.' */
export function capacitySentence({ theoretical, usable, needed, groups }: CapacityBarProps): string {
  const left = usable - needed;
  return [
    `${counted(theoretical, 'theoretical change')}`,
    `${grouped(usable)} usable under these rules`,
    ...(groups ? [`smallest group ${grouped(groups.smallest)}, largest ${grouped(groups.largest)}`] : []),
    `${grouped(needed)} needed, ${left >= 0 ? `${grouped(left)} to spare` : `${grouped(-left)} too many`}.`,
  ].join('; ');
}

/** Room for half of the mark at the right. */
const EDGE = 5;
const BAR_TOP = 6;
const BAR = 14;
const HEIGHT = 52;

export function CapacityBar(props: CapacityBarProps) {
  const { theoretical, usable, needed } = props;
  const styles = useStyles();
  const ink = useInk();
  const hatch = hatchId(useId(), 'fault');
  const [ref, width] = useWidth<HTMLDivElement>();
  const span = width - 2 - EDGE;
  const whole = Math.max(1, theoretical, needed);
  const x = (n: number) => 1 + (n / whole) * span;
  const short = needed > usable;
  const mark = x(needed);
  // the label stays inside the drawing, on the side of its mark that has room
  const label = `${grouped(needed)} needed`;
  const flip = mark + 8 + label.length * 6.4 > width;
  return (
    <div ref={ref} className={styles.box}>
      <p className={styles.words}>{capacitySentence(props)}</p>
      <svg width={width} height={HEIGHT} aria-hidden style={{ display: 'block' }}>
        <defs>
          <Hatch id={hatch} tone="fault" />
        </defs>
        <rect
          x={1}
          y={BAR_TOP}
          width={Math.max(0, x(usable) - 1)}
          height={BAR}
          className={ink.solid}
          data-part="usable"
        />
        {short && (
          <rect
            x={x(usable)}
            y={BAR_TOP}
            width={mark - x(usable)}
            height={BAR}
            fill={hatchFill(hatch)}
            data-part="missing"
          />
        )}
        <rect
          x={1}
          y={BAR_TOP}
          width={Math.max(0, x(theoretical) - 1)}
          height={BAR}
          className={ink.outline}
          data-part="theoretical"
        />
        <line x1={mark} x2={mark} y1={1} y2={BAR_TOP + BAR + 6} className={short ? ink.fault : ink.shear} />
        <path
          d={`M${mark} ${BAR_TOP + BAR + 2}l-4.5 8h9z`}
          className={short ? ink.faultSolid : ink.solid}
          data-part="needed"
        />
        <text x={flip ? mark - 8 : mark + 8} y={36} textAnchor={flip ? 'end' : 'start'} className={ink.small}>
          {label}
        </text>
        <Legend y={49} width={width} />
      </svg>
    </div>
  );
}

function Legend({ y, width }: { y: number; width: number }) {
  const ink = useInk();
  return (
    <g>
      <rect x={1} y={y - 8} width={9} height={8} className={ink.solid} />
      <text x={15} y={y} className={ink.small}>
        usable
      </text>
      <rect x={66} y={y - 8} width={9} height={8} className={ink.outline} />
      <text x={80} y={y} className={ink.small}>
        {width > 300 ? 'theoretical, taken by the rules' : 'taken by the rules'}
      </text>
    </g>
  );
}
