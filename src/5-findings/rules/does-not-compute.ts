import { always, amount, either, list, metEarlier, type Rule, text } from "../rule.js";

const sentences: Readonly<Record<string, (values: Parameters<Rule["message"]>[0]) => string>> = {
  "too long": (values) => `This expression is longer than ${amount(values, "most")} characters. Split it with a let line.`,
  "too deep": () => "This expression has too many parts. Split it with a let line.",
  "unknown function": (values) => `There is no function “${text(values, "name")}”. There are ${either(list(values, "known"), "and")}.`,
  inputs: (values) => `“${text(values, "name")}” takes ${amount(values, "wanted")} value, not ${amount(values, "given")}.`,
  "unknown unit": (values) => `“${text(values, "name")}” is no unit known here. Write s, min, h, kg, lb, m or reps.`,
  "odd unit": (values) => `The result would be in ${text(values, "unit")}, which is no time, load, distance or number of reps.`,
  "units differ": () => "The two sides have units that do not go together. Bring both to one unit, or take the unit off.",
  depends: (values) => `“${text(values, "name")}” has no value yet: see the finding there.`,
  "not done": (values) => `“${text(values, "name")}” does not reach its targets, so that it has no time. Its own findings say why.`,
  "no cap": (values) => `Event “${text(values, "name")}” sets no cap. Write one there, or leave it out here.`,
  "cell name": (values) => `A cell of an ability table takes numbers, not “${text(values, "name")}”.`,
  "no such part": (values) => {
    const known = list(values, "known");
    const part = text(values, "part");
    const has = known.length > 0 ? `It has ${either(known.slice(0, 8), "and")}.` : "Nothing is known of it.";
    return part === "" ? `Say what of “${text(values, "name")}” is meant. ${has}` : `“${text(values, "name")}” has no “${part}”. ${has}`;
  },
};

export const doesNotCompute: Rule = {
  id: "does-not-compute",
  severity: always("error"),
  title: "An expression without a value",
  why: "A number that cannot be worked out leaves every line that uses it without an answer.",
  source: "the language",
  bad: "let margin = «3 kg + 2 s»\n",
  good: "let margin = 3 min + 2 s\n",
  check: metEarlier("does-not-compute"),
  message: (values) => sentences[text(values, "reason")]?.(values) ?? "This does not come to a number. Look for a division by zero.",
};
