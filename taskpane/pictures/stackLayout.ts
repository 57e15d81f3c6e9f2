/**
 * Where everything of the pin stack drawing lies, in pixels. Heights are to scale and measured from the shear line;
 * a key in the plug lifts each stack by the difference of its root depth from that of the chamber's shallowest depth.
 */
import { increment, type Specification } from '../../src/keying/specification.ts';
import type { StackChamber, StackPin } from './stackFacts.ts';

export interface DrawnPin extends StackPin {
  readonly top: number;
  readonly height: number;
  /** Baseline of its label, moved away from its neighbours' where pins are thin. */
  readonly labelY: number;
  /** A key is in and this pin lies across the shear line. */
  readonly blocks: boolean;
}

export interface DrawnChamber extends Omit<StackChamber, 'pins'> {
  readonly x: number;
  readonly pins: readonly DrawnPin[];
}

export interface StackLayout {
  /** Pixels a nanometre. */
  readonly scale: number;
  readonly column: number;
  readonly pinWidth: number;
  readonly shearY: number;
  readonly controlY?: number;
  readonly top: number;
  readonly bottom: number;
  readonly chambers: readonly DrawnChamber[];
}

export const GUTTER = 56;
const MOST_TALL = 190;
/** Room for a spring over the highest top pin. */
const SPRING = 16;
const LABEL = 11;

export interface StackLayoutOptions {
  readonly top: number;
  /** Depth index of the key in the plug at each chamber; without a key, the shallowest depth of each. */
  readonly keyIn?: readonly number[];
}

export function layOutStack(
  spec: Specification,
  chambers: readonly StackChamber[],
  width: number,
  { top, keyIn }: StackLayoutOptions,
): StackLayout {
  const column = (width - GUTTER) / chambers.length;
  const stacks = chambers.map((chamber, i) => spansOf(spec, chamber, keyIn?.[i]));
  const control =
    spec.core && chambers.some(hasBuildUp) ? spec.core.addition * increment(spec.depths) : undefined;
  const ends = stacks.flat().flatMap(({ from, to }) => [from, to]);
  const highest = Math.max(0, control ?? 0, ...ends);
  const lowest = Math.min(0, ...ends);
  const spacing = (spec.centres[1]! - spec.centres[0]!) as number;
  const scale = Math.min(column / spacing, MOST_TALL / Math.max(1, highest - lowest));
  const shearY = top + SPRING + highest * scale;
  const yOf = (aboveShear: number) => shearY - aboveShear * scale;
  return {
    scale,
    column,
    pinWidth: Math.min(column - 18, 30),
    shearY,
    ...(control !== undefined && { controlY: yOf(control) }),
    top,
    bottom: yOf(lowest) + 6,
    chambers: chambers.map((chamber, i) => {
      const spans = stacks[i]!;
      const labels = spread(
        spans.map(({ from, to }) => yOf((from + to) / 2) + 4),
        LABEL,
      );
      return {
        ...chamber,
        x: GUTTER + column * i,
        pins: spans.map(({ pin, from, to }, k) => ({
          ...pin,
          top: yOf(to),
          height: (to - from) * scale,
          labelY: labels[k]!,
          blocks: keyIn?.[i] !== undefined && from < 0 && to > 0,
        })),
      };
    }),
  };
}

const hasBuildUp = ({ pins }: StackChamber): boolean => pins.some((pin) => pin.role === 'build-up');

interface Span {
  readonly pin: StackPin;
  /** Above the shear line, nm; negative below it. */
  readonly from: number;
  readonly to: number;
}

function spansOf(spec: Specification, { pins, depths }: StackChamber, key: number | undefined): Span[] {
  const shallowest = depths[0];
  if (shallowest === undefined) return [];
  const lift = key === undefined ? 0 : spec.depths[key]!.root - spec.depths[shallowest]!.root;
  const spans: Span[] = [];
  let at = 0;
  for (const pin of pins) {
    const length = drawnLength(spec, pin);
    at = pin.role === 'bottom' ? lift : at;
    spans.push(
      pin.role === 'bottom' ? { pin, from: at - length, to: at } : { pin, from: at, to: at + length },
    );
    if (pin.role !== 'bottom') at += length;
  }
  return spans;
}

/** Where a spec doesn't tell the length of a bottom pin, it is drawn as its steps on a nominal pin. */
function drawnLength(spec: Specification, { length, steps = 0 }: StackPin): number {
  return Math.max(0, length ?? (steps + 8) * increment(spec.depths));
}

/** Whether the drawing has pins whose length isn't known. */
export const isNominal = (chambers: readonly StackChamber[]): boolean =>
  chambers.some(({ pins }) => pins.some((pin) => pin.length === undefined));

/**
 * Moves labels, listed from the lowest up (y falling), apart to a least distance, as little as possible in sum.
 * @example spread([50, 48], 10) → [54, 44]
 */
export function spread(ys: readonly number[], least: number): number[] {
  const placed = [...ys];
  // each pass halves the overlap of a pair; a chamber has few pins
  for (let pass = 0; pass < 20; pass++)
    for (let i = 1; i < placed.length; i++) {
      const overlap = least - (placed[i - 1]! - placed[i]!);
      if (overlap <= 0.01) continue;
      placed[i - 1] = placed[i - 1]! + overlap / 2;
      placed[i] = placed[i]! - overlap / 2;
    }
  return placed;
}

/** Whether a pin's joint lies on the shear line for a key. */
export const shearsAt = (chamber: StackChamber, key: number): boolean =>
  chamber.empty || chamber.depths.includes(key);
