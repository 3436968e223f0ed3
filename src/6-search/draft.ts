import type { RuleLine } from "../3-plan/ast.js";
import type { How } from "../3-plan/parts.js";
import { areSideBySide, type EventSpec, type StageSpec } from "../3-plan/event.js";
import { loadFor, type PlanPair, type PlanSpec, type Repeat, type StageBlock, type Step, type Turn, type Work } from "../3-plan/plan.js";
import { partOf } from "../3-plan/sizes.js";
import type { Team } from "../3-plan/world.js";
import type { Abilities } from "../4-timeline/ability.js";

/**
 * A set of a turn: reps pass by pass, the last stays, perhaps cut in parts on purpose; or so percentages of each one's best;
 * or one of the event's rounds, with how each of its movements is broken; null: not at all; or reps of one movement of a round
 * that several turns share out, `of` so many.
 */
export type SetSize =
  | FreeSize
  | { readonly kind: "round"; readonly broken: readonly Work["broken"][] }
  | { readonly kind: "item"; readonly item: number; readonly reps: number; readonly of: number };

/** A size that nothing in the event sets. */
export type FreeSize =
  | { readonly kind: "reps"; readonly steps: readonly number[]; readonly parts: number }
  | { readonly kind: "percent"; readonly percents: readonly number[] };

export function isFree(size: SetSize): size is FreeSize {
  return size.kind === "reps" || size.kind === "percent";
}

/** A turn of a plan that is being looked for. */
export interface DraftTurn {
  readonly who: readonly string[];
  readonly size: SetSize;
  readonly holders: readonly string[];
}

/** Turns that follow one another again and again. */
export interface DraftLane {
  readonly station: string | null;
  readonly turns: readonly DraftTurn[];
  /** Seconds before the turns start over, 0 for none; or each turn waits until its athletes are ready; or only the first does. */
  readonly rest: number | "ready" | "first ready";
  /** Of those who work here, whose turn waits until they are ready, while the others go on. */
  readonly waits: readonly string[];
}

/** One stage of the event, or one window of it. */
export interface DraftBlock {
  readonly stage: number;
  readonly window: number | null;
  readonly lanes: readonly DraftLane[];
}

/** A plan that is being looked for: its structure and its numbers, no text yet. */
export interface DraftPlan {
  readonly event: EventSpec;
  readonly team: Team;
  readonly pairs: readonly PlanPair[];
  /** The coach's own, of the plan that is to be bettered. */
  readonly rules: readonly RuleLine[];
  readonly blocks: readonly DraftBlock[];
  /** An athlete's best unbroken set of a movement of a stage: of its first, where none is named. */
  readonly best: (athlete: string, stage: number, item?: number) => number;
}

/** More turns in a repeat are no plan that four people can keep in their heads. */
export const mostTurns = 8;

/** Seconds between the parts of a broken set, at first. */
export const breakS = 5;

/** How the two of a turn work, as a turn's line has to say it. */
export function rhythmOf(stage: StageSpec): How | null {
  return stage.items[0]?.how ?? null;
}

/** What a draft's `best` tells, by the tests of a team. */
export function bestBy(event: EventSpec, team: Team, abilities: Abilities): DraftPlan["best"] {
  const known = new Map<string, number>();
  return (athlete, stage, item = 0) => {
    const key = `${athlete} ${stage} ${item}`;
    const asked = event.stages[stage]?.items[item];
    const found = known.get(key) ?? (asked ? abilities.unbroken(athlete, asked.movement, loadFor(team, athlete, asked.load)).reps : 1);
    known.set(key, found);
    return found;
  };
}

/** Draft → plan, as the reader would make it of the draft's text. */
export function planOf(draft: DraftPlan, name = "Draft"): PlanSpec {
  const { event, team, pairs, rules, blocks } = draft;
  let id = 0;
  const next = (): number => (id += 1);
  const stages = blocks.map(({ stage, lanes }): StageBlock => {
    const bodies = lanes.map((lane) => ({
      id: next(),
      name: lane.station ?? "",
      station: lane.station,
      body: [repeatOf(lane, stage, draft, next)],
    }));
    const body: readonly Step[] = bodies.length === 1 ? (bodies[0]?.body ?? []) : [{ kind: "lanes", lanes: bodies }];
    return { kind: "stage", id: next(), stage, body };
  });
  if (areSideBySide(event)) {
    const lanes = stages.map((block) => ({ id: next(), name: event.stages[block.stage]?.name ?? "", station: null, body: [block] }));
    return { name, event, team, steps: [{ kind: "lanes", lanes }], pairs, rules, cues: [], nodes: [] };
  }
  // A single stage needs no block of its own.
  const bare = (own: readonly StageBlock[]): readonly Step[] => (event.stages.length === 1 ? own.flatMap(({ body }) => body) : own);
  const windows = [...new Set(blocks.map(({ window }) => window))];
  const steps = windows.flatMap((window): readonly Step[] => {
    const own = bare(stages.filter((_, at) => blocks[at]?.window === window));
    return window === null ? own : [{ kind: "window", id: next(), window, body: own }];
  });
  return { name, event, team, steps, pairs, rules, cues: [], nodes: [] };
}

function repeatOf({ turns, rest, waits }: DraftLane, stage: number, draft: DraftPlan, next: () => number): Repeat {
  const spec = draft.event.stages[stage];
  const lines: readonly Step[] = spec ? turns.map((turn) => turnOf(turn, spec, stage, draft, next())) : [];
  const id = next();
  const pause: Step = { kind: "rest", id, who: [], until: typeof rest === "number" ? { kind: "time", seconds: rest } : { kind: "ready" } };
  const body =
    rest === "ready"
      ? lines.flatMap((turn) => [pause, turn])
      : rest === "first ready"
        ? [pause, ...lines]
        : rest > 0
          ? [...lines, pause]
          : lines;
  const own = waits.map((name): Step => ({ kind: "rest", id: next(), who: [name], until: { kind: "ready" } }));
  return { kind: "repeat", id, times: null, untilS: null, body: [...own, ...body] };
}

function turnOf({ who, size, holders }: DraftTurn, spec: StageSpec, stage: number, { best }: DraftPlan, id: number): Turn {
  const items = size.kind === "item" ? spec.items.slice(size.item, size.item + 1) : spec.items;
  const works = items.map(({ movement, load, how, count }, at): Work => {
    const asked = size.kind === "item" ? size.reps : (count ?? 0);
    const ladders = who.map((name) => (isFree(size) ? stepsFor(size, best(name, stage)) : [asked]));
    const broken = size.kind === "round" ? (size.broken[at] ?? null) : brokenSet(size);
    return { movement, load, rhythm: who.length > 1 && how !== null && how !== "shared" ? how : "each", ladders, again: false, broken };
  });
  return {
    kind: "turn",
    id,
    who,
    works,
    rounds: size.kind === "round" ? 1 : null,
    holders,
    hold: spec.hold?.hold ?? null,
    holdLoad: spec.hold?.load ?? null,
  };
}

/** The reps of a size, pass by pass, for somebody with that best set. */
export function stepsFor(size: FreeSize, best: number): readonly number[] {
  return size.kind === "reps" ? size.steps : size.percents.map((percent) => partOf(best, percent / 100));
}

export function brokenSet(size: SetSize): Work["broken"] {
  return size.kind === "reps" ? cutIn(size.steps[0] ?? 1, size.parts) : null;
}

/** A set cut as evenly as it goes, the larger parts first; null where a part would be a single rep. */
export function cutIn(reps: number, parts: number, restS = breakS): Work["broken"] {
  const cut = Math.min(parts, Math.floor(reps / 2));
  return cut < 2 ? null : { parts: evenParts(reps, cut), restS };
}

/** Reps in so many parts, as even as it goes, the larger first. */
export function evenParts(reps: number, parts: number): readonly number[] {
  return Array.from({ length: parts }, (_, at) => Math.floor(reps / parts) + (at < reps % parts ? 1 : 0));
}

/** Plan → draft, where the plan is turns in a repeat without an end, by stage, window or lane; null where it is more than that. */
export function draftOf({ event, team, pairs, rules, steps }: PlanSpec, abilities: Abilities): DraftPlan | null {
  const best = bestBy(event, team, abilities);
  const [first] = steps;
  const side = areSideBySide(event) && first?.kind === "lanes" ? first.lanes.flatMap(({ body }) => body) : steps;
  const bodies = bodiesOf(side, event.stages.length === 1, null);
  const blocks = bodies.map((block): DraftBlock | null => {
    const lanes = block ? lanesOf(block.body, event.stages[block.stage], (name) => best(name, block.stage)) : null;
    return block && lanes ? { stage: block.stage, window: block.window, lanes } : null;
  });
  return blocks.every((block) => block !== null) ? { event, team, pairs, rules, blocks, best } : null;
}

/** The work of each stage, and in which window; null for what is neither. */
function bodiesOf(steps: readonly Step[], single: boolean, window: number | null): readonly (Body | null)[] {
  if (single && !steps.some(({ kind }) => kind === "stage" || kind === "window")) return [{ stage: 0, window, body: steps }];
  return steps.flatMap((step): readonly (Body | null)[] => {
    if (step.kind === "window" && window === null) return bodiesOf(step.body, single, step.window);
    return [step.kind === "stage" ? { stage: step.stage, window, body: step.body } : null];
  });
}

interface Body extends Pick<DraftBlock, "stage" | "window"> {
  readonly body: readonly Step[];
}

function lanesOf(body: readonly Step[], spec: StageSpec | undefined, best: (athlete: string) => number): readonly DraftLane[] | null {
  const [first] = body;
  const own = first?.kind === "lanes" ? first.lanes : [{ station: null, body }];
  const lanes = own.map((lane) => laneOf(lane.station, lane.body, spec, best));
  return body.length === 1 && lanes.every((lane) => lane !== null) ? lanes : null;
}

function laneOf(
  station: string | null,
  [repeat, ...others]: readonly Step[],
  spec: StageSpec | undefined,
  best: (athlete: string) => number,
): DraftLane | null {
  if (repeat?.kind !== "repeat" || repeat.times !== null || repeat.untilS !== null || others.length > 0) return null;
  const own = repeat.body.findIndex((step) => step.kind !== "rest" || step.who.length !== 1 || step.until.kind !== "ready");
  const waits = repeat.body.slice(0, own).flatMap((step) => (step.kind === "rest" ? step.who : []));
  const body = repeat.body.slice(own);
  const pauses = (step: Step | undefined): boolean => step?.kind === "rest" && step.who.length === 0 && step.until.kind === "ready";
  const ready = body.length > 0 && body.every((step, at) => (at % 2 === 0 ? pauses(step) : step.kind === "turn"));
  const firstReady = !ready && pauses(body[0]);
  const last = body.at(-1);
  const restS = !firstReady && last?.kind === "rest" && last.who.length === 0 && last.until.kind === "time" ? last.until.seconds : 0;
  const lines = ready ? body.filter(({ kind }) => kind === "turn") : firstReady ? body.slice(1) : restS > 0 ? body.slice(0, -1) : body;
  const turns = lines.map((step): DraftTurn | null => {
    const [work] = step.kind === "turn" ? step.works : [];
    if (step.kind === "turn" && step.rounds === 1)
      return { who: step.who, size: { kind: "round", broken: step.works.map(({ broken }) => broken) }, holders: step.holders };
    const free = step.kind === "turn" && step.rounds === null && work ? sizeOf(work, step.who.map(best)) : null;
    const size = free && work && spec?.rounds ? partOfRound(free, work.movement, spec) : free;
    return step.kind === "turn" && size ? { who: step.who, size, holders: step.holders } : null;
  });
  return turns.length > 0 && turns.every((turn) => turn !== null)
    ? { station, turns, rest: ready ? "ready" : firstReady ? "first ready" : restS, waits }
    : null;
}

/** One number of one movement of a round; null where it is more than that. */
function partOfRound(size: SetSize, movement: string, { items }: StageSpec): SetSize | null {
  const [reps, ...others] = size.kind === "reps" && size.parts === 1 ? size.steps : [];
  const item = items.findIndex((one) => one.movement === movement);
  return reps !== undefined && others.length === 0 && item >= 0 ? { kind: "item", item, reps, of: items[item]?.count ?? reps } : null;
}

/** The same numbers for all, or the percentages of each one's best that give theirs; null where they are neither. */
function sizeOf({ ladders, again, broken }: Work, bests: readonly number[]): SetSize | null {
  const [first = [1]] = ladders;
  if (again || broken) return null;
  if (ladders.every((ladder) => ladder.join() === first.join())) return { kind: "reps", steps: first, parts: 1 };
  const all = Array.from({ length: 100 }, (_, at) => at + 1);
  const percents = first.map((_, pass) =>
    all.find((part) => ladders.every((ladder, at) => ladder[pass] === stepsFor({ kind: "percent", percents: [part] }, bests[at] ?? 1)[0])),
  );
  return percents.every((percent) => percent !== undefined) ? { kind: "percent", percents } : null;
}

/** The draft with other lanes: each as `change` gives it. */
export function mapLanes(draft: DraftPlan, change: (lane: DraftLane, block: DraftBlock, at: number) => DraftLane): DraftPlan {
  return { ...draft, blocks: draft.blocks.map((block) => ({ ...block, lanes: block.lanes.map((lane, at) => change(lane, block, at)) })) };
}
