/** The part of odex that the tests use: integrates y′ = f(x, y). */
declare module "odex" {
  export class Solver {
    constructor(dimensions: number);
    absoluteTolerance: number;
    relativeTolerance: number;
    maxStepSize: number;
    solve(derivative: (x: number, y: number[]) => number[], from: number, start: number[], to: number): { y: number[] };
  }
}
