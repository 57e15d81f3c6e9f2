/** What the tests use of logic-solver, which comes without types. */
declare module 'logic-solver' {
  type Formula = string | { readonly type: string };
  interface Bits {
    readonly bits: readonly Formula[];
  }
  interface Solution {
    evaluate(formula: Formula): boolean;
  }
  interface Solver {
    require(...formulas: Formula[]): void;
    solve(): Solution | null;
  }
  const Logic: {
    Solver: new () => Solver;
    or(...formulas: (Formula | Formula[])[]): Formula;
    and(...formulas: (Formula | Formula[])[]): Formula;
    not(formula: Formula): Formula;
    exactlyOne(...formulas: (Formula | Formula[])[]): Formula;
    implies(a: Formula, b: Formula): Formula;
    equiv(a: Formula, b: Formula): Formula;
    /** Numbers in binary: the sum of bits, a constant, and their order. */
    sum(...formulas: (Formula | Formula[])[]): Bits;
    constantBits(n: number): Bits;
    greaterThanOrEqual(a: Bits, b: Bits): Formula;
    lessThanOrEqual(a: Bits, b: Bits): Formula;
    readonly FALSE: Formula;
  };
  export default Logic;
}
