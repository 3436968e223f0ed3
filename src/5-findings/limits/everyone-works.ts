import { inPlan, type LimitKind, stagesIn } from "./limit.js";
import { repsIn } from "./share-at-least.js";

/** `rule everyone works`: nobody without a rep. */
export const everyoneWorks: LimitKind = {
  id: "everyone works",
  forms: ["everyone works"],
  stricter: "more",
  measure: (run, [limit]) => {
    const idle = limit ? [...repsIn(run)].filter(([, done]) => done === 0) : [];
    return limit ? idle.map(([name]) => ({ ...inPlan(limit, name, 0, 1), due: 1 })) : [];
  },
};

/** `rule everyone works in every stage`, `rule each at least 10 reps in every stage`: of the stages that were begun, by those who may. */
export const inEveryStage: LimitKind = {
  id: "in every stage",
  forms: ["everyone works in every stage", "each at least N in every stage", "each stage at least N by everyone"],
  stricter: "more",
  measure: (run, limits) =>
    limits.flatMap((limit) => {
      const least = Math.max(1, limit.value);
      return stagesIn(run).flatMap(({ stage, step, repsBy }) => {
        const category = run.plan.event.stages[stage]?.category ?? null;
        const theirs = run.plan.team.athletes.filter((athlete) => category === null || athlete.category === category);
        return theirs.flatMap(({ name: who }) => {
          const value = repsBy[who] ?? 0;
          return value < least ? [{ limit, who, value, over: least - value, step, atS: 0, due: least, stage }] : [];
        });
      });
    }),
};
