// What is used here of logic-solver 2.0.1, which ships no types.
declare module "logic-solver" {
  export type Formula = string | { readonly formula: never };

  interface Solution {
    getMap(): Readonly<Record<string, boolean>>;
  }

  class Solver {
    require(...formulas: readonly Formula[]): void;
    forbid(...formulas: readonly Formula[]): void;
    solve(): Solution | null;
    solveAssuming(formula: Formula): Solution | null;
  }

  const Logic: {
    readonly Solver: typeof Solver;
    readonly TRUE: Formula;
    readonly FALSE: Formula;
    not(f: Formula): Formula;
    or(...f: readonly Formula[]): Formula;
    and(...f: readonly Formula[]): Formula;
    xor(...f: readonly Formula[]): Formula;
    equiv(a: Formula, b: Formula): Formula;
    implies(a: Formula, b: Formula): Formula;
    exactlyOne(...f: readonly Formula[]): Formula;
  };
  // biome-ignore lint/style/noDefaultExport: the package is CommonJS, whose one export is the default.
  export default Logic;
}
