/** The audit: every key against every cylinder, ours and as a plain double loop. */
import { auditSystem, type AuditInput } from '../../src/keying/audit.ts';
import { bittingOf } from '../../src/keying/bitting.ts';
import { depthSetOf, hasDepth } from '../../src/keying/depthSet.ts';
import { starterSpec } from '../../src/keying/starters.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { positions } from '../../src/keying/specification.ts';
import { randomOf } from './random.ts';
import type { Comparison } from './table.ts';

/** Keys of one system as a progression makes them: each cut a whole number of steps from the top master's. */
function input(keyCount: number, cylinderCount: number): AuditInput {
  const spec = starterSpec('S-018-6')!;
  const random = randomOf(7);
  const chambers = positions(spec);
  const choices = [1, 3, 5, 7];
  const master = [9, 9, 9, 9, 9, 9];
  const seen = new Set<string>();
  const bittings: number[][] = [];
  while (bittings.length < keyCount) {
    const cuts = Array.from({ length: chambers }, () => choices[random(choices.length)]!);
    if (seen.has(cuts.join())) continue;
    seen.add(cuts.join());
    bittings.push(cuts);
  }
  const keys = bittings.map((cuts, i) => ({ symbol: `AA${i + 1}`, bitting: bittingOf(spec, cuts) }));
  const cylinders = Array.from({ length: cylinderCount }, (_, i) => ({
    id: `C${i + 1}`,
    chambers: keys[i % keyCount]!.bitting.map((cut, p) => depthSetOf([cut, master[p]!])),
  }));
  return { spec, keys, cylinders, intended: cylinders.map((_, i) => [i % keyCount]) };
}

function naive({ keys, cylinders, intended }: AuditInput): number {
  let wrong = 0;
  cylinders.forEach((cylinder, c) => {
    keys.forEach((key, k) => {
      const opens = cylinder.chambers.every((set, i) => hasDepth(set, key.bitting[i]!));
      if (opens !== intended[c]!.includes(k)) wrong++;
    });
  });
  return wrong;
}

const wrongPairs = (counts: Readonly<Record<string, number | undefined>>): number =>
  (counts['interchange'] ?? 0) + (counts['lock-out'] ?? 0);

export function auditComparisons(): Comparison[] {
  return [
    [4096, 1000],
    [4096, 10000],
  ].map(([keyCount, cylinderCount]) => {
    const system = input(keyCount!, cylinderCount!);
    return {
      what: `audit ${keyCount} keys × ${cylinderCount} cylinders`,
      items: keyCount! * cylinderCount!,
      unit: 'pairs',
      ours: () => wrongPairs(runToEnd(auditSystem(system, { near: false })).counts),
      naive: () => naive(system),
      against: 'double loop, leaves a chamber at the first misfit',
      same: (a, b) => a === b,
    };
  });
}
