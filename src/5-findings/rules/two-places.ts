import { problem, type ProblemOf } from "../../0-base/problem.js";
import { clock } from "../../0-base/quantity.js";
import { overlaps } from "../../4-timeline/segments.js";
import type { Segment } from "../../4-timeline/timeline.js";
import { pierNine } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { always, type Judged, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "two-places": { atS: number; athlete: string; one: string; other: string };
  }
}

export const twoPlaces: Rule<"two-places"> = {
  id: "two-places",
  severity: always("error"),
  title: "One athlete in two places",
  why: "Nobody can move and hold, or stand in two lanes, at the same second.",
  source: "the timeline",
  bad: `${pierNine}event Sprint\n  stage 5 box jump while 1 hold stone\nplan Simple for Sprint\n  «Ada 5 while Ada hold»\n`,
  good: `${pierNine}event Sprint\n  stage 5 box jump while 1 hold stone\nplan Simple for Sprint\n  Ada 5 while Olu hold\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    return simulated ? clashes(judged, simulated.timeline.segments) : [];
  },
  message: (values) =>
    `At ${clock(values.atS)} ${values.athlete} is in two places: ${values.one} and ${values.other}. Give one of the two to somebody else.`,
};

/** One finding an athlete and line, the later one of the two: its first second. */
function clashes(judged: Judged, segments: readonly Segment[]): readonly ProblemOf<"two-places">[] {
  const spanOf = simulatedPlan(judged)?.spanOf;
  const found = new Map<string, ProblemOf<"two-places">>();
  for (const { first, second } of overlaps(segments)) {
    const later = Math.max(first.step ?? 0, second.step ?? 0);
    const key = `${first.athlete} ${later}`;
    const values = { athlete: first.athlete, atS: second.startS, one: doing(first), other: doing(second) };
    if (spanOf && !found.has(key)) found.set(key, problem("two-places", spanOf(later), values));
  }
  return [...found.values()];
}

function doing({ activity, subject }: Segment): string {
  if (activity === "hold") return `holding ${subject ?? ""}`.trim();
  return activity === "work" ? `at ${subject ?? "work"}` : "in a turn";
}
