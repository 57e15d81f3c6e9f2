/**
 * Pins out of the shop's kit: the nearest size of the right kind, the error of each pin and of the whole stack, and
 * how many of each the job needs. Sizes are whole nanometres, so that 0.115 in taken for 0.113 in is an error of
 * exactly 0.002 in.
 */
import { coreStack } from './core.ts';
import type { DepthSet } from './depthSet.ts';
import { nearestPin, pinStack, type Pin } from './pinning.ts';
import type { Specification } from './specification.ts';
import { add, lengthOf, type Length } from './units.ts';

export const PIN_KINDS = ['bottom', 'master', 'build-up', 'top'] as const;
export type StackedKind = (typeof PIN_KINDS)[number];
/** `any`: a size that does for every kind. */
export type PinKind = StackedKind | 'any';

/** A size of the shop's kit. */
export interface ShopPin {
  readonly name: string;
  readonly kind: PinKind;
  readonly length: Length;
  readonly stock?: number;
}

/** One pin of a chamber: what the spec asks for, and what the kit has for it. */
export interface KitPin {
  readonly kind: StackedKind;
  readonly steps: number | undefined;
  /** Missing where the spec doesn't tell lengths. */
  readonly wanted?: Length;
  /** Missing where the kit has no size of that kind, or nothing is wanted. */
  readonly pin?: ShopPin;
  /** Size less length wanted. */
  readonly error?: Length;
}

export interface KitStack {
  /** From the plug's bottom upwards. */
  readonly pins: readonly KitPin[];
  /**
   * Sum of errors up to the highest pin at or below the shear line of each depth, from the shallowest depth on: how
   * far the line of that depth is off. Missing where a pin is.
   */
  readonly lineErrors?: readonly Length[];
  /** The same up to the build-up pin: how far a core's control line is off. Missing on other cylinders too. */
  readonly controlError?: Length;
  readonly tooTall: boolean;
}

/**
 * The pins of one chamber from a kit; undefined for an empty chamber, and for one of a core without its control cut,
 * whose stack can't be known.
 * @example depths {2, 6} at 0.018 in with sizes in 0.005 in → bottom 0.221 → 0.220, master 0.072 → 0.070
 */
export function kitStack(
  spec: Specification,
  set: DepthSet,
  kit: readonly ShopPin[],
  control?: number,
): KitStack | undefined {
  if (spec.core && control === undefined) return undefined;
  const core = control !== undefined && spec.core ? coreStack(spec, set, control) : undefined;
  const plain = core ? undefined : pinStack(spec, set);
  const stack = core ?? plain;
  if (!stack) return undefined;
  const take = (kind: StackedKind, pin: Partial<Pin>): KitPin => fromKit(kind, pin, kit);
  const below = [take('bottom', stack.bottom), ...stack.masters.map((pin) => take('master', pin))];
  const above: KitPin[] = core
    ? [take('build-up', core.buildUp), take('top', core.top)]
    : plain?.top === undefined
      ? []
      : [take('top', { length: plain.top })];
  const lineErrors = runningErrors(below);
  // the top pin lies above the control line
  const controlError = core && runningErrors([...below, ...above.slice(0, 1)])?.at(-1);
  return {
    pins: [...below, ...above],
    tooTall: stack.tooTall,
    ...(lineErrors && { lineErrors }),
    ...(controlError !== undefined && { controlError }),
  };
}

function fromKit(
  kind: StackedKind,
  { steps, length }: { readonly steps?: number; readonly length?: Length },
  kit: readonly ShopPin[],
): KitPin {
  const own = kit.filter((pin) => pin.kind === kind);
  // sizes stated for the kind go before those for any
  const sizes = own.length > 0 ? own : kit.filter((pin) => pin.kind === 'any');
  const nearest =
    length === undefined || length <= 0
      ? undefined
      : nearestPin(
          length,
          sizes.map((pin) => pin.length),
        );
  return {
    kind,
    steps,
    ...(length !== undefined && { wanted: length }),
    ...(nearest && {
      pin: sizes.find((pin) => pin.length === nearest.size)!,
      error: nearest.error,
    }),
  };
}

function runningErrors(pins: readonly KitPin[]): Length[] | undefined {
  const errors: Length[] = [];
  let sum = lengthOf(0);
  for (const { error } of pins) {
    if (error === undefined) return undefined;
    sum = add(sum, error);
    errors.push(sum);
  }
  return errors;
}

/** How many of one size, or of one length that the kit lacks, a job needs. */
export interface KitCount {
  readonly kind: StackedKind;
  readonly steps: number | undefined;
  readonly wanted: Length | undefined;
  readonly pin: ShopPin | undefined;
  readonly error: Length | undefined;
  readonly count: number;
}

/**
 * The kit list of a job: every pin of every stack counted by kind, length wanted and size taken, bottom pins first,
 * short before long.
 * @example kitList([stack, stack]) → [{ kind: 'bottom', …, count: 2 }, …]
 */
export function kitList(stacks: readonly KitStack[]): KitCount[] {
  const counts = new Map<string, KitCount>();
  for (const { kind, steps, wanted, pin, error } of stacks.flatMap((stack) => stack.pins)) {
    const key = `${kind} ${wanted ?? `steps ${steps ?? ''}`}`;
    const there = counts.get(key);
    counts.set(key, { kind, steps, wanted, pin, error, count: (there?.count ?? 0) + 1 });
  }
  return [...counts.values()].sort(
    (a, b) =>
      PIN_KINDS.indexOf(a.kind) - PIN_KINDS.indexOf(b.kind) ||
      (a.wanted ?? a.steps ?? 0) - (b.wanted ?? b.steps ?? 0),
  );
}

/** Sizes of which the job needs more than are in stock. */
export function shortages(list: readonly KitCount[]): { pin: ShopPin; needed: number; short: number }[] {
  const needed = new Map<ShopPin, number>();
  for (const { pin, count } of list) if (pin) needed.set(pin, (needed.get(pin) ?? 0) + count);
  return [...needed].flatMap(([pin, n]) =>
    pin.stock !== undefined && n > pin.stock ? [{ pin, needed: n, short: n - pin.stock }] : [],
  );
}
