import { inPlan, type LimitKind, type Run } from "./limit.js";

/** `rule Ines at least 15 %`: of all reps of the plan. */
export const shareAtLeastLimit: LimitKind = {
  id: "share at least",
  forms: ["share NAME at least P", "NAME at least P", "each at least P"],
  stricter: "more",
  measure: (run, limits) => {
    const reps = repsIn(run);
    const all = [...reps.values()].reduce((sum, done) => sum + done, 0);
    return limits.flatMap((limit) =>
      [...reps].flatMap(([name, done]) => {
        const share = all > 0 ? done / all : 0;
        const lacks = (limit.who === null || limit.who === name) && share < limit.value - 1e-9;
        return lacks ? [inPlan(limit, name, share, (limit.value - share) * 100)] : [];
      }),
    );
  },
};

/** Each athlete's reps over all stages. */
export function repsIn({ plan, stages }: Run): ReadonlyMap<string, number> {
  return new Map(plan.team.athletes.map(({ name }) => [name, stages.reduce((sum, { repsBy }) => sum + (repsBy[name] ?? 0), 0)]));
}
