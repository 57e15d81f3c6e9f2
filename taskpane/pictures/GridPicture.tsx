/**
 * Keys by doors: a dot where a key opens as meant, a ring where it should and doesn't, a triangle where it opens and
 * should not. One stop of the Tab key; arrows go from cell to cell, and the cell in hand says why below the grid.
 */
import { makeStyles, tokens } from '@fluentui/react-components';
import { useMemo, useState, type ReactNode } from 'react';
import { GridFind } from './GridFind.tsx';
import { GridSurface } from './GridSurface.tsx';
import { columnNoun, faultCells, nextFault, rowName, stateWords } from './gridStates.ts';
import type { Cell, GridData, GridState } from './gridStates.ts';
import { MarkBox } from './GridMark.tsx';
import { counted, listed } from './numbers.ts';
import { Picture } from './Picture.tsx';

export interface GridPictureProps {
  readonly data: GridData;
  readonly title?: string;
  /** Why the cell in hand is as it is: usually a `WhyOpens`. Asked for one cell at a time. */
  readonly why?: (row: number, column: number) => ReactNode;
  /** Called when the user chooses a cell (Enter or a click), e.g. to select it in the sheet. */
  readonly onChoose?: (row: number, column: number) => void;
  /** The cell in hand at first; the first one when left out. */
  readonly start?: Cell;
  readonly asList?: boolean;
}

const useStyles = makeStyles({
  legend: {
    display: 'flex',
    flexWrap: 'wrap',
    columnGap: tokens.spacingHorizontalM,
    margin: `${tokens.spacingVerticalXS} 0`,
    padding: 0,
    listStyleType: 'none',
    fontSize: tokens.fontSizeBase200,
    lineHeight: tokens.lineHeightBase200,
    color: tokens.colorNeutralForeground2,
    '& li': { display: 'flex', alignItems: 'center', columnGap: '2px' },
  },
  list: {
    margin: 0,
    padding: 0,
    listStyleType: 'none',
    maxHeight: '320px',
    overflowY: 'auto',
    fontSize: tokens.fontSizeBase200,
    lineHeight: tokens.lineHeightBase200,
    color: tokens.colorNeutralForeground1,
    '& li': { padding: '4px 0', borderBottom: `1px solid ${tokens.colorNeutralStroke2}` },
  },
  empty: { margin: 0, color: tokens.colorNeutralForeground2, fontSize: tokens.fontSizeBase200 },
});

const CORNER: Cell = { row: 0, column: 0 };

export function GridPicture({
  data,
  title = 'Keys by doors',
  why,
  onChoose,
  start = CORNER,
  asList = false,
}: GridPictureProps) {
  const styles = useStyles();
  const { keys, cylinders } = data;
  const faults = useMemo(() => faultCells(data), [data]);
  const [chosen, setActive] = useState(start);
  const [hovered, setHovered] = useState<Cell | undefined>(undefined);
  if (keys.length === 0 || cylinders.length === 0)
    return <p className={styles.empty}>No grid yet: it needs at least one key and one cylinder.</p>;
  // the data may have shrunk since the cell was chosen
  const active = {
    row: Math.min(chosen.row, cylinders.length - 1),
    column: Math.min(chosen.column, keys.length - 1),
  };
  const shown = hovered ?? active;
  const step = (direction: 1 | -1) => setActive(nextFault(faults, active, direction) ?? active);
  return (
    <Picture
      title={title}
      asList={asList}
      drawingIsReadable
      summary={gridSummary(data, faults)}
      drawing={(width) => (
        <>
          <GridFind data={data} faults={faults.length} active={active} onFind={setActive} onStep={step} />
          <GridSurface
            data={data}
            width={width}
            label={gridSummary(data, faults)}
            active={active}
            onActive={setActive}
            onHover={setHovered}
            {...(onChoose && { onChoose })}
          />
          {why?.(shown.row, shown.column)}
          <ul className={styles.legend}>
            {(['opens', 'lock-out', 'interchange'] as const).map((state) => (
              <li key={state}>
                <MarkBox state={state} size={20} />
                {stateWords(state)}
              </li>
            ))}
          </ul>
        </>
      )}
      twin={<Twin data={data} />}
    />
  );
}

/** @example '3 keys by 2 cylinders: all as meant.' */
export function gridSummary(data: GridData, faults: readonly Cell[]): string {
  const { keys, cylinders, stateOf } = data;
  const count = (state: GridState) =>
    faults.filter(({ row, column }) => stateOf(row, column) === state).length;
  const [out, into] = [count('lock-out'), count('interchange')];
  const verdict =
    faults.length === 0
      ? 'all as meant'
      : listed([
          ...(out > 0 ? [`${counted(out, 'cell')} should open and ${out === 1 ? 'doesn’t' : 'don’t'}`] : []),
          ...(into > 0 ? [`${counted(into, 'cell')} ${into === 1 ? 'opens' : 'open'} and should not`] : []),
        ]);
  return `${counted(keys.length, ...columnNoun(data))} by ${counted(cylinders.length, 'cylinder')}: ${verdict}.`;
}

function Twin({ data }: { data: GridData }) {
  const styles = useStyles();
  const { keys, cylinders, stateOf } = data;
  return (
    <ul className={styles.list} tabIndex={0} aria-label="Doors and the keys that open them">
      {cylinders.map((cylinder, row) => {
        const by = (state: GridState) =>
          keys.flatMap((key, column) => (stateOf(row, column) === state ? [key.symbol] : []));
        const wrong = (['lock-out', 'interchange'] as const).filter((s) => by(s).length > 0);
        return (
          <li key={cylinder.id}>
            <strong>{rowName(cylinder)}</strong>
            {`: opened as meant by ${listed(by('opens'))}.`}
            {wrong.map((state) => ` ${listed(by(state))}: ${stateWords(state)}.`)}
          </li>
        );
      })}
    </ul>
  );
}
