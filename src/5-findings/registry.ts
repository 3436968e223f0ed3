import { abilityMissing } from "./rules/ability-missing.js";
import { abilityZero } from "./rules/ability-zero.js";
import { afterDue } from "./rules/after-due.js";
import { asksCollide } from "./rules/asks-collide.js";
import { assumptionRange } from "./rules/assumption-range.js";
import { athleteAway } from "./rules/athlete-away.js";
import { athleteOneWord } from "./rules/athlete-one-word.js";
import { beginsFresh } from "./rules/begins-fresh.js";
import { breaksEarly } from "./rules/breaks-early.js";
import { brokenSetSum } from "./rules/broken-set-sum.js";
import { cycle } from "./rules/cycle.js";
import { declaredTwice } from "./rules/declared-twice.js";
import { doesNotCompute } from "./rules/does-not-compute.js";
import { doesNotParse } from "./rules/does-not-parse.js";
import { dueBeforeFirst } from "./rules/due-before-first.js";
import { effortRange } from "./rules/effort-range.js";
import { endless } from "./rules/endless.js";
import { expectUntrue } from "./rules/expect-untrue.js";
import { heavyWithoutRest } from "./rules/heavy-without-rest.js";
import { holdDrops } from "./rules/hold-drops.js";
import { holdTurnMissed } from "./rules/hold-turn-missed.js";
import { holdUncovered } from "./rules/hold-uncovered.js";
import { holdUneven } from "./rules/hold-uneven.js";
import { idleAthlete } from "./rules/idle-athlete.js";
import { idleSilence } from "./rules/idle-silence.js";
import { impossibleDate } from "./rules/impossible-date.js";
import { logContradicts } from "./rules/log-contradicts.js";
import { logOrder } from "./rules/log-order.js";
import { logOutsideWeek } from "./rules/log-outside-week.js";
import { logPastCap } from "./rules/log-past-cap.js";
import { logTotal } from "./rules/log-total.js";
import { muchToRemember } from "./rules/much-to-remember.js";
import { namedTwice } from "./rules/named-twice.js";
import { neverComes } from "./rules/never-comes.js";
import { neverReady } from "./rules/never-ready.js";
import { noRound } from "./rules/no-round.js";
import { noTeam } from "./rules/no-team.js";
import { notAlternating } from "./rules/not-alternating.js";
import { onRestDay } from "./rules/on-rest-day.js";
import { opensHard } from "./rules/opens-hard.js";
import { outOfPlace } from "./rules/out-of-place.js";
import { outOfStep } from "./rules/out-of-step.js";
import { outsideWindow } from "./rules/outside-window.js";
import { pairNotAllowed } from "./rules/pair-not-allowed.js";
import { restShare } from "./rules/rest-share.js";
import { restShort } from "./rules/rest-short.js";
import { roundOutOfOrder } from "./rules/round-out-of-order.js";
import { rowLength } from "./rules/row-length.js";
import { ruleOverruled } from "./rules/rule-overruled.js";
import { runsOverCap } from "./rules/runs-over-cap.js";
import { saidOtherwise } from "./rules/said-otherwise.js";
import { sayHow } from "./rules/say-how.js";
import { secondTryFirst } from "./rules/second-try-first.js";
import { secondTryUnrested } from "./rules/second-try-unrested.js";
import { setOverRule } from "./rules/set-over-rule.js";
import { setUnderRule } from "./rules/set-under-rule.js";
import { setTooLong } from "./rules/set-too-long.js";
import { shareAtLeast } from "./rules/share-at-least.js";
import { sizeNotWhole } from "./rules/size-not-whole.js";
import { skinEarly } from "./rules/skin-early.js";
import { skippedHour } from "./rules/skipped-hour.js";
import { stageNotTheirs } from "./rules/stage-not-theirs.js";
import { stationNotAllowed } from "./rules/station-not-allowed.js";
import { testBeyondModel } from "./rules/test-beyond-model.js";
import { tooClose } from "./rules/too-close.js";
import { tooLongAnEvent } from "./rules/too-long-an-event.js";
import { tooManyInADay } from "./rules/too-many-in-a-day.js";
import { tooManyWorking } from "./rules/too-many-working.js";
import { totalOver } from "./rules/total-over.js";
import { totalShort } from "./rules/total-short.js";
import { turnTooLong } from "./rules/turn-too-long.js";
import { twoPlaces } from "./rules/two-places.js";
import { unevenShare } from "./rules/uneven-share.js";
import { unitMismatch } from "./rules/unit-mismatch.js";
import { unknownName } from "./rules/unknown-name.js";
import { unknownRule } from "./rules/unknown-rule.js";
import { weekLimit } from "./rules/week-limit.js";
import { weeksOverlap } from "./rules/weeks-overlap.js";
import { whichHold } from "./rules/which-hold.js";
import { whichMovement } from "./rules/which-movement.js";
import { whichStage } from "./rules/which-stage.js";
import { windowLength } from "./rules/window-length.js";
import { wrongWindow } from "./rules/wrong-window.js";
import type { Rule } from "./rule.js";

/** Every rule, by the order of its id. A new rule is one file and one line here. */
export const rules: readonly Rule[] = Object.freeze(
  [
    abilityMissing,
    abilityZero,
    afterDue,
    asksCollide,
    assumptionRange,
    athleteAway,
    athleteOneWord,
    beginsFresh,
    breaksEarly,
    brokenSetSum,
    cycle,
    declaredTwice,
    doesNotCompute,
    doesNotParse,
    dueBeforeFirst,
    effortRange,
    endless,
    expectUntrue,
    heavyWithoutRest,
    holdDrops,
    holdTurnMissed,
    holdUncovered,
    holdUneven,
    idleAthlete,
    idleSilence,
    impossibleDate,
    logContradicts,
    logOrder,
    logOutsideWeek,
    logPastCap,
    logTotal,
    muchToRemember,
    namedTwice,
    neverComes,
    neverReady,
    noRound,
    noTeam,
    notAlternating,
    onRestDay,
    opensHard,
    outOfPlace,
    outOfStep,
    outsideWindow,
    pairNotAllowed,
    restShare,
    restShort,
    roundOutOfOrder,
    rowLength,
    ruleOverruled,
    runsOverCap,
    saidOtherwise,
    sayHow,
    secondTryFirst,
    secondTryUnrested,
    setOverRule,
    setUnderRule,
    setTooLong,
    shareAtLeast,
    sizeNotWhole,
    skinEarly,
    skippedHour,
    stageNotTheirs,
    stationNotAllowed,
    testBeyondModel,
    tooClose,
    tooLongAnEvent,
    tooManyInADay,
    tooManyWorking,
    totalOver,
    totalShort,
    turnTooLong,
    twoPlaces,
    unevenShare,
    unitMismatch,
    unknownName,
    unknownRule,
    weekLimit,
    weeksOverlap,
    whichHold,
    whichMovement,
    whichStage,
    windowLength,
    wrongWindow,
  ].map((rule) => Object.freeze(rule)),
);
