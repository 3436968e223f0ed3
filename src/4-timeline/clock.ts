import type { Constants } from "../3-plan/assumptions.js";
import type { Lanes, PlanSpec, Repeat, Rest, Step, Turn } from "../3-plan/plan.js";
import type { Abilities } from "./ability.js";
import type { Grip } from "./body.js";
import { carryOver } from "./carry-over.js";
import type { Chance } from "./draw.js";
import { afterHolding, enduranceOf } from "./models/hold.js";
import { left, restUntil } from "./models/reserve.js";
import { Ready } from "./ready.js";
import type { Recording } from "./recording.js";
import type { ReadyTurn } from "./turn.js";

/** The end of a plan that has no cap and no end: half a day. */
const horizonS = 43_200;
/** More turns than any plan can mean. */
const mostTurns = 20_000;
const hair = 1e-9;

/** What a run of a plan came to. */
export interface Outcome {
  readonly endS: number;
  /** Every stage reached its target. */
  readonly finished: boolean;
  readonly reps: number;
  readonly stopped: "done" | "cap" | "endless";
  readonly stages: readonly StageState[];
}

/** What a stage has so far. */
export interface StageState {
  readonly index: number;
  /** The node of its block; 0, the plan, where the plan needs no block for it. */
  readonly step: number;
  readonly startS: number;
  endS: number;
  readonly target: number | null;
  /** What its target counts: reps, or rounds where it is made of rounds. */
  units: number;
  /** When each was done; kept in lanes alone, which may pass a target together. */
  unitEndsS: number[] | null;
  reps: number;
  rounds: number;
  /** By place in the team. */
  readonly repsBy: number[];
}

/** Where one lane stands. */
interface LaneState {
  atS: number;
  last: ReadyTurn | null;
  /** What the lane's next turn waits for. */
  until: Rest["until"] | null;
}

/**
 * The clock of one plan: discrete events with closed forms between them. Made once, it runs the plan as often as asked:
 * as expected, or as one day of many; with a recording or for the score alone. The same run gives the same to the bit.
 */
export class Clock {
  /** Steps in which somebody missed, or dropped a hold, in the last run. */
  readonly missed = new Set<number>();
  readonly dropped = new Set<number>();
  /** Reps that were missed in the last run. */
  misses = 0;
  private readonly ready: Ready;
  private readonly waits = new Map<string, { readonly until: Rest["until"]; readonly fromS: number }>();
  private stages: StageState[] = [];
  private recording: Recording | null = null;
  private draw: Chance | null = null;
  private readonly setsBy: number[];
  private turns = 0;
  private handovers = 0;
  private endless = false;
  /** Where the turn under way stands. */
  private endS = 0;
  private readonly capS: number;

  constructor(
    private readonly plan: PlanSpec,
    abilities: Abilities,
    private readonly constants: Constants,
    private readonly publishedCapS: number | null,
  ) {
    this.capS = publishedCapS ?? horizonS;
    this.ready = new Ready(plan, abilities, constants);
    this.setsBy = this.ready.athletes.map(() => 0);
  }

  run(draw: Chance | null = null, recording: Recording | null = null): Outcome {
    const { event, steps } = this.plan;
    this.reset(draw, recording);
    const lane = newLane(0);
    const only = event.stages.length === 1 && !steps.some(({ kind }) => kind === "stage") ? this.openStage(0, 0, 0) : null;
    this.steps(steps, lane, only, this.capS);
    const cut = this.publishedCapS !== null && lane.atS >= this.publishedCapS - hair;
    const finished = event.stages.every((_, index) => this.stages.some((stage) => stage.index === index && reachedBy(stage)));
    let [finishS, reps] = [0, 0];
    for (const stage of this.stages) {
      finishS = Math.max(finishS, stage.endS);
      reps += stage.reps;
    }
    const endS = finished && event.score === "time" ? finishS : Math.min(lane.atS, this.capS);
    return { endS, finished, reps, stopped: this.endless ? "endless" : cut && !finished ? "cap" : "done", stages: this.stages };
  }

  private reset(draw: Chance | null, recording: Recording | null): void {
    this.ready.reset(draw, recording !== null);
    this.waits.clear();
    this.missed.clear();
    this.dropped.clear();
    this.stages = [];
    this.setsBy.fill(0);
    this.turns = 0;
    this.handovers = 0;
    this.endless = false;
    this.misses = 0;
    this.draw = draw;
    this.recording = recording;
  }

  private openStage(index: number, step: number, atS: number): StageState {
    const target = this.plan.event.stages[index]?.target ?? null;
    const state: StageState = { index, step, startS: atS, endS: atS, target, units: 0, unitEndsS: null, reps: 0, rounds: 0, repsBy: this.ready.athletes.map(() => 0) };
    this.stages.push(state);
    return state;
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
      case "stage": this.steps(step.body, lane, this.openStage(step.stage, step.id, lane.atS), deadlineS); break;
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

  private rest({ id, who, until }: Rest, lane: LaneState, deadlineS: number): void {
    const startS = lane.atS;
    if (who.length > 0) for (const athlete of who) this.waits.set(athlete, { until, fromS: startS });
    else if (until.kind === "time") lane.atS = Math.min(deadlineS, startS + until.seconds);
    else lane.until = until;
    if (!this.recording) return;
    const restored = who.length === 0 && until.kind === "time";
    this.recording.rests.push({ step: id, startS, endS: lane.atS, before: restored ? this.leastLeft(lane, startS) : null, after: restored ? this.leastLeft(lane, lane.atS) : null });
  }

  /** The least reserve among those who last worked in a lane. */
  private leastLeft(lane: LaneState, atS: number): number | null {
    let least: number | null = null;
    for (const body of this.ready.bodies) {
      if (!lane.last?.turn.who.includes(body.athlete)) continue;
      body.stepAside(atS - body.atS);
      least = Math.min(least ?? 1, left(body.pools, body.reserve));
      body.comeBack();
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
    this.recording?.repeats.push({ step: step.id, passes, startS, endS: lane.atS });
  }

  /**
   * Lanes run side by side on their own time. Where together they would pass their stage's target, its last rep is
   * found first; then each lane runs again, to that moment and with the reps it had by then.
   */
  private lanes(step: Lanes, lane: LaneState, stage: StageState | null, deadlineS: number): void {
    const missing = stage?.target == null ? null : stage.target - stage.units;
    const restore = missing === null ? null : this.snapshot(stage);
    let ended = this.runLanes(step, lane.atS, stage, deadlineS, null);
    if (restore && missing !== null && (stage?.units ?? 0) > (stage?.target ?? 0)) {
      restore();
      const units = ended.flatMap(({ endsS }, at) => endsS.map((endS) => ({ endS, at }))).sort((a, b) => a.endS - b.endS || a.at - b.at);
      const wanted = units.slice(0, missing);
      const quotas = ended.map((_, at) => wanted.filter((unit) => unit.at === at).length);
      ended = this.runLanes(step, lane.atS, stage, wanted.at(-1)?.endS ?? deadlineS, quotas);
    }
    lane.atS = Math.max(lane.atS, ...ended.map(({ atS }) => atS));
    lane.last = null;
  }

  private runLanes({ lanes }: Lanes, atS: number, stage: StageState | null, deadlineS: number, quotas: readonly number[] | null) {
    const had = stage?.units ?? 0;
    const ended = lanes.map(({ body }, at) => {
      const own = newLane(atS);
      const endsS: number[] = [];
      const share = stage && { ...stage, units: had, unitEndsS: endsS, target: quotas ? had + (quotas[at] ?? 0) : stage.target };
      if (share) this.steps(body, own, share, deadlineS);
      if (stage && share) Object.assign(stage, { reps: share.reps, rounds: share.rounds, endS: Math.max(stage.endS, share.endS) });
      return { atS: own.atS, endsS };
    });
    for (const { endsS } of ended) if (stage) this.count(stage, endsS);
    return ended;
  }

  private count(stage: StageState, endsS: readonly number[]): void {
    stage.units += endsS.length;
    stage.unitEndsS?.push(...endsS);
  }

  /** Remembers where everybody stands; the answer puts them back there. */
  private snapshot(stage: StageState | null): () => void {
    const bodies = this.ready.bodies.map(({ pools, atS }) => ({ ...pools, atS }));
    const grips = this.ready.grips.map(({ tired, atS }) => ({ tired, atS }));
    const passes = [...this.ready.turns.values()].map((ready) => ready.passes);
    const state = stage && { ...stage, unitEndsS: stage.unitEndsS && [...stage.unitEndsS], repsBy: [...stage.repsBy] };
    const [waits, missed, dropped, setsBy] = [[...this.waits], [...this.missed], [...this.dropped], [...this.setsBy]];
    const { turns, handovers, endless, misses } = this;
    const mark = this.recording?.mark();
    return () => {
      this.ready.bodies.forEach((body, at) => body.put(bodies[at]?.fast ?? 0, bodies[at]?.slow ?? 0, bodies[at]?.atS ?? 0));
      this.ready.grips.forEach((grip, at) => Object.assign(grip, grips[at]));
      [...this.ready.turns.values()].forEach((ready, at) => (ready.passes = passes[at] ?? 0));
      if (stage && state) {
        Object.assign(stage, { ...state, repsBy: stage.repsBy });
        state.repsBy.forEach((reps, place) => (stage.repsBy[place] = reps));
      }
      refill(this.waits, waits, (map, [athlete, wait]) => map.set(athlete, wait));
      refill(this.missed, missed, (set, step) => set.add(step));
      refill(this.dropped, dropped, (set, step) => set.add(step));
      setsBy.forEach((nth, place) => (this.setsBy[place] = nth));
      Object.assign(this, { turns, handovers, endless, misses });
      if (mark) this.recording?.cutTo(mark);
    };
  }

  private turn(turn: Turn, lane: LaneState, stage: StageState, deadlineS: number): void {
    const ready = this.ready.turns.get(turn);
    if (!ready || ready.sets.length === 0) return;
    if (this.turns >= mostTurns) {
      this.endless = true;
      return;
    }
    this.turns += 1;
    const pass = ready.passes;
    ready.passes += 1;
    if (this.draw) this.setPaces(ready, this.draw);
    const changedS = lane.atS + this.handoverFor(ready, lane);
    const readyS = this.readyAt(ready, pass, lane, changedS);
    this.handOver(ready, lane, changedS, readyS, deadlineS);
    const startS = Math.min(deadlineS, readyS);
    const had = stage.units;
    let atS = startS;
    let begun = false;
    for (let round = 0; round < (turn.rounds ?? 1) && atS < deadlineS - hair && !(begun && reachedBy(stage)); round += 1) {
      const done = this.sets(ready, pass, stage, atS, deadlineS);
      begun = true;
      atS = this.endS;
      if (turn.rounds === null || !done) break;
      stage.rounds += 1;
      this.count(stage, [atS]);
    }
    stage.endS = Math.max(stage.endS, atS);
    this.recording?.turn(ready, { pass, stage: stage.index, startS, endS: atS, counted: stage.units - had, total: stage.units, totalReps: stage.reps });
    lane.atS = atS;
    lane.last = ready;
    lane.until = null;
  }

  private setPaces({ sets }: ReadyTurn, draw: Chance): void {
    for (const { bodies } of sets) {
      for (const body of bodies) {
        const nth = this.setsBy[body.place] ?? 0;
        body.pace = draw.set(body.place, nth);
        this.setsBy[body.place] = nth + 1;
      }
    }
  }

  /** Seconds for the change to a turn: none where the same work and hold on. */
  private handoverFor({ cast }: ReadyTurn, { last }: LaneState): number {
    if (!last || last.cast === cast) return 0;
    const seconds = this.plan.event.handoverS ?? this.constants.handover;
    this.handovers += 1;
    return seconds * (this.draw?.handover(this.handovers) ?? 1);
  }

  /** All movements of a turn, one after another, to `endS`; false if time or target cut them. */
  private sets(ready: ReadyTurn, pass: number, stage: StageState, startS: number, deadlineS: number): boolean {
    this.endS = startS;
    const counts = ready.turn.rounds === null && !(this.plan.event.stages[stage.index]?.rounds ?? false);
    for (const set of ready.sets) {
      const remaining = counts && stage.target !== null ? stage.target - stage.units : Number.POSITIVE_INFINITY;
      const setStartS = this.endS;
      set.run(pass, setStartS, deadlineS, remaining);
      this.endS = set.endS;
      this.recording?.set(ready, set);
      stage.reps += set.reps;
      if (counts && stage.unitEndsS) this.count(stage, set.repEndsS);
      else if (counts) stage.units += set.reps;
      for (const crew of set.crews) {
        for (const body of crew.bodies) {
          stage.repsBy[body.place] = (stage.repsBy[body.place] ?? 0) + crew.reps;
          carryOver(body.costs, crew.reps / body.reserve.unbroken, set.endS);
        }
        if (crew.misses.length === 0) continue;
        this.missed.add(ready.turn.id);
        this.misses += crew.misses.length;
      }
      if (set.drops.length > 0) this.dropped.add(ready.turn.id);
      for (const { startS: heldS, endS } of set.held) for (const grip of ready.grips) this.payForHold(grip, endS - heldS, set.endS);
      if (!set.done) return false;
    }
    return true;
  }

  private payForHold({ costs, hold }: Grip, heldS: number, atS: number): void {
    if (costs.length > 0) carryOver(costs, heldS / enduranceOf(hold), atS);
  }

  /** Who comes, who goes and whose hold changes are in the handover; a holder who stays holds on through it. */
  private handOver({ turn, grips }: ReadyTurn, lane: LaneState, changedS: number, readyS: number, deadlineS: number): void {
    const endS = Math.min(changedS, deadlineS);
    const before = lane.last?.turn;
    if (this.recording && endS > lane.atS && before) {
      const staying = turn.holders.filter((name) => before.holders.includes(name));
      const handing = [...before.who, ...turn.who, ...before.holders, ...turn.holders].filter((name) => !staying.includes(name));
      for (const athlete of new Set(handing)) this.recording.segment(athlete, "handover", lane.atS, endS, turn.id, null);
    }
    if (readyS > changedS + hair) return;
    for (const grip of grips) {
      if (!before?.holders.includes(grip.athlete) || grip.atS !== lane.atS) continue;
      this.recording?.segment(grip.athlete, "hold", lane.atS, endS, turn.id, turn.hold);
      grip.tired = afterHolding(grip.tired, grip.hold, endS - lane.atS);
      grip.atS = endS;
      this.payForHold(grip, endS - lane.atS, endS);
    }
  }

  /** When the turn can begin: after the handover, and after every rest that was asked for. */
  private readyAt({ turn, sets }: ReadyTurn, pass: number, lane: LaneState, fromS: number): number {
    const [first] = sets;
    let readyS = fromS;
    if (!first || (!lane.until && this.waits.size === 0)) return readyS;
    const wait = (until: Rest["until"], sinceS: number, who: readonly string[]): void => {
      const waiting = first.bodies.filter(({ athlete }) => who.includes(athlete));
      if (until.kind === "time") readyS = Math.max(readyS, sinceS + until.seconds);
      else if (until.kind === "share") {
        for (const body of waiting) readyS = Math.max(readyS, body.atS + restUntil(body.pools, body.reserve, until.fraction));
      } else {
        for (const body of waiting) body.begin(fromS);
        const seconds = first.waitFor(pass, who);
        for (const body of waiting) body.back();
        if (seconds < horizonS) readyS = Math.max(readyS, fromS + seconds);
      }
    };
    if (lane.until) wait(lane.until, lane.atS, turn.who);
    for (const athlete of turn.who) {
      const asked = this.waits.get(athlete);
      if (asked) wait(asked.until, asked.fromS, [athlete]);
      this.waits.delete(athlete);
    }
    return readyS;
  }
}

function newLane(atS: number): LaneState {
  return { atS, last: null, until: null };
}

function reachedBy({ target, units }: StageState): boolean {
  return target !== null && units >= target;
}

function refill<Collection extends { clear: () => void }, Item>(collection: Collection, items: readonly Item[], add: (into: Collection, item: Item) => void): void {
  collection.clear();
  for (const item of items) add(collection, item);
}
