import type { Constants } from "../3-plan/assumptions.js";
import type { Abilities } from "../4-timeline/ability.js";
import { inForce, sourcesOf } from "../5-findings/limits/limit.js";
import { setAtMostReps, setAtMostUnbroken } from "../5-findings/limits/set-at-most.js";
import { type Standard, type Worth, worthOf } from "./cost.js";
import { type DraftPlan, mostTurns, planOf } from "./draft.js";
import { wayOf } from "./kind.js";
import { isBetter, type JudgedDraft, type SecondLook, Shelf, type SureDraft } from "./shelf.js";
import { type Bounds, neighbour, type Random, tooShort } from "./neighbour.js";
import { allNumbers, draftKey, mostInShortLike, mostInSimplest, mostNumbers } from "./numbers.js";
import { nearby } from "./nearby.js";
import { firstOpenings, openings, probes } from "./openings.js";
import { anywhere, changeAt, type LanePlace, lanePlacesOf } from "./places.js";
import { trimmed } from "./trim.js";

/** How much worse a step may be at first and still be taken: in s, and in reps, or that part of the score where it is more. */
const heatS = 4;
const heatOfTime = 0.02;
const heatReps = 1;
const heatOfReps = 0.01;
/** Steps in which a climb cools down, until only better ones are taken; then it begins again elsewhere. */
const cooledAfter = 300;
/** Steps between two second looks at what is kept: the longer, the fewer of those that a later one outdoes. */
const settledEach = 40;
/** What each number beyond the limit costs a climb on its way, as a part of the score. */
const tollOf = 0.004;
/** Of the openings anywhere, and of a first few or of one place, those that are looked at on drawn days. */
const likeliest = 8;
const likeliestOfFew = 3;
/** How far behind the best so far an opening may be, as a part of the score. */
const nearOf = 0.06;
/** Days of the glance that tells which these are, and the trouble that is borne on so few. */
const glanceDays = 3;
const glanceRisk = 0.5;
/** What a plan may lose, as a part of the score, by being told without what its day on paper never comes to. */
const noWorse = 0.001;
/** Drafts around the best that are tried at a time. */
const mostPolished = 12;
/** Drafts that are remembered. */
const mostJudged = 20_000;
/** What each number in a plan costs, in s or reps: of two plans as good, the shorter one is kept in four heads. */
const numberCosts = 0.15;

/** What a climb may propose: any plan at all, or such as are told in a breath. */
export interface Manner extends Standard {
  readonly anyLength: boolean;
  /** Whether others may work together than a climb begins with. */
  readonly otherCasts: boolean;
}

/** Days of a second look for each day of the first, and the part of the risk that is borne which each look takes: a sample has a margin. */
const moreDays = 12;
const ofRisk = { first: 0.85, sure: 0.9 } as const;

/** What climbs from one start know together: each draft that was judged, the openings, and drafts as they are told. */
interface Known {
  readonly judged: Map<string, Worth>;
  readonly openings: DraftPlan[];
  readonly told: WeakMap<DraftPlan, JudgedDraft>;
}

/** Looks for better numbers of one arrangement, a step at a time: the best so far of each length stands at any moment. */
export class Climb {
  private readonly shelves: Readonly<Record<"simplest" | "short" | "best", Shelf>>;
  /** The least cost met, where that is not the best: a plan that accepts a miss for its score. */
  riskier: JudgedDraft;
  /** Whether it is past its start. */
  opened = false;
  private at: JudgedDraft;
  private steps = 0;
  /** Second looks that were taken to their end: for the climb itself, and for what is told, which changes nothing of it. */
  private readonly looked = new Map<string, Worth>();
  private readonly toldOf = new Map<string, Worth>();
  /** Drafts that were tried around the best. */
  private readonly polished = new Set<string>();
  /** Where changes are made until the climb begins again: in one lane, the others standing at their best; or anywhere. */
  private where: LanePlace = anywhere;
  private readonly bounds: Bounds;
  /** Numbers a lane may have while a climb looks for a short plan; more where the arrangement itself needs them. */
  private readonly mostNumbers: number;
  private readonly mostInSimplest: number;
  private limit: number;

  constructor(
    start: DraftPlan,
    private readonly abilities: Abilities,
    private readonly constants: Constants,
    private readonly random: Random,
    private readonly manner: Manner,
    private readonly known: Known = { judged: new Map(), openings: [], told: new WeakMap() },
    private readonly needed = mostNumbers(start),
  ) {
    const { anyLength } = manner;
    const breaksShort = [setAtMostReps, setAtMostUnbroken].some((kind) => inForce(sourcesOf(start), kind).length > 0);
    this.bounds = { leastSet: anyLength ? 1 : 2, breaksShort, twiceRunning: anyLength, otherCasts: manner.otherCasts };
    this.mostNumbers = mostInShortLike(needed);
    this.mostInSimplest = Math.max(mostInSimplest, needed);
    this.limit = anyLength ? Number.POSITIVE_INFINITY : this.mostNumbers;
    const judged = { draft: start, worth: this.judge(start) };
    [this.riskier, this.at] = [judged, judged];
    this.shelves = { simplest: new Shelf(judged), short: new Shelf(judged), best: new Shelf(judged) };
  }

  /** The best that is told in one breath. */
  get simplest(): SureDraft {
    return this.shelves.simplest.best(this.look);
  }

  /** The best that is short enough to be kept in a tired head. */
  get short(): SureDraft {
    return this.shelves.short.best(this.look);
  }

  /** The best of any length. */
  get best(): SureDraft {
    return this.shelves.best.best(this.look);
  }

  /** Another climb that knows what this one does, its chances its own: it begins at the `nth` best of openings that differ in kind. */
  another(nth: number, random: Random): Climb {
    const start = this.differing()[nth] ?? this.short.draft;
    const other = new Climb(start, this.abilities, this.constants, random, this.manner, this.known, this.needed);
    other.opened = true;
    return other;
  }

  /** The openings that were judged, the best of each way to say sizes first. */
  private differing(): readonly DraftPlan[] {
    const judged = this.known.openings.flatMap((draft) => {
      const worth = this.known.judged.get(draftKey(draft));
      return worth ? [{ draft, worth }] : [];
    });
    const ways = judged
      .sort((one, other) => (isBetter(one.worth, other.worth) ? -1 : 1))
      .map(({ draft }) => ({ draft, way: wayOf(draft) }));
    return ways.filter(({ way }, at) => ways.findIndex((one) => one.way === way) === at).map(({ draft }) => draft);
  }

  /** A climb from this one's best that has no large first set: it judges by another measure. */
  gentler(random: Random): Climb {
    const known: Known = { ...this.known, judged: new Map(), told: new WeakMap() };
    const other = new Climb(this.short.draft, this.abilities, this.constants, random, { ...this.manner, gentle: true }, known, this.needed);
    other.opened = true;
    return other;
  }

  /** Tries the fewest openings: enough to tell whether the arrangement is worth a longer look. */
  probe(): void {
    this.tryOut(probes, likeliestOfFew);
  }

  /** Tries the first openings. */
  open(): void {
    this.tryOut(firstOpenings, likeliest);
    this.settle();
  }

  private tryOut(some: typeof openings, most: number): void {
    this.opened = true;
    for (const opening of this.likely(some(this.riskier.draft, anywhere), most)) this.offer(opening);
    this.at = this.riskier;
  }

  /** Tries the openings, one place after another; `few`: the first of them alone. */
  *begin(few = false): Generator<void, void, void> {
    const places = lanePlacesOf(this.riskier.draft);
    for (const place of places.filter(({ lane }) => lane === null || this.riskier.draft.blocks.length === 1)) {
      const all = !few && (place === anywhere || this.manner.anyLength);
      const next = (all ? openings : firstOpenings)(this.riskier.draft, place);
      for (const opening of this.likely(next, place === anywhere ? likeliest : likeliestOfFew)) this.offer(opening);
      yield;
    }
    this.settle();
    this.at = this.riskier;
  }

  /** Of some openings the few that are best on very few days. */
  private likely(all: Iterable<DraftPlan>, most: number): readonly DraftPlan[] {
    const { days, risk } = this.manner;
    const standard = { ...this.manner, days: Math.min(days, glanceDays), risk: Math.max(risk, glanceRisk), target: null };
    let best: readonly { readonly draft: DraftPlan; readonly cost: number }[] = [];
    const { cost: known, score, sound } = this.riskier.worth;
    const near = sound ? known + nearOf * Math.abs(score) : Number.POSITIVE_INFINITY;
    for (const draft of all) {
      if (draft.blocks.some(({ stage, lanes }) => lanes.some((lane) => tooShort(lane, stage, draft, this.bounds)))) continue;
      const bound = best.length < most ? near : Math.min(near, best.at(-1)?.cost ?? 0);
      const cost = worthOf(planOf(draft), this.abilities, this.constants, standard, { most: bound })?.cost ?? Number.POSITIVE_INFINITY;
      if (cost < bound) best = [...best, { draft, cost }].sort((one, other) => one.cost - other.cost).slice(0, most);
    }
    return best.map(({ draft }) => draft);
  }

  private offer(draft: DraftPlan): void {
    this.known.openings.push(draft);
    const notable = this.notable(mostNumbers(draft));
    const worth = this.judgeBelow(draft, notable, notable);
    if (worth) this.keepIfBetter({ draft, worth });
  }

  /** Tries some changes, one after another. */
  climb(steps: number): void {
    for (let step = 0; step < steps; step += 1) {
      if (this.steps % settledEach === 0) {
        this.settle();
        this.polish();
      }
      this.step();
    }
  }

  private settle(): void {
    for (const shelf of Object.values(this.shelves)) shelf.settle(this.look);
  }

  private step(): void {
    const changed = neighbour(this.at.draft, this.where, this.bounds, this.random);
    this.steps += 1;
    if (this.steps % cooledAfter === 0) this.beginAgain();
    if (!changed) return;
    const numbers = mostNumbers(changed);
    const { score } = this.riskier.worth;
    const atFirst = changed.event.score === "reps" ? Math.max(heatReps, heatOfReps * score) : Math.max(heatS, heatOfTime * score);
    const warmth = atFirst * (1 - (this.steps % cooledAfter) / cooledAfter);
    const tolls = this.toll(numbers) - this.toll(mostNumbers(this.at.draft));
    const bearable = heightOf(this.at.worth) - tolls - warmth * Math.log(this.random() + 1e-9);
    const notable = this.notable(numbers);
    const worth = this.judgeBelow(changed, Math.max(bearable, notable), notable);
    if (!worth) return;
    const judged = { draft: changed, worth };
    if (heightOf(worth) <= bearable) this.at = judged;
    this.keepIfBetter(judged);
  }

  /** What numbers beyond the limit cost a climb: it may go by a longer plan to a better short one. */
  private toll(numbers: number): number {
    return tollOf * Math.abs(this.riskier.worth.score) * Math.max(0, numbers - this.limit);
  }

  /** As it is told: without what is never done, where the days drawn are none the worse for it. The climb itself keeps it, to change. */
  told({ draft, worth }: JudgedDraft): JudgedDraft {
    const known = this.known.told.get(draft);
    if (known) return known;
    const sure = this.sureOf(draft, null, this.toldOf) ?? worth;
    const most = sure.cost + noWorse * Math.abs(sure.score);
    let told: JudgedDraft = { draft, worth: sure };
    // All of it; where that costs too much, block by block.
    for (const block of [null, ...draft.blocks.keys()]) {
      const short = trimmed(told.draft, this.abilities, this.constants, block);
      const then = short === told.draft ? told.worth : (this.sureOf(short, null, this.toldOf) ?? worth);
      if (then.sound !== sure.sound || then.cost > most) continue;
      told = { draft: short, worth: then };
      if (block === null) break;
    }
    this.known.told.set(draft, told);
    return told;
  }

  /** By turns at the best, at the riskier, and at an opening, its turns once or more so that each can become another. */
  private beginAgain(): void {
    this.settle();
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

  /** Moves each number of the best short plan, on the days of the second look, as long as that gains. */
  private polish(): void {
    let best = this.short;
    if (this.manner.days === 0 || !best.sure.sound) return;
    for (let tries = 0, gained = true; gained;) {
      gained = false;
      for (const draft of nearby(best.draft)) {
        const key = draftKey(draft);
        if (this.polished.has(key) || mostNumbers(draft) > this.mostNumbers) continue;
        if (draft.blocks.some(({ stage, lanes }) => lanes.some((lane) => tooShort(lane, stage, draft, this.bounds)))) continue;
        this.polished.add(key);
        tries += 1;
        if (tries > mostPolished) return;
        const sure = this.sureOf(draft, best.sure, this.looked);
        if (!sure || !isBetter(sure, best.sure)) continue;
        best = { draft, worth: this.judge(draft), sure };
        for (const shelf of this.shelvesFor(mostNumbers(draft))) shelf.keep(best);
        gained = true;
        break;
      }
    }
  }

  private judge(draft: DraftPlan): Worth {
    return (
      this.judgeBelow(draft, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY) ?? {
        cost: Number.POSITIVE_INFINITY,
        slope: 0,
        score: Number.NaN,
        middle: Number.NaN,
        scores: new Float64Array(),
        troubled: 1,
        rough: false,
        sound: false,
        chance: null,
      }
    );
  }

  /** What a draft is worth, where it costs no more than `most`, and roughly beyond `enough`; one that was judged before is known. */
  private judgeBelow(draft: DraftPlan, most: number, enough: number): Worth | null {
    const key = draftKey(draft);
    const known = this.known.judged.get(key);
    if (known) return known;
    const told = numberCosts * allNumbers(draft);
    const worth = worthOf(
      planOf(draft),
      this.abilities,
      this.constants,
      { ...this.manner, risk: ofRisk.first * this.manner.risk },
      { most: most - told, enough: enough - told, like: this.riskier?.worth ?? null },
    );
    if (!worth) return null;
    const judged = { ...worth, cost: worth.cost + told };
    if (this.known.judged.size < mostJudged) this.known.judged.set(key, judged);
    return judged;
  }

  private readonly look: SecondLook = ({ draft, worth }, than) => (this.manner.days === 0 ? worth : this.sureOf(draft, than, this.looked));

  /** The second look: what a draft is worth on more days; null where it is surely worse than another that is sound. */
  private sureOf(draft: DraftPlan, than: Worth | null, looks: Map<string, Worth>): Worth | null {
    const { days, risk } = this.manner;
    const key = draftKey(draft);
    const known = this.looked.get(key) ?? looks.get(key);
    if (known) return known;
    const standard = { ...this.manner, days: moreDays * days, risk: ofRisk.sure * risk };
    const told = numberCosts * allNumbers(draft);
    const most = than?.sound ? than.cost - told : Number.POSITIVE_INFINITY;
    const found = worthOf(planOf(draft), this.abilities, this.constants, standard, { most, like: than });
    if (!found) return null;
    const sure = { ...found, cost: found.cost + told };
    looks.set(key, sure);
    return sure;
  }

  /** The shelves on which a draft with so many numbers in a lane has a place. */
  private shelvesFor(numbers: number): readonly Shelf[] {
    const { simplest, short, best } = this.shelves;
    if (numbers > this.mostNumbers) return [best];
    return numbers <= this.mostInSimplest ? [simplest, short, best] : [short, best];
  }

  /** The cost below which a draft with so many numbers in a lane may be better than one that is kept. */
  private notable(numbers: number): number {
    return Math.max(...this.shelvesFor(numbers).map(({ below }) => below));
  }

  private keepIfBetter(judged: JudgedDraft): void {
    if (judged.worth.rough) return;
    if (judged.worth.cost < this.riskier.worth.cost) this.riskier = judged;
    for (const shelf of this.shelvesFor(mostNumbers(judged.draft))) shelf.offer(judged);
  }
}

/** The cost as a climb sees it. */
function heightOf({ cost, slope }: Worth): number {
  return cost - slope;
}
