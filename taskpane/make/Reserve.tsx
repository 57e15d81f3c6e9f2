/** What a system keeps for later: spare keys and masters with their bittings, and chambers that no level uses yet. */
import { formatBitting } from '../../src/keying/bitting.ts';
import type { Deal } from '../../src/keying/deal.ts';
import type { KeyRecord } from '../../src/keying/system.ts';
import type { Specification } from '../../src/keying/specification.ts';
import { counted, grouped, listed } from '../pictures/numbers.ts';
import { TextTable } from '../pictures/TextTable.tsx';
import { Fold } from '../shared/Fold.tsx';

interface Props {
  readonly spec: Specification;
  /** Keys in reserve. */
  readonly keys: readonly KeyRecord[];
  readonly array?: readonly (readonly number[])[] | undefined;
  readonly deal?: Deal | undefined;
}

const SHOWN = 60;
const NAMES: Partial<Record<KeyRecord['level'], string>> = {
  GMK: 'grand master',
  MK: 'master',
  CK: 'change key',
};

/** @example reserveWords(keys) → '1 grand master and 4 change keys in reserve.' */
export function reserveWords(keys: readonly Pick<KeyRecord, 'level'>[]): string {
  const parts = (Object.keys(NAMES) as KeyRecord['level'][]).flatMap((level) => {
    const count = keys.filter((key) => key.level === level).length;
    return count === 0 ? [] : [counted(count, NAMES[level]!)];
  });
  return parts.length === 0 ? 'No key is kept in reserve.' : `${listed(parts)} in reserve.`;
}

/** Chambers with choices that no level uses. @example keptWords([[1, 2], [3]], ['CK', 'constant']) → 'Chamber 2 …' */
export function keptWords(
  array: readonly (readonly number[])[] | undefined,
  deal: Deal | undefined,
): string | undefined {
  if (!array || deal?.length !== array.length) return undefined;
  const kept = array.flatMap((choices, i) => (deal[i] === 'constant' && choices.length > 0 ? [i] : []));
  if (kept.length === 0) return undefined;
  const times = kept.reduce((product, i) => product * array[i]!.length, 1);
  const one = kept.length === 1;
  return `${one ? 'Chamber' : 'Chambers'} ${listed(kept.map((i) => String(i + 1)))} ${one ? 'is' : 'are'} kept at the top master’s cut: a later level has ${counted(times, 'change')} there.`;
}

export function Reserve({ spec, keys, array, deal }: Props) {
  const kept = keptWords(array, deal);
  if (keys.length === 0) return kept === undefined ? null : <p>{kept}</p>;
  return (
    <>
      <p>
        {reserveWords(keys)} {kept}
      </p>
      <Fold label="Look at the reserve">
        <TextTable
          caption={
            keys.length > SHOWN ? `The first ${SHOWN} of ${grouped(keys.length)}` : 'Bittings set aside'
          }
          columns={['Symbol', 'Level', 'Bitting']}
          rows={keys.slice(0, SHOWN).map((key) => [key.symbol, key.level, formatBitting(spec, key.bitting)])}
        />
      </Fold>
    </>
  );
}

/** Keys kept in reserve: set aside, of a level of the hierarchy, and pinned in no cylinder. */
export const inReserve = (
  keys: readonly KeyRecord[],
  cylinders: readonly { readonly symbol: string }[],
): KeyRecord[] => {
  const pinned = new Set(cylinders.map(({ symbol }) => symbol.trim().toUpperCase()));
  return keys.filter(
    (key) => key.status === 'reserved' && key.level in NAMES && !pinned.has(key.symbol.trim().toUpperCase()),
  );
};
