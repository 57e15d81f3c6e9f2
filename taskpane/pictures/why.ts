/** Why a key opens a cylinder, or doesn't, as facts and as a sentence. */
import { carries, reachOf } from '../../src/keying/blankReach.ts';
import { whyNotOperates } from '../../src/keying/cylinder.ts';
import { depthsIn, EVERY } from '../../src/keying/depthSet.ts';
import type { Specification } from '../../src/keying/specification.ts';
import type { CylinderRecord, KeyRecord } from '../../src/keying/system.ts';
import type { GridState } from './gridStates.ts';
import { listed } from './numbers.ts';

export interface Why {
  readonly spec: Specification;
  readonly symbol: KeyRecord['symbol'];
  readonly bitting: KeyRecord['bitting'];
  /** Cuts on the blank; all when left out. */
  readonly cutsOnBlank?: number;
  readonly cylinder: Pick<CylinderRecord, 'id' | 'door' | 'chambers'>;
  /** Whether it is as meant, where that is known. */
  readonly state?: GridState;
  /** The blank doesn't enter the keyway: the cuts then don't matter. */
  readonly wrongKeyway?: { readonly key: string; readonly cylinder: string };
}

export interface WhyChamber {
  readonly chamber: number;
  /** Symbol of the key's cut; none where the blank has no cut there. */
  readonly cut?: string;
  /** Symbols of the depths at which the chamber shears. */
  readonly shears: readonly string[] | 'any';
  readonly passes: boolean;
}

/** Every chamber in the order of the code, with keying's own verdict. */
export function whyChambers(props: Pick<Why, 'spec' | 'bitting' | 'cutsOnBlank' | 'cylinder'>): WhyChamber[] {
  const { spec, bitting, cutsOnBlank, cylinder } = props;
  const reach = reachOf(spec, cutsOnBlank);
  const failing = new Set(
    whyNotOperates(spec, cylinder.chambers, bitting, cutsOnBlank).map(({ chamber }) => chamber),
  );
  return cylinder.chambers.map((set, i) => {
    const cut = carries(reach, i) ? spec.depths[bitting[i]!]?.symbol : undefined;
    return {
      chamber: i + 1,
      ...(cut !== undefined && { cut }),
      shears: set === EVERY ? 'any' : depthsIn(set, spec.depths.length).map((d) => spec.depths[d]!.symbol),
      passes: !failing.has(i + 1),
    };
  });
}

export function whySentence(props: Why, chambers: readonly WhyChamber[]): string {
  const { symbol, cylinder, wrongKeyway } = props;
  const place = cylinder.door ?? cylinder.id;
  if (wrongKeyway)
    return `${symbol} does not enter ${place}: its blank is for keyway ${wrongKeyway.key}, the cylinder has ${wrongKeyway.cylinder}.`;
  const failing = chambers.filter((c) => !c.passes).map((c) => String(c.chamber));
  if (failing.length === 0) return `${symbol} opens ${place}: every chamber shears.`;
  return `${symbol} does not open ${place}: ${failing.length === 1 ? 'chamber' : 'chambers'} ${listed(failing)} ${failing.length === 1 ? 'blocks' : 'block'}.`;
}
