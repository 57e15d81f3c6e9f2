/** The control line of interchangeable cores in an audit: who pulls the core, who should, and the pins between. */
import type { AuditFindings } from './auditFindings.ts';
import { isLive, type AuditCylinder, type AuditInput } from './auditInput.ts';
import { controlIsIncidental, coreStack, worksControlLine, type CorePinStack } from './core.ts';
import { depthSetOf, EVERY, NONE, type DepthSet } from './depthSet.ts';
import type { KeyClass } from './keyClasses.ts';
import { bittingOf, type Bitting } from './bitting.ts';
import { carries, reachOf } from './blankReach.ts';

export interface CoreChecks {
  /** Checks one cylinder against the keys marked for it and those whose blanks enter it. */
  readonly check: (cylinder: AuditCylinder, wanted: readonly number[], entering: readonly KeyClass[]) => void;
}

export function createCoreChecks({ spec, keys }: AuditInput, findings: AuditFindings): CoreChecks {
  const stacks = new Map<DepthSet, (CorePinStack | undefined)[]>();
  const stackOf = (set: DepthSet, control: number): CorePinStack | undefined => {
    const row = stacks.get(set) ?? [];
    stacks.set(set, row);
    if (!(control in row)) row[control] = coreStack(spec, set, control);
    return row[control];
  };

  function checkPins({ id, chambers }: AuditCylinder, control: Bitting): void {
    chambers.forEach((set, i) => {
      const stack = stackOf(set, control[i]!);
      const at = { cylinder: id, chamber: i + 1 };
      if (stack?.thinBuildUp)
        findings.add({ code: 'thin-build-up', ...at, steps: stack.buildUp.steps, step: spec.step });
      if (stack?.tooTall) findings.add({ code: 'stack-too-tall', ...at });
    });
  }

  function checkPullers(
    { id, chambers }: AuditCylinder,
    control: Bitting,
    wanted: readonly number[],
    entering: readonly KeyClass[],
  ): void {
    const named = wanted.filter((k) => keys[k]!.control);
    const line = chambers.map((set, i) => (set === EVERY ? EVERY : depthSetOf([control[i]!])));
    for (const { index } of entering)
      index.eachOperating(line, (k) => {
        // Where no control key is marked, any in use with these cuts is taken to be the one; a lost one never is.
        const right = named.length > 0 ? named.includes(k) : keys[k]!.control && isLive(keys[k]!);
        if (!right) findings.add({ code: 'control-operates', key: keys[k]!.symbol, cylinder: id });
      });
    for (const k of named) {
      const { symbol, bitting, cuts } = keys[k]!;
      const reach = reachOf(spec, cuts);
      if (worksControlLine(chambers, control, bitting, reach)) continue;
      const wrong = chambers.findIndex(
        (set, i) => set !== EVERY && !(carries(reach, i) && bitting[i] === control[i]),
      );
      findings.add({ code: 'control-locked-out', key: symbol, cylinder: id, chamber: wrong + 1 });
    }
  }

  return {
    check(cylinder, wanted, entering) {
      const pinned = cylinder.chambers.some((set) => set !== EVERY && set !== NONE);
      if (!cylinder.control) {
        if (spec.core && pinned) findings.add({ code: 'core-without-control', cylinder: cylinder.id });
        for (const k of wanted)
          if (keys[k]!.control)
            findings.add({ code: 'control-missing', key: keys[k]!.symbol, cylinder: cylinder.id });
        return;
      }
      if (!pinned) return;
      const control = bittingOf(spec, cylinder.control);
      if (spec.core) checkPins(cylinder, control);
      checkPullers(cylinder, control, wanted, entering);
      if (controlIsIncidental(cylinder.chambers, control))
        findings.add({ code: 'control-is-incidental', cylinder: cylinder.id });
    },
  };
}
