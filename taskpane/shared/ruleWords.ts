import type { RuleName, Rules } from '../../src/keying/rules.ts';
import { ruleTitle } from '../../src/keying/wording.ts';

/** A rule with its limit, where it has one. @example ruleWithLimit('equalRun', rules) → 'No long run of equal cuts: at most 3' */
export function ruleWithLimit(name: RuleName, rules: Rules): string {
  switch (name) {
    case 'fewDepths':
      return `${ruleTitle(name)}: at least ${rules.leastDepths}`;
    case 'equalRun':
      return `${ruleTitle(name)}: at most ${rules.mostEqualRun}`;
    case 'grade':
      return `${ruleTitle(name)}: ${rules.grade}`;
    default:
      return ruleTitle(name);
  }
}
