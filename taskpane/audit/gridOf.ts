/** The grid that the audit looks at, cell by cell: what each key does at each cylinder against what it should do. */
import type { AuditInput } from '../../src/keying/auditInput.ts';
import { reachOf } from '../../src/keying/blankReach.ts';
import { operates } from '../../src/keying/cylinder.ts';
import { entersKeyway } from '../../src/keying/keyways.ts';
import type { SystemAudit } from '../../src/workbook/index.ts';
import type { GridData } from '../pictures/gridStates.ts';

export interface AuditGrid extends GridData {
  /** Number of the key in the audit's list that stands in each column. */
  readonly columns: readonly number[];
}

/** Control keys work another shear line and have no column; a free bitting has no key. */
export function gridOf(
  order: AuditInput,
  { system }: Pick<SystemAudit, 'system'>,
  /** Cylinders that the audit came to; all when left out. */
  audited?: number,
): AuditGrid {
  const columns = order.keys.flatMap((key, i) => (key.control || key.status === 'free' ? [] : [i]));
  const intended = order.intended.map((numbers) => new Set(numbers));
  return {
    columns,
    keys: columns.map((i) => ({ symbol: order.keys[i]!.symbol })),
    cylinders: system.cylinders.slice(0, audited),
    stateOf(row, column) {
      const key = order.keys[columns[column]!]!;
      const cylinder = order.cylinders[row]!;
      const opens =
        entersKeyway(order.enters, key.keyway, cylinder.keyway) &&
        operates(cylinder.chambers, key.bitting, reachOf(order.spec, key.cuts));
      const meant = intended[row]!.has(columns[column]!);
      if (opens) return meant ? 'opens' : 'interchange';
      return meant ? 'lock-out' : 'closed';
    },
  };
}
