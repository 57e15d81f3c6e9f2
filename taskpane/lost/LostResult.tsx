/** What the loss of a key means: exposure, phases, keys to call back. */
import { useMemo } from 'react';
import { byHolder, doorOf } from '../../src/keying/access.ts';
import { copyName } from '../../src/keying/ledger.ts';
import type { LostKeyScope, Phase } from '../../src/keying/lostKey.ts';
import type { DoorZones, SystemStanding } from '../../src/workbook/index.ts';
import { counted, listed } from '../pictures/numbers.ts';
import { Fold } from '../shared/Fold.tsx';

interface Props {
  readonly system: SystemStanding;
  readonly scope: LostKeyScope;
  readonly phases: readonly Phase[];
  /** Where the doors are by the schedule; without it they go by the master over their keyset. */
  readonly zones: DoorZones | undefined;
}

export function LostResult({ system, scope, phases, zones: told }: Props) {
  const { of, audit } = system;
  const { keys, cylinders } = audit.system;
  const recall = useMemo(
    () => scope.replaced.flatMap((k) => of.copies[k]!.filter((c) => c.where === 'held')),
    [of, scope],
  );
  const people = useMemo(() => byHolder(recall), [recall]);
  const doors = new Set(scope.exposed.map((c) => doorOf(cylinders[c]!))).size;
  const zones = useMemo(() => byZone(system, scope, told), [system, scope, told]);
  const further = scope.replaced.slice(1).map((k) => keys[k]!.symbol);
  const figures: readonly (readonly [number, string])[] = [
    [doors, doors === 1 ? 'door exposed' : 'doors exposed'],
    [scope.exposed.length + scope.along.length, 'cylinders to change'],
    [people.length, people.length === 1 ? 'person concerned' : 'people concerned'],
    [recall.length, recall.length === 1 ? 'key to call back' : 'keys to call back'],
  ];
  return (
    <>
      <ul className="figures" aria-label="What the loss means">
        {figures.map(([n, words]) => (
          <li key={words}>
            <strong>{n}</strong> <span>{words}</span>
          </li>
        ))}
      </ul>
      <p>
        {further.length === 0
          ? 'Only this key gets a new bitting; every other key stays.'
          : `${counted(further.length, 'further key')} must change with it, since ${further.length === 1 ? 'it would' : 'they would'} keep the lost key’s cuts in their cylinders: ${listed(further.length > 8 ? [...further.slice(0, 7), `${further.length - 7} more`] : further)}.`}
      </p>
      <h2>In this order</h2>
      <ol>
        {phases.map((phase) => (
          <li key={phase.title}>
            <strong>{phase.title}</strong>: {counted(phase.doors, 'door')}; then{' '}
            {phase.stillExposed.doors === 0
              ? 'none is exposed any more'
              : `${counted(phase.stillExposed.doors, 'door')} still exposed`}
            .
          </li>
        ))}
      </ol>
      <Fold label={`By ${told ? 'zone' : 'group'}: ${counted(zones.length, told ? 'zone' : 'group')}`}>
        {told && <p className="lead">Zones as on the sheet {told.sheet}.</p>}
        <ul>
          {zones.map(([zone, names]) => (
            <li key={zone}>
              {zone}: {counted(names.length, 'door')} (
              {listed(names.length > 6 ? [...names.slice(0, 5), `${names.length - 5} more`] : names)})
            </li>
          ))}
        </ul>
      </Fold>
      <Fold label={`Call back: ${counted(recall.length, 'key')}`} open={recall.length > 0}>
        {people.length === 0 ? (
          <p>By the ledger none of these keys is in anybody’s hands.</p>
        ) : (
          <ul>
            {people.map(({ holder, copies }) => (
              <li key={holder}>
                {holder || '(no name)'}: {listed(copies.map((c) => copyName(c.symbol, c.copy)))}
              </li>
            ))}
          </ul>
        )}
      </Fold>
    </>
  );
}

/** Doors by the schedule's zone, else by the master over their keyset, which is how most buildings are zoned. */
function byZone(
  { audit }: SystemStanding,
  { exposed }: LostKeyScope,
  told: DoorZones | undefined,
): [zone: string, doors: string[]][] {
  const { keys, cylinders } = audit.system;
  const parents = new Map(keys.map((k) => [k.symbol.toUpperCase(), k.parent]));
  const groups = new Map<string, Set<string>>();
  for (const c of exposed) {
    const cylinder = cylinders[c]!;
    const parent = parents.get(cylinder.symbol.toUpperCase());
    const door = doorOf(cylinder);
    const zone = told
      ? (told.zoneOf(door) ?? 'Not on the schedule')
      : parent === undefined
        ? 'Outside any group'
        : `Under ${parent}`;
    const doors = groups.get(zone);
    if (doors) doors.add(door);
    else groups.set(zone, new Set([door]));
  }
  return [...groups].map(([zone, doors]) => [zone, [...doors]]);
}
