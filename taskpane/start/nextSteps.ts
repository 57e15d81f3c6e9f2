/** What is worth doing next in this workbook, most pressing first: few, and each leads somewhere. */
import { isRetired } from '../../src/keying/ledger.ts';
import { overdue } from '../../src/keying/ledgerAnswers.ts';
import type { LedgerState } from '../../src/keying/ledgerReplay.ts';
import type { LedgerReading, BookReading, BookSettings } from '../../src/workbook/index.ts';
import { counted, listed } from '../pictures/numbers.ts';
import type { ScreenName } from '../shared/navigation.tsx';
import { ownSheets } from '../shared/ownSheets.ts';

export interface NextStep {
  readonly to: ScreenName;
  /** Why, with the number. */
  readonly sentence: string;
  /** What pressing it leads to. */
  readonly action: string;
  /** Drafts that the screen finds when it opens. */
  readonly drafts?: Readonly<Record<string, unknown>>;
}

export interface Situation {
  readonly book: BookReading;
  readonly ledger: LedgerReading;
  readonly state: LedgerState;
  readonly audits: NonNullable<BookSettings['audits']>;
}

/** More would be a second list of tasks. */
const MOST = 3;

/** At most three. @example nextSteps(…) → [{ sentence: '2 keys are overdue.', action: 'See who has them', to: 'people' }] */
export function nextSteps(situation: Situation): NextStep[] {
  const { systems } = situation.book;
  const steps = systems.length === 0 ? first(situation.book) : standing(situation);
  return steps.slice(0, MOST);
}

function first(book: BookReading): NextStep[] {
  const own = ownSheets(book).filter((name) => book.sheets.some((s) => s.name === name && s.used));
  return [
    { to: 'make', sentence: 'No master-key system here yet.', action: 'Make a system' },
    ...(own.length > 0
      ? [
          {
            to: 'schedule' as const,
            sentence: `${listed(own.slice(0, 2))}: a door schedule of yours?`,
            action: 'Check the schedule',
          },
          { to: 'check' as const, sentence: 'Codes in a sheet?', action: 'Check them against a spec' },
        ]
      : []),
  ];
}

function standing({ book, ledger, state, audits }: Situation): NextStep[] {
  const late = overdue(state).length;
  const lost = state.copies.filter(({ where, key }) => {
    const row = key === undefined ? undefined : ledger.keys[key];
    return where === 'lost' && !(row && isRetired(row));
  });
  const lostNames = [...new Set(lost.map((copy) => copy.symbol))];
  const audited = new Map(audits.map((audit) => [audit.system, audit]));
  const unaudited = book.systems.filter((system) => !audited.has(system.name));
  const faulty = book.systems.flatMap(({ name }) => {
    const audit = audited.get(name);
    return audit && audit.faults > 0 ? [audit] : [];
  });
  const pinned = book.tables.some(({ name }) => /^keyrowpinning$/i.test(name));
  const cylinders = book.systems.find((system) => system.cylinders.length > 0);
  return [
    ...(lost.length > 0
      ? [
          {
            to: 'lost' as const,
            sentence: `${counted(lost.length, 'key')} lost, bitting still in use: ${listed(lostNames.slice(0, 3))}.`,
            action: `See what ${lostNames[0]!} opens`,
            drafts: { 'lost.key': lostNames[0]! },
          },
        ]
      : []),
    ...(late > 0
      ? [
          {
            to: 'people' as const,
            sentence: `${counted(late, 'key')} overdue.`,
            action: 'See who has them',
            drafts: { 'people.question': 'overdue' },
          },
        ]
      : []),
    ...unaudited.slice(0, 1).map(({ name }) => ({
      to: 'audit' as const,
      sentence: `${name} was not audited yet.`,
      action: `Audit ${name}`,
      drafts: { 'audit.system': name },
    })),
    ...faulty.slice(0, 1).map(({ system, made, faults }) => ({
      to: 'audit' as const,
      sentence: `${system}: ${counted(faults, 'fault')} at the audit of ${made}.`,
      action: `Audit ${system} again`,
      drafts: { 'audit.system': system },
    })),
    ...(!pinned && cylinders
      ? [
          {
            to: 'pin' as const,
            sentence: `No pinning sheet yet for ${cylinders.name}.`,
            action: 'Pin the cylinders',
            drafts: { 'pin.system': cylinders.name },
          },
        ]
      : []),
    ...(ledger.entries.length === 0
      ? [{ to: 'ledger' as const, sentence: 'No key handed out yet.', action: 'Hand out keys' }]
      : []),
    { to: 'audit' as const, sentence: 'Nothing pressing.', action: 'Audit what stands here' },
  ];
}
