import type { Constants } from "../3-plan/assumptions.js";
import { loadFor } from "../3-plan/plan.js";
import type { Abilities } from "../4-timeline/ability.js";
import { type Worth, worthOf } from "./cost.js";
import { type Draft, type DraftLane, type DraftTurn, planOf } from "./draft.js";

/** Random numbers in 0…1. */
export type Random = () => number;

/** More turns in a repeat are no plan that four people can keep in their heads. */
const mostTurns = 8;
const mostLadder = 4;
const longestRestS = 60;
/** How much worse a step may be at first and still be taken, in s and in reps. */
const heat = { time: 4, reps: 1 } as const;
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
  private readonly judged = new Map<string, Worth>();
  /** Where changes are made until the climb begins again: in one lane, the others standing at their best; or anywhere. */
  private where: Where = anywhere;

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
    this.at = start;
    this.atCost = heightOf(this.worth);
  }

  /** Tries the openings, one place after another: a first plan is there after each. */
  *begin(): Generator<void, void, void> {
    for (const place of placesOf(this.best)) {
      for (const opening of openings(this.best, place, this.abilities)) {
        this.openings.push(opening);
        this.keepIfBetter(opening, this.judge(opening));
      }
      yield;
    }
    this.at = this.daring.draft;
    this.atCost = heightOf(this.daring.worth);
  }

  /** Tries one change. */
  step(): void {
    const changed = neighbour(this.at, this.where, this.random);
    this.steps += 1;
    if (!changed) return;
    const worth = this.judge(changed);
    const warmth = heat[this.best.event.score] * (1 - (this.steps % cooledAfter) / cooledAfter);
    if (heightOf(worth) <= this.atCost - warmth * Math.log(this.random() + 1e-9)) {
      this.at = changed;
      this.atCost = heightOf(worth);
    }
    this.keepIfBetter(changed, worth);
    if (this.steps % cooledAfter === 0) this.beginAgain();
  }

  /** By turns at the best, at the most daring, and at an opening, its turns once or more so that each can become another. */
  private beginAgain(): void {
    const kind = (this.steps / cooledAfter) % 4;
    const places = placesOf(this.best);
    this.where = places[Math.floor(this.random() * places.length)] ?? anywhere;
    const opening = this.openings[Math.floor(this.random() * this.openings.length)];
    const times = 1 + Math.floor(this.random() * 4);
    const longer = opening && mapLanes(this.best, this.where, (lane, block, at) => {
      const { turns, restS } = opening.blocks[block]?.lanes[at] ?? lane;
      return { ...lane, turns: Array.from({ length: Math.max(1, Math.min(times, Math.floor(mostTurns / turns.length))) }, () => turns).flat(), restS };
    });
    this.at = longer && kind < 2 ? longer : kind === 2 ? this.best : this.daring.draft;
    this.atCost = heightOf(this.judge(this.at));
  }

  /** What a draft is worth; one that was judged before is known. */
  private judge(draft: Draft): Worth {
    const key = keyOf(draft);
    const known = this.judged.get(key);
    if (known) return known;
    const worth = worthOf(planOf(draft), this.abilities, this.constants, this.target);
    const judged = { ...worth, cost: worth.cost + sayingIt * lengthOf(draft) };
    if (this.judged.size < mostJudged) this.judged.set(key, judged);
    return judged;
  }

  private keepIfBetter(draft: Draft, worth: Worth): void {
    if (worth.cost < this.daring.worth.cost) this.daring = { draft, worth };
    const better = worth.sound === this.worth.sound ? worth.cost < this.worth.cost : worth.sound;
    if (!better) return;
    this.best = draft;
    this.worth = worth;
  }
}

/** The cost as a climb sees it. */
function heightOf({ cost, slope }: Worth): number {
  return cost - slope;
}

/** What each number in a plan costs, in s or reps: of two plans as good, the shorter one is kept in four heads. */
const sayingIt = 0.15;

/** Drafts that are remembered. */
const mostJudged = 20_000;

/** All that tells the drafts of one arrangement apart. */
function keyOf({ blocks }: Draft): string {
  let key = "";
  for (const { lanes } of blocks) {
    for (const { turns, restS } of lanes) {
      for (const { who, sizes, parts, holders } of turns) key += `${who.join()} ${sizes.join()} ${parts} ${holders.join()};`;
      key += `${restS}|`;
    }
  }
  return key;
}

function lengthOf({ blocks }: Draft): number {
  let numbers = 0;
  for (const { lanes } of blocks) for (const { turns } of lanes) for (const { sizes, parts } of turns) numbers += sizes.length + parts - 1;
  return numbers;
}

/** A block and a lane in it; null is any of them. */
interface Where {
  readonly block: number | null;
  readonly lane: number | null;
}

const anywhere: Where = { block: null, lane: null };

/** All at once, then each block, then each lane of a block that has several. */
function placesOf({ blocks }: Draft): readonly Where[] {
  const each = blocks.flatMap(({ lanes }, block) => (lanes.length > 1 ? lanes.map((_, lane) => ({ block, lane })) : []));
  return [anywhere, ...(blocks.length > 1 ? blocks.map((_, block) => ({ block, lane: null })) : []), ...each];
}

/** Sets as parts of a best set: the same again; a ladder down; one long set and then short ones. */
const ladders: readonly (readonly number[])[] = [[1], [1, 0.6, 0.5, 0.3], [1, 0.3, 0.15]];

/** Where to begin: everyone the same part of their best set, or a ladder from it, with rests of some lengths. */
function* openings(draft: Draft, where: Where, abilities: Abilities): Iterable<Draft> {
  const rounds = draft.event.stages[draft.blocks[where.block ?? 0]?.stage ?? 0]?.rounds;
  const kinds = [0.12, 0.2, 0.3, 0.45, 0.7, 0.85, 1].flatMap((share) => (rounds ? ladders.slice(0, 1) : ladders).map((ladder) => ladder.map((part) => share * part)));
  for (const shares of kinds) {
    for (const restS of [0, 3, 10, 20, 40, 60]) {
      yield mapLanes(draft, where, (lane, block) => {
        const spec = draft.event.stages[draft.blocks[block]?.stage ?? 0];
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

function mapLanes(draft: Draft, where: Where, change: (lane: DraftLane, block: number, at: number) => DraftLane): Draft {
  const isThere = (block: number, at: number): boolean => (where.block ?? block) === block && (where.lane ?? at) === at;
  return { ...draft, blocks: draft.blocks.map((block, number) => ({ ...block, lanes: block.lanes.map((lane, at) => (isThere(number, at) ? change(lane, number, at) : lane)) })) };
}

/** One change of one lane; null where the one that came up cannot be made. */
function neighbour(draft: Draft, where: Where, random: Random): Draft | null {
  const upTo = (count: number): number => Math.min(count - 1, Math.floor(random() * count));
  const inBlock = where.block ?? upTo(draft.blocks.length);
  const block = draft.blocks[inBlock];
  const inLane = where.lane ?? upTo(block?.lanes.length ?? 0);
  const lane = block?.lanes[inLane];
  if (!block || !lane) return null;
  const changed = changedLane(lane, draft.event.stages[block.stage]?.rounds ?? false, draft, upTo, random);
  return changed && mapLanes(draft, { block: inBlock, lane: inLane }, () => changed);
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
  if (step > 0 && turns.length < mostTurns) {
    // Once more as it is, or a short set of it.
    const next = rounds || random() < 0.7 ? turn : { ...turn, sizes: [1 + upTo(3)], parts: 1 };
    return { ...lane, turns: turns.toSpliced(upTo(turns.length + 1), 0, next) };
  }
  return turns.filter((one) => one.who.join() === turn.who.join()).length > 1 ? { ...lane, turns: turns.toSpliced(at, 1) } : null;
}
