import { type Problem, problem } from "../0-base/problem.js";
import { kgPerLb, plain } from "../0-base/quantity.js";
import type {
  EventLine,
  Line,
  RoundItemLine,
  RuleLine,
  StageLine,
  StationLine,
  WindowLine,
  AthletesLine,
  CapLine,
  DropCostLine,
  HandoverLine,
  SetUpLine,
  OrderLine,
  TieLine,
  EquipmentLine,
  PairsLine,
} from "./ast.js";
import type { Category, How, Load, Value, WhileClause, Word } from "./parts.js";
import { nameUnknown, subjectKey } from "./names.js";
import { mostPasses } from "./reader.js";
import { dimensionOf, dimensionWords, inBase } from "./values.js";

/** kg for each category. */
export type LoadKg = Readonly<Record<Category, number>>;

/** One movement of a stage or of a round. `count` is what one round asks of an athlete or a pair; null in a plain stage. */
export interface Item {
  readonly movement: string;
  readonly count: number | null;
  readonly load: LoadKg | null;
  readonly how: How | null;
}

export interface HoldDemand {
  readonly count: number;
  readonly hold: string;
  readonly load: LoadKg | null;
}

/** A stage: one movement with a target in reps, or rounds of several movements. `target` null runs to the cap. */
export interface StageSpec {
  readonly name: string;
  readonly rounds: boolean;
  readonly target: number | null;
  /** What its target counts, where that is not reps: a rep is then one calorie, or one metre. */
  readonly unit: "rep" | "cal" | "m";
  readonly items: readonly Item[];
  readonly hold: HoldDemand | null;
  /** Whose it is; null: anybody's. */
  readonly category: Category | null;
  /** The longest it may run from where it begins; the pause that must follow it; 0 where none must. */
  readonly withinS: number | null;
  readonly restS: number;
  /** Whether its reps are part of the score: those of a buy-in may not be. */
  readonly scored: boolean;
}

/** A thing that there is one of, and what is done with it; of no movement: with everything. */
export interface Equipment {
  readonly name: string;
  readonly movements: readonly string[];
}

export interface WindowSpec {
  readonly category: Category;
  readonly startS: number;
  readonly endS: number;
}

/** The published rules of an event, in base units. */
export interface EventSpec {
  readonly name: string;
  readonly score: "time" | "reps";
  readonly capS: number | null;
  readonly handoverS: number | null;
  /** Seconds to take up a movement again after a pause. */
  readonly setUpS: number | null;
  readonly pairs: "alike" | "mixed" | "any";
  /** Who take turns: the same two, or the same athlete, never twice running. */
  readonly alternate: "pairs" | "athletes" | null;
  /** In which order the athletes follow one another, round and round; fixed: in whichever they begin. Null where they are free. */
  readonly order: readonly string[] | "fixed" | null;
  readonly equipment: readonly Equipment[];
  /** What each dropped hold costs. */
  readonly dropCost: { readonly unit: "s" | "reps"; readonly amount: number } | null;
  /** The stage whose end tells two of one score apart. */
  readonly tie: string | null;
  readonly working: { readonly most: number; readonly pairs: boolean } | null;
  readonly stages: readonly StageSpec[];
  readonly windows: readonly WindowSpec[];
  readonly stations: readonly { readonly name: string; readonly category: Category }[];
  readonly rules: readonly RuleLine[];
  readonly standards: readonly string[];
}

export interface ReadEvent {
  readonly event: EventSpec;
  readonly problems: readonly Problem[];
}

const bare: Omit<EventSpec, "name"> = {
  score: "time",
  capS: null,
  handoverS: null,
  setUpS: null,
  pairs: "any",
  alternate: null,
  order: null,
  equipment: [],
  dropCost: null,
  tie: null,
  working: null,
  stages: [],
  windows: [],
  stations: [],
  rules: [],
  standards: [],
};

/** What a rule is about: its words, without its numbers. */
function formOf({ parts }: RuleLine): string {
  return parts.map((part) => ("kind" in part ? "#" : part.text)).join(" ");
}

/** The event a block describes; with `like`, a copy in which the lines given replace or add. */
export function readEvent(line: EventLine, like: EventSpec | null): ReadEvent {
  const problems: Problem[] = [];
  const report = (found: Problem): void => void problems.push(found);
  let event: EventSpec = { ...(like ?? bare), name: line.name.text };
  let windows: readonly WindowSpec[] | null = null;
  for (const inner of line.body) {
    switch (inner.kind) {
      case "score":
        event = withScore(event, inner.choice, report);
        break;
      case "pairs":
      case "athletes":
        event = withTurns(event, inner, report);
        break;
      case "cap":
      case "handover":
      case "setup":
      case "drop cost":
      case "tie":
      case "equipment":
      case "order":
        event = { ...event, ...termOf(inner, event, report) };
        break;
      case "working":
        event = { ...event, working: { most: inner.most, pairs: /^pairs?$/.test(inner.what?.text ?? "") } };
        break;
      case "stage":
        event = { ...event, stages: replaced(event.stages, readStage(inner, report)) };
        break;
      case "round":
        event = { ...event, stages: replaced(event.stages, readRound(inner, report)) };
        break;
      case "window": {
        const window = windowAfter(windows?.at(-1)?.endS ?? 0, inner, report);
        if (window) windows = [...(windows ?? []), window];
        break;
      }
      case "station":
        event = withStation(event, inner, report);
        break;
      case "rule":
        event = {
          ...event,
          rules: [...event.rules.filter((rule) => !like?.rules.includes(rule) || formOf(rule) !== formOf(inner)), inner],
        };
        break;
      case "standard":
        event = { ...event, standards: [...event.standards, inner.text] };
        break;
    }
  }
  if (windows) event = { ...event, windows, capS: windows.at(-1)?.endS ?? event.capS };
  return { event, problems };
}

type Report = (problem: Problem) => void;

/** The next window, from where the last ended. */
function windowAfter(startS: number, { who, lasts, span }: WindowLine, report: Report): WindowSpec | null {
  const category = categoryOf(who.text);
  const lastsS = lasts && boundedS(lasts, report);
  if (!category) report(nameUnknown("category", who, ["women", "men"]));
  else if (lastsS === null) report(problem("window-length", span, { category }));
  else return { category, startS, endS: startS + lastsS };
  return null;
}

function withScore(event: EventSpec, choice: Word, report: Report): EventSpec {
  const { text } = choice;
  if (text === "time" || text === "reps") return { ...event, score: text };
  report(nameUnknown("score", choice, ["time", "reps"]));
  return event;
}

/** What single lines say beside the work. */
function termOf(
  line: CapLine | HandoverLine | SetUpLine | DropCostLine | TieLine | EquipmentLine | OrderLine,
  event: EventSpec,
  report: Report,
): Partial<EventSpec> {
  switch (line.kind) {
    case "cap":
      return { capS: boundedS(line.value, report) ?? event.capS };
    case "handover":
      return { handoverS: inBase(line.value, ["time"], report) ?? event.handoverS };
    case "setup":
      return { setUpS: inBase(line.value, ["time"], report) ?? event.setUpS };
    case "drop cost":
      return { dropCost: dropCostOf(line.value, report) ?? event.dropCost };
    case "tie":
      return { tie: line.stage.text };
    case "equipment":
      return { equipment: [...event.equipment, equipmentOf(line)] };
    case "order":
      return { order: line.athletes.length === 0 ? "fixed" : onceEach(line.athletes, report) };
  }
}

function onceEach(words: readonly Word[], report: Report): readonly string[] {
  const names = words.map(({ text }) => text);
  words.forEach((word, at) => names.indexOf(word.text) < at && report(problem("named-twice", word.span, { name: word.text })));
  return [...new Set(names)];
}

/** Who is due after somebody, by such an order, among those who have worked so far; null where anybody may. */
export function dueAfter(order: EventSpec["order"], soFar: readonly string[]): string | null {
  const last = soFar.at(-1);
  const named = order === "fixed" ? [...new Set(soFar)] : (order ?? []);
  const next = last === undefined ? named[0] : named[(named.indexOf(last) + 1) % named.length];
  // A fixed order is not known before somebody comes again.
  return next === undefined || (order === "fixed" && named.length === soFar.length) ? null : next;
}

/**
 * Which pairs may be, or that those who work take turns; so many reps a turn are a limit like others. A later line stands for
 * all that was said of turns.
 */
function withTurns(event: EventSpec, line: PairsLine | AthletesLine, report: Report): EventSpec {
  const { choice, change, kind, span } = line;
  const { text } = choice;
  if (text === "alternate") {
    const others = event.rules.filter(({ parts }) => !parts.some((part) => "text" in part && part.text === "change"));
    if (change?.kind === "at will") return { ...event, alternate: null, rules: others };
    const every = change && repsOf(change.reps, report);
    if (every === null) return { ...event, alternate: kind, rules: others };
    const words = ["change", "every"].map((word): Word => ({ text: word, span }));
    const value: Value = { kind: "value", amount: every, unit: "rep", clock: false, span };
    return { ...event, alternate: kind, rules: [...others, { kind: "rule", span, body: [], parts: [...words, value] }] };
  }
  if (kind === "pairs" && (text === "alike" || text === "mixed" || text === "any")) return { ...event, pairs: text };
  report(
    kind === "pairs"
      ? nameUnknown("kind of pair", choice, ["alike", "mixed", "any", "alternate"])
      : nameUnknown("word for turns", choice, ["alternate"]),
  );
  return event;
}

/** A whole number of reps, at least 1; null, and told, where it is another thing. */
function repsOf(value: Value, report: Report): number | null {
  const { amount, unit, span } = value;
  if (unit !== null && unit !== "rep") report(problem("unit-mismatch", span, { given: unit, wanted: dimensionWords.count }));
  else if (!Number.isInteger(amount) || amount < 1) report(problem("size-not-whole", span, { size: amount, least: 1, most: mostPasses }));
  else return amount;
  return null;
}

/** Seconds, or whole reps. */
function dropCostOf(value: Value, report: Report): EventSpec["dropCost"] {
  const unit = dimensionOf(value) === "time" ? "s" : "reps";
  const amount = unit === "s" ? boundedS(value, report) : repsOf(value, report);
  return amount === null ? null : { unit, amount };
}

/** Whether all of several stages run to the cap: none ever makes way for the next, so that they are done side by side. */
export function areSideBySide({ stages, windows }: Pick<EventSpec, "stages" | "windows">): boolean {
  return stages.length > 1 && windows.length === 0 && stages.every(({ target }) => target === null);
}

/** Whether a movement takes some equipment. */
export function takes({ movements }: Equipment, movement: string): boolean {
  return movements.length === 0 || movements.includes(subjectKey(movement));
}

function equipmentOf({ name, movements }: EquipmentLine): Equipment {
  return { name: name.text, movements: movements.map(({ text }) => subjectKey(text)) };
}

function withStation(event: EventSpec, { name, who }: StationLine, report: Report): EventSpec {
  const category = categoryOf(who.text);
  if (category) return { ...event, stations: [...event.stations.filter((one) => one.name !== name.text), { name: name.text, category }] };
  report(nameUnknown("category", who, ["women", "men"]));
  return event;
}

/** Longer than any event lasts: hours that are meant as minutes, most often. */
const longestS = 14_400;

/** A cap's or a window's seconds; told, and cut, where no event lasts so long. */
function boundedS(value: Value, report: Report): number | null {
  const seconds = inBase(value, ["time"], report);
  if (seconds === null || seconds <= longestS) return seconds;
  const minutes =
    value.unit === "h"
      ? [{ title: `write ${plain(value.amount)} min`, edits: [{ span: value.span, text: `${plain(value.amount)} min` }] }]
      : [];
  report(problem("too-long-an-event", value.span, { seconds, most: longestS }, minutes));
  return longestS;
}

/** A category as the language names it. */
export function categoryWord(category: Category): "women" | "men" {
  return category === "woman" ? "women" : "men";
}

export function categoryOf(word: string): Category | null {
  if (word === "women" || word === "woman") return "woman";
  return word === "men" || word === "man" ? "man" : null;
}

function replaced(stages: readonly StageSpec[], stage: StageSpec): readonly StageSpec[] {
  const at = stages.findIndex(({ name }) => name === stage.name);
  return at < 0 ? [...stages, stage] : stages.with(at, stage);
}

/** A stage without a name goes by its movement. */
function readStage(line: StageLine, report: Report): StageSpec {
  const movement = line.movement?.text ?? line.name?.text ?? "";
  const { load, how, hold } = line.clauses;
  const category = line.whom && categoryOf(line.whom.text);
  if (line.whom && !category) report(nameUnknown("category", line.whom, ["women", "men"]));
  return {
    name: line.name?.text ?? movement,
    rounds: false,
    target: line.count ? line.count.amount : null,
    unit: line.count?.unit === "cal" || line.count?.unit === "m" ? line.count.unit : "rep",
    items: [{ movement, count: null, load: loadKg(load), how }],
    hold: demandOf(hold, report),
    category,
    withinS: line.within && boundedS(line.within, report),
    restS: (line.rest && boundedS(line.rest, report)) ?? 0,
    scored: line.scored,
  };
}

function readRound(line: Extract<Line, { kind: "round" }>, report: Report): StageSpec {
  const items = line.body.filter((inner): inner is RoundItemLine => inner.kind === "round item");
  const demand = items.map(({ clauses }) => demandOf(clauses.hold, report)).find((found) => found !== null);
  return {
    name: "round",
    rounds: true,
    target: line.of,
    unit: "rep",
    items: items.map(({ count, movement, clauses }) => ({
      movement: movement.text,
      count: count?.amount ?? 1,
      load: loadKg(clauses.load),
      how: clauses.how,
    })),
    hold: demand ?? null,
    category: null,
    withinS: null,
    restS: 0,
    scored: true,
  };
}

/** How many hold; who they are, a plan says. */
function demandOf(clause: WhileClause | null, report: Report): HoldDemand | null {
  if (!clause?.hold) return null;
  const { who, hold } = clause;
  const [first, last] = [who[0], who.at(-1)];
  if (first && last) {
    const span = { from: first.span.from, to: last.span.to };
    const typed = who.map(({ text }) => text).join(" + ");
    report(
      problem("said-otherwise", span, { typed: `${typed} hold ${hold.text}`, meant: [`${who.length} hold ${hold.text}`] }, [
        { title: `${who.length} hold`, edits: [{ span, text: `${who.length}` }], guess: true },
      ]),
    );
  }
  return { count: clause.count ?? 1, hold: clause.hold.text, load: loadKg(clause.load) };
}

export function loadKg(load: Load | null): LoadKg | null {
  if (!load) return null;
  const factor = load.unit === "lb" ? kgPerLb : 1;
  return { man: load.man * factor, woman: load.woman * factor };
}
