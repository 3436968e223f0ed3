import { subjectKey } from "../3-plan/names.js";
import type { Constants } from "../3-plan/assumptions.js";
import { type Lanes, loadFor, type PlanSpec, type Repeat, type Rest, type Step, type Turn, type Work } from "../3-plan/plan.js";
import type { Abilities } from "./ability.js";
import type { Body } from "./crew.js";
import { afterHolding } from "./models/hold.js";
import { left, recover, restUntil, shortest } from "./models/reserve.js";
import { gapless, totalsOf } from "./segments.js";
import type { Activity, Drop, Miss, RepeatRun, RestRun, Segment, StageRun, Timeline, TurnRun } from "./timeline.js";
import { type Grip, isReady, runSet, type SetRun } from "./turn.js";

/** The end of a plan that has no cap and no end: half a day. */
const horizonS = 43_200;
/** More turns than any plan can mean. */
const mostTurns = 20_000;
const hair = 1e-9;

/**
 * plan → timeline. Discrete events with closed forms between them; the same input gives the same output to the bit.
 * `ignoreCap` asks how long the plan would take if nothing cut it.
 */
export function simulate(plan: PlanSpec, abilities: Abilities, constants: Constants, { ignoreCap = false } = {}): Timeline {
  return new Clock(plan, abilities, constants, ignoreCap ? null : plan.event.capS).run();
}

/** Where one lane stands. */
interface LaneState {
  atS: number;
  workers: readonly string[];
  holders: readonly string[];
  /** What the lane's next turn waits for. */
  until: Rest["until"] | null;
}

/** What a stage has so far. `units` are what its target counts, with the time each was done. */
interface StageState {
  readonly index: number;
  readonly step: number;
  readonly startS: number;
  endS: number;
  readonly target: number | null;
  units: number[];
  reps: number;
  rounds: number;
  repsBy: Record<string, number>;
}

class Clock {
  private bodies = new Map<string, Body>();
  private grips = new Map<string, Grip>();
  private passes = new Map<number, number>();
  private waits = new Map<string, { readonly until: Rest["until"]; readonly fromS: number }>();
  private segments: Segment[] = [];
  private turns: TurnRun[] = [];
  private rests: RestRun[] = [];
  private repeats: RepeatRun[] = [];
  private stages: StageState[] = [];
  private endless = false;
  private readonly capS: number;

  constructor(
    private readonly plan: PlanSpec,
    private readonly abilities: Abilities,
    private readonly constants: Constants,
    private readonly publishedCapS: number | null,
  ) {
    this.capS = publishedCapS ?? horizonS;
  }

  run(): Timeline {
    const { event, team, steps } = this.plan;
    const lane = newLane(0);
    const only = event.stages.length === 1 && !steps.some(({ kind }) => kind === "stage") ? this.openStage(0, 0, 0) : null;
    this.steps(steps, lane, only, this.capS);
    const names = team.athletes.map(({ name }) => name);
    const lastS = Math.max(lane.atS, 0);
    const cut = this.publishedCapS !== null && lastS >= this.publishedCapS - hair;
    const stages = this.stages.map((stage) => this.stageRun(stage));
    const finished = event.stages.every((_, index) => stages.some((stage) => stage.stage === index && stage.reached));
    const finishS = Math.max(0, ...stages.map(({ endS }) => endS));
    const endS = finished && event.score === "time" ? finishS : Math.min(lastS, this.capS);
    const segments = gapless(this.segments, names, endS);
    return {
      endS,
      capS: this.publishedCapS,
      score: event.score === "time" ? { kind: "time", value: endS, finished } : { kind: "reps", value: stages.reduce((sum, { reps }) => sum + reps, 0), finished: true },
      stopped: this.endless ? "endless" : cut && !finished ? "cap" : "done",
      stages,
      turns: this.turns,
      rests: this.rests,
      repeats: this.repeats,
      athletes: totalsOf(segments, names, endS),
      segments,
    };
  }

  private openStage(index: number, step: number, atS: number): StageState {
    const target = this.plan.event.stages[index]?.target ?? null;
    const state = { index, step, startS: atS, endS: atS, target, units: [], reps: 0, rounds: 0, repsBy: {} };
    this.stages.push(state);
    return state;
  }

  private stageRun({ index, step, startS, endS, units, reps, rounds, target, repsBy }: StageState): StageRun {
    const spec = this.plan.event.stages[index];
    return { stage: index, name: spec?.name ?? "", step, startS, endS, reps, rounds, target, reached: target !== null && units.length >= target, repsBy };
  }

  private steps(steps: readonly Step[], lane: LaneState, stage: StageState | null, deadlineS: number): void {
    for (const step of steps) {
      if (this.over(lane, stage, deadlineS)) return;
      this.step(step, lane, stage, deadlineS);
    }
  }

  private over(lane: LaneState, stage: StageState | null, deadlineS: number): boolean {
    return this.endless || lane.atS >= deadlineS - hair || (stage !== null && reachedBy(stage));
  }

  private step(step: Step, lane: LaneState, stage: StageState | null, deadlineS: number): void {
    switch (step.kind) {
      case "turn":
        if (stage) this.turn(step, lane, stage, deadlineS);
        break;
      case "rest": this.rest(step, lane, deadlineS); break;
      case "repeat": this.repeat(step, lane, stage, deadlineS); break;
      case "lanes": this.lanes(step, lane, stage, deadlineS); break;
      case "stage": {
        const opened = this.openStage(step.stage, step.id, lane.atS);
        this.steps(step.body, lane, opened, deadlineS);
        opened.endS = Math.max(opened.endS, opened.startS);
        break;
      }
      case "window": {
        const window = this.plan.event.windows[step.window];
        if (!window) break;
        const inside = newLane(window.startS);
        this.steps(step.body, inside, stage, Math.min(deadlineS, window.endS));
        lane.atS = Math.max(lane.atS, inside.atS);
        break;
      }
    }
  }

  private rest(step: Rest, lane: LaneState, deadlineS: number): void {
    if (step.who.length > 0) {
      for (const athlete of step.who) this.waits.set(athlete, { until: step.until, fromS: lane.atS });
      this.rests.push({ step: step.id, startS: lane.atS, endS: lane.atS, before: null, after: null });
      return;
    }
    if (step.until.kind !== "time") {
      lane.until = step.until;
      this.rests.push({ step: step.id, startS: lane.atS, endS: lane.atS, before: null, after: null });
      return;
    }
    const startS = lane.atS;
    lane.atS = Math.min(deadlineS, startS + step.until.seconds);
    this.rests.push({ step: step.id, startS, endS: lane.atS, before: this.leastLeft(lane, startS), after: this.leastLeft(lane, lane.atS) });
  }

  /** The least reserve among those who last worked in a lane. */
  private leastLeft(lane: LaneState, atS: number): number | null {
    let least: number | null = null;
    for (const body of this.bodies.values()) {
      if (!lane.workers.includes(body.athlete)) continue;
      const pools = { ...body.pools };
      recover(pools, body.reserve, atS - body.atS);
      least = Math.min(least ?? 1, left(pools, body.reserve));
    }
    return least;
  }

  private repeat(step: Repeat, lane: LaneState, stage: StageState | null, deadlineS: number): void {
    const untilS = Math.min(deadlineS, step.untilS ?? deadlineS);
    const startS = lane.atS;
    let passes = 0;
    while ((step.times === null || passes < step.times) && !this.over(lane, stage, untilS)) {
      const before = lane.atS;
      this.steps(step.body, lane, stage, untilS);
      passes += 1;
      if (lane.atS <= before) break;
    }
    this.repeats.push({ step: step.id, passes, startS, endS: lane.atS });
  }

  /**
   * Lanes run side by side on their own time. Where together they would pass their stage's target, its last rep is
   * found first; then each lane runs again, to that moment and with the reps it had by then.
   */
  private lanes(step: Lanes, lane: LaneState, stage: StageState | null, deadlineS: number): void {
    const before = this.snapshot();
    const opened = stage && { ...stage, units: [...stage.units], repsBy: { ...stage.repsBy } };
    const first = this.runLanes(step, lane.atS, stage, deadlineS, null);
    const missing = stage?.target != null && opened ? stage.target - opened.units.length : Number.POSITIVE_INFINITY;
    const units = first.flatMap(({ units }, at) => units.map((endS) => ({ endS, at }))).sort((a, b) => a.endS - b.endS || a.at - b.at);
    let ended = first;
    if (stage && opened && units.length > missing) {
      this.restore(before);
      Object.assign(stage, opened);
      const wanted = units.slice(0, missing);
      const quotas = first.map((_, at) => wanted.filter((unit) => unit.at === at).length);
      ended = this.runLanes(step, lane.atS, stage, wanted.at(-1)?.endS ?? deadlineS, quotas);
    }
    lane.atS = Math.max(lane.atS, ...ended.map(({ atS }) => atS));
    lane.workers = [];
    lane.holders = [];
  }

  private runLanes({ lanes }: Lanes, atS: number, stage: StageState | null, deadlineS: number, quotas: readonly number[] | null) {
    const had = stage?.units.length ?? 0;
    const reached = stage && { units: [...stage.units], target: stage.target };
    const ended = lanes.map(({ body }, at) => {
      const own = newLane(atS);
      const share = stage && { ...stage, units: [...(reached?.units ?? [])], target: quotas ? had + (quotas[at] ?? 0) : stage.target };
      if (share) this.steps(body, own, share, deadlineS);
      const units = share?.units.slice(had) ?? [];
      if (stage && share) Object.assign(stage, { reps: share.reps, rounds: share.rounds, endS: Math.max(stage.endS, share.endS) });
      return { atS: own.atS, units };
    });
    if (stage) stage.units = [...stage.units, ...ended.flatMap(({ units }) => units)].sort((a, b) => a - b);
    return ended;
  }

  private snapshot() {
    const bodies = new Map([...this.bodies].map(([key, body]) => [key, { ...body, pools: { ...body.pools } }]));
    const grips = new Map([...this.grips].map(([key, grip]) => [key, { ...grip }]));
    const lengths = { segments: this.segments.length, turns: this.turns.length, rests: this.rests.length, repeats: this.repeats.length };
    return { bodies, grips, passes: new Map(this.passes), waits: new Map(this.waits), lengths, endless: this.endless };
  }

  private restore({ bodies, grips, passes, waits, lengths, endless }: ReturnType<Clock["snapshot"]>): void {
    Object.assign(this, { bodies, grips, passes, waits, endless });
    this.segments.length = lengths.segments;
    this.turns.length = lengths.turns;
    this.rests.length = lengths.rests;
    this.repeats.length = lengths.repeats;
  }

  private turn(turn: Turn, lane: LaneState, stage: StageState, deadlineS: number): void {
    if (this.turns.length >= mostTurns) {
      this.endless = true;
      return;
    }
    const pass = this.passes.get(turn.id) ?? 0;
    this.passes.set(turn.id, pass + 1);
    const [firstWork] = turn.works;
    if (!firstWork) return;
    const changed = lane.workers.length > 0 && !(same(lane.workers, turn.who) && same(lane.holders, turn.holders));
    const changedS = changed ? (this.plan.event.handoverS ?? this.constants.handover) : 0;
    const readyS = this.readyAt(turn, firstWork, pass, lane, lane.atS + changedS);
    const grips = turn.hold === null ? [] : turn.holders.map((athlete) => this.grip(athlete, turn.hold ?? ""));
    this.handOver(turn, lane, grips, lane.atS + changedS, readyS, deadlineS);
    const startS = Math.min(deadlineS, readyS);
    const sets: SetRun[] = [];
    let atS = startS;
    const had = stage.units.length;
    const rounds = turn.rounds ?? 1;
    for (let round = 0; round < rounds && atS < deadlineS - hair && !(sets.length > 0 && reachedBy(stage)); round += 1) {
      const done = this.works(turn, pass, grips, stage, atS, deadlineS, sets);
      atS = sets.at(-1)?.endS ?? atS;
      if (turn.rounds === null || !done) break;
      stage.rounds += 1;
      stage.units.push(atS);
    }
    stage.endS = Math.max(stage.endS, atS);
    this.record(turn, pass, stage, startS, atS, sets, stage.units.length - had);
    Object.assign(lane, { atS, workers: turn.who, holders: turn.holders, until: null });
  }

  /** All movements of a turn, one after another; false if time or target cut them. */
  private works(turn: Turn, pass: number, grips: readonly Grip[], stage: StageState, startS: number, deadlineS: number, sets: SetRun[]): boolean {
    let atS = startS;
    const counts = turn.rounds === null && !(this.plan.event.stages[stage.index]?.rounds ?? false);
    for (const work of turn.works) {
      const bodies = turn.who.map((athlete) => this.body(athlete, work));
      const remaining = counts && stage.target !== null ? stage.target - stage.units.length : Number.POSITIVE_INFINITY;
      const set = runSet({ turn, work, pass, bodies, grips, startS: atS, deadlineS, constants: this.constants }, remaining);
      set.commit();
      sets.push(set);
      this.keep(turn, work, set);
      stage.reps += set.repEndsS.length;
      if (counts) stage.units.push(...set.repEndsS);
      for (const crew of set.crews) for (const name of crew.names) stage.repsBy[name] = (stage.repsBy[name] ?? 0) + crew.repEndsS.length;
      atS = set.endS;
      if (!set.crews.every((crew) => crew.done)) return false;
    }
    return true;
  }

  private keep(turn: Turn, work: Work, set: SetRun): void {
    for (const crew of set.crews) {
      for (const athlete of crew.names) {
        for (const { activity, startS, endS, reps } of crew.stretches) this.segment(athlete, activity, startS, endS, turn.id, work.movement, reps);
        if (crew.atS < set.endS) this.segment(athlete, "wait", crew.atS, set.endS, turn.id, null);
      }
    }
    for (const { startS, endS } of set.held) for (const athlete of turn.holders) this.segment(athlete, "hold", startS, endS, turn.id, turn.hold);
  }

  private record(turn: Turn, pass: number, stage: StageState, startS: number, endS: number, sets: readonly SetRun[], counted: number): void {
    const athletes = turn.who.map((name) => {
      const crews = sets.flatMap((set) => set.crews.filter((crew) => crew.names.includes(name)));
      const reps = crews.reduce((sum, crew) => sum + crew.repEndsS.length, 0);
      return { name, reps, left: Math.min(1, ...crews.map((crew) => crew.leftOf(name))) };
    });
    const misses: Miss[] = sets.flatMap((set) => set.crews.flatMap((crew) => crew.misses));
    const drops: Drop[] = sets.flatMap((set) => set.drops);
    this.turns.push({ step: turn.id, pass, stage: stage.index, startS, endS, athletes, counted, total: stage.units.length, totalReps: stage.reps, misses, drops, holders: turn.holders, repEndsS: sets.flatMap((set) => set.repEndsS) });
  }

  /** Who comes, who goes and whose hold changes are in the handover; a holder who stays holds on through it. */
  private handOver(turn: Turn, lane: LaneState, grips: readonly Grip[], changedS: number, readyS: number, deadlineS: number): void {
    const endS = Math.min(changedS, deadlineS);
    if (endS > lane.atS) {
      const working = new Set([...lane.workers, ...turn.who]);
      const handing = [...lane.holders.filter((name) => !turn.holders.includes(name)), ...turn.holders.filter((name) => !lane.holders.includes(name))];
      for (const athlete of new Set([...working, ...handing])) {
        if (!(lane.holders.includes(athlete) && turn.holders.includes(athlete))) this.segment(athlete, "handover", lane.atS, endS, turn.id, null);
      }
    }
    if (readyS > changedS + hair) return;
    for (const grip of grips) {
      if (!lane.holders.includes(grip.athlete) || grip.atS !== lane.atS) continue;
      this.segment(grip.athlete, "hold", lane.atS, endS, turn.id, turn.hold);
      grip.tired = afterHolding(grip.tired, grip.hold, endS - lane.atS);
      grip.atS = endS;
    }
  }

  /** When the turn can begin: after the handover, and after every rest that was asked for. */
  private readyAt(turn: Turn, work: Work, pass: number, lane: LaneState, fromS: number): number {
    const bodies = turn.who.map((athlete) => this.body(athlete, work));
    let readyS = fromS;
    const wait = (until: Rest["until"], sinceS: number, waiting: readonly Body[]): void => {
      if (until.kind === "time") readyS = Math.max(readyS, sinceS + until.seconds);
      else if (until.kind === "share") {
        for (const body of waiting) readyS = Math.max(readyS, body.atS + restUntil(body.pools, body.reserve, until.fraction));
      } else {
        const seconds = shortest((rested) => isReady({ turn, work, pass, bodies: waiting, grips: [], startS: fromS + rested, constants: this.constants }));
        if (seconds < horizonS) readyS = Math.max(readyS, fromS + seconds);
      }
    };
    if (lane.until) wait(lane.until, lane.atS, bodies);
    for (const body of bodies) {
      const asked = this.waits.get(body.athlete);
      if (asked) wait(asked.until, asked.fromS, [body]);
      this.waits.delete(body.athlete);
    }
    return readyS;
  }

  private segment(athlete: string, activity: Activity, startS: number, endS: number, step: number, subject: string | null, reps = 0): void {
    if (endS > startS) this.segments.push({ athlete, activity, startS, endS, step, subject, reps });
  }

  private body(athlete: string, { movement, load }: Work): Body {
    const loadKg = loadFor(this.plan.team, athlete, load);
    const key = `${athlete}\n${subjectKey(movement)}\n${loadKg ?? ""}`;
    const known = this.bodies.get(key);
    if (known) return known;
    const body = { athlete, reserve: this.abilities.movement(athlete, movement, loadKg).reserve, pools: { fast: 0, slow: 0 }, atS: 0 };
    this.bodies.set(key, body);
    return body;
  }

  private grip(athlete: string, hold: string): Grip {
    const key = `${athlete}\n${subjectKey(hold)}`;
    const known = this.grips.get(key);
    if (known) return known;
    const grip = { athlete, hold: this.abilities.hold(athlete, hold).hold, tired: 0, atS: 0 };
    this.grips.set(key, grip);
    return grip;
  }
}

function newLane(atS: number): LaneState {
  return { atS, workers: [], holders: [], until: null };
}

function reachedBy({ target, units }: StageState): boolean {
  return target !== null && units.length >= target;
}

function same(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((name) => b.includes(name));
}
