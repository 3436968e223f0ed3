import { type Problem, problem } from "../0-base/problem.js";
import type { Line } from "./ast.js";

export type Kind = Line["kind"];

const atTop: readonly Kind[] = ["team", "movement", "hold", "ability", "event", "plan", "week", "log", "let", "expect", "compare", "use", "assume"];
const steps: readonly Kind[] = ["stage", "repeat", "lane", "rest", "turn", "round turn", "named rest"];

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
  week: ["zone", "due", "day limit", "day", "rule"],
  log: ["log done", "log broke", "log dropped", "log no-rep", "log finish"],
};

/** The kinds of line that may stand under a kind; at the top under null. */
export function kindsUnder(kind: Kind | null): readonly Kind[] {
  return kind === null ? atTop : (inside[kind] ?? []);
}

/** Lines that stand where they mean nothing. What is under a broken line is not judged: its head is not known. */
export function misplacedLines(block: Line): readonly Problem[] {
  const found: Problem[] = [];
  const judge = (line: Line, allowed: readonly Kind[], under: Kind | null): void => {
    if (line.kind === "broken") return;
    if (!allowed.includes(line.kind)) {
      const owners = Object.entries(inside).filter(([, kinds]) => kinds.includes(line.kind)).map(([owner]) => owner);
      found.push(problem("out-of-place", line.span, { what: line.kind, under: under ?? "", owners }));
      return;
    }
    for (const inner of line.body) judge(inner, kindsUnder(line.kind), line.kind);
  };
  judge(block, atTop, null);
  return found;
}
