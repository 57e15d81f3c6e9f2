/**
 * The grid itself: an ARIA grid of which only the cells in view exist, with headers that stay. Focus stays on the
 * grid and `aria-activedescendant` names the cell in hand, so that scrolling a cell out of view never loses focus.
 */
import { makeStyles, mergeClasses, tokens } from '@fluentui/react-components';
import { useEffect, useId, useRef, useState, type KeyboardEvent, type PointerEvent } from 'react';
import { columnNoun, rowName, stateWords, type Cell, type GridData } from './gridStates.ts';
import { MarkBox } from './GridMark.tsx';
import { CELL, inView, indices, move, reveal } from './gridWindow.ts';

export interface GridSurfaceProps {
  readonly data: GridData;
  readonly width: number;
  readonly label: string;
  readonly active: Cell;
  readonly onActive: (cell: Cell) => void;
  /** The cell under the pointer, or none when it leaves. */
  readonly onHover: (cell: Cell | undefined) => void;
  readonly onChoose?: (row: number, column: number) => void;
}

const HEAD_WIDTH = 82;
const HEAD_HEIGHT = 62;
const MOST_HEIGHT = 290;
/** Of a scroll bar, which lies over or beside the cells depending on the host. */
const BAR = 17;

const rule = `1px solid ${tokens.colorNeutralStroke2}`;

const useStyles = makeStyles({
  surface: {
    overflow: 'auto',
    border: `1px solid ${tokens.colorNeutralStroke1}`,
    backgroundColor: tokens.colorNeutralBackground1,
    color: tokens.colorNeutralForeground1,
    fontSize: '12px',
    lineHeight: `${CELL}px`,
    boxSizing: 'border-box',
    ':focus-visible': { outline: `2px solid ${tokens.colorStrokeFocus2}`, outlineOffset: '1px' },
  },
  body: { position: 'relative' },
  heads: { position: 'sticky', top: 0, zIndex: 2, backgroundColor: tokens.colorNeutralBackground2 },
  corner: {
    position: 'sticky',
    left: 0,
    zIndex: 1,
    boxSizing: 'border-box',
    backgroundColor: tokens.colorNeutralBackground2,
    borderRight: rule,
    borderBottom: rule,
    color: tokens.colorNeutralForeground2,
    fontSize: '11px',
    lineHeight: '14px',
    padding: '4px 6px',
    display: 'flex',
    flexDirection: 'column',
    justifyContent: 'space-between',
  },
  columnHead: {
    position: 'absolute',
    top: 0,
    boxSizing: 'border-box',
    writingMode: 'vertical-rl',
    transform: 'rotate(180deg)',
    overflow: 'hidden',
    textOverflow: 'ellipsis',
    whiteSpace: 'nowrap',
    padding: '4px 0',
    textAlign: 'start',
    borderTop: rule,
    borderLeft: rule,
  },
  row: { position: 'absolute', left: 0 },
  rowHead: {
    position: 'sticky',
    left: 0,
    zIndex: 1,
    boxSizing: 'border-box',
    backgroundColor: tokens.colorNeutralBackground2,
    borderRight: rule,
    borderBottom: rule,
    padding: '0 6px',
    overflow: 'hidden',
    textOverflow: 'ellipsis',
    whiteSpace: 'nowrap',
  },
  inHand: {
    backgroundColor: tokens.colorNeutralBackground5,
    fontWeight: tokens.fontWeightSemibold,
  },
  cell: {
    position: 'absolute',
    top: 0,
    boxSizing: 'border-box',
    borderRight: rule,
    borderBottom: rule,
    cursor: 'default',
    '& svg': { display: 'block', margin: '-0.5px' },
  },
  crossed: { backgroundColor: tokens.colorNeutralBackground3 },
  active: { outline: `2px solid ${tokens.colorStrokeFocus2}`, outlineOffset: '-2px' },
});

export function GridSurface(props: GridSurfaceProps) {
  const { data, width, label, active, onActive, onHover, onChoose } = props;
  const { keys, cylinders } = data;
  const styles = useStyles();
  const base = useId();
  const ref = useRef<HTMLDivElement>(null);
  const [scroll, setScroll] = useState({ left: 0, top: 0 });
  const whole = { width: HEAD_WIDTH + keys.length * CELL, height: HEAD_HEIGHT + cylinders.length * CELL };
  const height = Math.min(MOST_HEIGHT, whole.height + BAR + 2);
  const room = { width: width - HEAD_WIDTH - BAR, height: height - HEAD_HEIGHT - BAR };
  const rows = withActive(indices(inView(scroll.top, room.height, cylinders.length)), active.row);
  const columns = withActive(indices(inView(scroll.left, room.width, keys.length)), active.column);
  const cellId = (cell: Cell) => `${base}-${cell.row}-${cell.column}`;

  useEffect(() => {
    const element = ref.current;
    if (!element) return;
    element.scrollTop = reveal(active.row, element.scrollTop, room.height);
    element.scrollLeft = reveal(active.column, element.scrollLeft, room.width);
  }, [active.row, active.column, room.height, room.width]);

  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter' && onChoose) return onChoose(active.row, active.column);
    const extent = { rows: cylinders.length, columns: keys.length };
    const page = Math.max(1, Math.floor(room.height / CELL));
    const next = move(active, event.key, event.ctrlKey || event.metaKey, extent, page);
    if (!next) return;
    event.preventDefault();
    onHover(undefined);
    onActive(next);
  };
  const cellAt = (event: { target: EventTarget }): Cell | undefined => {
    const found = (event.target as Element).closest<HTMLElement>('[data-row][data-column]');
    return found ? { row: Number(found.dataset['row']), column: Number(found.dataset['column']) } : undefined;
  };
  return (
    <div
      ref={ref}
      role="grid"
      aria-label={label}
      aria-rowcount={cylinders.length + 1}
      aria-colcount={keys.length + 1}
      aria-activedescendant={cellId(active)}
      tabIndex={0}
      className={styles.surface}
      style={{ height, maxWidth: width }}
      onScroll={(event) =>
        setScroll({ left: event.currentTarget.scrollLeft, top: event.currentTarget.scrollTop })
      }
      onKeyDown={onKeyDown}
      onPointerOver={(event: PointerEvent) => event.pointerType === 'mouse' && onHover(cellAt(event))}
      onPointerLeave={() => onHover(undefined)}
      onClick={(event) => {
        const cell = cellAt(event);
        if (!cell) return;
        onActive(cell);
        onChoose?.(cell.row, cell.column);
      }}
    >
      <div className={styles.body} style={whole} role="presentation">
        <div
          role="row"
          aria-rowindex={1}
          className={styles.heads}
          style={{ height: HEAD_HEIGHT, width: whole.width }}
        >
          <div
            role="columnheader"
            aria-colindex={1}
            className={styles.corner}
            style={{ width: HEAD_WIDTH, height: HEAD_HEIGHT }}
          >
            <span style={{ textAlign: 'end' }}>{columnNoun(data)[0]} →</span>
            <span>door ↓</span>
          </div>
          {columns.map((column) => (
            <div
              key={column}
              role="columnheader"
              aria-colindex={column + 2}
              title={keys[column]!.symbol}
              className={mergeClasses(styles.columnHead, column === active.column && styles.inHand)}
              style={{ left: HEAD_WIDTH + column * CELL, width: CELL, height: HEAD_HEIGHT }}
            >
              {keys[column]!.symbol}
            </div>
          ))}
        </div>
        {rows.map((row) => {
          const cylinder = cylinders[row]!;
          return (
            <div
              key={row}
              role="row"
              aria-rowindex={row + 2}
              className={styles.row}
              style={{ top: HEAD_HEIGHT + row * CELL, width: whole.width, height: CELL }}
            >
              <div
                role="rowheader"
                aria-colindex={1}
                title={cylinder.door === undefined ? cylinder.id : `${cylinder.door} · ${cylinder.id}`}
                className={mergeClasses(styles.rowHead, row === active.row && styles.inHand)}
                style={{ width: HEAD_WIDTH, height: CELL }}
              >
                {rowName(cylinder)}
              </div>
              {columns.map((column) => {
                const state = data.stateOf(row, column);
                const inHand = row === active.row && column === active.column;
                return (
                  <div
                    key={column}
                    id={cellId({ row, column })}
                    role="gridcell"
                    aria-colindex={column + 2}
                    aria-selected={inHand}
                    aria-label={`${keys[column]!.symbol}, ${rowName(cylinder)}: ${stateWords(state)}`}
                    data-row={row}
                    data-column={column}
                    className={mergeClasses(
                      styles.cell,
                      (row === active.row || column === active.column) && styles.crossed,
                      inHand && styles.active,
                    )}
                    style={{ left: HEAD_WIDTH + column * CELL, width: CELL, height: CELL }}
                  >
                    <MarkBox state={state} size={CELL} />
                  </div>
                );
              })}
            </div>
          );
        })}
      </div>
    </div>
  );
}

/** The cell in hand exists even when it is scrolled away: aria-activedescendant must name an element. */
const withActive = (list: readonly number[], active: number): number[] =>
  list.includes(active) ? [...list] : [...list, active];
