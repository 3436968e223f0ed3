import { problem, type ProblemOf } from "../../0-base/problem.js";
import { plain } from "../../0-base/quantity.js";
import type { Line } from "../../3-plan/ast.js";
import { dimensionOf } from "../../3-plan/values.js";
import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "size-not-whole": { size: number; least: number; most: number };
  }
}

const ground =
  "team Pier Nine\n  Ada woman\nability  Ada\n  box jump unbroken 20 reps\n  box jump cycle 2 s\nevent Sprint\n  stage 5 box jump\nplan Simple for Sprint\n";

export const sizeNotWhole: Rule<"size-not-whole"> = {
  id: "size-not-whole",
  severity: always("error"),
  title: "A number that is no whole one, or too large",
  why: "Half a rep is a no-rep.",
  source: "common practice",
  bad: `${ground}  Ada «4.5»\n  Ada 5\n`,
  good: `${ground}  Ada 5\n`,
  check: (judged) => [...metEarlier("size-not-whole")(judged), ...limitsNotWhole(judged.line)],
  message: (values) =>
    `${plain(values.size, 3)} cannot be done: write a whole number from ${values.least} to ${values.most}, or use round( ).`,
};

const mostReps = 10_000;

/** Rules about a number of reps. */
function limitsNotWhole({ body }: Line): readonly ProblemOf<"size-not-whole">[] {
  return body.flatMap((inner) =>
    (inner.kind === "rule" ? inner.parts : []).flatMap((part) => {
      const counts = "kind" in part && ["count", "number"].includes(dimensionOf(part));
      return counts && !Number.isInteger(part.amount)
        ? [problem("size-not-whole", part.span, { size: part.amount, least: 1, most: mostReps })]
        : [];
    }),
  );
}
