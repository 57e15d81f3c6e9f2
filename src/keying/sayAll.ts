/**
 * Several findings of one key or cell, with findings of one kind told in one sentence: nine near misses of a key are
 * one thing to know, and nine sentences of the same words hide the rest. Nothing is left out but names beyond a few,
 * which are counted.
 */
import type { Finding } from './findings.ts';
import { formatLength, type Unit } from './units.ts';
import { apart, say } from './wording.ts';
import { listed, steps } from './words.ts';

type Of<C extends Finding['code']> = readonly Extract<Finding, { readonly code: C }>[];

/** Names told before the rest is counted. */
const MOST = 5;

/** @example few(['B1', 'B2', 'B3', 'B4', 'B5', 'B6', 'B7']) → 'B1, B2, B3, B4, B5 and 2 more' */
const few = (names: readonly string[]): string =>
  names.length > MOST + 1 ? `${listed(names.slice(0, MOST))} and ${names.length - MOST} more` : listed(names);

const SEVERAL: { readonly [C in Finding['code']]?: (all: Of<C>) => string } = {
  'unknown-depth': (all) => {
    const cuts = new Map<string, number[]>();
    for (const { symbol, at } of all) cuts.set(symbol, [...(cuts.get(symbol) ?? []), at]);
    const each = [...cuts].map(
      ([symbol, at]) => `“${symbol}” at cut${at.length === 1 ? '' : 's'} ${listed(at.map(String))}`,
    );
    return `Not depths of this spec: ${each.join('; ')}. Its depths are ${listed(all[0]!.allowed)}.`;
  },
  macs: (all) => {
    const pairs = all.map((f) => `${f.first} and ${f.first + 1} (${f.from} and ${f.to}, ${steps(f.steps)})`);
    return `Neighbours lie too far apart at cuts ${listed(pairs)}; this spec allows ${all[0]!.allowed}. Choose depths closer together.`;
  },
  parity: (all) => {
    const cuts = all.map((f) => `${f.at} (${steps(f.steps)})`);
    return `Cuts ${listed(cuts)} don’t lie a multiple of ${all[0]!.step} from the top master ${all[0]!.master}; the master pins would be too thin. Choose other depths there.`;
  },
  'operates-existing': (all) =>
    `A key with this bitting operates the cylinders ${few(all.map((f) => f.cylinder))}, which it should not; choose another bitting.`,
  'near-miss': (all) => {
    const others = all.map((f) => `${f.other} (chamber ${f.chamber}, by ${apart(f)})`);
    return `One chamber alone keeps this key from each of ${few(others)}; in a worn lock it may turn. Choose a bitting that differs in more chambers if you can.`;
  },
  'eaten-flat': (all) => {
    const pairs = all.map(
      (f) => `${f.first} and ${f.first + 1} (${f.from} and ${f.to}, by ${formatLength(f.by, f.unit)})`,
    );
    return `The deeper cut eats its neighbour's flat at cuts ${listed(pairs)}. Use a narrower cutter, or depths closer together.`;
  },
  'suspect-cut': (all) => {
    const { tolerance, unit } = all[0]!;
    const cuts = all.map((f) => `${f.at} (${signed(f.deviation, unit)} from ${f.symbol})`);
    return `Off by more than the tolerance of ${formatLength(tolerance, unit)}: cuts ${listed(cuts)}. Measure them again.`;
  },
  'ambiguous-cut': (all) => {
    const cuts = all.map((f) => `${f.at} (${f.symbol} or ${f.other})`);
    return `Between two depths: cuts ${listed(cuts)}, the nearer one first. Measure them again, or try both.`;
  },
};

const signed = (length: Parameters<typeof formatLength>[0], unit: Unit): string =>
  `${length > 0 ? '+' : ''}${formatLength(length, unit)}`;

/** One sentence of {@link sayGroups}, with the findings that it tells. */
export interface SaidGroup<F extends Finding> {
  readonly sentence: string;
  /** All of one code. */
  readonly findings: readonly F[];
}

/** The findings in the order of the first of each kind. */
export function sayGroups<F extends Finding>(findings: readonly F[]): SaidGroup<F>[] {
  if (findings.length < 2) return findings.map((f) => ({ sentence: say(f), findings: [f] }));
  const groups = new Map<Finding['code'], F[]>();
  for (const finding of findings) {
    const there = groups.get(finding.code);
    if (there) there.push(finding);
    else groups.set(finding.code, [finding]);
  }
  return [...groups].flatMap(([code, all]) => {
    // the table's type ties each code to its own findings, which an indexed call can't express
    const several = SEVERAL[code] as ((all: readonly Finding[]) => string) | undefined;
    return several && all.length > 1
      ? [{ sentence: several(all), findings: all }]
      : all.map((f) => ({ sentence: say(f), findings: [f] }));
  });
}

/**
 * All findings in words.
 * @example sayAll(nearMisses) → ['One chamber alone keeps this key from each of B6 (chamber 2, by 0.018 in), …']
 */
export const sayAll = (findings: readonly Finding[]): string[] =>
  sayGroups(findings).map(({ sentence }) => sentence);
