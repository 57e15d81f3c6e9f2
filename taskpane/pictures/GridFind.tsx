/** Above the grid: search by key or door, and from one fault to the next. */
import { Button, Input, makeStyles, tokens } from '@fluentui/react-components';
import { useState } from 'react';
import { columnNoun, findCell, type Cell, type GridData } from './gridStates.ts';
import { counted } from './numbers.ts';

export interface GridFindProps {
  readonly data: GridData;
  readonly faults: number;
  readonly active: Cell;
  readonly onFind: (cell: Cell) => void;
  readonly onStep: (direction: 1 | -1) => void;
}

const useStyles = makeStyles({
  row: { display: 'flex', alignItems: 'center', columnGap: '4px', marginBottom: '4px' },
  input: { flexGrow: 1, minWidth: 0 },
  faults: {
    display: 'flex',
    alignItems: 'center',
    columnGap: '4px',
    marginBottom: '4px',
    fontSize: tokens.fontSizeBase200,
    color: tokens.colorNeutralForeground1,
  },
  count: { flexGrow: 1, fontWeight: tokens.fontWeightSemibold },
  miss: { margin: '0 0 4px', fontSize: tokens.fontSizeBase200, color: tokens.colorNeutralForeground2 },
});

export function GridFind({ data, faults, active, onFind, onStep }: GridFindProps) {
  const styles = useStyles();
  const [text, setText] = useState('');
  const [noun] = columnNoun(data);
  const what = `${noun.charAt(0).toUpperCase()}${noun.slice(1)} or door`;
  const found = findCell(data, text, active);
  return (
    <div role="search" aria-label="Search the grid">
      <div className={styles.row}>
        <Input
          className={styles.input}
          size="small"
          type="search"
          aria-label={what}
          placeholder={what}
          value={text}
          onChange={(_, change) => setText(change.value)}
          onKeyDown={(event) => {
            if (event.key === 'Enter' && found) onFind(found);
          }}
        />
        <Button size="small" disabled={!found} onClick={() => found && onFind(found)}>
          Find
        </Button>
      </div>
      {text.trim() !== '' && !found && (
        <p className={styles.miss} role="status">
          {`No ${noun} and no door has “${text.trim()}” in its name.`}
        </p>
      )}
      {faults > 0 && (
        <div className={styles.faults}>
          <span className={styles.count}>{`${counted(faults, 'cell')} not as meant`}</span>
          <Button size="small" appearance="subtle" onClick={() => onStep(-1)}>
            Previous
          </Button>
          <Button size="small" appearance="subtle" onClick={() => onStep(1)}>
            Next
          </Button>
        </div>
      )}
    </div>
  );
}
