import { unitSpellings } from "../../grammar/tokens.js";
import { clock, counted, percent, plain, units } from "../0-base/quantity.js";
import type { AbilityRowLine, ExpectLine, LetLine, Line } from "../3-plan/ast.js";
import { workingIn } from "../3-plan/plan.js";
import type { Category, Expression } from "../3-plan/parts.js";
import { categoryWord, type EventSpec } from "../3-plan/event.js";
import type { Amount } from "../3-plan/formula.js";
import { isUnit } from "../3-plan/reader.js";
import type { World } from "../3-plan/world.js";
import { type Abilities, type Origin } from "../4-timeline/ability.js";
import type { Evaluation } from "../4-timeline/evaluate.js";
import type { PlanResult } from "../4-timeline/kept.js";
import { judgeExpectation, showAmount } from "../4-timeline/expectation.js";
import { fitCriticalRate } from "../4-timeline/models/critical-rate.js";
import { ceilingReps, criticalRate, unbrokenTime } from "../4-timeline/models/reserve.js";
import { changeEvery } from "../5-findings/limits/change-every.js";
import { inForce } from "../5-findings/limits/limit.js";
import { type Answer, computedBy, type Input, shownAs } from "./answer.js";
import { logAnswers } from "./log-answers.js";
import { planAnswers } from "./plan-answers.js";
import { weekAnswers } from "./week-answers.js";
import { costWords } from "./stage-terms.js";

/** What stands beside each line of one block. A line without anything to say has no answer. */
export function blockAnswers(line: Line, text: string, plan: PlanResult | null, evaluation: Evaluation): readonly Answer[] {
  const lineOf = lineFinder(text);
  const at = lineOf(line.span.from);
  switch (line.kind) {
    case "plan": {
      const spec = plan?.resolved.plan;
      return spec && plan.timeline ? planAnswers(spec, plan.timeline, evaluation.abilities, lineOf) : [];
    }
    case "ability": {
      const athletes = line.athletes.map(({ text: name }) => name);
      const rows = line.body.flatMap((row) => (row.kind === "ability row" ? [row] : []));
      return rows.flatMap((row) => rowAnswer(row, athletes, evaluation, lineOf(row.span.from)));
    }
    case "event":
      return eventAnswer(line.name.text, evaluation.world, at);
    case "team": {
      const shown = teamWords(evaluation.world, line.name.text);
      return [{ ...bareAnswer(at, shown), origin: { kind: "measured", by: "the team" }, formula: "athletes by category" }];
    }
    case "let":
      return letAnswer(line, evaluation, at);
    case "expect":
      return expectAnswer(line, evaluation, at);
    case "compare": {
      const results = line.plans.map(({ text: name }) => ({ name, timeline: evaluation.named(name)?.timeline }));
      const shown = results.map(({ name, timeline }) => `${name} ${timeline ? scoreWords(timeline.score) : "?"}`).join(" · ");
      return [{ ...bareAnswer(at, shown), formula: "the scores side by side" }];
    }
    case "log":
      return logAnswers(line, evaluation, lineOf);
    case "week":
      return weekAnswers(line, evaluation, lineOf);
    default:
      return [];
  }
}

/** An answer of plans, computed by the timeline, with nothing else to show. */
function bareAnswer(line: number, shown: string): Answer {
  return { line, about: "plans", shown, values: {}, origin: computedBy("the timeline"), formula: "", inputs: [] };
}

function letAnswer(line: LetLine, evaluation: Evaluation, at: number): readonly Answer[] {
  const computed = evaluation.valueOf(line);
  if (!computed.ok) return [];
  const { value } = computed.amount;
  return [{ ...byFormula(at, shownIn(line.value, computed.amount), { value }), formula: "the formula of the line" }];
}

/** An amount in the unit that its formula ends with, `to lb`; else as a coach would write it. */
function shownIn(formula: Expression, amount: Amount): string {
  const unit = formula.kind === "convert" ? (unitSpellings.get(formula.unit.text) ?? formula.unit.text) : "";
  return isUnit(unit) ? `${plain(amount.value / units[unit].base, 2)} ${unit}` : showAmount(amount);
}

function expectAnswer(line: ExpectLine, evaluation: Evaluation, at: number): readonly Answer[] {
  const judged = judgeExpectation(line, evaluation);
  if (judged.kind === "failed") return [];
  const shown = judged.holds ? `holds: ${judged.left}` : `does not hold: ${judged.left}`;
  return [{ ...byFormula(at, shown, { holds: judged.holds ? 1 : 0, right: judged.limit }), formula: "left side against right side" }];
}

function byFormula(line: number, shown: string, values: Answer["values"]): Answer {
  return { ...bareAnswer(line, shown), about: "formulas", values, origin: computedBy("the formula") };
}

export function scoreWords(score: { readonly kind: "time" | "reps"; readonly value: number; readonly finished: boolean }): string {
  if (score.kind === "reps") return counted(score.value, "rep");
  return score.finished ? clock(score.value) : "not done";
}

function lineFinder(text: string): (offset: number) => number {
  const ends: number[] = [];
  for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) ends.push(at);
  return (offset) => {
    let [low, high] = [0, ends.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((ends[middle] ?? 0) < offset) low = middle + 1;
      else high = middle;
    }
    return low;
  };
}

function teamWords(world: World, name: string): string {
  const athletes = world.teams.get(name)?.athletes ?? [];
  const count = (category: Category) => athletes.filter((athlete) => athlete.category === category).length;
  return shownAs(counted(count("woman"), "woman", "women"), counted(count("man"), "man", "men"));
}

function eventAnswer(name: string, world: World, line: number): readonly Answer[] {
  const event = world.events.get(name);
  if (!event) return [];
  const targets = event.stages.flatMap(({ target, rounds, unit, category }) => {
    const whose = category === null ? "" : ` of ${categoryWord(category)}`;
    return target === null ? [] : [`${unit === "rep" ? counted(target, rounds ? "round" : "rep") : `${target} ${unit}`}${whose}`];
  });
  const shown = shownAs(
    event.score === "time" ? "for time" : "for reps",
    event.capS === null ? null : `cap ${clock(event.capS)}`,
    targets.join(" + ") || null,
    ...readBack(event),
  );
  return [
    {
      line,
      about: "plans",
      shown,
      values: event.capS === null ? {} : { cap: event.capS },
      origin: { kind: "measured", by: "the published rules" },
      formula: "as published",
      inputs: [],
    },
  ];
}

/** What was understood of who may work, with whom and where, and of what is charged, in a few words each. */
function readBack(event: EventSpec): readonly string[] {
  const working = workingIn(event);
  const { pairs, alternate, order, stages, stations, windows, equipment, dropCost, tie } = event;
  const holding = Math.max(0, ...stages.map(({ hold }) => hold?.count ?? 0));
  return [
    ...(working ? [atOnce(working)] : []),
    ...(holding > 0 ? [holding === 1 ? "1 holds" : `${holding} hold`] : []),
    ...(pairs === "any" ? [] : [`${pairs} pairs`]),
    ...(alternate === null ? [] : [`${alternate} take turns${stages.some(({ rounds }) => rounds) ? ", round by round" : ""}`]),
    ...inForce([{ by: "", published: true, rules: event.rules, athletes: new Map() }], changeEvery).map(
      ({ value }) => `a change every ${counted(value, "rep")}`,
    ),
    ...(order === null ? [] : [order === "fixed" ? "in a fixed order" : `in the order ${order.join(", ")}`]),
    ...equipment.map(({ name, movements }) => `one ${name}${movements.length > 0 ? ` for ${movements.join(", ")}` : ""}`),
    ...stages.flatMap(stageTerms),
    ...(dropCost ? [`a drop costs ${costWords(dropCost)}`] : []),
    ...(tie === null ? [] : [`ties by the time of ${tie}`]),
    ...stations.map(({ name, category }) => `${categoryWord(category)} at ${name}`),
    ...windows.map(({ category, startS, endS }) => `${categoryWord(category)} ${clock(startS)}–${clock(endS)}`),
  ];
}

function stageTerms({ name, withinS, restS, scored }: EventSpec["stages"][number]): readonly string[] {
  return [
    ...(withinS === null ? [] : [`${name} within ${clock(withinS)}`]),
    ...(scored ? [] : [`${name} not scored`]),
    ...(restS > 0 ? [`${clock(restS)} of rest after ${name}`] : []),
  ];
}

function atOnce({ most, pairs }: NonNullable<EventSpec["working"]>): string {
  if (most === 1) return pairs ? "one pair at a time" : "one works at a time";
  return pairs ? `${most} pairs at a time` : `${most} work at a time`;
}

/** What the model made of a row: capacity and critical rate from reps, the load fraction from a hold. */
function rowAnswer(row: AbilityRowLine, athletes: readonly string[], { abilities, world }: Evaluation, line: number): readonly Answer[] {
  const known = athletes.filter((name) => world.athletes.has(name));
  if (known.length === 0) return [];
  const subject = row.subject.text;
  const columns = known.map((name) => ({ name, ...modelOf(name, subject, row, abilities) }));
  const [first] = columns;
  if (!first) return [];
  return [
    {
      line,
      about: "abilities",
      shown: `${first.what} ${columns.map(({ value }) => value).join(" ")}`,
      values: Object.fromEntries(columns.map(({ name, number }) => [name, number])),
      origin: first.origin,
      formula: first.formula,
      inputs: columns.map(({ name, value, from }): Input => ({ name, value, origin: workedOut(first.origin, from) })),
    },
  ];
}

/** A number of the model's, with the test or the assumption that it was worked out from. */
function workedOut(model: Origin, from: Origin): Origin {
  return from.kind === "measured" ? { ...model, by: `${model.by}, from the ${from.by}` } : from;
}

interface Modelled {
  readonly what: string;
  readonly value: string;
  readonly number: number;
  readonly formula: string;
  readonly origin: Origin;
  readonly from: Origin;
}

function modelOf(name: string, subject: string, row: AbilityRowLine, abilities: Abilities): Modelled {
  if (row.measure.name === "hold") {
    const { hold, origin } = abilities.hold(name, subject);
    const formula = "load as a fraction of the maximum, from t = −ln(1 − R(1−TL)/(F·TL))/R";
    return {
      what: "load",
      value: percent(hold.load),
      number: hold.load,
      formula,
      origin: computedBy("three-compartment model (Xia & Frey Law 2008)"),
      from: origin,
    };
  }
  const { reserve, origins } = abilities.movement(name, subject, null);
  const reserveModel = computedBy("the reserve model (Monod & Scherrer 1965; Harris et al. 1976)");
  switch (row.measure.name) {
    case "in": {
      const rate = criticalRate(reserve) * 60;
      const timed = [...(abilities.tests(name, subject)?.timed ?? [])].map(([seconds, { value }]) => ({ seconds, reps: value }));
      const straight = fitCriticalRate(timed);
      const also = straight ? `; by the straight line through ${timed.length} tests ${plain(straight.rate * 60)} a minute` : "";
      return {
        what: "kept a minute",
        value: plain(rate),
        number: rate,
        formula: `K / (φ·τ_f′ + (1−φ)·τ_s′), recovery ρ ${plain(reserve.recovery, 2)}${also}`,
        origin: reserveModel,
        from: origins.recovery,
      };
    }
    case "unbroken": {
      const seconds = unbrokenTime(reserve);
      return {
        what: "unbroken in s",
        value: plain(seconds, 0),
        number: seconds,
        formula: `capacity K ${plain(reserve.capacity, 2)} reps: a fresh athlete does exactly ${reserve.unbroken}`,
        origin: reserveModel,
        from: origins.unbroken,
      };
    }
    default: {
      const most = ceilingReps(reserve, 300);
      return {
        what: "most in 5 min",
        value: plain(most, 0),
        number: most,
        formula: "the unbroken set, then riding the limit",
        origin: reserveModel,
        from: origins.cycle,
      };
    }
  }
}
