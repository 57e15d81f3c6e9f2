/**
 * Who gets in where: by the keys really in hand and by what those keys really operate, chamber by chamber. What a
 * key is meant for is told beside it, so that a door opened by mistake is seen. A control key doesn't turn a core
 * but takes it out, and the door is open all the same.
 */
import type { AuditCylinder, AuditInput, AuditKey } from './auditInput.ts';
import { reachOf } from './blankReach.ts';
import { worksControlLine } from './core.ts';
import { copyId } from './ledger.ts';
import type { CopyState, LedgerState } from './ledgerReplay.ts';
import { keyClassesOf } from './keyClasses.ts';
import { entersKeyway } from './keyways.ts';
import { foldName } from './specTable.ts';

export interface DoorCylinder extends AuditCylinder {
  readonly door?: string;
}

export interface AccessInput extends AuditInput {
  readonly cylinders: readonly DoorCylinder[];
}

/** One key at one cylinder. */
export interface Opening {
  readonly key: number;
  readonly cylinder: number;
  /** Turns the plug, or takes the core out by its control line. */
  readonly how: 'turns' | 'pulls';
  readonly meant: boolean;
}

export interface AccessMap {
  readonly input: AccessInput;
  /** By cylinder and by key, in the order of the input. */
  readonly atCylinder: readonly (readonly Opening[])[];
  readonly ofKey: readonly (readonly Opening[])[];
  /** Doors in the order of their first cylinder, with their cylinders. */
  readonly doors: readonly Door[];
}

export interface Door {
  readonly name: string;
  readonly cylinders: readonly number[];
}

/** What people call a cylinder's place: its door, else its own number. */
export const doorOf = ({ door, id }: { readonly door?: string; readonly id: string }): string =>
  door === undefined || door.trim() === '' ? id : door;

/**
 * Every key that opens every cylinder. A free bitting has no key; keys of lost and retired bittings still open what
 * is pinned for them.
 * @example accessMap(input).atCylinder[0] → [{ key: 0, cylinder: 0, how: 'turns', meant: true }, …]
 */
export function accessMap(input: AccessInput): AccessMap {
  const { keys, cylinders, intended } = input;
  const classes = keyClassesOf(input);
  const ofKey: Opening[][] = keys.map(() => []);
  const atCylinder = cylinders.map((cylinder, c) => {
    const meant = new Set(intended[c] ?? []);
    const found: Opening[] = [];
    const add = (key: number, how: Opening['how']): void => {
      found.push({ key, cylinder: c, how, meant: meant.has(key) });
    };
    for (const { keyway, index } of classes)
      if (entersKeyway(input.enters, keyway, cylinder.keyway))
        index.eachOperating(cylinder.chambers, (k) => add(k, 'turns'));
    const turning = new Set(found.map(({ key }) => key));
    const { control } = cylinder;
    if (control)
      keys.forEach((key, k) => {
        if (!turning.has(k) && pulls(input, key, cylinder, control)) add(k, 'pulls');
      });
    found.sort((a, b) => a.key - b.key);
    for (const opening of found) ofKey[opening.key]!.push(opening);
    return found;
  });
  return { input, atCylinder, ofKey, doors: doorsOf(cylinders) };
}

const pulls = (
  input: AccessInput,
  key: AuditKey,
  cylinder: DoorCylinder,
  control: readonly number[],
): boolean =>
  key.status !== 'free' &&
  entersKeyway(input.enters, key.keyway, cylinder.keyway) &&
  worksControlLine(cylinder.chambers, control, key.bitting, reachOf(input.spec, key.cuts));

/** Cylinders of one door together: two sides, two leaves. */
function doorsOf(cylinders: readonly DoorCylinder[]): Door[] {
  const doors = new Map<string, { name: string; cylinders: number[] }>();
  cylinders.forEach((cylinder, c) => {
    const name = doorOf(cylinder);
    const door = doors.get(foldName(name));
    if (door) door.cylinders.push(c);
    else doors.set(foldName(name), { name, cylinders: [c] });
  });
  return [...doors.values()];
}

/** The copies of a system's keys, by the key of the access map that they were cut to. */
export interface CopiesOfKeys {
  readonly access: AccessMap;
  /** Copies by key, in the order of the map's keys. */
  readonly copies: readonly (readonly CopyState[])[];
}

/**
 * Ties the ledger to the bittings. `keyOf` gives the map's key for a row of the ledger's keys, or none where that
 * row belongs to another system or can't be read.
 */
export function copiesOfKeys(
  access: AccessMap,
  state: LedgerState,
  keyOf: (ledgerKey: number) => number | undefined,
): CopiesOfKeys {
  const copies: CopyState[][] = access.input.keys.map(() => []);
  for (const copy of state.copies) {
    const key = copy.key === undefined ? undefined : keyOf(copy.key);
    if (key !== undefined) copies[key]?.push(copy);
  }
  return { access, copies };
}

export interface WhoOpens {
  readonly door: Door;
  /** Each key that opens a cylinder of the door, with its copies. */
  readonly keys: readonly {
    readonly key: number;
    readonly meant: boolean;
    readonly how: Opening['how'];
    readonly copies: readonly CopyState[];
  }[];
  /** People with such a key in hand, each once, and the copies that let them in. */
  readonly people: readonly { readonly holder: string; readonly copies: readonly CopyState[] }[];
}

/** Who can open a door. A door opens through any of its cylinders. */
export function whoOpens({ access, copies }: CopiesOfKeys, door: Door): WhoOpens {
  const best = new Map<number, Opening>();
  for (const c of door.cylinders)
    for (const opening of access.atCylinder[c]!) {
      const known = best.get(opening.key);
      if (!known || (!known.meant && opening.meant)) best.set(opening.key, opening);
    }
  const keys = [...best.values()]
    .sort((a, b) => a.key - b.key)
    .map(({ key, meant, how }) => ({ key, meant, how, copies: copies[key]! }));
  return { door, keys, people: byHolder(keys.flatMap((k) => k.copies)) };
}

export interface OpenedDoor {
  readonly door: Door;
  /** Copies that open it, with the key of each. */
  readonly by: readonly { readonly key: number; readonly copy: CopyState }[];
  /** At least one of these keys is meant for the door. */
  readonly meant: boolean;
}

/** The doors that one person can open with the keys in hand. */
export function opensWhat({ access, copies }: CopiesOfKeys, holder: string): OpenedDoor[] {
  const mine = copies.map((list) =>
    list.filter((c) => c.where === 'held' && foldName(c.holder ?? '') === foldName(holder)),
  );
  return access.doors.flatMap((door): OpenedDoor[] => {
    const openings = door.cylinders.flatMap((c) =>
      access.atCylinder[c]!.filter(({ key }) => mine[key]!.length > 0),
    );
    if (openings.length === 0) return [];
    const keys = [...new Set(openings.map(({ key }) => key))];
    return [
      {
        door,
        by: keys.flatMap((key) => mine[key]!.map((copy) => ({ key, copy }))),
        meant: openings.some((o) => o.meant),
      },
    ];
  });
}

export interface ClosedDoor {
  readonly door: Door;
  /** No key of the system fits, or none that fits is in anybody's hands. */
  readonly why: 'no-key' | 'not-in-hand';
}

/** Doors that nobody can open with a key in hand. */
export function closedToAll({ access, copies }: CopiesOfKeys): ClosedDoor[] {
  return access.doors.flatMap((door): ClosedDoor[] => {
    const keys = door.cylinders.flatMap((c) => access.atCylinder[c]!.map(({ key }) => key));
    if (keys.length === 0) return [{ door, why: 'no-key' }];
    return keys.some((k) => copies[k]!.some((c) => c.where === 'held')) ? [] : [{ door, why: 'not-in-hand' }];
  });
}

/** Copies in hands by the person who has them, in the order of the names. */
export function byHolder(
  copies: readonly CopyState[],
): { readonly holder: string; readonly copies: readonly CopyState[] }[] {
  const people = new Map<string, { holder: string; copies: CopyState[] }>();
  const seen = new Set<string>();
  for (const copy of copies) {
    const id = copyId(copy.system, copy.symbol, copy.copy);
    if (copy.where !== 'held' || seen.has(id)) continue;
    seen.add(id);
    const holder = copy.holder ?? '';
    const person = people.get(foldName(holder));
    if (person) person.copies.push(copy);
    else people.set(foldName(holder), { holder, copies: [copy] });
  }
  return [...people.values()].sort((a, b) => a.holder.localeCompare(b.holder, 'en'));
}

/** Doors by people: one bit a pair, so that a grid of many thousand cells is asked in no time. */
export interface PeopleByDoors {
  readonly people: readonly string[];
  readonly doors: readonly Door[];
  readonly opens: (door: number, person: number) => boolean;
  /** The person has a key that is meant for the door. */
  readonly meant: (door: number, person: number) => boolean;
}

/** Who opens what, everybody with a key in hand against every door. */
export function peopleByDoors(of: CopiesOfKeys): PeopleByDoors {
  const { access, copies } = of;
  const people = byHolder(copies.flat()).map((p) => p.holder);
  const column = new Map(people.map((name, p) => [foldName(name), p]));
  const holdersOf = copies.map((list) => [
    ...new Set(list.flatMap((c) => (c.where === 'held' ? [column.get(foldName(c.holder ?? ''))!] : []))),
  ]);
  const intendedAt = access.input.intended;
  const opens = new Uint8Array(access.doors.length * people.length);
  const meant = new Uint8Array(opens.length);
  access.doors.forEach((door, d) => {
    for (const c of door.cylinders) {
      for (const { key } of access.atCylinder[c]!)
        for (const p of holdersOf[key]!) opens[d * people.length + p] = 1;
      for (const key of intendedAt[c] ?? [])
        for (const p of holdersOf[key] ?? []) meant[d * people.length + p] = 1;
    }
  });
  return {
    people,
    doors: access.doors,
    opens: (d, p) => opens[d * people.length + p] === 1,
    meant: (d, p) => meant[d * people.length + p] === 1,
  };
}
