/**
 * fast-check as the tests import it while mutants run: a property that asks for hundreds of cases gets a few dozen,
 * for time. What those miss, a mutant may survive.
 */
import fc from 'fast-check';

const MOST_CASES = 40;

const assert = (property, parameters = {}) =>
  fc.assert(property, { ...parameters, numRuns: Math.min(parameters.numRuns ?? MOST_CASES, MOST_CASES) });

export default { ...fc, assert };
