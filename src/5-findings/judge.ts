import { type Fix, problem, type ProblemOf, type RuleId } from "../0-base/problem.js";
import type { Span } from "../0-base/span.js";
import { ruleBy, rules } from "./registry.js";
import type { Judged, Rule, Severity } from "./rule.js";
import { type Silence, silencesOf } from "./silences.js";

/** A finding as plain data; spans count from the start of its block. */
export interface Finding {
  readonly rule: string;
  readonly severity: Severity;
  readonly span: Span;
  readonly message: string;
  readonly why: string;
  readonly fixes: readonly Fix[];
}

/** All findings of one block, in the order of the text. Errors cannot be silenced; a silence with nothing to silence is a note. */
export function judge(judged: Judged): readonly Finding[] {
  const silences = silencesOf(judged.text, judged.line);
  const used = new Set<Silence>();
  const found = rules
    .flatMap((rule) => rule.check(judged).map((one) => findingOf<RuleId>(one)))
    .filter((finding) => {
      const silence = silences.find(
        ({ rule, over }) => rule === finding.rule && over.from <= finding.span.from && finding.span.from <= over.to,
      );
      if (!silence || finding.severity === "error") return true;
      used.add(silence);
      return false;
    });
  const idle = silences
    .filter((silence) => !used.has(silence))
    .map(({ rule, span, over }) => {
      const stands = found.some((finding) => finding.rule === rule && over.from <= finding.span.from && finding.span.from <= over.to);
      return findingOf(problem("idle-silence", span, { rule, known: Object.hasOwn(ruleBy, rule), error: stands }));
    });
  return [...found, ...idle].sort((a, b) => a.span.from - b.span.from || a.span.to - b.span.to);
}

function findingOf<Id extends RuleId>({ rule: id, span, values, fixes }: ProblemOf<Id>): Finding {
  const rule: Rule<Id> = ruleBy[id];
  return { rule: id, severity: rule.severity(values), span, message: rule.message(values), why: rule.why, fixes };
}
