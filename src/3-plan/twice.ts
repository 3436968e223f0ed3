import { type Problem, problem } from "../0-base/problem.js";
import type { EventLine, StageLine } from "./ast.js";
import { freeName, twinDeclared } from "./names.js";

/** What an event says once, in words: of two lines only the last would count. */
const saidOnce: Readonly<Record<string, string>> = {
  score: "the score",
  cap: "the cap",
  handover: "the handover",
  setup: "the set-up",
  "drop cost": "what a drop costs",
  tie: "the time for ties",
  order: "the order",
  working: "how many work",
  round: "round",
};

/** Lines of an event that say again what one before them has said. */
export function saidTwiceIn({ body }: EventLine): readonly Problem[] {
  const said = new Set<string>();
  const stages = new Set<string>();
  return body.flatMap((line): readonly Problem[] => {
    if (line.kind === "stage") {
      const name = (line.name ?? line.movement)?.text ?? "";
      const twin = stages.has(name);
      stages.add(name);
      return twin ? [line.name ? twinDeclared("stage", line.name) : twinStage(name, line, stages)] : [];
    }
    const what = saidOnce[line.kind];
    if (what === undefined) return [];
    const twin = said.has(what);
    said.add(what);
    return twin ? [twinDeclared(line.kind === "round" ? "round" : "line for", { text: what, span: line.span })] : [];
  });
}

/** A stage without a name of its own goes by its movement: of two neither could be planned. */
function twinStage(name: string, { span }: StageLine, taken: ReadonlySet<string>): Problem {
  const free = freeName(name, taken);
  const at = span.from + "stage".length;
  const fix = { title: `call it ${free}`, edits: [{ span: { from: at, to: at }, text: ` "${free}"` }] };
  return problem("declared-twice", span, { what: "stage", name, where: "" }, [fix]);
}
