import { problem, type ProblemOf } from "../../0-base/problem.js";
import { clock } from "../../0-base/quantity.js";
import { readLog } from "../../3-plan/log.js";
import { pierNine } from "../examples.js";
import { always, type Judged, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "log-contradicts": { at: number; reps: number; other: number; least: number; what: string; before: number; finish: boolean };
  }
}

const ground = `${pierNine}event Sprint\n  stage jumps 10 box jump\n  stage more 10 box jump\nplan P for Sprint\n  stage jumps\n    Ada 5\n    Olu 5\n  stage more\n    Ada 5\n    Olu 5\n`;

export const logContradicts: Rule<"log-contradicts"> = {
  id: "log-contradicts",
  severity: always("error"),
  title: "A log that contradicts itself",
  why: "Nothing can be learnt from two lines that cannot both be true.",
  source: "the event's targets",
  bad: `${ground}log P on 2026-03-23\n  jumps done 0:30\n  «reps at 0:40 8»\n`,
  good: `${ground}log P on 2026-03-23\n  jumps done 0:30\n  reps at 0:40 13\n`,
  check: contradictions,
  message: (values) => {
    const [at, reps, other] = [clock(values.at), values.reps, clock(values.other)];
    if (values.finish) return `The finish is at ${at}, but the last of all stages was done at ${other}. One of the two lines is wrong.`;
    return values.least > 0
      ? `${reps} at ${at}, but ${values.what} at ${other}: by then it is at least ${values.least}. One of the two lines is wrong.`
      : `${reps} at ${at}, but ${values.before} at ${other} already. One of the two lines is wrong.`;
  },
};

/** Two watches may differ by so much. */
const slackS = 5;

/** The board never goes back, and a stage that is done has its target on it. */
function contradictions({ line, evaluation }: Judged): readonly ProblemOf<"log-contradicts">[] {
  if (line.kind !== "log") return [];
  const event = evaluation.named(line.plan.text)?.resolved.plan?.event;
  if (!event) return [];
  const { seen } = readLog(line, evaluation.world.athletes);
  const boards = seen.flatMap((one) => (one.kind === "reps" ? [one] : []));
  const done = seen.flatMap((one) => (one.kind === "done" ? [one] : []));
  const lastS = Math.max(0, ...done.map(({ atS }) => atS));
  const allDone = event.score === "time" && event.stages.every(({ name }) => done.some(({ stage }) => stage === name));
  const none = { reps: 0, before: 0, least: 0, what: "" };
  const finishes = line.body.flatMap((one) => {
    const late = allDone && one.kind === "log finish" && one.at.amount > lastS + slackS;
    return late ? [problem("log-contradicts", one.span, { ...none, at: one.at.amount, other: lastS, finish: true })] : [];
  });
  const among = boards.flatMap((board): readonly ProblemOf<"log-contradicts">[] => {
    const before = boards.find(({ atS, reps }) => atS < board.atS && reps > board.reps);
    if (before)
      return [
        problem("log-contradicts", board.span, {
          at: board.atS,
          reps: board.reps,
          other: before.atS,
          before: before.reps,
          least: 0,
          what: "",
          finish: false,
        }),
      ];
    const over = done.filter(({ atS }) => atS <= board.atS);
    const least = event.stages.reduce((sum, { name, target }) => sum + (over.some(({ stage }) => stage === name) ? (target ?? 0) : 0), 0);
    const last = over.toSorted((a, b) => b.atS - a.atS)[0];
    return last && board.reps < least
      ? [
          problem("log-contradicts", board.span, {
            at: board.atS,
            reps: board.reps,
            other: last.atS,
            before: 0,
            least,
            what: `${last.stage} was done`,
            finish: false,
          }),
        ]
      : [];
  });
  return [...finishes, ...among];
}
