import { clock, counted, percent, plain } from "../0-base/quantity.js";
import { lineAt, lineStarts } from "../1-text/document.js";
import type { ExpectLine } from "../3-plan/ast.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { PlanResult } from "../4-timeline/kept.js";
import { compares } from "../4-timeline/expectation.js";
import { chanceToBeat, type Days, spreadOf } from "../4-timeline/spread.js";
import { type Answer, shownAs } from "./answer.js";
import { worstAt } from "./plan-answers.js";
import type { ReportedBlock } from "./reported.js";

/** The score of one day. */
export function dayScore(kind: Days["kind"], value: number): string {
  return kind === "reps" ? plain(value) : Number.isFinite(value) ? clock(value) : "not done";
}

/** Of days, 0…1: where fewer are done inside the cap, that is said first. */
const seldomDone = 0.4;

/** How a plan's score spreads, in a phrase: the middle day, then the two numbers between which eight days of ten lie. */
export function spreadWords(days: Days): string {
  const { p10, p50, p90, finishes } = spreadOf(days);
  // A time past the cap on most days is no score.
  if (days.kind === "time" && days.capS !== null && finishes < seldomDone && Number.isFinite(p50)) {
    const chance = finishes < 0.005 ? "not done inside the cap on any day" : `done inside the cap on ${percent(finishes)} of days`;
    return `${chance} · ${dayScore(days.kind, p50)} on the middle day without it`;
  }
  const middle = `${days.kind === "reps" ? counted(p50, "rep") : dayScore(days.kind, p50)} on the middle day`;
  if (!Number.isFinite(p10)) return finishes > 0 ? `${middle}; ${percent(finishes)} of days finish` : "not done on any day";
  const past = Number.isFinite(p90)
    ? `${dayScore(days.kind, p10)}–${dayScore(days.kind, p90)} on 8 days of 10`
    : `${dayScore(days.kind, p10)} on a good day`;
  return shownAs(middle, past, finishes < 0.995 ? `${percent(finishes)} of days finish` : null);
}

/** Chances less than this are not worth a word beside a line. */
const worthSaying = 0.05;

/** The days of a block's plan, and of a plan by its name; null where they are not drawn. */
export interface DrawnDays {
  readonly of: (plan: PlanResult) => Days | null;
  readonly named: (plan: string) => Days | null;
}

/** A block's answers with what drawn days add. */
export function answersWithDays({ block, answers, plan }: ReportedBlock, drawn: DrawnDays): readonly Answer[] {
  const { line } = block.read;
  if (line.kind === "compare")
    return withBeats(
      answers,
      line.plans.map(({ text }) => text),
      drawn,
    );
  if (line.kind === "expect") return withShare(answers, line, drawn);
  const spec = plan?.resolved.plan;
  const days = plan && drawn.of(plan);
  return spec && days ? withChances(answers, spec, days, block.text) : answers;
}

/** The spread at the plan, the chance of a miss or a drop at each turn. */
function withChances(answers: readonly Answer[], plan: PlanSpec, days: Days, text: string): readonly Answer[] {
  const starts = lineStarts(text);
  const said = new Map<number, readonly string[]>();
  let [worst, most] = [-1, 0];
  plan.nodes.forEach(({ span }, step) => {
    const chances = (
      [
        ["miss", days.missed.get(step)],
        ["drop", days.dropped.get(step)],
      ] as const
    ).toSorted(([, a], [, b]) => (b ?? 0) - (a ?? 0));
    const words = chances.flatMap(([what, count]) =>
      (count ?? 0) / days.scores.length >= worthSaying ? [`${what} ${percent((count ?? 0) / days.scores.length)}`] : [],
    );
    if (words.length > 0) said.set(lineAt(starts, span.from), words);
    const count = Math.max(...chances.map(([, days]) => days ?? 0));
    if (words.length > 0 && count > most) [worst, most] = [lineAt(starts, span.from), count];
  });
  const planLine = lineAt(starts, plan.nodes[0]?.span.from ?? 0);
  return answers.map((answer) => {
    if (answer.line === planLine) return { ...answer, shown: shownAs(spreadWords(days), answer.shown) };
    const chances = said.get(answer.line);
    const told = chances ? withChance(answer, chances) : answer;
    return answer.line === worst ? worstAt(told, "chance") : told;
  });
}

/** A turn's answer with what its days say, in place of what the run without chance says. */
function withChance(answer: Answer, chances: readonly string[]): Answer {
  const [first = "", ...rest] = answer.shown.split(" · ");
  const shown = shownAs(first, ...chances, ...rest.filter((part) => part !== "miss" && part !== "drop"));
  const { row } = answer;
  if (!row) return { ...answer, shown };
  return {
    ...answer,
    shown,
    row: { ...row, cells: [...row.cells.filter(({ column }) => column !== "chance"), { column: "chance", text: chances[0] ?? "" }] },
  };
}

/** How often each plan of a `compare` line beats the next, on the same days, and each one's middle day. */
function withBeats(answers: readonly Answer[], names: readonly string[], { named }: DrawnDays): readonly Answer[] {
  const beats = names.slice(1).flatMap((name, at): readonly string[] => {
    const before = names[at] ?? "";
    const [one, other] = [named(before), named(name)];
    return one && other && one.kind === other.kind ? [`${before} beats ${name} on ${percent(chanceToBeat(one, other))} of days`] : [];
  });
  const middles = names.flatMap((name): readonly string[] => {
    const days = named(name);
    return days ? [`${name} ${dayScore(days.kind, spreadOf(days).p50)}`] : [];
  });
  const scores = middles.length === names.length ? `${middles.join(", ")} on the middle day` : null;
  return answers.map((answer) => ({ ...answer, shown: shownAs(...beats, scores ?? answer.shown) }));
}

/** On how many days an expectation of a plan's own score is met. */
function withShare(answers: readonly Answer[], { left, comparison }: ExpectLine, { named }: DrawnDays): readonly Answer[] {
  if (left.kind !== "reference" || left.path.length !== 2) return answers;
  const [name = "", part] = left.path;
  const days = part === "time" || part === "reps" ? named(name) : null;
  if (!days || days.kind !== part) return answers;
  return answers.map((answer) => {
    const wanted = answer.values.right;
    if (wanted === undefined) return answer;
    const met = days.scores.reduce((count, score) => count + (compares(score, comparison, wanted) ? 1 : 0), 0);
    return { ...answer, shown: shownAs(answer.shown, `on ${percent(met / days.scores.length)} of days`) };
  });
}
