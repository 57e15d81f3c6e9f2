/** Why a key opens a cylinder, or doesn't, chamber by chamber. */
import { makeStyles, mergeClasses, tokens } from '@fluentui/react-components';
import { stateWords } from './gridStates.ts';
import { MarkBox } from './GridMark.tsx';
import { whyChambers, whySentence, type Why } from './why.ts';

const useStyles = makeStyles({
  box: {
    fontSize: tokens.fontSizeBase200,
    lineHeight: tokens.lineHeightBase200,
    color: tokens.colorNeutralForeground1,
    fontVariantNumeric: 'tabular-nums',
  },
  head: { margin: '0 0 4px', display: 'flex', alignItems: 'flex-start', columnGap: '4px' },
  table: { borderCollapse: 'collapse', width: '100%', tableLayout: 'fixed' },
  cell: {
    textAlign: 'center',
    fontWeight: tokens.fontWeightRegular,
    padding: '2px 1px',
    borderTop: `1px solid ${tokens.colorNeutralStroke2}`,
    verticalAlign: 'top',
  },
  rowName: {
    width: '62px',
    textAlign: 'start',
    fontWeight: tokens.fontWeightRegular,
    color: tokens.colorNeutralForeground2,
    borderTop: `1px solid ${tokens.colorNeutralStroke2}`,
    padding: '2px 0',
    verticalAlign: 'top',
  },
  unseen: {
    position: 'absolute',
    width: '1px',
    height: '1px',
    overflow: 'hidden',
    clip: 'rect(0 0 0 0)',
  },
  fails: {
    fontWeight: tokens.fontWeightBold,
    color: tokens.colorStatusDangerForeground1,
    boxShadow: `inset 0 0 0 1.5px ${tokens.colorStatusDangerForeground1}`,
    '@media (forced-colors: active)': { border: '2px solid CanvasText' },
  },
});

export function WhyOpens(props: Why) {
  const { state } = props;
  const styles = useStyles();
  const chambers = whyChambers(props);
  return (
    <div className={styles.box}>
      <p className={styles.head}>
        {state && state !== 'closed' && <MarkBox state={state} size={16} />}
        <span>
          {whySentence(props, chambers)}
          {state && ` ${capital(stateWords(state))}.`}
        </span>
      </p>
      {!props.wrongKeyway && (
        <table className={styles.table}>
          <thead>
            <tr>
              <th scope="row" className={styles.rowName}>
                Chamber
              </th>
              {chambers.map((c) => (
                <th key={c.chamber} scope="col" className={styles.cell}>
                  {c.chamber}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            <tr>
              <th scope="row" className={styles.rowName}>
                Key’s cut
              </th>
              {chambers.map((c) => (
                <td key={c.chamber} className={styles.cell}>
                  {c.cut ?? 'none'}
                </td>
              ))}
            </tr>
            <tr>
              <th scope="row" className={styles.rowName}>
                Shears at
              </th>
              {chambers.map((c) => (
                <td key={c.chamber} className={styles.cell}>
                  {c.shears === 'any' ? 'any' : c.shears.join(' ') || 'none'}
                </td>
              ))}
            </tr>
            <tr>
              <th scope="row" className={styles.rowName}>
                Result
              </th>
              {chambers.map((c) => (
                <td
                  key={c.chamber}
                  className={c.passes ? styles.cell : mergeClasses(styles.cell, styles.fails)}
                >
                  <span aria-hidden>{c.passes ? '✓' : '✕'}</span>
                  <span className={styles.unseen}>{c.passes ? 'shears' : 'blocks'}</span>
                </td>
              ))}
            </tr>
          </tbody>
        </table>
      )}
    </div>
  );
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
