import type { PlanSpec, Step, Turn } from "./plan.js";

/** More things than this do not stay in a tired head. Assumed. */
export const mostToRemember = 9;

/**
 * How many things an athlete has to remember of a plan: each step of a ladder, a broken set, a hold, a rest with a number,
 * each cue. What comes again in the same loop counts once; rounds and “when ready” count nothing.
 */
export function thingsToRemember(plan: PlanSpec, athlete: string): number {
  const mine = new Set([0]);
  const count = (steps: readonly Step[]): number => {
    const seen = new Set<string>();
    return steps.reduce((sum, step) => {
      switch (step.kind) {
        case "turn": {
          const { key, things } = ofTurn(step, athlete);
          if (key !== null) mine.add(step.id);
          if (key === null || seen.has(key)) return sum;
          seen.add(key);
          return sum + things;
        }
        case "rest": {
          const numbered = step.until.kind !== "ready" && (step.who.length === 0 || step.who.includes(athlete));
          return sum + (numbered ? 1 : 0);
        }
        case "lanes":
          return sum + step.lanes.reduce((all, lane) => all + within(lane.body, lane.id), 0);
        case "repeat":
        case "stage":
        case "window":
          return sum + within(step.body, step.id);
      }
    }, 0);
  };
  const within = (body: readonly Step[], id: number): number => {
    const things = count(body);
    mine.add(id);
    return things;
  };
  const things = count(plan.steps);
  return things + plan.cues.filter(({ step, fromS }) => fromS !== null || mine.has(step)).length;
}

/** What a turn is to an athlete: the same key for what is the same thing; null where it is none of theirs. */
function ofTurn({ who, holders, works, rounds }: Turn, athlete: string): { readonly key: string | null; readonly things: number } {
  const place = who.indexOf(athlete);
  if (place >= 0) {
    if (rounds !== null)
      return {
        key: `round ${works.map(({ broken }) => broken?.parts.join("+") ?? "").join()}`,
        things: works.filter(({ broken }) => broken).length,
      };
    const [work] = works;
    const sizes = work?.ladders[place] ?? work?.ladders[0] ?? [];
    return {
      key: `${work?.movement} ${sizes.join("-")} ${work?.broken?.parts.join("+") ?? ""}`,
      things: Math.max(1, new Set(sizes).size) + (work?.broken ? 1 : 0),
    };
  }
  return holders.includes(athlete) ? { key: `hold ${who.join("+")}`, things: 1 } : { key: null, things: 0 };
}
