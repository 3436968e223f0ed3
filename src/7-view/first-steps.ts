import type { EventSpec } from "../3-plan/event.js";
import { subjectKey } from "../3-plan/names.js";
import type { Team } from "../3-plan/world.js";
import type { AnsweredNotebook } from "./answered-block.js";
import { abilityText } from "./begun-text.js";

/** What a notebook lacks for its first plan, the first of it. */
export type FirstStep =
  | { readonly lacks: "team" }
  | { readonly lacks: "event"; readonly taken: readonly string[] }
  /** `table`: rows for what the event asks, to be filled in. */
  | { readonly lacks: "tests"; readonly event: string; readonly table: string }
  | { readonly lacks: "plan"; readonly event: string };

/** The next step to a first plan; null where the notebook has one. */
export function firstStep({ kept: { world } }: AnsweredNotebook): FirstStep | null {
  if (world.plans.size > 0) return null;
  const [team] = [...world.teams.values()].filter(({ athletes }) => athletes.length > 0);
  if (!team) return { lacks: "team" };
  const event = [...world.events.values()].at(-1);
  if (!event || event.stages.length === 0) return { lacks: "event", taken: [...world.events.keys()] };
  const tested = team.athletes.some(({ name }) => (world.abilities.get(name)?.size ?? 0) > 0);
  return tested ? { lacks: "plan", event: event.name } : { lacks: "tests", event: event.name, table: testTable(event, team) };
}

/** A table of what an event asks, every cell still unknown. */
export function testTable({ stages }: EventSpec, { athletes }: Team): string {
  const movements = distinct(stages.flatMap(({ items }) => items.map(({ movement }) => movement)));
  const holds = distinct(stages.flatMap(({ hold }) => (hold ? [hold.hold] : [])));
  const rows = [
    ...movements.flatMap(
      (movement) =>
        [
          [movement, "unbroken", "reps"],
          [movement, "cycle", "s"],
          [movement, "in 5 min", "reps"],
        ] as const,
    ),
    ...holds.map((hold) => [hold, "hold", "s"] as const),
  ];
  return abilityText(
    "ability",
    athletes.map(({ name }) => name),
    rows.map(([subject, measure, unit]) => ({ label: `${subject}  ${measure}`, cells: athletes.map(() => "-"), unit })),
  );
}

function distinct(names: readonly string[]): readonly string[] {
  return [...new Map(names.map((name) => [subjectKey(name), name])).values()];
}
