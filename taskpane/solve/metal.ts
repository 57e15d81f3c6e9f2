/** The grid as read, with what its keys and cylinders are made of: from the sheet, and from the pane for the others. */
import type { GridKey } from '../../src/keying/grid/index.ts';
import {
  askedMetal,
  operatingKeys,
  type AskedMetal,
  type GridChart,
  type MetalGround,
  type MetalWish,
} from '../../src/workbook/index.ts';

export interface MetalReading extends Pick<AskedMetal, 'keys' | 'cylinders' | 'faults'> {
  /** Without columns of control keys; with every cell that can't be read. */
  readonly chart: GridChart | undefined;
  /** The one keyway of the new system, where it has one or one was named for most of it. */
  readonly keyway: string | undefined;
}

export function withMetal(chart: GridChart | undefined, wish: MetalWish, ground: MetalGround): MetalReading {
  const operating = chart && operatingKeys(chart.keys, ground.spec);
  const asked = askedMetal(chart && { ...chart, keys: operating!.keys }, wish, ground);
  const [only, ...more] = keywaysOf([...asked.keys, ...asked.cylinders]);
  return {
    chart: chart && {
      ...chart,
      keys: operating!.keys,
      problems: [...chart.problems, ...operating!.problems, ...asked.problems],
    },
    keys: asked.keys,
    cylinders: asked.cylinders,
    faults: asked.faults,
    keyway: asked.keyway ?? (more.length === 0 ? only : undefined),
  };
}

/** Each keyway once, with undefined where one is not named. */
export const keywaysOf = (parts: readonly Pick<GridKey, 'keyway'>[]): (string | undefined)[] => [
  ...new Set(parts.map(({ keyway }) => keyway)),
];
