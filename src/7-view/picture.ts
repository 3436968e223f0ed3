import { clock, counted } from "../0-base/quantity.js";
import type { LogSpec } from "../3-plan/log.js";
import type { PlanResult } from "../4-timeline/kept.js";
import type { Activity } from "../4-timeline/timeline.js";
import type { Days } from "../4-timeline/spread.js";
import { scoreWords } from "./block-answers.js";
import { type ReservePoint, reserveLine } from "./reserve-line.js";
import { type SpreadPicture, spreadPicture } from "./spread-picture.js";

/** One piece of a lane. `offset` is where its line begins, from the start of the plan's block; null where no line says it. */
export interface PicturePiece {
  readonly activity: Activity;
  readonly startS: number;
  readonly endS: number;
  readonly offset: number | null;
  /** Of work, which of the picture's movements it is. */
  readonly movement: number;
  /** What it is, in words. */
  readonly words: string;
}

/** A plan drawn: a lane for each athlete over time. Plain data. */
export interface Picture {
  /** The plan's. */
  readonly name: string;
  readonly title: string;
  readonly score: string;
  readonly endS: number;
  readonly capS: number | null;
  readonly stages: readonly { readonly name: string; readonly startS: number; readonly endS: number }[];
  readonly lanes: readonly PictureLane[];
  /** The movements of its rounds, told apart; one where there are no rounds. */
  readonly movements: readonly string[];
  /** What a log saw, at its time: of an athlete, or of all. */
  readonly seen: readonly SeenMark[];
  /** Null until its days are drawn. */
  readonly spread: SpreadPicture | null;
  /** The untested recovery that the score hangs on, in words; null where there is none, or nobody has looked yet. */
  readonly hangsOn: string | null;
}

export interface SeenMark {
  readonly atS: number;
  /** Null where it is of all. */
  readonly athlete: string | null;
  readonly words: string;
}

export interface PictureLane {
  readonly name: string;
  readonly totals: string;
  /** Of all reps, 0…1. */
  readonly share: number;
  readonly pieces: readonly PicturePiece[];
  readonly reserve: readonly ReservePoint[];
}

const doing: Readonly<Record<Activity, string>> = { work: "works", hold: "holds", rest: "rests", handover: "changes over", wait: "waits" };

/** Null for a plan without a timeline. */
export function pictureOf(
  { resolved, timeline }: PlanResult,
  days: Days | null,
  hangsOn: string | null = null,
  log: LogSpec | null = null,
): Picture | null {
  const { plan } = resolved;
  if (!plan || !timeline) return null;
  const seen = log ? seenMarks(log) : [];
  const movements = [...new Set(plan.event.stages.flatMap(({ items, rounds }) => (rounds ? items.map(({ movement }) => movement) : [])))];
  return {
    name: plan.name,
    movements: movements.length > 1 ? movements : ["work"],
    title: log ? `${plan.name} as planned, and as logged on ${log.date}` : `${plan.name} for ${plan.event.name}`,
    seen,
    score: `${scoreWords(timeline.score)} on paper`,
    endS: Math.max(timeline.endS, ...seen.map(({ atS }) => atS)),
    capS: timeline.capS,
    stages: timeline.stages.map(({ name, startS, endS }) => ({ name, startS, endS })),
    lanes: timeline.athletes.map(({ name, reps, work, hold, share }) => ({
      name,
      share,
      reserve: reserveLine(timeline, name),
      totals: `${counted(reps, "rep")}; works ${clock(work)}${hold > 0 ? `, holds ${clock(hold)}` : ""}`,
      pieces: timeline.segments
        .filter(({ athlete }) => athlete === name)
        .map(({ activity, startS, endS, step, subject, reps: done }): PicturePiece => ({
          activity,
          startS,
          endS,
          offset: step === null || log ? null : (plan.nodes[step]?.span.from ?? null),
          movement: Math.max(0, movements.indexOf(subject ?? "")),
          words: `${clock(startS)}–${clock(endS)} ${name} ${doing[activity]}${done > 0 ? `: ${done} ${subject ?? ""}` : subject ? `: ${subject}` : ""}`,
        })),
    })),
    spread: days && spreadPicture(days),
    hangsOn,
  };
}

/** What a log has a time for. */
function seenMarks({ seen }: LogSpec): readonly SeenMark[] {
  return seen.flatMap((one): readonly SeenMark[] => {
    switch (one.kind) {
      case "done":
        return [{ atS: one.atS, athlete: null, words: `${one.stage} done ${clock(one.atS)}` }];
      case "finish":
        return [{ atS: one.atS, athlete: null, words: `finish ${clock(one.atS)}` }];
      case "reps":
        return [{ atS: one.atS, athlete: null, words: `${one.reps} at ${clock(one.atS)}` }];
      case "dropped":
        return [{ atS: one.atS, athlete: one.athlete, words: `${one.athlete} dropped the hold at ${clock(one.atS)}` }];
      default:
        return [];
    }
  });
}
