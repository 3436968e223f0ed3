import { type Fix, type Problem, problem } from "../0-base/problem.js";
import type { Line } from "./ast.js";
import { allKinds, lineKinds } from "./lines/kinds.js";
import type { Kind } from "./lines/line-kind.js";

/** The kinds of line that may stand under a kind; at the top under null. */
export function kindsUnder(kind: Line["kind"] | null): readonly Kind[] {
  return inside.get(kind) ?? [];
}

const heads: readonly (Kind | null)[] = [null, ...allKinds.map(({ kind }) => kind)];
const inside: ReadonlyMap<Line["kind"] | null, readonly Kind[]> = new Map(
  heads.map((head) => [head, allKinds.filter(({ under }) => under.includes(head)).map(({ kind }) => kind)] as const),
);

/** Lines in a row that stand where they mean nothing, and whose place is the same. */
interface Row {
  readonly first: Line;
  /** The line further out under which they may stand; null: the margin; undefined: nowhere around them. */
  readonly home: Line | null | undefined;
  /** The line before them, beside them. */
  readonly before: Line | undefined;
  last: Line;
  /** So many come after the first. */
  below: number;
}

/**
 * Lines that stand where they mean nothing: a row of them is one problem, at its first, with a fix that takes all of them
 * where they may stand. What is under a broken line is not judged: its head is not known.
 */
export function misplacedLines(block: Line, text: string): readonly Problem[] {
  if (block.kind === "broken") return [];
  if (!lineKinds[block.kind].under.includes(null))
    return [misplaced({ first: block, home: undefined, before: undefined, last: block, below: 0 }, "", text)];
  const found: Problem[] = [];
  const judge = (around: readonly [Line, ...Line[]]): void => {
    const head = around.at(-1) ?? around[0];
    const rows: Row[] = [];
    head.body.forEach((line, at) => {
      if (line.kind === "broken") return;
      if (mayStand(line.kind, around)) return judge([...around, line]);
      const home = homeOf(line.kind, around);
      const row = rows.at(-1);
      if (row && row.home === home && row.last === head.body[at - 1]) [row.last, row.below] = [line, row.below + 1];
      else rows.push({ first: line, home, before: head.body[at - 1], last: line, below: 0 });
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
  return lineKinds[kind].under.includes(null) ? null : around.findLast((_, depth) => mayStand(kind, around.slice(0, depth + 1)));
}

function misplaced({ first, home, before, last, below }: Row, under: Line["kind"] | "", text: string): Problem {
  // Under a published stage nothing stands, though it may under a plan's.
  const owners = allKinds
    .filter(({ kind }) => kind !== under && kindsUnder(kind).some((inner) => inner === first.kind))
    .map(({ kind }) => kind);
  const values = { what: first.kind, under, owners, below };
  const neighbour = home?.body[0];
  const margin = home === null ? 0 : neighbour && columnOf(neighbour, text);
  if (margin === undefined) return problem("out-of-place", first.span, values, first === last ? restOfStage(first, before, text) : []);
  const span = { from: first.span.from - columnOf(first, text), to: lastIn(last).span.to };
  const outBy = columnOf(first, text) - margin;
  const moved = text
    .slice(span.from, span.to)
    .split("\n")
    .map((line) => line.slice(Math.min(outBy, line.search(/[^ \t]|$/))));
  const title = home ? `move it out, under ${home.kind}` : "take its indentation away";
  return problem("out-of-place", first.span, values, [{ title, edits: [{ span, text: moved.join("\n") }] }]);
}

/** A rest under an event is that of the stage before it, and stands on the stage's line. */
function restOfStage(line: Line, before: Line | undefined, text: string): readonly Fix[] {
  if (line.kind !== "rest" || before?.kind !== "stage" || before.rest) return [];
  const gone = { from: text.lastIndexOf("\n", line.span.from - 1), to: line.span.to };
  const said = ` then ${text.slice(line.span.from, line.span.to)}`;
  return [
    {
      title: "rest after that stage",
      edits: [
        { span: { from: before.span.to, to: before.span.to }, text: said },
        { span: gone, text: "" },
      ],
    },
  ];
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
