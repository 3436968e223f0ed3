import { areSideBySide, type StageSpec } from "../3-plan/event.js";
import { mayHold } from "../5-findings/limits/never-holds.js";
import { categoryIn, mayBePair, type Work } from "../3-plan/plan.js";
import {
  cutIn,
  type DraftBlock,
  type DraftPlan,
  type DraftLane,
  type DraftTurn,
  type FreeSize,
  isFree,
  mostTurns,
  rhythmOf,
  type SetSize,
  stepsFor,
} from "./draft.js";
import { heldOtherwise } from "./holding.js";
import { laneKey, sizeKey } from "./numbers.js";
import { anywhere, changeAt, type LanePlace } from "./places.js";
import { inOneGo, isWhole, sharedOtherwise } from "./share-out.js";
import { followsOrder, isItsHalfTwice, mayRunTwice, runsTwice } from "./turn-order.js";
import { grown, isShort, mostLadder, mostPercent, percentLadder } from "./set-size.js";

/** Random numbers in 0…1. */
export type Random = () => number;

/** Who can do so many times the fewest reps of a set does no fewer. */
const manyReps = 4;
export const mostParts = 4;
const longestRestS = 60;
/** Of what is rested less than this nothing is kept. */
export const leastBreakS = 3;
const longestBreakS = 20;

/** What a change may use. */
export interface Bounds {
  /** The fewest reps of a set, for somebody who can do that many. */
  readonly leastSet: number;
  /** Whether a short set may be broken: a rule may want it. */
  readonly breaksShort: boolean;
  /** Whether somebody may work twice running though others are there. */
  readonly twiceRunning: boolean;
  /** Whether others may work together than at the start. */
  readonly otherCasts: boolean;
}

/** The nearest rest that anybody could say, or keep: none, of a few seconds, of fives. */
export function sayable(restS: number): number {
  if (restS < leastBreakS) return 0;
  return restS > 12 ? 5 * Math.round(restS / 5) : restS;
}

/** Whether each of a turn may do a part of the own best: nobody is bound to another's rhythm. */
export function takesPercent(spec: StageSpec): boolean {
  const how = rhythmOf(spec);
  return !spec.rounds && (how === null || how === "each");
}

/** One change of one lane of a place; null where the one that came up cannot be made. */
export function neighbour(draft: DraftPlan, place: LanePlace, bounds: Bounds, random: Random): DraftPlan | null {
  const upTo = (count: number): number => Math.min(count - 1, Math.floor(random() * count));
  const inBlock = place.block ?? upTo(draft.blocks.length);
  const block = draft.blocks[inBlock];
  const inLane = place.lane ?? upTo(block?.lanes.length ?? 0);
  const lane = block?.lanes[inLane];
  const spec = block && draft.event.stages[block.stage];
  if (!block || !lane || !spec) return null;
  const mayDo = { hold: () => holdersOf(lane, block, draft), work: () => workersOf(lane, block, draft) };
  const made = new Change(lane, spec, block.stage, draft, bounds, upTo, random, mayDo).made();
  const changed = made && spec.rounds ? { ...made, turns: inOneGo(made.turns) } : made;
  if (!changed || !followsOrder(changed, draft) || !isWhole(changed.turns, spec.items.length)) return null;
  if (!bounds.twiceRunning && ((runsTwice(changed) && !mayRunTwice(spec, draft)) || isItsHalfTwice(changed))) return null;
  // What is done the same way at several stages may stay so.
  const key = place === anywhere && draft.blocks.length > 1 && random() < 0.5 ? laneKey(lane) : null;
  const isTwin = (other: DraftLane): boolean => key !== null && other.station === lane.station && laneKey(other) === key;
  let short = false;
  const next = changeAt(draft, anywhere, (other, stage, number, at) => {
    if (!(number === inBlock && at === inLane) && !isTwin(other)) return other;
    short ||= tooShort(changed, stage, draft, bounds);
    return { ...changed, waits: waitsIn(changed) };
  });
  return short ? null : next;
}

/** Of those who wait alone, the ones who would not wait with the others anyway. */
function waitsIn(lane: DraftLane): readonly string[] {
  const { waits, rest, turns } = lane;
  if (rest === "ready") return [];
  return waits.filter((name) => worksIn(lane, name) && !(rest === "first ready" && turns[0]?.who.includes(name)));
}

function worksIn({ turns }: DraftLane, name: string): boolean {
  return turns.some(({ who }) => who.includes(name));
}

/** Who may hold for a lane: of several each has its own, so that nobody is wanted in two at once. */
function holdersOf({ turns }: DraftLane, { lanes }: DraftBlock, draft: DraftPlan): readonly string[] {
  const own = new Set(turns.flatMap(({ who, holders }) => [...who, ...holders]));
  return mayHold(draft).filter((name) => lanes.length === 1 || own.has(name));
}

/** Who may work in a lane: of several each has its own. */
function workersOf(lane: DraftLane, { stage, window, lanes }: DraftBlock, { event, team }: DraftPlan): readonly string[] {
  const station = event.stations.find(({ name }) => name === lane.station);
  const categories = [event.stages[stage]?.category, window === null ? null : event.windows[window]?.category, station?.category];
  return team.athletes
    .map(({ name }) => name)
    .filter((name) => categories.every((category) => !category || categoryIn(team, name) === category))
    .filter((name) => (lanes.length === 1 && !areSideBySide(event)) || worksIn(lane, name));
}

/** The fewest reps of a turn's set: one, where somebody in it can do but few. */
function leastReps({ who }: DraftTurn, stage: number, { best }: DraftPlan, { leastSet }: Bounds): number {
  return who.every((name) => best(name, stage) >= manyReps * leastSet) ? leastSet : 1;
}

/** Whether a set is shorter than it may be, for somebody who can do more; or short, and broken. */
export function tooShort({ turns }: DraftLane, stage: number, draft: DraftPlan, bounds: Bounds): boolean {
  return turns.some((turn) => {
    const { size, who } = turn;
    const items = draft.event.stages[stage]?.items ?? [];
    const short = (reps: number, item = 0): boolean =>
      !bounds.breaksShort && isShort(reps, Math.min(...who.map((name) => draft.best(name, stage, item))));
    if (size.kind === "round") return size.broken.some((set, item) => set !== null && short(items[item]?.count ?? 0, item));
    if (!isFree(size)) return false;
    if (size.kind === "reps" && size.parts > 1 && short(Math.max(...size.steps))) return true;
    const least = leastReps(turn, stage, draft, bounds);
    return who.some((name) => Math.min(...stepsFor(size, draft.best(name, stage))) < least);
  });
}

class Change {
  private readonly at: number;
  private readonly step: number;

  constructor(
    private readonly lane: DraftLane,
    private readonly spec: StageSpec,
    private readonly stage: number,
    private readonly draft: DraftPlan,
    private readonly bounds: Bounds,
    private readonly upTo: (count: number) => number,
    private readonly random: Random,
    private readonly mayDo: { readonly hold: () => readonly string[]; readonly work: () => readonly string[] },
  ) {
    this.at = upTo(lane.turns.length);
    this.step = (1 + upTo(3)) * (random() < 0.5 ? -1 : 1);
  }

  made(): DraftLane | null {
    const turn = this.lane.turns[this.at];
    if (!turn) return null;
    const kind = this.random();
    if (isFree(turn.size) ? kind < 0.66 : kind < 0.4) {
      if (turn.size.kind === "item") return sharedOtherwise(this.lane, this.at, this.step, this.bounds.leastSet, this.random);
      return turn.size.kind === "round" ? this.brokenRound(turn, turn.size.broken) : this.resized(turn, turn.size, kind / 0.66);
    }
    // Who holds is half of what a plan with a hold decides.
    if (turn.holders.length > 0 && this.random() < 0.35) {
      const turns = heldOtherwise(this.lane.turns, this.at, this.mayDo.hold(), this.upTo);
      return turns && { ...this.lane, turns };
    }
    const rest = this.random();
    if (rest < 0.4) return this.withRest();
    if (rest < 0.65) return this.swapped(turn);
    if (rest > 0.9 && this.bounds.otherCasts) return this.recast(turn);
    return this.lengthened(turn);
  }

  /** One movement of a round in more or fewer parts, or with another rest, for this turn or for all. */
  private brokenRound(turn: DraftTurn, sets: readonly Work["broken"][]): DraftLane {
    const item = this.upTo(sets.length);
    const count = this.spec.items[item]?.count ?? 0;
    const set = sets[item] ?? null;
    const kind = this.random();
    const size: SetSize = {
      kind: "round",
      broken: sets.with(
        item,
        set === null || kind < 0.6
          ? cutIn(count, Math.min(mostParts, (set?.parts.length ?? 1) + Math.sign(this.step)), set?.restS)
          : { ...set, restS: Math.min(longestBreakS, Math.max(leastBreakS, set.restS + this.step)) },
      ),
    };
    return this.random() < 0.5 ? this.withAll(() => size) : this.withTurn({ ...turn, size });
  }

  private resized(turn: DraftTurn, size: FreeSize, kind: number): DraftLane | null {
    const { turns } = this.lane;
    if (kind < 0.06) return this.random() < 0.5 ? this.withAll(() => size) : this.likeAnother(turn);
    if (kind < 0.1) return this.inOtherTerms();
    if (size.kind === "percent") {
      const by = Math.sign(this.step) * (1 + this.upTo(4));
      if (kind < 0.3) return this.withAll((one) => grown(one, by));
      if (kind < 0.4) return this.opening();
      if (kind < 0.6) return this.withAll((one) => grown(one, by, this.upTo(size.percents.length)));
      if (kind < 0.7) return this.withAlike(turn, (one) => ({ ...one, size: percentLadder(size, this.step) }));
      const next = kind < 0.85 ? grown(size, by) : grown(size, by, this.upTo(size.percents.length));
      return this.withAlike(turn, (one) => ({ ...one, size: next }));
    }
    if (kind < 0.25) {
      // From one turn to another: the whole stays as it is.
      const other = this.upTo(turns.length);
      const second = turns[other];
      return second && other !== this.at
        ? {
            ...this.lane,
            turns: turns.with(this.at, this.turnBy(turn, this.step, null)).with(other, this.turnBy(second, -this.step, null)),
          }
        : null;
    }
    const step = this.upTo(size.steps.length);
    if (kind < 0.6) return this.withAlike(turn, (one) => this.turnBy(one, this.step, step));
    if (kind < 0.76) return { ...this.lane, turns: turns.map((one) => this.turnBy(one, Math.sign(this.step), null)) };
    if (kind < 0.82) return this.opening();
    if (kind < 0.94) return this.ladder(turn, size);
    return size.steps.length === 1 ? this.withTurn({ ...turn, size: { ...size, parts: size.parts > 1 ? 1 : 2 + this.upTo(2) } }) : null;
  }

  private withTurn(next: DraftTurn): DraftLane {
    return { ...this.lane, turns: this.lane.turns.with(this.at, next) };
  }

  /** One turn; or all that have its size, so that what is shared stays so. */
  private withAlike(turn: DraftTurn, change: (turn: DraftTurn) => DraftTurn): DraftLane {
    const key = this.random() < 0.5 ? sizeKey(turn.size) : null;
    return {
      ...this.lane,
      turns: this.lane.turns.map((one) => (one === turn || (key !== null && sizeKey(one.size) === key) ? change(one) : one)),
    };
  }

  /** The size of another turn: what is shared is remembered once. */
  private likeAnother(turn: DraftTurn): DraftLane | null {
    const { size } = this.lane.turns[this.upTo(this.lane.turns.length)] ?? turn;
    return sizeKey(size) === sizeKey(turn.size) ? null : this.withTurn({ ...turn, size });
  }

  private withAll(change: (size: SetSize) => SetSize): DraftLane {
    return { ...this.lane, turns: this.lane.turns.map((turn) => ({ ...turn, size: change(turn.size) })) };
  }

  private leastFor(turn: DraftTurn): number {
    return leastReps(turn, this.stage, this.draft, this.bounds);
  }

  /** The least of the best sets of those in a turn. */
  private bestOf({ who }: DraftTurn): number {
    return Math.min(...who.map((name) => this.draft.best(name, this.stage)));
  }

  /** A ladder goes down: that is how it is said and kept in a tired head. `only`: the step that changes; null: all. */
  private turnBy(turn: DraftTurn, by: number, only: number | null): DraftTurn {
    const { size } = turn;
    if (size.kind !== "reps") return { ...turn, size: grown(size, by) };
    const least = this.leastFor(turn);
    let most = Number.POSITIVE_INFINITY;
    const steps = size.steps.map(
      (reps, pass) => (most = Math.min(most, only === null || only === pass ? Math.max(least, reps + by) : reps)),
    );
    return { ...turn, size: { ...size, steps } };
  }

  /** A longer first set for everybody, or for nobody any more. */
  private opening(): DraftLane {
    const longer = 1.2 + 1.3 * this.random();
    const openedBy = (turn: DraftTurn): SetSize => {
      const { size } = turn;
      if (size.kind === "percent")
        return {
          ...size,
          percents:
            this.step < 0
              ? size.percents.slice(-1)
              : [Math.min(mostPercent, Math.round((size.percents[0] ?? 1) * longer)), ...size.percents].slice(0, mostLadder),
        };
      if (size.kind !== "reps" || size.parts > 1) return size;
      if (this.step < 0) return { ...size, steps: size.steps.slice(-1) };
      return {
        ...size,
        steps: [Math.min(this.bestOf(turn), Math.round((size.steps[0] ?? 1) * longer)), ...size.steps].slice(0, mostLadder),
      };
    };
    return { ...this.lane, turns: this.lane.turns.map((turn) => ({ ...turn, size: openedBy(turn) })) };
  }

  private ladder(turn: DraftTurn, size: Extract<SetSize, { kind: "reps" }>): DraftLane | null {
    const { steps, parts } = size;
    const last = steps.at(-1) ?? 1;
    if (steps.length < mostLadder && parts === 1 && this.step > 0)
      return this.withTurn({ ...turn, size: { ...size, steps: [...steps, Math.max(this.leastFor(turn), last - this.upTo(3))] } });
    return steps.length > 1 ? this.withTurn({ ...turn, size: { ...size, steps: steps.slice(0, -1) } }) : null;
  }

  /** All sizes as a part of each one's best, or that part as reps. */
  private inOtherTerms(): DraftLane | null {
    if (!takesPercent(this.spec)) return null;
    const [first] = this.lane.turns;
    if (!first || !isFree(first.size)) return null;
    if (first.size.kind === "percent") {
      const reps = ({ size, ...turn }: DraftTurn): DraftTurn => ({
        ...turn,
        size: !isFree(size) ? size : { kind: "reps", steps: stepsFor(size, this.bestOf({ size, ...turn })), parts: 1 },
      });
      return { ...this.lane, turns: this.lane.turns.map(reps) };
    }
    const percent = Math.min(mostPercent, Math.round((100 * (first.size.steps[0] ?? 1)) / this.bestOf(first)));
    return this.withAll(() => ({ kind: "percent", percents: [percent] }));
  }

  private withRest(): DraftLane {
    const { rest } = this.lane;
    if (typeof rest === "string") return { ...this.lane, rest: sayable(this.upTo(20)) };
    const kind = this.random();
    if (kind < 0.15) return { ...this.lane, rest: kind < 0.07 ? "ready" : "first ready" };
    if (kind < 0.22) return this.withWait();
    const moved = Math.min(longestRestS, Math.max(0, rest + this.step * (this.random() < 0.5 ? 1 : 5)));
    // One second more than none is the shortest there is.
    return { ...this.lane, rest: sayable(rest === 0 && moved > 0 ? Math.max(leastBreakS, moved) : moved) };
  }

  /** One who waits for the own strength, or waits no more. */
  private withWait(): DraftLane {
    const { waits } = this.lane;
    const names = this.lane.turns.flatMap(({ who }) => who);
    const name = names[this.upTo(names.length)];
    if (name === undefined) return this.lane;
    return { ...this.lane, waits: waits.includes(name) ? waits.filter((one) => one !== name) : [...waits, name] };
  }

  /** Another works in place of one of a turn; who held then, and works now, is held for in return. */
  private recast(turn: DraftTurn): DraftLane | null {
    const { event, team } = this.draft;
    const { who, holders } = turn;
    const out = who[this.upTo(who.length)];
    const others = this.mayDo.work().filter((name) => !who.includes(name));
    const into = others[this.upTo(others.length)];
    if (out === undefined || into === undefined) return null;
    if (holders.includes(into) && !this.mayDo.hold().includes(out)) return null;
    const cast = team.athletes.map(({ name }) => name).filter((name) => name === into || (name !== out && who.includes(name)));
    const [one = "", other = ""] = cast;
    if (cast.length === 2 && !mayBePair(event, team, one, other)) return null;
    return this.withTurn({ ...turn, who: cast, holders: holders.map((name) => (name === into ? out : name)) });
  }

  private swapped(turn: DraftTurn): DraftLane | null {
    const { turns } = this.lane;
    const other = this.upTo(turns.length);
    const second = turns[other];
    if (!second || other === this.at) return null;
    // What a round asks comes in its order, whoever does it.
    const [here, there] =
      turn.size.kind === "item"
        ? [
            { ...second, size: turn.size },
            { ...turn, size: second.size },
          ]
        : [second, turn];
    return { ...this.lane, turns: turns.with(this.at, here).with(other, there) };
  }

  /** A turn once more — as it is, or a short set of it — or one less, or the whole repeat twice over with one turn changed. */
  private lengthened(turn: DraftTurn): DraftLane | null {
    const { turns } = this.lane;
    if (turn.size.kind === "item") return null;
    if (this.step > 0 && turns.length * 2 <= mostTurns && this.random() < 0.2)
      return { ...this.lane, turns: [...turns.with(this.at, this.turnBy(turn, this.step, null)), ...turns] };
    if (this.step > 0 && turns.length < mostTurns) {
      const short: SetSize = { kind: "reps", steps: [this.leastFor(turn) + this.upTo(3)], parts: 1 };
      const next = this.spec.rounds || this.random() < 0.7 ? turn : { ...turn, size: short };
      return { ...this.lane, turns: turns.toSpliced(this.upTo(turns.length + 1), 0, next) };
    }
    const others = turns.toSpliced(this.at, 1);
    return this.mayBeSpared(turn, others) ? { ...this.lane, turns: others } : null;
  }

  /** Whether enough are left to take turns without those of a turn, or these have something else to do. */
  private mayBeSpared({ who }: DraftTurn, others: readonly DraftTurn[]): boolean {
    const elsewhere = this.draft.blocks.flatMap(({ lanes }) => lanes.flatMap(({ turns }) => (turns === this.lane.turns ? [] : turns)));
    const casts = new Set(others.map((turn) => turn.who.join()));
    const busy = (name: string): boolean =>
      [...others, ...elsewhere].some((turn) => turn.who.includes(name) || turn.holders.includes(name));
    return others.length > 0 && (casts.size > 1 || who.every(busy));
  }
}
