/** What the change after a loss makes of each key and cylinder, old beside new. */
import { doorOf } from '../keying/access.ts';
import { formatBitting } from '../keying/bitting.ts';
import { formatDepthSet } from '../keying/chamberText.ts';
import { auditedCylinders, auditedKeys } from './auditInput.ts';
import type { Fresh } from './planLostKey.ts';
import type { SystemReading } from './reading.ts';

/** A key or a cylinder as it is and as it will be, to be shown beside the plan. */
export interface LostKeyChanges {
  readonly keys: readonly { readonly symbol: string; readonly from: string; readonly to: string }[];
  readonly cylinders: readonly {
    readonly door: string;
    readonly cylinder: string;
    readonly symbol: string;
    readonly chambers: readonly { readonly chamber: number; readonly from: string; readonly to: string }[];
  }[];
}

/**
 * Old and new of everything that changes; a cylinder's chambers that stay are left out.
 * @example lostKeyChanges(system, fresh).cylinders[0]
 *   → { door: '301', cylinder: '29', symbol: 'AB1', chambers: [{ chamber: 3, from: '2 6', to: '4 8' }] }
 */
export function lostKeyChanges(system: SystemReading, fresh: Fresh): LostKeyChanges {
  const { spec } = system;
  if (!spec) return { keys: [], cylinders: [] };
  const keys = auditedKeys(system);
  const rows = auditedCylinders(system);
  return {
    keys: fresh.keys.map(({ replaces, record }) => ({
      symbol: record.symbol,
      from: formatBitting(spec, keys[replaces]!.record!.bitting),
      to: formatBitting(spec, record.bitting),
    })),
    cylinders: fresh.cylinders.map(({ cylinder, chambers }) => {
      const row = rows[cylinder]!;
      return {
        door: doorOf(row),
        cylinder: row.id,
        symbol: row.symbol,
        chambers: chambers.flatMap((set, i) =>
          row.chambers![i] === set
            ? []
            : [
                {
                  chamber: i + 1,
                  from: formatDepthSet(spec, row.chambers![i]!),
                  to: formatDepthSet(spec, set),
                },
              ],
        ),
      };
    }),
  };
}
