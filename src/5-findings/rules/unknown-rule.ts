import { problem, type ProblemOf } from "../../0-base/problem.js";
import type { Line, RuleLine } from "../../3-plan/ast.js";
import { athleteNamed, nameUnknown } from "../../3-plan/names.js";
import { limitKinds, ruleForms } from "../limits/kinds.js";
import { readLimit } from "../limits/limit.js";
import { always, type Judged, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "unknown-rule": { near: readonly string[] };
  }
}

export const unknownRule: Rule<"unknown-rule"> = {
  id: "unknown-rule",
  severity: always("error"),
  title: "A rule that Rotaline cannot check",
  why: "A rule that is not understood is not checked, and the plan may break it.",
  source: "the language",
  bad: "event Sprint\n  stage 10 box jump\n  «rule stone at most 45 s»\n",
  good: "event Sprint\n  stage 10 box jump\n  rule hold turn at most 45 s\n",
  check: (judged) =>
    rulesOf(judged).flatMap(({ line }) =>
      readLimit(line, limitKinds) ? [] : [problem("unknown-rule", line.span, { near: nearForms(line) })],
    ),
  message: (values) =>
    `This rule is not known. Near ones: ${values.near
      .map((form) => `rule ${form}`)
      .join("; ")}, where P is a share, T a time and N a number of reps.`,
};

/** The rule lines of a block that sets any. */
function rulesOf({ line }: Pick<Judged, "line">): readonly { readonly line: RuleLine }[] {
  const sets: readonly Line["kind"][] = ["event", "team", "plan"];
  return sets.includes(line.kind) ? line.body.flatMap((inner) => (inner.kind === "rule" ? [{ line: inner }] : [])) : [];
}

/** Names in rules that nobody on a team has. */
export function unknownInRules(judged: Judged): readonly ProblemOf<"unknown-name">[] {
  const { athletes } = judged.evaluation.world;
  return rulesOf(judged).flatMap(({ line }) => {
    const who = readLimit(line, limitKinds)?.who;
    return who && athleteNamed(who.text, athletes) === null ? [nameUnknown("athlete", who, athletes.keys())] : [];
  });
}

const mostNear = 4;

/** Forms that share most words with the line. */
function nearForms({ parts }: RuleLine): readonly string[] {
  const words = parts.flatMap((part) => ("kind" in part ? [] : [part.text]));
  const near = ruleForms
    .map((form) => ({ form, shared: form.split(" ").filter((word) => words.includes(word)).length }))
    .filter(({ shared }) => shared > 0)
    .sort((a, b) => b.shared - a.shared)
    .map(({ form }) => form);
  return (near.length > 0 ? near : ruleForms).slice(0, mostNear);
}
