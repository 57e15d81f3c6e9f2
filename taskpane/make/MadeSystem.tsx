/** A system that was made but not written yet: its keys and grid, to look at before deciding. */
import { useMemo } from 'react';
import { formatBitting } from '../../src/keying/bitting.ts';
import { auditInputOf } from '../../src/keying/intended.ts';
import type { GenerateResult } from '../../src/keying/hierarchy.ts';
import { gridOf } from '../audit/gridOf.ts';
import { GridPicture } from '../pictures/GridPicture.tsx';
import { counted, grouped } from '../pictures/numbers.ts';
import { Cautions } from '../shared/Caution.tsx';
import { Fold } from '../shared/Fold.tsx';
import { inReserve, Reserve } from './Reserve.tsx';

export type Made = Extract<GenerateResult, { readonly ok: true }>;

const SHOWN = 30;

export function MadeSystem({ made }: { readonly made: Made }) {
  const { system, marks } = made;
  const data = useMemo(() => gridOf(auditInputOf(system, marks), { system }), [marks, system]);
  return (
    <div className="stack">
      <p>
        {counted(system.keys.length, 'key')} and {counted(system.cylinders.length, 'cylinder')}, audited: each
        key opens what it should and nothing else.
      </p>
      <Reserve
        spec={system.spec}
        keys={inReserve(system.keys, system.cylinders)}
        array={system.array}
        deal={made.capacity.figures?.deal}
      />
      <Fold label="Look at the keys">
        <table className="simple">
          <caption>
            {system.keys.length > SHOWN
              ? `The first ${SHOWN} of ${grouped(system.keys.length)} keys`
              : counted(system.keys.length, 'key')}
          </caption>
          <thead>
            <tr>
              <th scope="col">Symbol</th>
              <th scope="col">Level</th>
              <th scope="col">Bitting</th>
            </tr>
          </thead>
          <tbody>
            {system.keys.slice(0, SHOWN).map((key) => (
              <tr key={key.symbol}>
                <th scope="row">{key.symbol}</th>
                <td>{key.level}</td>
                <td className="code">{formatBitting(system.spec, key.bitting)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Fold>
      {system.cylinders.length > 0 && (
        <Fold label="Look at the grid">
          <GridPicture data={data} />
        </Fold>
      )}
      <Cautions about={['secret', 'exit-doors', 'master-keyed']} spec={system.spec} />
    </div>
  );
}
