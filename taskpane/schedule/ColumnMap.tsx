/** What each column of the shop's sheet is: guessed, shown with its heading, corrected by the user. */
import { Field, Input, Select } from '@fluentui/react-components';
import type { ScheduleColumns } from '../../src/keying/scheduleColumns.ts';
import { ROLE_NAMES, SCHEDULE_ROLES, type ScheduleRole } from '../../src/keying/scheduleWords.ts';
import { cellAddress, type ScheduleReading } from '../../src/workbook/index.ts';
import { counted } from '../pictures/numbers.ts';
import { Fold } from '../shared/Fold.tsx';

interface Props {
  readonly reading: ScheduleReading;
  readonly onChange: (columns: ScheduleColumns) => void;
}

const FIRST: readonly ScheduleRole[] = ['door', 'symbol', 'location', 'quantity'];
const NONE = '-1';

/** Columns with one role set or, at −1, taken away; a column can have one role only. */
export function withRole(columns: ScheduleColumns, role: ScheduleRole, column: number): ScheduleColumns {
  const next: Partial<Record<ScheduleRole, number>> = {};
  for (const each of SCHEDULE_ROLES) {
    const now = columns[each];
    if (each !== role && now !== undefined && now !== column) next[each] = now;
  }
  if (column >= 0) next[role] = column;
  const { door, ...others } = next;
  return { headerRow: columns.headerRow, door: door ?? columns.door, ...others };
}

export function ColumnMap({ reading, onChange }: Props) {
  const { columns, headers } = reading.guess;
  const { box } = reading.sheet;
  const rest = SCHEDULE_ROLES.filter((role) => !FIRST.includes(role));
  const found = rest.filter((role) => columns[role] !== undefined).length;
  const field = (role: ScheduleRole) => (
    <Field key={role} label={ROLE_NAMES[role]}>
      <Select
        value={String(columns[role] ?? NONE)}
        onChange={(_, { value }) => onChange(withRole(columns, role, Number(value)))}
      >
        {role !== 'door' && <option value={NONE}>no such column</option>}
        {headers.map((header, i) => (
          <option key={i} value={i}>
            {cellAddress(0, box.column + i).replace(/\d+$/, '')}
            {header && `: ${header}`}
          </option>
        ))}
      </Select>
    </Field>
  );
  return (
    <div className="stack">
      <Field label="Row of the headings" hint="As numbered in the sheet.">
        <Input
          type="number"
          min={box.row + 1}
          max={box.row + box.rows}
          value={String(box.row + columns.headerRow + 1)}
          onChange={(_, { value }) => {
            const row = Math.round(Number(value)) - 1 - box.row;
            if (row >= 0 && row < box.rows) onChange({ ...columns, headerRow: row });
          }}
        />
      </Field>
      <div className="pair">{FIRST.map(field)}</div>
      <Fold label={`Further columns (${found} found)`}>
        <div className="pair">{rest.map(field)}</div>
      </Fold>
      <p>
        {counted(reading.schedule.lines.length, 'door row')} read this way
        {reading.schedule.sections.length > 0 &&
          `, in ${counted(reading.schedule.sections.length, 'section')} (${reading.schedule.sections.slice(0, 3).join('; ')}${reading.schedule.sections.length > 3 ? ' …' : ''})`}
        .
      </p>
    </div>
  );
}
