/**
 * The pins of a cylinder, all chambers side by side and to scale on their shear line; for an interchangeable core
 * also the control line. Under each chamber stands what to load into it.
 */
import { mergeClasses } from '@fluentui/react-components';
import { useId, useMemo } from 'react';
import type { Bitting } from '../../src/keying/bitting.ts';
import type { Specification } from '../../src/keying/specification.ts';
import { formatNumber } from '../../src/keying/units.ts';
import { readingWords, unitWords } from './bladeText.ts';
import { fitNumbers } from './fitNumber.ts';
import { Hatch, hatchFill, hatchId } from './Hatch.tsx';
import { useInk } from './ink.ts';
import { MarkList } from './MarkList.tsx';
import { counted, listed } from './numbers.ts';
import { Picture } from './Picture.tsx';
import { useShown } from './shownUnit.ts';
import { StackColumn, StepLabels } from './StackColumn.tsx';
import { stackChambers, stackFindings, type PinRole } from './stackFacts.ts';
import type { StackChamber, StackCylinder, StackFinding, StackPin } from './stackFacts.ts';
import { GUTTER, isNominal, layOutStack, shearsAt } from './stackLayout.ts';
import { TextTable } from './TextTable.tsx';

export interface PinStackPictureProps {
  readonly spec: Specification;
  readonly cylinder: StackCylinder;
  /** Draws the stacks as this key lifts them; without it each stands at its shallowest depth. */
  readonly keyIn?: { readonly symbol: string; readonly bitting: Bitting };
  readonly asList?: boolean;
}

export function PinStackPicture({ spec: written, cylinder, keyIn, asList = false }: PinStackPictureProps) {
  const spec = useShown(written);
  const chambers = useMemo(() => stackChambers(spec, cylinder), [spec, cylinder]);
  const findings = useMemo(() => stackFindings(spec, cylinder), [spec, cylinder]);
  const marks = findings.map((found, i) => ({ ...found, letter: String.fromCharCode(97 + (i % 26)) }));
  const summary = summaryOf(chambers, findings, keyIn);
  return (
    <Picture
      title={`Pins of ${cylinder.door ?? cylinder.id}`}
      asList={asList}
      sheetName={`Pins of ${cylinder.id} (${spec.name})`}
      summary={summary}
      drawing={(width) => (
        <Drawing
          spec={spec}
          chambers={chambers}
          width={width}
          summary={summary}
          marks={marks}
          {...(keyIn && { keyIn })}
        />
      )}
      twin={<Twin spec={spec} chambers={chambers} />}
    >
      <MarkList marks={marks} />
    </Picture>
  );
}

function summaryOf(
  chambers: readonly StackChamber[],
  findings: readonly StackFinding[],
  keyIn: PinStackPictureProps['keyIn'],
): string {
  const masters = chambers.flatMap(({ pins }) => pins.filter((pin) => pin.role === 'master')).length;
  const empty = chambers.filter((c) => c.empty).map((c) => String(c.chamber));
  const blocked = keyIn
    ? chambers.filter((c) => !shearsAt(c, keyIn.bitting[c.chamber - 1]!)).map((c) => String(c.chamber))
    : [];
  return [
    `${counted(chambers.length - empty.length, 'pinned chamber')}, ${counted(masters, 'master pin')}.`,
    ...(empty.length > 0 ? [`Empty: ${listed(empty)}.`] : []),
    ...(findings.length > 0 ? [`${counted(findings.length, 'fault')}.`] : []),
    ...(keyIn
      ? [
          `Shown with ${keyIn.symbol} in: ${blocked.length === 0 ? 'every chamber shears' : `chamber ${listed(blocked)} blocks`}.`,
        ]
      : []),
  ].join(' ');
}

interface DrawingProps {
  readonly spec: Specification;
  readonly chambers: readonly StackChamber[];
  readonly width: number;
  readonly summary: string;
  readonly marks: readonly (StackFinding & { readonly letter: string })[];
  readonly keyIn?: NonNullable<PinStackPictureProps['keyIn']>;
}

/** Top of the bores; a second row of depths moves it down. */
const TOP = 40;
const SECOND_ROW = 12;
/** Average width of a character of `2 6` at 11 px. */
const CHARACTER = 5.2;
const ROW = 16;

function Drawing({ spec, chambers, width, summary, marks, keyIn }: DrawingProps) {
  const ink = useInk();
  const hatch = hatchId(useId(), 'fault');
  const shears = chambers.map((c) => shearsText(spec, c));
  const room = (width - GUTTER) / chambers.length;
  const secondRow = shears.some((text) => text.length * CHARACTER > room) ? SECOND_ROW : 0;
  const layout = layOutStack(spec, chambers, width, {
    top: TOP + secondRow,
    ...(keyIn && { keyIn: keyIn.bitting }),
  });
  const { shearY, controlY, bottom, column } = layout;
  const rows = rowsOf(chambers);
  const cells = rows.map((row) =>
    chambers.map((chamber) => {
      const pin = pinAt(chamber, row);
      return pin ? lengthText(spec, pin) : '';
    }),
  );
  const fitting = fitNumbers(cells.flat(), column);
  const keyRow = keyIn ? 16 : 0;
  const firstRow = bottom + 20 + keyRow;
  const height = firstRow + (rows.length - 1) * ROW + 6;
  return (
    <svg width={width} height={height} role="img" aria-label={summary} style={{ display: 'block' }}>
      <defs>
        <Hatch id={hatch} tone="fault" />
      </defs>
      <text x={0} y={13} className={ink.small}>
        chamber
      </text>
      {layout.chambers.map((chamber, i) => (
        <StackColumn
          key={chamber.chamber}
          spec={spec}
          chamber={chamber}
          layout={layout}
          shears={shears[i]!}
          shearsY={28 + (i % 2) * secondRow}
          fill={hatchFill(hatch)}
          letters={marks
            .filter((m) => m.chamber === chamber.chamber)
            .map((m) => m.letter)
            .join('')}
          {...(keyIn && { cut: keyIn.bitting[chamber.chamber - 1]! })}
        />
      ))}
      <ShearLine y={shearY} width={width} name={controlY === undefined ? 'shear' : 'operating'} />
      {controlY !== undefined && <ShearLine y={controlY} width={width} name="control" dashed />}
      {layout.chambers.map((chamber) => (
        <StepLabels key={chamber.chamber} chamber={chamber} layout={layout} />
      ))}
      {keyIn && (
        <text x={0} y={bottom + 14} className={ink.small}>
          {keyIn.symbol}
        </text>
      )}
      {rows.map((row, r) => {
        const y = firstRow + r * ROW;
        return (
          <g key={`${row.role}-${row.nth}`}>
            <line x1={0} x2={width} y1={y - 12} y2={y - 12} className={ink.hair} />
            <text x={0} y={y} className={ink.small}>
              {row.role}
            </text>
            {layout.chambers.map((chamber, i) => (
              <text
                key={chamber.chamber}
                x={chamber.x + column / 2}
                y={y}
                textAnchor="middle"
                className={ink.small}
              >
                {fitting[r * chambers.length + i]}
              </text>
            ))}
          </g>
        );
      })}
    </svg>
  );
}

function ShearLine({
  y,
  width,
  name,
  dashed = false,
}: {
  y: number;
  width: number;
  name: string;
  dashed?: boolean;
}) {
  const ink = useInk();
  return (
    <g data-line={name}>
      <line
        x1={GUTTER - 1}
        x2={width}
        y1={y}
        y2={y}
        className={dashed ? mergeClasses(ink.shear, ink.dashed) : ink.shear}
      />
      <text x={0} y={y + 4} className={ink.small}>
        {name}
      </text>
    </g>
  );
}

interface Row {
  readonly role: PinRole;
  /** Which of several master pins, from the bottom up. */
  readonly nth: number;
}

/** As pins lie in the chamber: the top pin in the first row, the bottom pin in the last. */
function rowsOf(chambers: readonly StackChamber[]): Row[] {
  const most = (role: PinRole) =>
    Math.max(0, ...chambers.map((c) => c.pins.filter((p) => p.role === role).length));
  return (['top', 'build-up', 'master', 'bottom'] as const).flatMap((role) =>
    Array.from({ length: most(role) }, (_, i) => ({ role, nth: most(role) - 1 - i })),
  );
}

const pinAt = ({ pins }: StackChamber, { role, nth }: Row): StackPin | undefined =>
  pins.filter((pin) => pin.role === role)[nth];

const shearsText = (spec: Specification, { empty, depths }: StackChamber): string =>
  empty ? 'any' : depths.map((d) => spec.depths[d]!.symbol).join(' ') || 'none';

const lengthText = (spec: Specification, { length }: StackPin): string =>
  length === undefined ? '–' : formatNumber(length, spec.unit);

function Twin({ spec, chambers }: { spec: Specification; chambers: readonly StackChamber[] }) {
  const words = (pin: StackPin) =>
    [
      pin.length === undefined ? '' : formatNumber(pin.length, spec.unit),
      pin.steps === undefined ? '' : `(${pin.steps})`,
      pin.thin ? 'thin' : '',
    ]
      .filter(Boolean)
      .join(' ');
  const role = (chamber: StackChamber, wanted: PinRole) =>
    chamber.pins
      .filter((pin) => pin.role === wanted)
      .map(words)
      .join(', ') || '–';
  const core = chambers.some((c) => c.pins.some((pin) => pin.role === 'build-up'));
  return (
    <TextTable
      caption={
        `Pins from the bottom up, in ${unitWords(spec.unit)}, steps in brackets; chambers as the code is ${readingWords(spec)}` +
        (isNominal(chambers) ? '; this spec doesn’t give all lengths' : '')
      }
      columns={['Chamber', 'Shears at', 'Bottom', 'Master', ...(core ? ['Build-up'] : []), 'Top']}
      rows={chambers.map((chamber) => [
        String(chamber.chamber),
        chamber.empty ? 'any (empty)' : shearsText(spec, chamber),
        role(chamber, 'bottom'),
        role(chamber, 'master'),
        ...(core ? [role(chamber, 'build-up')] : []),
        role(chamber, 'top'),
      ])}
    />
  );
}
