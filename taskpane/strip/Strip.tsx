/**
 * The strip at the foot: follows the selected cell and shows what it is. It never takes the focus, says its headline
 * to screen readers without interrupting, and folds away to that one line.
 */
import { makeStyles, mergeClasses, tokens } from '@fluentui/react-components';
import { useId } from 'react';
import { BladePicture } from '../pictures/BladePicture.tsx';
import { readingWords, shapeWords } from '../pictures/bladeText.ts';
import { PinStackPicture } from '../pictures/PinStackPicture.tsx';
import { WhyOpens } from '../pictures/WhyOpens.tsx';
import { headline } from './headline.ts';
import { Pairings } from './Pairings.tsx';
import type { StripSubject } from './subject.ts';

export interface StripProps {
  readonly subject: StripSubject;
  /** Folded away to its headline. */
  readonly folded?: boolean;
  readonly onFold?: (folded: boolean) => void;
}

const useStyles = makeStyles({
  strip: {
    flexShrink: 0,
    borderTop: `1px solid ${tokens.colorNeutralStroke1}`,
    backgroundColor: tokens.colorNeutralBackground2,
    color: tokens.colorNeutralForeground1,
  },
  head: {
    display: 'flex',
    alignItems: 'flex-start',
    columnGap: '8px',
    boxSizing: 'border-box',
    width: '100%',
    minHeight: '32px',
    padding: '6px 16px',
    border: 'none',
    background: 'none',
    color: 'inherit',
    font: 'inherit',
    fontSize: tokens.fontSizeBase200,
    lineHeight: '20px',
    textAlign: 'start',
    cursor: 'pointer',
    ':focus-visible': { outline: `2px solid ${tokens.colorStrokeFocus2}`, outlineOffset: '-2px' },
  },
  chevron: { flexShrink: 0, marginTop: '4px', stroke: 'currentColor', fill: 'none' },
  down: { transform: 'rotate(180deg)' },
  line: { minWidth: 0, overflowWrap: 'anywhere', fontWeight: tokens.fontWeightSemibold },
  quiet: { fontWeight: tokens.fontWeightRegular, color: tokens.colorNeutralForeground2 },
  body: {
    maxHeight: 'min(45vh, 420px)',
    overflowY: 'auto',
    padding: '4px 16px 12px',
    backgroundColor: tokens.colorNeutralBackground1,
  },
  text: { margin: 0, fontSize: tokens.fontSizeBase200, lineHeight: tokens.lineHeightBase200 },
  list: {
    margin: 0,
    padding: 0,
    listStyleType: 'none',
    fontSize: tokens.fontSizeBase200,
    lineHeight: tokens.lineHeightBase300,
  },
});

export function Strip({ subject, folded = false, onFold }: StripProps) {
  const styles = useStyles();
  const body = useId();
  const open = !folded;
  const nothing = subject.kind === 'nothing';
  return (
    <section className={styles.strip} aria-label="Selected cell">
      <button
        type="button"
        className={styles.head}
        aria-expanded={open}
        aria-controls={body}
        onClick={() => onFold?.(open)}
      >
        <svg width={12} height={12} aria-hidden className={mergeClasses(styles.chevron, open && styles.down)}>
          <path d="M2 8l4-4 4 4" strokeWidth={1.5} />
        </svg>
        <span className={mergeClasses(styles.line, nothing && styles.quiet)} aria-live="polite">
          {headline(subject)}
        </span>
      </button>
      <div id={body} hidden={!open} className={styles.body}>
        {open && <Shown subject={subject} />}
      </div>
    </section>
  );
}

function Shown({ subject }: { subject: StripSubject }) {
  const styles = useStyles();
  switch (subject.kind) {
    case 'nothing':
      return (
        <p className={styles.text}>
          Select a key, a cylinder, a holder or a cell of the grid: its blade, its pins, their keys, or why
          the key opens the door appear here.
        </p>
      );
    case 'key': {
      const { spec, bitting, findings, symbol, doors } = subject;
      return (
        <>
          <BladePicture spec={spec} bitting={bitting} findings={findings} symbol={symbol} />
          {doors && <Pairings label="Doors" pairs={doors} none="Opens no door of this system." />}
        </>
      );
    }
    case 'cylinder':
      return (
        <>
          <PinStackPicture spec={subject.spec} cylinder={subject.cylinder} />
          <Pairings label="Keys" pairs={subject.keys} none="No key of this system opens it." />
        </>
      );
    case 'grid-cell':
      return <WhyOpens {...subject.why} />;
    case 'holder':
      return subject.keys.length === 0 ? (
        <p className={styles.text}>No key in hand.</p>
      ) : (
        <>
          <ul className={styles.list}>
            {subject.keys.map(({ symbol, copy, note }, i) => (
              <li key={i}>
                {symbol}
                {copy !== undefined && ` / ${copy}`}
                {note !== undefined && ` (${note})`}
              </li>
            ))}
          </ul>
          {subject.doors && <Pairings label="Doors" pairs={subject.doors} none="Opens no door." />}
        </>
      );
    case 'spec':
      return (
        <p className={styles.text}>
          {`${subject.spec.title}: ${shapeWords(subject.spec)}; ${readingWords(subject.spec)}, measured from the ${subject.spec.gauge}.`}
        </p>
      );
    case 'unreadable':
      return <p className={styles.text}>{subject.sentence}</p>;
  }
}
