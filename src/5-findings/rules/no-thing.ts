import { type Fix, problem, type ProblemOf } from "../../0-base/problem.js";
import type { EquipmentLine, EventLine, Line } from "../../3-plan/ast.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "no-thing": { words: string };
  }
}

export const noThing: Rule<"no-thing"> = {
  id: "no-thing",
  severity: always("error"),
  title: "What people do, read as a thing",
  why: "“one …” is a thing that there is one of: who works and who holds would be asked of nobody.",
  source: "the language",
  bad: "event Sprint\n  stage 40 box jump\n  «one athlete holds the stone»\n",
  good: "event Sprint\n  stage 40 box jump while 1 hold stone\n  one box for box jump\n",
  check: ({ line, text }) => {
    if (line.kind !== "event") return [];
    return line.body.flatMap((inner): readonly ProblemOf<"no-thing">[] => {
      if (inner.kind !== "equipment" || !people.test(text.slice(inner.name.span.from, inner.name.span.to))) return [];
      return [problem("no-thing", inner.span, { words: inner.name.text }, fixesFor(inner, line, text))];
    });
  },
  message: ({ words }) =>
    `“one ${words}” is read as a thing that there is one of. Who holds stands behind a stage's work, while 1 hold stone; who works has a line, working at most 1.`,
};

/** Whoever is spoken of, and what people do; a name in quotes is a name. */
const people =
  /^[^"]*\b(?:works?|working|holds?|holding|rests?|resting|athletes?|partners?|persons?|people|wom[ae]n|m[ae]n|members?|teammates?|each|while)\b/iu;

function fixesFor(inner: EquipmentLine, { body }: EventLine, text: string): readonly Fix[] {
  const words = inner.name.text;
  const [, thing] = /\bhold(?:s|ing)?\s+(?:the\s+|an?\s+)?(?!while\b)(.+?)(?:\s+while\b.*)?$/iu.exec(words) ?? [];
  const [stage, another] = body.filter((one: Line) => one.kind === "stage");
  if (thing !== undefined && stage && !another && !/\bwhile\b/u.test(text.slice(stage.span.from, stage.span.to))) {
    const held = ` while 1 hold ${thing}`;
    const away = { from: text.lastIndexOf("\n", inner.span.from), to: inner.span.to };
    const edits = [
      { span: { from: stage.span.to, to: stage.span.to }, text: held },
      { span: away, text: "" },
    ];
    return [{ title: `write${held} behind the stage's work`, guess: true, edits }];
  }
  const both = /\bwoman\b.*\bman\b|\bman\b.*\bwoman\b/iu.test(words);
  const works = /\bwork(?:s|ing)?\b/iu.test(words) && thing === undefined;
  const most = `working at most ${both ? 2 : 1}`;
  return works ? [{ title: `write ${most}`, guess: true, edits: [{ span: inner.span, text: most }] }] : [];
}
