/** The first screen: what this workbook holds, what is wrong with it, and what a person may have come to do. */
import { Button } from '@fluentui/react-components';
import { useState } from 'react';
import type { BookReading } from '../../src/workbook/index.ts';
import { Busy } from '../shared/Busy.tsx';
import { FaultList } from '../shared/FaultList.tsx';
import { useNavigation, type ScreenName } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { Screen } from '../shared/Screen.tsx';
import { useLastWrite } from '../shared/useLastWrite.ts';
import { useWorkbook } from '../shared/workbook.tsx';
import { holdsSentence, troubleSentence } from './summary.ts';

interface Task {
  readonly to: ScreenName;
  readonly title: string;
  readonly what: string;
  /** Needs a system in the workbook. */
  readonly system?: true;
}

const TASKS: readonly Task[] = [
  {
    to: 'make',
    title: 'Make keys',
    what: 'A master-key system for so many doors: bittings, grid and pinning.',
  },
  {
    to: 'solve',
    title: 'Solve a grid',
    what: 'Who opens what, as you marked it: keys and pinning, or proof that there are none.',
  },
  {
    to: 'extend',
    title: 'Extend a system',
    what: 'New doors and keys into a system that stands, with nothing re-pinned that need not be.',
    system: true,
  },
  {
    to: 'cross',
    title: 'Cross-key a door',
    what: 'Let further keys open one door: what it costs, before anything is written.',
    system: true,
  },
  {
    to: 'pools',
    title: 'Keys without a master',
    what: 'Keyed different or keyed alike: so many bittings, none used before.',
  },
  { to: 'check', title: 'Check codes', what: 'The codes in the selected cells against a spec.' },
  {
    to: 'audit',
    title: 'Audit a system',
    what: 'Every key against every cylinder, from the sheets.',
    system: true,
  },
  {
    to: 'pin',
    title: 'Pin cylinders',
    what: 'Pin stacks chamber by chamber, as a sheet for the bench.',
    system: true,
  },
  {
    to: 'schedule',
    title: 'Look after the schedule',
    what: 'Your own door schedule: check it, correct it, order from it.',
  },
  {
    to: 'people',
    title: 'Keys and people',
    what: 'Who can open a door, what somebody can open, what is overdue.',
    system: true,
  },
  {
    to: 'ledger',
    title: 'Hand out and take back',
    what: 'Keys to and from people, one or many, as rows of the ledger.',
    system: true,
  },
  {
    to: 'count',
    title: 'Count the keys',
    what: 'A key inventory by person or hook, typed or scanned.',
    system: true,
  },
  {
    to: 'lost',
    title: 'A key is lost',
    what: 'What it opens, what to change first, new bittings and a work order.',
    system: true,
  },
  {
    to: 'reports',
    title: 'Reports and privacy',
    what: 'For the customer without bittings, for the shop with them.',
    system: true,
  },
  {
    to: 'codes',
    title: 'Cut from a list',
    what: 'Codes from elsewhere, checked and put on a cutting sheet.',
  },
  {
    to: 'decode',
    title: 'Decode a key',
    what: 'Caliper readings: the specs that fit best, the code, and how well.',
  },
  { to: 'shop', title: 'Shop tables', what: 'Your cutters, set-ups, blanks and pins, and what they suit.' },
  { to: 'specs', title: 'Specs', what: 'Cut centres, depths and MACS: starters and your own.' },
  { to: 'about', title: 'About and cautions', what: 'What this add-in does and does not do.' },
];

export function StartScreen() {
  const { reading, refresh } = useWorkbook();
  switch (reading.state) {
    case 'loading':
      return (
        <Screen title="Keyrow">
          <Busy stage="Reading the workbook" done={0} total={0} />
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
          <Tasks systems={0} />
        </Screen>
      );
    case 'ready':
      return <Ready book={reading.book} />;
  }
}

function Ready({ book }: { readonly book: BookReading }) {
  const { go } = useNavigation();
  const { refresh } = useWorkbook();
  const last = useLastWrite();
  const [open, setOpen] = useState(false);
  const { summary, problems } = book;
  const trouble = troubleSentence(summary);
  const systems = summary.systems;
  return (
    <Screen
      title="Keyrow"
      foot={
        <>
          <Button
            className="primary"
            appearance="primary"
            onClick={() => go(systems > 0 && !trouble ? 'audit' : 'make')}
          >
            {systems > 0 && !trouble ? 'Audit what stands here' : 'Make a new system'}
          </Button>
          <Button onClick={() => void refresh()}>Read again</Button>
        </>
      }
    >
      <p className="holds">
        {holdsSentence(summary) ??
          'Nothing of Keyrow’s in this workbook yet. Make keys to begin, or check codes that stand in a sheet.'}
      </p>
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
          {open && (
            <FaultList
              label="What is wrong in the workbook"
              lines={problems.map(({ severity, sentence, sheet, address }) => ({
                severity,
                sentence,
                at: { sheet, address },
              }))}
            />
          )}
        </>
      )}
      <Tasks systems={systems} />
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
    </Screen>
  );
}

/** Only what can be done now: a task that needs a system waits until there is one. */
function Tasks({ systems }: { readonly systems: number }) {
  const { go } = useNavigation();
  return (
    <nav aria-label="Tasks">
      <ul className="plain tasks">
        {TASKS.filter((task) => !task.system || systems > 0).map(({ to, title, what }) => (
          <li key={to}>
            <button type="button" onClick={() => go(to)}>
              <strong>{title}</strong>
              <span>{what}</span>
            </button>
          </li>
        ))}
      </ul>
    </nav>
  );
}
