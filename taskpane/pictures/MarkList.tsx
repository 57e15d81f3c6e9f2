/** The sentences that belong to the letters of a drawing. */
import { makeStyles, tokens } from '@fluentui/react-components';
import { severityOf, type Finding } from '../../src/keying/findings.ts';
import { findingIn } from '../../src/keying/shownIn.ts';
import { say } from '../../src/keying/wording.ts';
import { LetterMark } from './LetterMark.tsx';
import { useShownUnit } from './shownUnit.ts';

export interface MarkListProps {
  readonly marks: readonly { readonly letter: string; readonly finding: Finding }[];
}

const useStyles = makeStyles({
  list: {
    margin: `${tokens.spacingVerticalXS} 0 0`,
    padding: 0,
    listStyleType: 'none',
    fontSize: tokens.fontSizeBase200,
    lineHeight: tokens.lineHeightBase200,
    color: tokens.colorNeutralForeground1,
    '& li': { display: 'flex', columnGap: '6px', padding: '3px 0' },
    '& svg': { flexShrink: 0 },
  },
});

export function MarkList({ marks }: MarkListProps) {
  const styles = useStyles();
  const unit = useShownUnit();
  if (marks.length === 0) return null;
  return (
    <ul className={styles.list}>
      {marks.map(({ letter, finding }) => {
        const fault = severityOf(finding) === 'fault';
        return (
          <li key={letter}>
            <svg width={18} height={16} role="img" aria-label={`${fault ? 'Fault' : 'Warning'} ${letter}`}>
              <LetterMark x={9} y={8} letters={letter} fault={fault} />
            </svg>
            <span>{say(findingIn(finding, unit))}</span>
          </li>
        );
      })}
    </ul>
  );
}
