/** Root and least of functions of one number, for fitting a model to a test. */

const mostSteps = 60;
const finest = 1e-11;

/**
 * The root of a rising function between two bounds, by false position with the Illinois step; the nearer bound where it
 * has none between them. A handful of evaluations for the smooth functions of the models.
 */
export function rootOf(rising: (x: number) => number, low: number, high: number, precision = finest): number {
  return rootBetween(rising, [low, rising(low)], [high, rising(high)], precision);
}

/** The same, where what the function is at the bounds is known. */
export function rootBetween(
  rising: (x: number) => number,
  [low, atLow]: readonly [x: number, y: number],
  [high, atHigh]: readonly [x: number, y: number],
  precision: number,
): number {
  let [a, b, fa, fb] = [low, high, atLow, atHigh];
  if (fa >= 0) return a;
  if (fb <= 0) return b;
  let x = a;
  let side = 0;
  for (let step = 0; step < mostSteps && b - a > precision * (1 + Math.abs(a)); step += 1) {
    x = (fa * b - fb * a) / (fa - fb);
    const fx = rising(x);
    if (Math.abs(fx) < precision) return x;
    if (fx > 0) {
      [b, fb] = [x, fx];
      if (side === 1) fa /= 2;
      side = 1;
    } else {
      [a, fa] = [x, fx];
      if (side === -1) fb /= 2;
      side = -1;
    }
  }
  return x;
}

/** The least of a function with one valley between two bounds, by golden section. */
export function leastOf(valley: (x: number) => number, low: number, high: number): number {
  const ratio = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [low, high];
  for (let step = 0; step < mostSteps; step += 1) {
    const left = b - ratio * (b - a);
    const right = a + ratio * (b - a);
    if (valley(left) < valley(right)) b = right;
    else a = left;
  }
  return (a + b) / 2;
}
