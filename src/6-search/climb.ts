import type { Constants } from "../3-plan/assumptions.js";
import { loadFor } from "../3-plan/plan.js";
import type { Abilities } from "../4-timeline/ability.js";
import { type Worth, worthOf } from "./cost.js";
import { type Draft, type DraftBlock, type DraftLane, type DraftTurn, planOf } from "./draft.js";

/** Random numbers in 0…1. */
export type Random = () => number;

/** More turns in a repeat are no plan that four people can keep in their heads. */
const mostTurns = 8;
const mostLadder = 4;
const longestRestS = 60;
/** How much worse a step may be at first and still be taken, in the score's unit. */
const heat = 4;
/** Steps in which a climb cools down, until only better ones are taken; then it begins again elsewhere. */
const cooledAfter = 300;

/** Looks for better numbers of one arrangement, a step at a time: the best so far stands at any moment. */
export class Climb {
  best: Draft;
  worth: Worth;
  /** The least cost met, where that is not the best: a plan that accepts a miss for its score. */
  daring: { readonly draft: Draft; readonly worth: Worth };
  private at: Draft;
  private atCost: number;
  private steps = 0;
  private readonly openings: Draft[] = [];

  constructor(
    start: Draft,
    private readonly abilities: Abilities,
    private readonly constants: Constants,
    private readonly random: Random,
    private readonly target: number | null,
  ) {
    this.best = start;
    this.worth = this.judge(start);
    this.daring = { draft: start, worth: this.worth };
    for (const block of start.blocks.length > 1 ? [null, ...start.blocks.keys()] : [null]) {
      for (const opening of openings(this.best, block, abilities)) {
        this.openings.push(opening);
        this.keepIfBetter(opening, this.judge(opening));
      }
    }
    this.at = this.daring.draft;
    this.atCost = this.daring.worth.cost;
  }

  /** Tries one change. */
  step(): void {
    const changed = neighbour(this.at, this.random);
    this.steps += 1;
    if (!changed) return;
    const worth = this.judge(changed);
    const warmth = heat * (1 - (this.steps % cooledAfter) / cooledAfter);
    if (worth.cost <= this.atCost - warmth * Math.log(this.random() + 1e-9)) {
      this.at = changed;
      this.atCost = worth.cost;
    }
    this.keepIfBetter(changed, worth);
    if (this.steps % cooledAfter === 0) this.beginAgain();
  }

  /** By turns at the best, at the most daring, and at an opening, its turns once or more so that each can become another. */
  private beginAgain(): void {
    const kind = (this.steps / cooledAfter) % 4;
    const opening = this.openings[Math.floor(this.random() * this.openings.length)];
    const times = 1 + Math.floor(this.random() * 4);
    const longer = opening && mapLanes(opening, (lane) => ({ ...lane, turns: Array.from({ length: Math.max(1, Math.min(times, Math.floor(mostTurns / lane.turns.length))) }, () => lane.turns).flat() }));
    this.at = longer && kind < 2 ? longer : kind === 2 ? this.best : this.daring.draft;
    this.atCost = this.judge(this.at).cost;
  }

  private judge(draft: Draft): Worth {
    const worth = worthOf(planOf(draft), this.abilities, this.constants, this.target);
    return { ...worth, cost: worth.cost + sayingIt * lengthOf(draft) };
  }

  private keepIfBetter(draft: Draft, worth: Worth): void {
    if (worth.cost < this.daring.worth.cost) this.daring = { draft, worth };
    const better = worth.sound === this.worth.sound ? worth.cost < this.worth.cost : worth.sound;
    if (!better) return;
    this.best = draft;
    this.worth = worth;
  }
}

/** What each number in a plan costs, in s or reps: of two plans as good, the shorter one is kept in four heads. */
const sayingIt = 0.15;

function lengthOf({ blocks }: Draft): number {
  let numbers = 0;
  for (const { lanes } of blocks) for (const { turns } of lanes) for (const { sizes, parts } of turns) numbers += sizes.length + parts - 1;
  return numbers;
}

/** Where to begin in a block, or in all: everyone the same part of their best set, or a ladder from it, with rests of some lengths. */
function* openings(draft: Draft, at: number | null, abilities: Abilities): Iterable<Draft> {
  const ladders = draft.event.stages[draft.blocks[at ?? 0]?.stage ?? 0]?.rounds ? [[1]] : [[1], [1, 0.6, 0.5, 0.3]];
  const kinds = [0.12, 0.2, 0.3, 0.45, 0.7, 1].flatMap((share) => ladders.map((ladder) => ladder.map((part) => share * part)));
  for (const shares of kinds) {
    for (const restS of [0, 10, 30, 60]) {
      yield mapLanes(draft, (lane, block) => {
        if (at !== null && block !== draft.blocks[at]) return lane;
        const spec = draft.event.stages[block.stage];
        const item = spec?.items[0];
        const turns = lane.turns.map((turn): DraftTurn => {
          if (!item || spec.rounds) return turn;
          const unbroken = Math.min(...turn.who.map((name) => abilities.unbroken(name, item.movement, loadFor(draft.team, name, item.load)).reps));
          return { ...turn, sizes: shares.map((share) => Math.max(1, Math.round(share * unbroken))) };
        });
        return { ...lane, turns, restS };
      });
    }
  }
}

function mapLanes(draft: Draft, change: (lane: DraftLane, block: DraftBlock) => DraftLane): Draft {
  return { ...draft, blocks: draft.blocks.map((block) => ({ ...block, lanes: block.lanes.map((lane) => change(lane, block)) })) };
}

/** One change of one lane; null where the one that came up cannot be made. */
function neighbour(draft: Draft, random: Random): Draft | null {
  const upTo = (count: number): number => Math.min(count - 1, Math.floor(random() * count));
  const block = draft.blocks[upTo(draft.blocks.length)];
  const lane = block?.lanes[upTo(block.lanes.length)];
  if (!block || !lane) return null;
  const spec = draft.event.stages[block.stage];
  const changed = changedLane(lane, spec?.rounds ?? false, draft, upTo, random);
  return changed && mapLanes(draft, (one) => (one === lane ? changed : one));
}

function changedLane(lane: DraftLane, rounds: boolean, { team }: Draft, upTo: (count: number) => number, random: Random): DraftLane | null {
  const { turns, restS } = lane;
  const at = upTo(turns.length);
  const turn = turns[at];
  if (!turn) return null;
  const step = (1 + upTo(3)) * (random() < 0.5 ? -1 : 1);
  const withTurn = (next: DraftTurn): DraftLane => ({ ...lane, turns: turns.with(at, next) });
  // A ladder goes down: that is how it is said and kept in a tired head.
  const resized = ({ sizes, ...rest }: DraftTurn, by: number, only: number | null): DraftTurn => {
    let most = Number.POSITIVE_INFINITY;
    return { ...rest, sizes: sizes.map((size, pass) => (most = Math.min(most, only === null || only === pass ? Math.max(1, size + by) : size))) };
  };
  const kind = random();
  if (!rounds && kind < 0.12) {
    // From one turn to another: the whole stays as it is.
    const other = upTo(turns.length);
    const second = turns[other];
    return second && other !== at ? { ...lane, turns: turns.with(at, resized(turn, step, null)).with(other, resized(second, -step, null)) } : null;
  }
  if (!rounds && kind < 0.4) return withTurn(resized(turn, step, upTo(turn.sizes.length)));
  if (!rounds && kind < 0.5) return { ...lane, turns: turns.map((one) => resized(one, Math.sign(step), null)) };
  if (!rounds && kind < 0.6) {
    const last = turn.sizes.at(-1) ?? 1;
    if (turn.sizes.length < mostLadder && turn.parts === 1 && step > 0) return withTurn({ ...turn, sizes: [...turn.sizes, Math.max(1, last - upTo(3))] });
    return turn.sizes.length > 1 ? withTurn({ ...turn, sizes: turn.sizes.slice(0, -1) }) : null;
  }
  if (!rounds && kind < 0.62 && turn.sizes.length === 1) return withTurn({ ...turn, parts: turn.parts > 1 ? 1 : 2 + upTo(2) });
  if (kind < 0.75) return { ...lane, restS: Math.min(longestRestS, Math.max(0, restS + step * (random() < 0.5 ? 1 : 5))) };
  if (kind < 0.85) {
    const other = upTo(turns.length);
    const second = turns[other];
    return second && other !== at ? { ...lane, turns: turns.with(at, second).with(other, turn) } : null;
  }
  if (kind < 0.93 && turn.holders.length > 0) {
    const free = team.athletes.map(({ name }) => name).filter((name) => !turn.who.includes(name) && !turn.holders.includes(name));
    const next = free[upTo(free.length)];
    return next === undefined ? null : withTurn({ ...turn, holders: turn.holders.with(upTo(turn.holders.length), next) });
  }
  if (step > 0 && turns.length < mostTurns) return { ...lane, turns: turns.toSpliced(upTo(turns.length + 1), 0, turn) };
  return turns.filter((one) => one.who.join() === turn.who.join()).length > 1 ? { ...lane, turns: turns.toSpliced(at, 1) } : null;
}
