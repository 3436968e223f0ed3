import { type Habit, line, numberOf, numeral } from "./habit.js";

const twoDigits = (text: string): string => text.padStart(2, "0");

/** `6pm`, `6:30 pm`, `18.00`, `18h` as the language writes an hour; null for none of them. */
function hourOf(text: string): string | null {
  const [, hour = "", minutes = "00", half = ""] = /^(\d{1,2})(?:\s*[:.h](\d\d)?)?\s*([ap]m)?$/iu.exec(text) ?? [];
  if (hour === "" || Number(hour) > 24) return null;
  const shift = /p/i.test(half) && Number(hour) < 12 ? 12 : /a/i.test(half) && hour === "12" ? -12 : 0;
  return `${twoDigits(String(Number(hour) + shift))}:${minutes === "" ? "00" : minutes}`;
}

/** Days, hours and bounds of a week. The first that fits counts. */
export const weekHabits: readonly Habit[] = [
  {
    under: "week",
    typed: /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(\s.*|)$/u,
    meant: ([all = "", year = "", month = "", day = "", rest = ""]) => {
      const date = `${year}-${twoDigits(month)}-${twoDigits(day)}`;
      return all.startsWith(date) ? dayMeant(date, rest.trim()) : line(`${date}${rest}`);
    },
  },
  {
    under: "week",
    typed: new RegExp(
      String.raw`^(?:(?:only|max(?:imum)?|at\s+most)\s+)?(${numeral}|\d+)\s+(events?|tries|tests?)\s+(?:a|per|each)\s+day$`,
      "iu",
    ),
    meant: ([all = "", many = ""]) => (/^at most \d+ events? a day$/.test(all) ? [] : line(`at most ${numberOf(many)} event a day`)),
  },
  { under: "week", typed: /^(?:deadline|due\s+(?:by|on)|submit\s+by)\s*:?\s+(\d.*)$/iu, meant: ([, when = ""]) => line(`due ${when}`) },
  {
    under: "week",
    typed: /^due\s+(\d{4}-\d\d-\d\d)\s+(?:at\s+)?(\d{1,2}(?:[:.h]\d\d)?\s*(?:[ap]m|h)|\d{1,2}|\d{1,2}[.h]\d\d)$/iu,
    meant: ([, date = "", at = ""]) => {
      const hour = hourOf(at);
      return hour === null ? [] : line(`due ${date} ${hour}`);
    },
  },
  {
    under: "week",
    typed: /^(?:rest|rest\s+day|day\s+off|off)\s*:?\s+(?:on\s+)?(\d{4}-\d\d-\d\d)$/iu,
    meant: ([, date = ""]) => line(`${date} rest`),
  },
  { under: "week", typed: /^(?:the\s+)?(?:gym|box|hall|venue)\s+(?:is\s+)?(open\s+.*)$/iu, meant: ([, open = ""]) => line(open) },
  {
    under: "week",
    typed: /^open\s+((?:\d{4}-\d\d-\d\d\s+)?)(\S+?)\s*(?:-|–|to|until)\s*(\S+)$/iu,
    meant: ([all = "", date = "", from = "", to = ""]) => {
      const [opens, closes] = [hourOf(from), hourOf(to)];
      return /\d\d:\d\d\s*[–-]\s*\d\d:\d\d$/.test(all) || !opens || !closes ? [] : line(`open ${date}${opens}–${closes}`);
    },
  },
];

/** What stands behind a date that is written as the language has it. */
function dayMeant(date: string, rest: string) {
  if (/^(?:off|free|rest\s+day|no\s+events?)$/iu.test(rest)) return line(`${date} rest`);
  const [, tried = ""] = /^(.*\S)\s+(?:re-?test|second\s+try|retry)$/iu.exec(rest) ?? [];
  if (tried !== "") return line(`${date} ${tried} again`);
  const [, at = "", what = ""] = /^(?:at\s+)?(\d{1,2}(?:[:.]\d\d|\s*h(?:\d\d)?\b)?\s*(?:[ap]m)?)\s+(\p{L}.*)$/iu.exec(rest) ?? [];
  const hour = hourOf(at.trim());
  return hour === null || /^\d\d:\d\d\s+\p{L}/u.test(rest) ? [] : line(`${date} ${hour} ${what}`);
}
