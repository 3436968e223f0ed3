/** A plan made ready for the clock: names resolved, sizes in whole reps, times in seconds. */
import type { Problem } from "../0-base/problem.js";
import type { Span } from "../0-base/span.js";
import type { PlanLine, RuleLine } from "./ast.js";
import type { Category } from "./parts.js";
import type { EventSpec, LoadKg } from "./event.js";
import { athleteNamed } from "./names.js";
import type { Team } from "./world.js";

/** How the athletes of a turn do the work. `each`: each at an own pace. Otherwise one rhythm, and a rep counts once. */
export type Rhythm = "each" | "in sync" | "together";

/** One movement in a turn. */
export interface Work {
  readonly movement: string;
  readonly load: LoadKg | null;
  readonly rhythm: Rhythm;
  /** Reps for each athlete of the turn, pass by pass; the last stays, or the list starts over. */
  readonly ladders: readonly (readonly number[])[];
  readonly again: boolean;
  /** The parts of a set broken on purpose, with the rest between them in s; null unbroken. */
  readonly broken: { readonly parts: readonly number[]; readonly restS: number } | null;
}

/** Steps carry an id: their place among the plan's nodes, which knows their span. So a comment moves no timeline. */
export interface Turn {
  readonly kind: "turn";
  readonly id: number;
  readonly who: readonly string[];
  readonly works: readonly Work[];
  /** How often `works` is done; null for a plain turn. */
  readonly rounds: number | null;
  readonly holders: readonly string[];
  readonly hold: string | null;
  readonly holdLoad: LoadKg | null;
}

export interface Rest {
  readonly kind: "rest";
  readonly id: number;
  /** Empty: everyone of the lane, and the lane waits. Named: their next turn waits, the lane goes on. */
  readonly who: readonly string[];
  readonly until:
    | { readonly kind: "time"; readonly seconds: number }
    | { readonly kind: "share"; readonly fraction: number }
    | { readonly kind: "ready" }
    | { readonly kind: "ratio"; readonly factor: number };
}

export interface Repeat {
  readonly kind: "repeat";
  readonly id: number;
  readonly times: number | null;
  readonly untilS: number | null;
  readonly body: readonly Step[];
}

export interface Lane {
  readonly id: number;
  readonly name: string;
  readonly station: string | null;
  readonly body: readonly Step[];
}

export interface Lanes {
  readonly kind: "lanes";
  readonly lanes: readonly Lane[];
}

/** The work of one of the event's stages, by its index. */
export interface StageBlock {
  readonly kind: "stage";
  readonly id: number;
  readonly stage: number;
  readonly body: readonly Step[];
}

export interface WindowBlock {
  readonly kind: "window";
  readonly id: number;
  readonly window: number;
  readonly body: readonly Step[];
}

export type Step = Turn | Rest | Repeat | Lanes | StageBlock | WindowBlock;

export interface PlanPair {
  readonly name: string;
  readonly athletes: readonly string[];
  readonly span: Span;
}

/** A line of the plan, where its size stands if that is a plain number, and where its holders are named. */
export interface PlanNode {
  readonly span: Span;
  readonly size: Span | null;
  readonly holders: readonly Span[];
}

/** Words for who works in a step (0: the whole plan), or, from a second on, for everybody. */
export interface Cue {
  readonly step: number;
  readonly text: string;
  /** Seconds from the event's start; negative: before its end; null: with the step. */
  readonly fromS: number | null;
}

export interface PlanSpec {
  readonly name: string;
  readonly event: EventSpec;
  readonly team: Team;
  readonly steps: readonly Step[];
  readonly pairs: readonly PlanPair[];
  readonly rules: readonly RuleLine[];
  /** Words for the athletes: never part of what is computed. */
  readonly cues: readonly Cue[];
  /** The lines steps come from, by id. Id 0 is the plan itself. */
  readonly nodes: readonly PlanNode[];
}

/** A plan's line with what it resolved to; `plan` null where event or team are not known. */
export interface ResolvedPlan {
  readonly line: PlanLine;
  readonly plan: PlanSpec | null;
  readonly problems: readonly Problem[];
}

/** An athlete's category; a woman where the team does not know the name, so that a load is never too high. */
export function categoryIn(team: Team, athlete: string): Category {
  return team.athletes.find(({ name }) => name === athlete)?.category ?? "woman";
}

/** Whether a pair is of just these athletes, whatever their order. */
export function isPairOf({ athletes }: PlanPair, who: readonly string[]): boolean {
  return athletes.length === who.length && athletes.every((name) => who.includes(name));
}

/** Whether an event lets two of a team be a pair. */
export function mayBePair({ pairs }: EventSpec, team: Team, one: string, other: string): boolean {
  return pairs === "any" || (pairs === "alike") === (categoryIn(team, one) === categoryIn(team, other));
}

/**
 * How many may work at once; null: all. Who take turns follow one another where the event does not say that more may work, and
 * has no stations, at which some stand side by side.
 */
export function workingIn({ working, alternate, stations, stages }: EventSpec): EventSpec["working"] {
  if (working !== null || alternate === null || stations.length > 0) return working;
  const needsTwo = stages.some(({ items }) => items.some(({ how }) => how !== null));
  return alternate === "pairs" ? { most: 1, pairs: true } : { most: needsTwo ? 2 : 1, pairs: false };
}

/** The names of a team's athletes of a category. */
export function namesOf(team: Team, category: Category): readonly string[] {
  return team.athletes.filter((athlete) => athlete.category === category).map(({ name }) => name);
}

/** An event's order with a team's athletes as they are declared, without those who are not of it. */
export function orderIn({ order }: EventSpec, { athletes }: Team): EventSpec["order"] {
  if (order === null || order === "fixed") return order;
  const declared = new Map(athletes.map((athlete) => [athlete.name, athlete]));
  return order.flatMap((name) => athleteNamed(name, declared) ?? []);
}

/** The kg an athlete of the team uses; null where none is given. */
export function loadFor(team: Team, athlete: string, load: LoadKg | null): number | null {
  return load && load[categoryIn(team, athlete)];
}

/** Every turn and rest of some steps, in the order of the text. */
export function leavesOf(steps: readonly Step[]): readonly (Turn | Rest)[] {
  return steps.flatMap((step): readonly (Turn | Rest)[] => {
    switch (step.kind) {
      case "turn":
      case "rest":
        return [step];
      case "lanes":
        return step.lanes.flatMap(({ body }) => leavesOf(body));
      case "repeat":
      case "stage":
      case "window":
        return leavesOf(step.body);
    }
  });
}

export function turnsOf(steps: readonly Step[]): readonly Turn[] {
  return leavesOf(steps).filter((step) => step.kind === "turn");
}

export function restsOf(steps: readonly Step[]): readonly Rest[] {
  return leavesOf(steps).filter((step) => step.kind === "rest");
}

/** The same steps with other turns and rests: each as `change` gives it, the blocks around them kept. */
export function withLeaves(steps: readonly Step[], change: (leaf: Turn | Rest) => readonly Step[]): readonly Step[] {
  return steps.flatMap((step): readonly Step[] => {
    switch (step.kind) {
      case "turn":
      case "rest":
        return change(step);
      case "lanes":
        return [{ ...step, lanes: step.lanes.map((lane) => ({ ...lane, body: withLeaves(lane.body, change) })) }];
      case "repeat":
      case "stage":
      case "window":
        return [{ ...step, body: withLeaves(step.body, change) }];
    }
  });
}

/** The reps of one athlete (by place in the turn) in a pass, counted from 0. */
export function repsInPass(work: Work, place: number, pass: number): number {
  const ladder = work.ladders[place] ?? [];
  const at = work.again ? pass % Math.max(1, ladder.length) : Math.min(pass, ladder.length - 1);
  return ladder[at] ?? 0;
}
