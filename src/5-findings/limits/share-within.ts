import type { Category } from "../../3-plan/parts.js";
import { namesOf, type PlanPair } from "../../3-plan/plan.js";
import { type Breach, type LimitInForce, type LimitKind, type Run, stagesIn } from "./limit.js";

/** `rule share within 10 %`: of each stage, for each athlete and each pair, by points of percent. */
export const shareWithin: LimitKind = {
  id: "share within",
  forms: ["share within P"],
  stricter: "less",
  measure: (run, limits, declared) => {
    // A share that is declared is due as it is said, where no rule allows for more or less.
    const [limit = exactly(declared)] = limits;
    if (!limit) return [];
    const { team, pairs } = run.plan;
    const sharers = sharersOf(
      team.athletes.map(({ name }) => name),
      pairs,
      declared,
    );
    const sharersIn = (category: Category): readonly Sharer[] => amongOnly(namesOf(team, category), sharers);
    return stagesIn(run).flatMap(({ stage, step, repsBy }): readonly Breach[] => {
      const category = run.plan.event.stages[stage]?.category ?? null;
      const worst = furthestOff(repsBy, category === null ? sharers : sharersIn(category));
      if (!worst || Math.abs(worst.off) <= limit.value + roundedRep(worst.all, limits) + 1e-9) return [];
      return [
        {
          limit,
          who: worst.name,
          value: worst.due + worst.off,
          over: (Math.abs(worst.off) - limit.value) * 100,
          step,
          atS: 0,
          due: worst.due,
          stage,
        },
      ];
    });
  },
};

function exactly(declared: readonly LimitInForce[]): LimitInForce | undefined {
  const [first] = declared;
  return first && { ...first, value: 0, who: null };
}

/** Where no rule says within what, a whole rep either way. */
function roundedRep(all: number, limits: readonly LimitInForce[]): number {
  return limits.length > 0 ? 0 : 1 / all;
}

/** An athlete or a pair, and the share of a stage that is theirs. */
export interface Sharer {
  readonly name: string;
  readonly athletes: readonly string[];
  readonly due: number;
}

/** What each athlete declares; who declares nothing shares what is left evenly. A pair's is its athletes'. */
export function sharersOf(names: readonly string[], pairs: readonly PlanPair[], limits: readonly LimitInForce[]): readonly Sharer[] {
  const declared = new Map(limits.flatMap(({ who, value }) => (who !== null && names.includes(who) ? [[who, value] as const] : [])));
  const rest = Math.max(0, 1 - [...declared.values()].reduce((sum, share) => sum + share, 0)) / Math.max(1, names.length - declared.size);
  const dueOf = (name: string): number => declared.get(name) ?? rest;
  return [
    ...names.map((name) => ({ name, athletes: [name], due: dueOf(name) })),
    ...pairs
      .filter(({ athletes }) => athletes.every((name) => names.includes(name)))
      .map(({ name, athletes }) => ({ name: `pair ${name}`, athletes, due: athletes.reduce((sum, athlete) => sum + dueOf(athlete), 0) })),
  ];
}

/** A stage of one category is shared by nobody else: what is due of it, in the same proportions. */
function amongOnly(names: readonly string[], sharers: readonly Sharer[]): readonly Sharer[] {
  const own = sharers.filter(({ athletes }) => athletes.every((name) => names.includes(name)));
  const all = own.reduce((sum, { athletes, due }) => sum + (athletes.length === 1 ? due : 0), 0);
  return own.map((sharer) => ({ ...sharer, due: all > 0 ? sharer.due / all : sharer.athletes.length / names.length }));
}

/** Who is furthest from the share that is due. */
export function furthestOff(repsBy: Run["stages"][number]["repsBy"], sharers: readonly Sharer[]) {
  const repsOf = ({ athletes }: Sharer): number => athletes.reduce((sum, name) => sum + (repsBy[name] ?? 0), 0);
  const all = Object.values(repsBy).reduce((sum, reps) => sum + reps, 0);
  if (all === 0 || sharers.length === 0) return null;
  const rows = sharers.map((sharer) => ({ ...sharer, all, reps: repsOf(sharer), off: repsOf(sharer) / all - sharer.due }));
  return rows.reduce((most, row) => (Math.abs(row.off) > Math.abs(most.off) + 1e-12 ? row : most));
}
