import { pierNine } from "../examples.js";
import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "say-how": { movement: string; count: number; inRound: boolean };
  }
}

export const sayHow: Rule<"say-how"> = {
  id: "say-how",
  severity: always("error"),
  title: "A bare number for two athletes",
  why: "Ten each is twice the work of ten in all, and on the floor nobody can ask.",
  source: "the language",
  bad: `${pierNine}event Sprint\n  stage 20 box jump\nplan Simple for Sprint\n  Ada + Olu «10»\n`,
  good: `${pierNine}event Sprint\n  stage 20 box jump\nplan Simple for Sprint\n  Ada + Olu 10 each\n`,
  check: metEarlier("say-how"),
  message: (values) => {
    if (values.inRound)
      return `Two athletes do this round, but the event does not say how they do the ${values.movement}. Write each, in sync or together there; each is assumed.`;
    const count = values.count;
    return count > 0
      ? `${count} each or ${count} in all? Write each or shared; each is assumed.`
      : "Each of the two, or both in all? Write each or shared; each is assumed.";
  },
};
