import { nearest } from "../../0-base/nearest.js";
import { categoryOf } from "../event.js";
import type { Category } from "../parts.js";
import { type Habit, type Intended, name, one } from "./habit.js";

/** Who is in a team. */
export const teamHabits: readonly Habit[] = [
  {
    under: "team",
    typed: new RegExp(
      String.raw`^(wom[ae]n|m[ae]n|girls?|ladies|lady|boys?|guys?)\s*:?\s+(\p{Lu}[\p{L}\p{N}_'-]*(?:(?:\s*[,&]\s*|\s+and\s+)${name})*)$`,
      "iu",
    ),
    meant: ([, word = "", names = ""]) => rowsFor(names, /^[wgl](?!uy)/i.test(word) ? "woman" : "man"),
  },
  {
    under: "team",
    typed: new RegExp(
      String.raw`^(?!${name}\s+(?:[Ww]oman|[Mm]an)$)(${name}(?:(?:\s*[,&]\s*|\s+and\s+)${name})*)\s*[:,(–-]?\s*\b(\p{L}+)\)?$`,
      "u",
    ),
    meant: ([, names = "", word = ""]) => {
      const category = categoryMeant(word);
      return category === null ? [] : rowsFor(names, category);
    },
  },
];

function rowsFor(names: string, category: Category): readonly Intended[] {
  const rows = names.split(/\s*[,&]\s*|\s+and\s+/).map((athlete) => `${athlete} ${category}`);
  return one(rows.length === 1 ? `write ${rows[0]}` : `${rows.length} lines`, ...rows);
}

/** The category that a word beside an athlete's name means; null where it could be anything. */
function categoryMeant(typed: string): Category | null {
  const word = typed.toLowerCase();
  if (/^(f|w|female|girl|lady)$/.test(word)) return "woman";
  if (/^(m|male|boy|guy)$/.test(word)) return "man";
  // “Ana” is a name, not a “man” misspelt.
  return categoryOf(word) ?? (typed === word ? categoryOf(nearest(word, ["woman", "man"])[0] ?? "") : null);
}
