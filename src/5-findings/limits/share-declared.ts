import type { LimitKind } from "./limit.js";

/** `rule share Ines 30 %`: what is due from her; it is measured by `share within`, which allows for it. */
export const shareDeclared: LimitKind = { id: "share declared", forms: ["share NAME P"], stricter: "more", measure: () => [] };
