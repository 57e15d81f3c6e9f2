/** Every worksheet function by its id. An id never changes; parameters are only ever added at the end. */
import { bitting, bittings, check, checks, why, whys } from './codes.ts';
import { coreStack, coreStackWhy } from './cores.ts';
import { changes, usableChanges } from './counting.ts';
import { cutCentre, cutCentres, cutList, rootDepth, rootDepths } from './cuts.ts';
import { geometricMacs, passes, passOffsets } from './cutters.ts';
import { decode, decodes, decodeWhy, fitSpec } from './decoding.ts';
import { judge } from './judging.ts';
import { operates, operatesWhy, operatingCount } from './operating.ts';
import { pinStack, pinStacks, pinStackWhy } from './pinning.ts';

/** The add-in's namespace: `=KEYROW.CHECK(…)`. */
export const NAMESPACE = 'KEYROW';

export const FUNCTIONS = {
  BITTING: bitting,
  BITTINGS: bittings,
  CHANGES: changes,
  CHECK: check,
  CHECKS: checks,
  CORESTACK: coreStack,
  CORESTACKWHY: coreStackWhy,
  CUTCENTRE: cutCentre,
  CUTCENTRES: cutCentres,
  CUTLIST: cutList,
  DECODE: decode,
  DECODES: decodes,
  DECODEWHY: decodeWhy,
  FITSPEC: fitSpec,
  GEOMETRICMACS: geometricMacs,
  JUDGE: judge,
  OPERATES: operates,
  OPERATESWHY: operatesWhy,
  OPERATINGCOUNT: operatingCount,
  PASSES: passes,
  PASSOFFSETS: passOffsets,
  PINSTACK: pinStack,
  PINSTACKS: pinStacks,
  PINSTACKWHY: pinStackWhy,
  ROOTDEPTH: rootDepth,
  ROOTDEPTHS: rootDepths,
  USABLECHANGES: usableChanges,
  WHY: why,
  WHYS: whys,
} as const;

export type FunctionId = keyof typeof FUNCTIONS;
