import { clock } from "../0-base/quantity.js";
import type { Constants } from "../3-plan/assumptions.js";
import { type PlanSpec, type Turn, turnsOf } from "../3-plan/plan.js";
import type { Abilities } from "../4-timeline/ability.js";
import { Follower } from "../4-timeline/follow.js";
import { simulate } from "../4-timeline/simulate.js";
import { type DraftPlan, planOf } from "../6-search/draft.js";
import type { RestOfPlan } from "../6-search/rest.js";
import type { Timeline } from "../4-timeline/timeline.js";

/** One turn of a plan as the floor is told of it. Times in s from the start, as planned. */
export interface FloorStep {
  readonly startS: number;
  readonly endS: number;
  readonly who: readonly string[];
  /** `7 + 6 sandbag squat`, `a round`. */
  readonly work: string;
  readonly movement: string;
  /** By who of it. */
  readonly reps: readonly number[];
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
  /** What it comes to, s or reps, as it stands here and on paper. */
  readonly score: { readonly kind: "time" | "reps"; readonly value: number; readonly paper: number };
  /**
   * Marks that its times know already; the planned end of the last change among them, and how late the last was beyond
   * what the model can follow, s.
   */
  readonly known: { readonly marks: number; readonly changedS: number; readonly lateS: number };
  readonly capS: number | null;
  readonly steps: readonly FloorStep[];
  readonly calls: readonly { readonly atS: number; readonly text: string }[];
  /** What a miss, a dropped hold and a no-rep cost, in s. */
  readonly costs: { readonly miss: number; readonly drop: number; readonly noRep: number };
}

/** A plan as it stands on paper, before anything is marked. */
export function floorOf(plan: PlanSpec, timeline: Timeline, constants: Constants): FloorPlan {
  const turns = new Map(turnsOf(plan.steps).map((turn) => [turn.id, turn] as const));
  const steps = timeline.turns.flatMap((run, at): readonly FloorStep[] => {
    const turn = turns.get(run.step);
    const spec = plan.event.stages[run.stage];
    if (!turn || !spec) return [];
    return [
      {
        startS: run.startS,
        endS: run.endS,
        who: turn.who,
        work: workWords(
          turn,
          run.athletes.map(({ reps }) => reps),
        ),
        movement: turn.works[0]?.movement ?? "",
        reps: run.athletes.map(({ reps }) => reps),
        holders: run.holders,
        stage: spec.name,
        until: timeline.standings[at]?.units ?? 0,
        target: spec.target,
        cues: plan.cues.filter(({ step, fromS }) => step === run.step && fromS === null).map(({ text }) => text),
      },
    ];
  });
  const calls = plan.cues.flatMap(({ text, fromS }) =>
    fromS === null ? [] : [{ atS: fromS < 0 ? Math.max(0, timeline.endS + fromS) : fromS, text }],
  );
  const costs = { miss: constants["miss cost"] + constants.cycle, drop: constants["miss cost"] + constants.regrip, noRep: constants.cycle };
  const { kind, value } = timeline.score;
  return {
    plan: plan.name,
    event: plan.event.name,
    endS: timeline.endS,
    score: { kind, value, paper: value },
    known: { marks: 0, changedS: Number.NEGATIVE_INFINITY, lateS: 0 },
    capS: timeline.capS,
    steps: steps.sort((a, b) => a.startS - b.startS),
    calls,
    costs,
  };
}

/** A plan on the floor, timed again by the simulator after each mark. */
export class FloorRun {
  private readonly onPaper: FloorPlan;
  /** The plan as it goes, for who asks how everybody stands. */
  follower: Follower;
  private floor: FloorPlan;
  private known: readonly Mark[] = [];

  constructor(
    private readonly plan: PlanSpec,
    private readonly abilities: Abilities,
    private readonly constants: Constants,
  ) {
    this.follower = new Follower(plan, abilities, constants);
    this.onPaper = floorOf(plan, this.follower.timeline, constants);
    this.floor = this.onPaper;
  }

  /** The plan after some marks; those that were known before cost nothing again. */
  after(marks: readonly Mark[]): FloorPlan {
    if (!this.known.every((mark, at) => JSON.stringify(mark) === JSON.stringify(marks[at]))) {
      this.follower = new Follower(this.plan, this.abilities, this.constants);
      [this.floor, this.known] = [this.onPaper, []];
    }
    for (const mark of marks.slice(this.known.length)) this.take(mark);
    return this.floor;
  }

  private take(mark: Mark): void {
    const { steps, known, costs } = this.floor;
    const turn =
      mark.kind === "change"
        ? changeAt(this.floor, known.changedS, known.lateS, mark.atS)
        : steps.findIndex(({ endS }) => endS > mark.atS - known.lateS + instantS);
    const step = steps[turn];
    const endS = step && (mark.kind === "change" ? mark.atS : step.endS + moreS(mark, steps, costs, known.lateS));
    if (step && endS !== undefined) this.follower.end({ turn, endS });
    this.known = [...this.known, mark];
    const { kind, value } = this.follower.timeline.score;
    const timed = floorOf(this.plan, this.follower.timeline, this.constants);
    const ended = timed.steps[turn];
    const changedS = mark.kind === "change" ? (ended?.endS ?? known.changedS) : known.changedS;
    const lateS = ended && endS !== undefined ? endS - ended.endS : known.lateS;
    this.floor = {
      ...timed,
      score: { kind, value, paper: this.onPaper.score.value },
      known: { marks: this.known.length, changedS, lateS },
    };
  }
}

/** What the floor is told of another plan for the rest: the turns that are done as they were, then its own. */
export function floorWithRest(
  floor: FloorPlan,
  { plan, atS, start, done }: RestOfPlan,
  draft: DraftPlan,
  abilities: Abilities,
  constants: Constants,
): FloorPlan {
  const own = planOf(draft, plan.name);
  const timeline = simulate(own, abilities, constants, { from: start.condition });
  const { steps, endS } = floorOf(own, timeline, constants);
  const targets = new Map(floor.steps.map((step) => [step.stage, step.target] as const));
  const first = plan.event.stages[0]?.name;
  const later = steps.map((step): FloorStep => ({
    ...step,
    startS: step.startS + atS,
    endS: step.endS + atS,
    until: step.until + (step.stage === first ? done : 0),
    target: targets.get(step.stage) ?? step.target,
  }));
  const before = floor.steps.filter(({ startS }) => startS < atS - instantS);
  const had = before.reduce(
    (sum, step, at) => sum + step.until - (before.slice(0, at).findLast((one) => one.stage === step.stage)?.until ?? 0),
    0,
  );
  const { kind, paper } = floor.score;
  const value = kind === "time" ? timeline.score.value + atS : had + timeline.score.value;
  return {
    ...floor,
    steps: [...before, ...later],
    endS: endS + atS,
    score: { kind, value, paper },
    known: { ...floor.known, changedS: atS, lateS: 0 },
  };
}

/** By how much a mark that is no change makes the turn under way longer, s. */
function moreS(mark: Exclude<Mark, { kind: "change" }>, steps: readonly FloorStep[], costs: FloorPlan["costs"], lateS: number): number {
  switch (mark.kind) {
    case "miss":
      return costs.miss;
    case "drop":
      return costs.drop;
    case "no-rep":
      return costs.noRep;
    case "reps":
      return mark.atS - lateS - plannedFor(steps, mark.atS - lateS, mark.count);
  }
}

/** The turn, of those that end later than the last change, whose planned end is nearest to a moment; -1 where there is none. */
function changeAt({ steps }: FloorPlan, changedS: number, lateS: number, atS: number): number {
  const offs = steps.map(({ endS }) => (endS > changedS + instantS ? Math.abs(endS + lateS - atS) : Number.POSITIVE_INFINITY));
  const least = Math.min(...offs);
  return Number.isFinite(least) ? offs.indexOf(least) : -1;
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
  /** How much later than its times say, s; negative is earlier. */
  readonly lateS: number;
  readonly expectedEndS: number;
  /** How much worse than on paper it will be, in s or reps; negative is better. */
  readonly behind: number;
  /** What the stage should stand at now. */
  readonly standing: number;
  readonly done: boolean;
}

/**
 * The plan on the floor. It goes on by time; what is marked, and its times do not know yet, moves all that is still to come: a
 * change by how far it was from the planned one that is nearest, a miss, a dropped hold or a no-rep by what it costs, reps by when
 * they were planned.
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
  const { kind, value, paper } = plan.score;
  return {
    now,
    next,
    changeInS: current ? current.endS - plannedS : 0,
    lateS,
    expectedEndS: Math.min(plan.endS + lateS, plan.capS ?? Number.POSITIVE_INFINITY),
    behind: kind === "time" ? value + lateS - paper : paper - value,
    standing: current ? standingAt(steps, current, plannedS) : (steps.at(-1)?.until ?? 0),
    done: current === undefined || (plan.capS !== null && nowS >= plan.capS),
  };
}

const instantS = 1e-6;
/** The simulator follows what was seen to this. */
const followedS = 0.1;

/** How late the plan is beyond what its times know, by the marks that came since. */
function lateBy(plan: FloorPlan, marks: readonly Mark[]): number {
  const { steps, costs, known } = plan;
  let { lateS, changedS } = known;
  for (const mark of marks.slice(known.marks)) {
    if (mark.kind === "change") {
      const nearest = steps[changeAt(plan, changedS, lateS, mark.atS)]?.endS ?? 0;
      [lateS, changedS] = [mark.atS - nearest, nearest];
    } else lateS += moreS(mark, steps, costs, lateS);
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
export function logText(
  plan: FloorPlan,
  marks: readonly Mark[],
  {
    date,
    time,
    endS,
    felt = null,
    note = "",
    handoverS = null,
  }: {
    readonly date: string;
    readonly time: string;
    readonly endS: number;
    readonly felt?: number | null;
    readonly note?: string;
    readonly handoverS?: number | null;
  },
): string {
  const lines = marks.flatMap((mark, at): readonly string[] => {
    const before = marks.slice(0, at);
    const { now } = floorAt(plan, before, mark.atS);
    const plannedS = mark.atS - lateBy(plan, before);
    switch (mark.kind) {
      case "change": {
        const then = mark.atS - lateBy(plan, marks.slice(0, at + 1));
        const step = plan.steps.find(({ endS: changesS }) => Math.abs(changesS - then) < followedS);
        return step && step.target !== null && step.until >= step.target ? [`${named(step.stage)} done ${clock(mark.atS)}`] : [];
      }
      case "miss": {
        const movement = now.find(({ who }) => who.includes(mark.who))?.movement ?? "";
        return [`${mark.who} broke at ${ownReps(plan.steps, mark.who, movement, plannedS)} ${movement}`.trimEnd()];
      }
      case "drop":
        return [`${mark.who} dropped the hold at ${clock(mark.atS)}`];
      case "no-rep":
        return [`${mark.who} no-rep 1`];
      case "reps":
        return [`reps at ${clock(mark.atS)} ${boardBefore(plan.steps, now[0]?.stage ?? "") + mark.count}`];
    }
  });
  const after = [
    ...(handoverS === null ? [] : [`handover about ${handoverS} s`]),
    ...(felt === null ? [] : [`felt ${felt}`]),
    ...(note.trim() === "" ? [] : [`note ${note.trim().replace(/\s+/g, " ")}`]),
  ];
  return `log ${named(plan.plan)} on ${date} ${time}\n${[...lines, ...after, `finish ${clock(endS)}`].map((line) => `  ${line}\n`).join("")}`;
}

function named(name: string): string {
  return /^[\p{L}\p{N}][\p{L}\p{N} '-]*$/u.test(name) ? name : `"${name}"`;
}

/** Reps of a movement that somebody has done by a planned moment. */
function ownReps(steps: readonly FloorStep[], athlete: string, movement: string, plannedS: number): number {
  const own = steps.filter((step) => step.who.includes(athlete) && step.movement === movement && step.startS < plannedS);
  return Math.floor(
    own.reduce(
      (sum, { who, reps, startS, endS }) =>
        sum + (reps[who.indexOf(athlete)] ?? 0) * Math.min(1, (plannedS - startS) / Math.max(1e-9, endS - startS)),
      0,
    ) + instantS,
  );
}

/** What the stages before one have put on the board. */
function boardBefore(steps: readonly FloorStep[], stage: string): number {
  const first = steps.findIndex((step) => step.stage === stage);
  const before = new Map(steps.slice(0, Math.max(0, first)).map((step) => [step.stage, step.until]));
  return [...before.values()].reduce((sum, until) => sum + until, 0);
}
