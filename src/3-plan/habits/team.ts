import { nearest } from "../../0-base/nearest.js";
import { categoryOf } from "../event.js";
import type { Category } from "../parts.js";
import { type Habit, name, one } from "./habit.js";

/** Who is in a team. */
export const teamHabits: readonly Habit[] = [
  {
    under: "team",
    typed: new RegExp(
      String.raw`^(?!${name}\s+(?:[Ww]oman|[Mm]an)$)(${name}(?:(?:\s*[,&]\s*|\s+and\s+)${name})*)\s*[:,(–-]?\s*\b(\p{L}+)\)?$`,
      "u",
    ),
    meant: ([, names = "", word = ""]) => {
      const category = categoryMeant(word.toLowerCase());
      const rows = names.split(/\s*[,&]\s*|\s+and\s+/).map((athlete) => `${athlete} ${category}`);
      return category === null ? [] : one(rows.length === 1 ? `write ${rows[0]}` : `${rows.length} lines`, ...rows);
    },
  },
];

/** The category that a word beside an athlete's name means; null where it could be anything. */
function categoryMeant(word: string): Category | null {
  if (/^(f|w|female|girl|lady)$/.test(word)) return "woman";
  if (/^(m|male|boy|guy)$/.test(word)) return "man";
  return categoryOf(word) ?? categoryOf(nearest(word, ["woman", "man"])[0] ?? "");
}
