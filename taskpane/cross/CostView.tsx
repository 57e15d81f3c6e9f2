/** What cross-keying a door costs: before and after, who else gets in, whether it is controlled. */
import { formatDepthSet } from '../../src/keying/chamberText.ts';
import type { CrossKeyingCost } from '../../src/keying/grid/index.ts';
import type { Specification } from '../../src/keying/specification.ts';
import { grouped, listed } from '../pictures/numbers.ts';
import { TextTable } from '../pictures/TextTable.tsx';
import { Notice } from '../shared/Notice.tsx';
import { controlSentence, gainSentence } from './words.ts';

interface Props {
  readonly spec: Specification;
  readonly cost: CrossKeyingCost;
  /** 0 = master pins; others the alternatives in their order. */
  readonly way: number;
  readonly name: string;
}

export function CostView({ spec, cost, way, name }: Props) {
  const other = cost.alternatives[way - 1];
  const { before } = cost;
  const after = other?.after ?? cost.after;
  const getIn = other?.getIn ?? cost.getIn;
  const lockedOut = other?.lockedOut ?? [];
  const row = (title: string, a: number, b: number): string[] => [title, grouped(a), grouped(b)];
  return (
    <>
      <TextTable
        caption={`${name}, before and after`}
        columns={['', 'Before', 'After']}
        rows={[
          row('Combinations', before.combinations, after.combinations),
          row('Those a blank can carry', before.cuttable, after.cuttable),
          row('Incidental bittings', before.incidental, after.incidental),
          row('Master pins', before.masterPins, after.masterPins),
          row('Listed keys that open it', before.keys.length, after.keys.length),
        ]}
      />
      <Notice kind={getIn.length > 0 || lockedOut.length > 0 ? 'error' : 'success'}>
        <p>{gainSentence(getIn, name)}</p>
        {lockedOut.length > 0 && <p>{listed(lockedOut)} would no longer open it.</p>}
      </Notice>
      {!other && cost.thin.length > 0 && (
        <Notice kind="error">
          {cost.thin.length === 1 ? 'Chamber' : 'Chambers'} {listed(cost.thin.map(String))} would need a
          master pin that is too thin. Leave {cost.thin.length === 1 ? 'it' : 'them'} empty instead.
        </Notice>
      )}
      <Notice kind={cost.control === 'uncontrolled' ? 'warning' : 'info'}>
        {controlSentence(cost.control)}
      </Notice>
      <TextTable
        caption="Depths in each chamber"
        columns={['Chamber', 'Before', 'After']}
        rows={before.chambers.map((set, i) => [
          String(i + 1),
          formatDepthSet(spec, set),
          formatDepthSet(spec, after.chambers[i]!),
        ])}
      />
    </>
  );
}
