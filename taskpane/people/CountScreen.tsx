/** Key inventory: what should be at one place, what was counted there, and where the two differ. */
import { Button, Field, Select, Textarea } from '@fluentui/react-components';
import { useMemo } from 'react';
import {
  compareCount,
  expectedAt,
  hooksOf,
  INVENTORY_CONTROL,
  sayDifference,
  whereIs,
  type CountPlace,
  type CountResult,
} from '../../src/keying/inventory.ts';
import { parseKeyList } from '../../src/keying/keyList.ts';
import { copyName } from '../../src/keying/ledger.ts';
import { planAnswer, peopleNames, type Answer, type Standing } from '../../src/workbook/index.ts';
import { counted } from '../pictures/numbers.ts';
import { Cautions } from '../shared/Caution.tsx';
import { FaultList } from '../shared/FaultList.tsx';
import { useDraft } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { Screen } from '../shared/Screen.tsx';
import { SystemSelect } from '../shared/SystemSelect.tsx';
import { chosenSystem } from '../shared/systems.ts';
import { today } from '../shared/today.ts';
import { usePlan } from '../shared/usePlan.ts';
import { useBook } from '../shared/workbook.tsx';
import { readDay, useStanding } from './useStanding.ts';

const STOCK = 'stock';

/** `holder Name`, `hook 12` or `stock`, as the choice stands in the list. */
function placeOf(value: string): CountPlace {
  const [, kind, name = ''] = /^(holder|hook) (.*)$/s.exec(value) ?? [];
  if (kind === 'holder') return { kind, holder: name };
  return kind === 'hook' ? { kind, hook: name } : { kind: 'stock' };
}

const placeName = (place: CountPlace): string =>
  place.kind === 'holder' ? place.holder : place.kind === 'hook' ? `hook ${place.hook}` : 'the cabinet';

/** The count sheet: every expected copy with room to tick, and the differences once a count was typed. */
export function countSheet(standing: Standing, place: CountPlace, result: CountResult | undefined): Answer {
  const missing = new Set(
    (result?.differences ?? []).flatMap((d) =>
      d.kind === 'missing' ? [copyName(d.copy.symbol, d.copy.copy)] : [],
    ),
  );
  const name = placeName(place);
  const rows = expectedAt(standing.state, place).map((copy) => {
    const key = copyName(copy.symbol, copy.copy);
    return [key, copy.system, whereIs(copy), result ? (missing.has(key) ? 'missing' : 'found') : '', ''];
  });
  const others = (result?.differences ?? [])
    .filter((d) => d.kind !== 'missing')
    .map((d) => [
      'copy' in d ? copyName(d.copy.symbol, d.copy.copy) : d.symbol,
      '',
      name,
      'not expected here',
      sayDifference(d),
    ]);
  return {
    title: `Key count, ${name}`,
    sentence: `${counted(rows.length, 'key')} expected${result ? `, ${result.found} found, ${counted(result.differences.length, 'difference')}` : ''}. ${INVENTORY_CONTROL}.`,
    headings: ['Key', 'System', 'By the ledger', 'Counted', 'Remark'],
    rows: [...rows, ...others],
  };
}

export function CountScreen() {
  const book = useBook();
  const [where, setWhere] = useDraft<string>('count.place', STOCK);
  const [text, setText] = useDraft<string>('count.text', '');
  const [name, setName] = useDraft<string>('count.system', '');
  const run = usePlan();
  const { day } = readDay('');
  const standing = useStanding(book, day);
  const systems = book?.systems ?? [];
  const system = chosenSystem(systems, name);
  const list = useMemo(() => parseKeyList(text), [text]);
  if (!standing || !system)
    return (
      <Screen title="Count the keys">
        <Notice kind="info">This workbook holds no system yet. Make keys first.</Notice>
      </Screen>
    );
  const place = placeOf(where);
  const result =
    text.trim() !== '' && list.ok ? compareCount(standing.state, system.name, place, list.value) : undefined;
  const expected = expectedAt(standing.state, place).length;
  if (run.state.step !== 'none')
    return (
      <PlanScreen
        title="Write the count sheet"
        run={run}
        action="Write the count sheet"
        back={{ label: 'Back to the count', onClick: run.leave }}
        onDone={run.leave}
      >
        <Cautions about={['holders']} />
      </PlanScreen>
    );
  return (
    <Screen
      title="Count the keys"
      lead="What should be here by the ledger, against what is."
      foot={
        <Button
          className="primary"
          appearance="primary"
          onClick={() =>
            void run.prepare((now) =>
              planAnswer(now, countSheet(standing, place, result), { made: today(), asOf: day }),
            )
          }
        >
          {result ? 'Plan the result as a sheet' : 'Plan a count sheet'}
        </Button>
      }
    >
      <div className="stack">
        {systems.length > 1 && <SystemSelect systems={systems} value={system.name} onChange={setName} />}
        <Field label="Where">
          <Select value={where} onChange={(_, { value }) => setWhere(value)}>
            <option value={STOCK}>The cabinet, all hooks</option>
            {hooksOf(standing.state).map((hook) => (
              <option key={`hook ${hook}`} value={`hook ${hook}`}>
                Hook {hook}
              </option>
            ))}
            {peopleNames(standing).map((person) => (
              <option key={`holder ${person}`} value={`holder ${person}`}>
                {person}
              </option>
            ))}
          </Select>
        </Field>
        <p>{counted(expected, 'key')} should be here.</p>
        <Field label="Counted" hint="Type or scan one to a line: AA1/2 is copy 2 of AA1.">
          <Textarea value={text} rows={5} onChange={(_, { value }) => setText(value)} />
        </Field>
        {!list.ok && (
          <FaultList
            label="Can’t be read"
            lines={list.error.map(({ sentence }) => ({ severity: 'fault', sentence }))}
          />
        )}
        {result && (
          <>
            <Notice kind={result.differences.length === 0 ? 'success' : 'warning'}>
              {counted(result.found, 'key')} found of {result.expected};{' '}
              {counted(result.differences.length, 'difference')}.
            </Notice>
            <FaultList
              label="Differences"
              lines={result.differences.map((d) => ({ severity: 'warning', sentence: sayDifference(d) }))}
            />
          </>
        )}
        <p className="lead">It serves {INVENTORY_CONTROL}.</p>
      </div>
    </Screen>
  );
}
