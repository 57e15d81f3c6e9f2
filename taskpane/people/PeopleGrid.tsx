/** Who opens what as a grid: doors down, people across. Only what is in view is drawn, so 200 × 200 stay quick. */
import { useMemo } from 'react';
import { peopleByDoors } from '../../src/keying/access.ts';
import type { SystemStanding } from '../../src/workbook/index.ts';
import { GridPicture } from '../pictures/GridPicture.tsx';
import { stateWords, type GridData } from '../pictures/gridStates.ts';

/** A door that opens though no key in hand is meant for it is marked as in every grid; so is one that should open. */
export function peopleGrid({ of }: Pick<SystemStanding, 'of'>): GridData {
  const grid = peopleByDoors(of);
  return {
    across: 'person',
    keys: grid.people.map((symbol) => ({ symbol: symbol === '' ? '(no name)' : symbol })),
    cylinders: grid.doors.map(({ name }) => ({ id: name })),
    stateOf(row, column) {
      if (grid.opens(row, column)) return grid.meant(row, column) ? 'opens' : 'interchange';
      return grid.meant(row, column) ? 'lock-out' : 'closed';
    },
  };
}

export function PeopleGrid({ system }: { readonly system: SystemStanding }) {
  const data = useMemo(() => peopleGrid(system), [system]);
  return data.keys.length === 0 ? (
    <p>Nobody has a key of {system.reading.name} in hand.</p>
  ) : (
    <GridPicture
      data={data}
      title={`People by doors: ${system.reading.name}`}
      why={(row, column) => (
        <p>
          {data.keys[column]!.symbol} at {data.cylinders[row]!.id}: {stateWords(data.stateOf(row, column))}.
        </p>
      )}
    />
  );
}
