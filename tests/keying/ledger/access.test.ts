/**
 * Who opens what, against the reachability of a general graph library (@dagrejs/graphlib, preorder search): a person
 * reaches a copy, a copy its key, a key a chain of one node a chamber, with an edge only where that chamber shears
 * at the key's cut, and the end of the chain the door.
 */
import { alg, Graph } from '@dagrejs/graphlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  accessMap,
  closedToAll,
  copiesOfKeys,
  doorOf,
  opensWhat,
  peopleByDoors,
  whoOpens,
  type AccessInput,
  type CopiesOfKeys,
} from '../../../src/keying/access.ts';
import type { Day } from '../../../src/keying/calendar.ts';
import { EVERY, hasDepth } from '../../../src/keying/depthSet.ts';
import { auditInputOf } from '../../../src/keying/intended.ts';
import type { LedgerEntry, LedgerKey } from '../../../src/keying/ledger.ts';
import { mastersOut } from '../../../src/keying/ledgerAnswers.ts';
import { replayLedger } from '../../../src/keying/ledgerReplay.ts';
import { auditInputArbitrary } from '../../support/systems.ts';
import { whole } from '../../taskpane/systems.ts';

const PEOPLE = ['Porter', 'Nurse', 'Cook', 'Gardener'];
const TODAY = 46_000 as Day;

/** Everything that a person reaches, named as in the graph below. */
function reachability(input: AccessInput, held: readonly (readonly [person: string, key: number])[]): Graph {
  const graph = new Graph({ directed: true });
  for (const person of PEOPLE) graph.setNode(person);
  held.forEach(([person, key], i) => {
    graph.setEdge(person, `copy ${i}`);
    graph.setEdge(`copy ${i}`, `key ${key}`);
  });
  const fits = (blank: string | undefined, keyway: string | undefined): boolean =>
    !blank ||
    !keyway ||
    // names of keyways are one in either case
    [blank, ...(input.enters?.[blank.toUpperCase()] ?? [])].some(
      (name) => name.toUpperCase() === keyway.toUpperCase(),
    );
  input.keys.forEach((key, k) => {
    graph.setNode(`key ${k}`);
    if (key.status === 'free') return;
    input.cylinders.forEach((cylinder, c) => {
      if (!fits(key.keyway, cylinder.keyway)) return;
      const lines: ((i: number) => boolean)[] = [(i) => hasDepth(cylinder.chambers[i]!, key.bitting[i]!)];
      if (cylinder.control) lines.push((i) => cylinder.control![i] === key.bitting[i]);
      lines.forEach((shears, line) => {
        const node = (i: number): string => `key ${k}, cylinder ${c}, line ${line}, chamber ${i}`;
        graph.setEdge(`key ${k}`, node(0));
        cylinder.chambers.forEach((set, i) => {
          const carried = i < (key.cuts ?? key.bitting.length);
          if (set === EVERY || (carried && shears(i))) graph.setEdge(node(i), node(i + 1));
        });
        graph.setEdge(node(cylinder.chambers.length), `door ${doorName(c)}`);
      });
    });
  });
  return graph;
}

/** Two cylinders to a door. */
const doorName = (c: number): string => `D${Math.floor(c / 2)}`;

const systemWithPeople = fc.boolean().chain((core) =>
  fc.record({
    input: auditInputArbitrary(core).map((input): AccessInput => ({
      ...input,
      cylinders: input.cylinders.map((cylinder, c) => ({ ...cylinder, door: doorName(c) })),
    })),
    held: fc.array(fc.tuple(fc.constantFrom(...PEOPLE), fc.nat({ max: 24 }), fc.boolean()), {
      maxLength: 12,
    }),
  }),
);

/** Keys given out; those that came back hang in the cabinet. */
function ledgerOf(
  input: AccessInput,
  held: readonly (readonly [person: string, key: number, back?: boolean])[],
): CopiesOfKeys {
  const keys = input.keys.map(({ symbol, status = 'issued' }): LedgerKey => ({
    system: '',
    symbol,
    level: 'CK',
    status: status === 'free' ? 'reserved' : status,
  }));
  const entries = held.flatMap(([holder, key, back], i): LedgerEntry[] => {
    const copy = { day: TODAY, system: '', symbol: input.keys[key]!.symbol, copy: i + 1 };
    return [{ ...copy, event: 'issued', holder }, ...(back ? [{ ...copy, event: 'returned' as const }] : [])];
  });
  return copiesOfKeys(accessMap(input), replayLedger({ entries, keys }, TODAY), (k) => k);
}

describe('who opens what', () => {
  it('is what a graph library reaches', () => {
    fc.assert(
      fc.property(systemWithPeople, ({ input, held: all }) => {
        const held = all.filter(([, key]) => key < input.keys.length);
        const inHand = held.flatMap(([person, key, back]) => (back ? [] : [[person, key] as const]));
        const graph = reachability(input, inHand);
        const reached = new Map(PEOPLE.map((p) => [p, new Set(alg.preorder(graph, [p]))]));
        const of = ledgerOf(input, held);
        const grid = peopleByDoors(of);
        const opening = input.keys.map((_, k) => new Set(alg.preorder(graph, [`key ${k}`])));
        const turns = (k: number, c: number): boolean =>
          opening[k]!.has(`key ${k}, cylinder ${c}, line 0, chamber ${input.cylinders[c]!.chambers.length}`);
        const opens = (k: number, c: number): boolean =>
          turns(k, c) ||
          opening[k]!.has(`key ${k}, cylinder ${c}, line 1, chamber ${input.cylinders[c]!.chambers.length}`);
        const meant = (k: number, c: number): boolean => input.intended[c]!.includes(k);
        of.access.atCylinder.forEach((found, c) =>
          expect(found).toEqual(
            input.keys.flatMap((_, k) =>
              opens(k, c)
                ? [{ key: k, cylinder: c, how: turns(k, c) ? 'turns' : 'pulls', meant: meant(k, c) }]
                : [],
            ),
          ),
        );
        of.access.ofKey.forEach((found, k) =>
          expect(found).toEqual(of.access.atCylinder.flat().filter((o) => o.key === k)),
        );
        for (const [d, { cylinders }] of of.access.doors.entries()) {
          const keys = input.keys.flatMap((_, k) => (cylinders.some((c) => opens(k, c)) ? [k] : []));
          expect(whoOpens(of, of.access.doors[d]!).keys.map((k) => [k.key, k.meant])).toEqual(
            keys.map((k) => [k, cylinders.some((c) => opens(k, c) && meant(k, c))]),
          );
          expect(grid.people.filter((_, p) => grid.meant(d, p))).toEqual(
            grid.people.filter((name) =>
              inHand.some(([person, key]) => person === name && cylinders.some((c) => meant(key, c))),
            ),
          );
        }
        expect(grid.people).toEqual(PEOPLE.filter((p) => inHand.some(([person]) => person === p)).sort());
        for (const person of PEOPLE)
          for (const { door, by, meant: own } of opensWhat(of, person)) {
            const mine = held.flatMap(([name, key, back], i) =>
              name === person && !back && door.cylinders.some((c) => opens(key, c)) ? [[key, i + 1]] : [],
            );
            expect(by.map(({ key, copy }) => [key, copy.copy]).sort()).toEqual(mine.sort());
            expect(own).toBe(
              mine.some(([key]) => door.cylinders.some((c) => opens(key!, c) && meant(key!, c))),
            );
          }
        for (const { door, why } of closedToAll(of))
          expect(why).toBe(
            input.keys.some((_, k) => door.cylinders.some((c) => opens(k, c))) ? 'not-in-hand' : 'no-key',
          );
        for (const [d, door] of of.access.doors.entries()) {
          const expected = PEOPLE.filter((p) => reached.get(p)!.has(`door ${door.name}`)).sort();
          expect(whoOpens(of, door).people.map((p) => p.holder)).toEqual(expected);
          expect(grid.people.filter((_, p) => grid.opens(d, p))).toEqual(expected);
        }
        for (const person of PEOPLE)
          expect(opensWhat(of, person).map(({ door }) => `door ${door.name}`)).toEqual(
            of.access.doors
              .map((door) => `door ${door.name}`)
              .filter((name) => reached.get(person)!.has(name)),
          );
        expect(closedToAll(of).map(({ door }) => door.name)).toEqual(
          of.access.doors
            .map((door) => door.name)
            .filter((name) => PEOPLE.every((p) => !reached.get(p)!.has(`door ${name}`))),
        );
      }),
      { numRuns: 200 },
    );
  });
});

describe('a small school', () => {
  const input = auditInputOf(whole.system, whole.marks);
  const keyNumber = (symbol: string): number => input.keys.findIndex((k) => k.symbol === symbol);
  const of = ledgerOf(input, [
    ['Porter', keyNumber('A')],
    ['Nurse', keyNumber('AA1')],
    ['Nurse', keyNumber('AA1')],
  ]);

  it('opens by the master as meant everywhere, by a change key at its own doors only', () => {
    expect(opensWhat(of, 'porter')).toHaveLength(of.access.doors.length);
    const [own, ...others] = opensWhat(of, 'Nurse');
    expect(others).toEqual([]);
    expect(own).toMatchObject({ meant: true, by: [{ copy: { copy: 2 } }, { copy: { copy: 3 } }] });
  });

  it('tells a person once however many keys fit', () => {
    const door = opensWhat(of, 'Nurse')[0]!.door;
    expect(whoOpens(of, door).people.map((p) => [p.holder, p.copies.length])).toEqual([
      ['Nurse', 2],
      ['Porter', 1],
    ]);
  });

  it('lists doors whose keys all hang in the cabinet, and doors that no key fits', () => {
    const nobody = ledgerOf(input, [['Nurse', keyNumber('AA1')]]);
    expect(closedToAll(nobody).every(({ why }) => why === 'not-in-hand')).toBe(true);
    expect(closedToAll(nobody)).toHaveLength(of.access.doors.length - 1);
    const unpinned = accessMap({
      ...input,
      keys: input.keys.map((k) => ({ ...k, status: 'free' as const })),
    });
    const empty = { access: unpinned, copies: input.keys.map(() => []) };
    expect(closedToAll(empty).every(({ why }) => why === 'no-key')).toBe(true);
  });

  it('counts a control key as a master', () => {
    const keys: LedgerKey[] = [{ system: '', symbol: 'CTR', level: 'control', status: 'issued', copies: 1 }];
    const entries: LedgerEntry[] = [
      { day: TODAY, event: 'issued', system: '', symbol: 'CTR', copy: 1, holder: 'Porter' },
    ];
    expect(mastersOut(replayLedger({ entries, keys }, TODAY), keys)).toHaveLength(1);
  });
});

describe('the ties between ledger, keys and doors', () => {
  it('call a cylinder by its door, else by its number', () => {
    expect(doorOf({ id: 'C1', door: 'Hall' })).toBe('Hall');
    expect(doorOf({ id: 'C1', door: '  ' })).toBe('C1');
    expect(doorOf({ id: 'C1' })).toBe('C1');
  });

  it('leave out copies of keys that are none of the map’s', () => {
    const input = auditInputOf(whole.system, whole.marks);
    const access = accessMap(input);
    const keys: LedgerKey[] = ['AA1', 'ZZ', 'YY'].map((symbol) => ({
      system: '', symbol, level: 'CK', status: 'issued', copies: 1,
    })); // prettier-ignore
    const entries: LedgerEntry[] = [
      { day: TODAY, event: 'issued', system: 'elsewhere', symbol: 'QQ', copy: 1, holder: 'Cook' },
    ];
    const state = replayLedger({ entries, keys }, TODAY);
    const at = (of: number | undefined) =>
      copiesOfKeys(access, state, (k) => (k === 0 ? of : k === 1 ? undefined : 99_999));
    expect(at(3).copies.flatMap((list, k) => list.map((c) => [k, c.symbol]))).toEqual([[3, 'AA1']]);
    expect(at(undefined).copies.flat()).toEqual([]);
  });
});
