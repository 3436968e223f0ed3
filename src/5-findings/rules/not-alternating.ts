import { problem } from "../../0-base/problem.js";
import { clock } from "../../0-base/quantity.js";
import { kelpStreet } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { outOfTurn } from "../out-of-turn.js";
import { always, either, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "not-alternating": { who: readonly string[]; atS: number; sameRound: boolean; one: boolean };
  }
}

export const notAlternating: Rule<"not-alternating"> = {
  id: "not-alternating",
  severity: always("error"),
  title: "The same twice running where they take turns",
  why: "The event has the pairs take turns: what one does out of turn does not count.",
  source: "the event",
  bad: `${kelpStreet}event Sprint\n  pairs alternate\n  stage 30 box jump\nplan P for Sprint\n  pair A  Ines + Bram\n  pair B  Marta + Tariq\n  A 5 each\n  «A 5 each»\n  B 5 each\n`,
  good: `${kelpStreet}event Sprint\n  pairs alternate\n  stage 30 box jump\nplan P for Sprint\n  pair A  Ines + Bram\n  pair B  Marta + Tariq\n  A 5 each\n  B 5 each\n  A 5 each\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    const { plan, timeline, spanOf } = simulated;
    const one = plan.event.alternate === "athletes";
    return outOfTurn(plan, timeline.turns).map(({ run: { step, startS }, who, sameRound }) =>
      problem("not-alternating", spanOf(step), { who, atS: startS, sameRound, one }),
    );
  },
  message: ({ who, atS, sameRound, one }) => {
    const takeTurns = `the event has the ${one ? "athletes" : "pairs"} take turns`;
    const [goes, works] = who.length === 1 ? ["goes", "works"] : ["go", "work"];
    return sameRound
      ? `${either(who, "and")} ${goes} on with a round at ${clock(atS)} that others began; ${takeTurns}, round by round. Who begins a round does all of it.`
      : `${either(who, "and")} ${works} again at ${clock(atS)}, straight after ${who.length === 1 ? "a turn of the same athlete" : "their own turn"}; ${takeTurns}. Give this turn to ${one ? "somebody else" : "the others"}.`;
  },
};
