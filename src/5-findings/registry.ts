import type { RuleId } from "../0-base/problem.js";
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
import { loadDiffers } from "./rules/load-differs.js";
import { logContradicts } from "./rules/log-contradicts.js";
import { logOrder } from "./rules/log-order.js";
import { logOutsideWeek } from "./rules/log-outside-week.js";
import { logPastCap } from "./rules/log-past-cap.js";
import { logHold } from "./rules/log-hold.js";
import { logTotal } from "./rules/log-total.js";
import { moreThanAll } from "./rules/more-than-all.js";
import { muchToRemember } from "./rules/much-to-remember.js";
import { nameInMovement } from "./rules/name-in-movement.js";
import { namedTwice } from "./rules/named-twice.js";
import { neverComes } from "./rules/never-comes.js";
import { neverHoldsRule } from "./rules/never-holds.js";
import { neverReady } from "./rules/never-ready.js";
import { noRound } from "./rules/no-round.js";
import { noTarget } from "./rules/no-target.js";
import { noTeam } from "./rules/no-team.js";
import { noThing } from "./rules/no-thing.js";
import { notAlternating } from "./rules/not-alternating.js";
import { onRestDay } from "./rules/on-rest-day.js";
import { opensHard } from "./rules/opens-hard.js";
import { outOfBounds } from "./rules/out-of-bounds.js";
import { outOfPlace } from "./rules/out-of-place.js";
import { outOfStep } from "./rules/out-of-step.js";
import { outsideWindow } from "./rules/outside-window.js";
import { pairNotAllowed } from "./rules/pair-not-allowed.js";
import { restShare } from "./rules/rest-share.js";
import { planOfAnother } from "./rules/plan-of-another.js";
import { restShort } from "./rules/rest-short.js";
import { roundOutOfOrder } from "./rules/round-out-of-order.js";
import { rowLength } from "./rules/row-length.js";
import { ruleOverruled } from "./rules/rule-overruled.js";
import { rulesAtOdds } from "./rules/rules-at-odds.js";
import { runsOverCap } from "./rules/runs-over-cap.js";
import { saidTwice } from "./rules/said-twice.js";
import { saidOtherwise } from "./rules/said-otherwise.js";
import { sayHow } from "./rules/say-how.js";
import { secondTryFirst } from "./rules/second-try-first.js";
import { secondTryUnrested } from "./rules/second-try-unrested.js";
import { setOverRule } from "./rules/set-over-rule.js";
import { changeDue } from "./rules/change-due.js";
import { oneOfIt } from "./rules/one-of-it.js";
import { outOfOrder } from "./rules/out-of-order.js";
import { ownNumbers } from "./rules/own-numbers.js";
import { stageCut } from "./rules/stage-cut.js";
import { setUnderRule } from "./rules/set-under-rule.js";
import { setTooLong } from "./rules/set-too-long.js";
import { shareAtLeast } from "./rules/share-at-least.js";
import { sizeNotWhole } from "./rules/size-not-whole.js";
import { skinEarly } from "./rules/skin-early.js";
import { skippedHour } from "./rules/skipped-hour.js";
import { stageNotTheirs } from "./rules/stage-not-theirs.js";
import { stageOrder } from "./rules/stage-order.js";
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
import type { AnyRule, Rule } from "./rule.js";

/** Every rule by its id. A new rule is one file and one line here. */
export const ruleBy: { readonly [Id in RuleId]: Rule<Id> } = {
  "ability-missing": abilityMissing,
  "ability-zero": abilityZero,
  "after-due": afterDue,
  "asks-collide": asksCollide,
  "assumption-range": assumptionRange,
  "athlete-away": athleteAway,
  "athlete-one-word": athleteOneWord,
  "begins-fresh": beginsFresh,
  "breaks-early": breaksEarly,
  "broken-set-sum": brokenSetSum,
  cycle: cycle,
  "declared-twice": declaredTwice,
  "does-not-compute": doesNotCompute,
  "does-not-parse": doesNotParse,
  "due-before-first": dueBeforeFirst,
  "effort-range": effortRange,
  endless: endless,
  "expect-untrue": expectUntrue,
  "heavy-without-rest": heavyWithoutRest,
  "hold-drops": holdDrops,
  "hold-turn-missed": holdTurnMissed,
  "hold-uncovered": holdUncovered,
  "hold-uneven": holdUneven,
  "idle-athlete": idleAthlete,
  "idle-silence": idleSilence,
  "impossible-date": impossibleDate,
  "load-differs": loadDiffers,
  "log-contradicts": logContradicts,
  "log-order": logOrder,
  "log-outside-week": logOutsideWeek,
  "log-past-cap": logPastCap,
  "log-hold": logHold,
  "log-total": logTotal,
  "more-than-all": moreThanAll,
  "much-to-remember": muchToRemember,
  "name-in-movement": nameInMovement,
  "named-twice": namedTwice,
  "never-comes": neverComes,
  "never-holds": neverHoldsRule,
  "never-ready": neverReady,
  "no-round": noRound,
  "no-target": noTarget,
  "no-team": noTeam,
  "no-thing": noThing,
  "not-alternating": notAlternating,
  "on-rest-day": onRestDay,
  "opens-hard": opensHard,
  "out-of-bounds": outOfBounds,
  "out-of-place": outOfPlace,
  "out-of-step": outOfStep,
  "outside-window": outsideWindow,
  "pair-not-allowed": pairNotAllowed,
  "plan-of-another": planOfAnother,
  "rest-share": restShare,
  "rest-short": restShort,
  "round-out-of-order": roundOutOfOrder,
  "row-length": rowLength,
  "rule-overruled": ruleOverruled,
  "rules-at-odds": rulesAtOdds,
  "runs-over-cap": runsOverCap,
  "said-twice": saidTwice,
  "said-otherwise": saidOtherwise,
  "say-how": sayHow,
  "second-try-first": secondTryFirst,
  "second-try-unrested": secondTryUnrested,
  "set-over-rule": setOverRule,
  "set-too-long": setTooLong,
  "set-under-rule": setUnderRule,
  "change-due": changeDue,
  "own-numbers": ownNumbers,
  "one-of-it": oneOfIt,
  "out-of-order": outOfOrder,
  "stage-cut": stageCut,
  "share-at-least": shareAtLeast,
  "size-not-whole": sizeNotWhole,
  "skin-early": skinEarly,
  "skipped-hour": skippedHour,
  "stage-not-theirs": stageNotTheirs,
  "stage-order": stageOrder,
  "station-not-allowed": stationNotAllowed,
  "test-beyond-model": testBeyondModel,
  "too-close": tooClose,
  "too-long-an-event": tooLongAnEvent,
  "too-many-in-a-day": tooManyInADay,
  "too-many-working": tooManyWorking,
  "total-over": totalOver,
  "total-short": totalShort,
  "turn-too-long": turnTooLong,
  "two-places": twoPlaces,
  "uneven-share": unevenShare,
  "unit-mismatch": unitMismatch,
  "unknown-name": unknownName,
  "unknown-rule": unknownRule,
  "week-limit": weekLimit,
  "weeks-overlap": weeksOverlap,
  "which-hold": whichHold,
  "which-movement": whichMovement,
  "which-stage": whichStage,
  "window-length": windowLength,
  "wrong-window": wrongWindow,
};

/** Every rule, by the order of its id. */
export const rules: readonly AnyRule[] = Object.freeze(Object.values(ruleBy).map((rule) => Object.freeze(rule)));
