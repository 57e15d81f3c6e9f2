/**
 * Pictures on a sheet: put there, replaced by name, taken back. Called by the carrying out of plans and by nothing
 * else. A picture of ours is known by its name, wherever the user has moved it.
 */
import { fold } from './names.ts';
import type { RememberedPicture } from './outcome.ts';
import type { PictureStep } from './plan.ts';

/** Something else lies where the picture would go. */
export class PictureInTheWay extends Error {}

/** Room between the cell's edges and the picture, in points. */
const MARGIN = 4;

interface Shapes {
  readonly all: readonly Excel.Shape[];
  readonly same: Excel.Shape | undefined;
}

async function shapesOn(context: Excel.RequestContext, sheet: string, name: string): Promise<Shapes> {
  const { shapes } = context.workbook.worksheets.getItem(sheet);
  shapes.load('items/name,items/left,items/top,items/width,items/height,items/altTextDescription');
  await context.sync();
  return { all: shapes.items, same: shapes.items.find((shape) => fold(shape.name) === fold(name)) };
}

const cellOf = (context: Excel.RequestContext, { sheet, row, column }: PictureStep): Excel.Range =>
  context.workbook.worksheets.getItem(sheet).getRangeByIndexes(row, column, 1, 1);

/** What lies where the picture is about to be put, so that it can be put back. */
export async function rememberPicture(
  context: Excel.RequestContext,
  step: PictureStep,
  index: number,
): Promise<RememberedPicture> {
  const cell = cellOf(context, step);
  cell.format.load('rowHeight');
  const { same } = await shapesOn(context, step.sheet, step.name);
  const image = same?.getAsImage('PNG');
  await context.sync();
  const { rowHeight } = cell.format;
  if (!same || !image) return { step: index, rowHeight };
  const { altTextDescription: alt, left, top, width, height } = same;
  return { step: index, rowHeight, replaced: { base64: image.value, alt, left, top, width, height } };
}

/** Puts the picture over its cell; the step has the sheet's id, `called` its name. Throws `PictureInTheWay` where anything else would be covered. */
export async function placePicture(
  context: Excel.RequestContext,
  step: PictureStep,
  called: string,
): Promise<void> {
  const cell = cellOf(context, step);
  cell.format.rowHeight = step.rowHeight;
  cell.load('left,top');
  const { all, same } = await shapesOn(context, step.sheet, step.name);
  const [left, top] = [cell.left + MARGIN, cell.top + MARGIN];
  const covered = all.find(
    (shape) =>
      shape !== same &&
      shape.left < left + step.width &&
      shape.left + shape.width > left &&
      shape.top < top + step.height &&
      shape.top + shape.height > top,
  );
  if (covered)
    throw new PictureInTheWay(
      `“${covered.name}” on ${called} lies where the picture would go. Move or delete it first.`,
    );
  same?.delete();
  addPicture(context, step.sheet, { ...step, left, top });
  await context.sync();
}

type Placed = Pick<PictureStep, 'name' | 'alt' | 'base64' | 'width' | 'height'> & {
  readonly left: number;
  readonly top: number;
};

function addPicture(context: Excel.RequestContext, sheet: string, placed: Placed): void {
  const shape = context.workbook.worksheets.getItem(sheet).shapes.addImage(placed.base64);
  shape.name = placed.name;
  shape.altTextDescription = placed.alt;
  shape.lockAspectRatio = false;
  shape.left = placed.left;
  shape.top = placed.top;
  shape.width = placed.width;
  shape.height = placed.height;
  shape.lockAspectRatio = true;
}

/** Takes the picture away again and puts back what lay there. May be repeated without harm. */
export async function putPictureBack(
  context: Excel.RequestContext,
  step: PictureStep,
  { rowHeight, replaced }: RememberedPicture,
): Promise<void> {
  const { same } = await shapesOn(context, step.sheet, step.name);
  same?.delete();
  if (replaced) addPicture(context, step.sheet, { name: step.name, ...replaced });
  cellOf(context, step).format.rowHeight = rowHeight;
  await context.sync();
}
