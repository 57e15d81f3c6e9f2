/** Where every copy of 2,500 keys is after 10,000 rows, ours and as one would first write it. */
import type { Day } from '../../src/keying/calendar.ts';
import type { LedgerEntry, LedgerKey } from '../../src/keying/ledger.ts';
import { replayLedger } from '../../src/keying/ledgerReplay.ts';
import { randomOf } from './random.ts';
import type { Comparison } from './table.ts';

const ROWS = 10_000;
const KEYS = 500;
const COPIES = 5;
const LAST = 47_000 as Day;

const symbolOf = (k: number): string => `AA${k + 1}`;

/** A copy is given out when it is in the cabinet and comes back when it is not. */
function ledger(): LedgerEntry[] {
  const random = randomOf(11);
  const out = new Set<string>();
  return Array.from({ length: ROWS }, (_, i): LedgerEntry => {
    const symbol = symbolOf(random(KEYS));
    const copy = 1 + random(COPIES);
    const id = `${symbol} ${copy}`;
    const event = out.has(id) ? 'returned' : 'issued';
    if (event === 'issued') out.add(id);
    else out.delete(id);
    return {
      number: i + 1,
      day: (46_000 + Math.floor(i / 20)) as Day,
      event,
      system: 'Hall',
      symbol,
      copy,
      holder: `Holder ${random(300)}`,
    };
  });
}

/** For each copy, the whole ledger is gone through for its last row. */
function naive(entries: readonly LedgerEntry[]): number {
  let held = 0;
  for (let k = 0; k < KEYS; k++)
    for (let copy = 1; copy <= COPIES; copy++) {
      const mine = entries.filter((e) => e.symbol === symbolOf(k) && e.copy === copy && e.day <= LAST);
      if (mine.at(-1)?.event === 'issued') held++;
    }
  return held;
}

export function ledgerComparisons(): Comparison[] {
  const entries = ledger();
  const keys = Array.from({ length: KEYS }, (_, k): LedgerKey => ({
    system: 'Hall',
    symbol: symbolOf(k),
    level: 'CK',
    status: 'issued',
    copies: COPIES,
  }));
  return [
    {
      what: `Ledger replayed to a day, ${ROWS.toLocaleString('en-US')} rows`,
      items: ROWS,
      unit: 'rows',
      ours: () => replayLedger({ entries, keys }, LAST).copies.filter((c) => c.where === 'held').length,
      naive: () => naive(entries),
      against: 'the last row of each copy, found by going through the ledger again',
      same: (a, b) => a === b,
    },
  ];
}
