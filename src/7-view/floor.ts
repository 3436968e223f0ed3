import { clock } from "../0-base/quantity.js";
import type { Constants } from "../3-plan/assumptions.js";
import { type PlanSpec, type Turn, turnsOf } from "../3-plan/plan.js";
import type { Timeline } from "../4-timeline/timeline.js";

/** One turn of a plan as the floor is told of it. Times in s from the start, as planned. */
export interface FloorStep {
  readonly startS: number;
  readonly endS: number;
  readonly who: readonly string[];
  /** `7 + 6 sandbag squat`, `a round`. */
  readonly work: string;
  readonly movement: string;
  readonly holders: readonly string[];
  readonly stage: string;
  /** What the stage stands at when it ends, of its target. */
  readonly until: number;
  readonly target: number | null;
  readonly cues: readonly string[];
}

/** A plan made ready for the floor: its turns in order of time, and words for times. Plain data. */
export interface FloorPlan {
  readonly plan: string;
  readonly event: string;
  readonly endS: number;
  readonly capS: number | null;
  readonly steps: readonly FloorStep[];
  readonly calls: readonly { readonly atS: number; readonly text: string }[];
  /** What a miss, a dropped hold and a no-rep cost, in s. */
  readonly costs: { readonly miss: number; readonly drop: number; readonly noRep: number };
}

export function floorOf(plan: PlanSpec, timeline: Timeline, constants: Constants): FloorPlan {
  const turns = new Map(turnsOf(plan.steps).map((turn) => [turn.id, turn] as const));
  const steps = timeline.turns.flatMap((run, at): readonly FloorStep[] => {
    const turn = turns.get(run.step);
    const spec = plan.event.stages[run.stage];
    if (!turn || !spec) return [];
    return [{
      startS: run.startS, endS: run.endS, who: turn.who, work: workWords(turn, run.athletes.map(({ reps }) => reps)), movement: turn.works[0]?.movement ?? "", holders: run.holders, stage: spec.name,
      until: timeline.standings[at]?.units ?? 0, target: spec.target, cues: plan.cues.filter(({ step, fromS }) => step === run.step && fromS === null).map(({ text }) => text),
    }];
  });
  const calls = plan.cues.flatMap(({ text, fromS }) => (fromS === null ? [] : [{ atS: fromS < 0 ? Math.max(0, timeline.endS + fromS) : fromS, text }]));
  const costs = { miss: constants["miss cost"] + constants.cycle, drop: constants["miss cost"] + constants.regrip, noRep: constants.cycle };
  return { plan: plan.name, event: plan.event.name, endS: timeline.endS, capS: timeline.capS, steps: steps.sort((a, b) => a.startS - b.startS), calls, costs };
}

function workWords({ works, rounds, who }: Turn, reps: readonly number[]): string {
  if (rounds !== null) return rounds === 1 ? "a round" : `${rounds} rounds`;
  const [work] = works;
  const same = work?.rhythm !== "each" || new Set(reps).size === 1;
  return `${same ? `${reps[0] ?? ""}${who.length > 1 && work?.rhythm === "each" ? " each" : ""}` : reps.join(" + ")} ${work?.movement ?? ""}`;
}

/** What was marked on the floor, s after the start. */
export type Mark =
  | { readonly kind: "change"; readonly atS: number }
  | { readonly kind: "miss" | "drop" | "no-rep"; readonly atS: number; readonly who: string }
  | { readonly kind: "reps"; readonly atS: number; readonly count: number };

/** How the event stands at a moment, the rest of the plan moved by what was marked. */
export interface FloorState {
  /** Turns under way, or about to begin; several where lanes run side by side. Empty when all is done. */
  readonly now: readonly FloorStep[];
  readonly next: FloorStep | null;
  /** Seconds to the next change, 0 when it is overdue. */
  readonly changeInS: number;
  /** How much later than planned, s; negative is earlier. */
  readonly lateS: number;
  readonly expectedEndS: number;
  /** What the stage should stand at now. */
  readonly standing: number;
  readonly done: boolean;
}

/**
 * The plan on the floor. It goes on by time; what is marked moves all that is still to come: a change by how far it was from
 * the planned one that is nearest, a miss, a dropped hold or a no-rep by what it costs, reps by when they were planned.
 */
export function floorAt(plan: FloorPlan, marks: readonly Mark[], nowS: number): FloorState {
  const { steps } = plan;
  const lateS = lateBy(plan, marks);
  const plannedS = nowS - lateS;
  const open = steps.filter(({ endS }) => endS > plannedS + instantS);
  const [first] = open;
  const begun = open.filter(({ startS }) => startS <= plannedS + instantS);
  const now = begun.length > 0 ? begun : first ? [first] : [];
  const next = open.find((step) => !now.includes(step)) ?? null;
  const current = [...now].sort((a, b) => a.endS - b.endS)[0];
  return {
    now,
    next,
    changeInS: current ? current.endS - plannedS : 0,
    lateS,
    expectedEndS: Math.min(plan.endS + lateS, plan.capS ?? Number.POSITIVE_INFINITY),
    standing: current ? standingAt(steps, current, plannedS) : (steps.at(-1)?.until ?? 0),
    done: current === undefined || (plan.capS !== null && nowS >= plan.capS),
  };
}

const instantS = 1e-6;

function lateBy({ steps, costs }: FloorPlan, marks: readonly Mark[]): number {
  let [lateS, changedS] = [0, Number.NEGATIVE_INFINITY];
  for (const mark of marks) {
    switch (mark.kind) {
      case "change": {
        const ends = steps.map(({ endS }) => endS).filter((endS) => endS > changedS + instantS);
        const nearest = ends.reduce((best, endS) => (Math.abs(endS + lateS - mark.atS) < Math.abs(best + lateS - mark.atS) ? endS : best), ends[0] ?? 0);
        [lateS, changedS] = [mark.atS - nearest, nearest];
        break;
      }
      case "reps": lateS = mark.atS - plannedFor(steps, mark.atS - lateS, mark.count); break;
      case "miss": lateS += costs.miss; break;
      case "drop": lateS += costs.drop; break;
      case "no-rep": lateS += costs.noRep; break;
    }
  }
  return lateS;
}

/** When the plan has so many done, in the stage that is under way at a planned moment. */
function plannedFor(steps: readonly FloorStep[], plannedS: number, count: number): number {
  const under = steps.find(({ endS }) => endS > plannedS) ?? steps.at(-1);
  const own = steps.filter(({ stage }) => stage === under?.stage);
  const at = own.findIndex(({ until }) => until >= count);
  const step = own[at];
  if (!step) return own.at(-1)?.endS ?? 0;
  const before = own[at - 1]?.until ?? 0;
  return step.startS + ((count - before) / Math.max(1, step.until - before)) * (step.endS - step.startS);
}

function standingAt(steps: readonly FloorStep[], step: FloorStep, plannedS: number): number {
  const before = steps.slice(0, steps.indexOf(step)).findLast(({ stage }) => stage === step.stage)?.until ?? 0;
  const share = Math.min(1, Math.max(0, (plannedS - step.startS) / Math.max(1e-9, step.endS - step.startS)));
  return Math.floor(before + share * (step.until - before));
}

/** What was marked as a log block of the language; `date` and `time` are those of the start. */
export function logText(plan: FloorPlan, marks: readonly Mark[], { date, time, endS }: { readonly date: string; readonly time: string; readonly endS: number }): string {
  const lines = marks.flatMap((mark, at): readonly string[] => {
    const { now, standing } = floorAt(plan, marks.slice(0, at), mark.atS);
    switch (mark.kind) {
      case "change": {
        const then = mark.atS - lateBy(plan, marks.slice(0, at + 1));
        const step = plan.steps.find(({ endS: changesS }) => Math.abs(changesS - then) < instantS);
        return step && step.target !== null && step.until >= step.target ? [`${named(step.stage)} done ${clock(mark.atS)}`] : [];
      }
      case "miss": return [`${mark.who} broke at ${standing} ${now[0]?.movement ?? ""}`.trimEnd()];
      case "drop": return [`${mark.who} dropped the hold at ${clock(mark.atS)}`];
      case "no-rep": return [`${mark.who} no-rep 1`];
      case "reps": return [];
    }
  });
  return `log ${named(plan.plan)} on ${date} ${time}\n${[...lines, `finish ${clock(endS)}`].map((line) => `  ${line}\n`).join("")}`;
}

function named(name: string): string {
  return /^[\p{L}\p{N}][\p{L}\p{N} '-]*$/u.test(name) ? name : `"${name}"`;
}
