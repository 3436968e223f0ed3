import type { Constants } from "../3-plan/assumptions.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Abilities } from "./ability.js";
import { type Chance, spread } from "./draw.js";
import { Ensemble, unknownKey, type Told } from "./ensemble.js";
import { learn, type TriedLog } from "./learn.js";
import { gainOf } from "./spread.js";

/** Whether a second try is likely to pay. Scores in s, or reps. */
export interface SecondTry {
  readonly kind: "time" | "reps";
  /** What is to be bettered: the logged score; null where no log says it, and the first is drawn with the second. */
  readonly first: number | null;
  /** On how many days the second is better, 0…1. */
  readonly better: number;
  readonly middle: number;
  /** By how much the middle day would have to be better for the second to win on half of the days; 0 or less where it does. */
  readonly short: number;
}

const days = 400;

/**
 * The second try on drawn days: abilities as the logs would have them, a form of the day of its own, and what the week has left
 * (`tired`, as for `runDays`). The first is the one that was logged; without a log it is drawn on the same abilities.
 */
export function secondTry(
  plan: PlanSpec,
  logs: readonly TriedLog[],
  tired: Chance["ability"] | null,
  abilities: Abilities,
  constants: Constants,
): SecondTry {
  const { score: kind, capS } = plan.event;
  const own = logs.filter((one) => one.plan.event.name === plan.event.name);
  const learnt = logs.length > 0 ? learn(logs, abilities, constants).learnt : [];
  const told = new Map(learnt.map(({ unknown, factor, told: share }) => [unknownKey(unknown), { factor, share }]));
  const ensemble = new Ensemble([plan, plan], abilities, constants, days, 77, (unknown): Told | null => {
    const known = told.get(unknownKey(unknown));
    return known
      ? { move: Math.log(known.factor) / (unknown.kind === "ability" ? spread.test : spread.recovery), left: Math.sqrt(1 - known.share) }
      : null;
  });
  const look = ({ endS, reps }: { readonly endS: number; readonly reps: number }): number => (kind === "time" ? endS : reps);
  const cutS = kind === "time" ? null : capS;
  const [second = new Float64Array(1)] = ensemble.see(1, cutS, [look], tired);
  const first = scoreIn(own.at(-1), kind, capS);
  const [drawn = new Float64Array(1)] = first === null ? ensemble.see(0, cutS, [look]) : [];
  const gains = second.map((score, at) => gainOf(kind, score, first ?? drawn[at] ?? score)).toSorted();
  const middle = second.toSorted()[Math.floor(days / 2)] ?? Number.NaN;
  return {
    kind,
    first,
    better: gains.filter((gain) => gain > 0).length / gains.length,
    middle,
    short: -(gains[Math.floor(days / 2)] ?? 0),
  };
}

/** The score that a log says; of reps, those on the board at the cap. */
function scoreIn(tried: TriedLog | undefined, kind: "time" | "reps", capS: number | null): number | null {
  for (const seen of tried?.log.seen ?? []) {
    if (kind === "time" && seen.kind === "finish") return seen.atS;
    if (kind === "reps" && seen.kind === "reps" && capS !== null && seen.atS >= capS) return seen.reps;
  }
  return null;
}
