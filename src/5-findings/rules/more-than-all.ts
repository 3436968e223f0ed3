import { problem } from "../../0-base/problem.js";
import type { RuleLine } from "../../3-plan/ast.js";
import type { EventSpec, StageSpec } from "../../3-plan/event.js";
import type { Team } from "../../3-plan/world.js";
import { kelpStreet } from "../examples.js";
import { eachAtLeast } from "../limits/each-at-least.js";
import { inEveryStage } from "../limits/everyone-works.js";
import { readLimit } from "../limits/limit.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "more-than-all": { wanted: number; there: number; stage: string };
  }
}

export const moreThanAll: Rule<"more-than-all"> = {
  id: "more-than-all",
  severity: always("error"),
  title: "A least share that is more than all there is",
  why: "No plan can keep it: the work is used up before everybody has done so much.",
  source: "arithmetic",
  bad: `${kelpStreet}event Sprint\n  stage 60 box jump\n  «rule each at least 20 reps»\n`,
  good: `${kelpStreet}event Sprint\n  stage 60 box jump\n  rule each at least 15 reps\n`,
  check: ({ line, evaluation: { world } }) => {
    const event = line.kind === "event" ? world.events.get(line.name.text) : undefined;
    const [first, ...others] = world.teams.values();
    if (!event || !first) return [];
    return event.rules.flatMap((rule) => {
      const found = lackIn(rule, event, first);
      const inherited = !line.body.some(({ span }) => span.from === rule.span.from && span.to === rule.span.to);
      return found && others.every((team) => lackIn(rule, event, team))
        ? [problem("more-than-all", inherited ? line.span : rule.span, found)]
        : [];
    });
  },
  message: ({ wanted, there, stage }) =>
    `For everybody this is ${wanted} in all${stage === "" ? "" : ` at ${stage}`}, and there are ${there}. Lower the number, or name the athlete it is for.`,
};

interface Lack {
  readonly wanted: number;
  readonly there: number;
  readonly stage: string;
}

/** Where a rule wants more of a team than there is, in one stage or in all; null where it does not. */
function lackIn(rule: RuleLine, { stages }: EventSpec, { athletes }: Team): Lack | null {
  const limit = readLimit(rule, [eachAtLeast, inEveryStage]);
  if (!limit || limit.who !== null) return null;
  const parts = limit.kind === inEveryStage ? stages.map((stage) => [stage]) : [stages];
  for (const part of parts) {
    const those = athletes.filter(({ category }) => part.some((stage) => stage.category === null || stage.category === category));
    const wanted = Math.max(1, limit.value) * those.length;
    const there = part.reduce((sum, stage) => sum + repsAt(stage), 0);
    const [only] = part;
    if (wanted > there) return { wanted, there, stage: limit.kind === inEveryStage ? (only?.name ?? "") : "" };
  }
  return null;
}

/** All the reps that a stage has for those who work there; Infinity where the cap ends it, or a rep counts for several of them. */
function repsAt({ target, rounds, items }: StageSpec): number {
  if (target === null || items.some(({ how }) => how !== null && (rounds || how !== "each"))) return Number.POSITIVE_INFINITY;
  return rounds ? items.reduce((sum, { count }) => sum + (count ?? Number.POSITIVE_INFINITY), 0) * target : target;
}
