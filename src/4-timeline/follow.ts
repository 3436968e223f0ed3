import type { Constants } from "../3-plan/assumptions.js";
import { type PlanSpec, turnsOf } from "../3-plan/plan.js";
import type { Abilities } from "./ability.js";
import type { Condition } from "./condition.js";
import type { Chance } from "./draw.js";
import { simulate } from "./simulate.js";
import { Simulator } from "./simulator.js";
import type { StageState } from "./stage.js";
import type { Timeline, TurnRun } from "./timeline.js";

/** A turn, counted in the order of time, that was seen to end at a moment (s from the start). */
export interface Ended {
  readonly turn: number;
  readonly endS: number;
}

/** Tries to find the pace with which a turn ends when it was seen to: durations are all but proportional to it. */
const tries = 4;
const exactS = 0.02;
/** A turn goes at no more than so many times its usual pace, and no less. */
const fastest = 0.25;
const slowest = 8;

/**
 * A plan as it goes on the floor: the turns that were seen to end do so then, at a pace of their own; what follows is
 * the model's, with what everybody has left by it. One more ending costs a few runs; those before are remembered.
 */
export class Follower {
  timeline: Timeline;
  private readonly paces = new Map<string, number>();

  constructor(
    readonly plan: PlanSpec,
    private readonly abilities: Abilities,
    private readonly constants: Constants,
  ) {
    this.timeline = simulate(plan, abilities, constants);
  }

  /** Turns in the order of time. */
  get turns(): readonly TurnRun[] {
    return inTime(this.timeline);
  }

  /** A turn was seen to end; all later ones move by what that does to them. */
  end({ turn, endS }: Ended): void {
    for (let attempt = 0; attempt < tries; attempt += 1) {
      const run = this.turns[turn];
      if (!run || Math.abs(run.endS - endS) < exactS) return;
      const factor = Math.max(endS - run.startS, 0.1) / Math.max(run.endS - run.startS, 0.1);
      for (const key of this.setsOf(turn)) this.paces.set(key, Math.min(slowest, Math.max(fastest, (this.paces.get(key) ?? 1) * factor)));
      this.timeline = simulate(this.plan, this.abilities, this.constants, { chance: this.chance() });
    }
  }

  /** How everybody stands at a moment, and what the stages have by then. */
  at(momentS: number): { readonly condition: Condition; readonly stages: readonly StageState[] } {
    const simulator = new Simulator(this.plan, this.abilities, this.constants, momentS);
    const { stages } = simulator.run(this.chance());
    return { condition: simulator.condition(), stages };
  }

  private chance(): Chance {
    return {
      ability: () => 1,
      recovery: () => 1,
      cycle: () => 1,
      set: (place, nth) => this.paces.get(`${place} ${nth}`) ?? 1,
      handover: () => 1,
    };
  }

  /** The sets of a turn, as a chance knows them: an athlete's place, and the how-manieth of the athlete's sets it is. */
  private setsOf(turn: number): readonly string[] {
    const sets = new Map(turnsOf(this.plan.steps).map(({ id, works }) => [id, works.length] as const));
    const run = this.turns[turn];
    // In the order in which the simulator ran them: of lanes side by side one after another.
    const before = run ? this.timeline.turns.slice(0, this.timeline.turns.indexOf(run)) : [];
    return (run?.athletes ?? []).flatMap(({ name }) => {
      const place = this.plan.team.athletes.findIndex((athlete) => athlete.name === name);
      const done = before.reduce(
        (sum, { step, athletes }) => sum + (athletes.some((athlete) => athlete.name === name) ? (sets.get(step) ?? 0) : 0),
        0,
      );
      return Array.from({ length: sets.get(run?.step ?? -1) ?? 0 }, (_, nth) => `${place} ${done + nth}`);
    });
  }
}

function inTime({ turns }: Timeline): readonly TurnRun[] {
  return turns
    .map((run, at) => ({ run, at }))
    .sort((a, b) => a.run.startS - b.run.startS || a.at - b.at)
    .map(({ run }) => run);
}
