import { type Breach, type LimitInForce, type LimitKind, mayBeShort, type Run } from "./limit.js";
import { goesOf, type SetDone, setsOf } from "./sets.js";

/**
 * `rule set at least 5`: in one go; a set that the target, the cap or its window ends may be shorter, and so may a movement that
 * a round asks no more of.
 */
export const setAtLeast: LimitKind = {
  id: "set at least",
  forms: ["set at least N"],
  stricter: "more",
  measure: (run, limits) =>
    limits.length > 0
      ? shortIn(
          limits,
          run,
          setsOf(run).filter(({ allOfItem }) => !allOfItem),
        )
      : [],
};

/** `rule at least 5 reps before a change`: until somebody else works, whatever pauses lie between. */
export const beforeChange: LimitKind = {
  id: "before a change",
  forms: ["at least N before a change"],
  stricter: "more",
  measure: (run, limits) =>
    limits.length > 0
      ? shortIn(
          limits,
          run,
          goesOf(run.turns).map((go) => ({ ...go, last: true })),
        )
      : [],
};

/** The first too short of each line. */
function shortIn(
  limits: readonly LimitInForce[],
  run: Run,
  sets: readonly Pick<SetDone, "who" | "reps" | "in" | "last">[],
): readonly Breach[] {
  const short = mayBeShort(run);
  return limits.flatMap((limit) => {
    const told = new Set<number>();
    return sets.flatMap(({ who, reps: value, in: turn, last }): readonly Breach[] => {
      const { step, startS: atS } = turn;
      if (value >= limit.value || told.has(step) || (last && short(turn))) return [];
      told.add(step);
      return [{ limit, who, value, over: limit.value - value, step, atS, due: limit.value, stage: null }];
    });
  });
}
