import type { Category } from "../3-plan/parts.js";
import { takes } from "../3-plan/event.js";
import { categoryIn, type PlanSpec, turnsOf } from "../3-plan/plan.js";
import type { Segment } from "../4-timeline/timeline.js";

/** More at one thing, or at one category's stations, than there is place for. */
export interface Crowd {
  readonly who: readonly string[];
  readonly step: number;
  readonly atS: number;
}

/** Of each piece of equipment the first time that two need it at once, in two lines or each at an own pace in one. */
export function atOneThing(plan: PlanSpec, segments: readonly Segment[]): readonly (Crowd & { readonly equipment: string })[] {
  const apart = new Set(turnsOf(plan.steps).flatMap(({ id, works }) => (works.some(({ rhythm }) => rhythm === "each") ? [id] : [])));
  return plan.event.equipment.flatMap((equipment) => {
    const users = working(segments).filter(({ subject }) => takes(equipment, subject ?? ""));
    const crowds = users.flatMap((user, at) => {
      const other = users
        .slice(0, at)
        .find(
          (one) => one.endS > user.startS + 1e-6 && (one.step !== user.step || (one.athlete !== user.athlete && apart.has(user.step ?? 0))),
        );
      return other ? [{ equipment: equipment.name, who: [other.athlete, user.athlete], step: user.step ?? 0, atS: user.startS }] : [];
    });
    return crowds.slice(0, 1);
  });
}

/** The first time in each line that more of a category work than it has stations. */
export function atStations(plan: PlanSpec, segments: readonly Segment[]): readonly (Crowd & { readonly category: Category })[] {
  const categories = [...new Set(plan.event.stations.map(({ category }) => category))];
  return categories.flatMap((category) => {
    const places = plan.event.stations.filter((station) => station.category === category).length;
    const users = working(segments).filter(({ athlete }) => categoryIn(plan.team, athlete) === category);
    const found = new Map<number, Crowd & { readonly category: Category }>();
    users.forEach((user, at) => {
      const who = [user, ...users.slice(0, at).filter(({ endS }) => endS > user.startS + 1e-6)].map(({ athlete }) => athlete);
      const step = user.step ?? 0;
      const all = [...new Set(who)];
      if (all.length > places) found.set(step, { category, who: all, step, atS: user.startS });
    });
    return [...found.values()];
  });
}

function working(segments: readonly Segment[]): readonly Segment[] {
  return segments.filter(({ activity }) => activity === "work").toSorted((a, b) => a.startS - b.startS);
}
