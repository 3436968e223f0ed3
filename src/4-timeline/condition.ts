import { afterResting } from "./models/hold.js";
import type { Ready } from "./ready.js";

/**
 * How everybody stands between two runs: of each athlete's movements what is spent, as fractions of the whole reserve,
 * and of each hold how tired, as a fraction of what makes it fail. Fractions, so that a day's form does not matter.
 */
export interface Condition {
  readonly movements: ReadonlyMap<string, { readonly fast: number; readonly slow: number; readonly begun: boolean }>;
  readonly holds: ReadonlyMap<string, number>;
}

/** The condition of a run's athletes at a moment not before the run's last work. */
export function conditionOf({ bodies, grips }: Pick<Ready, "bodies" | "grips">, atS: number): Condition {
  const movements = bodies.map((body) => {
    body.stepAside(atS - body.atS);
    const { fast, slow } = body.pools;
    body.comeBack();
    return [
      body.key,
      { fast: fast / body.reserve.capacity, slow: slow / body.reserve.capacity, begun: body.lastS !== Number.POSITIVE_INFINITY },
    ] as const;
  });
  const holds = grips.map(({ key, tired, hold, atS: sinceS }) => [key, afterResting(tired, hold, atS - sinceS) / (1 - hold.load)] as const);
  return { movements: new Map(movements), holds: new Map(holds) };
}

/** Puts a run's athletes into a condition before its first second; who is not in it is fresh. */
export function takeUp({ movements, holds }: Condition, { bodies, grips }: Pick<Ready, "bodies" | "grips">): void {
  for (const body of bodies) {
    const had = movements.get(body.key);
    if (!had) continue;
    body.put(had.fast * body.reserve.capacity, had.slow * body.reserve.capacity, 0);
    body.lastS = had.begun ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  }
  for (const grip of grips) grip.tired = (holds.get(grip.key) ?? 0) * (1 - grip.hold.load);
}

/** The same after a rest of some seconds. */
export function rested({ movements, holds }: Condition, { bodies, grips }: Pick<Ready, "bodies" | "grips">, seconds: number): Condition {
  const rates = new Map(bodies.map(({ key, reserve }) => [key, reserve] as const));
  const holdOf = new Map(grips.map(({ key, hold }) => [key, hold] as const));
  const decay = (rate: number | undefined): number => Math.exp(-(rate ?? 0) * seconds);
  return {
    movements: new Map(
      [...movements].map(([key, { fast, slow, begun }]) => [
        key,
        { fast: fast * decay(rates.get(key)?.fastRate), slow: slow * decay(rates.get(key)?.slowRate), begun },
      ]),
    ),
    holds: new Map([...holds].map(([key, tired]) => [key, tired * decay(holdOf.get(key)?.resting)])),
  };
}
