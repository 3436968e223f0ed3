import { clock, counted } from "../0-base/quantity.js";
import type { Constants } from "../3-plan/assumptions.js";
import type { EventSpec } from "../3-plan/event.js";
import { loadFor } from "../3-plan/plan.js";
import type { Abilities } from "../4-timeline/ability.js";
import { ceiling } from "./ceiling.js";
import { worthOf } from "./cost.js";
import { planOf } from "./draft.js";
import type { Suggestion } from "./suggest.js";

/** Why the first of some suggestions is the first, in sentences; and how far it is from what no plan can pass. */
export function reasonsFor(best: Suggestion, others: readonly Suggestion[], abilities: Abilities, constants: Constants): readonly string[] {
  const { event, team, pairs } = best.draft;
  const [next] = others;
  const gain = next && (event.score === "time" ? next.worth.score - best.worth.score : best.worth.score - next.worth.score);
  const reasons: string[] = [];
  if (next && gain !== undefined && pairs.length > 0) {
    reasons.push(Math.round(gain) > 0 ? `${best.kind}: ${event.score === "time" ? "saves" : "wins"} ${amount(gain, event)} against ${next.kind}.` : `${best.kind}: as good as ${next.kind}, with less that is broken or missed.`);
    reasons.push(...slowestApart(best, next, abilities), ...whatDecided(best, next, abilities, constants));
  }
  const bound = ceiling(event, team, abilities, constants);
  if (bound !== null) {
    const { score } = best.worth;
    reasons.push(event.score === "time" ? `No plan can be faster than ${clock(bound)} in this model; this one takes ${clock(score)}.` : `No plan can have more than ${counted(Math.floor(bound), "rep")} in this model; this one has ${score}.`);
  }
  if (!best.worth.sound) reasons.push("It still breaks a rule, leaves work undone or misses on a poor day: look at its findings before you trust it.");
  return reasons;
}

/** What another kind of plan costs or wins against the best. */
export function besideTheBest({ worth, draft: { event } }: Suggestion, best: Suggestion): readonly string[] {
  const by = worth.score - best.worth.score;
  const word = event.score === "time" ? (by > 0 ? "slower" : "faster") : by > 0 ? "more" : "fewer";
  return [`${amount(Math.abs(by), event)} ${word} than ${best.kind}${worth.sound ? "" : ", but it breaks a rule, leaves work undone or misses on a poor day"}.`];
}

function amount(by: number, { score }: EventSpec): string {
  return score === "time" ? `${Math.round(by)} s` : counted(Math.round(by), "rep");
}

/** Where the two slowest at a movement are in one pair in the next best, and not in the best; or the other way round. */
function slowestApart(best: Suggestion, next: Suggestion, abilities: Abilities): readonly string[] {
  const { event, team } = best.draft;
  return event.stages.flatMap(({ items }) => items).flatMap(({ movement, load, how }): readonly string[] => {
    if (how === null) return [];
    const [slowest, second] = team.athletes.map(({ name }) => ({ name, cycleS: abilities.movement(name, movement, loadFor(team, name, load)).reserve.cycleS })).sort((a, b) => b.cycleS - a.cycleS);
    if (!slowest || !second) return [];
    const together = ({ draft }: Suggestion): boolean => draft.pairs.some(({ athletes }) => athletes.includes(slowest.name) && athletes.includes(second.name));
    if (together(best) === together(next)) return [];
    return [`The two slowest at ${movement}, ${slowest.name} and ${second.name}, are ${together(best) ? "in one pair: the other pair is not held up" : "apart"}.`];
  });
}

/** For work in step: whether the pairing stands on tempo alone, or on no-reps. */
function whatDecided(best: Suggestion, next: Suggestion, abilities: Abilities, constants: Constants): readonly string[] {
  const inStep = best.draft.event.stages.some(({ items }) => items.some(({ how }) => how === "in sync"));
  if (!inStep) return [];
  const clean = { ...constants, "step no-rep": 0 };
  const cost = ({ draft }: Suggestion): number => worthOf(planOf(draft), abilities, clean).cost;
  return [cost(best) <= cost(next) ? "Tempo decided the pairing: without any no-rep in step it would be the same." : "No-reps decided the pairing: by tempo alone the other would be faster."];
}
