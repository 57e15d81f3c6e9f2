/** Follows the workbook's selection and shows it in the strip. */
import { useEffect, useMemo, useState } from 'react';
import { subjectAt, watchSelection } from '../../src/workbook/index.ts';
import type { BookReading, CellValue, Place } from '../../src/workbook/index.ts';
import { usePreferences } from '../shared/preferences.tsx';
import { Strip } from './Strip.tsx';
import type { StripSubject } from './subject.ts';
import { subjectOf } from './subjectOf.ts';

const NOTHING: StripSubject = { kind: 'nothing' };

export function SelectionStrip({ book }: { readonly book: BookReading }) {
  const [selected, setSelected] = useState<{ readonly at: Place; readonly value: CellValue }>();
  const { chosen, keep } = usePreferences();
  useEffect(() => {
    let gone = false;
    let stop: (() => Promise<void>) | undefined;
    watchSelection((at, value) => {
      if (!gone) setSelected({ at, value });
    }).then(
      (stopWatching) => {
        if (gone) void stopWatching();
        else stop = stopWatching;
      },
      // a host that can't tell the selection leaves the strip in its empty state
      () => setSelected(undefined),
    );
    return () => {
      gone = true;
      void stop?.();
    };
  }, []);
  const subject = useMemo(
    () => (selected ? subjectOf(book, subjectAt(book, selected.at, selected.value)) : NOTHING),
    [book, selected],
  );
  return (
    <Strip
      subject={subject}
      folded={chosen?.stripFolded ?? false}
      onFold={(stripFolded) => keep({ stripFolded })}
    />
  );
}
