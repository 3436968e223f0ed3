/** The part of odex that the tests use: integrates y′ = f(x, y). Its own types do not pass strict checks. */
export class Solver {
  constructor(dimensions: number);
  absoluteTolerance: number;
  relativeTolerance: number;
  maxStepSize: number;
  solve(derivative: (x: number, y: number[]) => number[], from: number, start: number[], to: number): { y: number[] };
}
