import { problem } from "../../0-base/problem.js";
import { clock } from "../../0-base/quantity.js";
import { pierNine } from "../examples.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "log-order": { at: number; before: number };
  }
}

const ground = `${pierNine}event Sprint\n  stage jumps 10 box jump\n  stage more 10 box jump\nplan P for Sprint\n  stage jumps\n    Ada 5\n    Olu 5\n  stage more\n    Ada 5\n    Olu 5\n`;

export const logOrder: Rule<"log-order"> = {
  id: "log-order",
  severity: always("error"),
  title: "A log whose times run backwards",
  why: "What is learnt from a log with wrong times is wrong.",
  source: "the language",
  bad: `${ground}log P on 2026-03-23\n  jumps done 4:10\n  «more done 3:05»\n  finish 4:10\n`,
  good: `${ground}log P on 2026-03-23\n  jumps done 3:05\n  more done 4:10\n  finish 4:10\n`,
  check: ({ line }) => {
    if (line.kind !== "log") return [];
    const times = line.body.filter((one) => one.kind === "log done" || one.kind === "log finish");
    return times.flatMap((one, at) => {
      const before = times[at - 1];
      return before && one.at.amount < before.at.amount
        ? [problem("log-order", one.span, { at: one.at.amount, before: before.at.amount })]
        : [];
    });
  },
  message: (values) => `${clock(values.at)} comes after ${clock(values.before)} in this log, but is earlier. Check both times.`,
};
