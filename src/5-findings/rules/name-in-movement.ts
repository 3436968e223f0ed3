import { problem, type ProblemOf } from "../../0-base/problem.js";
import { categoryOf, categoryWord } from "../../3-plan/event.js";
import { subjectKey } from "../../3-plan/names.js";
import type { World } from "../../3-plan/world.js";
import { pierNine } from "../examples.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "name-in-movement": { words: string; known: string; meant: string };
  }
}

export const nameInMovement: Rule<"name-in-movement"> = {
  id: "name-in-movement",
  severity: always("warning"),
  title: "Words of a stage that belong to no movement",
  why: "A name, or whose work it is, that is read as a part of the movement counts for nothing, and nobody has a test for such a movement.",
  source: "the language",
  bad: `${pierNine}event Sprint\n  score reps\n  cap 4 min\n  stage «long box jump»\n`,
  good: `${pierNine}event Sprint\n  score reps\n  cap 4 min\n  stage "long" box jump\n`,
  check: ({ line, evaluation }) => {
    if (line.kind !== "event") return [];
    return line.body.flatMap((inner): readonly ProblemOf<"name-in-movement">[] => {
      if (inner.kind !== "stage") return [];
      const word = inner.movement ?? (inner.count === null ? inner.name : null);
      const found = word && apart(word.text, evaluation.world);
      if (!word || !found) return [];
      const { known, name, whose } = found;
      const text = whose ? `${known} for ${whose}` : inner.movement || name === "" ? known : `"${name}" ${known}`;
      const fixes = whose === null && inner.movement ? [] : [{ title: text, edits: [{ span: word.span, text }] }];
      return [problem("name-in-movement", word.span, { words: word.text, known, meant: text }, fixes)];
    });
  },
  message: ({ words, known, meant }) =>
    `“${words}” is read as one movement, which has no test here; ${known} has. If that is what is done, write ${meant}.`,
};

/** What follows a movement and is none: `per athlete`, `with partner`. */
const goingOn: ReadonlySet<string> = new Set([
  "per",
  "by",
  "with",
  "each",
  "from",
  "alternating",
  "unbroken",
  "total",
  "partitioned",
  "split",
  "any",
  "women",
  "men",
  "or",
  "then",
]);

/** The known movement in some words, with what stands before it, or whose it is behind it; null where all are known, or none. */
function apart(text: string, world: World): { readonly known: string; readonly name: string; readonly whose: string | null } | null {
  const knows = (words: string): boolean => {
    const key = subjectKey(words);
    return world.movements.has(key) || [...world.abilities.values()].some((tests) => tests.has(key));
  };
  if (knows(text)) return null;
  const words = text.split(" ");
  const [last = "", before] = [words.at(-1), words.slice(0, -1).join(" ")];
  const category = categoryOf(last);
  if (category && knows(before)) return { known: before, name: "", whose: categoryWord(category) };
  for (let at = 1; at < words.length; at += 1) {
    const known = words.slice(at).join(" ");
    if (knows(known)) return { known, name: words.slice(0, at).join(" "), whose: null };
  }
  for (let at = words.length - 1; at > 0; at -= 1) {
    const known = words.slice(0, at).join(" ");
    if (goingOn.has(words[at] ?? "") && knows(known)) return { known, name: "", whose: null };
  }
  return null;
}
