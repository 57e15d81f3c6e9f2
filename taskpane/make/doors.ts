/**
 * Doors from the shop's own sheet as groups of a system. Where the sheet has keyset symbols they decide the tree:
 * AA1 and AA2 stand under AA, and doors with the same symbol share a key. Where it has none, each door gets a change
 * key of its own, and the doors are shared out among the masters in the order of the sheet.
 */
import { parseKeySymbol } from '../../src/keying/symbol.ts';
import type { GrandRequest, MasterRequest } from '../../src/keying/systemRequest.ts';

export interface Door {
  readonly door: string;
  readonly symbol?: string;
  /** Cylinders at this door, 1 when left out; each gets its own row. */
  readonly quantity?: number;
}

export interface DoorTree {
  readonly levels: 2 | 3 | 4;
  readonly grands: readonly GrandRequest[];
  readonly doors: number;
  /** Doors whose symbol names no change key of this hierarchy: they stay out, and are listed. */
  readonly left: readonly Door[];
}

/** Letters that a change key's symbol has in systems of each number of levels, and where its number stands. */
const LETTERS = 2;

/**
 * Groups from doors. `masters` counts are used only where no door has a symbol.
 * @example doorTree([{ door: '101', symbol: 'AA1' }, { door: '102', symbol: 'AA1' }], 3, 1).grands
 *   → one grand with the master AA, one change key, doors [['101', '102']]
 */
export function doorTree(doors: readonly Door[], levels: 2 | 3 | 4, masters: number): DoorTree {
  return doors.some((d) => d.symbol?.trim())
    ? bySymbol(doors, levels)
    : { levels, doors: doors.length, left: [], grands: inTurn(doors, levels, masters) };
}

const cylindersAt = ({ door, quantity = 1 }: Door): string[] => new Array<string>(quantity).fill(door);

function inTurn(doors: readonly Door[], levels: 2 | 3 | 4, masters: number): GrandRequest[] {
  const groups = levels === 2 ? 1 : Math.max(1, Math.min(masters, doors.length));
  const requests: MasterRequest[] = [];
  let next = 0;
  for (let g = 0; g < groups; g++) {
    const size = Math.ceil((doors.length - next) / (groups - g));
    const mine = doors.slice(next, (next += size));
    requests.push({ changeKeys: mine.length, doors: mine.map(cylindersAt) });
  }
  return [{ masters: requests }];
}

function groupBy<T>(items: readonly T[], keyOf: (item: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const item of items) {
    const known = groups.get(keyOf(item));
    if (known) known.push(item);
    else groups.set(keyOf(item), [item]);
  }
  return groups;
}

interface Placed {
  readonly master: string;
  readonly number: number;
  readonly door: Door;
}

function bySymbol(doors: readonly Door[], levels: 2 | 3 | 4): DoorTree {
  const placed: Placed[] = [];
  const left: Door[] = [];
  for (const door of doors) {
    const at = placeOf(door, levels);
    if (at) placed.push(at);
    else left.push(door);
  }
  const byMaster = groupBy(placed, (p) => p.master);
  const names = [...byMaster.keys()].sort((a, b) => a.length - b.length || a.localeCompare(b, 'en'));
  // a system of three levels has one grand master: doors under another one can't stand in it
  const first = names[0]?.[0];
  const kept = levels === 4 ? names : levels === 3 ? names.filter((m) => m[0] === first) : names.slice(0, 1);
  for (const name of names) if (!kept.includes(name)) left.push(...byMaster.get(name)!.map((p) => p.door));
  const byGrand = groupBy(kept, (m) => m[0]!);
  return {
    levels,
    left,
    doors: doors.length - left.length,
    grands: [...byGrand].map(([grand, mine]) => ({
      ...(levels === 2 ? {} : { symbol: grand }),
      masters: mine.map((m) => masterRequest(m, byMaster.get(m)!)),
    })),
  };
}

function placeOf(door: Door, levels: 2 | 3 | 4): Placed | undefined {
  const parsed = parseKeySymbol(door.symbol ?? '', { levels });
  if (!parsed.ok || parsed.value.kind !== 'hierarchy') return undefined;
  const { letters, series, number, numberFirst } = parsed.value;
  if (number === undefined || number < 1 || letters.length !== LETTERS || numberFirst !== (levels === 2))
    return undefined;
  const master = series === 1 ? letters : `${letters[0]}${series}${letters.slice(1)}`;
  return { master, number, door };
}

/** Change keys from the lowest to the highest number; numbers without a door are keys without a cylinder. */
function masterRequest(symbol: string, placed: readonly Placed[]): MasterRequest {
  const numbers = placed.map((p) => p.number);
  const firstNumber = Math.min(...numbers);
  const changeKeys = Math.max(...numbers) - firstNumber + 1;
  const doors = Array.from({ length: changeKeys }, (_, i) =>
    placed.filter((p) => p.number === firstNumber + i).flatMap((p) => cylindersAt(p.door)),
  );
  return { symbol, firstNumber, changeKeys, doors };
}
