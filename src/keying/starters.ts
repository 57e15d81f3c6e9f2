/**
 * Specs to start from, described by their geometry alone. They are written from memory and say so: a shop checks
 * them against its own depth and space data before it cuts. Their names are reserved, so that a number which looks
 * like a starter's never means other dimensions.
 */
import { ProgrammerError } from './result.ts';
import {
  makeSpecification,
  type Depth,
  type Specification,
  type SpecificationDraft,
} from './specification.ts';
import { inches, lengthOf, millimetres, times, type Length } from './units.ts';

export const FROM_MEMORY = 'from memory: check against your depth and space data before you cut';

/** Depths at even steps from the shallowest down; `symbols` go from the shallowest to the deepest. */
function evenDepths(symbols: string, shallowest: Length, increment: Length): Depth[] {
  return [...symbols].map((symbol, i) => ({ symbol, root: lengthOf(shallowest - times(increment, i)) }));
}

/** What the three cores share: seven cuts read and measured from the tip. */
const CORE = {
  unit: 'in',
  gauge: 'tip',
  order: 'tip-to-bow',
  positions: 7,
  first: inches(0.08),
  spacing: inches(0.15),
  rootWidth: inches(0.035),
  angle: 90,
  bladeHeight: inches(0.335),
  plugDiameter: inches(0.428),
  source: FROM_MEMORY,
} as const;

const DRAFTS: readonly SpecificationDraft[] = [
  {
    name: 'S-018-6',
    title: 'Six cuts at 0.018 in from the shoulder, progressed in two steps',
    unit: 'in',
    gauge: 'shoulder',
    order: 'bow-to-tip',
    positions: 6,
    first: inches(0.237),
    spacing: inches(0.156),
    depths: evenDepths('0123456789', inches(0.315), inches(0.018)),
    rootWidth: inches(0.054),
    angle: 90,
    macs: 5,
    bladeHeight: inches(0.335),
    plugDiameter: inches(0.5),
    targetStack: inches(0.5),
    source: FROM_MEMORY,
  },
  {
    name: 'S-025-5',
    title: 'Five cuts at 0.025 in from the shoulder, progressed in single steps',
    unit: 'in',
    gauge: 'shoulder',
    order: 'bow-to-tip',
    positions: 5,
    first: inches(0.25),
    spacing: inches(0.156),
    depths: evenDepths('123456', inches(0.32), inches(0.025)),
    rootWidth: inches(0.05),
    angle: 90,
    macs: 4,
    bladeHeight: inches(0.335),
    plugDiameter: inches(0.5),
    targetStack: inches(0.46),
    source: FROM_MEMORY,
  },
  {
    ...CORE,
    name: 'T-0125-7',
    title: 'Interchangeable core: seven cuts at 0.0125 in from the tip, progressed in two steps',
    depths: evenDepths('0123456789', inches(0.318), inches(0.0125)),
    macs: 9,
    core: { total: 23, addition: 10 },
  },
  {
    ...CORE,
    name: 'T-018-7',
    title: 'Interchangeable core: seven cuts at 0.018 in from the tip, progressed in single steps',
    depths: evenDepths('0123456', inches(0.318), inches(0.018)),
    macs: 6,
    core: { total: 16, addition: 7 },
  },
  {
    ...CORE,
    name: 'T-021-7',
    title: 'Interchangeable core: seven cuts at 0.021 in from the tip, progressed in single steps',
    depths: evenDepths('012345', inches(0.318), inches(0.021)),
    macs: 5,
    core: { total: 14, addition: 6 },
  },
  {
    name: 'M-050-5',
    title:
      'Five cuts at 0.50 mm from the shoulder, read from the tip; the larger symbol is the shallower cut',
    unit: 'mm',
    gauge: 'shoulder',
    order: 'tip-to-bow',
    positions: 5,
    first: millimetres(5.5),
    spacing: millimetres(4),
    depths: evenDepths('7654321', millimetres(8), millimetres(0.5)),
    rootWidth: millimetres(1.5),
    angle: 100,
    macs: 4,
    bladeHeight: millimetres(8.5),
    plugDiameter: millimetres(13),
    targetStack: millimetres(12),
    source: FROM_MEMORY,
  },
];

export const STARTER_SPECS: readonly Specification[] = DRAFTS.map((draft) => {
  const made = makeSpecification(draft);
  if (made.ok) return made.value;
  throw new ProgrammerError(`starter ${draft.name}: ${made.error.map((fault) => fault.code).join(', ')}`);
});

const byName = new Map(STARTER_SPECS.map((spec) => [spec.name, spec]));

/** A starter by its name, in either case. @example starterSpec('s-018-6')?.macs → 5 */
export function starterSpec(name: string): Specification | undefined {
  return byName.get(name.trim().toUpperCase());
}
