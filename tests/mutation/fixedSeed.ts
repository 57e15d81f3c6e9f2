import fc from 'fast-check';

/**
 * One seed for every property while mutants run, because a mutant's fate must not depend on the day's luck; fewer
 * cases, and the first failure as it comes, for time.
 */
fc.configureGlobal({ seed: 20260101, numRuns: 40, endOnFailure: true });
