/** Who holds and opens what, as of any day; the answer here and, if wanted, as a sheet. */
import { Button, Field, Input, Select } from '@fluentui/react-components';
import { useId, useMemo } from 'react';
import { formatDay } from '../../src/keying/calendar.ts';
import { heldBy } from '../../src/keying/ledgerAnswers.ts';
import {
  answer,
  doorNames,
  peopleNames,
  planAnswer,
  planReceipt,
  QUESTIONS,
  type Question,
} from '../../src/workbook/index.ts';
import { Cautions } from '../shared/Caution.tsx';
import { useDraft, useNavigation } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { Screen } from '../shared/Screen.tsx';
import { today } from '../shared/today.ts';
import { usePlan } from '../shared/usePlan.ts';
import { useBook } from '../shared/workbook.tsx';
import { AnswerView } from './AnswerView.tsx';
import { LedgerTrouble } from './LedgerTrouble.tsx';
import { PeopleGrid } from './PeopleGrid.tsx';
import { readDay, todayText, useStanding } from './useStanding.ts';

const TITLES: Record<Question, string> = {
  door: 'Who can open this door?',
  person: 'What can this person open?',
  masters: 'Who holds masters?',
  overdue: 'What is overdue?',
  left: 'Keys of people who left',
  unaccounted: 'Copies unaccounted for',
  closed: 'Doors that nobody can open',
  stock: 'Copies in stock and out',
  recall: 'Keys of retired bittings still out',
  everything: 'Who opens what, all together',
};
const isQuestion = (text: string): text is Question => (QUESTIONS as readonly string[]).includes(text);

export function PeopleScreen() {
  const book = useBook();
  const { go } = useNavigation();
  const names = useId();
  const [question, setQuestion] = useDraft<Question>('people.question', 'door');
  const [doorText, setDoor] = useDraft<string>('people.door', '');
  const [personText, setPerson] = useDraft<string>('people.person', '');
  const [date, setDate] = useDraft<string>('people.date', todayText());
  const run = usePlan();
  const { day, fault } = readDay(date);
  const standing = useStanding(book, day);
  const choices = useMemo(
    () =>
      !standing
        ? []
        : question === 'door'
          ? doorNames(standing)
          : question === 'person'
            ? peopleNames(standing)
            : [],
    [question, standing],
  );
  const typed = question === 'door' ? doorText : personText;
  const about = typed.trim() === '' ? (choices[0] ?? '') : typed.trim();
  const shown = useMemo(
    () => (standing ? answer(standing, { question, about }) : undefined),
    [about, question, standing],
  );
  if (run.state.step !== 'none')
    return (
      <PlanScreen
        title={run.state.step === 'ready' ? run.state.plan.title : 'Write a sheet'}
        run={run}
        action="Write the sheet"
        back={{ label: 'Back to the question', onClick: run.leave }}
        onDone={run.leave}
      >
        <Cautions about={['holders', 'protection']} />
      </PlanScreen>
    );
  if (!standing || !shown || standing.systems.length === 0)
    return (
      <Screen title="Keys and people">
        <Notice kind="info">This workbook holds no system yet. Make keys first.</Notice>
      </Screen>
    );
  const none = standing.ledger.ledger === undefined;
  const asks = question === 'door' || question === 'person';
  return (
    <Screen
      title="Keys and people"
      lead="From the keys in hand, and from what they really open by their cuts."
      foot={
        none ? (
          <Button className="primary" appearance="primary" onClick={() => go('ledger')}>
            Hand out the first keys
          </Button>
        ) : (
          <>
            <Button
              className="primary"
              appearance="primary"
              disabledFocusable={shown.rows.length === 0}
              onClick={() => void run.prepare((now) => planAnswer(now, shown, { made: today(), asOf: day }))}
            >
              Plan this answer as a sheet
            </Button>
            {question === 'person' && (
              <Button
                onClick={() =>
                  void run.prepare((now) =>
                    planReceipt(now, {
                      made: today(),
                      holder: about,
                      copies: heldBy(standing.state, about).map(({ since, ...copy }) => ({
                        ...copy,
                        ...(since !== undefined && { issued: since }),
                      })),
                    }),
                  )
                }
              >
                Receipt to sign
              </Button>
            )}
          </>
        )
      }
    >
      <div className="stack">
        {none && (
          <Notice kind="info">
            There is no ledger in this workbook yet, so nobody has a key in hand by it.
          </Notice>
        )}
        <LedgerTrouble standing={standing} />
        <Field label="Question">
          <Select value={question} onChange={(_, { value }) => isQuestion(value) && setQuestion(value)}>
            {QUESTIONS.map((q) => (
              <option key={q} value={q}>
                {TITLES[q]}
              </option>
            ))}
          </Select>
        </Field>
        <div className={asks ? 'pair' : undefined}>
          {asks && (
            <Field label={question === 'door' ? 'Door' : 'Person'}>
              <Input
                list={names}
                value={typed}
                placeholder={choices[0] ?? ''}
                onChange={(_, { value }) => (question === 'door' ? setDoor(value) : setPerson(value))}
              />
              <datalist id={names}>
                {choices.map((name) => (
                  <option key={name} value={name} />
                ))}
              </datalist>
            </Field>
          )}
          <Field label="As of" {...(fault !== undefined && { validationMessage: fault })}>
            <Input value={date} onChange={(_, { value }) => setDate(value)} />
          </Field>
        </div>
        <p role="status">
          <strong>{shown.sentence}</strong> As of {formatDay(day)}.
        </p>
        {question === 'everything' ? (
          standing.systems.map((system) => <PeopleGrid key={system.reading.name} system={system} />)
        ) : (
          <AnswerView answer={shown} />
        )}
        {(question === 'door' || question === 'closed') && <Cautions about={['exit-doors']} />}
        <Cautions about={['holders']} />
      </div>
    </Screen>
  );
}
