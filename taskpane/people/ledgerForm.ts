/** What is typed when keys change hands, as rows for the ledger: copies are chosen where none is named. */
import { parseMoment, sayDayFault } from '../../src/keying/calendar.ts';
import type { LedgerEvent } from '../../src/keying/ledger.ts';
import { parseKeyList, type WantedKey } from '../../src/keying/keyList.ts';
import type { CopyState, LedgerState } from '../../src/keying/ledgerReplay.ts';
import { err, ok, type Result } from '../../src/keying/result.ts';
import { foldName } from '../../src/keying/specTable.ts';
import type { NewEntry } from '../../src/workbook/index.ts';

export interface LedgerForm {
  readonly event: LedgerEvent;
  readonly keys: string;
  readonly holder: string;
  readonly department: string;
  readonly date: string;
  readonly due: string;
  readonly givenBy: string;
  readonly takenBy: string;
  readonly hook: string;
  readonly sign: boolean;
  /** Number of the row that is corrected; blank for a new event. */
  readonly corrects: string;
}

/** Rows, or every reason why there are none. `system` is that of all keys in the list. */
export function entriesOf(
  form: LedgerForm,
  state: LedgerState,
  system: string,
): Result<NewEntry[], readonly string[]> {
  const faults: string[] = [];
  const day = dayIn(form.date, faults);
  const due = form.due.trim() === '' ? undefined : dayIn(form.due, faults);
  const corrects = form.corrects.trim() === '' ? undefined : Number(form.corrects);
  if (corrects !== undefined && !(Number.isInteger(corrects) && corrects > 0))
    faults.push(`“${form.corrects.trim()}” is not the number of a row in the ledger.`);
  const struck = form.event === 'struck';
  if (struck && corrects === undefined) faults.push('Say which row is struck: its number in the ledger.');
  const given = form.event === 'issued' || form.event === 'transferred';
  if (given && form.holder.trim() === '') faults.push('Say who gets the keys.');
  const list = struck ? ok([]) : parseKeyList(form.keys);
  if (!list.ok) faults.push(...list.error.map((f) => f.sentence));
  else if (!struck && list.value.length === 0) faults.push('Say which keys, such as AA1/2 or AA1-AA8.');
  const copies = list.ok ? chooseCopies(list.value, state, system, form, faults) : [];
  if (corrects !== undefined && copies.length > 1)
    faults.push('A correction stands for one row, so name one key.');
  if (faults.length > 0 || day === undefined) return err(faults);
  const text = (name: 'holder' | 'givenBy' | 'takenBy' | 'hook'): object =>
    form[name].trim() === '' ? {} : { [name]: form[name].trim() };
  const common = {
    day,
    event: form.event,
    system,
    ...text('holder'),
    ...text('givenBy'),
    ...text('takenBy'),
    ...(form.event === 'returned' || form.event === 'found' ? text('hook') : {}),
    ...(given && due !== undefined && { due }),
    ...(given && form.sign && { signature: 'required' as const }),
    ...(corrects !== undefined && { corrects }),
  };
  if (struck) return ok([{ ...common, symbol: '', copy: 1 }]);
  return ok(copies.map(({ symbol, copy }) => ({ ...common, symbol, copy })));
}

function dayIn(text: string, faults: string[]) {
  const read = parseMoment(text);
  if (!read.ok) faults.push(sayDayFault(read.error));
  return read.ok ? read.value.day : undefined;
}

interface NamedCopy {
  readonly symbol: string;
  readonly copy: number;
}

/** Named copies as they are; for the others the lowest that the event can happen to. */
function chooseCopies(
  wanted: readonly WantedKey[],
  state: LedgerState,
  system: string,
  { event, holder }: LedgerForm,
  faults: string[],
): NamedCopy[] {
  const taken = new Set<CopyState>();
  return wanted.flatMap(({ symbol, copy, count }): NamedCopy[] => {
    if (copy !== undefined) return [{ symbol, copy }];
    const fitting = state.copies.filter(
      (c) =>
        foldName(c.system) === foldName(system) &&
        foldName(c.symbol) === foldName(symbol) &&
        !taken.has(c) &&
        canHappen(event, c, holder),
    );
    const chosen = fitting.slice(0, count);
    for (const c of chosen) taken.add(c);
    if (chosen.length < count)
      faults.push(
        `${count === 1 ? `No copy of ${symbol}` : `Only ${chosen.length} of ${count} copies of ${symbol}`} ${WHICH[event]}. Name the copy, such as ${symbol}/1.`,
      );
    return chosen.map((c) => ({ symbol: c.symbol, copy: c.copy }));
  });
}

const WHICH: Record<LedgerEvent, string> = {
  issued: 'can be given out, by what the ledger says of the cabinet',
  returned: 'is out with this holder',
  transferred: 'is in hands',
  lost: 'is out with this holder',
  found: 'counts as lost',
  destroyed: 'is in the cabinet',
  struck: 'is meant',
};

function canHappen(event: LedgerEvent, { where, holder }: CopyState, named: string): boolean {
  switch (event) {
    case 'issued':
    case 'destroyed':
      return where === 'stock';
    case 'found':
      return where === 'lost';
    case 'transferred':
      return where === 'held';
    case 'returned':
    case 'lost':
      return where === 'held' && (named.trim() === '' || foldName(holder ?? '') === foldName(named));
    case 'struck':
      return false;
  }
}
