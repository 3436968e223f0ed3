import { randomLcg, randomNormal } from "d3-random";
import type { Constants } from "../3-plan/assumptions.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Abilities } from "./ability.js";
import { altered, type Chance, Draw, spread } from "./draw.js";
import { Simulator } from "./simulator.js";
import type { Outcome } from "./stage.js";

/** Something about an athlete that a test told roughly, or nobody told: the logarithm of its factor is normal around 0. */
export interface Unknown {
  readonly kind: "ability" | "recovery";
  readonly athlete: string;
  /** By key. */
  readonly subject: string;
  readonly hold: boolean;
  /** Standard deviation of the logarithm, before anything is seen. */
  readonly sd: number;
  /** By day, in standard deviations. */
  readonly drawn: Float64Array;
}

/** What is known of an unknown by now, in its own deviations: where it has moved to, and what is left of its deviation. */
export interface Told {
  readonly move: number;
  readonly left: number;
}

/**
 * Many days of some plans on which the unknowns of their athletes are drawn once for all plans, everybody's form and all that
 * is chance anew for each plan: what is seen of a day tells of the unknowns by how the two go together over the days.
 */
export class Ensemble {
  readonly unknowns: readonly Unknown[];
  private readonly known = new Map<string, Unknown>();
  private readonly forms = new Map<string, Float64Array>();
  private readonly normal: () => number;

  constructor(
    private readonly plans: readonly PlanSpec[],
    private readonly abilities: Abilities,
    private readonly constants: Constants,
    readonly days: number,
    private readonly seed: number,
    private readonly told: (unknown: Pick<Unknown, "kind" | "athlete" | "subject" | "hold">) => Told | null = () => null,
  ) {
    this.normal = randomNormal.source(randomLcg((seed % 9_973) / 9_973))(0, 1);
    for (const [at, plan] of plans.entries()) {
      for (const { athlete, subject, hold, number, untested } of new Simulator(plan, abilities, constants, null).subjects) {
        this.learnable("ability", athlete, subject, hold, number, spread.test);
        if (untested) this.learnable("recovery", athlete, subject, hold, number, spread.recovery);
        const form = `${at} ${athlete}`;
        if (!this.forms.has(form)) this.forms.set(form, this.normals());
      }
    }
    this.unknowns = [...new Set(this.known.values())];
  }

  /** What is seen of a plan's days, so many numbers a day; `capS` null: nothing cuts the plan. `tired` as for `runDays`. */
  see(
    plan: number,
    capS: number | null,
    looks: readonly ((run: Outcome) => number)[],
    tired: Chance["ability"] | null = null,
  ): readonly Float64Array[] {
    const seen = looks.map(() => new Float64Array(this.days));
    const spec = this.plans[plan];
    if (!spec) return seen;
    const simulator = new Simulator(spec, this.abilities, this.constants, capS);
    const dayAt = this.dayOf(plan, spec);
    for (let at = 0; at < this.days; at += 1) {
      const day = dayAt(at);
      const run = simulator.run(tired ? altered(day, { ability: tired }) : day);
      looks.forEach((look, nth) => seen[nth]?.fill(look(run), at, at + 1));
    }
    return seen;
  }

  /** The form of each plan's day, by day, in deviations. */
  get formsDrawn(): readonly { readonly plan: number; readonly athlete: string; readonly drawn: Float64Array }[] {
    return [...this.forms].map(([key, drawn]) => ({ plan: Number(key.split(" ", 1)[0]), athlete: key.slice(key.indexOf(" ") + 1), drawn }));
  }

  /** An athlete's strength in a subject by day, as the logarithm of a factor: the test's error and the day's form together. */
  strength(plan: number, athlete: string, subject: string, hold: boolean): Float64Array {
    const test = this.known.get(unknownKey({ kind: "ability", athlete, subject, hold }));
    const form = this.forms.get(`${plan} ${athlete}`);
    return Float64Array.from({ length: this.days }, (_, at) => spread.test * (test?.drawn[at] ?? 0) + spread.form * (form?.[at] ?? 0));
  }

  private drawn(unknown: Pick<Unknown, "kind" | "athlete" | "subject" | "hold">): Float64Array {
    const told = this.told(unknown);
    return told ? this.normals().map((normal) => told.move + told.left * normal) : this.normals();
  }

  private normals(): Float64Array {
    return Float64Array.from({ length: this.days }, () => this.normal());
  }

  private learnable(kind: Unknown["kind"], athlete: string, subject: string, hold: boolean, number: number, sd: number): void {
    const key = unknownKey({ kind, athlete, subject, hold });
    const unknown = this.known.get(key) ?? { kind, athlete, subject, hold, sd, drawn: this.drawn({ kind, athlete, subject, hold }) };
    this.known.set(key, unknown);
    this.known.set(`${kind} ${athlete} ${number}`, unknown);
  }

  private dayOf(nth: number, { team }: PlanSpec): (at: number) => Chance {
    const draw = new Draw(this.seed + 7_919 * (nth + 1));
    const names = team.athletes.map(({ name }) => name);
    const forms = names.map((name) => this.forms.get(`${nth} ${name}`));
    let at = 0;
    const drawn = (kind: Unknown["kind"], place: number, number: number): number =>
      this.known.get(`${kind} ${names[place] ?? ""} ${number}`)?.drawn[at] ?? 0;
    const chance: Chance = {
      ability: (place, number) => Math.exp(spread.form * (forms[place]?.[at] ?? 0) + spread.test * drawn("ability", place, number)),
      recovery: (place, number) => Math.exp(spread.recovery * drawn("recovery", place, number)),
      cycle: (place) => Math.exp(-spread.cycle * (forms[place]?.[at] ?? 0)),
      set: (place, set) => draw.set(place, set),
      handover: (change) => draw.handover(change),
    };
    return (day) => {
      at = day;
      draw.go(day);
      return chance;
    };
  }
}

/** The same for the same unknown. */
export function unknownKey({ kind, athlete, subject, hold }: Pick<Unknown, "kind" | "athlete" | "subject" | "hold">): string {
  return `${kind}\n${athlete}\n${subject}\n${hold}`;
}
