import { problem, type ProblemOf } from "../../0-base/problem.js";
import { categoryWord } from "../../3-plan/event.js";
import { categoryIn, type Lane, type Step, turnsOf } from "../../3-plan/plan.js";
import { kelpStreet } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "station-not-allowed": { station: string; who: readonly string[]; category: string; crowd: boolean };
  }
}

export const stationNotAllowed: Rule<"station-not-allowed"> = {
  id: "station-not-allowed",
  severity: always("error"),
  title: "Work at a station that is not theirs",
  why: "Reps at another category's station do not count, and one athlete fits at a station.",
  source: "the event",
  bad: `${kelpStreet}event Drill\n  score reps\n  cap 30 s\n  station low for women\n  station high for men\n  stage box jump\nplan P for Drill\n  lane one on low\n    Ines 5\n    «Bram 5»\n  lane two on high\n    Tariq 5\n`,
  good: `${kelpStreet}event Drill\n  score reps\n  cap 30 s\n  station low for women\n  station high for men\n  stage box jump\nplan P for Drill\n  lane one on low\n    Ines 5\n    Marta 4\n  lane two on high\n    Tariq 4\n    Bram 4\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    const { plan, spanOf } = simulated;
    return lanesIn(plan.steps).flatMap(({ station, body }): readonly ProblemOf<"station-not-allowed">[] => {
      const place = plan.event.stations.find(({ name }) => name === station);
      if (!place) return [];
      return turnsOf(body).flatMap((turn) => {
        const foreign = turn.who.filter((name) => categoryIn(plan.team, name) !== place.category);
        const category = categoryWord(place.category);
        if (foreign.length > 0)
          return [problem("station-not-allowed", spanOf(turn.id), { who: foreign, station: place.name, category, crowd: false })];
        return turn.who.length > 1
          ? [problem("station-not-allowed", spanOf(turn.id), { who: turn.who, station: place.name, category, crowd: true })]
          : [];
      });
    });
  },
  message: (values) =>
    values.crowd
      ? `One athlete at a time fits at ${values.station}, and ${values.who.join(" and ")} are there together. Let them follow one another.`
      : `${values.who.join(" and ")} may not use ${values.station}: it is for ${values.category}. Put the turn into another lane.`,
};

function lanesIn(steps: readonly Step[]): readonly Lane[] {
  return steps.flatMap((step): readonly Lane[] => {
    if (step.kind === "lanes") return [...step.lanes, ...step.lanes.flatMap(({ body }) => lanesIn(body))];
    return step.kind === "turn" || step.kind === "rest" ? [] : lanesIn(step.body);
  });
}
