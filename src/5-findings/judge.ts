import type { Fix } from "../0-base/problem.js";
import type { Span } from "../0-base/span.js";
import { rules } from "./registry.js";
import type { Judged, Severity } from "./rule.js";

/** A finding as plain data; spans count from the start of its block. */
export interface Finding {
  readonly rule: string;
  readonly severity: Severity;
  readonly span: Span;
  readonly message: string;
  readonly why: string;
  readonly fixes: readonly Fix[];
}

/** All findings of one block, in the order of the text. */
export function judge(judged: Judged): readonly Finding[] {
  const found = rules.flatMap((rule) =>
    rule.check(judged).map(({ span, values, fixes }) => ({
      rule: rule.id, severity: rule.severity(values), span, message: rule.message(values), why: rule.why, fixes,
    })),
  );
  return found.sort((a, b) => a.span.from - b.span.from || a.span.to - b.span.to);
}
