import { problem, type ProblemOf } from "../../0-base/problem.js";
import type { Span } from "../../0-base/span.js";
import { changeEvery } from "../limits/change-every.js";
import { everyoneHolds } from "../limits/everyone-holds.js";
import { limitKinds } from "../limits/kinds.js";
import { type Limit, readLimit } from "../limits/limit.js";
import { neverHolds } from "../limits/never-holds.js";
import { setAtLeast } from "../limits/set-at-least.js";
import { setAtMostReps } from "../limits/set-at-most.js";
import { shareAtLeastLimit } from "../limits/share-at-least.js";
import { shareDeclared } from "../limits/share-declared.js";
import { always, either, type Judged, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "rules-at-odds": { rules: readonly string[] };
  }
}

export const rulesAtOdds: Rule<"rules-at-odds"> = {
  id: "rules-at-odds",
  severity: always("error"),
  title: "Rules that no plan can keep together",
  why: "A plan that keeps one of them breaks the other, and every suggestion would be refused.",
  source: "arithmetic",
  bad: "event Sprint\n  stage 20 box jump\n  rule set at least 10 reps\n  «rule set at most 5 reps»\n",
  good: "event Sprint\n  stage 20 box jump\n  rule set at least 5 reps\n  rule set at most 10 reps\n",
  check: (judged) => {
    const set = limitsOf(judged);
    return set.flatMap((limit, at): readonly ProblemOf<"rules-at-odds">[] => {
      const before = set.slice(0, at);
      const against = before.filter((other) => clash(other, limit) || clash(limit, other));
      const others = against.length > 0 ? against : overWhole([...before, limit]).filter((other) => other !== limit);
      return others.length > 0 ? [problem("rules-at-odds", limit.span, { rules: [...others, limit].map(({ text }) => text) })] : [];
    });
  },
  message: ({ rules }) =>
    `No plan can keep ${either(
      rules.map((rule) => `“${rule}”`),
      "and",
    )}. Change one of them.`,
};

interface SetLimit extends Limit {
  readonly text: string;
  readonly span: Span;
}

function limitsOf({ line, text }: Judged): readonly SetLimit[] {
  return line.body.flatMap((inner) => {
    const limit = inner.kind === "rule" ? readLimit(inner, limitKinds) : null;
    return limit ? [{ ...limit, span: inner.span, text: text.slice(inner.span.from, inner.span.to) }] : [];
  });
}

/** Whether nothing keeps both, each way round tried by the caller. */
function clash(one: SetLimit, other: SetLimit): boolean {
  if (one.kind === setAtLeast) return (other.kind === setAtMostReps || other.kind === changeEvery) && one.value > other.value;
  if (one.kind === neverHolds) return other.kind === everyoneHolds;
  return one.kind === shareDeclared && other.kind === shareDeclared && one.who?.text === other.who?.text && one.value !== other.value;
}

/** Shares of named athletes that come to more than all there is, the last one's with them. */
function overWhole(limits: readonly SetLimit[]): readonly SetLimit[] {
  const last = limits.at(-1);
  const shares = limits.filter(({ kind, who, value }) => kind === last?.kind && who !== null && value > 0);
  const isShare = last?.kind === shareDeclared || last?.kind === shareAtLeastLimit;
  return isShare && shares.reduce((sum, { value }) => sum + value, 0) > 1 + 1e-9 ? shares : [];
}
