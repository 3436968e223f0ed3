import { type Problem, problem } from "../0-base/problem.js";
import { printLoad, printMeasure } from "./print-parts.js";
import type { Line, StageLine } from "./ast.js";
import { freeName, subjectKey, twinDeclared } from "./names.js";

/** What a block says once, in words: of two lines only one would count. */
function saidOnceBy(line: Line): string | null {
  switch (line.kind) {
    case "score":
    case "cap":
    case "handover":
    case "order":
    case "zone":
      return `the ${line.kind}`;
    case "setup":
      return "the set-up";
    case "drop cost":
      return "what a drop costs";
    case "tie":
      return "the time for ties";
    case "working":
      return "how many work";
    case "pairs":
      return line.choice.text === "alternate" ? "how pairs take turns" : "who may be a pair";
    case "due":
      return "when it is due";
    case "keep":
      return "the time to keep";
    case "log finish":
      return "the finish";
    case "log felt":
      return "how hard it was";
    case "day limit":
      return `the most ${line.what.text} a day`;
    case "ability row":
      return [subjectKey(line.subject.text), printMeasure(line.measure), printLoad(line.load)].filter((part) => part !== "").join(" ");
    default:
      return null;
  }
}

/** Names and settings that a block gives twice. */
export function saidTwiceIn(block: Line): readonly Problem[] {
  const said = new Set<string>();
  const twin = (what: string): boolean => {
    const before = said.has(what);
    said.add(what);
    return before;
  };
  const columns = block.kind === "ability" ? block.athletes.filter(({ text }) => twin(`column ${text}`)) : [];
  return [
    ...columns.map((athlete) => twinDeclared("athlete", athlete)),
    ...block.body.flatMap((line): readonly Problem[] => {
      if (line.kind === "stage") {
        const name = (line.name ?? line.movement)?.text ?? "";
        return twin(`stage ${name}`) ? [line.name ? twinDeclared("stage", line.name) : twinStage(name, line, said)] : [];
      }
      if (line.kind === "station") return twin(`station ${line.name.text}`) ? [twinDeclared("station", line.name)] : [];
      if (line.kind === "round") return twin("round") ? [twinDeclared("round", { text: "round", span: line.span })] : [];
      const what = saidOnceBy(line);
      return what !== null && twin(what) ? [problem("declared-twice", line.span, { what: "line for", name: what, where: block.kind })] : [];
    }),
  ];
}

/** A stage without a name of its own goes by its movement: of two neither could be planned. */
function twinStage(name: string, { span }: StageLine, said: ReadonlySet<string>): Problem {
  const free = freeName(name, { has: (other) => said.has(`stage ${other}`) });
  const at = span.from + "stage".length;
  const fix = { title: `call it ${free}`, edits: [{ span: { from: at, to: at }, text: ` "${free}"` }] };
  return problem("declared-twice", span, { what: "stage", name, where: "" }, [fix]);
}
