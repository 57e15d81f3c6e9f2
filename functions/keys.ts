/** Codes and chambers in cells → bittings and sets of depths. */
import { parseBitting, type Bitting } from '../src/keying/bitting.ts';
import { parseDepthSet } from '../src/keying/chamberText.ts';
import type { DepthSet } from '../src/keying/depthSet.ts';
import { positions, type Specification } from '../src/keying/specification.ts';
import { sayChamberFault } from '../src/keying/specWording.ts';
import type { Chambers } from '../src/keying/system.ts';
import { sayAll } from '../src/keying/sayAll.ts';
import { isBlank, lineOf, refuse, textOrNumber } from './cells.ts';

/** A code cell → its bitting. A number is taken as its digits; one with digits missing is refused, never filled. */
export function bittingIn(spec: Specification, cell: unknown, what = 'The code'): Bitting {
  const read = parseBitting(spec, textOrNumber(cell, what));
  if (read.ok) return read.value;
  const words = sayAll(read.error).join(' ');
  return refuse(what === 'The code' ? words : `${what}: ${words}`);
}

/** The depths of one chamber from a cell. */
export function chamberIn(spec: Specification, cell: unknown, what: string): DepthSet {
  const read = parseDepthSet(spec, textOrNumber(cell ?? '', what));
  return read.ok ? read.value : refuse(`${what}: ${read.error.map(sayChamberFault).join('; ')}.`);
}

/** A cylinder's chambers from a row or column of cells in the order of the code, or undefined where all are blank. */
export function chambersIn(spec: Specification, range: unknown): Chambers | undefined {
  const all = lineOf(range, 'The chambers');
  if (all.every(isBlank)) return undefined;
  // a sheet has columns for the longest key; those that this spec doesn't have are blank
  const surplus = all.length > positions(spec) && all.slice(positions(spec)).every(isBlank);
  const cells = surplus ? all.slice(0, positions(spec)) : all;
  if (cells.length !== positions(spec))
    return refuse(
      `There are ${cells.length} chambers in the range; ${spec.name} has ${positions(spec)}. Write any in a chamber that is empty.`,
    );
  return cells.map((cell, i) => chamberIn(spec, cell, `Chamber ${i + 1}`));
}
