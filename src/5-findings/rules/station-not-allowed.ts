import { type Problem, problem } from "../../0-base/problem.js";
import { categoryWord } from "../../3-plan/event.js";
import { categoryIn, type Lane, type Step, turnsOf } from "../../3-plan/plan.js";
import { kelpStreet } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { always, list, type Rule, text } from "../rule.js";

export const stationNotAllowed: Rule = {
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
    return lanesIn(plan.steps).flatMap(({ station, body }): readonly Problem[] => {
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
    values.crowd === true
      ? `One athlete at a time fits at ${text(values, "station")}, and ${list(values, "who").join(" and ")} are there together. Let them follow one another.`
      : `${list(values, "who").join(" and ")} may not use ${text(values, "station")}: it is for ${text(values, "category")}. Put the turn into another lane.`,
};

function lanesIn(steps: readonly Step[]): readonly Lane[] {
  return steps.flatMap((step): readonly Lane[] => {
    if (step.kind === "lanes") return [...step.lanes, ...step.lanes.flatMap(({ body }) => lanesIn(body))];
    return step.kind === "turn" || step.kind === "rest" ? [] : lanesIn(step.body);
  });
}
