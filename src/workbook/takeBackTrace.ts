/** How far a plan was carried out: what was asked of Excel, and the sheets that it confirmed. */
import { blocksOf } from './blocks.ts';
import type { AddedSheet, RememberedPicture, UndoPlan } from './outcome.ts';
import type { Box } from './places.ts';
import type { PlanStep } from './plan.ts';
import type { KnownSheet, KnownTable } from './sheetIds.ts';

const blockId = ({ step, box }: { readonly step: number; readonly box: Box }): string => `${step} ${box.row}`;

export class Trace {
  private last = -1;
  private readonly blocks = new Set<string>();
  private readonly sheets = new Map<number, AddedSheet>();
  private readonly known = new Map<string, KnownSheet>();
  private readonly ourTables = new Map<string, KnownTable>();
  private there: readonly string[] = [];
  private grown = Infinity;
  private readonly kept = new Map<number, RememberedPicture>();

  /** The trace of a plan that was carried out to its end. */
  static whole(undo: UndoPlan): Trace {
    const trace = new Trace();
    undo.steps.forEach((step, index) => {
      trace.begin(step, index);
      for (const block of blocksOf(step, index)) trace.beginBlock(block);
    });
    trace.know(undo.sheets);
    trace.knowTables(undo.tables);
    for (const sheet of undo.added) trace.sheets.set(sheet.step, sheet);
    for (const picture of undo.pictures) trace.keepPicture(picture);
    return trace;
  }

  /** Which sheets the plan's names stand for. */
  know(sheets: readonly KnownSheet[]): void {
    for (const sheet of sheets) this.known.set(sheet.sheet, sheet);
  }

  /** Which tables the plan's names, and those in formulas, stand for. */
  knowTables(tables: readonly KnownTable[]): void {
    for (const table of tables) this.ourTables.set(table.table, table);
  }

  /** The ids of all sheets that were there before the first step. */
  setOutFrom(ids: readonly string[]): void {
    this.there = ids;
  }

  idsKnown = (): ReadonlySet<string> => new Set([...this.there, ...this.added().map(({ id }) => id)]);
  knownSheets = (): KnownSheet[] => [...this.known.values()];
  /** What Excel finds a sheet by, whatever it is called by now. */
  keyOf = (sheet: string): string => this.known.get(sheet)?.id ?? sheet;

  knownTables = (): KnownTable[] => [...this.ourTables.values()];
  tableKeyOf = (table: string): string => this.ourTables.get(table)?.id ?? table;

  begin(step: PlanStep, index: number): void {
    this.last = index;
    if (step.kind === 'resize-table') this.grown = Math.min(this.grown, index);
  }

  /** Excel has answered that it did nothing. */
  refused(step: number): void {
    this.last = step - 1;
  }

  beginBlock(block: { readonly step: number; readonly box: Box }): void {
    this.blocks.add(blockId(block));
  }

  /** Excel has answered that the sheet is there, and which one it is. */
  confirm(step: number, sheet: string, id: string): void {
    this.sheets.set(step, { step, sheet, id });
    this.know([{ sheet, id }]);
  }

  /** What lies where a picture is about to be put. */
  keepPicture(picture: RememberedPicture): void {
    this.kept.set(picture.step, picture);
  }

  pictureOf = (step: number): RememberedPicture | undefined => this.kept.get(step);
  pictures = (): RememberedPicture[] => [...this.kept.values()];

  hasBegun = (step: number): boolean => step <= this.last;
  hasBegunBlock = (block: { readonly step: number; readonly box: Box }): boolean =>
    this.blocks.has(blockId(block));
  /** A table that grew fills its calculated columns by itself, before we come to them. */
  mayHaveChanged = (block: { readonly step: number; readonly box: Box }): boolean =>
    this.hasBegunBlock(block) || this.grown < block.step;
  sheetOf = (step: number): AddedSheet | undefined => this.sheets.get(step);
  added = (): AddedSheet[] => [...this.sheets.values()];
}
