import { problem } from "../../0-base/problem.js";
import { lineBefore } from "../lines.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "no-target": { stage: string; rounds: boolean };
  }
}

export const noTarget: Rule<"no-target"> = {
  id: "no-target",
  severity: always("warning"),
  title: "A stage without a target in an event for time",
  why: "Work that has no end has no time: such an event is scored by reps, or the number is missing.",
  source: "the language",
  bad: "event Sprint\n  cap 5 min\n  «stage box jump»\n",
  good: "event Sprint\n  cap 5 min\n  stage 40 box jump\n",
  check: ({ line, text, evaluation }) => {
    if (line.kind !== "event" || evaluation.world.events.get(line.name.text)?.score !== "time") return [];
    // A line that cannot be read may be the score.
    if (line.body.some(({ kind }) => kind === "broken")) return [];
    const [first] = line.body;
    const score = line.body.find((inner) => inner.kind === "score");
    const edits = score ? [{ span: score.choice.span, text: "reps" }] : first ? [lineBefore(text, first.span, "score reps")] : [];
    const fix = { title: "score reps", guess: true, edits };
    const own = new Set(line.body.flatMap((inner) => (inner.kind === "stage" ? ((inner.name ?? inner.movement)?.text ?? []) : [])));
    const inherited =
      line.like && !line.body.some(({ kind }) => kind === "round") ? (evaluation.world.events.get(line.name.text)?.stages ?? []) : [];
    const handed = inherited
      .filter(({ name, target }) => target === null && !own.has(name))
      .map(({ name, rounds }) => problem("no-target", (score ?? line).span, { stage: name, rounds }, [fix]));
    const open = line.body.flatMap((inner) => {
      const isOpen = (inner.kind === "stage" && inner.count === null) || (inner.kind === "round" && inner.of === null);
      if (!isOpen) return [];
      const stage = inner.kind === "stage" ? ((inner.name ?? inner.movement)?.text ?? "") : "";
      return [problem("no-target", inner.span, { stage, rounds: inner.kind === "round" }, [fix])];
    });
    return [...open, ...handed];
  },
  message: ({ stage, rounds }) =>
    rounds
      ? "The event is for time, and nothing says how many rounds. Write round of 5, or score reps."
      : `The event is for time, and stage ${stage} has no target. Write a number of reps, or score reps.`,
};
