import { changeEvery } from "./change-every.js";
import { eachAtLeast } from "./each-at-least.js";
import { everyoneHolds } from "./everyone-holds.js";
import { everyoneWorks, inEveryStage } from "./everyone-works.js";
import { holdShareWithin } from "./hold-share-within.js";
import { holdTurnAtMost } from "./hold-turn-at-most.js";
import { type Breach, inForce, type LimitKind, type Run, type RuleSource } from "./limit.js";
import { neverHolds } from "./never-holds.js";
import { noMissBefore } from "./no-miss-before.js";
import { restAtLeast } from "./rest-at-least.js";
import { beforeChange, setAtLeast } from "./set-at-least.js";
import { setAtMostReps, setAtMostUnbroken } from "./set-at-most.js";
import { shareAtLeastLimit } from "./share-at-least.js";
import { shareDeclared } from "./share-declared.js";
import { shareWithin } from "./share-within.js";
import { tempoGapAtMost } from "./tempo-gap-at-most.js";
import { turnAtMost } from "./turn-at-most.js";

/** Every kind of limit. A line is of the first kind that has its form. */
export const limitKinds: readonly LimitKind[] = Object.freeze([
  shareWithin,
  shareAtLeastLimit,
  shareDeclared,
  eachAtLeast,
  holdTurnAtMost,
  holdShareWithin,
  everyoneHolds,
  neverHolds,
  everyoneWorks,
  inEveryStage,
  setAtLeast,
  beforeChange,
  changeEvery,
  setAtMostReps,
  setAtMostUnbroken,
  turnAtMost,
  restAtLeast,
  tempoGapAtMost,
  noMissBefore,
]);

export const ruleForms: readonly string[] = limitKinds.flatMap(({ forms }) => forms);

/** Where a run breaks a plan's limits, of some kinds or of all. */
export function breachesOf(run: Run, sources: readonly RuleSource[], kinds: readonly LimitKind[] = limitKinds): readonly Breach[] {
  const declared = inForce(sources, shareDeclared);
  return kinds.flatMap((kind) => kind.measure(run, inForce(sources, kind), declared));
}
