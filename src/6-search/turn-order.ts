import { dueAfter, type StageSpec } from "../3-plan/event.js";
import { orderIn } from "../3-plan/plan.js";
import type { DraftLane, DraftPlan } from "./draft.js";
import { turnKey } from "./numbers.js";

/** Whether those who work alone follow one another as the event says. */
export function followsOrder({ turns }: DraftLane, { event, team }: DraftPlan): boolean {
  if (event.order === null) return true;
  const workers = new Set(turns.flatMap(({ who }) => who));
  const named = orderIn(event, team);
  const order = named === "fixed" || named === null ? named : named.filter((name) => workers.has(name));
  const alone = turns.flatMap(({ who: [name, ...others] }) => (others.length === 0 && name !== undefined ? [name] : []));
  // Two passes: the second begins where the first ended.
  return [...alone, ...alone].every((name, at, all) => (dueAfter(order, all.slice(0, at)) ?? name) === name);
}

/** Whether a lane is one half of it twice over. */
export function isItsHalfTwice({ turns }: DraftLane): boolean {
  const keys = turns.map(turnKey);
  const half = keys.length / 2;
  return keys.length > 1 && keys.slice(0, half).join(";") === keys.slice(half).join(";");
}

/** A lane that says the same twice over, said once, where nothing stands between the two. */
export function saidOnce(lane: DraftLane): DraftLane {
  const { turns, rest, waits } = lane;
  const apart = rest === "first ready" || (typeof rest === "number" && rest > 0) || waits.length > 0;
  return apart || !isItsHalfTwice(lane) ? lane : saidOnce({ ...lane, turns: turns.slice(0, turns.length / 2) });
}

/** Who is strong does two rounds for another's one, where nothing has them take turns. */
export function mayRunTwice({ rounds }: StageSpec, { event: { alternate, order } }: DraftPlan): boolean {
  return rounds && alternate === null && order === null;
}

/** Whether some of several casts work twice running. */
export function runsTwice({ turns }: DraftLane): boolean {
  const casts = new Set(turns.map(({ who }) => who.join()));
  return casts.size > 1 && turns.some(({ who }, at) => who.join() === turns[(at + 1) % turns.length]?.who.join());
}
