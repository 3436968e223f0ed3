import { type Habit, line } from "./habit.js";

/** Rows of an ability table. The first that fits counts. */
export const tableHabits: readonly Habit[] = [
  {
    under: "table",
    typed: /^(?=.*\s[?–—](?:\s|$))(\p{L}.*)$/u,
    meant: ([, row = ""]) => line(row.replace(/(?<=\s)[?–—](?=\s|$)/gu, "-")),
  },
  {
    under: "table",
    typed: /^(\p{L}.*?\s[\d.]+),(?=\s)(.*)$/u,
    meant: ([, row = "", rest = ""]) => line(`${row}${rest.replace(/,(?=\s)/gu, "")}`),
  },
  {
    under: "table",
    typed: /^(\p{L}.*?\s+hold(?:\s+(?:\d+(?:\.\d+)?|-))+)$/u,
    meant: ([, row = ""]) => line(`${row} s`),
  },
];
