import { problem } from "../../0-base/problem.js";
import { pierNine } from "../examples.js";
import { always, type Rule } from "../rule.js";
import { weekOf } from "../week-rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "plan-of-another": { plan: string; of: string; event: string };
  }
}

const ground = `${pierNine}event Sprint\n  stage 10 box jump\nevent Ladder\n  stage 20 box jump\nplan Quick for Sprint\n  Ada 5\n  Olu 5\nplan Rungs for Ladder\n  Ada 10\n  Olu 10\nweek One\n`;

export const planOfAnother: Rule<"plan-of-another"> = {
  id: "plan-of-another",
  severity: always("error"),
  title: "A session with the plan of another event",
  why: "What it would come to says nothing of the event that is tried.",
  source: "the plan's own line",
  bad: `${ground}  «2026-03-20 10:00  Sprint  plan Rungs»\n`,
  good: `${ground}  2026-03-20 10:00  Sprint  plan Quick\n`,
  check: (judged) => {
    const { events, plans } = judged.evaluation.world;
    return (weekOf(judged)?.sessions ?? []).flatMap(({ session: { plan, event, span } }) => {
      const of = plan === null ? undefined : plans.get(plan)?.line.event.text;
      if (plan === null || of === undefined || !events.has(of) || !events.has(event) || events.get(of) === events.get(event)) return [];
      return [problem("plan-of-another", span, { plan, of, event })];
    });
  },
  message: ({ plan, of, event }) => `${plan} is a plan for ${of}, and this session is ${event}. Name a plan for ${event}.`,
};
