/** One thing after another for each path: a save, a rename and a removal never overtake one another. */
export class PathQueue {
  private readonly tails = new Map<string, Promise<unknown>>();

  /** Runs a job when all that was asked of these paths before is over. */
  run<T>(paths: readonly string[], job: () => Promise<T>): Promise<T> {
    const before = paths.map((path) => this.tails.get(path));
    const done = Promise.allSettled(before).then(job);
    for (const path of paths) this.tails.set(path, done);
    const clear = (): void => {
      for (const path of paths) if (this.tails.get(path) === done) this.tails.delete(path);
    };
    done.then(clear, clear);
    return done;
  }

  /** Whether something is under way for a path. */
  busy(path: string): boolean {
    return this.tails.has(path);
  }
}
