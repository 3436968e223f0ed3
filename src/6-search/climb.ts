import type { Constants } from "../3-plan/assumptions.js";
import type { Abilities } from "../4-timeline/ability.js";
import { type Standard, type Worth, worthOf } from "./cost.js";
import { type DraftPlan, planOf } from "./draft.js";
import { type Bounds, mostTurns, neighbour, type Random, tooShort } from "./neighbour.js";
import { allNumbers, draftKey, mostInShort, mostInSimplest, mostNumbers } from "./numbers.js";
import { firstOpenings, openings } from "./openings.js";
import { anywhere, changeAt, type LanePlace, lanePlacesOf } from "./places.js";
import { trimmed } from "./trim.js";

/** How much worse a step may be at first and still be taken: in s, or the part of the time where that is more; in reps. */
const heatS = 4;
const heatOfTime = 0.02;
const heatReps = 1;
/** Steps in which a climb cools down, until only better ones are taken; then it begins again elsewhere. */
const cooledAfter = 300;
/** Drafts that are remembered. */
const mostJudged = 20_000;
/** What each number in a plan costs, in s or reps: of two plans as good, the shorter one is kept in four heads. */
const numberCosts = 0.15;

export interface JudgedDraft {
  readonly draft: DraftPlan;
  readonly worth: Worth;
}

/** What a climb may propose: any plan at all, or such as are told in a breath. */
export interface Manner extends Standard {
  readonly anyLength: boolean;
}

/** A draft that is kept, and what it is worth on as many more days: of many tried on few days, the luckiest looks best. */
interface KeptDraft extends JudgedDraft {
  readonly sure: Worth;
}

/** Days of a second look for each day of the first, and the part of the risk that is borne which each look takes: a sample has a margin. */
const moreDays = 8;
const ofRisk = { first: 0.85, sure: 0.9 } as const;

/** What climbs from one start know together: each draft that was judged, once and for sure, the openings, and drafts as they are told. */
interface Known {
  readonly judged: Map<string, Worth>;
  readonly sure: Map<string, Worth>;
  readonly openings: DraftPlan[];
  readonly told: WeakMap<DraftPlan, JudgedDraft>;
}

/** Looks for better numbers of one arrangement, a step at a time: the best so far of each length stands at any moment. */
export class Climb {
  /** The best that is told in one breath, that is short enough to be kept in a tired head, and of any length. */
  simplest: KeptDraft;
  short: KeptDraft;
  best: KeptDraft;
  /** The least cost met, where that is not the best: a plan that accepts a miss for its score. */
  riskier: JudgedDraft;
  private at: JudgedDraft;
  private steps = 0;
  /** Where changes are made until the climb begins again: in one lane, the others standing at their best; or anywhere. */
  private where: LanePlace = anywhere;
  private readonly bounds: Bounds;
  /** Numbers a lane may have while a climb looks for a short plan; more where the arrangement itself needs them. */
  private readonly mostNumbers: number;
  private limit: number;

  constructor(
    start: DraftPlan,
    private readonly abilities: Abilities,
    private readonly constants: Constants,
    private readonly random: Random,
    private readonly manner: Manner,
    private readonly known: Known = { judged: new Map(), sure: new Map(), openings: [], told: new WeakMap() },
  ) {
    const { anyLength } = manner;
    this.bounds = { leastSet: anyLength ? 1 : 2, twiceRunning: anyLength };
    // Where who holds when takes all that heads have room for, two sizes of their own still fit.
    const needed = mostNumbers(start) + 2;
    this.mostNumbers = Math.max(mostInShort, needed);
    this.limit = anyLength ? Number.POSITIVE_INFINITY : this.mostNumbers;
    const worth = this.judge(start);
    const judged = { draft: start, worth, sure: worth.sound ? this.sureOf(start, worth) : worth };
    [this.simplest, this.short, this.best, this.riskier, this.at] = [judged, judged, judged, judged, judged];
  }

  /** Another climb that knows what this one does and begins at its best, its chances its own. */
  another(random: Random): Climb {
    return new Climb(this.short.draft, this.abilities, this.constants, random, this.manner, this.known);
  }

  /** Tries the first few openings: enough to tell whether the arrangement is worth a longer look. */
  *open(): Generator<void, void, void> {
    for (const opening of firstOpenings(this.best.draft, anywhere)) {
      this.offer(opening);
      yield;
    }
    this.at = this.riskier;
  }

  /** Tries the openings, one place after another; `few`: the first of them alone. */
  *begin(few = false): Generator<void, void, void> {
    for (const place of lanePlacesOf(this.best.draft)) {
      const all = !few && (place === anywhere || this.manner.anyLength);
      for (const opening of (all ? openings : firstOpenings)(this.best.draft, place)) this.offer(opening);
      yield;
    }
    this.at = this.riskier;
  }

  private offer(draft: DraftPlan): void {
    if (draft.blocks.some(({ stage, lanes }) => lanes.some((lane) => tooShort(lane, stage, draft, this.bounds)))) return;
    this.known.openings.push(draft);
    const worth = this.judgeBelow(draft, this.notable());
    if (worth) this.keepIfBetter({ draft, worth });
  }

  /** Tries one change. */
  step(): void {
    const changed = neighbour(this.at.draft, this.where, this.bounds, this.random);
    this.steps += 1;
    if (this.steps % cooledAfter === 0) this.beginAgain();
    if (!changed || mostNumbers(changed) > this.limit) return;
    const atFirst = changed.event.score === "reps" ? heatReps : Math.max(heatS, heatOfTime * this.best.worth.score);
    const warmth = atFirst * (1 - (this.steps % cooledAfter) / cooledAfter);
    const bearable = heightOf(this.at.worth) - warmth * Math.log(this.random() + 1e-9);
    const worth = this.judgeBelow(changed, Math.max(bearable, this.notable()));
    if (!worth) return;
    const judged = { draft: changed, worth };
    if (heightOf(worth) <= bearable) this.at = judged;
    this.keepIfBetter(judged);
  }

  /** As it is told: without what is never done, where the days drawn are none the worse for it. The climb itself keeps it, to change. */
  told({ draft, worth }: JudgedDraft): JudgedDraft {
    const known = this.known.told.get(draft);
    if (known) return known;
    const sure = this.sureOf(draft, worth);
    const short = trimmed(draft, this.abilities, this.constants);
    const then = short === draft ? sure : this.sureOf(short, worth);
    const told = then.sound === sure.sound && then.cost <= sure.cost ? { draft: short, worth: then } : { draft, worth: sure };
    this.known.told.set(draft, told);
    return told;
  }

  /** By turns at the best, at the riskier, and at an opening, its turns once or more so that each can become another. */
  private beginAgain(): void {
    const kind = (this.steps / cooledAfter) % 4;
    if (!this.manner.anyLength) this.limit = kind === 3 ? Number.POSITIVE_INFINITY : this.mostNumbers;
    const { draft } = kind === 3 ? this.best : this.short;
    const places = lanePlacesOf(draft);
    this.where = places[Math.floor(this.random() * places.length)] ?? anywhere;
    const { openings: begun } = this.known;
    const opening = begun[Math.floor(this.random() * begun.length)];
    const times = this.manner.anyLength ? 1 + Math.floor(this.random() * 4) : 1;
    const other =
      opening &&
      changeAt(draft, this.where, (lane, _, block, at) => {
        const { turns, rest } = opening.blocks[block]?.lanes[at] ?? lane;
        return {
          ...lane,
          turns: Array.from({ length: Math.max(1, Math.min(times, Math.floor(mostTurns / turns.length))) }, () => turns).flat(),
          rest,
        };
      });
    const next = other && kind < 2 ? other : kind === 3 ? this.riskier.draft : draft;
    this.at = { draft: next, worth: this.judge(next) };
  }

  private judge(draft: DraftPlan): Worth {
    return (
      this.judgeBelow(draft, Number.POSITIVE_INFINITY) ?? {
        cost: Number.POSITIVE_INFINITY,
        slope: 0,
        score: Number.NaN,
        middle: Number.NaN,
        troubled: 1,
        sound: false,
        chance: null,
      }
    );
  }

  /** What a draft is worth, where it costs no more than `most`; one that was judged before is known. */
  private judgeBelow(draft: DraftPlan, most: number): Worth | null {
    const key = draftKey(draft);
    const known = this.known.judged.get(key);
    if (known) return known;
    const told = numberCosts * allNumbers(draft);
    const { score, middle } = this.at?.worth ?? { score: 0, middle: 0 };
    const lag = draft.event.score === "time" ? middle - score : score - middle;
    const worth = worthOf(
      planOf(draft),
      this.abilities,
      this.constants,
      { ...this.manner, risk: ofRisk.first * this.manner.risk },
      most - told,
      Number.isFinite(lag) ? Math.max(0, lag) : 0,
    );
    if (!worth) return null;
    const judged = { ...worth, cost: worth.cost + told };
    if (this.known.judged.size < mostJudged) this.known.judged.set(key, judged);
    return judged;
  }

  /** The second look: what a draft is worth on more days; on paper, what it was worth at first. */
  private sureOf(draft: DraftPlan, worth: Worth): Worth {
    const { days, risk } = this.manner;
    if (days === 0) return worth;
    const key = draftKey(draft);
    const known = this.known.sure.get(key);
    if (known) return known;
    const standard = { ...this.manner, days: moreDays * days, risk: ofRisk.sure * risk };
    const found = worthOf(planOf(draft), this.abilities, this.constants, standard) ?? worth;
    const sure = { ...found, cost: found.cost + numberCosts * allNumbers(draft) };
    this.known.sure.set(key, sure);
    return sure;
  }

  /** The cost below which a draft may be better than one that is kept. */
  private notable(): number {
    const { simplest, short, best } = this;
    if (!short.worth.sound) return Number.POSITIVE_INFINITY;
    const costs = [short, best, ...(simplest.worth.sound ? [simplest] : [])].flatMap(({ worth, sure }) => [worth.cost, sure.cost]);
    return Math.max(...costs);
  }

  private keepIfBetter(judged: JudgedDraft): void {
    if (judged.worth.cost < this.riskier.worth.cost) this.riskier = judged;
    this.best = this.better(judged, this.best);
    const numbers = mostNumbers(judged.draft);
    if (numbers <= this.mostNumbers) this.short = this.better(judged, this.short);
    if (numbers <= Math.max(mostInSimplest, this.mostNumbers - mostInShort + 1)) this.simplest = this.better(judged, this.simplest);
  }

  /** A draft where it is better than the one that is kept, at a first look and for sure; else that one. */
  private better({ draft, worth }: JudgedDraft, kept: KeptDraft): KeptDraft {
    // One that was lucky at its first look is no measure for those that come after.
    if (!isBetter(worth, kept.worth) && !isBetter(worth, kept.sure)) return kept;
    const sure = this.sureOf(draft, worth);
    return isBetter(sure, kept.sure) ? { draft, worth, sure } : kept;
  }
}

/** Sound before cheap. */
function isBetter(one: Worth, other: Worth): boolean {
  return one.sound === other.sound ? one.cost < other.cost : one.sound;
}

/** The cost as a climb sees it. */
function heightOf({ cost, slope }: Worth): number {
  return cost - slope;
}
