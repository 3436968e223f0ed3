/** Median of a list of numbers; `share` 0.95 gives the 95th percentile. */
export function quantile(values: readonly number[], share = 0.5): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
}

/** Milliseconds of each of some runs, the first few thrown away. */
export function times(runs: number, run: (at: number) => void): readonly number[] {
  const warm = Math.min(5, runs);
  const found: number[] = [];
  for (let at = -warm; at < runs; at += 1) {
    const start = performance.now();
    run(at + warm);
    if (at >= 0) found.push(performance.now() - start);
  }
  return found;
}

/** One line of the table: a ratio to a floor or a peer of the same run, and the most it may be. */
export interface BenchRow {
  readonly name: string;
  readonly ms: number;
  readonly floorMs: number;
  readonly floor: string;
  /** Null where the row only informs. */
  readonly most: number | null;
}
