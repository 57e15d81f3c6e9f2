/**
 * Where everything of the blade drawing lies, in pixels. The bow is always at the left and one scale serves both
 * directions; the lengths are keying's own, so a number in the drawing is never computed here.
 */
import type { Bitting } from '../../src/keying/bitting.ts';
import { cutsFromStop, type Cut } from '../../src/keying/cuts.ts';
import type { Cutter } from '../../src/keying/geometry.ts';
import { bladeOutline, bladeTop } from '../../src/keying/outline.ts';
import type { Specification } from '../../src/keying/specification.ts';
import { fitNumbers, fits } from './fitNumber.ts';
import { formatNumber, toUnit, type Length, type Unit } from '../../src/keying/units.ts';

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A cut with its place in the drawing. */
export interface DrawnCut extends Cut {
  readonly x: number;
  readonly rootY: number;
  readonly rootText: string;
  readonly centreText: string;
}

export interface Tick {
  readonly x: number;
  /** Only long ticks carry a number. */
  readonly label?: string;
}

export interface BladeLayout {
  /** Pixels a nanometre, the same in both directions. */
  readonly scale: number;
  readonly width: number;
  readonly top: number;
  readonly bottom: number;
  readonly stopX: number;
  /** Where the drawing of the blade is broken off: the bow's side for a tip stop, the tip's side for a shoulder. */
  readonly breakX: number;
  /** From the bow to the tip. */
  readonly cuts: readonly DrawnCut[];
  /** The cut edge from the bow's side to the tip's. */
  readonly edge: readonly Point[];
  readonly ticks: readonly Tick[];
  /** Numbers fit side by side in one row under, or inside, the blade. */
  readonly numbersFit: boolean;
}

/** Room at the left for the names of the rows, and half of the first number. */
const CAPTIONS = 58;
const HALF_NUMBER = 16;
/** Of the bow beyond the shoulder, or of the blade beyond the last cut. */
const STUB = 27;
const RIGHT = 12;

export interface BladeLayoutOptions {
  readonly cutter?: Cutter;
  /** y of the blade's top edge. */
  readonly top: number;
}

export function layOutBlade(
  spec: Specification,
  bitting: Bitting,
  width: number,
  { cutter, top }: BladeLayoutOptions,
): BladeLayout {
  const outline = bladeOutline(spec, bitting, cutter ? { cutter } : {});
  const end = outline[outline.length - 1]!.x;
  const first = spec.centres[0]!;
  const last = spec.centres[spec.centres.length - 1]!;
  const fromShoulder = spec.gauge === 'shoulder';
  const leftOfCuts = CAPTIONS + HALF_NUMBER;
  const scale = fromShoulder
    ? Math.min((width - STUB - RIGHT) / end, (width - leftOfCuts - RIGHT) / (end - first))
    : Math.min((width - STUB - RIGHT) / end, (width - leftOfCuts - RIGHT) / last);
  const stopX = fromShoulder ? width - RIGHT - end * scale : width - RIGHT;
  const x = (fromStop: number) => stopX + (fromShoulder ? 1 : -1) * fromStop * scale;
  const height = bladeTop(spec);
  const y = (aboveBottom: number) => top + (height - aboveBottom) * scale;
  const bowToTip = <T>(items: readonly T[]) => (fromShoulder ? [...items] : [...items].reverse());
  const placed = bowToTip(cutsFromStop(spec, bitting)).map((cut) => ({
    ...cut,
    x: x(cut.centre),
    rootY: y(cut.root),
  }));
  const pitch = Math.min(...placed.slice(1).map((cut, i) => cut.x - placed[i]!.x));
  const texts = (lengths: readonly Length[]) =>
    fitNumbers(
      lengths.map((l) => formatNumber(l, spec.unit)),
      pitch,
    );
  const roots = texts(placed.map((cut) => cut.root));
  const centres = texts(placed.map((cut) => cut.centre));
  const cuts = placed.map((cut, i) => ({ ...cut, rootText: roots[i]!, centreText: centres[i]! }));
  return {
    scale,
    width,
    top,
    bottom: y(0),
    stopX,
    breakX: fromShoulder ? x(end) : Math.max(4, x(end)),
    cuts,
    edge: bowToTip(outline).map((p) => ({ x: x(p.x), y: y(p.y) })),
    ticks: ticksOf(spec.unit, end).map(({ at, label }) => ({ x: x(at), ...(label && { label }) })),
    numbersFit: fits([...roots, ...centres], pitch),
  };
}

/** A twentieth of an inch or a millimetre apart, numbered at every fourth or fifth. */
const RULERS: Record<Unit, { readonly step: number; readonly numbered: number; readonly digits: number }> = {
  in: { step: 1_270_000, numbered: 4, digits: 1 },
  mm: { step: 1_000_000, numbered: 5, digits: 0 },
};

function ticksOf(unit: Unit, end: Length): { at: number; label?: string }[] {
  const { step, numbered, digits } = RULERS[unit];
  return Array.from({ length: Math.floor(end / step) + 1 }, (_, i) => {
    const at = i * step;
    const perUnit = toUnit(end, unit) / end;
    return i % numbered === 0 ? { at, label: i === 0 ? '0' : (at * perUnit).toFixed(digits) } : { at };
  });
}
