import type { How, RuleLine } from "../3-plan/ast.js";
import type { EventSpec, StageSpec } from "../3-plan/event.js";
import type { PlanPair, PlanSpec, Step, Turn, Work } from "../3-plan/plan.js";
import { printLine, printName } from "../3-plan/print.js";
import type { Team } from "../3-plan/world.js";

/** A turn of a plan that is being looked for. */
export interface DraftTurn {
  readonly who: readonly string[];
  /** Reps pass by pass, for each of the turn's athletes; the last stays. In an event of rounds one round, whatever stands here. */
  readonly sizes: readonly number[];
  /** Into how many parts a set is broken on purpose; 1 is unbroken. A broken set has one size. */
  readonly parts: number;
  readonly holders: readonly string[];
}

/** Turns that follow one another again and again, with a rest before they start over. */
export interface DraftLane {
  readonly station: string | null;
  readonly turns: readonly DraftTurn[];
  readonly restS: number;
}

/** One stage of the event, or one window of it. */
export interface DraftBlock {
  readonly stage: number;
  readonly window: number | null;
  readonly lanes: readonly DraftLane[];
}

/** A plan that is being looked for: its structure and its numbers, no text yet. */
export interface Draft {
  readonly event: EventSpec;
  readonly team: Team;
  readonly pairs: readonly PlanPair[];
  /** The coach's own, of the plan that is to be bettered. */
  readonly rules: readonly RuleLine[];
  readonly blocks: readonly DraftBlock[];
}

/** Seconds between the parts of a broken set. */
const breakS = 5;

/** How the two of a turn work, as a turn's line has to say it. */
export function rhythmOf(stage: StageSpec): How | null {
  return stage.items[0]?.how ?? null;
}

/** Draft → plan, as the reader would make it of the draft's text. */
export function planOf(draft: Draft, name = "Draft"): PlanSpec {
  const { event, team, pairs, rules, blocks } = draft;
  let id = 0;
  const next = (): number => (id += 1);
  const steps = blocks.map(({ stage, window, lanes }): Step => {
    const spec = event.stages[stage];
    const bodies = lanes.map(({ station, turns, restS }) => {
      const rest: readonly Step[] = restS > 0 ? [{ kind: "rest", id: next(), who: [], until: { kind: "time", seconds: restS } }] : [];
      const body = [...(spec ? turns.map((turn) => turnOf(turn, spec, next())) : []), ...rest];
      return { id: next(), name: station ?? "", station, body: [{ kind: "repeat", id: next(), times: null, untilS: null, body }] satisfies readonly Step[] };
    });
    const body: readonly Step[] = bodies.length === 1 ? (bodies[0]?.body ?? []) : [{ kind: "lanes", lanes: bodies }];
    return window === null ? { kind: "stage", id: next(), stage, body } : { kind: "window", id: next(), window, body };
  });
  // A single stage needs no block of its own.
  const bare = event.stages.length === 1 ? steps.flatMap((step) => (step.kind === "stage" ? step.body : [step])) : steps;
  return { name, event, team, steps: bare, pairs, rules, nodes: [] };
}

function turnOf({ who, sizes, parts, holders }: DraftTurn, spec: StageSpec, id: number): Turn {
  const works = spec.items.map(({ movement, load, how, count }): Work => {
    const ladder = spec.rounds ? [count ?? 0] : sizes;
    return { movement, load, rhythm: who.length > 1 && how !== null && how !== "shared" ? how : "each", ladders: who.map(() => ladder), again: false, broken: spec.rounds ? null : brokenSet(sizes, parts) };
  });
  return { kind: "turn", id, who, works, rounds: spec.rounds ? 1 : null, holders, hold: spec.hold?.hold ?? null, holdLoad: spec.hold?.load ?? null };
}

/** Plan → draft, where the plan is turns in a repeat without an end, by stage, window or lane; null where it is more than that. */
export function draftOf({ event, team, pairs, rules, steps }: PlanSpec): Draft | null {
  const plain = event.stages.length === 1 && !steps.some(({ kind }) => kind === "stage" || kind === "window");
  const blocks = (plain ? [{ stage: 0, window: null, body: steps }] : steps.map((step) => (step.kind === "stage" ? { stage: step.stage, window: null, body: step.body } : step.kind === "window" ? { stage: 0, window: step.window, body: step.body } : null))).map((block): DraftBlock | null => {
    const lanes = block && lanesOf(block.body);
    return block && lanes ? { stage: block.stage, window: block.window, lanes } : null;
  });
  return blocks.every((block) => block !== null) ? { event, team, pairs, rules, blocks } : null;
}

function lanesOf(body: readonly Step[]): readonly DraftLane[] | null {
  const [first] = body;
  const lanes = (first?.kind === "lanes" ? first.lanes : [{ station: null, body }]).map((lane) => laneOf(lane.station, lane.body));
  return body.length === 1 && lanes.every((lane) => lane !== null) ? lanes : null;
}

function laneOf(station: string | null, [repeat, ...others]: readonly Step[]): DraftLane | null {
  if (repeat?.kind !== "repeat" || repeat.times !== null || repeat.untilS !== null || others.length > 0) return null;
  const last = repeat.body.at(-1);
  const restS = last?.kind === "rest" && last.who.length === 0 && last.until.kind === "time" ? last.until.seconds : 0;
  const turns = (restS > 0 ? repeat.body.slice(0, -1) : repeat.body).map((step): DraftTurn | null => {
    const [work] = step.kind === "turn" ? step.works : [];
    if (step.kind !== "turn" || !work || work.again || work.broken || work.ladders.some((ladder) => ladder.join() !== work.ladders[0]?.join())) return null;
    return { who: step.who, sizes: work.ladders[0] ?? [1], parts: 1, holders: step.holders };
  });
  return turns.length > 0 && turns.every((turn) => turn !== null) ? { station, turns, restS } : null;
}

/** Draft → text: a plan block as a coach would type it. */
export function textOf(draft: Draft, name: string): string {
  const { event, pairs, rules, blocks } = draft;
  const lines = [`plan ${printName(word(name))} for ${printName(word(event.name))}`];
  for (const rule of rules) lines.push(`  ${printLine(rule)}`);
  for (const { name: pair, athletes } of pairs) lines.push(`  pair ${pair}  ${athletes.join(" + ")}`);
  for (const { stage, window, lanes } of blocks) {
    const spec = event.stages[stage];
    if (!spec) continue;
    const category = window === null ? null : event.windows[window]?.category;
    let depth = "  ";
    if (category) {
      lines.push(`  window ${category === "woman" ? "women" : "men"}`);
      depth = "    ";
    } else if (event.stages.length > 1) {
      lines.push(`  stage ${printName(word(spec.name))}`);
      depth = "    ";
    }
    lanes.forEach((lane, at) => {
      const inside = lanes.length > 1 ? `${depth}  ` : depth;
      if (lanes.length > 1) lines.push(`${depth}lane ${["one", "two", "three", "four", "five", "six"][at] ?? `n${at}`}${lane.station ? ` on ${printName(word(lane.station))}` : ""}`);
      lines.push(`${inside}repeat`);
      for (const turn of lane.turns) lines.push(`${inside}  ${turnText(turn, spec, pairs)}`);
      if (lane.restS > 0) lines.push(`${inside}  rest ${lane.restS} s`);
    });
  }
  return `${lines.join("\n")}\n`;
}

/** A set cut as evenly as it goes, the larger parts first; null where a part would be a single rep. */
function brokenSet([size = 1]: readonly number[], parts: number): Work["broken"] {
  const cut = Math.min(parts, Math.floor(size / 2));
  return cut < 2 ? null : { parts: Array.from({ length: cut }, (_, at) => Math.floor(size / cut) + (at < size % cut ? 1 : 0)), restS: breakS };
}

function turnText({ who, sizes, parts, holders }: DraftTurn, spec: StageSpec, pairs: readonly PlanPair[]): string {
  const pair = pairs.find(({ athletes }) => athletes.length === who.length && athletes.every((name) => who.includes(name)));
  const doer = who.length > 1 ? (pair?.name ?? who.join(" + ")) : (who[0] ?? "");
  const amount = spec.rounds ? "round" : shortest(sizes).join("-");
  const how = !spec.rounds && who.length > 1 && rhythmOf(spec) === null ? " each" : "";
  const hold = holders.length > 0 ? ` while ${holders.join(" + ")} hold` : "";
  const broken = spec.rounds ? null : brokenSet(sizes, parts);
  return `${doer} ${amount}${how}${broken ? ` as ${broken.parts.join("+")} rest ${breakS} s` : ""}${hold}`;
}

/** A ladder without what it says twice: its last step stays anyway. */
function shortest(sizes: readonly number[]): readonly number[] {
  let length = sizes.length;
  while (length > 1 && sizes[length - 1] === sizes[length - 2]) length -= 1;
  return sizes.slice(0, length);
}

function word(text: string) {
  return { text, span: { from: 0, to: 0 } };
}
