import type { SyntaxNode } from "@lezer/common";
import type { Cell, MeasureName } from "../parts.js";
import { joined, printCell, printLoad, printMeasure } from "../print-parts.js";
import { readExpression } from "../read-expression.js";
import { readLoad, valueIn } from "../read-parts.js";
import type { Reader } from "../reader.js";
import type { LineKind } from "./line-kind.js";

export const abilityRowLine: LineKind<"ability row"> = {
  kind: "ability row",
  node: "AbilityRow",
  under: ["ability"],
  read(node, r) {
    const [subject] = r.words(node);
    const measure = node.getChild("Measure");
    const name = measure?.firstChild && measureNodes[measure.firstChild.name];
    const load = node.getChild("Load");
    if (!subject || !measure || !name) return null;
    return {
      kind: "ability row",
      subject,
      measure: { name, within: name === "in" ? valueIn(measure, r) : null, span: r.span(measure) },
      load: load && readLoad(load, r),
      cells: node.getChildren("Cell").flatMap((cell) => readCell(cell, r) ?? []),
    };
  },
  print({ subject, measure, load, cells }, q) {
    return joined(q(subject), printMeasure(measure), printLoad(load), ...cells.map(printCell));
  },
  names({ subject, measure }, found) {
    found.add(measure.name === "hold" ? "hold" : "movement", subject);
  },
  help: {
    unbroken: "Most reps in a row, fresh, at the load that will be used.",
    cycle: "Seconds a rep takes, fresh.",
    in: "Most reps within a time.",
    max: "The heaviest single rep.",
    recovery: "How fast reserve comes back; 1 is usual.",
    fade: "How much slower the last rep before failure is than the first.",
  },
  samples: ["box jump unbroken 20 24 reps", "squat in 2 min @ 40/30 kg 58 -", "stone hold 82 1:30", "row cycle (2 + 0.5) 2.4 s"],
};

const measureNodes: Readonly<Record<string, MeasureName>> = {
  Unbroken: "unbroken",
  Cycle: "cycle",
  In: "in",
  HoldWord: "hold",
  Max: "max",
  Recovery: "recovery",
  Fade: "fade",
};

function readCell(cell: SyntaxNode, r: Reader): Cell | null {
  const span = r.span(cell);
  const paren = cell.getChild("Paren");
  const time = cell.getChild("Time");
  if (paren) {
    const of = readExpression(paren, r);
    return of && { kind: "paren", of, span };
  }
  if (time) return r.value(time);
  const unit = cell.getChild("%") ? "%" : r.unit(cell.getChild("Unit"));
  return cell.getChild("-") ? { kind: "unknown", unit, span } : { ...r.value(cell), unit };
}
