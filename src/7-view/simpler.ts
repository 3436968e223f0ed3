import { mostToRemember, thingsToRemember } from "../3-plan/remember.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { World } from "../3-plan/world.js";
import type { Abilities } from "../4-timeline/ability.js";
import { gainOf, runDays, spreadOf, unseenDays } from "../4-timeline/spread.js";
import { planOf } from "../6-search/draft.js";
import { firstLines } from "../6-search/draft-text.js";
import { suggestedAfter } from "../6-search/suggest.js";
import { dayScore } from "./spread-words.js";

/** Steps of the search for a simpler plan: enough for one that is sound. */
const looks = 400;

/** The most that anybody has to remember of a plan. */
export function mostThings(plan: PlanSpec): number {
  return Math.max(...plan.team.athletes.map(({ name }) => thingsToRemember(plan, name)));
}

/**
 * Where a plan asks a head for more than it keeps: the best plan near it that does not, what it costs, its first turns, in words;
 * null where the plan is short enough, or the search has none.
 */
export function simplerWords(plan: PlanSpec, abilities: Abilities, { constants }: World): string | null {
  if (mostThings(plan) <= mostToRemember) return null;
  const found = suggestedAfter(looks, plan.event, plan.team, abilities, constants, { from: [plan] });
  const near = found.find(({ draft, worth }) => worth.sound && mostThings(planOf(draft)) <= mostToRemember);
  if (!near) return null;
  const days = runDays(planOf(near.draft), abilities, constants, unseenDays(200));
  const own = runDays(plan, abilities, constants, unseenDays(200));
  const [middle, before] = [spreadOf(days).p50, spreadOf(own).p50];
  const gain = gainOf(days.kind, middle, before);
  const unit = days.kind === "time" ? "s" : "reps";
  const price = Number.isFinite(gain)
    ? gain >= 0
      ? `${Math.round(gain)} ${unit} better`
      : `${Math.round(-gain)} ${unit} worse`
    : "done where this one is not";
  return `Simpler, with ${mostThings(planOf(near.draft))} things to remember at most: ${firstLines(near.draft).join(", then ")}${near.draft.blocks.length > 1 ? " …" : ""}; ${dayScore(days.kind, middle)} on the middle day, ${price}.`;
}
