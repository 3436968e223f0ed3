import { type Habit, line, name, numberOf, numeral } from "./habit.js";

/** What happened. The first that fits counts. */
export const logHabits: readonly Habit[] = [
  {
    under: "log",
    typed: /^(?:(?:final\s+)?time|finished|done|end(?:ed)?|total)\s*:?\s+(?:in\s+|at\s+)?(\d+:\d\d(?::\d\d)?)$/iu,
    meant: ([, at = ""]) => line(`finish ${at}`),
  },
  {
    under: "log",
    typed: /^finish\s*:?\s+(?:in\s+|at\s+)?(\d+:\d\d(?::\d\d)?)((?:\.\d+)?)$/iu,
    meant: ([all = "", at = ""]) => (all === `finish ${at}` ? [] : line(`finish ${at}`)),
  },
  {
    under: "log",
    typed: /^(\p{L}.*?)\s+done\s+(?:at|by|in|after)\s+(\d+:\d\d)$/iu,
    meant: ([, stage = "", at = ""]) => line(`${stage} done ${at}`),
  },
  {
    under: "log",
    typed: new RegExp(String.raw`^(${name})\s+dropped(?:\s+(?!the\s+hold\s)\p{L}.*?)?\s+(?:at\s+)?(\d+:\d\d)$`, "iu"),
    meant: ([all = "", who = "", at = ""]) => (/ dropped the hold at /.test(all) ? [] : line(`${who} dropped the hold at ${at}`)),
  },
  {
    under: "log",
    typed: new RegExp(String.raw`^(${name})\s+(${numeral}|\d+)\s+no-?\s?reps?$`, "iu"),
    meant: ([, who = "", many = ""]) => line(`${who} no-rep ${numberOf(many)}`),
  },
  { under: "log", typed: /^felt\s*:?\s+(\d+(?:\.\d)?)\s*(?:\/|of|out\s+of)\s*10$/iu, meant: ([, effort = ""]) => line(`felt ${effort}`) },
  {
    under: "log",
    typed: /^(?:reps\s+)?(\d+)(?:\s+reps)?\s+at\s+(\d+:\d\d)$/iu,
    meant: ([, reps = "", at = ""]) => line(`reps at ${at} ${reps}`),
  },
];
