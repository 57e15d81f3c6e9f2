/**
 * What new keys are cut on and new cylinders take, as a person names it: a keyway, one of the shop's blanks, a number
 * of cuts, or two of these together; and the control cuts of interchangeable cores.
 */
import { parseBitting, type Bitting } from '../bitting.ts';
import type { BittingFinding } from '../findings.ts';
import { foldKeyway } from '../keyways.ts';
import { err, ok, type Result } from '../result.ts';
import { checkBitting, NO_RULES } from '../rules.ts';
import type { ShopBlank } from '../shop.ts';
import { positions, type Specification } from '../specification.ts';

/** Of a key: its blank. Of a cylinder: its keyway, and for how many cuts from the stop on it has pinned chambers. */
export interface BlankUse {
  readonly keyway?: string;
  /** Fewer than the spec's; left out where all fit. */
  readonly cuts?: number;
}

export type BlankFault =
  /** The shop has a table of blanks, and none of them enters this keyway. */
  | { readonly code: 'keyway-without-blank'; readonly keyway: string }
  /** A keyway was named, and every blank that enters it is too short for the spec. */
  | {
      readonly code: 'blanks-too-short';
      readonly keyway: string;
      readonly cuts: number;
      readonly needed: number;
      readonly blanks: readonly string[];
    }
  /** A cylinder has one keyway; this blank enters several, or none that is known. */
  | { readonly code: 'not-one-keyway'; readonly blank: string; readonly keyways: readonly string[] }
  | { readonly code: 'no-number-of-cuts'; readonly text: string; readonly most: number };

export type ControlFault = BittingFinding | { readonly code: 'control-without-core'; readonly spec: string };

/**
 * Reads a name: a blank of the shop's by its own name, else a keyway, with a number of cuts behind it or alone. A key
 * on a blank that enters several keyways carries the blank's name, as in the sheet Keys.
 * @example readBlank('K1', …) → ok({ keyway: 'K1' }); readBlank('K1 5 cuts', …) → ok({ keyway: 'K1', cuts: 5 })
 */
export function readBlank(
  text: string,
  spec: Specification,
  blanks: readonly ShopBlank[],
  whose: 'key' | 'cylinder',
): Result<BlankUse, BlankFault> {
  const [, typed = '', count] = /^(.*?)(?:[\s,]*\b(\d+)\s*cuts?)?$/i.exec(text.trim())!;
  const cuts: Result<BlankUse, BlankFault> = count === undefined ? ok({}) : readCuts(count, spec);
  if (!cuts.ok || typed === '') return cuts;
  const named = blanks.find((blank) => foldKeyway(blank.name) === foldKeyway(typed));
  if (named) {
    const { name, keyways } = named;
    if (whose === 'cylinder' && keyways.length !== 1)
      return err({ code: 'not-one-keyway', blank: name, keyways });
    return ok({ keyway: keyways.length === 1 ? keyways[0]! : name, ...shorter(named, spec), ...cuts.value });
  }
  const entering = blanks.filter(({ keyways }) => keyways.some((k) => foldKeyway(k) === foldKeyway(typed)));
  if (blanks.length > 0 && entering.length === 0) return err({ code: 'keyway-without-blank', keyway: typed });
  const needed = positions(spec);
  const most = entering.reduce((all, blank) => Math.max(all, blank.cuts ?? needed), 0);
  if (whose === 'key' && entering.length > 0 && most < (cuts.value.cuts ?? needed))
    return err({
      code: 'blanks-too-short',
      keyway: typed,
      cuts: most,
      needed: cuts.value.cuts ?? needed,
      blanks: entering.map(({ name }) => name),
    });
  return ok({ keyway: typed, ...cuts.value });
}

/** A number of cuts by itself, as a cell holds it. @example readCuts('5', spec of 6) → ok({ cuts: 5 }) */
export function readCuts(text: string, spec: Specification): Result<BlankUse, BlankFault> {
  const most = positions(spec);
  const cuts = /^\d+$/.test(text.trim()) ? Number(text) : 0;
  if (cuts < 1 || cuts > most) return err({ code: 'no-number-of-cuts', text, most });
  return ok(cuts < most ? { cuts } : {});
}

const shorter = ({ cuts }: ShopBlank, spec: Specification): BlankUse =>
  cuts !== undefined && cuts < positions(spec) ? { cuts } : {};

/** Control cuts as typed: they need a spec of cores, and neighbours that can be cut. */
export function readControl(
  code: string | number,
  spec: Specification,
): Result<Bitting, readonly ControlFault[]> {
  if (!spec.core) return err([{ code: 'control-without-core', spec: spec.name }]);
  const read = parseBitting(spec, code);
  if (!read.ok) return read;
  const faults = checkBitting(spec, read.value, { ...NO_RULES, macs: true });
  return faults.length > 0 ? err(faults) : read;
}
