/** How far a plan was carried out: what was asked of Excel, and the sheets that it confirmed. */
import { blocksOf } from './blocks.ts';
import type { AddedSheet, RememberedPicture, UndoPlan } from './outcome.ts';
import type { Box } from './places.ts';
import type { PlanStep } from './plan.ts';

const blockId = ({ step, box }: { readonly step: number; readonly box: Box }): string => `${step} ${box.row}`;

export class Trace {
  private last = -1;
  private readonly blocks = new Set<string>();
  private readonly sheets = new Map<number, AddedSheet>();
  private grown = Infinity;
  private readonly kept = new Map<number, RememberedPicture>();

  /** The trace of a plan that was carried out to its end. */
  static whole(undo: UndoPlan): Trace {
    const trace = new Trace();
    undo.steps.forEach((step, index) => {
      trace.begin(step, index);
      for (const block of blocksOf(step, index)) trace.beginBlock(block);
    });
    for (const sheet of undo.added) trace.sheets.set(sheet.step, sheet);
    for (const picture of undo.pictures) trace.keepPicture(picture);
    return trace;
  }

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
