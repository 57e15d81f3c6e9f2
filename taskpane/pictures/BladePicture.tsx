/**
 * A key blade to scale, measured from its stop, with everything that a code machine is set to: centres, root depths,
 * both counts of the cuts, the direction of reading, and what is wrong where.
 */
import { useId, useMemo } from 'react';
import { formatBitting, type Bitting } from '../../src/keying/bitting.ts';
import { cutsFromStop } from '../../src/keying/cuts.ts';
import type { Cutter } from '../../src/keying/geometry.ts';
import type { Specification } from '../../src/keying/specification.ts';
import { formatNumber } from '../../src/keying/units.ts';
import { BladeFaults } from './BladeFaults.tsx';
import { BELOW_SYMBOLS, Body, Reading, RootDimension, Ruler, Stop } from './BladeParts.tsx';
import { layOutBlade, type BladeLayout, type DrawnCut } from './bladeLayout.ts';
import { bladeMarks, type BladeFinding, type BladeMark } from './bladeMarks.ts';
import { bladeSummary, unitWords, readingWords, shapeWords } from './bladeText.ts';
import { Hatch, hatchFill, hatchId } from './Hatch.tsx';
import { useInk } from './ink.ts';
import { MarkList } from './MarkList.tsx';
import { Picture } from './Picture.tsx';
import { useShown } from './shownUnit.ts';
import { TextTable } from './TextTable.tsx';

export interface BladePictureProps {
  readonly spec: Specification;
  readonly bitting: Bitting;
  /** The cutter at hand; the spec's own where none is named. */
  readonly cutter?: Cutter;
  /** What the check of this bitting found. What the cutter eats is found here. */
  readonly findings?: readonly BladeFinding[];
  /** Of the key, for the heading. */
  readonly symbol?: string;
  readonly asList?: boolean;
}

const NO_FINDINGS: readonly BladeFinding[] = [];

export function BladePicture(props: BladePictureProps) {
  const { bitting, cutter, findings = NO_FINDINGS, symbol, asList = false } = props;
  const spec = useShown(props.spec);
  const marks = useMemo(() => bladeMarks(spec, bitting, findings, cutter), [spec, bitting, findings, cutter]);
  const code = formatBitting(spec, bitting);
  const summary = bladeSummary(spec, bitting, marks.length);
  return (
    <Picture
      title={symbol === undefined ? code : `${symbol} · ${code}`}
      asList={asList}
      sheetName={`Blade ${symbol === undefined ? '' : `${symbol} `}${code}`}
      summary={summary}
      drawing={(width) => (
        <Drawing
          spec={spec}
          layout={layOutBlade(spec, bitting, width, {
            top: symbolsY(marks) + BELOW_SYMBOLS,
            ...(cutter && { cutter }),
          })}
          marks={marks}
          summary={summary}
        />
      )}
      twin={<Twin spec={spec} bitting={bitting} />}
    >
      <MarkList marks={marks} />
    </Picture>
  );
}

/** Baseline of the symbols, lower where letters stand over them. */
const symbolsY = (marks: readonly BladeMark[]) => (marks.some((m) => m.place) ? 50 : 36);

interface DrawingProps {
  readonly spec: Specification;
  readonly layout: BladeLayout;
  readonly marks: readonly BladeMark[];
  readonly summary: string;
}

function Drawing({ spec, layout, marks, summary }: DrawingProps) {
  const ink = useInk();
  const hatch = hatchId(useId(), 'fault');
  const { width, bottom, cuts, numbersFit } = layout;
  const symbols = symbolsY(marks);
  const rows = rowsOf(layout);
  const ruler = bottom + 10;
  const firstRow = ruler + 42;
  const height = firstRow + rows.reduce((sum, row) => sum + row.height, 0) - 11;
  return (
    <svg width={width} height={height} role="img" aria-label={summary} style={{ display: 'block' }}>
      <defs>
        <Hatch id={hatch} tone="fault" />
      </defs>
      <Reading spec={spec} cuts={cuts} />
      <Body spec={spec} layout={layout} />
      <BladeFaults layout={layout} marks={marks} fill={hatchFill(hatch)} y={symbols - 21} />
      {cuts.map((cut) => (
        <g key={cut.position}>
          <line x1={cut.x} x2={cut.x} y1={symbols + 4} y2={bottom + 6} className={ink.centre} />
          <text x={cut.x} y={symbols} textAnchor="middle" className={ink.strong}>
            {cut.symbol}
          </text>
          <RootDimension cut={cut} bottom={bottom} withText={numbersFit} />
        </g>
      ))}
      <Stop spec={spec} layout={layout} />
      <Ruler spec={spec} layout={layout} y={ruler} />
      {rows.map((row, r) => {
        const at = firstRow + rows.slice(0, r).reduce((sum, above) => sum + above.height, 0);
        return (
          <g key={row.name}>
            <line x1={0} x2={width} y1={at - 12} y2={at - 12} className={ink.hair} />
            <text x={0} y={at} className={ink.small}>
              {row.name}
            </text>
            {cuts.map((cut, i) => (
              <text
                key={cut.position}
                x={cut.x}
                y={at + (row.staggered && i % 2 === 1 ? 13 : 0)}
                textAnchor="middle"
                className={row.name === 'code no.' ? ink.text : ink.small}
              >
                {row.textOf(cut)}
              </text>
            ))}
          </g>
        );
      })}
    </svg>
  );
}

interface Row {
  readonly name: string;
  readonly height: number;
  readonly staggered: boolean;
  readonly textOf: (cut: DrawnCut) => string;
}

function rowsOf({ numbersFit }: BladeLayout): Row[] {
  const plain = { height: 17, staggered: false };
  const numbers = numbersFit ? plain : { height: 30, staggered: true };
  return [
    { name: 'code no.', ...plain, textOf: (c) => String(c.symbolNumber) },
    { name: 'from stop', ...plain, textOf: (c) => String(c.position) },
    { name: 'centre', ...numbers, textOf: (c) => c.centreText },
    ...(numbersFit ? [] : [{ name: 'root', ...numbers, textOf: (c: DrawnCut) => c.rootText }]),
  ];
}

function Twin({ spec, bitting }: { spec: Specification; bitting: Bitting }) {
  return (
    <TextTable
      caption={`Cuts from the ${spec.gauge}; lengths in ${unitWords(spec.unit)}; ${shapeWords(spec)}; ${readingWords(spec)}`}
      columns={['From stop', 'Code no.', 'Symbol', 'Centre', 'Root']}
      rows={cutsFromStop(spec, bitting).map((cut) => [
        String(cut.position),
        String(cut.symbolNumber),
        cut.symbol,
        formatNumber(cut.centre, spec.unit),
        formatNumber(cut.root, spec.unit),
      ])}
    />
  );
}
