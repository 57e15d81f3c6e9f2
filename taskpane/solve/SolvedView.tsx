/** A solution before it is written: what it costs, the keys, and the grid with its reasons chamber by chamber. */
import { useMemo } from 'react';
import { formatBitting } from '../../src/keying/bitting.ts';
import type { Grid, Solved } from '../../src/keying/grid/index.ts';
import { GridPicture } from '../pictures/GridPicture.tsx';
import { counted, grouped, listed } from '../pictures/numbers.ts';
import { TextTable } from '../pictures/TextTable.tsx';
import { WhyOpens } from '../pictures/WhyOpens.tsx';
import { Cautions } from '../shared/Caution.tsx';
import { Fold } from '../shared/Fold.tsx';
import { blankAt, solvedGrid } from './solvedGrid.ts';

interface Props {
  readonly grid: Grid;
  readonly solved: Solved;
  /** What people call the doors, by cylinder. */
  readonly doors: ReadonlyMap<string, string>;
}

const SHOWN = 30;

export function SolvedView({ grid, solved, doors }: Props) {
  const { spec, marks } = grid;
  const { cost, keys } = solved;
  const data = useMemo(() => solvedGrid(grid, solved, doors), [doors, grid, solved]);
  // where some stand already, what is new is told first, and the grid opens at it
  const fresh = keys.filter((key) => !key.fixed);
  const grown = fresh.length < keys.length;
  const start = useMemo(() => firstNew(solved, marks), [marks, solved]);
  const blanks = useMemo(() => blanksOf(grid), [grid]);
  const blankHeading = blanks ? ['Keyway'] : [];
  const blankOf = (symbol: string): string[] => (blanks ? [blanks.get(symbol) ?? ''] : []);
  const dearest = [...cost.perCylinder].sort((a, b) => b.combinations - a.combinations).slice(0, SHOWN);
  return (
    <div className="stack">
      <p>
        Solved in {counted(solved.steps, 'step')}. {counted(keys.length, 'key')} against{' '}
        {counted(data.cylinders.length, 'cylinder')}, every pair audited: each key opens what is marked and
        nothing else.
      </p>
      {grown && fresh.length > 0 && (
        <TextTable
          caption={some('new key', fresh.length)}
          columns={['Key', 'Bitting', ...blankHeading]}
          rows={fresh
            .slice(0, SHOWN)
            .map((key) => [key.symbol, formatBitting(spec, key.bitting), ...blankOf(key.symbol)])}
        />
      )}
      {solved.alike.map((symbols) => (
        <p key={symbols.join()}>{listed(symbols)} have the same marks and are cut alike.</p>
      ))}
      {solved.unmarked.length > 0 && (
        <p>
          No key is marked for {listed(solved.unmarked.slice(0, 8))}
          {solved.unmarked.length > 8 && ' …'}: left out.
        </p>
      )}
      <GridPicture
        data={data}
        start={start}
        why={(row, column) => (
          <WhyOpens
            spec={spec}
            symbol={keys[column]!.symbol}
            bitting={keys[column]!.bitting}
            cylinder={data.cylinders[row]!}
            state={data.stateOf(row, column)}
            {...blankAt(grid, row, column)}
          />
        )}
      />
      <ul className="figures" aria-label="What it costs">
        <Figure n={cost.extraMasterPins} one="extra master pin" many="extra master pins" />
        <Figure n={cost.mostCombinations} one="combination at most" many="combinations at most" />
        <Figure n={cost.incidental} one="incidental bitting" many="incidental bittings" />
      </ul>
      <p className="lead">
        {counted(cost.masterPins, 'master pin')} in all; extra are those beyond one in a chamber. Incidental
        bittings are nobody’s and turn a cylinder all the same.
      </p>
      <Fold label="Look at the keys">
        <TextTable
          caption={some('key', keys.length)}
          columns={['Key', 'Bitting', ...blankHeading, 'Stands']}
          rows={keys
            .slice(0, SHOWN)
            .map((key) => [
              key.symbol,
              formatBitting(spec, key.bitting),
              ...blankOf(key.symbol),
              key.fixed ? 'as it was' : 'new',
            ])}
        />
      </Fold>
      <Fold label="Cost by cylinder">
        <TextTable
          caption="Those that most bittings operate come first"
          columns={['Cylinder', 'Combinations', 'Incidental', 'Master pins']}
          rows={dearest.map((c) => [
            doors.get(c.id) || c.id,
            grouped(c.combinations),
            grouped(c.incidental),
            grouped(c.masterPins),
          ])}
        />
      </Fold>
      <Cautions about={['secret', 'exit-doors', 'master-keyed']} spec={spec} />
    </div>
  );
}

/** What the sheet's Keyway and Cuts will say of each key; undefined where they say nothing of any. */
function blanksOf({ keys }: Grid): ReadonlyMap<string, string> | undefined {
  if (keys.every(({ keyway, cuts }) => keyway === undefined && cuts === undefined)) return undefined;
  return new Map(
    keys.map(({ symbol, keyway, cuts }) => [
      symbol,
      [keyway, cuts === undefined ? undefined : counted(cuts, 'cut')].filter(Boolean).join(', '),
    ]),
  );
}

const some = (noun: string, count: number): string =>
  count > SHOWN ? `The first ${SHOWN} of ${counted(count, noun)}` : counted(count, noun);

/** The cell of the first new key at a door that it opens, a new one before others; the corner where none is new. */
function firstNew(
  { keys, cylinders }: Pick<Solved, 'keys' | 'cylinders'>,
  marks: Grid['marks'],
): { readonly row: number; readonly column: number } {
  const key = keys.findIndex(({ fixed }) => !fixed);
  const isNew = (row: number): boolean => !cylinders[row]!.fixed;
  const rows = cylinders.map((_, row) => row).filter((row) => key < 0 || marks[row]!.includes(key));
  const row = rows.find(isNew) ?? rows[0] ?? 0;
  return { row, column: key >= 0 ? key : Math.max(0, marks[row]![0] ?? 0) };
}

function Figure({ n, one, many }: { readonly n: number; readonly one: string; readonly many: string }) {
  return (
    <li>
      <strong>{grouped(n)}</strong> <span>{n === 1 ? one : many}</span>
    </li>
  );
}
