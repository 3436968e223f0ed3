import type { Team } from "./world.js";

/** Groups that are somebody: in turns and holds, where no athlete or pair bears the name. */
const groups = ["everyone", "all", "women", "men", "others"] as const;
type Group = (typeof groups)[number];

export const groupWords: readonly string[] = groups;

export function isGroup(word: string): word is Group {
  return groups.some((group) => group === word);
}

/** The athletes of a team that a group means; `others` are those who do not work. */
export function groupOf(group: Group, { athletes }: Team, working: readonly string[]): readonly string[] {
  const names = athletes.map(({ name }) => name);
  switch (group) {
    case "everyone":
    case "all":
      return names;
    case "women":
      return athletes.filter(({ category }) => category === "woman").map(({ name }) => name);
    case "men":
      return athletes.filter(({ category }) => category === "man").map(({ name }) => name);
    case "others":
      return names.filter((name) => !working.includes(name));
  }
}
