import { abilityMissing } from "./rules/ability-missing.js";
import { abilityZero } from "./rules/ability-zero.js";
import { assumptionRange } from "./rules/assumption-range.js";
import { athleteOneWord } from "./rules/athlete-one-word.js";
import { brokenSetSum } from "./rules/broken-set-sum.js";
import { cycle } from "./rules/cycle.js";
import { declaredTwice } from "./rules/declared-twice.js";
import { doesNotCompute } from "./rules/does-not-compute.js";
import { doesNotParse } from "./rules/does-not-parse.js";
import { endless } from "./rules/endless.js";
import { expectUntrue } from "./rules/expect-untrue.js";
import { holdDrops } from "./rules/hold-drops.js";
import { holdUncovered } from "./rules/hold-uncovered.js";
import { noRound } from "./rules/no-round.js";
import { noTeam } from "./rules/no-team.js";
import { outOfPlace } from "./rules/out-of-place.js";
import { restShare } from "./rules/rest-share.js";
import { rowLength } from "./rules/row-length.js";
import { runsOverCap } from "./rules/runs-over-cap.js";
import { sayHow } from "./rules/say-how.js";
import { setTooLong } from "./rules/set-too-long.js";
import { sizeNotWhole } from "./rules/size-not-whole.js";
import { totalOver } from "./rules/total-over.js";
import { totalShort } from "./rules/total-short.js";
import { twoPlaces } from "./rules/two-places.js";
import { unitMismatch } from "./rules/unit-mismatch.js";
import { unknownName } from "./rules/unknown-name.js";
import { whichHold } from "./rules/which-hold.js";
import { whichMovement } from "./rules/which-movement.js";
import { whichStage } from "./rules/which-stage.js";
import { windowLength } from "./rules/window-length.js";
import type { Rule } from "./rule.js";

/** Every rule, by the order of its id. A new rule is one file and one line here. */
export const rules: readonly Rule[] = Object.freeze(
  [
    abilityMissing,
    abilityZero,
    assumptionRange,
    athleteOneWord,
    brokenSetSum,
    cycle,
    declaredTwice,
    doesNotCompute,
    doesNotParse,
    endless,
    expectUntrue,
    holdDrops,
    holdUncovered,
    noRound,
    noTeam,
    outOfPlace,
    restShare,
    rowLength,
    runsOverCap,
    sayHow,
    setTooLong,
    sizeNotWhole,
    totalOver,
    totalShort,
    twoPlaces,
    unitMismatch,
    unknownName,
    whichHold,
    whichMovement,
    whichStage,
    windowLength,
  ].map((rule) => Object.freeze(rule)),
);
