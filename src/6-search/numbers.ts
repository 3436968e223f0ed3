import { breakS, type DraftPlan, type DraftLane, type DraftTurn, type SetSize } from "./draft.js";

/** Numbers in a lane that four tired heads keep: a lane of six is 1 % behind one of any length. */
export const mostInShort = 6;
/** Where who holds when takes most of that, so many for sizes still fit. */
const besideHolds = 4;

/** The most numbers of a short plan's lane, where an arrangement needs some for itself. */
export function mostInShortLike(needed: number): number {
  return Math.max(mostInShort, needed + besideHolds);
}

/** A lane that is told in one breath: one size, and perhaps one rest. */
export const mostInSimplest = 2;

/**
 * What must be remembered of a lane: each step of a ladder, sizes that several casts share once, a cast with other sizes on
 * other lines each line's; a broken set one more, a rest in seconds one, each who waits alone one, each line beyond a plain
 * rotation one, each change of holder one. A round and “when ready” nothing. Of a round that is shared out each part counts that
 * is not the whole of its movement, the same part once for all; and each line of somebody who has that movement already.
 */
export function numbersIn({ turns, rest, waits }: DraftLane): number {
  const pauses = waits.length + (typeof rest === "number" && rest > 0 ? 1 : 0);
  const changes = turns.filter(
    ({ holders }, at) => holders.join() !== turns[(at + turns.length - 1) % turns.length]?.holders.join(),
  ).length;
  return pauses + changes + (turns.some(({ size }) => size.kind === "item") ? partsToKeep(turns) : sizesToKeep(turns));
}

function partsToKeep(turns: readonly DraftTurn[]): number {
  const parts = new Map(turns.map(({ size }) => [sizeKey(size), countIn(size)] as const));
  const tasks = new Set(turns.map(({ who, size }) => `${who.join()} ${size.kind === "item" ? size.item : ""}`));
  return [...parts.values()].reduce((sum, count) => sum + count, 0) + turns.length - tasks.size;
}

function sizesToKeep(turns: readonly DraftTurn[]): number {
  const byCast = new Map<string, DraftTurn[]>();
  for (const turn of turns) byCast.set(turn.who.join(), [...(byCast.get(turn.who.join()) ?? []), turn]);
  let numbers = 0;
  const shared = new Map<string, number>();
  for (const own of byCast.values()) {
    const sizes = new Map(own.map(({ size }) => [sizeKey(size), countIn(size)] as const));
    if (sizes.size === 1) for (const [key, count] of sizes) shared.set(key, count);
    else for (const { size } of own) numbers += countIn(size);
  }
  for (const count of shared.values()) numbers += count;
  return numbers + turns.length - byCast.size;
}

/** The most numbers of any of a draft's lanes. */
export function mostNumbers({ blocks }: DraftPlan): number {
  return Math.max(0, ...blocks.flatMap(({ lanes }) => lanes.map(numbersIn)));
}

/** What must be remembered in all: what is done the same way at several stages is remembered once. */
export function allNumbers({ blocks }: DraftPlan): number {
  const told = new Set<string>();
  let numbers = 0;
  for (const { lanes } of blocks) {
    const own = lanes.map(laneKey);
    lanes.forEach((lane, at) => (numbers += told.has(own[at] ?? "") ? 0 : numbersIn(lane)));
    for (const key of own) told.add(key);
  }
  return numbers;
}

function countIn(size: SetSize): number {
  if (size.kind === "round") return size.broken.filter((broken) => broken !== null).length;
  if (size.kind === "item") return size.reps === size.of ? 0 : 1;
  return size.kind === "percent" ? shortest(size.percents).length : shortest(size.steps).length + (size.parts > 1 ? 1 : 0);
}

/** A ladder without what it says twice: its last step stays anyway. */
export function shortest(steps: readonly number[]): readonly number[] {
  let length = steps.length;
  while (length > 1 && steps[length - 1] === steps[length - 2]) length -= 1;
  return steps.slice(0, length);
}

/** All that tells two sizes apart. */
export function sizeKey(size: SetSize): string {
  if (size.kind === "item") return `${size.reps} of ${size.item}`;
  if (size.kind === "round")
    return `round ${size.broken.map((broken) => (broken ? `${broken.parts.join("+")}/${broken.restS}` : "")).join()}`;
  return size.kind === "percent"
    ? `${shortest(size.percents).join("-")}%`
    : `${shortest(size.steps).join("-")}${size.parts > 1 ? `/${size.parts}/${breakS}` : ""}`;
}

/** All that tells two lines apart. */
export function turnKey({ who, size, holders }: DraftTurn): string {
  return `${who.join()} ${sizeKey(size)} ${holders.join()}`;
}

/** All that tells two lanes apart but where they are. */
export function laneKey({ turns, rest, waits }: DraftLane): string {
  let key = "";
  for (const turn of turns) key += `${turnKey(turn)};`;
  return `${key}${rest} ${waits.join()}|`;
}

/** All that tells the drafts of one arrangement apart. */
export function draftKey({ blocks }: DraftPlan): string {
  let key = "";
  for (const { lanes } of blocks) for (const lane of lanes) key += laneKey(lane);
  return key;
}
