import { type Problem, problem } from "../0-base/problem.js";
import type { Span } from "../0-base/span.js";
import type { LetLine } from "../3-plan/ast.js";
import type { Amount, Computed } from "../3-plan/formula.js";
import { formulaName, nameUnknown } from "../3-plan/names.js";
import type { World } from "../3-plan/world.js";
import type { PlanResult } from "./kept.js";
import { repsDone } from "./timeline.js";

/** What formulas are looked up in: what is declared, what was worked out of it, and the names that are being worked out. */
export interface Known {
  readonly world: World;
  readonly valueOf: (line: LetLine) => Computed;
  readonly named: (plan: string) => PlanResult | undefined;
  readonly open: readonly string[];
}

type Members = Readonly<Record<string, Amount | null>>;

/** The amount that a dotted name of a formula stands for, in base units; a problem at `span` where it stands for none. */
export function lookUp(path: readonly string[], span: Span, known: Known): Computed {
  const [first = "", ...rest] = path;
  const { lets, plans, events, athletes } = known.world;
  const name = spelled(first, known.world);
  const value = lets.get(name);
  if ((value && rest.length === 0) || plans.has(name)) {
    if (known.open.includes(name)) return failed(problem("cycle", span, { names: [...known.open.slice(known.open.indexOf(name)), name] }));
    return value && rest.length === 0 ? through(name, known.valueOf(value.line), span, known) : ofPlan(name, rest, span, known);
  }
  const event = events.get(name);
  if (event) return member(name, rest, span, { cap: event.capS === null ? null : { value: event.capS, dimension: "time" } });
  if (athletes.has(name)) return ofAthlete(name, rest, span, known.world);
  const names = [...lets.keys(), ...plans.keys(), ...events.keys(), ...athletes.keys()].map(formulaName);
  const word = { text: first, span: { from: span.from, to: span.from + first.length } };
  return failed(nameUnknown("plan, event, athlete or value", word, names));
}

/** The declared name that a formula's spelling stands for. */
export function spelled(first: string, { lets, plans, events, athletes }: World): string {
  if (!first.includes("_")) return first;
  for (const names of [lets, plans, events, athletes]) for (const name of names.keys()) if (formulaName(name) === first) return name;
  return first;
}

/** Another line's value, its failure told at the place that asks for it. */
function through(name: string, inner: Computed, span: Span, { open }: Known): Computed {
  if (inner.ok) return inner;
  const self = open.at(-1);
  if (inner.problem.rule === "cycle" && self !== undefined && inner.problem.values.names.includes(self))
    return failed(problem("cycle", span, inner.problem.values));
  return failed(problem("does-not-compute", span, { reason: "depends", name }));
}

function ofPlan(name: string, rest: readonly string[], span: Span, known: Known): Computed {
  const result = known.named(name);
  const timeline = result?.timeline;
  const cyclic = result?.resolved.problems.find(({ rule }) => rule === "cycle");
  if (cyclic) return through(name, failed(cyclic), span, known);
  if (!timeline) return failed(problem("does-not-compute", span, { reason: "depends", name }));
  const [second = "", ...more] = rest;
  const athlete = timeline.athletes.find((one) => formulaName(one.name) === second);
  if (athlete) {
    return member(`${name}.${second}`, more, span, {
      reps: { value: athlete.reps, dimension: "count" },
      work: { value: athlete.work, dimension: "time" },
      hold: { value: athlete.hold, dimension: "time" },
      rest: { value: athlete.rest, dimension: "time" },
      share: { value: athlete.share, dimension: "share" },
    });
  }
  const { kind, finished } = timeline.score;
  if (second === "time" && kind === "time" && !finished) {
    return failed(problem("does-not-compute", span, { reason: "not done", name }));
  }
  return member(name, rest, span, {
    time: { value: timeline.endS, dimension: "time" },
    reps: { value: repsDone(timeline), dimension: "count" },
    ...Object.fromEntries(timeline.athletes.map((one) => [one.name, null])),
  });
}

const dimensions = { unbroken: "count", cycle: "time", hold: "time", max: "load", recovery: "number", fade: "share" } as const;

function ofAthlete(name: string, [subject = "", ...rest]: readonly string[], span: Span, { abilities }: World): Computed {
  const known = [...(abilities.get(name)?.values() ?? [])];
  const tests = known.find((one) => formulaName(one.name) === subject);
  if (!tests) return member(name, [subject], span, Object.fromEntries(known.map((one) => [formulaName(one.name), null])));
  const members = [...tests.measures].map(([measure, { value }]) => [measure, { value, dimension: dimensions[measure] }] as const);
  return member(`${name}.${subject}`, rest, span, Object.fromEntries(members));
}

function member(of: string, rest: readonly string[], span: Span, members: Members): Computed {
  const [wanted = "", ...more] = rest;
  const amount = Object.hasOwn(members, wanted) ? members[wanted] : undefined;
  if (amount && more.length === 0) return { ok: true, amount };
  if (amount === null && wanted === "cap") return failed(problem("does-not-compute", span, { reason: "no cap", name: of }));
  return failed(problem("does-not-compute", span, { reason: "no such part", name: of, part: wanted, known: Object.keys(members) }));
}

function failed(found: Problem): Computed {
  return { ok: false, problem: found };
}
