/**
 * The workbook as the pane knows it: the last reading, how to read again, and the last write with what takes it
 * back. Every task reads afresh before it plans, since the sheet is the user's and changes under the pane.
 */
import { createContext, useCallback, useContext, useEffect, useMemo, useState, type ReactNode } from 'react';
import {
  openBook,
  watchChanges,
  type BookReading,
  type ExcelTrouble,
  type UndoPlan,
} from '../../src/workbook/index.ts';
import { err, type Result } from '../../src/keying/result.ts';

export type BookState =
  | { readonly state: 'loading' }
  | { readonly state: 'failed'; readonly sentence: string }
  | { readonly state: 'ready'; readonly book: BookReading };

export interface LastWrite {
  readonly sentence: string;
  readonly undo: UndoPlan;
}

export interface Report {
  readonly kind: 'info' | 'error';
  readonly sentence: string;
}

interface Workbook {
  readonly reading: BookState;
  /** Reads the workbook; the reading is also kept as the pane's. The error is a sentence for the user. */
  readonly refresh: () => Promise<Result<BookReading, string>>;
  readonly lastWrite: LastWrite | undefined;
  readonly keepWrite: (write: LastWrite | undefined) => void;
  /** What a command of the ribbon came to, for the start screen to say; gone with the next one. */
  readonly report: Report | undefined;
  readonly keepReport: (report: Report | undefined) => void;
}

const Context = createContext<Workbook | undefined>(undefined);

/** Typing comes in bursts: read when it has paused. */
const PAUSE_MS = 600;

/** Reads again after the user, or somebody else, changed cells. A reading that fails then leaves the last one. */
function followChanges(read: (opened: Result<BookReading, ExcelTrouble>) => void): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let gone = false;
  const later = (): void => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      void openBook().then((opened) => {
        if (!gone) read(opened);
      });
    }, PAUSE_MS);
  };
  // a host that can't tell changes leaves the pane to "Read again"
  const watching = watchChanges(later).catch(() => undefined);
  return () => {
    gone = true;
    clearTimeout(timer);
    void watching.then((stop) => stop?.());
  };
}

const stateOf = (opened: Result<BookReading, ExcelTrouble>): BookState =>
  opened.ok ? { state: 'ready', book: opened.value } : { state: 'failed', sentence: opened.error.sentence };

export function WorkbookProvider({ children }: { readonly children: ReactNode }) {
  const [reading, setReading] = useState<BookState>({ state: 'loading' });
  const [lastWrite, setLastWrite] = useState<LastWrite>();
  const [report, keepReport] = useState<Report>();
  // an older report would contradict a newer write
  const keepWrite = useCallback((write: LastWrite | undefined) => {
    setLastWrite(write);
    keepReport(undefined);
  }, []);
  const refresh = useCallback(async (): Promise<Result<BookReading, string>> => {
    const opened = await openBook();
    setReading(stateOf(opened));
    return opened.ok ? opened : err(opened.error.sentence);
  }, []);
  useEffect(() => {
    let gone = false;
    void openBook().then((opened) => {
      if (!gone) setReading(stateOf(opened));
    });
    return () => {
      gone = true;
    };
  }, []);
  useEffect(() => followChanges((opened) => opened.ok && setReading(stateOf(opened))), []);
  const value = useMemo(
    () => ({ reading, refresh, lastWrite, keepWrite, report, keepReport }),
    [keepWrite, lastWrite, reading, refresh, report],
  );
  return <Context.Provider value={value}>{children}</Context.Provider>;
}

export function useWorkbook(): Workbook {
  const workbook = useContext(Context);
  if (!workbook) throw new Error('useWorkbook outside WorkbookProvider');
  return workbook;
}

/** The reading, or undefined while there is none. */
export function useBook(): BookReading | undefined {
  const { reading } = useWorkbook();
  return reading.state === 'ready' ? reading.book : undefined;
}
