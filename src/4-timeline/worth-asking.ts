import type { Constants } from "../3-plan/assumptions.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Abilities } from "./ability.js";
import { Ensemble, type Unknown } from "./ensemble.js";
import { spread } from "./draw.js";

/** A test that would narrow a plan's spread, and by how much. */
export interface Ask {
  readonly unknown: Pick<Unknown, "kind" | "athlete" | "subject" | "hold">;
  /** From the 10th to the 90th of a hundred days, as it stands and with the test; s, or reps. */
  readonly spread: number;
  readonly after: number;
}

const days = 2_000;
/** A timed test of a recovery leaves so much of it open, as a logarithm; assumed. */
const recoveryTest = 0.1;

/**
 * Which ability, tested once more, would narrow a plan's score most: the value of information of a test as exact as those before it.
 * Of the score's variance over the drawn days a test takes away c²/(1 + r), c the covariance with the unknown in its own deviations
 * and r the test's variance in them (the linear estimate of `learn`). Days on which nothing is tired enough tell nothing.
 */
export function worthAsking(plan: PlanSpec, abilities: Abilities, constants: Constants, seed = 20_260_314): readonly Ask[] {
  const ensemble = new Ensemble([plan], abilities, constants, days, seed);
  const time = plan.event.score === "time";
  const [scores = new Float64Array(1)] = ensemble.see(0, time ? null : plan.event.capS, [({ endS, reps }) => (time ? endS : reps)]);
  const middle = mean(scores);
  const variance = mean(scores.map((score) => (score - middle) ** 2));
  const sorted = scores.toSorted();
  const width = (sorted[Math.floor(0.9 * days)] ?? 0) - (sorted[Math.floor(0.1 * days)] ?? 0);
  return ensemble.unknowns
    .flatMap(({ kind, athlete, subject, hold, drawn }): readonly Ask[] => {
      const together = mean(drawn.map((one, at) => one * ((scores[at] ?? 0) - middle)));
      // A correlation that small is chance.
      if (together ** 2 < (9 * variance) / days) return [];
      const gone = together ** 2 / (1 + (kind === "recovery" ? (recoveryTest / spread.recovery) ** 2 : 1));
      return [{ unknown: { kind, athlete, subject, hold }, spread: width, after: width * Math.sqrt(Math.max(0, 1 - gone / variance)) }];
    })
    .sort((a, b) => a.after - b.after);
}

function mean(values: Float64Array): number {
  return values.reduce((sum, one) => sum + one, 0) / values.length;
}
