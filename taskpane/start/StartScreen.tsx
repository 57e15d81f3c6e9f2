/** The first screen: what this workbook holds, what is wrong with it, and what a person may have come to do. */
import { Button } from '@fluentui/react-components';
import { useMemo, useState } from 'react';
import type { BookReading } from '../../src/workbook/index.ts';
import { Busy } from '../shared/Busy.tsx';
import { ledgerSummary, withLedger } from '../people/ledgerSummary.ts';
import { readDay, useStanding } from '../people/useStanding.ts';
import { FaultList, type FaultLine } from '../shared/FaultList.tsx';
import { Notice } from '../shared/Notice.tsx';
import { Screen } from '../shared/Screen.tsx';
import { UnitSwitch } from '../shared/UnitField.tsx';
import { useLastWrite } from '../shared/useLastWrite.ts';
import { useWorkbook } from '../shared/workbook.tsx';
import { FirstSteps, useFirstTime } from './FirstSteps.tsx';
import { Leftover } from './Leftover.tsx';
import { NextSteps, useNextSteps, useTakeStep } from './NextSteps.tsx';
import { holdsSentence, sheetsIn, troubleSentence } from './summary.ts';
import { TaskList } from './TaskList.tsx';

export function StartScreen() {
  const { reading, refresh } = useWorkbook();
  switch (reading.state) {
    case 'loading':
      return (
        <Screen title="Keyrow">
          {/* as high as what mostly comes here, so that the tasks below hardly move under a hand that is quicker */}
          <div className="start-reading">
            <Busy stage="Reading the workbook" done={0} total={0} />
          </div>
          <TaskList systems={1} />
        </Screen>
      );
    case 'failed':
      return (
        <Screen
          title="Keyrow"
          foot={
            <Button className="primary" appearance="primary" onClick={() => void refresh()}>
              Read again
            </Button>
          }
        >
          <Notice kind="error">{reading.sentence}</Notice>
          <TaskList systems={0} />
        </Screen>
      );
    case 'ready':
      return <Ready book={reading.book} />;
  }
}

function Ready({ book }: { readonly book: BookReading }) {
  const { refresh, report } = useWorkbook();
  const last = useLastWrite();
  const [open, setOpen] = useState(false);
  const { problems } = book;
  const standing = useStanding(book, readDay('').day);
  const ledger = useMemo(() => standing && ledgerSummary(standing), [standing]);
  const summary = ledger ? withLedger(book.summary, ledger) : book.summary;
  const lines: readonly FaultLine[] = [
    ...problems.map(({ severity, sentence, sheet, address }) => ({
      severity,
      sentence,
      at: { sheet, address },
    })),
    ...(ledger?.lines ?? []),
  ];
  const trouble = troubleSentence(summary, sheetsIn(lines.flatMap(({ at }) => (at ? [at] : []))));
  const holds = [holdsSentence(summary), ledger?.words].filter(Boolean).join(' · ');
  const systems = summary.systems;
  const steps = useNextSteps(book);
  const take = useTakeStep();
  const first = useFirstTime(book);
  return (
    <Screen
      title="Keyrow"
      foot={
        <>
          {steps[0] && (
            <Button className="primary" appearance="primary" onClick={() => steps[0] && take(steps[0])}>
              {steps[0].action}
            </Button>
          )}
          <Button onClick={() => void refresh()}>Read again</Button>
        </>
      }
    >
      <p className="holds">{holds || 'Nothing of Keyrow’s in this workbook yet.'}</p>
      <Leftover book={book} />
      {trouble && (
        <>
          <Notice
            kind={summary.faults > 0 ? 'error' : 'warning'}
            actions={
              <Button size="small" aria-expanded={open} onClick={() => setOpen(!open)}>
                {open ? 'Hide' : 'Show'}
              </Button>
            }
          >
            {trouble}
          </Notice>
          {open && <FaultList label="What is wrong in the workbook" lines={lines} />}
        </>
      )}
      {first ? <FirstSteps book={book} /> : <NextSteps steps={steps} />}
      {report && <Notice kind={report.kind}>{report.sentence}</Notice>}
      {last.state !== 'none' && (
        <Notice
          kind={last.state === 'failed' ? 'error' : 'info'}
          actions={
            last.state === 'offered' && (
              <Button size="small" onClick={last.undo}>
                Undo
              </Button>
            )
          }
        >
          {last.sentence}
        </Notice>
      )}
      <TaskList systems={systems} />
      <UnitSwitch hint="Kept with this workbook; new sheets start from it." />
    </Screen>
  );
}
