import { changeEvery } from "../5-findings/limits/change-every.js";
import { inForce, sourcesOf } from "../5-findings/limits/limit.js";
import { setAtMostReps, setAtMostUnbroken } from "../5-findings/limits/set-at-most.js";
import { cutIn, type DraftPlan, type DraftLane, type DraftTurn, rhythmOf, type SetSize } from "./draft.js";
import { changeAt, type LanePlace } from "./places.js";
import { mostParts, leastBreakS, takesPercent } from "./neighbour.js";
import { isShort } from "./set-size.js";

/** Sets as parts of a best set: the same again; a ladder down; one long set and then short ones. */
const same = [1];
const ladders: readonly (readonly number[])[] = [
  [1, 0.6, 0.5, 0.3],
  [1, 0.3, 0.15],
];

/** The most of a best set that a round may ask unbroken, where rounds are broken. */
const mostOfBest = [0.8, 0.5, 0.33];

/** Of those who can do least, so many are tried without. */
const mostSpared = 2;

/** The most of a best set that an opening asks. */
const longestPart = 0.9;

/** The fewest that tell whether an arrangement promises anything. */
export function* probes(draft: DraftPlan, place: LanePlace): Iterable<DraftPlan> {
  for (const share of [0.3, 0.2]) for (const rest of ["ready", 0] as const) yield* told(draft, place, share, rest);
  for (const share of mostOfBest) yield* brokenRounds(draft, place, share, "ready");
  yield* withinTheRule(draft, place);
  yield* untilTheChange(draft, place);
}

/** The few that tell one arrangement from another: everyone the same number, or the same part of the own best. */
export function* firstOpenings(draft: DraftPlan, place: LanePlace): Iterable<DraftPlan> {
  for (const share of [0.3, 0.2, 0.45, 0.12]) for (const rest of ["ready", 0, 20] as const) yield* told(draft, place, share, rest);
  for (const share of mostOfBest) for (const rest of ["ready", 0] as const) yield* brokenRounds(draft, place, share, rest);
  yield* oneWaits(draft, place);
  yield* withinTheRule(draft, place);
  yield* untilTheChange(draft, place);
  for (const share of [0.15, 0.2, 0.27])
    for (const first of [1.8, 2.6])
      for (const rest of ["ready", 0] as const)
        yield withSizes(draft, place, rest, () => ({
          kind: "percent",
          percents: [Math.round(100 * first * share), Math.round(100 * share)],
        }));
  for (const more of [0, 1, 2, 3]) for (const rest of ["ready", 0] as const) yield* exactly(draft, place, more, rest);
  yield* oneSpared(draft, place);
}

/** Where to begin: everyone the same number, everyone the same part of the own best, or a ladder from it; with rests of some lengths. */
export function* openings(draft: DraftPlan, place: LanePlace): Iterable<DraftPlan> {
  const rounds = draft.event.stages[draft.blocks[place.block ?? 0]?.stage ?? 0]?.rounds ?? false;
  if (rounds) {
    for (const rest of ["ready", "first ready", 0, 3, 10, 20, 40, 60] as const) {
      yield withSizes(draft, place, rest, () => ({ kind: "percent", percents: [100] }));
      for (const share of mostOfBest) yield* brokenRounds(draft, place, share, rest);
    }
    return;
  }
  for (const share of [0.15, 0.2, 0.27])
    for (const first of [1.6, 2.3])
      for (const rest of ["ready", 0] as const) yield withSizes(draft, place, rest, (bests) => stepsDown([first, 1], share, bests));
  for (const share of [0.2, 0.3, 0.12, 0.45, 0.7, 0.85, 1]) {
    for (const rest of ["ready", "first ready", 0, 10, 30] as const) yield* told(draft, place, share, rest);
    for (const rest of [0, 3, 20, 60]) yield withSizes(draft, place, rest, (bests) => stepsDown(same, share, bests));
    if (share >= 0.45)
      for (const rest of [0, 20])
        for (const ladder of ladders) yield withSizes(draft, place, rest, (bests) => stepsDown(ladder, share, bests));
  }
}

function* told(draft: DraftPlan, place: LanePlace, share: number, rest: DraftLane["rest"]): Iterable<DraftPlan> {
  const all = leastBest(draft, place);
  yield withSizes(draft, place, rest, () => ({ kind: "percent", percents: [Math.round(100 * share)] }));
  yield withSizes(draft, place, rest, () => stepsDown(same, share, [all]));
}

/**
 * Sets by what each can do that come to a stage's target in few passes, the last rep in the last set: nothing is left for a
 * stub. `more`: passes beyond the fewest in which no set is too long for anybody. Nothing where no stage has a target.
 */
function* exactly(draft: DraftPlan, place: LanePlace, more: number, rest: DraftLane["rest"]): Iterable<DraftPlan> {
  let split = false;
  const opening = changeAt(draft, place, (lane, stage, block) => {
    const spec = draft.event.stages[stage];
    if (!spec || spec.rounds || spec.target === null) return lane;
    const together = ["in sync", "together"].includes(rhythmOf(spec) ?? "");
    const bestOf = ({ who }: DraftTurn): number => Math.min(...who.map((name) => draft.best(name, stage)));
    const weight = (turn: DraftTurn): number => (together ? 1 : turn.who.length) * bestOf(turn);
    const all = (draft.blocks[block]?.lanes ?? []).flatMap(({ turns }) => turns);
    const atOnce = spec.target / all.reduce((sum, turn) => sum + weight(turn), 0);
    const ofBest = atOnce / (Math.ceil(atOnce / longestPart) + more);
    // What rounding takes from one set goes to the next.
    let over = 0;
    const turns = lane.turns.map((turn): DraftTurn => {
      const exact = ofBest * bestOf(turn) + over;
      const reps = Math.max(1, Math.round(exact));
      over = exact - reps;
      return { ...turn, size: { kind: "reps", steps: [reps], parts: 1 } };
    });
    split = true;
    return { ...lane, turns, rest };
  });
  if (split) yield opening;
}

/** Rounds in which nobody goes past a part of the own best: who can do less breaks more. Nothing where nobody has to. */
function brokenRounds(draft: DraftPlan, place: LanePlace, share: number, rest: DraftLane["rest"]): Iterable<DraftPlan> {
  return roundsIn(draft, place, rest, (reps, best) => Math.min(mostParts, Math.ceil(reps / (share * best))));
}

/** Rounds in parts that are as long as a rule lets a set be. */
function* withinTheRule(draft: DraftPlan, place: LanePlace): Iterable<DraftPlan> {
  for (const { value } of inForce(sourcesOf(draft), setAtMostReps))
    for (const rest of ["ready", 0, 20] as const) yield* roundsIn(draft, place, rest, (reps) => Math.ceil(reps / value));
}

/** Rounds whose movements are broken into parts by the reps and the least best of those who do them. */
function* roundsIn(
  draft: DraftPlan,
  place: LanePlace,
  rest: DraftLane["rest"],
  partsFor: (reps: number, best: number) => number,
): Iterable<DraftPlan> {
  let broken = false;
  const opening = changeAt(draft, place, (lane, stage) => {
    const { items, rounds } = draft.event.stages[stage] ?? { items: [], rounds: null };
    if (!rounds) return lane;
    const turns = lane.turns.map((turn): DraftTurn => {
      if (turn.size.kind === "item") return turn;
      const bests = items.map((_, item) => Math.min(...turn.who.map((name) => draft.best(name, stage, item))));
      const sets = items.map(({ count }, item) => cutIn(count ?? 0, partsFor(count ?? 0, bests[item] ?? 1)));
      broken ||= sets.some((set) => set !== null);
      return { ...turn, size: { kind: "round", broken: sets } };
    });
    return { ...lane, turns, rest };
  });
  if (broken) yield opening;
}

/** Sets as long as a rule wants them before a change, whole and in parts. */
function* untilTheChange(draft: DraftPlan, place: LanePlace): Iterable<DraftPlan> {
  for (const { value } of inForce(sourcesOf(draft), changeEvery))
    for (const parts of [1, 2, 3])
      for (const rest of ["ready", 0] as const)
        yield withSizes(draft, place, rest, (bests) => ({
          kind: "reps",
          steps: [value],
          parts: isShort(value, Math.min(...bests)) ? 1 : parts,
        }));
}

/** Rounds before which one of those who do them waits for the own strength, whole and broken. */
function* oneWaits(draft: DraftPlan, place: LanePlace): Iterable<DraftPlan> {
  const rounds = changeAt(draft, place, (lane, stage) => ({ ...lane, rest: draft.event.stages[stage]?.rounds ? 0 : lane.rest }));
  const whole = [rounds, ...mostOfBest.flatMap((share) => [...brokenRounds(rounds, place, share, 0)])];
  for (const { name } of draft.team.athletes) {
    const waits = (lane: DraftLane, stage: number): boolean =>
      (draft.event.stages[stage]?.rounds ?? false) && lane.turns.some(({ who }) => who.includes(name));
    for (const one of whole)
      if (one.blocks.some(({ stage, lanes }) => lanes.some((lane) => waits(lane, stage))))
        yield changeAt(one, place, (lane, stage) => (waits(lane, stage) ? { ...lane, waits: [name] } : lane));
  }
}

/** A stage without the turns of somebody who can do least there: the others' sets by parts of a best. */
function* oneSpared(draft: DraftPlan, { block: named, lane }: LanePlace): Iterable<DraftPlan> {
  const block = named ?? (draft.blocks.length === 1 ? 0 : null);
  const there = block === null ? undefined : draft.blocks[block];
  if (!there || block === null) return;
  const alone = there.lanes.flatMap(({ turns }) => turns.flatMap(({ who }) => (who.length === 1 ? who : [])));
  const least = [...new Set(alone)].sort((a, b) => draft.best(a, there.stage) - draft.best(b, there.stage)).slice(0, mostSpared);
  for (const name of least) {
    const spared = changeAt(draft, { block, lane }, (one) => {
      const turns = one.turns.filter(({ who, size }) => size.kind === "item" || !who.includes(name));
      return new Set(turns.flatMap(({ who }) => who)).size > 1 ? { ...one, turns } : one;
    });
    for (const share of [0.3, 0.45, 0.6])
      for (const rest of ["ready", 0] as const)
        yield withSizes(spared, { block, lane }, rest, () => ({ kind: "percent", percents: [Math.round(100 * share)] }));
  }
}

function stepsDown(ladder: readonly number[], share: number, bests: readonly number[]): SetSize {
  return { kind: "reps", steps: ladder.map((part) => repsOf(part * share, Math.min(...bests))), parts: 1 };
}

function repsOf(part: number, best: number): number {
  return Math.max(1, Math.round(part * best));
}

/** The least of the best sets of all who work there. */
function leastBest({ blocks, best }: DraftPlan, place: LanePlace): number {
  const bests = blocks.flatMap(({ stage, lanes }, block) =>
    (place.block ?? block) === block
      ? lanes.flatMap(({ turns }, at) =>
          (place.lane ?? at) === at ? turns.flatMap(({ who }) => who.map((name) => best(name, stage))) : [],
        )
      : [],
  );
  return Math.min(...bests);
}

function withSizes(draft: DraftPlan, place: LanePlace, rest: DraftLane["rest"], sizeFor: (bests: readonly number[]) => SetSize): DraftPlan {
  const longest = longestSet(draft);
  return changeAt(draft, place, (lane, stage) => {
    const spec = draft.event.stages[stage];
    if (!spec || spec.rounds) return { ...lane, rest };
    const turns = lane.turns.map((turn) => {
      const bests = turn.who.map((name) => draft.best(name, stage));
      const size = sizeFor(bests);
      return { ...turn, size: size.kind === "percent" && !takesPercent(spec) ? stepsDown(size.percents, 1 / 100, bests) : size };
    });
    return longest ? within(longest, { ...lane, turns, rest }, stage, draft) : { ...lane, turns, rest };
  });
}

/** The longest set that rules allow somebody with such a best; null where none says anything of it. */
function longestSet(draft: DraftPlan): ((best: number) => number) | null {
  const sources = sourcesOf(draft);
  const [reps, parts] = [setAtMostReps, setAtMostUnbroken].map((kind) => inForce(sources, kind).map(({ value }) => value));
  if (!reps || !parts || reps.length + parts.length === 0) return null;
  return (best) => Math.floor(Math.min(...reps, ...parts.map((part) => part * best)) + 1e-9);
}

/** A lane with no set longer than that; who works in it alone goes on with the same set where no rest parts two. */
function within(longest: (best: number) => number, lane: DraftLane, stage: number, draft: DraftPlan): DraftLane {
  const turns = lane.turns.map((turn): DraftTurn => {
    const { who, size } = turn;
    const bests = who.map((name) => draft.best(name, stage));
    const most = Math.max(1, longest(Math.min(...bests)));
    if (size.kind === "percent" && bests.some((best) => Math.max(...size.percents) * best > 100 * longest(best)))
      return {
        ...turn,
        size: { kind: "reps", steps: [Math.min(most, repsOf((size.percents[0] ?? 1) / 100, Math.min(...bests)))], parts: 1 },
      };
    return size.kind === "reps" ? { ...turn, size: { ...size, steps: size.steps.map((reps) => Math.min(most, reps)) } } : turn;
  });
  const alone = new Set(turns.map(({ who }) => who.join())).size === 1;
  if (!alone) return { ...lane, turns };
  if (typeof lane.rest === "number") return { ...lane, turns, rest: Math.max(leastBreakS, lane.rest) };
  return { ...lane, turns, rest: leastBreakS, waits: turns[0]?.who ?? [] };
}
