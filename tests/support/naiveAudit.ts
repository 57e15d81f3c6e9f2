/**
 * The audit as a plain double loop straight from its definitions, to hold the fast one against: every key, every
 * cylinder, every chamber, nothing shared or remembered.
 */
import { EVERY, hasDepth } from '../../src/keying/depthSet.ts';
import { inches, type AuditCylinder, type AuditInput, type AuditKey } from '../../src/keying/index.ts';

export type Pair = string;

/** The numbers of the keys that turn each cylinder. */
export function turningKeys(input: AuditInput): number[][] {
  // every key by its number, since several rows may have one symbol
  const keys = input.keys.map((key, k) => ({ ...key, symbol: String(k) }));
  const nobody = { ...input, keys, intended: input.cylinders.map(() => []) };
  const turning = (naiveAudit(nobody)['interchange'] ?? []).map((pair) => pair.split(' '));
  return input.cylinders.map(({ id }) => turning.flatMap(([k, at]) => (at === id ? [Number(k)] : [])));
}

/** How many bittings within MACS turn each cylinder without being those of a key that turns it. */
export function incidentalCounts({ spec, keys, cylinders }: AuditInput, turning: number[][]): number[] {
  let all: number[][] = [[]];
  spec.centres.forEach(() => {
    all = all.flatMap((before) =>
      spec.depths.flatMap((_, cut) =>
        before.length === 0 || Math.abs(cut - before.at(-1)!) <= spec.macs ? [[...before, cut]] : [],
      ),
    );
  });
  return cylinders.map(({ chambers }, c) => {
    const issued = new Set(turning[c]!.map((k) => keys[k]!.bitting.join()));
    return all.filter(
      (cuts) => chambers.every((set, i) => hasDepth(set, cuts[i]!)) && !issued.has(cuts.join()),
    ).length;
  });
}

export function naiveAudit(input: AuditInput): Record<string, Pair[]> {
  const { spec, keys, cylinders, intended } = input;
  const found: Record<string, Pair[]> = {};
  const add = (code: string, ...parts: (string | number)[]): void => {
    (found[code] ??= []).push(parts.join(' '));
  };
  const enters = (key: AuditKey, cylinder: AuditCylinder): boolean =>
    !key.keyway || !cylinder.keyway || reached(key.keyway).includes(cylinder.keyway.toLowerCase());
  const reached = (keyway: string): string[] => {
    const others = Object.entries(input.enters ?? {}).filter(
      ([name]) => name.toLowerCase() === keyway.toLowerCase(),
    );
    return [keyway, ...others.flatMap(([, names]) => names)].map((name) => name.toLowerCase());
  };
  const inUse = ({ status }: AuditKey): boolean => !['free', 'void', 'retired'].includes(status ?? 'issued');
  // chamber i is cut by symbol i + 1; that symbol stands at this position from the stop
  const fromStop = (i: number): number =>
    (spec.gauge === 'shoulder') === (spec.order === 'bow-to-tip') ? i + 1 : spec.centres.length - i;
  const hasCut = (key: AuditKey, i: number): boolean => fromStop(i) <= (key.cuts ?? spec.centres.length);
  /** Chambers (from 0) that fail. */
  const failing = (key: AuditKey, cylinder: AuditCylinder): number[] =>
    cylinder.chambers.flatMap((set, i) =>
      set === EVERY || (hasCut(key, i) && hasDepth(set, key.bitting[i]!)) ? [] : [i],
    );
  const pulls = (key: AuditKey, cylinder: AuditCylinder): boolean =>
    cylinder.control !== undefined &&
    cylinder.chambers.some((set) => set !== EVERY) &&
    cylinder.chambers.every(
      (set, i) => set === EVERY || (hasCut(key, i) && key.bitting[i] === cylinder.control![i]),
    );

  cylinders.forEach((cylinder, c) => {
    const marked = (k: number): boolean => intended[c]!.includes(k);
    const markedControls = intended[c]!.filter((k) => keys[k]!.control);
    const pinned = cylinder.chambers.some((set) => set !== EVERY);
    keys.forEach((key, k) => {
      const there = key.status !== 'free' && enters(key, cylinder);
      const wrong = failing(key, cylinder);
      const turns = there && wrong.length === 0;
      const ownControl = marked(k) && key.control && (pulls(key, cylinder) || (!pinned && cylinder.control));
      if (turns && (!marked(k) || (key.control && !ownControl))) add('interchange', key.symbol, cylinder.id);
      if (marked(k) && !key.control && !turns) {
        if (!enters(key, cylinder))
          add('wrong-keyway', key.symbol, cylinder.id, key.keyway!, cylinder.keyway!);
        else if (wrong.length === 0) add('key-missing', key.symbol, cylinder.id);
        else {
          const cut = wrong.find((i) => hasCut(key, i));
          if (cut === undefined) add('too-few-cuts', key.symbol, cylinder.id, wrong[0]! + 1, key.cuts!);
          else {
            const shears = spec.depths.filter((_, d) => hasDepth(cylinder.chambers[cut]!, d));
            const own = spec.depths[key.bitting[cut]!]!.symbol;
            add('lock-out', key.symbol, cylinder.id, cut + 1, own, shears.map((d) => d.symbol).join('/'));
          }
        }
      }
      const only = wrong[0];
      if (there && !marked(k) && !key.control && wrong.length === 1 && hasCut(key, only!)) {
        const gaps = spec.depths.flatMap(({ root }, depth) =>
          hasDepth(cylinder.chambers[only!]!, depth)
            ? [Math.abs(root - spec.depths[key.bitting[only!]!]!.root)]
            : [],
        );
        const least = Math.min(...gaps);
        // 25,400 nm a thousandth of an inch
        if (least < inches(0.02))
          add('near-interchange', key.symbol, cylinder.id, only! + 1, (least / 25_400).toFixed(1));
      }
      if (there && pulls(key, cylinder)) {
        const right =
          markedControls.length > 0 ? markedControls.includes(k) : key.control === true && inUse(key);
        if (!right) add('control-operates', key.symbol, cylinder.id);
      }
      if (marked(k) && key.control) {
        if (!cylinder.control) add('control-missing', key.symbol, cylinder.id);
        else if (pinned && !pulls(key, cylinder)) {
          const at = cylinder.chambers.findIndex(
            (set, i) => set !== EVERY && !(hasCut(key, i) && key.bitting[i] === cylinder.control![i]),
          );
          add('control-locked-out', key.symbol, cylinder.id, at + 1);
        }
      }
    });
    if (spec.core && pinned && !cylinder.control) add('core-without-control', cylinder.id);
    const { symbol } = cylinder;
    // ids and symbols of the reference's own input are plain: no coding of cross-keyed doors
    if (symbol !== undefined && !keys.some((key) => inUse(key) && key.symbol === symbol))
      add('key-missing', symbol, cylinder.id);
    if (
      cylinder.control &&
      pinned &&
      cylinder.chambers.every((set, i) => hasDepth(set, cylinder.control![i]!))
    )
      add('control-is-incidental', cylinder.id);
    cylinder.chambers.forEach((set, i) => {
      if (set === EVERY) return;
      const depths = spec.depths.flatMap((_, d) => (hasDepth(set, d) ? [d] : []));
      depths.forEach((d, n) => {
        const steps = d - depths[n - 1]!;
        if (n > 0 && steps < spec.step) add('thin-master-pin', cylinder.id, i + 1, steps, spec.step);
      });
      if (!spec.core || !cylinder.control) return;
      const line = cylinder.control[i]! + spec.core.addition;
      const steps = line - depths.at(-1)!;
      if (steps < spec.step) add('thin-build-up', cylinder.id, i + 1, steps, spec.step);
      if (spec.core.total - line < spec.step) add('stack-too-tall', cylinder.id, i + 1);
    });
  });

  const metal = (key: AuditKey): string => key.bitting.filter((_, i) => hasCut(key, i)).join();
  const meet = (a: AuditKey, b: AuditKey): boolean =>
    !a.keyway || !b.keyway || reached(a.keyway).some((name) => reached(b.keyway!).includes(name));
  keys.forEach((key, k) => {
    const twin = keys.slice(0, k).find((other) => {
      if (key.status === 'free' || other.status === 'free' || !meet(key, other)) return false;
      const same =
        key.bitting.join() === other.bitting.join() ||
        ((key.cuts ?? spec.centres.length) === (other.cuts ?? spec.centres.length) &&
          metal(key) === metal(other));
      return same && (key.symbol !== other.symbol || inUse(key) !== inUse(other));
    });
    if (twin && twin.symbol === key.symbol) add('bitting-reissued', key.symbol);
    else if (twin) add('same-bitting', key.symbol, twin.symbol);
  });
  for (const { symbol, bitting, status } of keys) {
    if (status === 'free' || status === 'void' || status === 'retired') continue;
    const tooFar = bitting.some((d, i) => i > 0 && Math.abs(d - bitting[i - 1]!) > spec.macs);
    const tooAlike = bitting.length >= 5 && new Set(bitting).size < 3;
    const fourAlike = bitting.some((d, i) => i > 2 && [1, 2, 3].every((back) => bitting[i - back] === d));
    const reasons = [tooFar && 'macs', tooAlike && 'few-depths', fourAlike && 'equal-run'].filter(Boolean);
    if (reasons.length > 0) add('unusable-bitting', symbol, reasons.join('/'));
  }
  return found;
}
