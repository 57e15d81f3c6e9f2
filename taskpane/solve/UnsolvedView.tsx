/** The two other answers: a proof that there is no solution, with the keys and doors in conflict; or how far it got. */
import type { Impossible, NotFound } from '../../src/keying/grid/index.ts';
import { sayAnswer, sayProof } from '../../src/keying/grid/index.ts';
import type { Place } from '../../src/workbook/index.ts';
import { counted, grouped } from '../pictures/numbers.ts';
import { FaultList, type FaultLine } from '../shared/FaultList.tsx';
import { Notice } from '../shared/Notice.tsx';
import { conflictLines, extentOf } from './conflict.ts';

/** Where the grid's keys and cylinders stand in the sheet, and what is marked. */
export interface Places {
  readonly keyAt: (symbol: string) => Place | undefined;
  readonly cylinderAt: (id: string) => Place | undefined;
  /** The cell where the two cross. */
  readonly crossing: (symbol: string, id: string) => Place | undefined;
  readonly isMarked: (symbol: string, id: string) => boolean;
  readonly nameOf: (id: string) => string;
}

interface Props {
  readonly result: Impossible | NotFound;
  readonly places: Places;
}

export function UnsolvedView({ result, places }: Props) {
  const lines = result.kind === 'impossible' ? conflictLines(result, places) : [];
  // what is in conflict has its own list below
  const sentences =
    result.kind === 'impossible' && lines.length > 0 ? [sayProof(result.reason)] : sayAnswer(result);
  return (
    <div className="stack">
      {result.kind === 'impossible' ? (
        <Notice kind="error">
          <p>There is no solution, and this is proved.</p>
          {sentences.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
        </Notice>
      ) : (
        <Notice kind="warning">
          {sentences.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
        </Notice>
      )}
      {result.kind === 'impossible' ? (
        <Conflict result={result} lines={lines} />
      ) : (
        <Left result={result} places={places} />
      )}
      <p className="lead">{counted(result.steps, 'step')} searched. Nothing was written.</p>
    </div>
  );
}

interface ConflictProps {
  readonly result: Impossible;
  readonly lines: readonly FaultLine[];
}

function Conflict({ result, lines }: ConflictProps) {
  if (lines.length === 0) return null;
  return (
    <>
      <h2>In conflict</h2>
      <p>
        {result.scope === 'any'
          ? 'The proof holds for every bitting that the rules allow, however positions are dealt.'
          : 'The proof holds for the top master and the constant positions asked for, and for no others.'}{' '}
        {extentOf(result)}
      </p>
      <FaultList label="Keys and doors in conflict" lines={lines} />
    </>
  );
}

function Left({ result, places }: { readonly result: NotFound; readonly places: Places }) {
  const lines = result.violations.map(({ key, cylinder }): FaultLine => {
    const at = places.crossing(key, cylinder) ?? places.cylinderAt(cylinder);
    const name = places.nameOf(cylinder);
    return {
      severity: 'warning',
      sentence: places.isMarked(key, cylinder)
        ? `${key} would not open ${name}, and should.`
        : `${key} would open ${name}, and should not.`,
      ...(at && { at }),
    };
  });
  return (
    <>
      <h2>What to try</h2>
      <ul className="tips">
        <li>“Search on” takes four times as many steps, “Another seed” begins elsewhere.</li>
        <li>Two keys that share odd doors: take a mark away, or give the door two cylinders.</li>
        <li>A spec with more positions or depths, a smaller difference between keys, fewer rules.</li>
      </ul>
      {lines.length > 0 && (
        <>
          <h2>Still wrong in the best attempt</h2>
          <p>
            {result.violations.length < result.left &&
              `${grouped(result.violations.length)} of ${counted(result.left, 'pair')} are listed. `}
            These pairs show where it is tight.
          </p>
          <FaultList label="Pairs still wrong" lines={lines} />
        </>
      )}
    </>
  );
}
