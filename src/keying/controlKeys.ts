/**
 * The control keys that new cores need: one for all cores with the same control cuts whose keyways one blank enters,
 * a further one where none does. A control key that is there already serves for every core that it pulls.
 */
import type { Mark } from './intended.ts';
import { entersKeyway, foldKeyway, type Entering } from './keyways.ts';
import { nextSymbol } from './symbol.ts';
import { foldSymbol, isInUse, type CylinderRecord, type KeyRecord } from './system.ts';

type Core = Pick<CylinderRecord, 'id' | 'keyway' | 'control'>;

export interface ControlKeys {
  /** Those that have to be made. */
  readonly keys: readonly KeyRecord[];
  /** Which of all pulls which core. */
  readonly marks: readonly Mark[];
}

export interface ControlGround {
  /** Keys that are there: their symbols are taken, and their control keys serve. */
  readonly keys: readonly KeyRecord[];
  /** Taken first where its blanks enter. */
  readonly keyway?: string | undefined;
  readonly enters?: Entering | undefined;
}

/** @example two cores with the same control cuts, keyways K1 and K2, no blank for both → CTR on K1 and CTR1 on K2 */
export function controlKeysFor(
  cores: readonly Core[],
  { keys: there, keyway, enters }: ControlGround,
): ControlKeys {
  const made: KeyRecord[] = [];
  const marks: Mark[] = [];
  const taken = new Set(there.map(({ symbol }) => foldSymbol(symbol)));
  let left = cores.filter(({ control }) => control);
  const serve = (key: Pick<KeyRecord, 'symbol' | 'bitting' | 'keyway'>): void => {
    const pulls = (core: Core): boolean =>
      core.control!.join() === key.bitting.join() && entersKeyway(enters, key.keyway, core.keyway);
    marks.push(...left.filter(pulls).map(({ id }) => ({ key: key.symbol, cylinder: id })));
    left = left.filter((core) => !pulls(core));
  };
  for (const key of there) if (key.level === 'control' && isInUse(key)) serve(key);
  for (let core = left[0]; core; core = left[0]) {
    const bitting = core.control!;
    const alike = left.filter(({ control }) => control!.join() === bitting.join());
    const own = blankFor(core, alike, keyway, enters);
    const symbol = freeSymbol(taken);
    const key: KeyRecord = {
      symbol,
      level: 'control',
      bitting,
      status: 'issued',
      ...(own !== undefined && { keyway: own }),
    };
    made.push(key);
    serve(key);
  }
  return { keys: made, marks };
}

/** Of the keyways whose blanks enter this core, the one that enters most of those with the same cuts. */
function blankFor(
  core: Core,
  alike: readonly Core[],
  keyway: string | undefined,
  enters: Entering | undefined,
): string | undefined {
  const reached = (name: string | undefined): number =>
    alike.filter((other) => entersKeyway(enters, name, other.keyway)).length;
  // without a name it would count as entering every keyway
  const named = [keyway, ...alike.map((other) => other.keyway), ...Object.keys(enters ?? {})].filter(
    (name): name is string => foldKeyway(name) !== '' && entersKeyway(enters, name, core.keyway),
  );
  return named.reduce<string | undefined>(
    (best, name) => (best === undefined || reached(name) > reached(best) ? name : best),
    undefined,
  );
}

function freeSymbol(taken: Set<string>): string {
  let symbol = 'CTR';
  while (taken.has(symbol)) symbol = nextSymbol(symbol)!;
  taken.add(symbol);
  return symbol;
}
