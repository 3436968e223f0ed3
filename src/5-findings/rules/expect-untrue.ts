import { problem } from "../../0-base/problem.js";
import { judgeExpectation } from "../../4-timeline/expectation.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "expect-untrue": { comparison: string; right: string; left: string };
  }
}

export const expectUntrue: Rule<"expect-untrue"> = {
  id: "expect-untrue",
  severity: always("error"),
  title: "An expectation that is not met",
  why: "You said you count on it.",
  source: "the coach",
  bad: "let pace = 40 s\n«expect pace under 30 s»\n",
  good: "let pace = 40 s\nexpect pace under 50 s\n",
  check: (judged) => {
    if (judged.line.kind !== "expect") return [];
    const judgement = judgeExpectation(judged.line, judged.evaluation);
    if (judgement.kind !== "judged" || judgement.holds) return [];
    return [
      problem("expect-untrue", judged.line.span, { left: judgement.left, right: judgement.right, comparison: judged.line.comparison }),
    ];
  },
  message: (values) => `Expected ${values.comparison} ${values.right}, but it is ${values.left}.`,
};
