import { inPlan, type LimitKind, type Run } from "./limit.js";
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
      return stagesOf(run).flatMap(({ stage, step, repsBy }) =>
        [...repsBy].flatMap(([who, value]) =>
          value < least ? [{ limit, who, value, over: least - value, step, atS: 0, due: least, stage }] : [],
        ),
      );
    }),
};

/** The reps of each athlete by stage, over all its blocks. */
function stagesOf({ plan, stages }: Run) {
  return plan.event.stages.flatMap((spec, stage) => {
    const blocks = stages.filter((one) => one.stage === stage);
    const [first] = blocks;
    if (!first) return [];
    const of = (name: string): number => blocks.reduce((sum, { repsBy }) => sum + (repsBy[name] ?? 0), 0);
    const theirs = plan.team.athletes.filter(({ category }) => spec.category === null || category === spec.category);
    return [{ stage, step: first.step, repsBy: new Map(theirs.map(({ name }) => [name, of(name)])) }];
  });
}
