/**
 * What a grid's new keys and cylinders are made of: what the sheet says of each, what the pane says of the others.
 * Nothing is guessed: a name that can't be read is a fault, at its cell or at the pane's field.
 */
import type { Bitting } from '../keying/bitting.ts';
import { reachOf, carries } from '../keying/blankReach.ts';
import {
  readBlank,
  readControl,
  readCuts,
  sayBlank,
  sayControl,
  type BlankUse,
  type GridCylinder,
  type GridKey,
} from '../keying/grid/index.ts';
import type { ShopBlank } from '../keying/shop.ts';
import type { Specification } from '../keying/specification.ts';
import { parseKeySymbol } from '../keying/symbol.ts';
import type { ChartCylinder, ChartKey } from './gridChart.ts';
import type { Metal, Said } from './gridMetal.ts';
import { fold } from './names.ts';
import type { Problem } from './reading.ts';

/** As typed in the pane. */
export interface MetalWish {
  /** Keyway or blank of every key and cylinder that nothing else is said of. */
  readonly blank: string;
  /** Others: `K2: A1, Store; B5: A2`. */
  readonly others: string;
  /** Control cuts of every core that the sheet names none for. */
  readonly control: string;
}

export const NO_WISH: MetalWish = { blank: '', others: '', control: '' };

export interface MetalGround {
  readonly spec: Specification;
  readonly blanks: readonly ShopBlank[];
  /** What is new has these where nobody says otherwise. */
  readonly keyway?: string | undefined;
  readonly control?: Bitting | undefined;
  /** Names that stand already, folded: nothing new is asked of them. */
  readonly standing?: ReadonlySet<string>;
}

export interface AskedMetal {
  readonly keys: readonly GridKey[];
  readonly cylinders: readonly GridCylinder[];
  /** The keyway of keys that nothing else is said of. */
  readonly keyway?: string;
  /** Cells that can't be read. */
  readonly problems: readonly Problem[];
  /** Fields of the pane that can't be read, each with its sentence. */
  readonly faults: ReadonlyMap<keyof MetalWish, string>;
}

type Whose = 'key' | 'cylinder';

/**
 * Without a chart the wish is read alone: nothing is said of names that the grid hasn't.
 * @example askedMetal({ keys: [M, A1], cylinders: [Store] }, { blank: 'K1', others: 'K2: A1, Store', control: '' }, …)
 */
export function askedMetal(
  chart: { readonly keys: readonly ChartKey[]; readonly cylinders: readonly ChartCylinder[] } | undefined,
  wish: MetalWish,
  { spec, blanks, keyway, control: inherited, standing = new Set() }: MetalGround,
): AskedMetal {
  const problems: Problem[] = [];
  const faults = new Map<keyof MetalWish, string>();
  const atField =
    (field: keyof MetalWish) =>
    (sentence: string): void => {
      if (!faults.has(field)) faults.set(field, sentence);
    };
  const atCell =
    ({ at }: Said) =>
    (sentence: string): void => {
      problems.push({ ...at, severity: 'fault', sentence });
    };
  const blankFrom = (text: string, whose: Whose, report: (sentence: string) => void): BlankUse => {
    const read = readBlank(text, spec, blanks, whose);
    if (!read.ok) report(sayBlank(read.error));
    return read.ok ? read.value : {};
  };
  const controlFrom = (text: string, report: (sentence: string) => void): Bitting | undefined => {
    const read = text === '' ? undefined : readControl(text, spec);
    if (read && !read.ok) report(sayControl(read.error[0]!));
    return read?.ok ? read.value : undefined;
  };

  const forAll = (whose: Whose): BlankUse => ({
    ...(keyway !== undefined && { keyway }),
    ...blankFrom(wish.blank, whose, atField('blank')),
  });
  const keyOfAll = forAll('key');
  const others = readOthers(wish.others, atField('others'));
  // each is read once without its names too, so that a fault shows before the grid is read
  if (!chart) for (const { blank } of others) blankFrom(blank, 'key', atField('others'));
  const called = new Map(others.flatMap(({ blank, names }) => names.map((name) => [fold(name), blank])));
  const unmet = new Map(others.flatMap(({ names }) => names.map((name) => [fold(name), name])));

  const useOf = (whose: Whose, names: readonly string[], metal: Metal = {}): BlankUse => {
    const name = names.find((each) => called.has(fold(each)));
    for (const each of names) unmet.delete(fold(each));
    const own = name === undefined ? {} : blankFrom(called.get(fold(name))!, whose, atField('others'));
    const inSheet = metal.blank ? blankFrom(metal.blank.text, whose, atCell(metal.blank)) : {};
    if (name !== undefined && metal.blank)
      atField('others')(
        `${metal.blank.at.address} in the sheet says ${metal.blank.text} of ${name} already. Take one of the two away.`,
      );
    const counted = metal.cuts && readCuts(metal.cuts.text, spec);
    if (metal.cuts && counted && !counted.ok) atCell(metal.cuts)(sayBlank(counted.error));
    const said = over(inSheet, own);
    // a blank for all keys may enter several keyways, as long as each cylinder's own is named
    const use = said.keyway === undefined ? over(said, forAll(whose)) : said;
    return over(counted?.ok ? counted.value : {}, use);
  };
  const wished = controlFrom(wish.control.trim(), atField('control')) ?? inherited;

  const keys = (chart?.keys ?? []).map(({ symbol, metal }): GridKey => ({
    symbol,
    ...useOf('key', [symbol], metal),
  }));
  const cylinders = (chart?.cylinders ?? []).map(({ id, door, metal }): GridCylinder => {
    const { keyway: own, cuts } = useOf('cylinder', door ? [id, door] : [id], metal);
    const control = metal?.control ? controlFrom(metal.control.text, atCell(metal.control)) : wished;
    const reach = reachOf(spec, cuts);
    return {
      id,
      ...(own !== undefined && { keyway: own }),
      ...(cuts !== undefined && { inUse: spec.centres.map((_, i) => carries(reach, i)) }),
      ...(control && spec.core && { control }),
    };
  });
  for (const [name, typed] of chart ? unmet : [])
    atField('others')(
      standing.has(name)
        ? `${typed} stands already and stays as it is. Only what is new is named here.`
        : `“${typed}” is no key and no door of this grid. Correct it, or take it out.`,
    );
  return {
    keys,
    cylinders,
    problems,
    faults,
    ...(keyOfAll.keyway !== undefined && { keyway: keyOfAll.keyway }),
  };
}

/** What says more goes over what says less; a number of cuts alone leaves the keyway. */
const over = (upper: BlankUse, lower: BlankUse): BlankUse =>
  upper.keyway === undefined ? { ...lower, ...upper } : upper;

interface Other {
  readonly blank: string;
  readonly names: readonly string[];
}

/** @example readOthers('K2: A1, Store; B5: A2') → [{ blank: 'K2', names: ['A1', 'Store'] }, { blank: 'B5', names: ['A2'] }] */
function readOthers(text: string, report: (sentence: string) => void): Other[] {
  const seen = new Set<string>();
  return text
    .split(/[;\n]/)
    .map((part) => part.trim())
    .filter(Boolean)
    .map((part): Other => {
      const [blank = '', ...rest] = part.split(':');
      const names = rest
        .join(':')
        .split(',')
        .map((name) => name.trim())
        .filter(Boolean);
      if (names.length === 0 || blank === '')
        report(`“${part}” names no keyway with its keys and doors. Type K2: A1, Store.`);
      for (const name of names) {
        if (seen.has(fold(name))) report(`${name} is named twice. Take it out of one of the two.`);
        seen.add(fold(name));
      }
      return { blank, names };
    });
}

/** Whether a symbol is a control key's. @example isControlSymbol('CTR2') → true */
export function isControlSymbol(symbol: string): boolean {
  const read = parseKeySymbol(symbol);
  return read.ok && read.value.kind === 'control';
}

/** Of a chart the keys that turn cylinders: under a spec of cores a column CTR is about the key that pulls them. */
export function operatingKeys(
  keys: readonly ChartKey[],
  spec: Specification,
): { readonly keys: readonly ChartKey[]; readonly problems: readonly Problem[] } {
  const controls = keys.filter(({ symbol }) => isControlSymbol(symbol));
  if (!spec.core)
    return {
      keys,
      problems: controls.map(({ symbol, at }) => ({
        ...at,
        severity: 'warning',
        sentence: `${symbol} is called like a control key, but ${spec.name} has no interchangeable cores: it is made as a key that turns what it is marked for.`,
      })),
    };
  return {
    keys: keys.filter((key) => !controls.includes(key)),
    problems: controls.slice(1).map(({ symbol, at }) => ({
      ...at,
      severity: 'fault',
      sentence: `${symbol} is a second control key. Clear the columns of control keys, and type each core’s control cuts in a column Control.`,
    })),
  };
}
