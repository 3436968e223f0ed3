import type { EventSpec } from "../3-plan/event.js";
import { freeName } from "../3-plan/names.js";
import type { Team, World } from "../3-plan/world.js";
import { typedName, textOf } from "../6-search/draft-text.js";
import { noEnd, suggestedAfter } from "../6-search/suggest.js";
import type { AnsweredNotebook } from "./answered-block.js";
import { eventText, teamText } from "./begun-text.js";
import { eventKinds } from "./event-kinds.js";

/** The text of a template for a notebook: it speaks of the notebook's own team and events, and takes no name that is taken. */
export function templateText(name: string, notebook: AnsweredNotebook): string {
  const { world } = notebook.kept;
  const kind = eventKinds.find((one) => name === `event: ${one.name}`);
  if (kind) return `${eventText(kind, freeName("My Event", world.events))}\n`;
  switch (name) {
    case "one file":
      return oneFile(world);
    case "team":
      return `# Team\n> All tests fresh, at the load each athlete will use.\n\n${inventedTeam(world).text}`;
    case "plan":
      return planText(notebook);
    case "week":
      return weekText(world);
    default:
      return "";
  }
}

/** A first plan for an event by the team that is there, as the search begins; null where there is none. */
export function firstPlan(event: EventSpec, team: Team, { kept: { world, abilities } }: AnsweredNotebook): string | null {
  if (noEnd(event) !== null) return null;
  const [suggestion] = suggestedAfter(0, event, team, abilities, world.constants, { days: fewDays });
  return suggestion ? textOf(suggestion.draft, freeName("First Plan", world.plans)) : null;
}

/** Days behind a first plan: enough to tell one size from another. */
const fewDays = 8;

/** Invented names for people who are not there yet. */
const inventedNames = ["Wren", "Odo", "Isla", "Jory", "Nell", "Merryn", "Piran", "Corin"];

function inventedTeam(
  { teams, athletes }: World,
  each = 2,
): { readonly text: string; readonly women: readonly string[]; readonly men: readonly string[] } {
  const free = inventedNames.filter((name) => !athletes.has(name));
  const [women, men] = [free.slice(0, each), free.slice(each, 2 * each)];
  return { text: teamText(freeName("My Team", teams), women, men), women, men };
}

function oneFile(world: World): string {
  const { text, women, men } = inventedTeam(world, 1);
  const athletes = [...women, ...men];
  const event = freeName("My Event", world.events);
  const [kind] = eventKinds;
  const row = (measure: string, cells: readonly string[], unit: string): string =>
    `  box jump  ${measure.padEnd(9)}${cells.map((cell) => cell.padStart(7)).join("")}   ${unit}`;
  const tests = [
    `ability${" ".repeat(14)}${athletes.map((name) => name.padStart(7)).join("")}`,
    row("unbroken", ["36", "40"], "reps"),
    row("cycle", ["2.0", "1.8"], "s"),
  ];
  const plan = [
    `plan ${typedName(freeName("Short Sets", world.plans))} for ${typedName(event)}`,
    "  repeat",
    ...athletes.map((name) => `    ${name} 5`),
  ];
  return `# One file\n> Invented names and numbers: put in your own.\n\n${text}\n${tests.join("\n")}\n\n${kind ? eventText(kind, event) : ""}\n\n${plan.join("\n")}\n`;
}

/** The event without a plan, else the last one. */
function planText(notebook: AnsweredNotebook): string {
  const { world } = notebook.kept;
  const planned = new Set([...world.plans.values()].map(({ line }) => line.event.text));
  const events = [...world.events.values()];
  const event = events.find(({ name }) => !planned.has(name)) ?? events.at(-1);
  const [team] = [...world.teams.values()];
  if (!event || !team) return `# Plan\n> A plan is for an event and by a team: write ${team ? "an event" : "a team"} first.\n`;
  return `# ${event.name}\n\n${firstPlan(event, team, notebook) ?? `plan ${typedName(freeName("First Plan", world.plans))} for ${typedName(event.name)}\n`}`;
}

function weekText({ plans, weeks }: World): string {
  const first = new Map([...plans.values()].reverse().map(({ line }) => [line.event.text, line.name.text]));
  const tries = [...first].map(([event, plan]) => `  ${typedName(event)}  plan ${typedName(plan)}\n`);
  const name = freeName("My Week", new Map(weeks.map(({ line }) => [line.name.text, line])));
  return `# Week\n> A hard day, an easy day. Pain, poor sleep or heat move a session. A line without its day is still to be placed.\n\nweek ${typedName(name)}\n  zone UTC\n  at most 1 event a day\n${tries.join("")}`;
}
