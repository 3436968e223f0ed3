import type { Worth } from "./cost.js";
import type { DraftPlan } from "./draft.js";

export interface JudgedDraft {
  readonly draft: DraftPlan;
  readonly worth: Worth;
}

/** With what it is worth on many more days: of many drafts tried on few days, the luckiest looks best. */
export interface SureDraft extends JudgedDraft {
  readonly sure: Worth;
}

/** What a draft is worth on more days; null where it is surely worse than another there, if one is given. */
export type SecondLook = (judged: JudgedDraft, than: Worth | null) => Worth | null;

/** Drafts that are kept for a second look, and how far behind the first of them one may be, as a part of its score. */
const mostKept = 4;
const within = 0.003;

/** The best drafts of a sort by a first look; which of them is the best for sure is found when it is asked. */
export class Shelf {
  private found: SureDraft | null = null;
  private waiting: readonly JudgedDraft[];
  /** What was looked at again, by its first worth: the best only gets better. */
  private readonly seen = new WeakSet<Worth>();
  /** Trouble on few days below which a draft is looked at again: less than that of those that were in too much on many. */
  private seldom = Number.POSITIVE_INFINITY;

  constructor(start: JudgedDraft) {
    this.waiting = [start];
  }

  /** The cost below which a draft may be the best: any, where nothing here is sound. */
  get below(): number {
    const sound = this.found?.sure.sound ?? this.waiting.some(({ worth }) => worth.sound);
    const middle = (this.found ?? this.waiting[0])?.worth.middle ?? 0;
    return sound ? Math.min(...this.costs) + within * Math.abs(middle) : Number.POSITIVE_INFINITY;
  }

  private get costs(): readonly number[] {
    const sound = this.waiting.filter(({ worth }) => worth.sound);
    const open = (sound.length > 0 || this.found?.sure.sound ? sound : this.waiting).map(({ worth }) => worth.cost);
    return this.found ? [...open, Math.max(this.found.worth.cost, this.found.sure.cost)] : open;
  }

  offer(judged: JudgedDraft): void {
    const { worth } = judged;
    if (this.seen.has(worth) || this.waiting.some((one) => one.worth === worth)) return;
    if (this.found?.sure.sound && (!worth.sound || worth.cost > this.below)) return;
    if (this.found && worth.sound && worth.troubled > 0 && worth.troubled >= this.seldom) return;
    this.waiting = [...this.waiting, judged].sort((one, other) => (isBetter(one.worth, other.worth) ? -1 : 1)).slice(0, mostKept);
  }

  /** The best for sure, of those that were looked at again. */
  best(look: SecondLook): SureDraft {
    if (!this.found) this.settle(look);
    if (!this.found) throw new Error("nothing on the shelf");
    return this.found;
  }

  /** Keeps one that was looked at again, where it is better. */
  keep(one: SureDraft): void {
    this.seen.add(one.worth);
    if (!this.found || isBetter(one.sure, this.found.sure)) this.found = one;
  }

  /** Looks again at each that waits, and keeps the best alone. */
  settle(look: SecondLook): void {
    for (const judged of this.waiting) {
      const sure = look(judged, this.found?.sure ?? null);
      this.seen.add(judged.worth);
      if (!sure) continue;
      if (judged.worth.sound) this.seldom = sure.sound ? Number.POSITIVE_INFINITY : Math.min(this.seldom, judged.worth.troubled);
      if (!this.found || isBetter(sure, this.found.sure)) this.found = { ...judged, sure };
    }
    this.waiting = [];
  }
}

/** Sound before cheap. */
export function isBetter(one: Worth, other: Worth): boolean {
  return one.sound === other.sound ? one.cost < other.cost : one.sound;
}
