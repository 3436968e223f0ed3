import { problem } from "../../0-base/problem.js";
import { plain } from "../../0-base/quantity.js";
import { turnsOf, type Work } from "../../3-plan/plan.js";
import { kelpStreet } from "../examples.js";
import { byPublisher } from "../limit-values.js";
import { inForce, type LimitInForce } from "../limits/limit.js";
import { tempoGap, tempoGapAtMost } from "../limits/tempo-gap-at-most.js";
import { type Simulated, simulatedPlan } from "../nodes.js";
import { either, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "out-of-step": {
      also: readonly string[];
      best: readonly string[];
      bestGap: number;
      gap: number;
      who: readonly string[];
      movement: string;
      most: number;
      by: string;
      published: boolean;
    };
  }
}

/** s a rep; common practice, no source. */
const usualGapS = 0.5;
const ruleOfThumb: LimitInForce = { value: usualGapS, who: null, by: "a rule of thumb", published: false, over: [] };

export const outOfStep: Rule<"out-of-step"> = {
  id: "out-of-step",
  severity: byPublisher,
  title: "A pair in sync whose tempos are far apart",
  why: "The faster one waits at every rep, and reps that are not in step are no-reps.",
  source: "common practice; the tempos are the tested cycle times",
  bad: `${kelpStreet}event Sprint\n  stage 20 box jump in sync\nplan P for Sprint\n  «Ines + Marta 10»\n  Bram + Tariq 10\n`,
  good: `${kelpStreet}event Sprint\n  stage 20 box jump in sync\nplan P for Sprint\n  Ines + Bram 10\n  Marta + Tariq 10\n`,
  // One finding a movement, at the pair furthest apart: who else is apart stands in it.
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    const [limit = ruleOfThumb] = inForce(simulated.sources, tempoGapAtMost);
    const apart = tempoGapAtMost.measure(simulated.run, [limit], []).flatMap(({ who, value, step }) => {
      const work = turnsOf(simulated.plan.steps)
        .find(({ id }) => id === step)
        ?.works.find(({ rhythm }) => rhythm === "in sync");
      return work ? [{ pair: who.split(" + "), gap: value, step, work }] : [];
    });
    return [...new Set(apart.map(({ work }) => work.movement))].flatMap((movement) => {
      const [worst, ...others] = apart.filter(({ work }) => work.movement === movement).sort((a, b) => b.gap - a.gap);
      if (!worst) return [];
      const best = closest(worst.work, simulated);
      const also = [...new Set(others.map(({ pair, gap }) => `${either(pair, "and")} ${plain(gap)} s`))].filter(
        (words) => !words.startsWith(either(worst.pair, "and")),
      );
      return [
        problem("out-of-step", simulated.spanOf(worst.step), {
          who: worst.pair,
          movement,
          gap: worst.gap,
          most: limit.value,
          also,
          best: best.who,
          bestGap: best.gap,
          by: limit.by,
          published: limit.published,
        }),
      ];
    });
  },
  message: (values) => {
    const also = values.also.join(", ");
    const better = values.best;
    const hint = values.bestGap < values.gap ? ` The smallest gap in the team: ${either(better, "and")}, ${plain(values.bestGap)} s.` : "";
    return `${either(values.who, "and")} are ${plain(values.gap, 2)} s a rep apart at ${values.movement}, more than ${plain(values.most, 2)} s (${values.by})${also === "" ? "" : `; ${also}`}.${hint}`;
  },
};

/** The two of the team closest in tempo, among pairs that the event allows. */
function closest(work: Work, simulated: Simulated): { readonly who: readonly string[]; readonly gap: number } {
  const { team, event } = simulated.plan;
  let best: { readonly who: readonly string[]; readonly gap: number } = { who: [], gap: Number.POSITIVE_INFINITY };
  team.athletes.forEach((one, at) => {
    for (const other of team.athletes.slice(at + 1)) {
      if (event.pairs === "mixed" && one.category === other.category) continue;
      if (event.pairs === "alike" && one.category !== other.category) continue;
      const gap = tempoGap([one.name, other.name], work, simulated);
      if (gap < best.gap) best = { who: [one.name, other.name], gap };
    }
  });
  return best;
}
