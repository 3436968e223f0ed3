import { type Problem, problem } from "../0-base/problem.js";
import type { Line } from "./ast.js";

export type Kind = Line["kind"];

const atTop: readonly Kind[] = ["team", "movement", "hold", "ability", "event", "plan", "week", "log", "let", "expect", "compare", "use", "assume"];
const steps: readonly Kind[] = ["stage", "repeat", "lane", "rest", "turn", "round turn", "named rest", "cue"];

/** Which lines may stand under which. A line that heads nothing has nothing under it. */
const inside: Readonly<Partial<Record<Kind, readonly Kind[]>>> = {
  team: ["athlete", "rule"],
  movement: ["asks"],
  hold: ["asks"],
  ability: ["ability row"],
  event: ["score", "cap", "handover", "setup", "pairs", "working", "stage", "window", "station", "round", "rule", "standard"],
  round: ["round item"],
  plan: [...steps, "window", "pair", "rule"],
  stage: steps,
  window: steps,
  repeat: steps.filter((kind) => kind !== "stage"),
  lane: steps.filter((kind) => kind !== "lane"),
  turn: ["cue"],
  "round turn": ["cue"],
  week: ["zone", "due", "day limit", "gap", "keep", "open", "away", "day", "rule"],
  log: ["log done", "log broke", "log dropped", "log no-rep", "log finish", "log reps", "log handover", "log felt", "log note"],
};

/** The kinds of line that may stand under a kind; at the top under null. */
export function kindsUnder(kind: Kind | null): readonly Kind[] {
  return kind === null ? atTop : (inside[kind] ?? []);
}

/** Lines in a row that stand where they mean nothing, and whose place is the same. */
interface Row {
  readonly first: Line;
  /** The line further out under which they may stand; null: the margin; undefined: nowhere around them. */
  readonly home: Line | null | undefined;
  last: Line;
}

/**
 * Lines that stand where they mean nothing: a row of them is one problem, at its first, with a fix that takes all of them
 * where they may stand. What is under a broken line is not judged: its head is not known.
 */
export function misplacedLines(block: Line, text: string): readonly Problem[] {
  if (block.kind === "broken") return [];
  if (!atTop.includes(block.kind)) return [misplaced({ first: block, home: undefined, last: block }, "", text)];
  const found: Problem[] = [];
  const judge = (around: readonly [Line, ...Line[]]): void => {
    const head = around.at(-1) ?? around[0];
    const rows: Row[] = [];
    head.body.forEach((line, at) => {
      if (line.kind === "broken") return;
      if (mayStand(line.kind, around)) return judge([...around, line]);
      const home = homeOf(line.kind, around);
      const row = rows.at(-1);
      if (row && row.home === home && row.last === head.body[at - 1]) row.last = line;
      else rows.push({ first: line, home, last: line });
    });
    for (const row of rows) found.push(misplaced(row, head.kind, text));
  };
  judge([block]);
  return found;
}

/** Whether a kind may stand under the last of some lines. A published stage has nothing under it, a plan's has. */
function mayStand(kind: Kind, around: readonly Line[]): boolean {
  const head = around.at(-1);
  return head !== undefined && !(around[0]?.kind === "event" && head.kind === "stage") && kindsUnder(head.kind).includes(kind);
}

function homeOf(kind: Kind, around: readonly Line[]): Row["home"] {
  return atTop.includes(kind) ? null : around.findLast((_, depth) => mayStand(kind, around.slice(0, depth + 1)));
}

function misplaced({ first, home, last }: Row, under: Kind | "", text: string): Problem {
  const owners = Object.entries(inside).filter(([, kinds]) => kinds.includes(first.kind)).map(([owner]) => owner);
  const values = { what: first.kind, under, owners };
  const neighbour = home?.body[0];
  const margin = home === null ? 0 : neighbour && columnOf(neighbour, text);
  if (margin === undefined) return problem("out-of-place", first.span, values);
  const span = { from: first.span.from - columnOf(first, text), to: lastIn(last).span.to };
  const outBy = columnOf(first, text) - margin;
  const moved = text.slice(span.from, span.to).split("\n").map((line) => line.slice(Math.min(outBy, line.search(/[^ \t]|$/))));
  const title = home ? `move it out, under ${home.kind}` : "take its indentation away";
  return problem("out-of-place", first.span, values, [{ title, edits: [{ span, text: moved.join("\n") }] }]);
}

/** The last line of what a line heads. */
function lastIn(line: Line): Line {
  const inner = line.body.at(-1);
  return inner ? lastIn(inner) : line;
}

/** Blanks before a line. */
function columnOf({ span }: Line, text: string): number {
  return span.from - (text.lastIndexOf("\n", span.from - 1) + 1);
}
