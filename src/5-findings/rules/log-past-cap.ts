import { problem } from "../../0-base/problem.js";
import { clock } from "../../0-base/quantity.js";
import { pierNine } from "../examples.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "log-past-cap": { at: number; event: string; cap: number };
  }
}

const ground = `${pierNine}event Sprint\n  cap 5 min\n  stage jumps 10 box jump\nplan P for Sprint\n  Ada 5\n  Olu 5\n`;

export const logPastCap: Rule<"log-past-cap"> = {
  id: "log-past-cap",
  severity: always("warning"),
  title: "A log with a time past the cap",
  why: "At the cap the event is over: what is written down after it was not part of it.",
  source: "the event",
  bad: `${ground}log P on 2026-03-23\n  «finish 5:30»\n`,
  good: `${ground}log P on 2026-03-23\n  finish 4:30\n`,
  check: ({ line, evaluation }) => {
    if (line.kind !== "log") return [];
    const event = evaluation.named(line.plan.text)?.resolved.plan?.event;
    const capS = event?.capS ?? null;
    if (!event || capS === null) return [];
    return line.body.flatMap((one) =>
      "at" in one && typeof one.at !== "number" && one.at.amount > capS
        ? [problem("log-past-cap", one.span, { at: one.at.amount, cap: capS, event: event.name })]
        : [],
    );
  },
  message: (values) => `${clock(values.at)} is past the cap of ${values.event}, ${clock(values.cap)}. Check the time.`,
};
