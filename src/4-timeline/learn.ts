import { CholeskyDecomposition, Matrix } from "ml-matrix";
import type { Constants } from "../3-plan/assumptions.js";
import type { LogSpec, Seen } from "../3-plan/log.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Abilities } from "./ability.js";
import { spread } from "./draw.js";
import { Ensemble, type Unknown } from "./ensemble.js";
import { readingOf, seeReadings } from "./log-reading.js";
import { type Strength, strengthSeen } from "./strength.js";

/** A log with the plan that was tried, and how long ago that was, in days before the newest log. */
export interface TriedLog {
  readonly log: LogSpec;
  readonly plan: PlanSpec;
  readonly ageDays: number;
}

/** What some logs say of one unknown. Factors on what the test says. */
export interface Learnt {
  readonly unknown: Pick<Unknown, "kind" | "athlete" | "subject" | "hold">;
  readonly factor: number;
  /** Between these it lies with a chance of 80 %. */
  readonly low: number;
  readonly high: number;
  /** Of the variance that the test left, the share that is gone, 0…1. */
  readonly told: number;
  /** What was seen that moved it most, by how much of the move (1 is all of it). */
  readonly because: { readonly log: number; readonly seen: Seen; readonly share: number } | null;
}

export interface Learning {
  /** What moved, the surest first; what the logs say nothing about is not in it. */
  readonly learnt: readonly Learnt[];
  /** The form of the days that were logged: a factor on everything an athlete does, told apart from ability. */
  readonly forms: readonly { readonly log: number; readonly athlete: string; readonly factor: number }[];
  /** How far what was seen lies from what the days of the plans give: squared distances, and in how many directions. */
  readonly distance: number;
  readonly directions: number;
}

/** Days drawn: two things that have nothing to do with each other go together by chance to 0.022 only. */
const days = 2_000;
/** A correlation below this is chance: three of its own deviations. */
const byChance = 3 / Math.sqrt(days);
/** Less of the variance gone than this is nothing learnt. */
const leastTold = 0.02;
/** A log's weight halves in so many days: assumed. People change. */
const halfLifeDays = 45;
/** How exactly things are seen: s, reps. Assumed. */
const seenS = 1;
const seenReps = 0.5;
/** Of a normal distribution, 80 % lie within so many deviations. */
const eighty = 1.2816;

interface Sight {
  readonly log: number;
  readonly seen: Seen;
  readonly value: number;
  readonly byDay: Float64Array;
  /** Of what cannot be drawn: how exactly it was seen, and how old it is. */
  readonly variance: number;
}

/**
 * What logs say of abilities: the best linear estimate from an ensemble of days of the one simulator, one step of the ensemble
 * Kalman smoother (Evensen & van Leeuwen 2000). With C the covariances over the days, unknowns x, what is seen y, and R how exactly:
 * x̂ = C_xy (C_yy + R)⁻¹ (y − ȳ), and the variance left is C_xx − C_xy (C_yy + R)⁻¹ C_yx. It is right in the middle whatever the
 * distributions, and its 80 % are tested by simulation. The form of the day is drawn with the rest, and so told from ability.
 */
export function learn(tried: readonly TriedLog[], abilities: Abilities, constants: Constants, seed = 20_260_314): Learning {
  const plans = tried.map(({ log, plan }) =>
    log.handoverS === null ? plan : { ...plan, event: { ...plan.event, handoverS: log.handoverS } },
  );
  const ensemble = new Ensemble(plans, abilities, constants, days, seed);
  const sights = tried.flatMap((one, at) => sightsOf(one, plans[at] ?? one.plan, at, ensemble, abilities, constants));
  if (sights.length === 0) return { learnt: [], forms: [], distance: 0, directions: 0 };
  const means = sights.map(({ byDay }) => mean(byDay));
  const among = new Matrix(
    sights.map((one, row) =>
      sights.map(
        (other, column) => covariance(one.byDay, means[row] ?? 0, other.byDay, means[column] ?? 0) + (row === column ? one.variance : 0),
      ),
    ),
  );
  const solver = new CholeskyDecomposition(among);
  const surprise = sights.map(({ value }, at) => value - (means[at] ?? 0));
  const solved = solver.solve(Matrix.columnVector(surprise)).to1DArray();
  const learnt = ensemble.unknowns.flatMap((unknown) => {
    const withSeen = sights.map(({ byDay }, at) => related(unknown.drawn, byDay, means[at] ?? 0));
    return learntOf(unknown, withSeen, solved, solver, sights);
  });
  const forms = ensemble.formsDrawn.flatMap(({ plan, athlete, drawn }) => {
    const move = sights.reduce((sum, { byDay }, at) => sum + related(drawn, byDay, means[at] ?? 0) * (solved[at] ?? 0), 0);
    return move === 0 ? [] : [{ log: plan, athlete, factor: Math.exp(spread.form * move) }];
  });
  return {
    forms,
    learnt: learnt.sort((a, b) => b.told - a.told),
    distance: surprise.reduce((sum, one, at) => sum + one * (solved[at] ?? 0), 0),
    directions: sights.length,
  };
}

function learntOf(
  { kind, athlete, subject, hold, sd }: Unknown,
  withSeen: readonly number[],
  solved: readonly number[],
  solver: CholeskyDecomposition,
  sights: readonly Sight[],
): readonly Learnt[] {
  const moves = withSeen.map((one, at) => one * (solved[at] ?? 0));
  const move = moves.reduce((sum, one) => sum + one, 0);
  const gain = solver.solve(Matrix.columnVector([...withSeen])).to1DArray();
  const told = Math.min(
    1,
    withSeen.reduce((sum, one, at) => sum + one * (gain[at] ?? 0), 0),
  );
  if (told < leastTold) return [];
  const left = sd * Math.sqrt(1 - told);
  const most = moves.reduce((best, one, at) => (one * Math.sign(move) > (moves[best] ?? 0) * Math.sign(move) ? at : best), 0);
  const sight = sights[most];
  return [
    {
      unknown: { kind, athlete, subject, hold },
      factor: Math.exp(sd * move),
      low: Math.exp(sd * move - eighty * left),
      high: Math.exp(sd * move + eighty * left),
      told,
      because: sight && move !== 0 ? { log: sight.log, seen: sight.seen, share: (moves[most] ?? 0) / move } : null,
    },
  ];
}

function sightsOf(
  { log, ageDays }: TriedLog,
  plan: PlanSpec,
  at: number,
  ensemble: Ensemble,
  abilities: Abilities,
  constants: Constants,
): readonly Sight[] {
  const older = 2 ** (Math.max(0, ageDays) / halfLifeDays) - 1;
  const sight = (seen: Seen, value: number, byDay: Float64Array, exactly: number): Sight => ({
    log: at,
    seen,
    value,
    byDay,
    variance: exactly ** 2 + older * variance(byDay),
  });
  const readings = log.seen.flatMap((seen) => readingOf(seen, plan) ?? []);
  const byDays = seeReadings(readings, ensemble, at, plan);
  const read = readings.map(({ seen, value, cutS }, nth) =>
    sight(seen, value, byDays[nth] ?? new Float64Array(1), cutS === null ? seenS : seenReps),
  );
  const strong = log.seen.flatMap((seen): readonly Sight[] => {
    const strength: Strength | null =
      seen.kind === "broke" || seen.kind === "dropped" ? strengthSeen(seen, plan, abilities, constants) : null;
    return strength && (seen.kind === "broke" || seen.kind === "dropped")
      ? [sight(seen, strength.logFactor, ensemble.strength(at, seen.athlete, strength.subject, strength.hold), strength.sd)]
      : [];
  });
  return [...read, ...strong];
}

/** How an unknown, drawn with mean 0 and deviation 1, goes with what is seen; 0 where that may be chance. */
function related(drawn: Float64Array, byDay: Float64Array, middle: number): number {
  const together = covariance(drawn, mean(drawn), byDay, middle);
  const deviation = Math.sqrt(variance(byDay));
  return Math.abs(together) < byChance * deviation ? 0 : together;
}

function mean(values: Float64Array): number {
  return values.reduce((sum, one) => sum + one, 0) / values.length;
}

function variance(values: Float64Array): number {
  const middle = mean(values);
  return covariance(values, middle, values, middle);
}

function covariance(some: Float64Array, middle: number, others: Float64Array, otherMiddle: number): number {
  return some.reduce((sum, one, at) => sum + (one - middle) * ((others[at] ?? 0) - otherMiddle), 0) / (some.length - 1);
}
