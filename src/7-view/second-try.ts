import { percent, plain } from "../0-base/quantity.js";
import { type SecondTry, secondTry } from "../4-timeline/second-try.js";
import { capacityUnder } from "../4-timeline/fatigue.js";
import type { SessionRun, WeekRun } from "../4-timeline/week.js";
import type { PlanSpec } from "../3-plan/plan.js";
import { planOf } from "../6-search/draft.js";
import { suggestedAfter } from "../6-search/suggest.js";
import type { AnsweredNotebook } from "./answered-block.js";
import { triedLogs } from "./learnt.js";
import { dayScore } from "./spread-words.js";

/** What a session that tries an event again would bring, by the start of its line; nothing for other sessions. */
export function secondTries({ sessions }: WeekRun, notebook: AnsweredNotebook): ReadonlyMap<SessionRun, string> {
  const {
    abilities,
    world: { constants },
  } = notebook.kept;
  const logs = triedLogs(notebook);
  return new Map(
    sessions.flatMap((one) => {
      const {
        session: { again },
        run,
        left,
      } = one;
      if (!again || !run) return [];
      return [
        [one, secondWords(secondTry(run.plan, logs, capacityUnder(left, run.plan, abilities, constants), abilities, constants))] as const,
      ];
    }),
  );
}

/** Steps of the search for a better plan: some seconds. */
const steps = 160;
/** Fewer days more than this are no reason to learn another plan. */
const worthIt = 0.03;

/** Each second try of a week, as planned and with the best plan that a short search finds, in sentences. */
export function secondTryAdvice(week: WeekRun, notebook: AnsweredNotebook): readonly string[] {
  const {
    abilities,
    world: { constants },
  } = notebook.kept;
  const logs = triedLogs(notebook);
  return week.sessions.flatMap(({ session: { again, event }, run, left }): readonly string[] => {
    if (!again || !run) return [];
    const tried = (plan: PlanSpec): SecondTry =>
      secondTry(plan, logs, capacityUnder(left, plan, abilities, constants), abilities, constants);
    const own = tried(run.plan);
    const found = bestFound(run.plan, notebook);
    const other = found && tried(found.plan);
    const better = other !== null && other.better >= own.better + worthIt;
    return [
      `The second try of ${event} with ${run.plan.name} ${secondWords(own)}.`,
      better
        ? `With other numbers (${found?.kind ?? ""}; suggest ${event} gives the text) it does on ${percent(other.better)} of days, ${dayScore(other.kind, other.middle)} on the middle one.`
        : "A short search found no plan that makes it likelier.",
    ];
  });
}

function bestFound(
  plan: PlanSpec,
  {
    kept: {
      abilities,
      world: { constants },
    },
  }: AnsweredNotebook,
): { readonly kind: string; readonly plan: PlanSpec } | null {
  const [best] = suggestedAfter(steps, plan.event, plan.team, abilities, constants, { from: [plan] });
  return best?.worth.sound ? { kind: best.kind, plan: planOf(best.draft, plan.name) } : null;
}

/** A chance and what would have to be true for the try to pay, to be read out. */
function secondWords({ kind, first, better, middle, short }: SecondTry): string {
  const unit = kind === "time" ? " s" : short > 1.5 ? " reps" : " rep";
  const than = first === null ? "the first" : dayScore(kind, first);
  const chance = `betters ${than} on ${percent(better)} of days, ${dayScore(kind, middle)} on the middle one`;
  const needed =
    short > 0
      ? `; on half of them it would with ${plain(Math.max(1, short), 0)}${unit} ${kind === "time" ? "off the plan" : "more in the plan"}`
      : "";
  return `${chance}${needed}`;
}
