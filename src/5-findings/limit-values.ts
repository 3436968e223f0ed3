import type { Values } from "../0-base/problem.js";
import type { LimitInForce } from "./limits/limit.js";
import type { Severity } from "./rule.js";

/** What a sentence says of a limit: who set it, and which laxer ones it overrules. */
export function limitValues({ by, published, over, value }: LimitInForce): Values {
  return { by: over.length > 0 ? `${by}, stricter than ${over.join(" and ")}` : by, published, limit: value };
}

/** A published rule broken is an error; the coach's own is a warning. */
export function byPublisher(values: Values): Severity {
  return values.published === true ? "error" : "warning";
}
