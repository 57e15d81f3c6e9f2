/** What a workbook without anything of ours is met with: ways to begin, and a way past them. */
import { Button } from '@fluentui/react-components';
import type { BookReading } from '../../src/workbook/index.ts';
import { MAKE_DOORS } from '../make/useDoors.ts';
import { useNavigation } from '../shared/navigation.tsx';
import { ownSheets } from '../shared/ownSheets.ts';
import { usePreferences } from '../shared/preferences.tsx';

/** Whether the first steps are to be offered: nothing of ours here, and nobody has passed them by. */
export function useFirstTime(book: BookReading): boolean {
  const { chosen } = usePreferences();
  return chosen !== undefined && !chosen.begun && book.tables.length === 0;
}

/** More sheets than these would be a list to read. */
const MOST_SHEETS = 2;

export function FirstSteps({ book }: { readonly book: BookReading }) {
  const { go, drafts } = useNavigation();
  const { keep } = usePreferences();
  const filled = ownSheets(book).filter((name) => book.sheets.some((s) => s.name === name && s.used));
  return (
    <section aria-label="Begin">
      <h2>Begin</h2>
      <ul className="plain tasks">
        <li>
          <button type="button" onClick={() => go('make')}>
            <strong>A first system</strong>
            <span>Keys, grid and audit from a few numbers. About a minute.</span>
          </button>
        </li>
        {filled.slice(0, MOST_SHEETS).map((sheet) => (
          <li key={sheet}>
            <button
              type="button"
              onClick={() => {
                drafts.set(MAKE_DOORS, sheet);
                go('make');
              }}
            >
              <strong>A system for the doors in “{sheet}”</strong>
              <span>The sheet is only read.</span>
            </button>
          </li>
        ))}
        <li>
          <button type="button" onClick={() => go('sample')}>
            <strong>Sample data</strong>
            <span>An invented hall on new sheets of this workbook. Undo takes it away.</span>
          </button>
        </li>
      </ul>
      <p>
        <Button size="small" appearance="subtle" onClick={() => keep({ begun: true })}>
          Skip this
        </Button>
      </p>
    </section>
  );
}
