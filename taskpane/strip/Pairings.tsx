/** Who opens what, as a short list with the grid's marks; what is not as meant comes first. */
import { makeStyles, tokens } from '@fluentui/react-components';
import { useState } from 'react';
import { MarkBox } from '../pictures/GridMark.tsx';
import { isFault, stateWords } from '../pictures/gridStates.ts';
import { grouped } from '../pictures/numbers.ts';
import type { Pairing } from './subject.ts';

export interface PairingsProps {
  readonly label: string;
  readonly pairs: readonly Pairing[];
  /** Said when there are none. */
  readonly none: string;
}

/** More than these hide behind a button. */
const FIRST = 12;

const useStyles = makeStyles({
  label: {
    margin: '8px 0 2px',
    fontSize: tokens.fontSizeBase200,
    lineHeight: tokens.lineHeightBase200,
    fontWeight: tokens.fontWeightSemibold,
  },
  list: {
    display: 'flex',
    flexWrap: 'wrap',
    gap: '2px 10px',
    margin: 0,
    padding: 0,
    listStyleType: 'none',
    fontSize: tokens.fontSizeBase200,
    lineHeight: tokens.lineHeightBase200,
    '& li': { display: 'flex', alignItems: 'center', columnGap: '2px' },
  },
  none: { margin: 0, fontSize: tokens.fontSizeBase200, color: tokens.colorNeutralForeground2 },
  more: {
    border: 'none',
    background: 'none',
    padding: '2px 4px',
    font: 'inherit',
    color: tokens.colorBrandForegroundLink,
    cursor: 'pointer',
    ':focus-visible': { outline: `2px solid ${tokens.colorStrokeFocus2}` },
  },
});

export function Pairings({ label, pairs, none }: PairingsProps) {
  const styles = useStyles();
  const [all, setAll] = useState(false);
  const sorted = [...pairs].sort((a, b) => Number(isFault(b.state)) - Number(isFault(a.state)));
  const shown = all ? sorted : sorted.slice(0, FIRST);
  const rest = sorted.length - shown.length;
  return (
    <>
      <p className={styles.label}>{label}</p>
      {pairs.length === 0 && <p className={styles.none}>{none}</p>}
      <ul className={styles.list}>
        {shown.map(({ name, state }) => (
          <li key={name}>
            <MarkBox state={state} size={16} />
            {name}
            {isFault(state) && `: ${stateWords(state)}`}
          </li>
        ))}
        {rest > 0 && (
          <li>
            <button type="button" className={styles.more} onClick={() => setAll(true)}>
              {`and ${grouped(rest)} more`}
            </button>
          </li>
        )}
      </ul>
    </>
  );
}
