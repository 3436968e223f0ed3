import { percent, plain } from "../0-base/quantity.js";
import { type SecondTry, secondTry } from "../4-timeline/second-try.js";
import { capacityUnder } from "../4-timeline/fatigue.js";
import type { SessionRun, WeekRun } from "../4-timeline/week.js";
import type { AnsweredNotebook } from "./answered-block.js";
import { triedLogs } from "./learnt.js";
import { dayScore } from "./spread-words.js";

/** What a session that tries an event again would bring, by the start of its line; nothing for other sessions. */
export function secondTries({ sessions }: WeekRun, notebook: AnsweredNotebook): ReadonlyMap<SessionRun, string> {
  const { abilities, world: { constants } } = notebook.kept;
  const logs = triedLogs(notebook);
  return new Map(sessions.flatMap((one) => {
    const { session: { again }, run, left } = one;
    if (!again || !run) return [];
    return [[one, secondWords(secondTry(run.plan, logs, capacityUnder(left, run.plan, abilities, constants), abilities, constants))] as const];
  }));
}

/** A chance and what would have to be true for the try to pay, to be read out. */
function secondWords({ kind, first, better, middle, short }: SecondTry): string {
  const unit = kind === "time" ? " s" : short > 1.5 ? " reps" : " rep";
  const than = first === null ? "the first" : dayScore(kind, first);
  const chance = `betters ${than} on ${percent(better)} of days, ${dayScore(kind, middle)} on the middle one`;
  const needed = short > 0 ? `; on half of them it would with ${plain(Math.max(1, short), 0)}${unit} ${kind === "time" ? "off the plan" : "more in the plan"}` : "";
  return `${chance}${needed}`;
}
