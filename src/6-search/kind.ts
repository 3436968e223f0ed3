import { numberWord } from "../0-base/quantity.js";
import { either } from "../5-findings/rule.js";
import { areSideBySide, type EventSpec } from "../3-plan/event.js";
import type { Team } from "../3-plan/world.js";
import type { DraftBlock, DraftLane, DraftPlan } from "./draft.js";

/** Who works with whom and where, in words; the same for drafts of the same kind. */
export function kindOf({ event, team, blocks }: DraftPlan): string {
  if (areSideBySide(event)) {
    const places = blocks.flatMap(({ stage, lanes }) =>
      lanes.map((lane) => `${castsWords(castsIn(lane, team))} at ${event.stages[stage]?.name ?? ""}`),
    );
    return places.join(" beside ");
  }
  if (event.windows.length > 0 && blocks.some(({ lanes }) => lanes.length > 1)) return "side by side";
  const stagesBy = new Map<string, string[]>();
  for (const block of blocks) {
    const words = blockWords(block, team);
    stagesBy.set(words, [...(stagesBy.get(words) ?? []), calledIn(event, block.stage)]);
  }
  const [only, ...others] = stagesBy.keys();
  if (only !== undefined && others.length === 0) return only;
  return [...stagesBy].map(([words, stages]) => `${words} at ${either([...new Set(stages)], "and")}`).join(", ");
}

/** A stage's name; of many of one movement, as in rising rounds, the movement. */
function calledIn({ stages }: EventSpec, at: number): string {
  const [stage, movement] = [stages[at], stages[at]?.items[0]?.movement];
  const alike = stages.filter(({ items }) => items.length === 1 && items[0]?.movement === movement);
  return (alike.length > 1 ? movement : stage?.name) ?? "";
}

function blockWords({ lanes }: DraftBlock, team: Team): string {
  if (lanes.some(({ turns }) => turns.some(({ size }) => size.kind === "item"))) return "each round shared out";
  const casts = lanes.map((lane) => castsIn(lane, team));
  const [crews = []] = casts;
  // Who is in several crews: they go round the team, and to name each would tell nobody anything.
  if (lanes.length === 1 && new Set(crews.flat()).size < crews.flat().length)
    return `${numberWord(crews[0]?.length ?? 0)} at once, going round`;
  const alone = casts.flat().every(({ length }) => length === 1);
  const apart = lanes.length > 1 && casts.every(({ length }) => length === 1);
  if (lanes.every(({ station }) => station === null)) {
    if (alone && lanes.length === 1) return "one at a time";
    if (apart) return alone ? "all at once" : `${castsWords(casts.flat())} at once`;
  }
  return lanes.map((lane) => `${castsWords(castsIn(lane, team))}${lane.station === null ? "" : ` at ${lane.station}`}`).join(" beside ");
}

/** Each cast once, in the team's order: who begins does not make another kind. */
function castsIn({ turns }: DraftLane, { athletes }: Team): readonly (readonly string[])[] {
  const place = (name: string | undefined): number => athletes.findIndex((athlete) => athlete.name === name);
  return [...new Map(turns.map(({ who }) => [who.join(), who])).values()].sort(([one], [other]) => place(one) - place(other));
}

function castsWords(casts: readonly (readonly string[])[]): string {
  const each = casts.map((who) => who.join(" + "));
  return casts.some(({ length }) => length > 1) ? each.join(", ") : either(each, "and");
}

/** How the sizes of a plan are said: parts of a best or reps, one or a ladder, broken or whole. */
export function wayOf({ blocks }: DraftPlan): string {
  const turns = blocks.flatMap(({ lanes }) => lanes.flatMap((lane) => lane.turns));
  const ways = turns.map(({ size }) => {
    switch (size.kind) {
      case "percent":
        return `percent ${Math.min(2, size.percents.length)}`;
      case "reps":
        return `reps ${Math.min(2, size.steps.length)}`;
      case "round":
        return size.broken.some((broken) => broken !== null) ? "broken" : "whole";
      case "item":
        return "shared out";
    }
  });
  return [...new Set(ways)].sort().join();
}
