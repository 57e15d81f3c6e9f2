/**
 * Plays a ledger up to any date: which copy is where, and everything in the rows that can't be right. A row counts
 * from its own date wherever it stands, so that one added late still falls into its place; a corrected row counts for
 * nothing, whenever the correction was made. Where rows contradict one another the later one decides where the key
 * is, and the contradiction is reported.
 */
import type { Day } from './calendar.ts';
import {
  copiesByKey,
  copyId,
  keyId,
  type Holder,
  type KeyCopies,
  type LedgerEntry,
  type LedgerKey,
  type Signature,
} from './ledger.ts';
import type { LedgerFinding } from './ledgerFindings.ts';
import { foldName } from './specTable.ts';

export interface LedgerInput {
  readonly entries: readonly LedgerEntry[];
  readonly keys: readonly LedgerKey[];
  /** Left out where there is no list of holders: then no name is unknown. */
  readonly holders?: readonly Holder[];
}

export const WHERE = ['stock', 'held', 'lost', 'destroyed'] as const;

export interface CopyState {
  readonly system: string;
  readonly symbol: string;
  readonly copy: number;
  /** Index of the row of keys that it was cut to; none for a key that isn't listed. */
  readonly key?: number;
  readonly where: (typeof WHERE)[number];
  /** Who has it; of a lost key, who had it. As spelt in the list of holders. */
  readonly holder?: string;
  /** Day of the last event; none for a copy that was never given out. */
  readonly since?: Day;
  readonly due?: Day;
  readonly hook?: string;
  readonly signature?: Signature;
  /** Index of the row that put it there. */
  readonly entry?: number;
}

export interface LedgerState {
  readonly asOf: Day;
  /** Every copy that was cut or that a row names, by key and copy number. */
  readonly copies: readonly CopyState[];
  readonly findings: readonly LedgerFinding[];
  /** Rows that count by this date, rows that are corrected, rows of later days. */
  readonly counted: number;
  readonly corrected: number;
  readonly later: number;
}

/**
 * Who has what on a day.
 * @example replayLedger({ entries, keys, holders }, day).copies → [{ symbol: 'AA1', copy: 1, where: 'held', … }, …]
 */
export function replayLedger(input: LedgerInput, asOf: Day): LedgerState {
  const { entries, keys } = input;
  const findings: LedgerFinding[] = [];
  const standing = withoutCorrected(entries, findings);
  reportOrder(entries, findings);
  const inTime = timeOrder(entries, standing);
  const byKey = copiesByKey(keys);
  const holders = input.holders && new Map(input.holders.map((h) => [foldName(h.name), h]));
  const states = stockOf(keys, byKey);
  let counted = 0;
  for (const e of inTime) {
    const entry = entries[e]!;
    if (entry.day > asOf) continue;
    counted++;
    if (entry.event === 'struck') continue;
    checkNames(entry, e, byKey, holders, findings);
    const id = copyId(entry.system, entry.symbol, entry.copy);
    const before = states.get(id) ?? newCopy(entry, byKey);
    const named =
      entry.holder === undefined ? undefined : (holders?.get(foldName(entry.holder))?.name ?? entry.holder);
    states.set(id, happen(before, entry, e, named, findings));
  }
  const copies = [...states.values()].sort(byName);
  for (const { where, signature, holder, entry, symbol, copy } of copies)
    if (where === 'held' && signature === 'required')
      findings.push({ code: 'signature-open', entry: entry!, symbol, copy, holder: holder ?? '' });
  findings.sort((a, b) => a.entry - b.entry);
  const later = inTime.filter((e) => entries[e]!.day > asOf).length;
  return { asOf, copies, findings, counted, later, corrected: entries.length - standing.length };
}

/** Indices of the rows that no later row corrects. */
function withoutCorrected(entries: readonly LedgerEntry[], findings: LedgerFinding[]): number[] {
  const byNumber = new Map<number, number>();
  const correctedBy = new Map<number, number>();
  entries.forEach(({ number, corrects, event }, entry) => {
    if (corrects !== undefined) {
      const target = byNumber.get(corrects);
      if (target === undefined) findings.push({ code: 'corrects-unknown', entry, number: corrects });
      else {
        const earlier = correctedBy.get(target);
        if (earlier !== undefined) {
          findings.push({ code: 'corrected-twice', entry, number: corrects });
          correctedBy.set(earlier, entry);
        }
        correctedBy.set(target, entry);
      }
    } else if (event === 'struck') findings.push({ code: 'struck-nothing', entry });
    if (number === undefined) return;
    if (byNumber.has(number)) findings.push({ code: 'number-repeated', entry, number });
    else byNumber.set(number, entry);
  });
  return entries.flatMap((_, e) => (correctedBy.has(e) ? [] : [e]));
}

function reportOrder(entries: readonly LedgerEntry[], findings: LedgerFinding[]): void {
  let latest: Day | undefined;
  entries.forEach(({ day, symbol, copy, corrects, event }, entry) => {
    if (latest !== undefined && day < latest && corrects === undefined && event !== 'struck')
      findings.push({ code: 'out-of-order', entry, symbol, copy, after: latest });
    if (latest === undefined || day > latest) latest = day;
  });
}

/** By day, then by the minute; a row without one belongs to the minute of the row above it on that day. */
function timeOrder(entries: readonly LedgerEntry[], standing: readonly number[]): number[] {
  const minuteOf = new Int32Array(entries.length);
  entries.forEach(({ day, minutes }, e) => {
    const above = entries[e - 1];
    minuteOf[e] = minutes ?? (above?.day === day ? minuteOf[e - 1]! : 0);
  });
  return [...standing].sort(
    (a, b) => entries[a]!.day - entries[b]!.day || minuteOf[a]! - minuteOf[b]! || a - b,
  );
}

/** All copies that were cut, before anything happened to them. */
function stockOf(keys: readonly LedgerKey[], byKey: ReadonlyMap<string, KeyCopies>): Map<string, CopyState> {
  const states = new Map<string, CopyState>();
  for (const { rows, cut, rowOf } of byKey.values()) {
    const { system, symbol } = keys[rows[0] ?? 0]!;
    for (let copy = 1; copy <= (cut ?? 0); copy++) {
      const key = rowOf(copy);
      states.set(copyId(system, symbol, copy), {
        system,
        symbol,
        copy,
        where: 'stock',
        ...(key !== undefined && { key }),
      });
    }
  }
  return states;
}

function newCopy(entry: LedgerEntry, byKey: ReadonlyMap<string, KeyCopies>): CopyState {
  const { system, symbol, copy } = entry;
  const key = byKey.get(keyId(system, symbol))?.rowOf(copy);
  return { system, symbol, copy, where: 'stock', ...(key !== undefined && { key }) };
}

function checkNames(
  { system, symbol, copy, holder, event, day, due }: LedgerEntry,
  entry: number,
  byKey: ReadonlyMap<string, KeyCopies>,
  holders: ReadonlyMap<string, Holder> | undefined,
  findings: LedgerFinding[],
): void {
  const of = { entry, symbol, copy };
  const known = byKey.get(keyId(system, symbol));
  if (!known) findings.push({ code: 'unknown-key', ...of });
  else if (known.cut !== undefined && copy > known.cut)
    findings.push({ code: 'unknown-copy', ...of, cut: known.cut });
  const given = event === 'issued' || event === 'transferred';
  if (holder === undefined) {
    if (given) findings.push({ code: 'holder-missing', ...of, event });
  } else {
    const person = holders?.get(foldName(holder));
    if (holders && !person) findings.push({ code: 'unknown-holder', ...of, holder });
    if (given && person?.left !== undefined && person.left < day)
      findings.push({ code: 'holder-left', ...of, holder, left: person.left });
  }
  if (given && due !== undefined && due < day) findings.push({ code: 'due-before-issue', ...of, due });
}

/** One event: where the copy is after it, and whether it could happen. */
function happen(
  before: CopyState,
  { event, day, due, signature, hook }: LedgerEntry,
  entry: number,
  holder: string | undefined,
  findings: LedgerFinding[],
): CopyState {
  const { system, symbol, copy, key, where } = before;
  const of = { entry, symbol, copy };
  const bare = { system, symbol, copy, since: day, entry, ...(key !== undefined && { key }) };
  const inHands = (): CopyState => ({
    ...bare,
    where: 'held',
    ...(holder !== undefined && { holder }),
    ...(due !== undefined && { due }),
    ...(signature && { signature }),
  });
  const onHook = (): CopyState => ({ ...bare, where: 'stock', ...(hook !== undefined && { hook }) });
  if (where === 'destroyed') findings.push({ code: 'after-destroyed', ...of, event });
  switch (event) {
    case 'issued':
      if (where === 'held')
        findings.push({ code: 'issued-twice', ...of, holder: holder ?? '', other: before.holder ?? '' });
      if (where === 'lost') findings.push({ code: 'issued-while-lost', ...of });
      return inHands();
    case 'transferred':
      if (where === 'stock' || where === 'lost') findings.push({ code: 'transferred-without-issue', ...of });
      return inHands();
    case 'returned':
      if (where === 'stock') findings.push({ code: 'returned-without-issue', ...of });
      if (where === 'lost') findings.push({ code: 'returned-while-lost', ...of });
      if (where === 'held' && holder !== undefined && foldName(holder) !== foldName(before.holder ?? ''))
        findings.push({ code: 'returned-by-other', ...of, holder, other: before.holder ?? '' });
      return onHook();
    case 'lost': {
      if (where === 'lost') findings.push({ code: 'lost-twice', ...of });
      const had = before.holder ?? holder;
      return { ...bare, where: 'lost', ...(had !== undefined && { holder: had }) };
    }
    case 'found':
      if (where !== 'lost' && where !== 'destroyed') findings.push({ code: 'found-not-lost', ...of });
      return holder === undefined ? onHook() : inHands();
    case 'destroyed':
      return { ...bare, where: 'destroyed' };
    case 'struck':
      return before;
  }
}

const byName = (a: CopyState, b: CopyState): number =>
  compare(a.system, b.system) || compare(a.symbol, b.symbol) || a.copy - b.copy;

/** AA2 before AA10. */
const collator = new Intl.Collator('en', { numeric: true });
const compare = (a: string, b: string): number => collator.compare(a, b);
