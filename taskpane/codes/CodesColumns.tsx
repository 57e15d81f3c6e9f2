/** What was guessed about a list, to be confirmed or changed before anything is read by it. */
import { Button, Checkbox, Field, Select } from '@fluentui/react-components';
import { COLUMN_ROLES, type ColumnRole } from '../../src/keying/importColumns.ts';
import { shownText } from '../../src/keying/importCode.ts';
import type { Rules } from '../../src/keying/rules.ts';
import { ORDERS } from '../../src/keying/specification.ts';
import { foldName } from '../../src/keying/specTable.ts';
import type { SystemReading } from '../../src/workbook/index.ts';
import { counted } from '../pictures/numbers.ts';
import { Fold } from '../shared/Fold.tsx';
import { Notice } from '../shared/Notice.tsx';
import { OWN_RULES, RuleSwitches } from '../shared/RuleSwitches.tsx';
import { Screen } from '../shared/Screen.tsx';
import { SpecSelect } from '../specs/SpecSelect.tsx';
import { ROLE_WORDS, samplesOf, sayBetterSpec, sayOrderGuess, saySpecGuess } from './codesWords.ts';
import type { ListState, SourceList } from './useList.ts';

/** Everything that can be checked in a list or against a system. */
const SWITCHES = [
  ...OWN_RULES,
  'duplicate',
  'nearMiss',
  'alreadyUsed',
  'equalsMaster',
  'parity',
  'operatesExisting',
] as const;

export interface ReadingChoices {
  readonly lookAlikes: boolean;
  readonly lostZeros: boolean;
  readonly rules: Rules;
  /** Name of the system that the list is held against; '' for none. */
  readonly system: string;
}

interface Props {
  readonly source: SourceList;
  readonly list: ListState;
  readonly systems: readonly SystemReading[];
  readonly reading: ReadingChoices;
  readonly onReading: (reading: ReadingChoices) => void;
  readonly onRead: () => void;
  readonly onBack: () => void;
}

export function CodesColumns({ source, list, systems, reading, onReading, onRead, onBack }: Props) {
  const { guess, spec, order, roles, header } = list;
  const body = source.rows.slice(header ? 1 : 0);
  const own = systems.filter((s) => s.spec && foldName(s.spec.name) === foldName(spec.name));
  const specGuess = guess.specs.find((g) => g.spec.name === spec.name);
  const better = sayBetterSpec(guess.specs, spec.name);
  const hasCode = roles.includes('code');
  const setRole = (column: number, role: ColumnRole): void =>
    list.setRoles(
      roles.map((r, c) => (c === column ? role : r !== 'code' && r !== 'note' && r === role ? 'note' : r)),
    );
  return (
    <Screen
      title="Cut from a list"
      step="columns"
      lead={`${source.name}: ${counted(body.length, 'row')}`}
      back={{ label: 'Back to the source', onClick: onBack }}
      foot={
        <Button
          className="primary"
          appearance="primary"
          disabledFocusable={!hasCode || body.length === 0}
          onClick={onRead}
        >
          Read and check the list
        </Button>
      }
    >
      <div className="stack">
        {!hasCode && <Notice kind="warning">No column looks like codes. Say which one holds them.</Notice>}
        {hasCode && guess.columns.sure === 'doubtful' && (
          <Notice kind="warning">The columns are not clear. Look at each before you go on.</Notice>
        )}
        <Checkbox
          label="The first row holds headings"
          checked={header}
          onChange={(_, { checked }) => list.setHeader(checked === true)}
        />
        {roles.map((role, c) => (
          <Field
            key={c}
            label={(header && shownText(source.rows[0]?.[c] ?? '').trim()) || `Column ${c + 1}`}
            hint={samplesOf(body.slice(0, 50), c)}
          >
            <Select value={role} onChange={(_, { value }) => setRole(c, value as ColumnRole)}>
              {COLUMN_ROLES.map((each) => (
                <option key={each} value={each}>
                  {ROLE_WORDS[each]}
                </option>
              ))}
            </Select>
          </Field>
        ))}
        {better !== '' && <Notice kind="warning">{better} Check the spec before you go on.</Notice>}
        <SpecSelect
          choices={list.choices}
          value={spec.name}
          onChange={list.setSpec}
          hint={specGuess ? saySpecGuess(specGuess) : spec.title}
        />
        <Field
          label="The list reads its codes"
          hint={sayOrderGuess(list.orderGuess, guess.columns.order !== undefined)}
        >
          <Select value={order} onChange={(_, { value }) => list.setOrder(ORDERS.find((o) => o === value))}>
            {ORDERS.map((each) => (
              <option key={each} value={each}>
                {each.replaceAll('-', ' ')}
                {each === spec.order ? ', as the spec' : ', turned round for the spec'}
              </option>
            ))}
          </Select>
        </Field>
        {own.length > 0 && (
          <Field label="Check against">
            <Select
              value={reading.system}
              onChange={(_, { value }) => onReading({ ...reading, system: value })}
            >
              <option value="">the list alone</option>
              {own.map((system) => (
                <option key={system.name} value={system.name}>
                  the list and the system {system.name}
                </option>
              ))}
            </Select>
          </Field>
        )}
        <Fold label="Reading and rules">
          <Checkbox
            label="Take O for 0 and l for 1, and say so"
            checked={reading.lookAlikes}
            onChange={(_, { checked }) => onReading({ ...reading, lookAlikes: checked === true })}
          />
          <Checkbox
            label="Put back zeros that numbers have lost, and say so"
            checked={reading.lostZeros}
            onChange={(_, { checked }) => onReading({ ...reading, lostZeros: checked === true })}
          />
          <RuleSwitches
            rules={reading.rules}
            switches={SWITCHES}
            onChange={(rules) => onReading({ ...reading, rules })}
          />
        </Fold>
      </div>
    </Screen>
  );
}
