/** Every kind of line, in the order of the language reference. A new kind is a file here, a line here, and its rule in the grammar. */
import type { Kind, LineKind } from "./line-kind.js";
import { teamLine } from "./team.js";
import { athleteLine } from "./athlete.js";
import { movementLine } from "./movement.js";
import { holdLine } from "./hold.js";
import { asksLine } from "./asks.js";
import { abilityLine } from "./ability.js";
import { abilityRowLine } from "./ability-row.js";
import { eventLine } from "./event.js";
import { scoreLine } from "./score.js";
import { capLine } from "./cap.js";
import { handoverLine } from "./handover.js";
import { setupLine } from "./setup.js";
import { pairsLine } from "./pairs.js";
import { athletesLine } from "./athletes.js";
import { dropCostLine } from "./drop-cost.js";
import { tieLine } from "./tie.js";
import { equipmentLine } from "./equipment.js";
import { orderLine } from "./order.js";
import { workingLine } from "./working.js";
import { stageLine } from "./stage.js";
import { windowLine } from "./window.js";
import { stationLine } from "./station.js";
import { roundLine } from "./round.js";
import { roundItemLine } from "./round-item.js";
import { ruleLine } from "./rule.js";
import { standardLine } from "./standard.js";
import { cueLine } from "./cue.js";
import { planLine } from "./plan.js";
import { pairLine } from "./pair.js";
import { repeatLine } from "./repeat.js";
import { laneLine } from "./lane.js";
import { restLine } from "./rest.js";
import { turnLine } from "./turn.js";
import { roundTurnLine } from "./round-turn.js";
import { namedRestLine } from "./named-rest.js";
import { weekLine } from "./week.js";
import { zoneLine } from "./zone.js";
import { dueLine } from "./due.js";
import { dayLimitLine } from "./day-limit.js";
import { gapLine } from "./gap.js";
import { keepLine } from "./keep.js";
import { openLine } from "./open-hours.js";
import { awayLine } from "./away.js";
import { dayLine } from "./day.js";
import { logLine } from "./log.js";
import { logDoneLine } from "./log-done.js";
import { logBrokeLine } from "./log-broke.js";
import { logDroppedLine } from "./log-dropped.js";
import { logNoRepLine } from "./log-no-rep.js";
import { logFinishLine } from "./log-finish.js";
import { logRepsLine } from "./log-reps.js";
import { logHandoverLine } from "./log-handover.js";
import { logFeltLine } from "./log-felt.js";
import { logNoteLine } from "./log-note.js";
import { letLine } from "./let.js";
import { expectLine } from "./expect.js";
import { compareLine } from "./compare.js";
import { useLine } from "./use.js";
import { assumeLine } from "./assume.js";

const byKind: { readonly [K in Kind]: LineKind<K> } = {
  team: teamLine,
  athlete: athleteLine,
  movement: movementLine,
  hold: holdLine,
  asks: asksLine,
  ability: abilityLine,
  "ability row": abilityRowLine,
  event: eventLine,
  score: scoreLine,
  cap: capLine,
  handover: handoverLine,
  setup: setupLine,
  pairs: pairsLine,
  athletes: athletesLine,
  "drop cost": dropCostLine,
  tie: tieLine,
  equipment: equipmentLine,
  order: orderLine,
  working: workingLine,
  stage: stageLine,
  window: windowLine,
  station: stationLine,
  round: roundLine,
  "round item": roundItemLine,
  rule: ruleLine,
  standard: standardLine,
  cue: cueLine,
  plan: planLine,
  pair: pairLine,
  repeat: repeatLine,
  lane: laneLine,
  rest: restLine,
  turn: turnLine,
  "round turn": roundTurnLine,
  "named rest": namedRestLine,
  week: weekLine,
  zone: zoneLine,
  due: dueLine,
  "day limit": dayLimitLine,
  gap: gapLine,
  keep: keepLine,
  open: openLine,
  away: awayLine,
  day: dayLine,
  log: logLine,
  "log done": logDoneLine,
  "log broke": logBrokeLine,
  "log dropped": logDroppedLine,
  "log no-rep": logNoRepLine,
  "log finish": logFinishLine,
  "log reps": logRepsLine,
  "log handover": logHandoverLine,
  "log felt": logFeltLine,
  "log note": logNoteLine,
  let: letLine,
  expect: expectLine,
  compare: compareLine,
  use: useLine,
  assume: assumeLine,
};

export const lineKinds: Readonly<Record<Kind, LineKind>> = byKind;

/** All kinds, in order. */
export const allKinds: readonly LineKind[] = Object.values(lineKinds);
