/** What a system of the workbook has already, for a list of codes to be held against. */
import type { KnownKeys } from '../keying/importCheck.ts';
import type { SystemReading } from './reading.ts';

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
