import { clock, counted, percent } from "../0-base/quantity.js";
import type { Constants } from "../3-plan/assumptions.js";
import { areSideBySide, type EventSpec } from "../3-plan/event.js";
import { loadFor, turnsOf } from "../3-plan/plan.js";
import type { Abilities } from "../4-timeline/ability.js";
import { type Days, gainOf, runDays, spreadOf, troubledShare, unseenDays } from "../4-timeline/spread.js";
import { either } from "../5-findings/rule.js";
import { ceiling } from "./ceiling.js";
import { type DraftPlan, mapLanes, planOf, stepsFor } from "./draft.js";
import { allNumbers, shortest } from "./numbers.js";
import { largestFirst, opensLarge } from "./set-size.js";
import type { Suggestion } from "./suggest.js";

/** What a plan comes to on many days. */
export interface Outlook {
  readonly middle: number;
  readonly troubled: number;
}

/** Days behind a reason. */
const daysToReason = 200;

/** Why the first of some suggestions is the first, in sentences; each is true of plans that were run. */
export function reasonsFor(best: Suggestion, others: readonly Suggestion[], abilities: Abilities, constants: Constants): readonly string[] {
  const { event, team } = best.draft;
  const days = daysOf(best.draft, abilities, constants);
  const outlook = outlookOf(days);
  const next = others.find(({ sort }) => sort === "other");
  const reasons = [
    ...unsaidAtOnce(best.draft),
    ...(next && next.kind !== best.kind ? pairingReason(best, outlook, next, abilities, constants) : []),
    ...oneMoreRep(best.draft, outlook, abilities, constants),
    ...weakestTurn(best.draft, days),
    ...inNumbers(best.draft),
    ...hardFirst(best.draft),
    ...spared(best.draft),
  ];
  // A ceiling for one stage after another says nothing of stages side by side.
  const bound = areSideBySide(event) ? null : ceiling(event, team, abilities, constants);
  return bound === null ? reasons : [...reasons, ...ceilingWords(bound, event, outlook.middle)];
}

/** As a part of the score: a ceiling that is further off says nothing that a coach could use. */
const farOff = 0.35;

function ceilingWords(bound: number, { score, capS, stages }: EventSpec, middle: number): readonly string[] {
  const plan = `No plan${stages.length > 1 ? " that does one stage after another" : ""}`;
  if (score === "time" && capS !== null && bound > capS)
    return [`${plan} is done inside the cap in this model: the work takes ${clock(bound)} at the least.`];
  if (gainOf(score, bound, middle) > farOff * middle) return [];
  return [
    score === "time"
      ? `${plan} can be faster than ${clock(bound)} in this model.`
      : `${plan} can have more than ${counted(Math.floor(bound), "rep")} in this model.`,
  ];
}

/** What a part of a best set is for each: on the floor a number is said, not a percentage. */
function inNumbers({ event, blocks, best }: DraftPlan): readonly string[] {
  const said = new Map<string, Map<string, string>>();
  for (const { stage, lanes } of blocks) {
    for (const { who, size } of lanes.flatMap(({ turns }) => turns)) {
      if (size.kind !== "percent") continue;
      const at = blocks.length > 1 ? ` at ${event.stages[stage]?.name ?? ""}` : "";
      const key = `${shortest(size.percents).join("-")} %${at}`;
      const each = said.get(key) ?? new Map<string, string>();
      for (const name of who) each.set(name, shortest(stepsFor(size, best(name, stage))).join("-"));
      said.set(key, each);
    }
  }
  return [...said].map(([part, each]) => `${part} is ${[...each].map(([name, reps]) => `${name} ${reps}`).join(", ")}.`);
}

/** Who has no turn at a stage in which others work. */
function spared({ event, team, blocks }: DraftPlan): readonly string[] {
  return blocks.flatMap(({ stage, window, lanes }) => {
    const spec = event.stages[stage];
    if (!spec || window !== null || areSideBySide(event)) return [];
    const working = new Set(lanes.flatMap(({ turns }) => turns.flatMap(({ who }) => who)));
    const free = team.athletes.filter(({ name, category }) => (spec.category ?? category) === category && !working.has(name));
    return free.length > 0 ? [`No turn at ${spec.name}: ${free.map(({ name }) => name).join(", ")}.`] : [];
  });
}

/** Lanes side by side, and two who work in one turn, stand on what the event leaves open: the coach has to know. */
function unsaidAtOnce({ event, pairs, blocks }: DraftPlan): readonly string[] {
  if (event.working !== null || event.stations.length > 0) return [];
  const lanes = Math.max(...blocks.map((block) => block.lanes.length));
  const both = blocks.some(
    ({ stage, lanes: own }) =>
      event.stages[stage]?.hold === null &&
      event.stages[stage].items.every(({ how }) => how === null) &&
      own.some(({ turns }) => turns.some(({ who }) => who.length > 1)),
  );
  const here = lanes > 1 ? `${lanes} lanes run side by side` : "both of a pair work, each at an own pace";
  return lanes > 1 || both
    ? [
        `${event.name} does not say how many may work at once: here ${here}. If fewer may, write “working at most 1${lanes > 1 && pairs.length > 0 ? " pair" : ""}” under it.`,
      ]
    : [];
}

function daysOf(draft: DraftPlan, abilities: Abilities, constants: Constants): Days {
  return runDays(planOf(draft), abilities, constants, unseenDays(daysToReason));
}

function outlookOf(days: Days): Outlook {
  return { middle: spreadOf(days).p50, troubled: troubledShare(days) };
}

/** What another suggestion costs or wins against the best, and what for. Both with the days they were judged on. */
export function besideTheBest({ sort, draft }: Suggestion, outlook: Outlook, best: Suggestion, ofBest: Outlook): readonly string[] {
  const gained = gainOf(draft.event.score, outlook.middle, ofBest.middle);
  // One of the two is not done on most days: there is no score to compare.
  if (!Number.isFinite(gained)) return inNumbers(draft);
  const by = Math.abs(gained) < asGood ? "As good" : `${apart(gained, draft.event)} on the middle day`;
  const fewer = allNumbers(best.draft) - allNumbers(draft);
  const numbers =
    fewer === 0
      ? ""
      : fewer > 0
        ? `, with ${counted(fewer, "number")} fewer to remember`
        : `, for ${counted(-fewer, "number")} more to remember`;
  const gentle = sort === "gentler" ? ", with no first set over a third of a best" : "";
  return [`${by}${numbers}${gentle}.`, ...inNumbers(draft)];
}

/** Less of a score, in its unit, is no difference. */
export const asGood = 0.5;

/** `4 s faster`, `5 reps fewer`. */
function apart(gained: number, event: EventSpec): string {
  const words = event.score === "time" ? (["faster", "slower"] as const) : (["more", "fewer"] as const);
  return `${amount(Math.abs(gained), event)} ${words[gained > 0 ? 0 : 1]}`;
}

/** How large the first sets are, where they are larger than the trade takes in a long event for reps. */
function hardFirst(draft: DraftPlan): readonly string[] {
  return opensLarge(draft)
    ? [`First sets of up to ${percent(largestFirst(draft))} of a best: the trade opens a long event with a quarter to a third.`]
    : [];
}

/** From here on seconds are told in minutes. */
const longS = 100;

/** So much of a score: reps, s, or minutes and s. */
export function amount(by: number, { score }: EventSpec): string {
  return score === "time" ? (by < longS ? `${Math.round(by)} s` : clock(by)) : counted(Math.round(by), "rep");
}

function pairingReason(
  best: Suggestion,
  outlook: Outlook,
  next: Suggestion,
  abilities: Abilities,
  constants: Constants,
): readonly string[] {
  const { event } = best.draft;
  const ofNext = outlookOf(daysOf(next.draft, abilities, constants));
  const gained = gainOf(event.score, outlook.middle, ofNext.middle);
  if (!Number.isFinite(gained)) return [];
  const safer = outlook.troubled < ofNext.troubled ? ", and less often in trouble" : "";
  const ahead =
    Math.abs(gained) < asGood
      ? `As good as the best found with ${next.kind}`
      : `${apart(gained, event)} on the middle day than the best found with ${next.kind}`;
  return [
    `${ahead}${gained < asGood ? safer : ""}.`,
    ...slowestApart(best, next, abilities),
    ...whatDecided(best, next, abilities, constants),
  ];
}

/** What one rep more in every set would come to. */
function oneMoreRep(draft: DraftPlan, outlook: Outlook, abilities: Abilities, constants: Constants): readonly string[] {
  const { event } = draft;
  const more = mapLanes(draft, (lane) => ({
    ...lane,
    turns: lane.turns.map((turn) =>
      turn.size.kind === "reps" ? { ...turn, size: { ...turn.size, steps: turn.size.steps.map((reps) => reps + 1) } } : turn,
    ),
  }));
  const then = outlookOf(daysOf(more, abilities, constants));
  const gained = gainOf(event.score, then.middle, outlook.middle);
  const slower = gained <= -asGood ? [`is ${apart(gained, event)}`] : [];
  const trouble =
    then.troubled > outlook.troubled + 0.05
      ? [`has somebody ${troubleWords(event, "ing")} on ${percent(then.troubled)} of days, not ${percent(outlook.troubled)}`]
      : [];
  const would = [...slower, ...trouble];
  return would.length > 0 ? [`One rep more a set ${would.join(", and ")}.`] : [];
}

/** What somebody does when a plan fails: where nobody holds, nobody drops. */
export function troubleWords({ stages }: EventSpec, form: "s" | "ing"): string {
  const held = stages.some(({ hold }) => hold !== null);
  return form === "s" ? `misses${held ? " or drops a hold" : ""}` : `missing${held ? " or dropping a hold" : ""}`;
}

/** The turn that fails first when a plan fails. */
function weakestTurn(draft: DraftPlan, { missed, dropped, scores }: Days): readonly string[] {
  const chances = turnsOf(planOf(draft).steps).flatMap((turn) => [
    { share: (missed.get(turn.id) ?? 0) / scores.length, said: does(turn.who, "miss", "misses") },
    { share: (dropped.get(turn.id) ?? 0) / scores.length, said: does(turn.holders, "drop the hold", "drops the hold") },
  ]);
  const [weakest] = chances.sort((a, b) => b.share - a.share);
  return weakest && weakest.share >= 0.05 ? [`The turn most at risk: ${weakest.said} in it on ${percent(weakest.share)} of days.`] : [];
}

/** `Ines misses`, `Ines and Bram miss`. */
function does(who: readonly string[], plural: string, singular: string): string {
  return `${either(who, "and")} ${who.length === 1 ? singular : plural}`;
}

/** Where the two slowest at a movement are in one pair in the next best, and not in the best; or the other way round. */
function slowestApart(best: Suggestion, next: Suggestion, abilities: Abilities): readonly string[] {
  const { event, team } = best.draft;
  return event.stages
    .flatMap(({ items }) => items)
    .flatMap(({ movement, load, how }): readonly string[] => {
      if (how === null) return [];
      const [slowest, second] = team.athletes
        .map(({ name }) => ({ name, cycleS: abilities.movement(name, movement, loadFor(team, name, load)).reserve.cycleS }))
        .sort((a, b) => b.cycleS - a.cycleS);
      if (!slowest || !second) return [];
      const together = ({ draft }: Suggestion): boolean =>
        draft.pairs.some(({ athletes }) => athletes.includes(slowest.name) && athletes.includes(second.name));
      if (together(best) === together(next)) return [];
      return [
        `The two slowest at ${movement}, ${slowest.name} and ${second.name}, are ${together(best) ? "in one pair: the other pair is not held up" : "apart"}.`,
      ];
    });
}

/** For work in step: whether the pairing stands on tempo alone, or on no-reps. */
function whatDecided(best: Suggestion, next: Suggestion, abilities: Abilities, constants: Constants): readonly string[] {
  const inStep = best.draft.event.stages.some(({ items }) => items.some(({ how }) => how === "in sync"));
  if (!inStep) return [];
  const clean = { ...constants, "step no-rep": 0 };
  const middle = ({ draft }: Suggestion): number => outlookOf(daysOf(draft, abilities, clean)).middle;
  return [
    gainOf(best.draft.event.score, middle(best), middle(next)) >= 0
      ? "Tempo decides the pairing: it is the faster one even if no rep in step is lost."
      : "No-reps decide the pairing: if none were lost, the other would be faster.",
  ];
}
