import { problem } from "../../0-base/problem.js";
import { clock } from "../../0-base/quantity.js";
import { kelpStreet } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { type OutOfTurn, outOfTurn } from "../out-of-turn.js";
import { always, either, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "not-alternating": Pick<OutOfTurn, "who" | "how"> & { atS: number; one: boolean };
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
    return outOfTurn(plan, timeline.turns).map(({ run: { step, startS }, ...turn }) =>
      problem("not-alternating", spanOf(step), { ...turn, atS: startS, one }),
    );
  },
  message: ({ who, atS, how, one }) => {
    const takeTurns = `the event has the ${one ? "athletes" : "pairs"} take turns`;
    const [goes, works, does] = who.length === 1 ? ["goes", "works", "does"] : ["go", "work", "do"];
    switch (how) {
      case "several rounds":
        return `${either(who, "and")} ${does} several rounds running from ${clock(atS)}; ${takeTurns}. Write one round here, and the next for ${one ? "somebody else" : "the others"}.`;
      case "beside":
        return `${either(who, "and")} ${works} at ${clock(atS)} while others are at work; ${takeTurns}. Let them follow one another; where more may work at once, “working at most 2${one ? "" : " pairs"}” under the event says so.`;
      case "begun round":
        return `${either(who, "and")} ${goes} on with a round at ${clock(atS)} that others began; ${takeTurns}, round by round. Who begins a round does all of it.`;
      case "again":
        return `${either(who, "and")} ${works} again at ${clock(atS)}, straight after ${who.length === 1 ? "a turn of the same athlete" : "their own turn"}; ${takeTurns}. Give this turn to ${one ? "somebody else" : "the others"}.`;
    }
  },
};
