import type { Constants } from "../3-plan/assumptions.js";
import { repsInPass, type Turn, type Work } from "../3-plan/plan.js";
import { type Body, Crew } from "./crew.js";
import { afterHolding, afterResting, enduranceOf, type Hold, restToHold, secondsLeft } from "./models/hold.js";
import type { Drop } from "./timeline.js";

/** An athlete at one hold: how tired, and since when that is true. */
export interface Grip {
  readonly athlete: string;
  readonly hold: Hold;
  tired: number;
  atS: number;
}

/** A stretch of time in which a hold is held. */
export interface Held {
  readonly startS: number;
  readonly endS: number;
}

/** One set of a turn as it went: not yet true until `commit`. */
export interface SetRun {
  readonly endS: number;
  readonly crews: readonly Crew[];
  /** Ends of counted reps, in order. */
  readonly repEndsS: readonly number[];
  readonly held: readonly Held[];
  readonly drops: readonly Drop[];
  readonly commit: () => void;
}

export interface SetStart {
  readonly turn: Turn;
  readonly work: Work;
  readonly pass: number;
  readonly bodies: readonly Body[];
  readonly grips: readonly Grip[];
  readonly startS: number;
  readonly deadlineS: number;
  readonly constants: Constants;
}

/**
 * One set of a turn, cut to what its stage has left: where more reps would count than `remaining`, the set ends with
 * the last rep that is wanted, and each crew keeps the reps it had by then.
 */
export function runSet(start: SetStart, remaining: number): SetRun {
  const whole = attempt(start, start.deadlineS, null);
  if (whole.repEndsS.length <= remaining) return whole;
  const inOrder = whole.crews
    .flatMap((crew, at) => crew.repEndsS.map((endS) => ({ endS, at })))
    .sort((a, b) => a.endS - b.endS || a.at - b.at)
    .slice(0, remaining);
  const parts = whole.crews.map((_, at) => inOrder.filter((rep) => rep.at === at).length);
  return attempt(start, inOrder.at(-1)?.endS ?? start.startS, parts);
}

/** Whether every athlete of a turn can do the whole set without a miss, begun at `startS`. */
export function isReady(start: Omit<SetStart, "deadlineS">): boolean {
  return crewsOf({ ...start, deadlineS: Number.POSITIVE_INFINITY }, null).every((crew) => crew.fits());
}

function crewsOf({ turn, work, pass, bodies, startS, constants }: SetStart, parts: readonly number[] | null): readonly Crew[] {
  const restS = work.broken?.restS ?? 0;
  const sets = bodies.map(({ athlete }) => work.broken?.parts ?? [repsInPass(work, turn.who.indexOf(athlete), pass)]);
  const most = (at: number): number | undefined => parts?.[at];
  if (work.rhythm !== "each") return [new Crew(bodies, work.rhythm, sets[0] ?? [], restS, startS, constants, most(0))];
  return bodies.map((body, at) => new Crew([body], "each", sets[at] ?? [], restS, startS, constants, most(at)));
}

/** Runs the set to the deadline, with a pause at every hold that fails: down, recovered enough, up again. */
function attempt(start: SetStart, deadlineS: number, parts: readonly number[] | null): SetRun {
  const crews = crewsOf(start, parts);
  const grips = start.grips.map((grip) => ({ grip, tired: afterResting(grip.tired, grip.hold, start.startS - grip.atS) }));
  const held: Held[] = [];
  const drops: Drop[] = [];
  let atS = start.startS;
  const holdFor = (endS: number): void => {
    if (grips.length > 0 && endS > atS) held.push({ startS: atS, endS });
    for (const state of grips) state.tired = afterHolding(state.tired, state.grip.hold, endS - atS);
    atS = endS;
  };
  for (;;) {
    const failsS = Math.min(...grips.map(({ grip, tired }) => atS + secondsLeft(tired, grip.hold)));
    const untilS = Math.min(deadlineS, failsS);
    for (const crew of crews) crew.run(untilS);
    if (crews.every((crew) => crew.done)) {
      holdFor(Math.max(start.startS, ...crews.map((crew) => crew.atS)));
      break;
    }
    holdFor(untilS);
    if (failsS >= deadlineS) break;
    const resumeS = Math.min(deadlineS, atS + pauseFor(grips, start.constants));
    for (const { grip, tired } of grips) {
      if (secondsLeft(tired, grip.hold) < 1e-6) drops.push({ athlete: grip.athlete, atS });
    }
    for (const state of grips) state.tired = afterResting(state.tired, state.grip.hold, resumeS - atS);
    for (const crew of crews) crew.pause(resumeS);
    atS = resumeS;
    if (resumeS >= deadlineS) break;
  }
  const endS = atS;
  const commit = (): void => {
    for (const crew of crews) crew.commit();
    for (const { grip, tired } of grips) Object.assign(grip, { tired, atS: endS });
  };
  const repEndsS = crews.flatMap((crew) => crew.repEndsS).sort((a, b) => a - b);
  return { endS, crews, repEndsS, held, drops, commit };
}

/** After a drop: the cost of a miss, and at least until every holder can hold for `regrip` s (or half a fresh hold) again. */
function pauseFor(grips: readonly { readonly grip: Grip; readonly tired: number }[], constants: Constants): number {
  const waits = grips.map(({ grip, tired }) => restToHold(tired, grip.hold, Math.min(constants.regrip, enduranceOf(grip.hold) / 2)));
  return Math.max(constants["miss cost"], ...waits);
}
