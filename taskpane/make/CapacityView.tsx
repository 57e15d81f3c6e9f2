/** Room against need: the bar, the verdict, and what each rule costs for those who want to know. */
import type { Capacity, RuleCost } from '../../src/keying/capacity.ts';
import { ruleTitle, say } from '../../src/keying/wording.ts';
import { CapacityBar } from '../pictures/CapacityBar.tsx';
import { counted, grouped } from '../pictures/numbers.ts';
import { Fold } from '../shared/Fold.tsx';
import { Notice } from '../shared/Notice.tsx';
import type { WorkState } from '../shared/useSteps.ts';

/** A rule by its name, or the reason that a key above the change doesn't pass. */
const costTitle = (rule: RuleCost['rule']): string =>
  rule === 'keyAbove' ? 'A key above breaks a rule' : ruleTitle(rule);

interface Props {
  readonly state: WorkState<Capacity>;
  /** Change keys wanted, spares included. */
  readonly needed: number;
}

export function CapacityView({ state, needed }: Props) {
  switch (state.step) {
    case 'failed':
      return <Notice kind="error">{state.sentence}</Notice>;
    case 'done':
      return <Counted capacity={state.value} needed={needed} />;
    default:
      return (
        <p className="lead" aria-busy="true">
          Counting the changes …
        </p>
      );
  }
}

function Counted({
  capacity: { fits, problems, figures },
  needed,
}: {
  readonly capacity: Capacity;
  readonly needed: number;
}) {
  return (
    <section aria-label="Room" className="stack">
      {problems.map((problem, i) => (
        <Notice key={i} kind="error">
          {say(problem)}
        </Notice>
      ))}
      {figures?.usable !== undefined && (
        <CapacityBar
          theoretical={figures.theoretical}
          usable={figures.usable}
          needed={needed}
          {...(figures.changeKeys ? { groups: figures.changeKeys } : {})}
        />
      )}
      {figures && figures.usable === undefined && (
        <p>
          {counted(figures.theoretical, 'theoretical change')}: too many to count the usable ones one by one.
        </p>
      )}
      {fits && (
        <p>
          <strong>It fits.</strong> Each group has room for its keys and spares.
        </p>
      )}
      {figures?.costs && figures.costs.some((cost) => cost.alone > 0) && (
        <Fold label="What each rule costs">
          <table className="simple">
            <caption>Changes that a rule takes: alone, and after the rules above it</caption>
            <thead>
              <tr>
                <th scope="col">Rule</th>
                <th scope="col" className="numbers">
                  Alone
                </th>
                <th scope="col" className="numbers">
                  In order
                </th>
              </tr>
            </thead>
            <tbody>
              {figures.costs.map((cost) => (
                <tr key={cost.rule}>
                  <th scope="row">{costTitle(cost.rule)}</th>
                  <td className="numbers">{grouped(cost.alone)}</td>
                  <td className="numbers">{grouped(cost.inOrder)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </Fold>
      )}
    </section>
  );
}
