import { clock, counted } from "../0-base/quantity.js";
import type { EventSpec, StageSpec } from "../3-plan/event.js";

/** What a stage's own time, its score, the pause after it and a dropped hold are, behind its work. */
export function termsOf({ withinS, scored, restS, hold }: StageSpec, { dropCost }: EventSpec): string {
  return [
    withinS === null ? "" : `, within ${clock(withinS)}`,
    hold && dropCost ? `, each drop costs ${costWords(dropCost)}` : "",
    scored ? "" : ", not scored",
    restS > 0 ? `, then ${clock(restS)} of rest` : "",
  ].join("");
}

export function costWords({ unit, amount }: NonNullable<EventSpec["dropCost"]>): string {
  return unit === "s" ? clock(amount) : counted(amount, "rep");
}
