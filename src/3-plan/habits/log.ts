import { clock } from "../../0-base/quantity.js";
import { guess, type Habit, inSeconds, line, name, numberOf, numeral, time } from "./habit.js";

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
  {
    under: "log",
    typed: /^(?:rpe|effort|feeling)\s*:?\s+(\d+(?:\.\d)?)(?:\s*(?:\/|of|out\s+of)\s*10)?$/iu,
    meant: ([, effort = ""]) => line(`felt ${effort}`),
  },
  { under: "log", typed: /^felt\s*:?\s+(\d+(?:\.\d)?)\s*(?:\/|of|out\s+of)\s*10$/iu, meant: ([, effort = ""]) => line(`felt ${effort}`) },
  {
    under: "log",
    typed: /^(?:reps\s+)?(\d+)(?:\s+reps)?\s+at\s+(\d+:\d\d)$/iu,
    meant: ([, reps = "", at = ""]) => line(`reps at ${at} ${reps}`),
  },
  {
    under: "log",
    typed: /^at\s+(\d+:\d\d)\s*:?\s+(\d+)(?:\s+reps)?$/iu,
    meant: ([, at = "", reps = ""]) => line(`reps at ${at} ${reps}`),
  },
  {
    under: "log",
    typed: /^finish(?:ed)?\s*:?\s+(?:in\s+|at\s+)?(\d+)\s*(?:s|sec(?:onds?)?)$/iu,
    meant: ([, seconds = ""]) => line(`finish ${clock(Number(seconds))}`),
  },
  {
    under: "log",
    typed: new RegExp(String.raw`^handovers?\s*:?\s+(?:of\s+|took\s+|~\s*)?(?!about)(${time})$`, "iu"),
    meant: ([, lasts = ""]) => line(`handover about ${inSeconds(lasts)}`),
  },
  {
    under: "log",
    typed: /^(?!(?:finish|felt|note|reps|handover|cue|at)\b)(\p{L}[\p{L}\s-]*?)\s*:?\s+(?:in\s+|at\s+)?(\d+:\d\d)$/iu,
    meant: ([all = "", stage = "", at = ""]) => (/\s(?:done|dropped|took|lasted)\b/iu.test(all) ? [] : guess(line(`${stage} done ${at}`))),
  },
];
