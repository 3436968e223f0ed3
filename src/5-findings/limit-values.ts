import type { LimitInForce } from "./limits/limit.js";
import type { Severity } from "./rule.js";

/** What a sentence says of a limit: its value, who set it and which laxer ones it overrules, and whether that was the publisher. */
export interface LimitValues {
  limit: number;
  by: string;
  published: boolean;
}

export function limitValues({ by, published, over, value }: LimitInForce): LimitValues {
  return { by: over.length > 0 ? `${by}, stricter than ${over.join(" and ")}` : by, published, limit: value };
}

/** A published rule broken is an error; the coach's own is a warning. */
export function byPublisher({ published }: Pick<LimitValues, "published">): Severity {
  return published ? "error" : "warning";
}
