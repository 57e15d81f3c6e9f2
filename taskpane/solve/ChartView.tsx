/** What was read from the sheet: counts, the layout that was found, and every cell that could not be read. */
import { Field, Input, Select } from '@fluentui/react-components';
import { boxAddress, type GridChart, type GridSource } from '../../src/workbook/index.ts';
import { counted } from '../pictures/numbers.ts';
import { FaultList } from '../shared/FaultList.tsx';
import { Fold } from '../shared/Fold.tsx';
import { Notice } from '../shared/Notice.tsx';
import type { LayoutChoice } from './layoutChoice.ts';

interface Props {
  readonly source: GridSource;
  readonly chart: GridChart | undefined;
  readonly choice: LayoutChoice;
  readonly onChoice: (choice: LayoutChoice) => void;
}

const NONE = '';
/** Rows that may be the header: below a title block. */
const HEADER_ROWS = 40;

export function ChartView({ source, chart, choice, onChoice }: Props) {
  const faults = chart?.problems.filter((p) => p.severity === 'fault').length ?? 0;
  return (
    <>
      {chart ? (
        <p>
          {source.box.sheet} {boxAddress(source.box)}: {counted(chart.keys.length, 'key')},{' '}
          {counted(chart.cylinders.length, 'cylinder')}, {counted(chart.marks.length, 'mark')}.{saidOf(chart)}
        </p>
      ) : (
        <Notice kind="error">
          Nothing in {source.box.sheet} {boxAddress(source.box)} looks like a grid. It needs a row of key
          symbols, a column of cylinders, and marks (● or x) where they cross; or a column headed “Keys” that
          lists them for each cylinder.
        </Notice>
      )}
      {faults > 0 && (
        <Notice kind="error">
          {counted(faults, 'cell')} can’t be read, so the grid is not solved: a wrong guess would be cut into
          metal. Mend {faults === 1 ? 'it' : 'them'} in the sheet.
        </Notice>
      )}
      {chart && chart.problems.length > 0 && (
        <FaultList
          label="Cells that could not be read"
          lines={[...chart.problems]
            .sort((a, b) => Number(a.severity !== 'fault') - Number(b.severity !== 'fault'))
            .map(({ severity, sentence, sheet, address }) => ({
              severity,
              sentence,
              at: { sheet, address },
            }))}
        />
      )}
      <LayoutFold source={source} chart={chart} choice={choice} onChoice={onChoice} />
    </>
  );
}

/** @example ' Keyways or blanks of 3 keys and 2 cylinders, control cuts of 2.' where the sheet names them */
function saidOf({ keys, cylinders }: GridChart): string {
  const said = (parts: GridChart['keys'] | GridChart['cylinders'], what: 'blank' | 'control'): number =>
    parts.filter(({ metal }) => metal?.[what] ?? (what === 'blank' && metal?.cuts)).length;
  const blanks = [
    [said(keys, 'blank'), 'key'] as const,
    [said(cylinders, 'blank'), 'cylinder'] as const,
  ].flatMap(([n, noun]) => (n > 0 ? [counted(n, noun)] : []));
  const controls = said(cylinders, 'control');
  const sentences = [
    blanks.length > 0 ? ` Keyways or blanks of ${blanks.join(' and ')}.` : '',
    controls > 0 ? ` Control cuts of ${counted(controls, 'cylinder')}.` : '',
  ];
  return sentences.join('');
}

function LayoutFold({ source, chart, choice, onChoice }: Props) {
  const headers = chart?.headers ?? [];
  const first = source.box.row + 1;
  const column = (field: 'cylinder' | 'door', label: string) => (
    <Field label={label}>
      <Select
        value={String(chart?.layout[field] ?? NONE)}
        onChange={(_, { value }) => onChoice({ ...choice, [field]: value === NONE ? -1 : Number(value) })}
      >
        {field === 'door' && <option value={NONE}>none</option>}
        {headers.map((header, c) => (
          <option key={c} value={c}>
            {header || `Column ${c + 1}`}
          </option>
        ))}
      </Select>
    </Field>
  );
  return (
    <Fold label="Layout and marks" open={!chart}>
      <Field label="Row with the keys">
        <Select
          value={String(chart?.layout.headerRow ?? NONE)}
          onChange={(_, { value }) => onChoice({ yes: choice.yes, headerRow: Number(value) })}
        >
          {!chart && <option value={NONE}>not found</option>}
          {source.values.slice(0, HEADER_ROWS).map((_, row) => (
            <option key={row} value={row}>
              {first + row}
            </option>
          ))}
        </Select>
      </Field>
      {chart && (
        <div className="pair">
          {column('cylinder', 'Cylinder column')}
          {column('door', 'Door column')}
        </div>
      )}
      <Field label="Further words that mean yes" hint="Besides ● • x X 1 ✓ yes and the key’s own symbol.">
        <Input value={choice.yes} onChange={(_, { value }) => onChoice({ ...choice, yes: value })} />
      </Field>
    </Fold>
  );
}
