/** Where the doors come from: the counts typed above, or the rows of a sheet of the shop's. */
import { Button, Field, Select } from '@fluentui/react-components';
import { useState } from 'react';
import type { ScheduleColumns } from '../../src/workbook/index.ts';
import { counted, listed } from '../pictures/numbers.ts';
import { Busy } from '../shared/Busy.tsx';
import { FaultList } from '../shared/FaultList.tsx';
import { Fold } from '../shared/Fold.tsx';
import { Notice } from '../shared/Notice.tsx';
import type { DoorTree } from './doors.ts';
import type { Doors, DoorsRead } from './useDoors.ts';

interface Props {
  /** Sheets of the shop's own. */
  readonly sheets: readonly string[];
  readonly doors: Doors;
  readonly tree: DoorTree | undefined;
}

export function DoorsFold({ sheets, doors, tree }: Props) {
  const [sheet, setSheet] = useState('');
  const { state, read, forget } = doors;
  const chosen = sheets.includes(sheet) ? sheet : (sheets[0] ?? '');
  if (sheets.length === 0) return null;
  return (
    <Fold label="Doors from my sheet">
      {state.step !== 'read' && (
        <Field label="Sheet with the doors" hint="One row a door. The sheet is only read.">
          <Select value={chosen} onChange={(_, { value }) => setSheet(value)}>
            {sheets.map((name) => (
              <option key={name}>{name}</option>
            ))}
          </Select>
        </Field>
      )}
      {state.step === 'reading' && <Busy stage="Reading the doors" done={0} total={0} />}
      {state.step === 'failed' && <Notice kind="error">{state.sentence}</Notice>}
      {state.step === 'read' ? (
        <>
          <Columns doors={state.doors} onChange={(columns) => void read(state.doors.guess.sheet, columns)} />
          {tree && <p>{counted(tree.doors, 'door')} taken, in the order of the sheet.</p>}
          {tree && tree.left.length > 0 && (
            <Notice kind="warning">
              {counted(tree.left.length, 'door')} left out, since the symbol names no change key of this
              system: {listed(tree.left.slice(0, 8).map((d) => `${d.door} (${d.symbol ?? 'no symbol'})`))}
              {tree.left.length > 8 && ' …'}
            </Notice>
          )}
          {state.doors.problems.length > 0 && (
            <FaultList
              label="Doors that could not be read"
              lines={state.doors.problems.map(({ severity, sentence, sheet: on, address }) => ({
                severity,
                sentence,
                at: { sheet: on, address },
              }))}
            />
          )}
          <div className="ways">
            <Button onClick={forget}>Type counts instead</Button>
          </div>
        </>
      ) : (
        <div className="ways">
          <Button onClick={() => void read(chosen)} disabledFocusable={state.step === 'reading'}>
            Read the doors
          </Button>
        </div>
      )}
    </Fold>
  );
}

interface ColumnsProps {
  readonly doors: DoorsRead;
  readonly onChange: (columns: ScheduleColumns) => void;
}

const NONE = '-1';

function withoutSymbol(columns: ScheduleColumns): ScheduleColumns {
  const rest: { -readonly [K in keyof ScheduleColumns]: ScheduleColumns[K] } = { ...columns };
  delete rest.symbol;
  return rest;
}

function Columns({ doors: { guess }, onChange }: ColumnsProps) {
  const { columns, headers } = guess;
  const options = headers.map((header, i) => (
    <option key={i} value={i}>
      {header || `Column ${i + 1}`}
    </option>
  ));
  return (
    <div className="pair">
      <Field label="Door column">
        <Select
          value={String(columns.door)}
          onChange={(_, { value }) => onChange({ ...columns, door: Number(value) })}
        >
          {options}
        </Select>
      </Field>
      <Field label="Keyset symbol column">
        <Select
          value={String(columns.symbol ?? NONE)}
          onChange={(_, { value }) => {
            onChange(value === NONE ? withoutSymbol(columns) : { ...columns, symbol: Number(value) });
          }}
        >
          <option value={NONE}>none: a key for each door</option>
          {options}
        </Select>
      </Field>
    </div>
  );
}
