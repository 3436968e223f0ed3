import type { Constants } from "../3-plan/assumptions.js";
import type { Lane, PlanSpec, Repeat, Rest, StageBlock, Step, Turn, WindowBlock } from "../3-plan/plan.js";
import type { Abilities } from "./ability.js";
import { firstLookS, horizonS, mostSteps, mostTroubles } from "./bounds.js";
import { carryOver, payForHold } from "./carry-over.js";
import { makesWhole } from "./shared-round.js";
import { type Condition, conditionOf, takeUp } from "./condition.js";
import type { Chance } from "./draw.js";
import type { LaneState, Waited } from "./lanes.js";
import { addUnits, changeS, instantS, LaneRun, newLane, reachedIn, remainingIn, stopOf, takeBack } from "./lanes.js";
import { afterHolding, secondsLeft } from "./models/hold.js";
import { Ready } from "./ready.js";
import type { Recording } from "./recording.js";
import type { RestLeft } from "./timeline.js";
import { type RunSubject, subjectsOf } from "./subjects.js";
import { newTally, type Outcome, reached, type StageState, type Tally } from "./stage.js";
import { standing, type Waits } from "./standing.js";
import { restedAt } from "./rested.js";
import { type ReadySet, type ReadyTurn, setPaces } from "./turn.js";

const forever = Number.POSITIVE_INFINITY;

/**
 * Runs one plan: discrete events with closed forms between them. Made once, it runs the plan as often as asked: as
 * expected, or as one day of many; with a recording or for the score alone. The same run gives the same to the bit.
 */
export class Simulator {
  /** Steps in which somebody missed, or dropped a hold, in the last run. */
  readonly missed = new Set<number>();
  readonly dropped = new Set<number>();
  /** Reps that were missed, and holds that were dropped, in the last run. */
  misses = 0;
  drops = 0;
  /** Turns in the last run whose beginning was waited for. */
  lookedFor = 0;
  private readonly ready: Ready;
  private readonly waits: Waits = new Map();
  private stages: StageState[] = [];
  private readonly tallies = new Map<number, Tally>();
  private recording: Recording | null = null;
  private draw: Chance | null = null;
  private readonly setsBy: number[];
  /** Turns and rests so far; and with those of lanes that ran again. */
  private done = 0;
  private tried = 0;
  private endless = false;
  /** Seconds that lanes side by side took in the run before. */
  private readonly lasted = new Map<readonly Lane[], number>();
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

  /** One run. `from` is the condition in which everybody starts; fresh without one. After `untilS` nobody asks how it goes on. */
  run(draw: Chance | null = null, recording: Recording | null = null, from: Condition | null = null, untilS = forever): Outcome {
    const { event, steps } = this.plan;
    const lastS = Math.min(this.capS, untilS);
    this.reset(draw, recording);
    if (from) takeUp(from, this.ready);
    const lane = newLane(0, null, 0);
    const only = event.stages.length === 1 && !steps.some(({ kind }) => kind === "stage") ? this.openStage(0, 0, 0) : null;
    this.through(steps, lane, only, only && event.windows.length === 0 ? Math.min(lastS, this.longestOf(0)) : lastS);
    const cut = this.publishedCapS !== null && lane.atS >= this.publishedCapS - instantS;
    const done = event.stages.every((_, index) => this.stages.some((stage) => stage.index === index && reached(stage)));
    let [finishS, reps] = [0, 0];
    for (const stage of this.stages) {
      finishS = Math.max(finishS, stage.endS);
      stage.reps = Math.max(0, stage.reps - stage.taken);
      if (event.stages[stage.index]?.scored ?? true) reps += stage.reps;
    }
    const finished = done && finishS <= this.capS + instantS;
    this.endS = finished && event.score === "time" ? finishS : Math.min(lane.atS, lastS);
    return { endS: this.endS, finished, reps, stopped: this.endless ? "endless" : cut && !finished ? "cap" : "done", stages: this.stages };
  }

  /** What the athletes do in the plan, each once. */
  get subjects(): readonly RunSubject[] {
    return subjectsOf(this.ready);
  }

  /** Turns and rests that the last run took, those of lanes that ran again with them. */
  get steps(): number {
    return this.tried;
  }

  /** The condition in which the last run left everybody, at its end. */
  condition(): Condition {
    return conditionOf(this.ready, this.endS);
  }

  private reset(draw: Chance | null, recording: Recording | null): void {
    this.ready.reset(draw, recording !== null);
    this.waits.clear();
    this.missed.clear();
    this.dropped.clear();
    this.stages = [];
    this.tallies.clear();
    this.setsBy.fill(0);
    this.done = 0;
    this.tried = 0;
    this.endless = false;
    this.misses = 0;
    this.drops = 0;
    this.lookedFor = 0;
    this.draw = draw;
    this.recording = recording;
  }

  private openStage(index: number, step: number, atS: number): StageState {
    const tally = this.tallies.get(index) ?? newTally(this.plan.event.stages[index]?.target ?? null);
    this.tallies.set(index, tally);
    const state: StageState = {
      index,
      step,
      startS: atS,
      endS: atS,
      tally,
      reps: 0,
      taken: 0,
      rounds: 0,
      repsBy: this.ready.athletes.map(() => 0),
    };
    this.stages.push(state);
    return state;
  }

  private through(steps: readonly Step[], lane: LaneState, stage: StageState | null, deadlineS: number): void {
    for (const step of steps) {
      if (this.over(lane, stage, deadlineS)) return;
      this.step(step, lane, stage, deadlineS);
    }
  }

  private over(lane: LaneState, stage: StageState | null, deadlineS: number): boolean {
    return this.endless || lane.atS >= deadlineS - instantS || (stage !== null && reachedIn(lane, stage));
  }

  private step(step: Step, lane: LaneState, stage: StageState | null, deadlineS: number): void {
    const counts = Number(step.kind === "turn" || step.kind === "rest");
    this.done += counts;
    this.tried += counts;
    if (this.done > mostSteps || this.misses + this.drops > mostTroubles) this.endless = true;
    if (this.endless) return;
    switch (step.kind) {
      case "turn":
        if (stage) this.turn(step, lane, stage, deadlineS);
        break;
      case "rest":
        this.rest(step, lane, deadlineS);
        break;
      case "repeat":
        this.repeat(step, lane, stage, deadlineS);
        break;
      case "lanes":
        this.lanes(step.lanes, lane, stage, deadlineS);
        break;
      case "stage":
        this.stage(step, lane, deadlineS);
        break;
      case "window":
        this.window(step, lane, stage, deadlineS);
        break;
    }
  }

  private stage({ stage: at, id, body }: StageBlock, lane: LaneState, deadlineS: number): void {
    const spec = this.plan.event.stages[at];
    if (lane.pause && lane.pause.after !== at) lane.atS = Math.max(lane.atS, Math.min(deadlineS, lane.pause.untilS));
    const before = this.plan.event.windows.length > 0 ? undefined : this.stages.find(({ index }) => index === at);
    const begunS = before?.startS ?? lane.atS;
    const endsS = begunS + this.longestOf(at);
    this.through(body, lane, this.openStage(at, id, lane.atS), Math.min(deadlineS, stopOf(lane, at), endsS));
    if (spec && spec.restS > 0) lane.pause = { after: at, untilS: lane.atS + spec.restS };
  }

  /** Seconds that a stage has to itself; Infinity where the event gives it none of its own. */
  private longestOf(stage: number): number {
    return this.plan.event.stages[stage]?.withinS ?? forever;
  }

  private window({ window: at, body }: WindowBlock, lane: LaneState, stage: StageState | null, deadlineS: number): void {
    const window = this.plan.event.windows[at];
    if (!window) return;
    const inside = newLane(Math.max(window.startS, lane.atS), lane.side, lane.handovers);
    const endsS = stage ? inside.atS + this.longestOf(stage.index) : window.endS;
    this.through(body, inside, stage, Math.min(deadlineS, window.endS, endsS));
    Object.assign(lane, {
      handovers: inside.handovers,
      atS: Math.max(lane.atS, Math.min(inside.atS, window.endS)),
      last: null,
      lastedS: 0,
    });
  }

  private rest({ id, who, until: asked }: Rest, lane: LaneState, deadlineS: number): void {
    const startS = lane.atS;
    const until: Waited = asked.kind === "ratio" ? { kind: "time", seconds: asked.factor * lane.lastedS } : asked;
    if (who.length > 0) for (const athlete of who) this.waitFor(athlete, until, startS);
    else if (until.kind === "time") lane.atS = Math.min(deadlineS, startS + until.seconds);
    else lane.until.push(until);
    if (!this.recording) return;
    const restored = who.length === 0 && until.kind === "time";
    const leastLeft = (atS: number): RestLeft | null => (restored ? this.ready.leastLeft(lane.last?.turn.who ?? [], atS) : null);
    this.recording.rests.push({ step: id, startS, endS: lane.atS, before: leastLeft(startS), after: leastLeft(lane.atS) });
  }

  private waitFor(athlete: string, until: Waited, fromS: number): void {
    const own = this.waits.get(athlete);
    if (own) own.push({ until, fromS });
    else this.waits.set(athlete, [{ until, fromS }]);
  }

  /** `until` ends no pass that has begun. */
  private repeat(step: Repeat, lane: LaneState, stage: StageState | null, deadlineS: number): void {
    const untilS = Math.min(deadlineS, step.untilS ?? deadlineS);
    const startS = lane.atS;
    let passes = 0;
    while ((step.times === null || passes < step.times) && !this.over(lane, stage, untilS)) {
      const before = lane.atS;
      this.through(step.body, lane, stage, deadlineS);
      passes += 1;
      if (lane.atS <= before) break;
    }
    this.recording?.repeats.push({ step: step.id, passes, startS, endS: lane.atS });
  }

  /**
   * Lanes run side by side on their own time. Where together they reach a stage's target, the moment is found first;
   * then all run again, that stage cut there. What happened before does not change by it, so the earliest comes first.
   * Alone each lane would go on to the whole target: how far they are looked at grows until the moment is found.
   */
  private lanes(lanes: readonly Lane[], lane: LaneState, stage: StageState | null, deadlineS: number): void {
    const restore = this.snapshot();
    const side = new LaneRun(lane, lanes.length);
    let lookS = firstLookS(this.lasted.get(lanes));
    let ended = this.runLanes(lanes, side, stage, Math.min(deadlineS, lane.atS + lookS));
    for (;;) {
      const stops = side.stopNext();
      if (!stops && !ended.some((atS) => atS < deadlineS && atS >= lane.atS + lookS - instantS)) break;
      if (!stops) lookS *= 2;
      restore();
      side.begin();
      ended = this.runLanes(lanes, side, stage, Math.min(deadlineS, lane.atS + lookS));
    }
    side.settle();
    const atS = Math.max(lane.atS, ...ended);
    this.lasted.set(lanes, atS - lane.atS);
    Object.assign(lane, { atS, last: null, lastedS: 0 });
  }

  private runLanes(lanes: readonly Lane[], run: LaneRun, stage: StageState | null, deadlineS: number): readonly number[] {
    return lanes.map(({ body }, place) => {
      const own = run.lane(place);
      this.through(body, own, stage, Math.min(deadlineS, stage ? stopOf(own, stage.index) : deadlineS));
      return own.atS;
    });
  }

  /** Remembers where everybody stands; the answer puts them back there. */
  private snapshot(): () => void {
    const { done, endless, misses, drops } = this;
    const back = standing(this.ready, this.stages, this.waits, [this.missed, this.dropped], this.setsBy, this.recording);
    return () => {
      back();
      Object.assign(this, { done, endless, misses, drops });
    };
  }

  private turn(turn: Turn, lane: LaneState, stage: StageState, deadlineS: number): void {
    const ready = this.ready.turns.get(turn);
    if (!ready || ready.sets.length === 0) return;
    const pass = ready.passes;
    if (this.draw) setPaces(ready, this.draw, this.setsBy);
    const changedS = lane.atS + changeS(lane, ready, this.plan.event.handoverS ?? this.constants.handover, this.draw);
    const startS = this.readyAt(ready, pass, lane, changedS);
    if (startS >= deadlineS - instantS) return this.leaveOff(ready, lane, changedS, deadlineS);
    ready.passes += 1;
    this.handOver(ready, lane, changedS, startS);
    let [atS, counted, begun] = [startS, 0, false];
    for (let round = 0; round < (turn.rounds ?? 1) && atS < deadlineS - instantS && !(begun && reachedIn(lane, stage)); round += 1) {
      const done = this.sets(ready, pass, lane, stage, atS, deadlineS);
      begun = true;
      atS = this.endS;
      if (turn.rounds === null) {
        const reps = ready.sets.reduce((sum, set) => sum + set.reps, 0);
        const spec = this.plan.event.stages[stage.index];
        if (!spec?.rounds) counted = reps;
        if (!spec?.rounds || !makesWhole(lane.shared, stage.index, spec.items, turn, reps)) break;
      } else if (!done) break;
      stage.rounds += 1;
      if (remainingIn(lane, stage) <= 0) break;
      addUnits(lane, stage, 1, [atS]);
      counted += 1;
    }
    const paidS = atS + this.payForDrops(ready, lane, stage, atS);
    stage.endS = Math.max(stage.endS, paidS);
    if (this.waits.size > 0) for (const athlete of turn.who) this.waits.delete(athlete);
    const waitedS = Math.max(0, startS - changedS);
    this.recording?.turn(ready, { pass, stage: stage.index, startS, endS: atS, counted, waitedS });
    lane.atS = paidS;
    lane.last = ready;
    lane.lastedS = atS - startS;
    if (lane.until.length > 0) lane.until = [];
  }

  /** What the event takes for holds that were dropped in a turn: seconds; or reps, which have to be done again where there is a target. */
  private payForDrops({ sets }: ReadyTurn, lane: LaneState, stage: StageState, atS: number): number {
    const { dropCost } = this.plan.event;
    const cost = dropCost ? dropCost.amount * sets.reduce((sum, { drops }) => sum + drops.length, 0) : 0;
    if (cost === 0 || dropCost?.unit === "s") return cost;
    takeBack(lane, stage, cost, atS);
    return 0;
  }

  /** A turn that would begin when the time is up does not: what comes before it is all that is left of the time. */
  private leaveOff({ turn }: ReadyTurn, lane: LaneState, changedS: number, deadlineS: number): void {
    for (const athlete of new Set(lane.last ? [...lane.last.turn.who, ...turn.who] : []))
      this.recording?.segment(athlete, "handover", lane.atS, Math.min(changedS, deadlineS), turn.id, null);
    lane.atS = deadlineS;
  }

  /** All movements of a turn, one after another, to `endS`; false if time or target cut them. */
  private sets(ready: ReadyTurn, pass: number, lane: LaneState, stage: StageState, startS: number, deadlineS: number): boolean {
    this.endS = startS;
    const counts = ready.turn.rounds === null && !(this.plan.event.stages[stage.index]?.rounds ?? false);
    for (const set of ready.sets) {
      const remaining = counts ? remainingIn(lane, stage) : forever;
      set.run(pass, this.endS, deadlineS, remaining, lane.side !== null && lane.side.run.stopped(stage.index));
      this.endS = set.endS;
      this.recording?.set(ready, set);
      if (counts) addUnits(lane, stage, set.reps, lane.side ? set.repEndsS : []);
      this.takeFrom(ready, set, stage);
      if (!set.done) return false;
    }
    return true;
  }

  /** What a set did to the stage, to those who worked, and to what else they have to do. */
  private takeFrom(ready: ReadyTurn, set: ReadySet, stage: StageState): void {
    stage.reps += set.reps;
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
    this.drops += set.drops.length;
    const heldS = set.held.reduce((sum, { startS, endS }) => sum + endS - startS, 0);
    if (heldS > 0) for (const grip of ready.grips) payForHold(grip, heldS, set.endS);
  }

  /** Who comes, who goes and whose hold changes are in the handover; a holder who stays holds on through it. */
  private handOver({ turn, grips }: ReadyTurn, lane: LaneState, endS: number, readyS: number): void {
    const before = lane.last?.turn;
    if (this.recording && endS > lane.atS && before) {
      const staying = turn.holders.filter((name) => before.holders.includes(name));
      const handing = [...before.who, ...turn.who, ...before.holders, ...turn.holders].filter((name) => !staying.includes(name));
      for (const athlete of new Set(handing)) this.recording.segment(athlete, "handover", lane.atS, endS, turn.id, null);
    }
    if (readyS > endS + instantS) return;
    for (const grip of grips) {
      if (!before?.holders.includes(grip.athlete) || grip.atS !== lane.atS) continue;
      this.recording?.segment(grip.athlete, "hold", lane.atS, endS, turn.id, turn.hold);
      const heldS = Math.min(endS - lane.atS, secondsLeft(grip.tired, grip.hold));
      grip.tired = afterHolding(grip.tired, grip.hold, heldS);
      grip.atS = endS;
      payForHold(grip, heldS, endS);
    }
  }

  /** When the turn can begin: after the handover, and after every rest that was asked for. */
  private readyAt({ turn, sets }: ReadyTurn, pass: number, lane: LaneState, fromS: number): number {
    let readyS = fromS;
    if (sets.length === 0 || (lane.until.length === 0 && this.waits.size === 0)) return readyS;
    this.lookedFor += 1;
    for (const until of lane.until) readyS = Math.max(readyS, restedAt(sets, pass, until, lane.atS, turn.who, fromS));
    for (const athlete of turn.who) {
      for (const { until, fromS: sinceS } of this.waits.get(athlete) ?? []) {
        readyS = Math.max(readyS, restedAt(sets, pass, until, sinceS, [athlete], fromS));
      }
    }
    return readyS;
  }
}
