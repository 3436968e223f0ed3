import { inPlan, type LimitKind } from "./limit.js";
import { repsIn } from "./share-at-least.js";

/** `rule each at least 20 reps`: over the whole plan. */
export const eachAtLeast: LimitKind = {
  id: "each at least",
  forms: ["each at least N", "NAME at least N"],
  stricter: "more",
  measure: (run, limits) =>
    limits.flatMap((limit) =>
      [...repsIn(run)].flatMap(([name, done]) =>
        (limit.who === null || limit.who === name) && done < limit.value ? [inPlan(limit, name, done, limit.value - done)] : [],
      ),
    ),
};
