import { clock, counted } from "../0-base/quantity.js";
import type { EventSpec, StageSpec } from "../3-plan/event.js";

/** What a stage's own time, its score, the pause after it and a dropped hold are, behind its work. */
export function termsOf({ withinS, scored, restS, hold }: StageSpec, { dropCost }: EventSpec): string {
  const cost = dropCost?.unit === "s" ? clock(dropCost.amount) : counted(dropCost?.amount ?? 0, "rep");
  return [
    withinS === null ? "" : `, within ${clock(withinS)}`,
    hold && dropCost ? `, each drop costs ${cost}` : "",
    scored ? "" : ", not scored",
    restS > 0 ? `, then ${clock(restS)} of rest` : "",
  ].join("");
}
