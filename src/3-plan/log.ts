import type { Span } from "../0-base/span.js";
import type { LogLine } from "./ast.js";
import type { Word } from "./parts.js";
import { athleteNamed, subjectKey } from "./names.js";
import { inBase } from "./values.js";

/** What a log saw, in base units: s from the event's start. Each with the line that says it. */
export type Seen =
  | { readonly kind: "done"; readonly stage: string; readonly atS: number; readonly span: Span }
  | { readonly kind: "finish"; readonly atS: number; readonly span: Span }
  | { readonly kind: "reps"; readonly atS: number; readonly reps: number; readonly span: Span }
  /** `movement` by key; null where the line names none. */
  | { readonly kind: "broke"; readonly athlete: string; readonly movement: string | null; readonly after: number; readonly span: Span }
  | { readonly kind: "dropped"; readonly athlete: string; readonly atS: number; readonly span: Span }
  | { readonly kind: "no-rep"; readonly athlete: string; readonly count: number; readonly span: Span };

/** A log worked out. What it cannot be read as is left out; findings tell. */
export interface LogSpec {
  readonly plan: string;
  readonly date: string;
  readonly seen: readonly Seen[];
  /** What a change of hands took, in s; null where nobody says. */
  readonly handoverS: number | null;
}

/** `athletes` are those of the notebook: a log names them as they are declared. */
export function readLog({ plan, date, body }: LogLine, athletes: ReadonlyMap<string, unknown>): LogSpec {
  const declared = ({ text }: Word): string => athleteNamed(text, athletes) ?? text;
  const seen = body.flatMap((line): readonly Seen[] => {
    const { span } = line;
    switch (line.kind) {
      case "log done":
        return [{ kind: "done", stage: line.stage.text, atS: line.at.amount, span }];
      case "log finish":
        return [{ kind: "finish", atS: line.at.amount, span }];
      case "log reps":
        return [{ kind: "reps", atS: line.at.amount, reps: line.reps, span }];
      case "log broke":
        return [
          {
            kind: "broke",
            athlete: declared(line.athlete),
            movement: line.movement && subjectKey(line.movement.text),
            after: line.at,
            span,
          },
        ];
      case "log dropped":
        return [{ kind: "dropped", athlete: declared(line.athlete), atS: line.at.amount, span }];
      case "log no-rep":
        return [{ kind: "no-rep", athlete: declared(line.athlete), count: line.count, span }];
      default:
        return [];
    }
  });
  const handover = body.find((line) => line.kind === "log handover");
  return { plan: plan.text, date, seen, handoverS: handover ? inBase(handover.value, ["time"], () => undefined) : null };
}
