import { type Habit, line } from "./habit.js";

const words: Readonly<Record<string, string>> = {
  "<": "under",
  below: "under",
  "less than": "under",
  "faster than": "under",
  ">": "over",
  above: "over",
  "more than": "over",
  "<=": "at most",
  "≤": "at most",
  ">=": "at least",
  "≥": "at least",
  "=": "is",
  "==": "is",
};

/** Lines that stand at the margin. The first that fits counts. */
export const blockHabits: readonly Habit[] = [
  {
    under: "margin",
    typed: /^(expect\s+.*?\S)\s*(<=|>=|==|<|>|≤|≥|=|\b(?:below|above|less than|more than|faster than)\b)\s*(\S.*)$/iu,
    meant: ([, left = "", sign = "", right = ""]) => line(`${left} ${words[sign.toLowerCase()] ?? "is"} ${right}`),
  },
  {
    under: "margin",
    typed: /^compare\s+(.*\S)\s+(?:and|vs\.?|with|or|&)\s+(\S.*)$/iu,
    meant: ([, before = "", last = ""]) => line(`compare ${before.replace(/\s+(?:and|vs\.?|with|or|&)\s+/giu, ", ")}, ${last}`),
  },
  { under: "margin", typed: /^(?:use|import|include)\s+([^\s"]+\.rota)$/iu, meant: ([, path = ""]) => line(`use "${path}"`) },
  { under: "margin", typed: /^plan\s+(\S[^:]*?)\s*:\s+(\S.*)$/iu, meant: ([, plan = "", event = ""]) => line(`plan ${plan} for ${event}`) },
  {
    under: "margin",
    typed: /^log\s+(?!.*\son\s)(\S.*?)\s*[:,]?\s+(\d{4}-\d\d-\d\d(?:\s+\d\d:\d\d)?)$/iu,
    meant: ([, plan = "", date = ""]) => line(`log ${plan} on ${date}`),
  },
  {
    under: "margin",
    typed: /^(team|event|plan|week)\s*:\s*(\S.*)$/iu,
    meant: ([, head = "", rest = ""]) => line(`${head.toLowerCase()} ${rest}`),
  },
];
