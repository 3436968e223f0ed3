/**
 * What a person naturally types and the language does not know, with the lines it should have been. A line is looked at by
 * itself, as text; names come from the block that it stands in.
 */
import { reads } from "../2-tree/expected.js";
import type { Line } from "./ast.js";
import { anyHabits } from "./habits/any.js";
import { eventHabits } from "./habits/event.js";
import type { Habit, Intended, Typed } from "./habits/habit.js";
import { ruleHabits } from "./habits/rules.js";
import { stepHabits } from "./habits/steps.js";
import { teamHabits } from "./habits/team.js";

const habits: readonly Habit[] = [...anyHabits, ...stepHabits, ...eventHabits, ...ruleHabits, ...teamHabits];

/** The habits that count for the lines under one. */
const contexts: Partial<Readonly<Record<Line["kind"], Habit["under"]>>> = {
  team: "team",
  event: "event",
  round: "event",
  plan: "steps",
  stage: "steps",
  repeat: "steps",
  lane: "steps",
  window: "steps",
};

/** What a line was meant to be; none where the language knows it as it stands. */
export function intendedBy(text: string, under: Line["kind"] | null, block: string): readonly Intended[] {
  const context = (under && contexts[under]) ?? "any";
  const pairs = [...block.matchAll(/^\s+pair\s+(\S+)\s+\S/gmu)].map(([, pair = ""]) => pair);
  const athletes = [...block.matchAll(/^\s+(\p{Lu}[\p{L}\p{N}_'-]*)\s+\d/gmu)]
    .map(([, athlete = ""]) => athlete)
    .filter((athlete) => !pairs.includes(athlete));
  const typed: Typed = { text, pairs, inRound: under === "round", casts: pairs.length > 1 ? pairs : [...new Set([...pairs, ...athletes])] };
  for (const habit of habits) {
    const match = habit.under === "any" || habit.under === context ? habit.typed.exec(text) : null;
    if (match) return habit.meant(match, typed).flatMap((meant) => inTheLanguage(meant, under, block));
  }
  return [];
}

/** A proposal with its own lines as they were meant; none where one of them could not be read. */
function inTheLanguage({ title, lines }: Intended, under: Line["kind"] | null, block: string): readonly Intended[] {
  const written = lines.flatMap((line): readonly string[] => {
    const [margin = "", text = ""] = /^( *)(.*)$/u.exec(line)?.slice(1) ?? [];
    const [again] = intendedBy(text, under, block);
    return again ? again.lines.map((inner) => margin + inner) : [line];
  });
  return written.every((line) => reads(line.trim())) ? [{ title, lines: written }] : [];
}
