import type { ReadySet, ReadyTurn } from "./turn.js";
import type { Activity, Drop, Miss, RepeatRun, ReserveRun, RestRun, Segment, TurnRun } from "./timeline.js";

/** What happened in a run, step by step, kept for the timeline. Runs that only ask for the score go without. */
export class Recording {
  readonly segments: Segment[] = [];
  readonly turns: TurnRun[] = [];
  readonly rests: RestRun[] = [];
  readonly reserves: ReserveRun[] = [];
  readonly repeats: RepeatRun[] = [];
  private reps = new Map<string, number>();
  private left = new Map<string, number>();
  private misses: Miss[] = [];
  private drops: Drop[] = [];
  private repEndsS: number[] = [];

  segment(athlete: string, activity: Activity, startS: number, endS: number, step: number, subject: string | null, reps = 0): void {
    if (endS > startS) this.segments.push({ athlete, activity, startS, endS, step, subject, reps });
  }

  /** A set of the turn under way, as it went. */
  set({ turn }: ReadyTurn, set: ReadySet): void {
    for (const crew of set.crews) {
      for (const {
        athlete,
        subject,
        pools,
        reserve: { capacity, fastRate, slowRate },
      } of crew.bodies) {
        const startS = crew.stretches[0]?.startS ?? crew.atS;
        this.reserves.push({
          athlete,
          subject,
          startS,
          endS: crew.atS,
          fast: pools.fast / capacity,
          slow: pools.slow / capacity,
          fastRate,
          slowRate,
        });
        for (const { activity, startS, endS, reps } of crew.stretches)
          this.segment(athlete, activity, startS, endS, turn.id, set.work.movement, reps);
        if (crew.atS < set.endS) this.segment(athlete, "wait", crew.atS, set.endS, turn.id, null);
        this.reps.set(athlete, (this.reps.get(athlete) ?? 0) + crew.reps);
        this.left.set(athlete, Math.min(this.left.get(athlete) ?? 1, crew.leftOf(athlete)));
      }
      this.misses.push(...crew.misses);
    }
    for (const { startS, endS } of set.held)
      for (const athlete of turn.holders) this.segment(athlete, "hold", startS, endS, turn.id, turn.hold);
    this.drops.push(...set.drops);
    this.repEndsS.push(...set.repEndsS);
  }

  turn({ turn }: ReadyTurn, run: Pick<TurnRun, "pass" | "stage" | "startS" | "endS" | "counted" | "waitedS">): void {
    const athletes = turn.who.map((name) => ({ name, reps: this.reps.get(name) ?? 0, left: this.left.get(name) ?? 1 }));
    this.turns.push({
      step: turn.id,
      ...run,
      athletes,
      misses: this.misses,
      drops: this.drops,
      holders: turn.holders,
      repEndsS: this.repEndsS,
    });
    this.reps = new Map();
    this.left = new Map();
    this.misses = [];
    this.drops = [];
    this.repEndsS = [];
  }

  /** How much there is; `cutTo` throws away what came after. */
  mark(): Mark {
    return {
      segments: this.segments.length,
      turns: this.turns.length,
      rests: this.rests.length,
      reserves: this.reserves.length,
      repeats: this.repeats.length,
    };
  }

  cutTo({ segments, turns, rests, reserves, repeats }: Mark): void {
    this.segments.length = segments;
    this.turns.length = turns;
    this.rests.length = rests;
    this.reserves.length = reserves;
    this.repeats.length = repeats;
  }
}

interface Mark {
  readonly segments: number;
  readonly turns: number;
  readonly rests: number;
  readonly reserves: number;
  readonly repeats: number;
}
