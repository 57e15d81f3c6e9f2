/**
 * The frame of every picture: a heading, the drawing, and its text twin, which says the same facts as a table or
 * list. Screen readers always find the twin; everyone can switch to it.
 */
import { Button, makeStyles, mergeClasses, tokens } from '@fluentui/react-components';
import { useId, useState, type ReactNode } from 'react';
import { usePutPicture } from './putPicture.ts';
import { useWidth } from './useWidth.ts';

export interface PictureProps {
  readonly title: string;
  /** One sentence that stands for the drawing. */
  readonly summary: string;
  /** The drawing, laid out for a width in pixels. */
  readonly drawing: (width: number) => ReactNode;
  /** The same facts as text. */
  readonly twin: ReactNode;
  /** Set where the drawing can itself be read cell by cell, so that the twin needn't lie hidden beside it. */
  readonly drawingIsReadable?: boolean;
  /** What has to be read with either form: sentences about faults, cautions. */
  readonly children?: ReactNode;
  /** Lets the drawing be put into the sheet under this name, where the pane can do that. */
  readonly sheetName?: string;
  /** Starts as text. */
  readonly asList?: boolean;
}

const useStyles = makeStyles({
  figure: { margin: 0, position: 'relative', minWidth: 0 },
  head: {
    display: 'flex',
    alignItems: 'center',
    justifyContent: 'space-between',
    columnGap: tokens.spacingHorizontalS,
    minHeight: '28px',
  },
  title: {
    margin: 0,
    fontSize: tokens.fontSizeBase300,
    lineHeight: tokens.lineHeightBase300,
    fontWeight: tokens.fontWeightSemibold,
    color: tokens.colorNeutralForeground1,
    minWidth: 0,
    overflowWrap: 'anywhere',
  },
  toggle: { flexShrink: 0, fontWeight: tokens.fontWeightRegular, minWidth: 'auto' },
  put: { marginTop: tokens.spacingVerticalS },
  hidden: {
    position: 'absolute',
    width: '1px',
    height: '1px',
    overflow: 'hidden',
    clip: 'rect(0 0 0 0)',
    whiteSpace: 'nowrap',
  },
});

export function Picture(props: PictureProps) {
  const { title, summary, drawing, twin, drawingIsReadable = false, children, asList = false } = props;
  const put = usePutPicture();
  const { sheetName } = props;
  const styles = useStyles();
  const titleId = useId();
  const [list, setList] = useState(asList);
  const [ref, width] = useWidth<HTMLElement>();
  return (
    <figure ref={ref} className={styles.figure} aria-labelledby={titleId}>
      <div className={styles.head}>
        <h2 id={titleId} className={styles.title}>
          {title}
        </h2>
        <Button
          size="small"
          appearance="subtle"
          className={styles.toggle}
          aria-describedby={titleId}
          onClick={() => setList(!list)}
        >
          {list ? 'Show as drawing' : 'Show as list'}
        </Button>
      </div>
      {list ? <p className={styles.hidden}>{summary}</p> : drawing(width)}
      {(list || !drawingIsReadable) && <div className={mergeClasses(!list && styles.hidden)}>{twin}</div>}
      {children}
      {put && sheetName !== undefined && (
        <Button
          size="small"
          className={styles.put}
          aria-describedby={titleId}
          onClick={() => put({ name: sheetName, shows: summary, drawing })}
        >
          Put this picture into the sheet
        </Button>
      )}
    </figure>
  );
}
