/**
 * Which depths a list of bittings uses, and what stands beside what: bars over a matrix that share one axis of
 * depths. The area of a square is the number of neighbours; pairs beyond the spec's MACS are hatched, and ringed
 * where the list has them all the same.
 */
import { useId, useMemo } from 'react';
import type { Specification } from '../../src/keying/specification.ts';
import { depthUse, largestJump, type DepthUse } from './depthUse.ts';
import { Hatch, hatchFill, hatchId } from './Hatch.tsx';
import { useInk } from './ink.ts';
import { counted, grouped, listed } from './numbers.ts';
import { Picture } from './Picture.tsx';
import { TextTable } from './TextTable.tsx';

export interface DepthPictureProps {
  readonly spec: Specification;
  readonly bittings: readonly (readonly number[])[];
  readonly title?: string;
  readonly asList?: boolean;
}

export function DepthPicture({ spec, bittings, title = 'Depths in use', asList = false }: DepthPictureProps) {
  const use = useMemo(() => depthUse(spec, bittings), [spec, bittings]);
  return (
    <Picture
      title={title}
      asList={asList}
      summary={summaryOf(spec, use)}
      drawing={(width) => <Drawing spec={spec} use={use} width={width} />}
      twin={<Twin spec={spec} use={use} />}
    />
  );
}

function summaryOf(spec: Specification, use: DepthUse): string {
  const unused = spec.depths.filter((_, i) => use.uses[i] === 0).map((d) => d.symbol);
  const jump = largestJump(use);
  const parts = [
    `${counted(use.bittings, 'bitting')}, ${counted(use.cuts, 'cut')}`,
    `depths never used: ${listed(unused)}`,
    ...(jump === undefined ? [] : [`neighbours differ by up to ${jump}; this spec allows ${spec.macs}`]),
  ];
  return `${parts.join('. ')}.`;
}

const GUTTER = 46;
const BARS = 56;
const HEAD = 30;

function Drawing({ spec, use, width }: { spec: Specification; use: DepthUse; width: number }) {
  const ink = useInk();
  const id = useId();
  const beyond = hatchId(id, 'quiet');
  const count = spec.depths.length;
  const cell = Math.min(30, (width - GUTTER - 2) / count);
  const barFoot = HEAD + BARS;
  const top = barFoot + 42;
  const height = top + cell * count + 4;
  const mostUsed = Math.max(1, ...use.uses);
  const mostBeside = Math.max(1, ...use.beside.flat());
  const x = (i: number) => GUTTER + cell * i;
  const y = (i: number) => top + cell * i;
  const numbersFit = Math.max(...use.uses.map((n) => grouped(n).length)) * 6.4 <= cell;
  const every = cell < 12 ? 2 : 1;
  const side = (n: number) => Math.sqrt(n / mostBeside) * (cell - 5);
  return (
    <svg
      width={width}
      height={height}
      role="img"
      aria-label={summaryOf(spec, use)}
      style={{ display: 'block' }}
    >
      <defs>
        <Hatch id={beyond} tone="quiet" />
      </defs>
      <text x={0} y={12} className={ink.small}>
        {`${numbersFit ? 'Cuts' : 'Cuts, in percent,'} at each depth, from ${grouped(use.cuts)}`}
      </text>
      {spec.depths.map((depth, i) => {
        const uses = use.uses[i]!;
        const tall = uses === 0 ? 0 : Math.max(1.5, (uses / mostUsed) * (BARS - 14));
        return (
          <g key={depth.symbol}>
            <rect
              x={x(i) + 3}
              y={barFoot - tall}
              width={Math.max(2, cell - 6)}
              height={tall}
              className={ink.solid}
            />
            <text x={x(i) + cell / 2} y={barFoot - tall - 4} textAnchor="middle" className={ink.small}>
              {numbersFit
                ? grouped(uses)
                : every === 1
                  ? Math.round((100 * uses) / Math.max(1, use.cuts))
                  : ''}
            </text>
            {i % every === 0 && (
              <text x={x(i) + cell / 2} y={barFoot + 15} textAnchor="middle" className={ink.text}>
                {depth.symbol}
              </text>
            )}
          </g>
        );
      })}
      <line x1={GUTTER} x2={GUTTER + cell * count} y1={barFoot} y2={barFoot} className={ink.thin} />
      <text x={GUTTER - 8} y={barFoot + 15} textAnchor="end" className={ink.small}>
        depth
      </text>
      <text x={0} y={top - 7} className={ink.small}>
        {`Row: a cut; column: the next. Hatched: beyond MACS ${spec.macs}`}
      </text>
      {spec.depths.map((from, a) => (
        <g key={from.symbol}>
          {a % every === 0 && (
            <text x={GUTTER - 8} y={y(a) + cell / 2 + 4} textAnchor="end" className={ink.text}>
              {from.symbol}
            </text>
          )}
          {spec.depths.map((to, b) => {
            const n = use.beside[a]![b]!;
            const outside = Math.abs(a - b) > spec.macs;
            const s = n === 0 ? 0 : Math.max(2, side(n));
            return (
              <g key={to.symbol}>
                {outside && <rect x={x(b)} y={y(a)} width={cell} height={cell} fill={hatchFill(beyond)} />}
                <rect x={x(b)} y={y(a)} width={cell} height={cell} className={ink.hair} />
                {n > 0 && (
                  <rect
                    x={x(b) + (cell - s) / 2}
                    y={y(a) + (cell - s) / 2}
                    width={s}
                    height={s}
                    className={outside ? ink.faultSolid : ink.solid}
                    data-count={n}
                  />
                )}
                {n > 0 && outside && (
                  <circle cx={x(b) + cell / 2} cy={y(a) + cell / 2} r={cell / 2 - 1} className={ink.fault} />
                )}
              </g>
            );
          })}
        </g>
      ))}
    </svg>
  );
}

function Twin({ spec, use }: { spec: Specification; use: DepthUse }) {
  const percent = (n: number, of: number) => `${of === 0 ? 0 : Math.round((1000 * n) / of) / 10} %`;
  const neighbours = use.bySteps.reduce((sum, n) => sum + n, 0);
  return (
    <>
      <TextTable
        caption={`Cuts at each depth, from ${counted(use.cuts, 'cut')} of ${counted(use.bittings, 'bitting')}`}
        columns={['Depth', 'Cuts', 'Share', 'Followed by']}
        rows={spec.depths.map((depth, i) => [
          depth.symbol,
          grouped(use.uses[i]!),
          percent(use.uses[i]!, use.cuts),
          followers(spec, use.beside[i]!),
        ])}
      />
      <TextTable
        caption={`Steps between neighbouring cuts; this spec allows ${spec.macs}`}
        columns={['Steps', 'Neighbours', 'Share', '']}
        rows={use.bySteps.map((n, steps) => [
          String(steps),
          grouped(n),
          percent(n, neighbours),
          steps > spec.macs ? 'beyond MACS' : '',
        ])}
      />
    </>
  );
}

const followers = (spec: Specification, row: readonly number[]): string =>
  row.flatMap((n, b) => (n === 0 ? [] : [`${spec.depths[b]!.symbol} (${grouped(n)})`])).join(', ') || 'none';
