/**
 * A cutting sheet: one row a bitting, for the bench. Each list is a job with a sheet of its own, since ticks and
 * readings are written on it; a second list never touches the first. What is the same for every row (spec, stop,
 * cutter, passes, how the key is held) stands above the table and is repeated on every page; the centre of each cut
 * stands in its heading.
 */
import { formatBitting, type Bitting } from '../keying/bitting.ts';
import { cutCentres, rootDepths } from '../keying/cuts.ts';
import type { CuttingLine } from '../keying/cutting.ts';
import { cutterOf, interferences } from '../keying/geometry.ts';
import { sayAll } from '../keying/sayAll.ts';
import { cutterFits, type ShopCutter, type ShopSetup } from '../keying/shop.ts';
import { sayCutterFit, sayPasses } from '../keying/shopWording.ts';
import { shownIn } from '../keying/shownIn.ts';
import { positions, type Specification } from '../keying/specification.ts';
import { formatLength, toUnit, UNIT_NAMES, type Unit } from '../keying/units.ts';
import type { ColumnSpec } from './columns.ts';
import { judgeReadings } from './formulas.ts';
import { freeCuttingName } from './names.ts';
import type { CellInput, WritePlan } from './plan.ts';
import { addSpecs } from './planSpecs.ts';
import { createSheet, PlanBuilder } from './planTable.ts';
import type { BookReading } from './reading.ts';

export interface CuttingInput {
  readonly made: string;
  readonly spec: Specification;
  readonly lines: readonly CuttingLine[];
  /** The cutter at hand; the spec's own where none is named. */
  readonly cutter?: ShopCutter;
  readonly setup?: ShopSetup;
  /** Unit of the lengths and of the readings; none = the spec's own. */
  readonly unit?: Unit | undefined;
}

/** The caution that goes to the bench with every cutting sheet. */
export const PROVE_FIRST =
  'Cut one original to code, prove it in the lock, then duplicate from it. Never duplicate from a key that was not proved.';

/** What a first article comes to: offered in the cells, so that a tick is the same on every sheet. */
export const FIRST_ARTICLE = ['✓ good', '✗ recut', 'proved in the lock'] as const;

const readHeading = (cut: number): string => `Read ${cut}`;

/**
 * Adds a sheet `Cutting`, or `Cutting 2` where there is one.
 * @example describePlan(planCutting(book, input)).sentence → 'Adds the sheet Cutting with 40 rows; touches nothing else.'
 */
export function planCutting(book: BookReading, input: CuttingInput): WritePlan {
  const builder = new PlanBuilder(book);
  const { lines } = input;
  const spec = shownIn(input.spec, input.unit);
  if (lines.length === 0)
    builder.conflict('The list has no row with anything in it, so there is nothing to cut.');
  addSpecs(builder, [input.spec], input.made);
  const hand = handOf(input);
  const eaten = lines.map(({ bitting }) => (bitting ? eatenWords(spec, bitting, hand) : ''));
  const table = freeCuttingName(book.tableNames);
  const number = /\d+$/.exec(table)?.[0];
  const columns = cuttingColumns(spec, table, spec === input.spec ? undefined : spec.unit);
  const at = (heading: string): number => columns.findIndex((c) => c.heading === heading);
  const cuts = Array.from({ length: positions(spec) }, (_, i) => FIXED.length + i);
  createSheet(
    builder,
    {
      table,
      sheet: 'Cutting',
      title: number === undefined ? 'Cutting sheet' : `Cutting sheet ${number}`,
      line: `${countsLine(lines)} Written ${input.made}. SECRET: whoever has a bitting can cut the key. ${PROVE_FIRST}`,
      columns,
      rows: lines.map((line, i) => cuttingRow(spec, line, eaten[i]!)),
      frozen: 1,
      bench: {
        line: benchLine({ ...input, spec }, eaten.filter((words) => words !== '').length),
        // what is typed in afterwards stands behind, so that the digits are large on paper too
        printed: at('Note') + 1,
        large: [at('Bitting'), ...cuts],
        centred: [...cuts, at('Keys'), at('Duplicates')],
        wrapped: [at('Mark'), at('As it came'), at('Judged'), at('Note')],
        choices: [{ column: at('First article'), from: FIRST_ARTICLE }],
      },
    },
    builder.sheetName('Cutting', ...(number === undefined ? [] : [`Cutting ${number}`])),
  );
  return builder.plan('Write the cutting sheet');
}

const FIXED: readonly ColumnSpec[] = [
  { heading: 'Mark', format: 'text', width: 11, needed: true },
  { heading: 'As it came', format: 'text', width: 14 },
  { heading: 'Bitting', format: 'text', width: 14, needed: true },
  { heading: 'Blank', format: 'text', width: 10 },
];

function cuttingColumns(spec: Specification, table: string, asked: Unit | undefined): ColumnSpec[] {
  const length = UNIT_NAMES[spec.unit];
  const centres = cutCentres(spec);
  const count = positions(spec);
  return [
    ...FIXED,
    ...centres.map((centre, i): ColumnSpec => ({
      heading: `Cut ${i + 1} at ${formatLength(centre, spec.unit)}`,
      format: length,
      // “0.237 in” has to stand on one line beside the filter’s button
      width: 12,
    })),
    { heading: 'Keys', format: 'general', width: 8 },
    { heading: 'Duplicates', format: 'general', width: 14 },
    { heading: 'First article', format: 'text', width: 11 },
    { heading: 'Note', format: 'text', width: 40 },
    ...centres.map((_, i): ColumnSpec => ({ heading: readHeading(i + 1), format: length, width: 8 })),
    {
      heading: 'Judged',
      format: 'general',
      width: 30,
      formula: judgeReadings(table, readHeading(1), readHeading(count), spec.name, asked),
    },
  ];
}

function cuttingRow(spec: Specification, line: CuttingLine, eaten: string): CellInput[] {
  const { bitting, keys } = line;
  const cuts: CellInput[] = bitting
    ? rootDepths(spec, bitting).map((root) => toUnit(root, spec.unit))
    : spec.centres.map(() => '');
  return [
    line.marks.join(', '),
    line.originals.join(', '),
    bitting ? formatBitting(spec, bitting) : '',
    line.blank,
    ...cuts,
    keys ?? '',
    bitting && keys !== undefined ? Math.max(0, keys - 1) : '',
    '',
    [...(eaten === '' ? [] : [eaten]), ...line.remarks].join(' '),
    ...spec.centres.map(() => ''),
    '',
  ];
}

/** @example '12 originals and 30 duplicates; 2 rows not cut, see Note.' */
function countsLine(lines: readonly CuttingLine[]): string {
  const cut = lines.filter((line) => line.bitting);
  const duplicates = cut.reduce((sum, line) => sum + Math.max(0, (line.keys ?? 1) - 1), 0);
  const left = lines.length - cut.length;
  const plural = (n: number, noun: string): string => `${n} ${noun}${n === 1 ? '' : 's'}`;
  return `${plural(cut.length, 'original')} and ${plural(duplicates, 'duplicate')}${left === 0 ? '' : `; ${plural(left, 'row')} not cut, see Note`}.`;
}

const handOf = ({ spec, cutter }: CuttingInput): ShopCutter =>
  cutter ?? { name: 'the spec’s own', ...cutterOf(spec) };

/** Where the cutter at hand eats a neighbour's flat in this bitting; '' where it cuts clean. */
const eatenWords = (spec: Specification, bitting: Bitting, cutter: ShopCutter): string =>
  sayAll(
    interferences(spec, bitting, cutter).map((pair) => ({ code: 'eaten-flat', ...pair, unit: spec.unit })),
  ).join(' ');

/** What the person at the machine sets once for all rows. */
function benchLine(input: CuttingInput, eating: number): string {
  const { spec, setup } = input;
  const hand = handOf(input);
  const fit = cutterFits(spec, [hand])[0]!;
  const flat = formatLength(hand.flat, spec.unit);
  const passes =
    fit.fit === 'too-wide' || fit.limits ? sayCutterFit(spec, fit).join(' ') : `${sayPasses(spec, fit)}.`;
  return [
    `Spec ${spec.name}: cuts measured from the ${spec.gauge}, code read ${spec.order.replaceAll('-', ' ')}, root depths and readings in ${UNIT_NAMES[spec.unit]}, tolerance ±${formatLength(spec.tolerance, spec.unit)}.`,
    `Cutter ${hand.name}, flat ${flat}, ${hand.angle}°: ${passes}`,
    ...(eating === 0
      ? []
      : [
          `${eating} of these ${eating === 1 ? 'bittings eats a flat' : 'bittings eat a flat'} with it, see Note.`,
        ]),
    ...(setup ? [`Held: ${setup.hold || 'not stated'}. Stopped: ${setup.stop || 'not stated'}.`] : []),
    ...(setup?.note ? [setup.note] : []),
  ].join(' ');
}
