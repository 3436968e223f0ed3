import type { ProblemOf } from "../../0-base/problem.js";
import { counted } from "../../0-base/quantity.js";
import { judgeExpectation } from "../../4-timeline/expectation.js";
import { always, either, type Judged, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "does-not-compute":
      | { reason: "too long"; most: number }
      | { reason: "too deep" | "units differ" | "no number" }
      | { reason: "unknown function"; name: string; known: readonly string[] }
      | { reason: "inputs"; name: string; wanted: number; given: number }
      | { reason: "unknown unit" | "depends" | "not done" | "no cap" | "cell name"; name: string }
      | { reason: "odd unit"; unit: string }
      | { reason: "no such part"; name: string; part: string; known: readonly string[] };
  }
}

function sentence(values: ProblemOf<"does-not-compute">["values"]): string {
  switch (values.reason) {
    case "too long":
      return `This expression is longer than ${values.most} characters. Split it with a let line.`;
    case "too deep":
      return "This expression has too many parts. Split it with a let line.";
    case "units differ":
      return "The two sides have units that do not go together. Bring both to one unit, or take the unit off.";
    case "no number":
      return "This does not come to a number. Look for a division by zero.";
    case "unknown function":
      return `There is no function “${values.name}”. There are ${either(values.known, "and")}.`;
    case "inputs":
      return `“${values.name}” takes ${counted(values.wanted, "value")}, not ${values.given}.`;
    case "unknown unit":
      return `“${values.name}” is no unit known here. Write s, min, h, kg, lb, m or reps.`;
    case "odd unit":
      return `The result would be in ${values.unit}, which is no time, load, distance or number of reps.`;
    case "depends":
      return `“${values.name}” has no value yet: see the finding there.`;
    case "not done":
      return `“${values.name}” does not reach its targets, so that it has no time. Its own findings say why.`;
    case "no cap":
      return `Event “${values.name}” sets no cap. Write one there, or leave it out here.`;
    case "cell name":
      return `A cell of an ability table takes numbers, not “${values.name}”.`;
    case "no such part": {
      const { name, part, known } = values;
      const has = known.length > 0 ? `It has ${either(known.slice(0, 8), "and")}.` : "Nothing is known of it.";
      return part === "" ? `Say what of “${name}” is meant. ${has}` : `“${name}” has no “${part}”. ${has}`;
    }
  }
}

export const doesNotCompute: Rule<"does-not-compute"> = {
  id: "does-not-compute",
  severity: always("error"),
  title: "An expression without a value",
  why: "A number that cannot be worked out leaves every line that uses it without an answer.",
  source: "the language",
  bad: "let margin = «3 kg + 2 s»\n",
  good: "let margin = 3 min + 2 s\n",
  check: (judged) => [...metEarlier("does-not-compute")(judged), ...unlikeSides(judged)],
  message: sentence,
};

/** An expectation whose sides cannot be compared. */
function unlikeSides({ line, evaluation }: Judged): readonly ProblemOf<"does-not-compute">[] {
  const judgement = line.kind === "expect" ? judgeExpectation(line, evaluation) : null;
  if (judgement?.kind !== "failed" || judgement.problem.rule !== "does-not-compute") return [];
  return judgement.problem.values.reason === "units differ" && judgement.problem.span === line.span ? [judgement.problem] : [];
}
