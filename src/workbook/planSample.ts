/**
 * Sample data in the open workbook, as one plan: a door schedule and a list of codes as a shop would have them, and
 * the system made for those doors. All on sheets that the plan adds; nothing that is there is touched.
 */
import type { SystemRequest } from '../keying/systemRequest.ts';
import { starterSpec } from '../keying/starters.ts';
import { ProgrammerError } from '../keying/result.ts';
import { columnName } from './places.ts';
import type { WritePlan } from './plan.ts';
import { planNewSystem, type NewSystem } from './planSystem.ts';
import { PlanBuilder } from './planTable.ts';
import type { BookReading } from './reading.ts';
import {
  SAMPLE_CODE_HEADINGS,
  SAMPLE_CODES,
  SAMPLE_DOOR_HEADINGS,
  SAMPLE_DOORS,
  SAMPLE_SYSTEM,
} from './sampleDoors.ts';

/** What to ask of the generator for the doors of the sample. */
export function sampleRequest(): SystemRequest {
  const spec = starterSpec('S-018-6');
  if (!spec) throw new ProgrammerError('the sample’s starter spec is gone');
  const masters = ['AA', 'AB'].map((symbol) => {
    const doors: string[][] = [];
    for (const [door, , set] of SAMPLE_DOORS)
      if (set.startsWith(symbol)) (doors[Number(set.slice(symbol.length)) - 1] ??= []).push(door);
    return { symbol, changeKeys: doors.length, spares: 2, doors };
  });
  return { name: SAMPLE_SYSTEM, spec, levels: 3, grands: [{ masters }], seed: 3 };
}

/**
 * The sheets of the sample and its system.
 * @example describePlan(planSample(book, made, { made: '2026-03-14' })).sentence
 *   → 'Adds the sheet Sample doors with 18 rows; adds the sheet Sample codes with 8 rows; …; touches nothing else.'
 */
export function planSample(
  book: BookReading,
  made: Pick<NewSystem, 'system' | 'marks'>,
  { made: day }: { readonly made: string },
): WritePlan {
  const builder = new PlanBuilder(book);
  addList(builder, 'Sample doors', SAMPLE_DOOR_HEADINGS, SAMPLE_DOORS, [8, 24, 10, 8, 24]);
  addList(builder, 'Sample codes', SAMPLE_CODE_HEADINGS, SAMPLE_CODES, [8, 12, 24]);
  const own = builder.plan('Fill in sample data');
  const locations = new Map(SAMPLE_DOORS.map(([door, room]) => [door, room] as const));
  const copies = new Map(made.system.keys.map((key) => [key.symbol, key.level === 'CK' ? 3 : 2] as const));
  const system = planNewSystem(
    book,
    { ...made, locations, copies, seed: 3, note: 'Invented data for trying things' },
    { made: day },
  );
  const conflicts = [...own.conflicts, ...system.conflicts];
  return {
    title: own.title,
    steps: conflicts.length > 0 ? [] : [...own.steps, ...system.steps],
    effects: [...own.effects, ...system.effects],
    conflicts,
  };
}

/** A plain list on a new sheet, as an office types one: no table, all of it text. */
function addList(
  builder: PlanBuilder,
  wanted: string,
  headings: readonly string[],
  rows: readonly (readonly string[])[],
  widths: readonly number[],
): void {
  const sheet = builder.sheetName(wanted);
  builder.steps.push(
    { kind: 'add-sheet', sheet },
    {
      kind: 'write',
      sheet,
      row: 0,
      column: 0,
      cells: [headings, ...rows],
      formats: headings.map(() => 'text'),
      expected: 'empty',
    },
    {
      kind: 'layout',
      sheet,
      layout: {
        printArea: `A:${columnName(headings.length - 1)}`,
        titleRows: '1:1',
        landscape: false,
        freeze: { rows: 1, columns: 1 },
        widths,
      },
    },
  );
  builder.effects.push({ kind: 'sheet', sheet, rows: rows.length, what: 'new sheet' });
}
