/** The sheet `Pinning`: the pins of every chamber of a system's cylinders. Derived, so a new run replaces it. */
import { coreStack } from '../keying/core.ts';
import { formatDepthSet } from '../keying/chamberText.ts';
import type { DepthSet } from '../keying/depthSet.ts';
import { pinStack, type Pin } from '../keying/pinning.ts';
import type { Specification } from '../keying/specification.ts';
import { formatNumber, toUnit, type Length } from '../keying/units.ts';
import type { ColumnSpec } from './columns.ts';
import { findTable, systemNamed } from './find.ts';
import { fold, TABLES } from './names.ts';
import type { CellInput, ColumnFormat, WritePlan } from './plan.ts';
import { replaceOrCreate } from './planRows.ts';
import { PlanBuilder } from './planTable.ts';
import type { BookReading, CylinderRow } from './reading.ts';

export interface PinningInput {
  readonly made: string;
  readonly system: string;
  /** Cylinder ids; none = all of the system's. */
  readonly cylinders?: readonly string[];
}

const pinningColumns = (length: ColumnFormat): readonly ColumnSpec[] => [
  { heading: 'Cylinder', format: 'text', width: 12, needed: true },
  { heading: 'Door', format: 'text', width: 14 },
  { heading: 'Symbol', format: 'text', width: 10 },
  { heading: 'Chamber', format: 'general', width: 9 },
  { heading: 'Cuts', format: 'text', width: 9 },
  { heading: 'Bottom steps', format: 'general', width: 12 },
  { heading: 'Bottom length', format: length, width: 13 },
  { heading: 'Master steps', format: 'text', width: 12 },
  { heading: 'Master length', format: 'text', width: 16 },
  { heading: 'Build-up steps', format: 'general', width: 14 },
  { heading: 'Build-up length', format: length, width: 14 },
  { heading: 'Top steps', format: 'general', width: 10 },
  { heading: 'Top length', format: length, width: 11 },
  { heading: 'Unit', format: 'text', width: 6 },
  { heading: 'Remark', format: 'text', width: 36 },
];

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
  const content = {
    table: TABLES.Pinning,
    sheet: 'Pinning',
    title: 'Pinning',
    line: `Pins of the system ${system.name} by the spec ${spec.name}, written ${input.made}. SECRET: pins tell the bittings. Prove the first cylinder with its keys before you pin the rest.`,
    columns: pinningColumns(spec.unit === 'in' ? 'inches' : 'millimetres'),
    rows: chosen.flatMap((cylinder) => cylinderRows(spec, cylinder)),
    frozen: 1,
  };
  replaceOrCreate(builder, findTable(book.tables, TABLES.Pinning), content);
  return builder.plan('Write the pinning sheet');
}

function cylinderRows(spec: Specification, cylinder: CylinderRow): CellInput[][] {
  return (cylinder.chambers ?? []).map((set, i) => [
    cylinder.id,
    cylinder.door ?? '',
    cylinder.symbol,
    i + 1,
    formatDepthSet(spec, set),
    ...chamberCells(spec, set, cylinder.control?.[i]),
  ]);
}

/** Bottom, master, build-up and top, then unit and remark. */
function chamberCells(spec: Specification, set: DepthSet, control: number | undefined): CellInput[] {
  const length = (l: Length | undefined): CellInput => (l === undefined ? '' : toUnit(l, spec.unit));
  const cells = (pin: Pin | undefined): CellInput[] => [pin?.steps ?? '', length(pin?.length)];
  const core = spec.core && control !== undefined ? coreStack(spec, set, control) : undefined;
  const plain = core ? undefined : pinStack(spec, set);
  const stack = core ?? plain;
  if (!stack) return ['', '', '', '', '', '', '', '', spec.unit, 'No pins'];
  const remarks = [
    ...stack.thin.map((thin) => `Master pin of ${thin.steps} is thinner than ${spec.step}`),
    ...(core?.thinBuildUp ? ['Build-up pin too thin'] : []),
    ...(stack.tooTall ? ['Stack too tall for a top pin'] : []),
  ];
  return [
    ...cells(stack.bottom),
    stack.masters.map((pin) => String(pin.steps)).join(' + '),
    stack.masters
      .map((pin) => (pin.length === undefined ? '?' : formatNumber(pin.length, spec.unit)))
      .join(' + '),
    ...cells(core?.buildUp),
    ...(core ? cells(core.top) : ['', length(plain?.top)]),
    spec.unit,
    remarks.join('; '),
  ];
}
