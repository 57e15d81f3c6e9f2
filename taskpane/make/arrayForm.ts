/** The key bitting array between form, sheet and keying room: what is shown, what is edited, what is written. */
import { formatBitting } from '../../src/keying/bitting.ts';
import { formatDepthList } from '../../src/keying/chamberText.ts';
import type { CapacityFigures } from '../../src/keying/capacity.ts';
import type { Deal } from '../../src/keying/deal.ts';
import { positions, type Specification } from '../../src/keying/specification.ts';
import type { SheetArray } from '../../src/workbook/index.ts';
import { grouped } from '../pictures/numbers.ts';
import type { MakeForm } from './makeForm.ts';

export type Figures = Pick<CapacityFigures, 'topMaster' | 'array' | 'deal'>;

/** The array as the table shows it: typed where it was typed, else as the program chose it. */
export interface ShownArray {
  /** Symbol of the top master's cut in each chamber, blank where it isn't known yet. */
  readonly topMaster: readonly string[];
  readonly depths: readonly string[];
  readonly deal: Deal | undefined;
}

/** Undefined until the program has chosen what the form leaves open. */
export function shownArray(
  form: MakeForm,
  spec: Specification,
  figures: Figures | undefined,
): ShownArray | undefined {
  const count = positions(spec);
  const chosen = figures?.array.length === count ? figures : undefined;
  const depths =
    form.array.length > 0 ? form.array : chosen?.array.map((list) => formatDepthList(spec, list));
  if (!depths) return undefined;
  return {
    depths,
    topMaster: spec.centres.map((_, i) => (chosen ? formatDepthList(spec, [chosen.topMaster[i]!]) : '')),
    deal: form.deal.length > 0 ? form.deal : chosen?.deal,
  };
}

/** The form with the depths of one chamber as typed; the array belongs to the top master from then on. */
export function withDepths(
  form: MakeForm,
  spec: Specification,
  shown: ShownArray,
  figures: Figures | undefined,
  chamber: number,
  text: string,
): MakeForm {
  const topMaster = form.topMaster.trim() || (figures ? formatBitting(spec, figures.topMaster) : '');
  return { ...form, topMaster, array: shown.depths.map((old, i) => (i === chamber ? text : old)) };
}

/** The form with what the sheet says; its own fields stay for when the sheet is left. */
export const withSheet = (form: MakeForm, spec: Specification, sheet: SheetArray): MakeForm => ({
  ...form,
  topMaster: formatBitting(spec, sheet.topMaster),
  array: sheet.array.map((choices) => formatDepthList(spec, choices)),
  deal: sheet.deal ?? [],
  sequence: sheet.sequence ? sheet.sequence.map((chamber) => chamber + 1).join(' ') : '',
});

/** @example productWords([[1, 2], [3], [4, 5]]) → '2 × 1 × 2 = 4 theoretical changes' */
export function productWords(array: readonly (readonly number[])[]): string {
  const counts = array.map((choices) => Math.max(1, choices.length));
  const product = counts.reduce((all, n) => all * n, 1);
  return `${counts.join(' × ')} = ${grouped(product)} theoretical ${product === 1 ? 'change' : 'changes'}`;
}
