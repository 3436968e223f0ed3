import type { AbilityTable, Tested, Tests } from "../3-plan/abilities.js";
import type { AssumptionName, Constants } from "../3-plan/assumptions.js";
import { subjectKey } from "../3-plan/names.js";
import type { World } from "../3-plan/world.js";
import { type Hold, holdOf } from "./models/hold.js";
import { recoveringFrom } from "./models/recovering.js";
import { maxFrom, repsAt } from "./models/one-rep-max.js";
import { type FittedRecovery, fitRecovery, type Reserve, reserveOf, type Timed } from "./models/reserve.js";

/** Where a number comes from: tested by the coach, computed by a named model, or assumed. */
export interface Origin {
  readonly kind: "measured" | "computed" | "assumed";
  /** The test's day, the model's name, or what the assumption is called. */
  readonly by: string;
}

export interface MovementAbility {
  readonly reserve: Reserve;
  /** The reserve with another recovery, by its factor; null where a test tells the recovery. */
  readonly recovering: ((factor: number) => Reserve) | null;
  readonly origins: Readonly<Record<"unbroken" | "cycle" | "recovery" | "fade", Origin>>;
  /** Timed tests that the model cannot reach. */
  readonly beyond: FittedRecovery["beyond"];
}

export interface HoldAbility {
  readonly hold: Hold;
  readonly seconds: number;
  readonly origin: Origin;
}

/** Fractions by part of the body. */
export type Asks = ReadonlyMap<string, number>;

/** What is known of each athlete, made ready for the models; each answer is computed once. */
export class Abilities {
  private readonly movements = new Map<string, MovementAbility>();
  private readonly holds = new Map<string, HoldAbility>();

  constructor(
    private readonly table: AbilityTable,
    private readonly asks: ReadonlyMap<string, Asks>,
    private readonly constants: Constants,
    /** Who of the athletes are women: the model's own recovery is known to be too slow for them. */
    private readonly women: ReadonlySet<string>,
  ) {}

  /** How much two subjects, by key, ask of the same parts of the body, 0…1: the smaller shares, summed. 0 where one says nothing. */
  overlap(one: string, other: string): number {
    let sum = 0;
    for (const [part, share] of this.asks.get(one) ?? []) sum += Math.min(share, this.asks.get(other)?.get(part) ?? 0);
    return sum;
  }

  /** What a subject, by key, asks of parts of the body; nothing where it does not say. */
  asksOf(subject: string): Asks {
    return this.asks.get(subject) ?? new Map();
  }

  tests(athlete: string, subject: string): Tests | undefined {
    return this.table.get(athlete)?.get(subjectKey(subject));
  }

  /** Most reps in a row: tested; else from a maximum at this load; else assumed. */
  unbroken(athlete: string, movement: string, loadKg: number | null): { readonly reps: number; readonly origin: Origin } {
    const tests = this.tests(athlete, movement);
    const tested = tests?.measures.get("unbroken");
    if (tested && (tested.loadKg === null || loadKg === null || tested.loadKg === loadKg))
      return { reps: Math.round(tested.value), origin: measured(tested) };
    const max = tests?.measures.get("max");
    const maxKg = max?.value ?? (tested?.loadKg ? maxFrom(tested.loadKg, tested.value) : null);
    if (maxKg !== null && loadKg !== null)
      return { reps: Math.max(1, Math.floor(repsAt(loadKg, maxKg) + 1e-9)), origin: { kind: "computed", by: "Epley and Brzycki" } };
    return { reps: Math.round(this.constants.unbroken), origin: assumed("unbroken") };
  }

  movement(athlete: string, movement: string, loadKg: number | null): MovementAbility {
    const key = `${athlete}\n${subjectKey(movement)}\n${loadKg ?? ""}`;
    const known = this.movements.get(key);
    if (known) return known;
    const solved = this.solve(athlete, movement, loadKg);
    this.movements.set(key, solved);
    return solved;
  }

  private solve(athlete: string, movement: string, loadKg: number | null): MovementAbility {
    const tests = this.tests(athlete, movement);
    const { reps: unbroken, origin } = this.unbroken(athlete, movement, loadKg);
    const cycle = tests?.measures.get("cycle");
    const fade = tests?.measures.get("fade");
    const recovery = tests?.measures.get("recovery");
    const base = { unbroken, cycleS: cycle?.value ?? this.constants.cycle, fade: fade?.value ?? this.constants.fade };
    const timed: readonly Timed[] = [...(tests?.timed ?? [])].map(([seconds, { value }]) => ({ seconds, reps: value }));
    const fitted = fitRecovery(base, recovery ? [] : timed, this.constants);
    const reserve = reserveOf({ ...base, ...fitted, ...(recovery && { recovery: recovery.value }) }, this.constants);
    return {
      reserve,
      recovering: recovery || timed.length > 0 ? null : recoveringFrom(reserve, this.constants),
      beyond: fitted.beyond,
      origins: {
        unbroken: origin,
        cycle: cycle ? measured(cycle) : assumed("cycle"),
        fade: fade ? measured(fade) : assumed("fade"),
        recovery: recovery
          ? measured(recovery)
          : timed.length > 0
            ? { kind: "computed", by: "the reserve model, from the timed test" }
            : this.assumedRecovery(athlete),
      },
    };
  }

  /**
   * Of the women of the one study of the bench press that tells them apart the recovery was 2.4 to 3.6 (Ratamess 2010,
   * in tests/published).
   */
  private assumedRecovery(athlete: string): Origin {
    return {
      kind: "assumed",
      by: this.women.has(athlete) ? "recovery 1, too slow for the women of the one study there is: a test in 5 min tells" : "recovery 1",
    };
  }

  hold(athlete: string, hold: string): HoldAbility {
    const key = `${athlete}\n${subjectKey(hold)}`;
    const known = this.holds.get(key);
    if (known) return known;
    const tested = this.tests(athlete, hold)?.measures.get("hold");
    const seconds = tested?.value ?? this.constants.hold;
    const solved = { hold: holdOf(seconds, this.constants), seconds, origin: tested ? measured(tested) : assumed("hold") };
    this.holds.set(key, solved);
    return solved;
  }
}

/** The abilities of all athletes of a notebook. A movement and a hold of one name would be one subject. */
export function abilitiesOf({ abilities, movements, holds, athletes, constants }: World): Abilities {
  const asks = new Map([...movements, ...holds].map(([key, subject]) => [key, subject.asks]));
  return new Abilities(
    abilities,
    asks,
    constants,
    new Set([...athletes.values()].flatMap(({ name, category }) => (category === "woman" ? [name] : []))),
  );
}

function measured({ on }: Tested): Origin {
  return { kind: "measured", by: on ? `test of ${on}` : "test" };
}

function assumed(name: AssumptionName): Origin {
  return { kind: "assumed", by: name };
}
