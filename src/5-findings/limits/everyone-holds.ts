import { heldIn } from "./hold-share-within.js";
import { inPlan, type LimitKind } from "./limit.js";

/** `rule everyone holds`: nobody without a turn on the hold, in a plan in which somebody holds. */
export const everyoneHolds: LimitKind = {
  id: "everyone holds",
  forms: ["everyone holds"],
  stricter: "more",
  measure: (run, [limit]) => {
    const held = [...heldIn(run)];
    if (!limit || held.every(([, seconds]) => seconds === 0)) return [];
    return held.filter(([, seconds]) => seconds === 0).map(([name]) => inPlan(limit, name, 0, 1));
  },
};
