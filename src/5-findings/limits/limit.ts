import type { RuleLine } from "../../3-plan/ast.js";
import type { Value, Word } from "../../3-plan/parts.js";
import { athleteNamed } from "../../3-plan/names.js";
import { type PlanSpec, repsInPass, turnsOf } from "../../3-plan/plan.js";
import { dimensionOf } from "../../3-plan/values.js";
import { toBase } from "../../0-base/quantity.js";
import type { Abilities } from "../../4-timeline/ability.js";
import type { Segment, TurnRun } from "../../4-timeline/timeline.js";

/** A run of a plan, as far as limits look at it: a finding gives the timeline, the search what it has simulated. */
export interface Run {
  readonly plan: PlanSpec;
  readonly abilities: Abilities;
  /** The block of each stage that ran, with the reps of each athlete. */
  readonly stages: readonly {
    readonly stage: number;
    readonly name: string;
    readonly step: number;
    readonly repsBy: Readonly<Record<string, number>>;
  }[];
  readonly turns: readonly TurnRun[];
  /** By athlete, in order of time, without a gap. */
  readonly segments: readonly Segment[];
}

/** Where a limit is broken: by whom, what was measured, how far past it, and at which of the plan's lines. */
export interface Breach {
  readonly limit: LimitInForce;
  readonly who: string;
  readonly value: number;
  /** In seconds, reps, or points of percent: above 0. */
  readonly over: number;
  readonly step: number;
  readonly atS: number;
  /** What the value should have been, where that is not the limit itself: an even share. */
  readonly due: number;
  /** The stage it is about; null where it is about the whole plan. */
  readonly stage: number | null;
}

/** One kind of limit: how it is written, which of two is the stricter, and its one measure. */
export interface LimitKind {
  readonly id: string;
  /** Words of a rule line; P a share, T a time, N a number of reps, NAME an athlete. */
  readonly forms: readonly string[];
  readonly stricter: "less" | "more";
  readonly measure: (run: Run, limits: readonly LimitInForce[], declared: readonly LimitInForce[]) => readonly Breach[];
}

/** A limit as a line sets it: shares as fractions, times in s. */
export interface Limit {
  readonly kind: LimitKind;
  /** 0 for a limit without a number. */
  readonly value: number;
  /** The athlete it is about; null: everyone. */
  readonly who: Word | null;
}

/** A limit with the place that sets it, in words. */
export interface LimitInForce {
  readonly value: number;
  readonly who: string | null;
  readonly by: string;
  /** True where the published event sets it. */
  readonly published: boolean;
  /** The laxer limits it overrules, in words. */
  readonly over: readonly string[];
}

/** The limit a rule line sets; null for one that has none of the forms. */
export function readLimit({ parts }: RuleLine, kinds: readonly LimitKind[]): Limit | null {
  for (const kind of kinds) {
    for (const form of kind.forms) {
      const found = matched(parts, form.split(" "));
      if (found) return { kind, ...found };
    }
  }
  return null;
}

/** Words of forms: no name, wherever they stand. */
const formWords = new Set(
  "share within at least each hold turn most everyone holds works set unbroken rest between sets tempo gap no miss before of cap in every stage by a change never".split(
    " ",
  ),
);

function matched(parts: readonly (Word | Value)[], form: readonly string[]): { readonly value: number; readonly who: Word | null } | null {
  if (parts.length !== form.length) return null;
  let value = 0;
  let who: Word | null = null;
  for (const [at, wanted] of form.entries()) {
    const part = parts[at];
    if (!part) return null;
    if ("kind" in part) {
      const dimension = dimensionOf(part);
      const fits =
        wanted === "P"
          ? dimension === "share"
          : wanted === "T"
            ? dimension === "time"
            : wanted === "N" && (dimension === "count" || dimension === "number");
      if (!fits) return null;
      value = toBase(part);
    } else if (wanted === "NAME" && !formWords.has(part.text)) who = part;
    else if (part.text !== wanted) return null;
  }
  return { value, who };
}

export interface RuleSource {
  readonly by: string;
  readonly published: boolean;
  readonly rules: readonly RuleLine[];
  /** Those whom the rules may name. */
  readonly athletes: ReadonlyMap<string, unknown>;
}

/** Where a plan's rules come from: its event, its team, itself. */
export function sourcesOf({ event, team, rules }: Pick<PlanSpec, "event" | "team" | "rules">): readonly RuleSource[] {
  const athletes = new Map(team.athletes.map((athlete) => [athlete.name, athlete]));
  return [
    { by: `event ${event.name}`, published: true, rules: event.rules, athletes },
    { by: `team ${team.name}`, published: false, rules: team.rules, athletes },
    { by: "this plan", published: false, rules, athletes },
  ];
}

/** The athlete a limit is about, as declared; null for everyone. */
export function whoseIs({ who }: Limit, athletes: RuleSource["athletes"]): string | null {
  return who && (athleteNamed(who.text, athletes) ?? who.text);
}

/** The strictest limits of a kind: one for everyone, or one for each athlete named. */
export function inForce(sources: readonly RuleSource[], kind: LimitKind): readonly LimitInForce[] {
  const found = new Map<string | null, LimitInForce>();
  for (const { by, published, rules, athletes } of sources) {
    for (const line of rules) {
      const read = readLimit(line, [kind]);
      if (!read) continue;
      const limit: LimitInForce = { value: read.value, who: whoseIs(read, athletes), by, published, over: [] };
      const other = found.get(limit.who);
      const stricter = !other || (kind.stricter === "more" ? limit.value > other.value : limit.value < other.value);
      const [kept, laxer] = stricter ? [limit, other] : [other, limit];
      const over = [...(other?.over ?? []), ...(laxer && laxer.value !== kept.value ? [laxer.by] : [])];
      found.set(limit.who, { ...kept, over });
    }
  }
  return [...found.values()];
}

/** Each stage that was begun, over all its blocks; `step` is the first of them. */
export function stagesIn({ plan, stages }: Pick<Run, "plan" | "stages">): Run["stages"] {
  return plan.event.stages.flatMap((_, index) => {
    const blocks = stages.filter(({ stage }) => stage === index);
    const [first] = blocks;
    if (!first || blocks.length === 1) return blocks;
    const repsOf = (name: string): number => blocks.reduce((sum, { repsBy }) => sum + (repsBy[name] ?? 0), 0);
    return [{ ...first, repsBy: Object.fromEntries(plan.team.athletes.map(({ name }) => [name, repsOf(name)])) }];
  });
}

/**
 * Which turns may be shorter than a rule wants: those that the target, the cap or a window's end cut, and the one that
 * reaches the target.
 */
export function mayBeShort({ plan, turns }: Pick<Run, "plan" | "turns">): (turn: TurnRun) => boolean {
  const turnOf = new Map(turnsOf(plan.steps).map((turn) => [turn.id, turn]));
  const ends = plan.event.stages.map(({ target }, stage) => {
    const own = turns.filter((turn) => turn.stage === stage);
    const reached = target !== null && own.reduce((sum, { counted }) => sum + counted, 0) >= target;
    return reached ? Math.max(...own.map(({ endS }) => endS)) : Number.POSITIVE_INFINITY;
  });
  return ({ step, pass, stage, endS, athletes }) => {
    const [work] = turnOf.get(step)?.works ?? [];
    const cut = work && athletes.some(({ reps }, place) => reps < repsInPass(work, place, pass));
    return Boolean(cut) || endS >= (ends[stage] ?? Number.POSITIVE_INFINITY) - slight;
  };
}

/** A breach in the whole plan, at its head. */
export function inPlan(limit: LimitInForce, who: string, value: number, over: number): Breach {
  return { limit, who, value, over, step: 0, atS: 0, due: limit.value, stage: null };
}

export const slight = 1e-6;
