/** What a system of the workbook has already, for a list of codes to be held against. */
import type { KnownKeys } from '../keying/importCheck.ts';
import type { Bitting } from '../keying/bitting.ts';
import { shareKeyway } from '../keying/keyways.ts';
import { enteringOf } from '../keying/shop.ts';
import type { Specification } from '../keying/specification.ts';
import { sameName } from './names.ts';
import type { BookReading, SystemReading } from './reading.ts';
import { readShop } from './tableShop.ts';

/**
 * Keys with a bitting, cylinders with chambers, and the top master. A key whose status can't be read counts as issued:
 * a bitting is better held back than handed out twice.
 */
export function knownKeys(system: SystemReading): KnownKeys {
  const keys = system.keys.flatMap(({ symbol, bitting, status, level }) =>
    bitting
      ? [{ symbol, bitting, status: status ?? 'issued', master: level !== 'CK' && level !== 'single' }]
      : [],
  );
  const { topMaster } = system;
  const top = topMaster && keys.find((key) => key.bitting.every((cut, i) => cut === topMaster[i]));
  return {
    keys,
    cylinders: system.cylinders.flatMap(({ id, symbol, keyway, chambers }) =>
      chambers ? [{ id, symbol, chambers, ...(keyway && { keyway }) }] : [],
    ),
    ...(topMaster && { master: { symbol: top?.symbol ?? 'top master', bitting: topMaster } }),
  };
}

/**
 * Bittings that were taken out of use for good, in any system of this spec whose blanks go where those of `keyway` go:
 * the key is still about somewhere, so not even a new system may have it.
 * @example retiredUnder(book, spec, 'K1') → the bittings of lost keys
 */
export function retiredUnder(book: BookReading, spec: Specification, keyway: string | undefined): Bitting[] {
  const entering = enteringOf(readShop(book).blanks);
  return book.systems
    .filter((system) => system.spec && sameName(system.spec.name, spec.name))
    .flatMap((system) =>
      system.keys.flatMap(({ bitting, status, keyway: own }) =>
        bitting && status === 'retired' && shareKeyway(entering, own ?? system.keyway, keyway)
          ? [bitting]
          : [],
      ),
    );
}
