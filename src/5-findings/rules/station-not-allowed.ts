import { problem, type ProblemOf } from "../../0-base/problem.js";
import { categoryWord } from "../../3-plan/event.js";
import { categoryIn, type Lane, type Step, turnsOf } from "../../3-plan/plan.js";
import type { TurnRun } from "../../4-timeline/timeline.js";
import { atStations } from "../crowding.js";
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
    const { plan, spanOf, run } = simulated;
    const lanes = lanesIn(plan.steps);
    const alone = lanes.flatMap(({ station, body }): readonly ProblemOf<"station-not-allowed">[] => {
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
    const together = plan.event.stations.flatMap(({ name: station, category: whose }) => {
      const met = metAt(
        lanes.filter((lane) => lane.station === station),
        run.turns,
      );
      const category = categoryWord(whose);
      return met.map(({ step, who }) => problem("station-not-allowed", spanOf(step), { who, station, category, crowd: true }));
    });
    const told = new Set(lanes.filter(({ station }) => station !== null).flatMap(({ body }) => turnsOf(body).map(({ id }) => id)));
    const crowds = atStations(plan, run.segments).filter(({ step }) => !told.has(step));
    const elsewhere = crowds.map(({ step, who, category: whose }) => {
      const station = plan.event.stations.flatMap(({ name, category }) => (category === whose ? [name] : [])).join(" and ");
      return problem("station-not-allowed", spanOf(step), { who, station, category: categoryWord(whose), crowd: true });
    });
    return [...alone, ...together, ...elsewhere];
  },
  message: (values) =>
    values.crowd
      ? `One athlete at a time fits at ${values.station}, and ${values.who.join(" and ")} are there together. Let them follow one another.`
      : `${values.who.join(" and ")} may not use ${values.station}: it is for ${values.category}. Put the turn into another lane.`,
};

/** Turns of one lane that begin while another lane's is under way, by line: where, and who meets there. */
function metAt(lanes: readonly Lane[], turns: readonly TurnRun[]): readonly { readonly step: number; readonly who: readonly string[] }[] {
  const laneOf = new Map(lanes.flatMap((lane) => turnsOf(lane.body).map(({ id }) => [id, lane] as const)));
  const met = new Map<number, readonly string[]>();
  let last: TurnRun | null = null;
  for (const turn of turns.filter(({ step }) => laneOf.has(step)).sort((a, b) => a.startS - b.startS)) {
    if (last && turn.startS < last.endS - 1e-6 && laneOf.get(last.step) !== laneOf.get(turn.step) && !met.has(turn.step))
      met.set(turn.step, [...new Set([...last.athletes, ...turn.athletes].map(({ name }) => name))]);
    if (!last || turn.endS > last.endS) last = turn;
  }
  return [...met].map(([step, who]) => ({ step, who }));
}

function lanesIn(steps: readonly Step[]): readonly Lane[] {
  return steps.flatMap((step): readonly Lane[] => {
    if (step.kind === "lanes") return [...step.lanes, ...step.lanes.flatMap(({ body }) => lanesIn(body))];
    return step.kind === "turn" || step.kind === "rest" ? [] : lanesIn(step.body);
  });
}
