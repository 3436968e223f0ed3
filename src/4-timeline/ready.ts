import type { Constants } from "../3-plan/assumptions.js";
import { subjectKey } from "../3-plan/names.js";
import { loadFor, type PlanSpec, type Turn, turnsOf } from "../3-plan/plan.js";
import type { Abilities } from "./ability.js";
import { Body, type Grip } from "./body.js";
import { settleCosts } from "./carry-over.js";
import { type Chance, subjectNumber } from "./draw.js";
import { holdOf } from "./models/hold.js";
import { left } from "./models/reserve.js";
import type { RestLeft } from "./timeline.js";
import { ReadySet, type ReadyTurn } from "./turn.js";

/** The athletes of a plan made ready for its clock: a body for each movement and load, a grip for each hold. */
export class Ready {
  readonly turns = new Map<Turn, ReadyTurn>();
  readonly bodies: readonly Body[];
  readonly grips: readonly Grip[];
  /** Names in the team's order; places count in it. */
  readonly athletes: readonly string[];
  private readonly setUpS: number;
  private readonly bodyOf = new Map<string, Body>();
  private readonly gripOf = new Map<string, Grip>();

  constructor(
    plan: PlanSpec,
    private readonly abilities: Abilities,
    private readonly constants: Constants,
  ) {
    this.setUpS = plan.event.setUpS ?? constants["set-up"];
    this.athletes = plan.team.athletes.map(({ name }) => name);
    for (const turn of turnsOf(plan.steps)) if (!this.turns.has(turn)) this.turns.set(turn, this.turn(plan, turn));
    this.bodies = [...this.bodyOf.values()];
    this.grips = [...this.gripOf.values()];
    settleCosts(this.bodies, this.grips, abilities, constants);
  }

  /** Everybody fresh; with a draw, in the form of that day. `noting` keeps what each crew did. */
  reset(draw: Chance | null, noting: boolean): void {
    for (const ready of this.turns.values()) {
      ready.passes = 0;
      for (const { crews } of ready.sets) for (const crew of crews) crew.noting = noting;
    }
    for (const body of this.bodies) {
      if (draw) body.reset(draw.ability(body.place, body.number), draw.cycle(body.place), draw.recovery(body.place, body.number));
      else body.reset(1, 1, 1);
    }
    for (const grip of this.grips) {
      if (draw) grip.hold = holdOf(grip.testedS * draw.ability(grip.place, grip.number), this.constants);
      grip.tired = 0;
      grip.atS = 0;
    }
  }

  /** Whoever of some athletes has least left at a moment, and how much. */
  leastLeft(who: readonly string[], atS: number): RestLeft | null {
    let least: RestLeft | null = null;
    for (const body of this.bodies) {
      if (!who.includes(body.athlete)) continue;
      body.stepAside(atS - body.atS);
      const share = left(body.pools, body.reserve);
      if (!least || share < least.left) least = { athlete: body.athlete, left: share };
      body.comeBack();
    }
    return least;
  }

  private turn(plan: PlanSpec, turn: Turn): ReadyTurn {
    const grips = turn.hold === null ? [] : turn.holders.map((athlete) => this.grip(athlete, turn.hold ?? ""));
    const sets = turn.works.map((work) => {
      const bodies = turn.who.map((athlete) => this.body(athlete, work.movement, loadFor(plan.team, athlete, work.load)));
      return new ReadySet(work, bodies, grips, this.setUpS, this.constants);
    });
    return { turn, sets, grips, cast: [...turn.who].sort().join(" + ") + " while " + [...turn.holders].sort().join(" + "), passes: 0 };
  }

  private body(athlete: string, movement: string, loadKg: number | null): Body {
    const key = `${athlete}\n${subjectKey(movement)}\n${loadKg ?? ""}`;
    const known = this.bodyOf.get(key);
    if (known) return known;
    const { reserve, recovering } = this.abilities.movement(athlete, movement, loadKg);
    const body = new Body(key, athlete, this.athletes.indexOf(athlete), subjectKey(movement), reserve, recovering, this.setUpS);
    this.bodyOf.set(key, body);
    return body;
  }

  private grip(athlete: string, hold: string): Grip {
    const key = `${athlete}\n${subjectKey(hold)}`;
    const known = this.gripOf.get(key);
    if (known) return known;
    const { seconds, hold: tested } = this.abilities.hold(athlete, hold);
    const subject = subjectKey(hold);
    const grip: Grip = {
      key,
      athlete,
      place: this.athletes.indexOf(athlete),
      subject,
      number: subjectNumber(subject),
      testedS: seconds,
      costs: [],
      hold: tested,
      tired: 0,
      atS: 0,
    };
    this.gripOf.set(key, grip);
    return grip;
  }
}
