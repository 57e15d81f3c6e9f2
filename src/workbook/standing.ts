/** A book on one day: who has which copy, and what each system's keys really open. */
import { accessMap, copiesOfKeys, type AccessMap, type CopiesOfKeys } from '../keying/access.ts';
import type { Day } from '../keying/calendar.ts';
import { auditInputOf } from '../keying/intended.ts';
import { replayLedger, type LedgerState } from '../keying/ledgerReplay.ts';
import { auditInput, type SystemAudit } from './auditInput.ts';
import { readLedger, type LedgerReading } from './readLedger.ts';
import type { BookReading, KeyRow, SystemReading } from './reading.ts';

export interface SystemStanding {
  readonly reading: SystemReading;
  readonly audit: SystemAudit;
  /** Keys and cylinders are numbered as those of `audit.system`. */
  readonly of: CopiesOfKeys;
}

export interface Standing {
  readonly ledger: LedgerReading;
  readonly state: LedgerState;
  /** Systems whose spec could be read. */
  readonly systems: readonly SystemStanding[];
}

interface Opened {
  readonly reading: SystemReading;
  readonly audit: SystemAudit;
  readonly access: AccessMap;
}

/** What opens what doesn't depend on the day, so it is worked out once for each reading. */
const opened = new WeakMap<BookReading, readonly Opened[]>();

function openedIn(book: BookReading): readonly Opened[] {
  let found = opened.get(book);
  if (!found) {
    found = book.systems.flatMap((reading): Opened[] => {
      const audit = auditInput(book, reading.name);
      if (!audit) return [];
      return [{ reading, audit, access: accessMap(auditInputOf(audit.system, audit.marks)) }];
    });
    opened.set(book, found);
  }
  return found;
}

/** How the book stands on a day. */
export function standingOn(book: BookReading, asOf: Day): Standing {
  const ledger = readLedger(book);
  const state = replayLedger(ledger, asOf);
  const systems = openedIn(book).map(({ reading, audit, access }): SystemStanding => {
    const numbers = new Map<KeyRow, number>();
    for (const row of reading.keys) if (row.record) numbers.set(row, numbers.size);
    return {
      reading,
      audit,
      of: copiesOfKeys(access, state, (k) => {
        const row = ledger.keyRows[k];
        return row && numbers.get(row);
      }),
    };
  });
  return { ledger, state, systems };
}
