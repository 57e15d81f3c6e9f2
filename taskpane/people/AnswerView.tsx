/** An answer as a list: narrow enough for the pane, with the headings said in each line. */
import { Button } from '@fluentui/react-components';
import { useState } from 'react';
import type { Answer } from '../../src/workbook/index.ts';
import { grouped } from '../pictures/numbers.ts';

const PART = 40;

export function AnswerView({ answer }: { readonly answer: Answer }) {
  const [shown, setShown] = useState(PART);
  const { headings, rows, title } = answer;
  return (
    <>
      <ul className="plain faults" aria-label={title}>
        {rows.slice(0, shown).map((row, i) => (
          <li key={i}>
            <div className="what">
              <strong>{row[0]}</strong>
              <div>
                {row
                  .slice(1)
                  .flatMap((cell, c) => (cell === '' ? [] : [`${headings[c + 1] ?? ''}: ${cell}`]))
                  .join(' · ')}
              </div>
            </div>
          </li>
        ))}
      </ul>
      {rows.length > shown && (
        <Button onClick={() => setShown(shown + PART)}>
          Show {Math.min(PART, rows.length - shown)} more of {grouped(rows.length - shown)}
        </Button>
      )}
    </>
  );
}
