/**
 * Sheets and tables by their ids. A plan calls a sheet what it was called when the plan was made, and a person may give
 * it another name while it is written or before it is taken back; so it is with our tables. Excel keeps an id through
 * that, and takes an id wherever it takes a name; an id has braces around it and is longer than any name.
 */
import { isFormula } from './cells.ts';
import { isOurs } from './names.ts';
import type { Remembered, UndoPlan } from './outcome.ts';
import { quoteSheet } from './places.ts';
import type { PlanStep } from './plan.ts';
import type { CellValue } from './reading.ts';

export interface KnownSheet {
  /** What the plan calls it. */
  readonly sheet: string;
  readonly id: string;
}

export interface KnownTable {
  /** What the plan calls it. */
  readonly table: string;
  readonly id: string;
}

/** The ids of our tables, whether the plan speaks of them or formulas in its cells do. */
export const knownTables = (tables: readonly Excel.Table[]): KnownTable[] =>
  tables.flatMap(({ name, id }) => (isOurs(name) ? [{ table: name, id }] : []));

/** Without folding of letters' widths: two sheets that only look alike are two. */
const key = (name: string): string => name.toLowerCase();

/** The ids of the sheets that a plan speaks of, as far as there are such. */
export function knownSheets(steps: readonly PlanStep[], sheets: readonly Excel.Worksheet[]): KnownSheet[] {
  const ids = new Map(sheets.map(({ name, id }) => [key(name), id]));
  const names = new Set(steps.map(sheetOf));
  return [...names].flatMap((sheet) => {
    const id = ids.get(key(sheet));
    return id === undefined ? [] : [{ sheet, id }];
  });
}

/** The sheet that a step is about. */
export function sheetOf(step: PlanStep): string {
  if (step.kind === 'add-table') return step.box.sheet;
  return step.kind === 'resize-table' ? step.from.sheet : step.sheet;
}

/** What sheets and tables are called now. */
export class NamesNow {
  private readonly names: ReadonlyMap<string, string>;
  private readonly tables: ReadonlyMap<string, string>;
  constructor(
    renamed: readonly (readonly [before: string, now: string])[],
    /** Sheets that were deleted, by the names that the plan has for them. */
    readonly gone: readonly string[],
    tables: readonly (readonly [before: string, now: string])[] = [],
    /** Tables that were deleted, or made plain cells of. */
    private readonly goneTables: readonly string[] = [],
  ) {
    this.names = new Map(renamed.map(([before, now]) => [key(before), now]));
    this.tables = new Map(tables.map(([before, now]) => [key(before), now]));
  }

  of = (sheet: string): string => this.names.get(key(sheet)) ?? sheet;
  isGone = (sheet: string): boolean => this.gone.some((name) => key(name) === key(sheet));

  ofTable = (table: string): string => this.tables.get(key(table)) ?? table;
  isTableGone = (table: string): boolean => this.goneTables.some((name) => key(name) === key(table));
  private readonly same = (): boolean => this.names.size + this.tables.size === 0;

  private in = <T extends { readonly sheet: string }>(one: T): T => ({ ...one, sheet: this.of(one.sheet) });

  steps(steps: readonly PlanStep[]): readonly PlanStep[] {
    if (this.same()) return steps;
    return steps.map((step) => {
      if (step.kind === 'add-table')
        return { ...step, name: this.ofTable(step.name), box: this.in(step.box) };
      if (step.kind === 'resize-table')
        return {
          ...step,
          name: this.ofTable(step.name),
          from: this.in(step.from),
          to: this.in(step.to),
        };
      return this.in(step);
    });
  }

  /** Contents of cells, with formulas that follow their sheets and tables as Excel makes those in cells follow. */
  contents(contents: readonly Remembered[]): readonly Remembered[] {
    if (this.same()) return contents;
    return contents.map((one) => ({
      ...one,
      box: this.in(one.box),
      formulas: one.formulas.map((row, r) =>
        row.map((cell, c) => (isFormula(cell, one.values[r]?.[c] ?? '') ? this.formula(cell) : cell)),
      ),
    }));
  }

  undo(undo: UndoPlan): UndoPlan {
    const { steps, before, after, added } = undo;
    return {
      ...undo,
      steps: this.steps(steps),
      before: this.contents(before),
      after: this.contents(after),
      added: added.map(this.in),
    };
  }

  private formula(cell: CellValue): CellValue {
    if (typeof cell !== 'string' || cell.length > LONGEST_FORMULA) return cell;
    return cell.replace(REFERENCE, (whole: string, quoted?: string, plain?: string, table?: string) => {
      if (table !== undefined) return this.ofTable(table);
      const said = quoted?.replaceAll("''", "'") ?? plain;
      if (said === undefined) return whole;
      // a reference through several sheets names the first and the last: Keys:Grid!A1
      const [parts, now] = [said.split(':'), said.split(':').map(this.of)];
      return parts.every((part, i) => part === now[i]) ? whole : `${quotedAsExcel(now)}!`;
    });
  }
}

/** Excel's limit. */
const LONGEST_FORMULA = 8_192;

/**
 * Texts, which are passed over; sheets in front of an exclamation mark, but for those of other workbooks; and words that
 * may name a table: ours begin with Keyrow, which no function or column of a sheet does.
 */
const REFERENCE =
  /"(?:[^"]|"")*"|'((?:[^']|'')*)'!|(?<![\p{L}\p{N}_.:\]])([\p{L}_][\p{L}\p{N}_.:]*)!|(?<![\p{L}\p{N}_.!])(Keyrow[\p{L}\p{N}_]*)(?![\p{L}\p{N}_.!(])/giu;

/** Excel quotes a name only where it must: one of letters and digits that reads like no cell stands as it is. */
function quotedAsExcel(names: readonly string[]): string {
  const plain = names.every(
    (name) => /^[\p{L}_][\p{L}\p{N}_.]*$/u.test(name) && !/^(?:[a-z]{1,3}\d+|r\d*c?\d*|c\d*)$/i.test(name),
  );
  return plain ? names.join(':') : quoteSheet(names.join(':'));
}

/** Asks Excel what the sheets and tables are called by now. */
export async function namesNow(
  context: Excel.RequestContext,
  known: readonly KnownSheet[],
  ourTables: readonly KnownTable[],
): Promise<NamesNow> {
  const { worksheets, tables } = context.workbook;
  worksheets.load('items/name,items/id');
  tables.load('items/name,items/id');
  await context.sync();
  const tableNames = new Map(tables.items.map(({ id, name }) => [id, name]));
  const names = new Map(worksheets.items.map(({ id, name }) => [id, name]));
  return new NamesNow(
    known.flatMap(({ sheet, id }) => {
      const now = names.get(id);
      return now === undefined || now === sheet ? [] : [[sheet, now] as const];
    }),
    known.flatMap(({ sheet, id }) => (names.has(id) ? [] : [sheet])),
    ourTables.flatMap(({ table, id }) => {
      const now = tableNames.get(id);
      return now === undefined || now === table ? [] : [[table, now] as const];
    }),
    ourTables.flatMap(({ table, id }) => (tableNames.has(id) ? [] : [table])),
  );
}
