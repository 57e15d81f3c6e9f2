/** The plain table of a text twin: header cells that screen readers announce, numbers that line up. */
import { makeStyles, tokens } from '@fluentui/react-components';

export interface TextTableProps {
  readonly caption: string;
  readonly columns: readonly string[];
  /** The first cell of each row is its header. */
  readonly rows: readonly (readonly string[])[];
}

const useStyles = makeStyles({
  table: {
    borderCollapse: 'collapse',
    width: '100%',
    fontSize: tokens.fontSizeBase200,
    lineHeight: tokens.lineHeightBase200,
    color: tokens.colorNeutralForeground1,
    fontVariantNumeric: 'tabular-nums',
  },
  caption: {
    captionSide: 'top',
    textAlign: 'start',
    color: tokens.colorNeutralForeground2,
    paddingBottom: tokens.spacingVerticalXS,
  },
  cell: {
    textAlign: 'start',
    verticalAlign: 'top',
    fontWeight: tokens.fontWeightRegular,
    padding: '3px 6px 3px 0',
    borderBottom: `1px solid ${tokens.colorNeutralStroke2}`,
  },
  head: {
    textAlign: 'start',
    verticalAlign: 'bottom',
    fontWeight: tokens.fontWeightSemibold,
    padding: '3px 6px 3px 0',
    borderBottom: `1px solid ${tokens.colorNeutralStroke1}`,
  },
});

export function TextTable({ caption, columns, rows }: TextTableProps) {
  const styles = useStyles();
  return (
    <table className={styles.table}>
      <caption className={styles.caption}>{caption}</caption>
      <thead>
        <tr>
          {columns.map((column) => (
            <th key={column} scope="col" className={styles.head}>
              {column}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row, r) => (
          <tr key={r}>
            {row.map((cell, c) =>
              c === 0 ? (
                <th key={c} scope="row" className={styles.cell}>
                  {cell}
                </th>
              ) : (
                <td key={c} className={styles.cell}>
                  {cell}
                </td>
              ),
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
