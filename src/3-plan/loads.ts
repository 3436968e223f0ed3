import { type Problem, problem } from "../0-base/problem.js";
import { type LoadKg, loadKg } from "./event.js";
import type { Load } from "./parts.js";

/** Pounds and kilograms are rounded to one another on the floor. */
const sameKg = 0.5;

/** A load in a plan that is not the one its event publishes. */
export function differing(load: Load | null, published: LoadKg | null): readonly Problem[] {
  const own = loadKg(load);
  if (!load || !own || !published) return [];
  const off = Math.max(Math.abs(own.man - published.man), Math.abs(own.woman - published.woman));
  return off > sameKg ? [problem("load-differs", load.span, { man: published.man, woman: published.woman })] : [];
}
