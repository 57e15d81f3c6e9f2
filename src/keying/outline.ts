/**
 * The outline of a cut blade, to scale. Height at x is the lowest of all cuts there, capped by the blade:
 * min over cuts of root + max(0, |x − centre| − W/2) ÷ tan(A/2). That is the lower envelope of a few straight
 * lines, so its corners are found exactly: among the crossings of those lines.
 */
import type { Bitting } from './bitting.ts';
import { cutsFromStop, type Cut } from './cuts.ts';
import { cutterOf, type Cutter } from './geometry.ts';
import { increment, type Specification } from './specification.ts';
import { lengthOf, type Length } from './units.ts';

/** x from the gauge's stop towards the other end, y above the bottom of the blade. */
export interface OutlinePoint {
  readonly x: Length;
  readonly y: Length;
}

export interface OutlineOptions {
  /** The spec's own where none is named. */
  readonly cutter?: Cutter;
  /** Where the drawing starts and ends, from the stop. Default: the stop, and one spacing beyond the last centre. */
  readonly from?: Length;
  readonly to?: Length;
}

/** Height of the uncut blade: the spec's, or one increment above the shallowest cut where the spec has none. */
export function bladeTop(spec: Specification): Length {
  return spec.bladeHeight ?? lengthOf(spec.depths[0]!.root + increment(spec.depths));
}

interface Shape {
  readonly cuts: readonly Cut[];
  readonly top: number;
  /** Half of the flat at the root. */
  readonly half: number;
  readonly tangent: number;
}

function shapeOf(spec: Specification, bitting: Bitting, cutter: Cutter): Shape {
  return {
    cuts: cutsFromStop(spec, bitting),
    top: bladeTop(spec),
    half: Math.max(cutter.flat, spec.rootWidth) / 2,
    tangent: Math.tan((cutter.angle * Math.PI) / 360),
  };
}

/** Height of the blade at a distance from the stop, before rounding, in nanometres. */
export function bladeHeightAt(
  spec: Specification,
  bitting: Bitting,
  x: number,
  cutter: Cutter = cutterOf(spec),
): number {
  return heightOf(shapeOf(spec, bitting, cutter), x);
}

function heightOf({ cuts, top, half, tangent }: Shape, x: number): number {
  let height = top;
  for (const { centre, root } of cuts)
    height = Math.min(height, root + Math.max(0, Math.abs(x - centre) - half) / tangent);
  return height;
}

/**
 * The corners of the blade's upper edge from left to right, in nanometres.
 * @example bladeOutline(spec, bitting)[0] → { x: 0, y: the blade's height at the stop }
 */
export function bladeOutline(
  spec: Specification,
  bitting: Bitting,
  options: OutlineOptions = {},
): OutlinePoint[] {
  const shape = shapeOf(spec, bitting, options.cutter ?? cutterOf(spec));
  const from = options.from ?? lengthOf(0);
  const to = options.to ?? defaultEnd(spec);
  const xs = new Set([from, to]);
  for (const x of corners(shape)) if (x > from && x < to) xs.add(lengthOf(Math.round(x)));
  const points = [...xs]
    .sort((a, b) => a - b)
    .map((x) => ({ x, y: lengthOf(Math.round(heightOf(shape, x))) }));
  return withoutStraights(points);
}

function defaultEnd({ centres }: Specification): Length {
  const [beforeLast, last] = [centres[centres.length - 2]!, centres[centres.length - 1]!];
  return lengthOf(last + (last - beforeLast));
}

interface Line {
  readonly slope: number;
  /** A point that the line passes through. */
  readonly x: number;
  readonly y: number;
}

/** Where any two of the lines that bound the blade cross. */
function corners({ cuts, top, half, tangent }: Shape): number[] {
  const lines: Line[] = [{ slope: 0, x: 0, y: top }];
  for (const { centre, root } of cuts) {
    lines.push({ slope: 0, x: centre, y: root });
    lines.push({ slope: -1 / tangent, x: centre - half, y: root });
    lines.push({ slope: 1 / tangent, x: centre + half, y: root });
  }
  const found: number[] = [];
  for (const [i, a] of lines.entries())
    for (const b of lines.slice(i + 1))
      if (a.slope !== b.slope) found.push((b.y - a.y + a.slope * a.x - b.slope * b.x) / (a.slope - b.slope));
  return found;
}

/** Leaves out the points that lie on the straight between their neighbours, to within rounding. */
function withoutStraights(points: readonly OutlinePoint[]): OutlinePoint[] {
  const kept: OutlinePoint[] = [];
  points.forEach((point, i) => {
    const [before, after] = [kept[kept.length - 1], points[i + 1]];
    if (before && after) {
      const share = (point.x - before.x) / (after.x - before.x);
      if (Math.abs(before.y + share * (after.y - before.y) - point.y) <= ROUNDING) return;
    }
    kept.push(point);
  });
  return kept;
}

/** Two corners are each rounded to the nanometre; steep flanks multiply that. */
const ROUNDING = 4;
