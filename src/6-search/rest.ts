import { randomLcg } from "d3-random";
import type { Constants } from "../3-plan/assumptions.js";
import type { PlanSpec, Step, Turn } from "../3-plan/plan.js";
import type { Abilities } from "../4-timeline/ability.js";
import type { Follower } from "../4-timeline/follow.js";
import type { TurnRun } from "../4-timeline/timeline.js";
import { Climb, type Manner } from "./climb.js";
import { draftOf } from "./draft.js";
import type { JudgedDraft } from "./shelf.js";
import { usualRisk } from "./suggest.js";

/** What is left of a plan from a moment on: a plan of its own, and where it starts. */
export interface RestOfPlan {
  readonly plan: PlanSpec;
  /** s from the event's start. */
  readonly atS: number;
  readonly start: NonNullable<Manner["start"]>;
  /** Units of its first stage that are done. */
  readonly done: number;
}

/** A rest that is shorter than this is not worth another plan, s. */
const leastS = 20;

/**
 * What is left of a plan after the turns that are under way at a moment, as the same turns from the one that is due;
 * null where too little is left, or where the rest is no plan of its own: in a window, in the middle of a round.
 */
export function restFrom(follower: Follower, nowS: number): RestOfPlan | null {
  const { plan, turns, timeline } = follower;
  const { event } = plan;
  const under = turns.filter(({ startS, endS }) => startS <= nowS && endS > nowS);
  const endS = Math.max(nowS, ...under.map((run) => run.endS));
  const next = turns.find(({ startS }) => startS >= endS - 1e-6);
  if (!next || timeline.endS - endS < leastS || event.windows.length > 0) return null;
  const atS = next.startS - next.waitedS;
  const { condition, stages } = follower.at(atS);
  const doneIn = (stage: number): number => stages.find(({ index }) => index === stage)?.tally.units ?? 0;
  const stage = event.stages.findIndex(({ target }, at) => target === null || doneIn(at) < target);
  if (stage < 0 || (event.stages[stage]?.rounds && !wholeRounds(plan.steps))) return null;
  const done = event.stages[stage]?.target === null ? 0 : doneIn(stage);
  const left = event.stages
    .slice(stage)
    .map((spec, at) => (at === 0 && spec.target !== null ? { ...spec, target: spec.target - done } : spec));
  const steps = goneOn(
    plan.steps,
    stage,
    next,
    turns.filter(({ startS }) => startS < atS),
  );
  if (!steps) return null;
  const repsBy = stages.find(({ index }) => index === stage)?.repsBy ?? [];
  return {
    plan: { ...plan, event: { ...event, stages: left, capS: event.capS === null ? null : event.capS - atS }, steps, cues: [] },
    atS,
    start: { condition, repsBy: [...repsBy] },
    done,
  };
}

function wholeRounds(steps: readonly Step[]): boolean {
  return steps.every((step) =>
    step.kind === "turn"
      ? step.rounds !== null
      : "body" in step
        ? wholeRounds(step.body)
        : step.kind !== "lanes" || step.lanes.every(({ body }) => wholeRounds(body)),
  );
}

/** A plan's steps from a stage on, numbered from there, the stage's own begun where it stands; null where that is not a repeat. */
function goneOn(steps: readonly Step[], stage: number, next: TurnRun, before: readonly TurnRun[]): readonly Step[] | null {
  const bare = !steps.some(({ kind }) => kind === "stage");
  if (bare) return turned(steps, next, before);
  const left = steps.flatMap((step): readonly Step[] =>
    step.kind === "stage" && step.stage >= stage ? [{ ...step, stage: step.stage - stage }] : [],
  );
  const [first, ...others] = left;
  const body = first?.kind === "stage" ? turned(first.body, next, before) : null;
  if (first?.kind !== "stage" || !body) return null;
  // A single stage needs no block of its own.
  return others.length === 0 ? body : [{ ...first, body }, ...others];
}

/** A repeat's lines, the one that is due first; ladders where they stand. Lanes go on as they are. */
function turned(body: readonly Step[], next: TurnRun, done: readonly TurnRun[]): readonly Step[] | null {
  const [repeat, ...others] = body;
  if (repeat?.kind !== "repeat" || others.length > 0) return null;
  const lines = repeat.body.map((line) =>
    line.kind === "turn" ? fromHere(line, done.filter(({ step }) => step === line.id).length) : line,
  );
  const due = lines.findIndex((line) => line.kind === "turn" && line.id === next.step);
  const before = lines[due - 1];
  // A rest of the whole lane is over when the turn is due; one that waits for somebody is not.
  const waits = before?.kind === "rest" && (before.who.length > 0 || before.until.kind === "ready" || before.until.kind === "share");
  const from = waits ? due - 1 : Math.max(0, due);
  return [{ ...repeat, body: [...lines.slice(from), ...lines.slice(0, from)] }];
}

function fromHere(turn: Turn, passes: number): Turn {
  return {
    ...turn,
    works: turn.works.map((work) => ({
      ...work,
      ladders: work.ladders.map((ladder) => ladder.slice(Math.min(passes, ladder.length - 1))),
    })),
  };
}

const stepsAtOnce = 4;
/** Days drawn for a plan that is wanted at once. */
const fewDays = 8;

/** Looks for a better rest: first the rest as planned, then the best so far, for as long as it is asked. Nothing where it is no draft. */
export function* betterRest(
  { plan, start }: RestOfPlan,
  abilities: Abilities,
  constants: Constants,
): Generator<{ readonly planned: JudgedDraft; readonly best: JudgedDraft }, void, void> {
  const draft = draftOf(plan, abilities);
  if (!draft) return;
  const climb = new Climb(draft, abilities, constants, randomLcg(0.5), {
    target: null,
    days: fewDays,
    risk: usualRisk,
    anyLength: false,
    otherCasts: false,
    start,
  });
  const planned = climb.short;
  yield { planned, best: planned };
  climb.open();
  yield { planned, best: climb.short };
  for (const _ of climb.begin(true)) yield { planned, best: climb.short };
  for (;;) {
    climb.climb(stepsAtOnce);
    yield { planned, best: climb.short };
  }
}
