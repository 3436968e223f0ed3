import { always, either, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "which-movement": { movements: readonly string[]; parts: string | null };
  }
}

const ground =
  "team Pier Nine\n  Ada woman\nability  Ada\n  swing unbroken 20 reps\n  swing cycle 2 s\n  step unbroken 20 reps\n  step cycle 2 s\nevent Shift\n  score reps\n  cap 2 min\n  round\n    5 swing\n    5 step\nplan Simple for Shift\n";

export const whichMovement: Rule<"which-movement"> = {
  id: "which-movement",
  severity: always("error"),
  title: "A turn that does not say what is done",
  why: "The round has several movements.",
  source: "the language",
  bad: `${ground}  «Ada 5»\n`,
  good: `${ground}  Ada 5 swing\n`,
  check: metEarlier("which-movement"),
  message: (values) =>
    values.parts !== null
      ? `Of which movement is ${values.parts}? Write it behind the round: round, ${values.movements[0] ?? "swing"} as ${values.parts}.`
      : `What is done here? Write the movement after the number (${either(values.movements)}), or round for the whole round.`,
};
