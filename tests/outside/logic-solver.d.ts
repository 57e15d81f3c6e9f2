/** What the tests use of logic-solver, which comes without types. */
declare module 'logic-solver' {
  type Formula = string | { readonly type: string };
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
  };
  export default Logic;
}
