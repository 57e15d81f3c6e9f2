/**
 * Faults as sentences, each with its place and a way there. Severity is a mark and a word, not only a colour.
 * Long lists open in parts: a thousand rows at once would freeze the pane.
 */
import { Button, Link } from '@fluentui/react-components';
import { useState } from 'react';
import { formatPlace, goTo, type Place } from '../../src/workbook/index.ts';
import { grouped } from '../pictures/numbers.ts';
import { useAnnounce } from './announce.tsx';

export interface FaultLine {
  readonly severity: 'fault' | 'warning' | 'note';
  readonly sentence: string;
  readonly at?: Place;
}

const MARKS = { fault: '✕', warning: '▲', note: '•' } as const;
const WORDS = { fault: 'Fault', warning: 'Warning', note: 'Note' } as const;
const PART = 50;

interface Props {
  readonly label: string;
  readonly lines: readonly FaultLine[];
}

export function FaultList({ label, lines }: Props) {
  const [shown, setShown] = useState(PART);
  return (
    <>
      <ul className="plain faults" aria-label={label}>
        {lines.slice(0, shown).map((line, i) => (
          <li key={i}>
            <span className={`mark ${line.severity}`} role="img" aria-label={WORDS[line.severity]}>
              {MARKS[line.severity]}
            </span>
            <div className="what">
              {line.at && <strong>{formatPlace(line.at)}: </strong>}
              {line.sentence}
              {line.at && (
                <div className="ways">
                  <GoTo at={line.at} />
                </div>
              )}
            </div>
          </li>
        ))}
      </ul>
      {lines.length > shown && (
        <Button onClick={() => setShown(shown + PART)}>
          Show {Math.min(PART, lines.length - shown)} more of {grouped(lines.length - shown)}
        </Button>
      )}
    </>
  );
}

interface GoToProps {
  readonly at: Place;
  /** The cell's address stands for the words. */
  readonly short?: boolean;
}

/** Selects the cell in the sheet, and says so where that can't be done. */
export function GoTo({ at, short = false }: GoToProps) {
  const announce = useAnnounce();
  const [lost, setLost] = useState(false);
  const go = async (): Promise<void> => {
    const found = await goTo(at);
    setLost(!found);
    announce(found ? `Selected ${formatPlace(at)}` : `The sheet ${at.sheet} is gone or hidden.`);
  };
  return (
    <>
      <Link as="button" aria-label={`Go to cell ${formatPlace(at)}`} onClick={() => void go()}>
        {short ? formatPlace(at) : 'Go to cell'}
      </Link>
      {lost && <span>The sheet {at.sheet} is gone or hidden.</span>}
    </>
  );
}
