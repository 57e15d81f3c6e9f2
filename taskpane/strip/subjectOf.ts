/** From what a selected cell is in the workbook to what the strip shows of it. */
import { reachOf } from '../../src/keying/blankReach.ts';
import { operates } from '../../src/keying/cylinder.ts';
import { checkBitting, DEFAULT_RULES, type BittingContext } from '../../src/keying/rules.ts';
import { packBitting } from '../../src/keying/bitting.ts';
import { entersKeyway, type Entering } from '../../src/keying/keyways.ts';
import type { Specification } from '../../src/keying/specification.ts';
import type { CylinderRecord, KeyRecord, Status } from '../../src/keying/system.ts';
import { opensWhat } from '../../src/keying/access.ts';
import { formatDay } from '../../src/keying/calendar.ts';
import { heldBy } from '../../src/keying/ledgerAnswers.ts';
import { auditInput, standingOn } from '../../src/workbook/index.ts';
import type {
  BookReading,
  CylinderRow,
  KeyRow,
  Place,
  SelectedSubject,
  Standing,
  SystemReading,
} from '../../src/workbook/index.ts';
import { readDay } from '../people/useStanding.ts';
import type { GridState } from '../pictures/gridStates.ts';
import type { Pairing, StripSubject } from './subject.ts';

export function subjectOf(book: BookReading, selected: SelectedSubject): StripSubject {
  switch (selected.kind) {
    case 'key':
      return keySubject(book, selected.system, selected.key);
    case 'cylinder':
      return cylinderSubject(book, selected.system, selected.cylinder);
    case 'grid': {
      const { system, key, cylinder } = selected;
      if (key && cylinder) return cellSubject(book, system, key, cylinder);
      if (key) return keySubject(book, system, key);
      return cylinder ? cylinderSubject(book, system, cylinder) : { kind: 'nothing' };
    }
    case 'spec':
      return selected.spec.spec
        ? { kind: 'spec', spec: selected.spec.spec }
        : unreadable(book, selected.spec.name, [selected.spec.at]);
    case 'holder':
      return holderSubject(book, selected.name);
    case 'other':
      return { kind: 'nothing' };
  }
}

/** One standing a reading and day: the selection moves much more often than either. */
const standings = new WeakMap<BookReading, Standing>();

function standingToday(book: BookReading): Standing {
  const { day } = readDay('');
  const known = standings.get(book);
  if (known?.state.asOf === day) return known;
  const standing = standingOn(book, day);
  standings.set(book, standing);
  return standing;
}

function holderSubject(book: BookReading, name: string): StripSubject {
  const { state, systems } = standingToday(book);
  const keys = heldBy(state, name).map(({ symbol, copy, due }) => {
    const note =
      due === undefined ? undefined : `${due < state.asOf ? 'overdue since' : 'due'} ${formatDay(due)}`;
    return { symbol, copy: String(copy), ...(note !== undefined && { note }) };
  });
  const doors = systems.flatMap(({ of }) =>
    opensWhat(of, name).map(({ door, meant }): Pairing => ({
      name: door.name,
      state: meant ? 'opens' : 'interchange',
    })),
  );
  return { kind: 'holder', name, keys, doors };
}

function keySubject(book: BookReading, system: SystemReading, key: KeyRow): StripSubject {
  const { spec } = system;
  const { bitting, symbol, record } = key;
  if (!spec || !bitting) return unreadable(book, symbol, [key.at.bitting, key.at.row, system.at]);
  const doors =
    record && record.level !== 'control' && record.status !== 'free'
      ? pairings(
          book,
          system,
          system.cylinders,
          (row) => [record, row],
          (row) => row.door ?? row.id,
        )
      : undefined;
  const findings = checkBitting(spec, bitting, DEFAULT_RULES, contextOf(system, key));
  return { kind: 'key', symbol, spec, bitting, findings, ...(doors && { doors }) };
}

function cylinderSubject(book: BookReading, system: SystemReading, row: CylinderRow): StripSubject {
  const { spec } = system;
  const { chambers, control, id, door } = row;
  const name = door ?? id;
  if (!spec || !chambers) return unreadable(book, name, [...row.at.chambers, row.at.row, system.at]);
  const cylinder = { id, chambers, ...(door !== undefined && { door }), ...(control && { control }) };
  const keys = pairings(
    book,
    system,
    system.keys.filter((k) => k.record && k.level !== 'control' && k.status !== 'free'),
    (k) => [k.record, row],
    (k) => k.symbol,
  );
  return { kind: 'cylinder', spec, cylinder, keys };
}

function cellSubject(book: BookReading, system: SystemReading, key: KeyRow, row: CylinderRow): StripSubject {
  const { spec } = system;
  const { record } = key;
  const { chambers, id, door } = row;
  if (!spec || !record) return unreadable(book, key.symbol, [key.at.bitting, key.at.row, system.at]);
  if (!chambers) return unreadable(book, door ?? id, [...row.at.chambers, row.at.row]);
  const meant = meantOf(book, system);
  const refused = keywayRefuses(record, row, meant.enters);
  return {
    kind: 'grid-cell',
    why: {
      spec,
      symbol: key.symbol,
      bitting: record.bitting,
      ...(record.cuts !== undefined && { cutsOnBlank: record.cuts }),
      cylinder: { id, chambers, ...(door !== undefined && { door }) },
      state: stateOf(spec, record, { ...row, chambers }, meant),
      ...(refused && { wrongKeyway: refused }),
    },
  };
}

/** What is known of a row that can't be read: the first problem at one of its cells. */
function unreadable(book: BookReading, name: string, cells: readonly Place[]): StripSubject {
  const problem = cells
    .flatMap((cell) => book.problems.filter((p) => p.sheet === cell.sheet && p.address === cell.address))
    .at(0);
  return {
    kind: 'unreadable',
    name,
    sentence:
      problem?.sentence ?? 'This row can’t be read as it stands. The start screen lists what is wrong.',
  };
}

type Pinned = Pick<CylinderRecord, 'id' | 'chambers' | 'keyway'>;

function pairings<Row>(
  book: BookReading,
  system: SystemReading,
  rows: readonly Row[],
  pair: (row: Row) => readonly [KeyRecord | undefined, CylinderRow],
  name: (row: Row) => string,
): Pairing[] {
  const { spec } = system;
  if (!spec) return [];
  const meant = meantOf(book, system);
  return rows.flatMap((row) => {
    const [key, { chambers, ...cylinder }] = pair(row);
    if (!key || !chambers) return [];
    const state = stateOf(spec, key, { ...cylinder, chambers }, meant);
    return state === 'closed' ? [] : [{ name: name(row), state }];
  });
}

function stateOf(spec: Specification, key: KeyRecord, cylinder: Pinned, meant: Meant): GridState {
  const opens =
    !keywayRefuses(key, cylinder, meant.enters) &&
    operates(cylinder.chambers, key.bitting, reachOf(spec, key.cuts));
  const should = meant.pairs.has(pairName(key.symbol, cylinder.id));
  if (opens) return should ? 'opens' : 'interchange';
  return should ? 'lock-out' : 'closed';
}

function keywayRefuses(
  { keyway: key = '' }: Pick<KeyRecord, 'keyway'>,
  { keyway: cylinder = '' }: Pick<CylinderRecord, 'keyway'>,
  others: Entering | undefined,
): { readonly key: string; readonly cylinder: string } | undefined {
  return entersKeyway(others, key, cylinder) ? undefined : { key, cylinder };
}

/** Symbols and numbers are one name in either case, as in the sheet's own look-ups. */
const pairName = (key: string, cylinder: string): string => `${key}\u0000${cylinder}`.toUpperCase();

/** Which pairs are meant and which blanks enter where, worked out once for each reading of a system. */
interface Meant {
  readonly pairs: ReadonlySet<string>;
  readonly enters: Entering | undefined;
}
const meantBySystem = new WeakMap<SystemReading, Meant>();

function meantOf(book: BookReading, system: SystemReading): Meant {
  let meant = meantBySystem.get(system);
  if (!meant) {
    const audited = auditInput(book, system.name);
    const marks = audited?.marks ?? [];
    meant = {
      pairs: new Set(marks.map(({ key, cylinder }) => pairName(key, cylinder))),
      enters: audited?.system.enters,
    };
    meantBySystem.set(system, meant);
  }
  return meant;
}

function contextOf({ spec, keys, topMaster }: SystemReading, self: KeyRow): BittingContext {
  const used = new Map<number, { symbol: string; status: Status }>();
  for (const { symbol, bitting, status } of keys)
    if (spec && bitting && status && status !== 'free' && symbol !== self.symbol)
      used.set(packBitting(spec, bitting), { symbol, status });
  const master = topMaster && keys.find((k) => k.bitting?.join() === topMaster.join());
  return {
    self: self.symbol,
    ...(self.keyway !== undefined && { keyway: self.keyway }),
    used,
    ...(master && topMaster && { master: { symbol: master.symbol, bitting: topMaster } }),
  };
}
