/** A plan in a sentence and numbers, to be read before the button is pressed, and the same after it was. */
import type { PlanDescription, PlanEffect, WritePlan } from './plan.ts';

const grouped = (n: number): string => n.toLocaleString('en-US');
const counted = (n: number, noun: string): string => `${grouped(n)} ${noun}${n === 1 ? '' : 's'}`;

/**
 * @example describePlan(plan).sentence
 *   → 'Adds the sheet Keys with 64 rows; adds 1 row to Systems; touches nothing else.'
 */
export function describePlan(plan: WritePlan): PlanDescription {
  const parts = plan.effects.map((effect) => phrase(effect, true));
  const sentence =
    plan.conflicts.length > 0
      ? `Can’t run: ${counted(plan.conflicts.length, 'thing')} in the way.`
      : parts.length === 0
        ? 'There is nothing to write.'
        : capital(`${parts.join('; ')}; touches nothing else.`);
  return {
    sentence,
    sheetsAdded: plan.effects.filter((e) => e.kind === 'sheet').length,
    cells: plan.steps.reduce(
      (sum, step) => sum + (step.kind === 'write' ? step.cells.length * step.formats.length : 0),
      0,
    ),
    effects: plan.effects,
    conflicts: plan.conflicts,
  };
}

/** 'Added the sheet Keys with 64 rows; added 1 row to Systems.' */
export function describeDone(effects: readonly PlanEffect[]): string {
  return effects.length === 0
    ? 'There was nothing to write.'
    : capital(`${effects.map((effect) => phrase(effect, false)).join('; ')}.`);
}

function phrase(effect: PlanEffect, ahead: boolean): string {
  switch (effect.kind) {
    case 'sheet':
      return `${ahead ? 'adds' : 'added'} the sheet ${effect.sheet} with ${counted(effect.rows, 'row')}`;
    case 'rows':
      return `${ahead ? 'adds' : 'added'} ${counted(effect.rows, 'row')} to ${effect.sheet}`;
    case 'cells':
      return `${ahead ? 'changes' : 'changed'} ${counted(effect.rows, 'cell')} of ${effect.sheet}`;
    case 'replace':
      return `${ahead ? 'replaces' : 'replaced'} the ${counted(effect.before, 'row')} of ${effect.sheet} by ${grouped(effect.rows)}`;
    case 'picture':
      return effect.replaces
        ? `${ahead ? 'replaces' : 'replaced'} the picture ${effect.name} on ${effect.sheet}`
        : `${ahead ? 'puts' : 'put'} the picture ${effect.name} on ${effect.sheet}`;
    case 'column':
      return `${ahead ? 'adds' : 'added'} the column ${effect.heading} to the right of ${effect.beside}, ${counted(effect.rows, 'cell')}`;
  }
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
