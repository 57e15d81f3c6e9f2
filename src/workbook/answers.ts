/** Answers to who holds and opens what, as rows that the pane shows and a sheet can take. None holds a bitting. */
import { closedToAll, doorOf, opensWhat, peopleByDoors, whoOpens } from '../keying/access.ts';
import { formatDay, type Day } from '../keying/calendar.ts';
import { copyName } from '../keying/ledger.ts';
import {
  accounts,
  heldBy,
  keysOfLeavers,
  mastersOut,
  overdue,
  retiredAbout,
  unaccounted,
} from '../keying/ledgerAnswers.ts';
import type { CopyState } from '../keying/ledgerReplay.ts';
import { whereIs } from '../keying/inventory.ts';
import { foldName } from '../keying/specTable.ts';
import type { WritePlan } from './plan.ts';
import { freeTableName } from './planReceipt.ts';
import { createSheet, PlanBuilder } from './planTable.ts';
import type { BookReading } from './reading.ts';
import type { Standing } from './standing.ts';

export const QUESTIONS = [
  'door',
  'person',
  'masters',
  'overdue',
  'left',
  'unaccounted',
  'closed',
  'stock',
  'recall',
  'everything',
] as const;
export type Question = (typeof QUESTIONS)[number];

export interface Answer {
  readonly title: string;
  /** The answer in one sentence with its number. */
  readonly sentence: string;
  readonly headings: readonly string[];
  readonly rows: readonly (readonly (string | number)[])[];
}

/** `about` is a door or a holder, where the question asks for one. */
export interface Asked {
  readonly question: Question;
  readonly about: string;
}

const counted = (n: number, one: string, many = `${one}s`): string =>
  `${n.toLocaleString('en-US')} ${n === 1 ? one : many}`;
const dayText = (day: Day | undefined): string => (day === undefined ? '' : formatDay(day));
/** A key that was given out to nobody in particular. */
const NO_NAME = '(no name)';
const name = (c: CopyState): string => copyName(c.symbol, c.copy);

/** @example answer(standing, { question: 'door', about: '101' }).sentence → '3 people can open 101 with 4 keys in hand.' */
export function answer(standing: Standing, { question, about }: Asked): Answer {
  const { state, ledger } = standing;
  const department = (holder: string | undefined): string =>
    ledger.people.find((p) => foldName(p.name) === foldName(holder ?? ''))?.department ?? '';
  const who = (c: CopyState): [string, string] => [c.holder ?? NO_NAME, department(c.holder)];
  switch (question) {
    case 'door':
      return whoOpensDoor(standing, about, department);
    case 'person':
      return personOpens(standing, about);
    case 'masters': {
      const copies = mastersOut(state, ledger.keys);
      return {
        title: 'Who holds masters',
        sentence: `${counted(copies.length, 'master or control key')} ${copies.length === 1 ? 'is' : 'are'} out of the cabinet.`,
        headings: ['Key', 'Level', 'Where', 'Department', 'Since', 'Due'],
        rows: copies.map((c) => [
          name(c),
          c.key === undefined ? '' : ledger.keys[c.key]!.level,
          whereIs(c),
          department(c.holder),
          dayText(c.since),
          dayText(c.due),
        ]),
      };
    }
    case 'overdue': {
      const copies = overdue(state);
      return {
        title: 'Overdue keys',
        sentence: `${counted(copies.length, 'key')} ${copies.length === 1 ? 'is' : 'are'} overdue.`,
        headings: ['Holder', 'Department', 'Key', 'Due', 'Days overdue'],
        rows: copies.map((c) => [...who(c), name(c), formatDay(c.due), state.asOf - c.due]),
      };
    }
    case 'left': {
      const copies = keysOfLeavers(state, ledger.people);
      return {
        title: 'Keys of people who left',
        sentence: `${counted(copies.length, 'key')} ${copies.length === 1 ? 'is' : 'are'} still with people who left.`,
        headings: ['Holder', 'Department', 'Key', 'Left on', 'Issued'],
        rows: copies.map((c) => [...who(c), name(c), formatDay(c.left), dayText(c.since)]),
      };
    }
    case 'unaccounted': {
      const copies = unaccounted(state);
      return {
        title: 'Copies unaccounted for',
        sentence: `${counted(copies.length, 'copy', 'copies')} ${copies.length === 1 ? 'is' : 'are'} unaccounted for.`,
        headings: ['Key', 'Where', 'Since'],
        rows: copies.map((c) => [name(c), whereIs(c), dayText(c.since)]),
      };
    }
    case 'closed':
      return closedDoors(standing);
    case 'stock': {
      const rows = accounts(state);
      return {
        title: 'Copies in stock and out',
        sentence: `${counted(
          rows.reduce((sum, a) => sum + a.stock, 0),
          'copy',
          'copies',
        )} in the cabinet, ${rows.reduce((sum, a) => sum + a.held, 0)} in hands, ${rows.reduce((sum, a) => sum + a.lost, 0)} lost.`,
        headings: ['Key', 'System', 'Copies', 'In stock', 'In hands', 'Lost', 'Destroyed'],
        rows: rows.map((a) => [a.symbol, a.system, a.copies, a.stock, a.held, a.lost, a.destroyed]),
      };
    }
    case 'recall': {
      const copies = retiredAbout(state, ledger.keys);
      return {
        title: 'Keys of retired bittings still out',
        sentence: `${counted(copies.length, 'key')} of retired bittings ${copies.length === 1 ? 'is' : 'are'} still in hands.`,
        headings: ['Holder', 'Department', 'Key', 'Issued'],
        rows: copies.map((c) => [...who(c), name(c), dayText(c.since)]),
      };
    }
    case 'everything':
      return everything(standing);
  }
}

const HOW = { turns: '', pulls: 'takes the core out' } as const;

function whoOpensDoor({ systems }: Standing, about: string, department: (holder: string) => string): Answer {
  const found = systems.flatMap(({ of, audit }) =>
    of.access.doors
      .filter((door) => foldName(door.name) === foldName(about))
      .map((door) => ({ ...whoOpens(of, door), keyOf: (k: number) => audit.system.keys[k]! })),
  );
  const rows = found.flatMap(({ keys, keyOf }) =>
    keys.flatMap(({ key, meant, how, copies }) => {
      const remark = [meant ? '' : 'not meant for this door', HOW[how]].filter(Boolean).join(', ');
      const { symbol, status } = keyOf(key);
      const out = copies.filter((c) => c.where === 'held' || c.where === 'lost');
      const inStock = copies.filter((c) => c.where === 'stock').length;
      return [
        ...out.map((c) => [
          c.where === 'lost' ? `Lost${c.holder ? ` by ${c.holder}` : ''}` : (c.holder ?? NO_NAME),
          c.where === 'held' ? department(c.holder ?? '') : '',
          name(c),
          remark,
        ]),
        ...(inStock > 0
          ? [['(in the cabinet)', '', `${symbol}, ${counted(inStock, 'copy', 'copies')}`, remark]]
          : []),
        ...(out.length + inStock === 0 && !meant
          ? [['(no copy known)', '', symbol, `${remark}, ${status}`]]
          : []),
      ];
    }),
  );
  const people = new Set(found.flatMap((f) => f.people.map((p) => foldName(p.holder))));
  const copies = found.reduce((sum, f) => sum + f.people.reduce((n, p) => n + p.copies.length, 0), 0);
  return {
    title: `Who can open ${about}`,
    sentence:
      found.length === 0
        ? `No cylinder is known at a door ${about}. Check its number on the sheet Cylinders.`
        : `${counted(people.size, 'person', 'people')} can open ${about}, with ${counted(copies, 'key')} in hand.`,
    headings: ['Holder', 'Department', 'Key', 'Remark'],
    rows,
  };
}

function personOpens({ systems, state }: Standing, about: string): Answer {
  const opened = systems.flatMap(({ of, audit }) =>
    opensWhat(of, about).map(({ door, by, meant }) => [
      door.name,
      audit.system.cylinders[door.cylinders[0]!]!.symbol,
      [...new Set(by.map(({ copy }) => name(copy)))].join(', '),
      meant ? '' : 'not meant for this door',
    ]),
  );
  const held = heldBy(state, about);
  return {
    title: `What ${about} can open`,
    sentence: `${about} has ${counted(held.length, 'key')}${held.length > 0 ? ` (${held.map(name).join(', ')})` : ''} and can open ${counted(opened.length, 'door')}.`,
    headings: ['Door', 'Keyset', 'With', 'Remark'],
    rows: opened,
  };
}

const WHY = {
  'no-key': 'no key of the system fits',
  'not-in-hand': 'its keys are all in the cabinet, lost or destroyed',
} as const;

function closedDoors({ systems }: Standing): Answer {
  const rows = systems.flatMap(({ of, audit }) =>
    closedToAll(of).map(({ door, why }) => [
      door.name,
      audit.system.cylinders[door.cylinders[0]!]!.symbol,
      WHY[why],
    ]),
  );
  return {
    title: 'Doors that nobody can open',
    sentence: `${counted(rows.length, 'door')} can be opened by nobody with a key in hand.`,
    headings: ['Door', 'Keyset', 'Why'],
    rows,
  };
}

/** Doors by people with the same marks as every grid: a dot as meant, a triangle where it should not be. */
function everything({ systems }: Standing): Answer {
  const grids = systems.map(({ of }) => peopleByDoors(of));
  const people = [...new Map(grids.flatMap((g) => g.people.map((p) => [foldName(p), p] as const))).values()];
  const rows = grids.flatMap((grid) =>
    grid.doors.map((door, d) => [
      door.name,
      ...people.map((person) => {
        const p = grid.people.findIndex((other) => foldName(other) === foldName(person));
        return p < 0 || !grid.opens(d, p) ? '' : grid.meant(d, p) ? '●' : '▲';
      }),
    ]),
  );
  return {
    title: 'Who opens what',
    sentence: `${counted(people.length, 'person', 'people')} against ${counted(rows.length, 'door')}: a dot where a key in hand opens the door, a triangle where it opens and should not.`,
    headings: ['Door', ...people.map((person) => person || NO_NAME)],
    rows,
  };
}

/** Every door by name, for choosing one. */
export const doorNames = ({ systems }: Standing): string[] => [
  ...new Set(systems.flatMap(({ audit }) => audit.system.cylinders.map(doorOf))),
];

/** Everybody who is listed or has a key. */
export function peopleNames({ ledger, state }: Standing): string[] {
  const names = new Map(ledger.people.map((p) => [foldName(p.name), p.name]));
  for (const { holder } of state.copies)
    if (holder && !names.has(foldName(holder))) names.set(foldName(holder), holder);
  return [...names.values()].sort((a, b) => a.localeCompare(b, 'en'));
}

const MOST_COLUMNS = 250;

/** An answer as a sheet of its own. */
export function planAnswer(
  book: BookReading,
  { title, sentence, headings, rows }: Answer,
  { made, asOf }: { readonly made: string; readonly asOf: Day },
): WritePlan {
  const builder = new PlanBuilder(book);
  if (headings.length > MOST_COLUMNS)
    builder.conflict(
      `The answer has ${headings.length} columns, more than a sheet can be read with. Ask about a door or a person.`,
    );
  createSheet(
    builder,
    {
      table: freeTableName('KeyrowAnswer', book.tableNames),
      sheet: title,
      title,
      line: `${sentence} As of ${formatDay(asOf)}, written ${made} from the sheets Ledger, Keys and Cylinders. Names are personal data: keep this sheet in the house.`,
      columns: distinct(headings).map((heading, i) => ({
        heading,
        format: rows.every((row) => typeof row[i] === 'number') && rows.length > 0 ? 'general' : 'text',
        width: Math.min(
          44,
          Math.max(heading.length + 3, ...rows.slice(0, 200).map((row) => String(row[i] ?? '').length + 2)),
        ),
      })),
      rows,
      frozen: 1,
    },
    builder.sheetName(title),
  );
  return builder.plan(title);
}

/** Excel takes two headings of one name for a mistake. */
function distinct(headings: readonly string[]): string[] {
  const seen = new Map<string, number>();
  return headings.map((heading) => {
    const n = (seen.get(foldName(heading)) ?? 0) + 1;
    seen.set(foldName(heading), n);
    return n === 1 ? heading : `${heading} (${n})`;
  });
}
