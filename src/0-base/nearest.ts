import { distance } from "fastest-levenshtein";

const mostOffered = 4;

/** Nobody misspells a longer name by a letter: to compare those costs, and helps nobody. */
const longestCompared = 80;

/**
 * The known names closest to a misspelt one, best first, at most four: those within a third of the name's length
 * (at least two) of single-letter edits.
 */
export function nearest(name: string, known: Iterable<string>): readonly string[] {
  if (name.length > longestCompared) return [];
  const reach = Math.max(2, Math.floor(name.length / 3));
  const wanted = name.toLowerCase();
  return [...new Set(known)]
    .map((candidate) => ({ candidate, edits: distance(wanted, candidate.toLowerCase()) }))
    .filter(({ candidate, edits }) => edits <= reach && edits < Math.max(candidate.length, 2))
    .sort((a, b) => a.edits - b.edits || (a.candidate < b.candidate ? -1 : 1))
    .slice(0, mostOffered)
    .map(({ candidate }) => candidate);
}

/** Names this short differ by a letter though another is meant: Ida and Ina, stage a and stage b. */
const shortest = 4;

/** Whether a near name is all but surely the one that was meant: a letter is off in a longer one, and no number. */
export function isSlip(name: string, near: string): boolean {
  const digits = (text: string): string => text.replace(/\D/g, "");
  return name.length >= shortest && digits(name) === digits(near) && distance(name.toLowerCase(), near.toLowerCase()) <= 1;
}

/** A letter in three is off, or letters changed places: “loop” is no “drop”. */
export function isMisspelt(typed: string, word: string): boolean {
  return distance(typed, word) * 3 <= Math.max(3, typed.length) || [...typed].sort().join("") === [...word].sort().join("");
}
