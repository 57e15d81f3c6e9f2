/** What was made, with what the sheets shall say beside it: seed, deal and rules, so that it can be made again. */
import { RULE_NAMES, type Rules } from '../../src/keying/rules.ts';
import type { NewSystem, ScheduleRow } from '../../src/workbook/index.ts';
import type { Made } from './MadeSystem.tsx';
import { ruleWithLimit } from '../shared/ruleWords.ts';
import type { MakeForm } from './makeForm.ts';

/** Rules that hold while keys are made; the others compare with a list or a system that is there. */
const MAKING = RULE_NAMES.filter((name) =>
  ['macs', 'fewDepths', 'equalRun', 'stair', 'pullsOutTurned', 'grade'].includes(name),
);

/** @example rulesText(DEFAULT_RULES) → 'Neighbours within MACS; Enough different depths: at least 3; …' */
export function rulesText(rules: Rules): string {
  return MAKING.filter((name) => rules[name])
    .map((name) => ruleWithLimit(name, rules))
    .join('; ');
}

export function newSystem(made: Made, form: MakeForm, rows: readonly ScheduleRow[] = []): NewSystem {
  const places = new Map(rows.flatMap((row) => (row.location ? [[row.door, row.location] as const] : [])));
  const locations = new Map(
    made.system.cylinders.flatMap(({ id, door }) => {
      const place = door === undefined ? undefined : places.get(door);
      return place === undefined ? [] : [[id, place] as const];
    }),
  );
  const keyway = form.keyway.trim();
  const { figures } = made.capacity;
  return {
    system: made.system,
    marks: made.marks,
    seed: Number(form.seed),
    rules: rulesText(form.rules),
    ...(figures ? { deal: figures.deal.join(' ') } : {}),
    ...(keyway ? { keyway } : {}),
    ...(locations.size > 0 ? { locations } : {}),
  };
}
