import type { ReserveRun, Timeline } from "../4-timeline/timeline.js";

/** A point of an athlete's reserve: what is left of it, 0…1, for the movement worked last. */
export interface ReservePoint {
  readonly atS: number;
  readonly left: number;
}

/** Points of a recovery between two sets: enough for a smooth curve. */
const pointsBetween = 8;

/** An athlete's reserve over a plan: down in each set, back between them by the model's own curve. */
export function reserveLine({ reserves, endS }: Timeline, athlete: string): readonly ReservePoint[] {
  const own = reserves.filter((run) => run.athlete === athlete);
  const latest = new Map<string, ReserveRun>();
  const points: ReservePoint[] = [{ atS: 0, left: 1 }];
  own.forEach((run, at) => {
    const before = latest.get(run.subject);
    points.push({ atS: run.startS, left: before ? leftAt(before, run.startS) : 1 }, { atS: run.endS, left: leftAt(run, run.endS) });
    latest.set(run.subject, run);
    const untilS = own[at + 1]?.startS ?? endS;
    for (let step = 1; step < pointsBetween; step += 1) {
      const atS = run.endS + ((untilS - run.endS) * step) / pointsBetween;
      points.push({ atS, left: leftAt(run, atS) });
    }
  });
  const last = own.at(-1);
  points.push({ atS: endS, left: last ? leftAt(last, endS) : 1 });
  return points;
}

function leftAt({ endS, fast, slow, fastRate, slowRate }: ReserveRun, atS: number): number {
  const restedS = Math.max(0, atS - endS);
  return Math.min(1, Math.max(0, 1 - fast * Math.exp(-fastRate * restedS) - slow * Math.exp(-slowRate * restedS)));
}
