import { numberWord } from "../0-base/quantity.js";
import { areSideBySide, categoryWord, type StageSpec } from "../3-plan/event.js";
import { either } from "../5-findings/rule.js";
import { isPairOf, type PlanPair, type Work } from "../3-plan/plan.js";
import { printLine } from "../3-plan/print.js";
import { printName } from "../3-plan/print-parts.js";
import { brokenSet, type DraftPlan, type DraftLane, type DraftTurn, type FreeSize, isFree, rhythmOf } from "./draft.js";
import { shortest, sizeKey } from "./numbers.js";

/** Draft → text: a plan block as a coach would type it. */
export function textOf(draft: DraftPlan, name: string): string {
  const { event, pairs, rules, blocks } = draft;
  const lines = [`plan ${typedName(name)} for ${typedName(event.name)}`];
  for (const rule of rules) lines.push(`  ${printLine(rule)}`);
  for (const { name: pair, athletes } of pairs) lines.push(`  pair ${pair}  ${athletes.join(" + ")}`);
  for (const [at, { stage, window, lanes }] of blocks.entries()) {
    const spec = event.stages[stage];
    if (!spec) continue;
    const category = window === null ? null : event.windows[window]?.category;
    let depth = "  ";
    if (areSideBySide(event)) {
      lines.push(`${depth}lane ${typedName(spec.name)}`);
      depth += "  ";
    }
    if (category) {
      if (blocks[at - 1]?.window !== window) lines.push(`${depth}window ${categoryWord(category)}`);
      depth += "  ";
    }
    if (event.stages.length > 1) {
      lines.push(`${depth}stage ${typedName(spec.name)}`);
      depth += "  ";
    }
    for (const [nth, lane] of lanes.entries()) {
      const inside = lanes.length > 1 ? `${depth}  ` : depth;
      if (lanes.length > 1) lines.push(`${depth}lane ${laneName(lane, nth, pairs)}${lane.station ? ` on ${typedName(lane.station)}` : ""}`);
      lines.push(`${inside}repeat${lane.rest === "ready" ? ", each when ready" : ""}`);
      for (const name of lane.waits) lines.push(`${inside}  ${name} rest until ready`);
      if (lane.rest === "first ready") lines.push(`${inside}  rest until ready`);
      for (const turn of lane.turns) lines.push(`${inside}  ${turnText(turn, spec, pairs)}`);
      if (typeof lane.rest === "number" && lane.rest > 0) lines.push(`${inside}  rest ${lane.rest} s`);
    }
  }
  return `${lines.join("\n")}\n`;
}

/** The turns of a draft's first stage, as a coach would say them. */
export function firstLines({ event, pairs, blocks }: DraftPlan): readonly string[] {
  const [block] = blocks;
  const spec = block && event.stages[block.stage];
  if (!spec) return [];
  return block.lanes.flatMap(({ turns, rest, waits }) => [
    ...waits.map((name) => `${name} rest until ready`),
    ...turns.map((turn) => turnText(turn, spec, pairs)),
    ...(rest === "ready" ? ["each when ready"] : rest === "first ready" ? ["rest until ready"] : rest > 0 ? [`rest ${rest} s`] : []),
  ]);
}

/** A lane bears its station's name, or that of the one who works there; of several, a number. */
function laneName({ station, turns }: DraftLane, nth: number, pairs: readonly PlanPair[]): string {
  const [doer = "", ...others] = new Set(turns.map((turn) => doerOf(turn, pairs)));
  return typedName(station ?? (others.length === 0 ? doer : numberWord(nth + 1)));
}

function doerOf({ who }: DraftTurn, pairs: readonly PlanPair[]): string {
  return pairs.find((pair) => isPairOf(pair, who))?.name ?? who.join(" + ");
}

function turnText(turn: DraftTurn, spec: StageSpec, pairs: readonly PlanPair[]): string {
  const { who, size, holders } = turn;
  const part = size.kind === "item" ? spec.items[size.item] : undefined;
  const amount =
    size.kind === "item"
      ? `${size.reps} ${typedName(part?.movement ?? "")}`
      : size.kind === "round"
        ? "round"
        : size.kind === "percent"
          ? `${shortest(size.percents).join("-")} % unbroken`
          : shortest(size.steps).join("-");
  const how = size.kind !== "round" && who.length > 1 && (part ? part.how : rhythmOf(spec)) === null ? " each" : "";
  const hold = holders.length > 0 ? ` while ${holders.join(" + ")} hold` : "";
  return `${doerOf(turn, pairs)} ${amount}${how}${asParts(brokenSet(size))}${hold}${size.kind === "round" ? brokenItems(size.broken, spec) : ""}`;
}

function asParts(broken: Work["broken"]): string {
  return broken ? ` as ${broken.parts.join("+")} rest ${broken.restS} s` : "";
}

function brokenItems(sets: readonly Work["broken"][], { items }: StageSpec): string {
  return items
    .map(({ movement }, at) => {
      const broken = asParts(sets[at] ?? null);
      return broken === "" ? "" : `, ${typedName(movement)}${broken}`;
    })
    .join("");
}

/** A name as it is typed: in quotes where it would be read otherwise. */
export function typedName(text: string): string {
  return printName({ text });
}

/** Sets by their size. */
const plurals = (
  "none ones twos threes fours fives sixes sevens eights nines tens elevens twelves thirteens fourteens fifteens sixteens " +
  "seventeens eighteens nineteens twenties"
).split(" ");

/** Plans of one likeness go from B to Z, then by number. */
const letters = 26;

/** A name that tells what a plan is like, other than those that are taken. */
export function planNameFor(draft: DraftPlan, taken: (name: string) => boolean): string {
  const likeness = likenessOf(draft);
  let name = likeness;
  for (let nth = 2; taken(name); nth += 1) name = `${likeness} ${nth <= letters ? String.fromCharCode(64 + nth) : nth}`;
  return name;
}

function likenessOf({ blocks }: DraftPlan): string {
  const lanes = blocks.flatMap(({ lanes: own }) => own);
  const sizes = new Map(lanes.flatMap(({ turns }) => turns.map(({ size }) => [sizeKey(size), size] as const)));
  const [first] = sizes.values();
  if ([...sizes.values()].some(({ kind }) => kind === "item")) return "Shared laps";
  if (!first || !isFree(first))
    return [...sizes.values()].some((size) => size.kind === "round" && size.broken.some((broken) => broken !== null))
      ? "Broken laps"
      : "Lap by lap";
  const words = [...new Set([...sizes.values()].map((size) => (isFree(size) ? setsOf(size) : "whole rounds")))];
  const [only = "", another] = words;
  if (another === undefined) return only.includes(downTo) ? capital(only) : `Even ${only}`;
  if (words.some((word) => word.includes(downTo))) return "Stepping down";
  if (words.length <= mostNamed) return capital(either(words, "and"));
  return blocks.length > 1 ? "Stage by stage" : "To each their own";
}

const downTo = " down to ";
/** Sizes that a name can bear. */
const mostNamed = 3;

function capital(words: string): string {
  return `${words.slice(0, 1).toUpperCase()}${words.slice(1)}`;
}

/** Parts of a best set, by the percentages below which they are called so. */
const parts = [
  [15, "short sets"],
  [18, "sixths"],
  [23, "fifths"],
  [30, "quarters"],
  [41, "thirds"],
  [61, "halves"],
] as const;

function partWord(percent: number): string {
  return parts.find(([below]) => percent < below)?.[1] ?? "long sets";
}

function setsOf(size: FreeSize): string {
  const word = (count: number): string => (size.kind === "percent" ? partWord(count) : (plurals[count] ?? "long sets"));
  const [reps = 0, ...then] = shortest(size.kind === "percent" ? size.percents : size.steps);
  const last = then.at(-1);
  return last === undefined ? word(reps) : `${word(reps)}${downTo}${word(last)}`;
}
