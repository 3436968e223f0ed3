import { type Problem, problem } from "../0-base/problem.js";
import { toBase } from "../0-base/quantity.js";
import type { RuleLine, Value, Word } from "./ast.js";
import type { PlanSpec } from "./plan.js";
import { dimensionOf } from "./values.js";

/** What a `rule` line limits. Shares as fractions, times in s. */
export type LimitKind =
  | "share within" | "share declared" | "share at least" | "each at least" | "hold turn at most" | "hold share within" | "everyone holds"
  | "set at most reps" | "set at most unbroken" | "turn at most" | "rest at least" | "tempo gap at most" | "no miss before";

export interface Limit {
  readonly kind: LimitKind;
  /** 0 for a limit without a number. */
  readonly value: number;
  /** The athlete it is about; null: everyone. */
  readonly who: string | null;
}

/** The forms of a rule line. P a share, T a time, N a number of reps, NAME an athlete. */
const forms: readonly (readonly [form: string, kind: LimitKind])[] = [
  ["share within P", "share within"],
  ["share NAME P", "share declared"],
  ["share NAME at least P", "share at least"],
  ["NAME at least P", "share at least"],
  ["each at least N", "each at least"],
  ["hold turn at most T", "hold turn at most"],
  ["hold share within P", "hold share within"],
  ["everyone holds", "everyone holds"],
  ["set at most N", "set at most reps"],
  ["set at most P unbroken", "set at most unbroken"],
  ["turn at most T", "turn at most"],
  ["rest at least T between sets", "rest at least"],
  ["rest at least T", "rest at least"],
  ["tempo gap at most T", "tempo gap at most"],
  ["no miss before P of cap", "no miss before"],
];

export const ruleForms: readonly string[] = forms.map(([form]) => form);

/** The limit a rule line sets; null, and a problem, for one that is none of the forms. */
export function readLimit(line: RuleLine, report: (problem: Problem) => void): Limit | null {
  for (const [form, kind] of forms) {
    const limit = matches(line.parts, form.split(" "), kind);
    if (limit) return limit;
  }
  const words = line.parts.filter((part): part is Word => !("kind" in part)).map(({ text }) => text);
  const near = forms
    .map(([form]) => ({ form, shared: form.split(" ").filter((word) => words.includes(word)).length }))
    .filter(({ shared }) => shared > 0)
    .sort((a, b) => b.shared - a.shared)
    .slice(0, 4)
    .map(({ form }) => form);
  report(problem("unknown-rule", line.span, { near: near.length > 0 ? near : forms.slice(0, 4).map(([form]) => form) }));
  return null;
}

function matches(parts: readonly (Word | Value)[], form: readonly string[], kind: LimitKind): Limit | null {
  if (parts.length !== form.length) return null;
  let value = 0;
  let who: string | null = null;
  for (const [at, wanted] of form.entries()) {
    const part = parts[at];
    if (!part) return null;
    if ("kind" in part) {
      const dimension = dimensionOf(part);
      const fits = wanted === "P" ? dimension === "share" : wanted === "T" ? dimension === "time" : wanted === "N" && (dimension === "count" || dimension === "number");
      if (!fits) return null;
      value = toBase(part);
    } else if (wanted === "NAME" && /^\p{Lu}/u.test(part.text)) who = part.text;
    else if (part.text !== wanted) return null;
  }
  return { kind, value, who };
}

/** A limit with the place that sets it, in words. */
export interface LimitInForce extends Limit {
  readonly by: string;
  /** True where the published event sets it. */
  readonly published: boolean;
  /** The laxer limits it overrules, in words. */
  readonly over: readonly string[];
}

export interface RuleSource {
  readonly by: string;
  readonly published: boolean;
  readonly rules: readonly RuleLine[];
}

/** Where a plan's rules come from: its event, its team, itself. */
export function sourcesOf({ event, team, rules }: Pick<PlanSpec, "event" | "team" | "rules">): readonly RuleSource[] {
  return [
    { by: `event ${event.name}`, published: true, rules: event.rules },
    { by: `team ${team.name}`, published: false, rules: team.rules },
    { by: "this plan", published: false, rules },
  ];
}

const strictIsMore: ReadonlySet<LimitKind> = new Set(["share at least", "each at least", "rest at least", "no miss before"]);

/** The strictest limits of a kind: one for everyone, or one for each athlete named. */
export function limitsInForce(sources: readonly RuleSource[], kind: LimitKind): readonly LimitInForce[] {
  const found = new Map<string | null, LimitInForce>();
  for (const { by, published, rules } of sources) {
    for (const line of rules) {
      const limit = readLimit(line, () => undefined);
      if (limit?.kind !== kind) continue;
      const other = found.get(limit.who);
      const stricter = !other || (strictIsMore.has(kind) ? limit.value > other.value : limit.value < other.value);
      const lax = stricter ? other : limit;
      const over = [...(other?.over ?? []), ...(lax && other && lax.value !== (stricter ? limit : other).value ? [stricter ? other.by : by] : [])];
      found.set(limit.who, stricter || !other ? { ...limit, by, published, over } : { ...other, over });
    }
  }
  return [...found.values()];
}
