/** The sheet `Pinning`: the pins of every chamber of a system's cylinders. Derived, so a new run replaces it. */
import { coreStack } from '../keying/core.ts';
import { formatDepthSet } from '../keying/chamberText.ts';
import { EVERY, NONE, type DepthSet } from '../keying/depthSet.ts';
import {
  kitList,
  kitStack,
  shortages,
  type KitCount,
  type KitStack,
  type ShopPin,
  type StackedKind,
} from '../keying/pinKit.ts';
import { pinStack, type Pin } from '../keying/pinning.ts';
import type { Specification } from '../keying/specification.ts';
import { formatNumber, toUnit, UNIT_NAMES, type Length, type Unit } from '../keying/units.ts';
import type { ColumnSpec } from './columns.ts';
import { findTable, systemNamed } from './find.ts';
import { fold, TABLES } from './names.ts';
import type { CellInput, ColumnFormat, WritePlan } from './plan.ts';
import { replaceOrCreate } from './planRows.ts';
import { PlanBuilder, type BenchSheet } from './planTable.ts';
import type { BookReading, CylinderRow } from './reading.ts';
import { readShop } from './tableShop.ts';

export interface PinningInput {
  readonly made: string;
  readonly system: string;
  /** Cylinder ids; none = all of the system's. */
  readonly cylinders?: readonly string[];
  /** Unit of the lengths; none = the spec's own. */
  readonly unit?: Unit | undefined;
  /** Also write the sheet `Kit`: how many of each pin the job needs. */
  readonly kitList?: boolean;
}

/** Columns of the shop's own sizes: only where the workbook has a table of them. They are what the hand picks. */
const kitColumns = (length: ColumnFormat): readonly ColumnSpec[] => [
  { heading: 'Kit bottom', format: length, width: 10 },
  { heading: 'Kit masters', format: 'text', width: 19 },
  { heading: 'Kit build-up', format: length, width: 12 },
  { heading: 'Kit top', format: length, width: 10 },
  { heading: 'Line error', format: length, width: 9 },
];

/** Only a core has pins above its masters that are told in steps. */
const CORE_COLUMNS = ['Build-up steps', 'Build-up length', 'Top steps', 'Kit build-up'];

const pinningColumns = (length: ColumnFormat, kit: boolean): readonly ColumnSpec[] => [
  { heading: 'Cylinder', format: 'text', width: 12, needed: true },
  { heading: 'Door', format: 'text', width: 11 },
  { heading: 'Symbol', format: 'text', width: 10 },
  { heading: 'Chamber', format: 'general', width: 12 },
  { heading: 'Cuts', format: 'text', width: 10 },
  { heading: 'Bottom steps', format: 'general', width: 10 },
  { heading: 'Bottom length', format: length, width: 10 },
  { heading: 'Master steps', format: 'text', width: 10 },
  { heading: 'Master length', format: 'text', width: kit ? 15 : 19 },
  { heading: 'Build-up steps', format: 'general', width: 12 },
  { heading: 'Build-up length', format: length, width: 12 },
  { heading: 'Top steps', format: 'general', width: 9 },
  { heading: 'Top length', format: length, width: 10 },
  { heading: 'Unit', format: 'text', width: 8 },
  ...(kit ? kitColumns(length) : []),
  { heading: 'Remark', format: 'text', width: 26 },
];

/** Lengths to be read at the bench: the kit's where there is one, since those are picked. */
const LARGE = ['Cuts', 'Bottom length', 'Master length', 'Build-up length', 'Top length'];
const LARGE_FROM_KIT = ['Cuts', 'Kit bottom', 'Kit masters', 'Kit build-up', 'Kit top'];

/** Columns of the sheets that aren't centred: names, and text of any length. */
const RAGGED = ['Cylinder', 'Door', 'Symbol', 'Kind', 'Pin', 'Remark'];

function benchOf(columns: readonly ColumnSpec[], large: readonly string[]): BenchSheet {
  const places = (wanted: (heading: string) => boolean): number[] =>
    columns.flatMap(({ heading }, c) => (wanted(heading) ? [c] : []));
  const remark = columns.findIndex(({ heading }) => heading === 'Remark');
  return {
    printed: remark + 1,
    large: places((heading) => large.includes(heading)),
    wrapped: [remark],
    centred: places((heading) => !RAGGED.includes(heading)),
  };
}

/** Replaces the content of our Pinning table, or adds the sheet. Cylinders that can't be read are conflicts. */
export function planPinning(book: BookReading, input: PinningInput): WritePlan {
  const builder = new PlanBuilder(book);
  const system = systemNamed(book, input.system);
  const spec = system?.spec;
  if (!system) builder.conflict(`There is no system ${input.system} in this workbook.`);
  else if (!spec)
    builder.conflict(
      `The spec ${system.specName} of ${system.name} can’t be read. Correct it first.`,
      system.at,
    );
  if (!system || !spec) return builder.plan('Write the pinning sheet');
  const wanted = input.cylinders && new Set(input.cylinders.map(fold));
  const chosen = system.cylinders.filter((c) => !wanted || wanted.has(fold(c.id)));
  for (const cylinder of chosen)
    if (!cylinder.chambers)
      builder.conflict(
        `Cylinder ${cylinder.id} can’t be read. Correct its row, or leave it out.`,
        cylinder.at.row,
      );
  for (const cylinder of chosen)
    if (spec.core && !cylinder.control && cylinder.chambers?.some((set) => set !== EVERY && set !== NONE))
      builder.conflict(
        `Core ${cylinder.id} has no control cuts, so its stacks can’t be worked out. Enter them in its row, or leave it out.`,
        cylinder.at.control ?? cylinder.at.row,
      );
  const shop = readShop(book);
  for (const { sheet, address, sentence } of shop.problems)
    if (fold(sheet) === fold(pinsSheet(book))) builder.conflict(sentence, { sheet, address });
  const unit = input.unit ?? spec.unit;
  const kit = shop.pins;
  const all = pinningColumns(UNIT_NAMES[unit], kit.length > 0);
  // what is blank in every row stands behind the remark, where it isn't printed
  const behind = spec.core ? [] : all.filter(({ heading }) => CORE_COLUMNS.includes(heading));
  const columns = [...all.filter((column) => !behind.includes(column)), ...behind];
  const content = {
    table: TABLES.Pinning,
    sheet: 'Pinning',
    title: 'Pinning',
    line: `Pins of the system ${system.name} by the spec ${spec.name}, written ${input.made}. Lengths in ${UNIT_NAMES[unit]}. SECRET: pins tell the bittings. Prove the first cylinder with its keys before you pin the rest.`,
    columns,
    rows: chosen
      .flatMap((cylinder) => cylinderRows(spec, cylinder, unit, kit))
      .map((row) => columns.map((column) => row[all.indexOf(column)]!)),
    frozen: 1,
    bench: benchOf(columns, kit.length > 0 ? LARGE_FROM_KIT : LARGE),
  };
  replaceOrCreate(builder, findTable(book.tables, TABLES.Pinning), content);
  if (input.kitList === true) addKitList(builder, input, spec, chosen, kit);
  return builder.plan('Write the pinning sheet');
}

const pinsSheet = (book: BookReading): string => findTable(book.tables, TABLES.Pins)?.sheet ?? '';

function cylinderRows(
  spec: Specification,
  cylinder: CylinderRow,
  unit: Unit,
  kit: readonly ShopPin[],
): CellInput[][] {
  return (cylinder.chambers ?? []).map((set, i) => [
    cylinder.id,
    cylinder.door ?? '',
    cylinder.symbol,
    i + 1,
    formatDepthSet(spec, set),
    ...chamberCells(spec, set, cylinder.control?.[i], unit, kit),
  ]);
}

const NO_PINS = { empty: 'No pins', control: 'No control cut, so no stack' } as const;

/** Bottom, master, build-up and top, then unit, the kit's sizes and remark. */
function chamberCells(
  spec: Specification,
  set: DepthSet,
  control: number | undefined,
  unit: Unit,
  kit: readonly ShopPin[],
): CellInput[] {
  const length = (l: Length | undefined): CellInput => (l === undefined ? '' : toUnit(l, unit));
  const cells = (pin: Pin | undefined): CellInput[] => [pin?.steps ?? '', length(pin?.length)];
  const core = spec.core && control !== undefined ? coreStack(spec, set, control) : undefined;
  const plain = spec.core ? undefined : pinStack(spec, set);
  const stack = core ?? plain;
  const blankKit: CellInput[] = kit.length > 0 ? kitColumns('general').map(() => '') : [];
  if (!stack)
    return [
      '',
      '',
      '',
      '',
      '',
      '',
      '',
      '',
      unit,
      ...blankKit,
      NO_PINS[spec.core && set !== EVERY && set !== NONE ? 'control' : 'empty'],
    ];
  const taken = kit.length > 0 ? kitStack(spec, set, kit, control) : undefined;
  const remarks = [
    ...stack.thin.map((thin) => `Master pin of ${thin.steps} is thinner than ${spec.step}`),
    ...(core?.thinBuildUp ? ['Build-up pin too thin'] : []),
    ...(stack.tooTall ? ['Stack too tall for a top pin'] : []),
    ...(taken && overTolerance(spec, taken) ? ['The kit’s sizes are off by more than the tolerance'] : []),
  ];
  return [
    ...cells(stack.bottom),
    stack.masters.map((pin) => String(pin.steps)).join(' + '),
    stack.masters.map((pin) => (pin.length === undefined ? '?' : formatNumber(pin.length, unit))).join(' + '),
    ...cells(core?.buildUp),
    ...(core ? cells(core.top) : ['', length(plain?.top)]),
    unit,
    ...(taken ? kitCells(taken, unit) : []),
    remarks.join('; '),
  ];
}

/** Bottom, masters, build-up, top as the kit has them, and by how much the worst shear line is off. */
function kitCells(stack: KitStack, unit: Unit): CellInput[] {
  const sizes = (kind: StackedKind): (Length | undefined)[] =>
    stack.pins.filter((pin) => pin.kind === kind).map(({ pin }) => pin?.length);
  const one = (kind: StackedKind): CellInput => {
    const [size] = sizes(kind);
    return size === undefined ? '' : toUnit(size, unit);
  };
  const worst = worstLine(stack);
  return [
    one('bottom'),
    sizes('master')
      .map((size) => (size === undefined ? '?' : formatNumber(size, unit)))
      .join(' + '),
    one('build-up'),
    one('top'),
    worst === undefined ? '' : toUnit(worst, unit),
  ];
}

/** The error of the shear line that is off most, a core's control line included. */
const worstLine = ({ lineErrors, controlError }: KitStack): Length | undefined =>
  (lineErrors && [...lineErrors, ...(controlError === undefined ? [] : [controlError])])?.reduce(
    (worst, error) => (Math.abs(error) > Math.abs(worst) ? error : worst),
  );

const overTolerance = (spec: Specification, stack: KitStack): boolean =>
  Math.abs(worstLine(stack) ?? 0) > spec.tolerance;

/** The sheet `Kit`: derived like the pinning, so a new run replaces it. */
function addKitList(
  builder: PlanBuilder,
  input: PinningInput,
  spec: Specification,
  cylinders: readonly CylinderRow[],
  kit: readonly ShopPin[],
): void {
  const unit = input.unit ?? spec.unit;
  const stacks = cylinders.flatMap(({ chambers = [], control }) =>
    chambers.flatMap((set, i) => kitStack(spec, set, kit, control?.[i]) ?? []),
  );
  const length = (l: Length | undefined): CellInput => (l === undefined ? '' : toUnit(l, unit));
  const short = new Map(shortages(kitList(stacks)).map((s) => [s.pin, s.short]));
  const columns = kitListColumns(UNIT_NAMES[unit]);
  replaceOrCreate(builder, findTable(builder.book.tables, TABLES.Kit), {
    table: TABLES.Kit,
    sheet: 'Kit',
    title: 'Kit list',
    line: `Pins that ${input.system} needs, ${stacks.length} chambers, written ${input.made}. Lengths in ${UNIT_NAMES[unit]}. ${kit.length > 0 ? 'Error: kit size less length wanted.' : 'No sizes in the sheet Pins, so lengths are as the spec gives them.'}`,
    columns,
    rows: kitList(stacks).map(({ kind, steps, wanted, pin, error, count }) => [
      kind,
      steps ?? '',
      length(wanted),
      pin?.name ?? '',
      length(pin?.length),
      length(error),
      unit,
      count,
      pin?.stock ?? '',
      kit.length === 0 ? '' : kitRemark({ kind, pin, error }, spec, pin && short.get(pin)),
    ]),
    frozen: 1,
    bench: benchOf(columns, kit.length > 0 ? ['Kit size', 'Needed'] : ['Length', 'Needed']),
  });
}

const kitListColumns = (length: ColumnFormat): readonly ColumnSpec[] => [
  { heading: 'Kind', format: 'text', width: 10, needed: true },
  { heading: 'Steps', format: 'general', width: 9 },
  { heading: 'Length', format: length, width: 11 },
  { heading: 'Pin', format: 'text', width: 18 },
  { heading: 'Kit size', format: length, width: 11 },
  { heading: 'Error', format: length, width: 10 },
  { heading: 'Unit', format: 'text', width: 8 },
  { heading: 'Needed', format: 'general', width: 11 },
  { heading: 'In stock', format: 'general', width: 9 },
  { heading: 'Remark', format: 'text', width: 34 },
];

/** A top pin lies above every shear line, so its error only changes how far the spring is pressed. */
function kitRemark(
  { kind, pin, error }: Pick<KitCount, 'kind' | 'pin' | 'error'>,
  spec: Specification,
  short: number | undefined,
): string {
  if (!pin) return 'The kit has no size of this kind';
  const off = kind !== 'top' && Math.abs(error ?? 0) > spec.tolerance;
  return [
    ...(off ? ['Off by more than the tolerance: get a nearer size'] : []),
    ...(short === undefined ? [] : [`${short} short of this size in all`]),
  ].join('; ');
}
