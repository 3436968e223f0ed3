/**
 * What a person naturally types and the language does not know, with the lines it should have been. A line is looked at by
 * itself, as text; names come from the block that it stands in.
 */
import { reads } from "../2-tree/expected.js";
import type { Line } from "./ast.js";
import { anyHabits } from "./habits/any.js";
import { blockHabits } from "./habits/blocks.js";
import { eventHabits } from "./habits/event.js";
import type { Habit, Intended, Typed } from "./habits/habit.js";
import { logHabits } from "./habits/log.js";
import { ruleHabits } from "./habits/rules.js";
import { stepHabits } from "./habits/steps.js";
import { tableHabits } from "./habits/table.js";
import { teamHabits } from "./habits/team.js";
import { turnHabits } from "./habits/turns.js";
import { weekHabits } from "./habits/week.js";

const habits: readonly Habit[] = [
  ...anyHabits,
  ...turnHabits,
  ...stepHabits,
  ...eventHabits,
  ...ruleHabits,
  ...teamHabits,
  ...tableHabits,
  ...weekHabits,
  ...logHabits,
  ...blockHabits,
];

/** The habits that count for the lines under one. */
const contexts: Partial<Readonly<Record<Line["kind"], Habit["under"]>>> = {
  team: "team",
  ability: "table",
  event: "event",
  round: "event",
  plan: "steps",
  stage: "steps",
  repeat: "steps",
  lane: "steps",
  window: "steps",
  week: "week",
  log: "log",
};

/** What a line was meant to be; none where the language knows it as it stands. `deep`: so many habits may meet in a line. */
export function intendedBy(text: string, under: Line["kind"] | null, block: string, deep = 4): readonly Intended[] {
  const context = under === null ? "margin" : (contexts[under] ?? "any");
  const pairs = [...block.matchAll(/^\s+pair\s+(\S+)\s+\S/gmu)].map(([, pair = ""]) => pair);
  const athletes = [...block.matchAll(/^\s+(\p{Lu}[\p{L}\p{N}_'-]*)\s+\d/gmu)]
    .map(([, athlete = ""]) => athlete)
    .filter((athlete) => !pairs.includes(athlete));
  const twoOf = (pair: string): readonly string[] =>
    [...block.matchAll(/^\s+pair\s+(\S+)\s+(\S+)\s*\+\s*(\S+)/gmu)].find(([, of]) => of === pair)?.slice(2) ?? [];
  const typed: Typed = {
    text,
    pairs,
    twoOf,
    inRound: under === "round",
    casts: pairs.length > 1 ? pairs : [...new Set([...pairs, ...athletes])],
  };
  for (const habit of habits) {
    const match = habit.under === "any" || habit.under === context ? habit.typed.exec(text) : null;
    if (match)
      return habit
        .meant(match, typed)
        .flatMap((meant) => inTheLanguage(meant, (line) => (deep > 0 ? intendedBy(line, under, block, deep - 1) : [])));
  }
  return [];
}

/** A proposal with its own lines as they were meant; none where one of them could not be read. */
function inTheLanguage({ lines, ...meant }: Intended, meantBy: (line: string) => readonly Intended[]): readonly Intended[] {
  const written = lines.flatMap((line): readonly string[] => {
    const [again] = line.startsWith(" ") ? [] : meantBy(line);
    return again?.lines ?? [line];
  });
  return written.every((line) => reads(line.trim())) ? [{ ...meant, lines: written }] : [];
}
