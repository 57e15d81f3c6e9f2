/**
 * Who operates a cylinder against who should. The keys that do are counted first, without looking at each; they are
 * only gone through one by one where some do that should not, and those are still to be listed.
 */
import type { AuditFindings } from './auditFindings.ts';
import type { AuditCylinder, AuditInput, AuditKey } from './auditInput.ts';
import { packBitting } from './bitting.ts';
import { reachOf } from './blankReach.ts';
import { worksControlLine } from './core.ts';
import { isWithinMacs } from './count.ts';
import { operates, whyNotOperates } from './cylinder.ts';
import type { SystemFinding } from './findings.ts';
import type { KeyClass } from './keyClasses.ts';
import type { Tally } from './keyIndex.ts';
import { entersKeyway } from './keyways.ts';
import { positions } from './specification.ts';

/** Classes of keys whose blanks enter a cylinder. */
export interface Entrants {
  readonly classes: readonly KeyClass[];
  /** For each class of the audit whether it is among them. */
  readonly has: readonly boolean[];
}

export interface PairChecks {
  readonly entrantsOf: (cylinder: AuditCylinder) => Entrants;
  /** Adds interchanges and lock-outs of the cylinder with number `c` and counts what operates it. */
  readonly check: (cylinder: AuditCylinder, c: number, entrants: Entrants) => CountedKeys;
  /** Whether a key was marked for the cylinder that was checked last. */
  readonly isWanted: (key: number) => boolean;
}

export interface CountedKeys {
  /** Listed keys that operate the cylinder. */
  readonly operating: number;
  /** Their different bittings that a blank can carry. */
  readonly issued: number;
}

export function createPairChecks(
  input: AuditInput,
  classes: readonly KeyClass[],
  findings: AuditFindings,
): PairChecks {
  const { spec, keys, intended } = input;
  // The last cylinder for which a key was wanted, and for which it was wanted and is right.
  const wantedAt = new Int32Array(keys.length).fill(-1);
  const rightAt = new Int32Array(keys.length).fill(-1);
  const classOf = new Int32Array(keys.length).fill(-1);
  classes.forEach(({ members }, at) => {
    for (const k of members) classOf[k] = at;
  });
  const byKeyway = new Map<string | undefined, Entrants>();
  const tally: Tally = { keys: 0, cuttable: 0 };
  const whole = positions(spec);
  const countDifferent = createBittingCount(input);
  let at: number;
  let toList: number;
  let cylinder: AuditCylinder;

  function entrantsOf({ keyway }: AuditCylinder): Entrants {
    let entrants = byKeyway.get(keyway);
    if (!entrants) {
      const has = classes.map((keyClass) => entersKeyway(input.enters, keyClass.keyway, keyway));
      entrants = { has, classes: classes.filter((_, n) => has[n]) };
      byKeyway.set(keyway, entrants);
    }
    return entrants;
  }

  const listInterchange = (k: number): void => {
    if (rightAt[k] !== at && toList-- > 0) findings.listInterchange(k, at);
  };

  return {
    entrantsOf,
    isWanted: (k) => wantedAt[k] === at,
    check(checked, c, { classes: entering, has }) {
      at = c;
      cylinder = checked;
      const { chambers } = cylinder;
      let [operating, issued] = [0, 0];
      for (const { index } of entering) {
        index.count(chambers, tally);
        operating += tally.keys;
        issued += tally.cuttable;
      }
      const alike = entering.length === 1 && entering[0]!.cuts === whole;
      if (operating > 0 && !alike) issued = countDifferent(chambers, c, entering);
      let missing: number[] | undefined;
      let right = 0;
      for (const k of intended[c] ?? []) {
        if (wantedAt[k] === c) continue;
        wantedAt[k] = c;
        const key = keys[k]!;
        const keyClass = classOf[k]!;
        // A free bitting is in no class.
        if (!has[keyClass] || !operates(chambers, key.bitting, classes[keyClass]!.index.reach)) {
          if (!key.control) (missing ??= []).push(k);
        } else if (!key.control || pulls(input, cylinder, key)) {
          rightAt[k] = c;
          right++;
        }
      }
      toList = operating > right ? findings.countInterchanges(operating - right) : 0;
      if (toList > 0) for (const { index } of entering) index.eachOperating(chambers, listInterchange);
      for (const k of missing ?? []) findings.add(lockOut(input, keys[k]!, cylinder));
      return { operating, issued };
    },
  };
}

/** That a core's own control bitting also operates it is found by the check of the core. */
function pulls(
  { spec }: AuditInput,
  { chambers, control }: AuditCylinder,
  { bitting, cuts }: AuditKey,
): boolean {
  return control !== undefined && worksControlLine(chambers, control, bitting, reachOf(spec, cuts));
}

function lockOut(input: AuditInput, key: AuditKey, cylinder: AuditCylinder): SystemFinding {
  const { spec } = input;
  const names = { key: key.symbol, cylinder: cylinder.id };
  if (!entersKeyway(input.enters, key.keyway, cylinder.keyway))
    // both are named, else there would be only one keyway
    return { code: 'wrong-keyway', ...names, found: key.keyway!, expected: cylinder.keyway! };
  const failing = whyNotOperates(spec, cylinder.chambers, key.bitting, key.cuts);
  const wrong = failing.find(({ cut }) => cut !== undefined) ?? failing[0];
  const symbol = (index: number): string => spec.depths[index]!.symbol;
  // A key whose bitting is marked free has no key at all: every chamber might fit.
  if (wrong === undefined) return { code: 'key-missing', symbol: key.symbol, cylinder: cylinder.id };
  if (wrong.cut === undefined)
    return { code: 'too-few-cuts', ...names, cuts: key.cuts ?? key.bitting.length, chamber: wrong.chamber };
  return {
    code: 'lock-out',
    ...names,
    chamber: wrong.chamber,
    cut: symbol(wrong.cut),
    shears: wrong.shears.map(symbol),
  };
}

/**
 * Different bittings within MACS among the keys that operate a cylinder, where blanks of several keyways or lengths
 * meet: one bitting may then stand in several classes.
 */
function createBittingCount({
  spec,
  keys,
}: AuditInput): (chambers: AuditCylinder['chambers'], c: number, entering: readonly KeyClass[]) => number {
  let of: Int32Array | undefined;
  const countedAt = new Int32Array(keys.length).fill(-1);
  const numbered = (): Int32Array => {
    const numbers = new Map<number, number>();
    return Int32Array.from(keys, ({ bitting }) => {
      const packed = packBitting(spec, bitting);
      const number = numbers.get(packed) ?? numbers.size;
      numbers.set(packed, number);
      return number;
    });
  };
  return (chambers, c, entering) => {
    of ??= numbered();
    const number = of;
    let count = 0;
    for (const { index } of entering)
      index.eachOperating(chambers, (k) => {
        if (countedAt[number[k]!] === c) return;
        countedAt[number[k]!] = c;
        if (isWithinMacs(spec, keys[k]!.bitting)) count++;
      });
    return count;
  };
}
