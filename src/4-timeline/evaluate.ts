import { type Problem, problem } from "../0-base/problem.js";
import type { Span } from "../0-base/span.js";
import type { DayLine, Expression, LetLine, Line, PlanLine, UseLine, WeekLine } from "../3-plan/ast.js";
import { type Amount, compute, type Computed, partsOf } from "../3-plan/formula.js";
import { formulaName, unknownName } from "../3-plan/names.js";
import type { PlanSpec, ResolvedPlan } from "../3-plan/plan.js";
import { print as printLine } from "../3-plan/print.js";
import { resolvePlan } from "../3-plan/resolve.js";
import { readWeek, type Session } from "../3-plan/week.js";
import type { Entry, World } from "../3-plan/world.js";
import { type Abilities, abilitiesOf } from "./ability.js";
import { simulate } from "./simulate.js";
import { type Days, runDays } from "./spread.js";
import { type Load } from "./fatigue.js";
import type { Timeline } from "./timeline.js";
import { type FreshRun, runWeek, scoreUnder, type WeekRun } from "./week.js";

/** Lines that declare nothing: what they come to hangs on the rest of the notebook. */
export const hangingKinds: ReadonlySet<Line["kind"]> = new Set(["let", "expect", "compare", "log", "week"]);

/** A plan with what became of it in time. */
export interface PlanResult {
  readonly entry: Entry;
  readonly resolved: ResolvedPlan;
  readonly timeline: Timeline | null;
}

interface KeptPlan {
  readonly result: PlanResult;
  /** All that its timeline depends on, as one string; null without one. */
  readonly key: string | null;
  readonly uses: ReadonlyMap<string, string>;
}

/** What one evaluation leaves for the next: a result is taken over when all it was made from is the same. */
export interface Kept {
  readonly declared: readonly Line[];
  readonly world: World;
  readonly abilities: Abilities;
  readonly plans: ReadonlyMap<Entry["read"], KeptPlan>;
  readonly timelines: ReadonlyMap<string, Timeline>;
  readonly days: ReadonlyMap<Timeline, Days>;
  /** Numbers that hang on a timeline and a key of their own. */
  readonly remembered: ReadonlyMap<Timeline, ReadonlyMap<string, readonly number[]>>;
}

/**
 * Answers what the notebook's plans and values come to, each when first asked for. A plan may use a value and a value
 * a plan; what comes round to itself is a cycle, reported on each line of it.
 */
export class Evaluation {
  readonly world: World;
  readonly abilities: Abilities;
  /** How many timelines this evaluation had to compute: none for an edited comment. */
  simulated = 0;
  private readonly declared: readonly Line[];
  private readonly plans = new Map<string, PlanResult>();
  private readonly keptPlans = new Map<Entry["read"], KeptPlan>();
  private readonly timelines = new Map<string, Timeline>();
  private readonly days = new Map<Timeline, Days>();
  private readonly memory = new Map<Timeline, Map<string, readonly number[]>>();
  private readonly weeks = new Map<WeekLine, WeekRun>();
  private readonly values = new Map<string, Computed>();
  private readonly open: string[] = [];
  private uses = new Map<string, string>();

  constructor(
    world: World,
    entries: readonly Entry[],
    private readonly before: Kept | null,
  ) {
    this.declared = entries.map(({ read }) => read.line).filter(({ kind }) => kind !== "plan" && !hangingKinds.has(kind));
    const same = before !== null && sayTheSame(before.declared, this.declared);
    this.world = same ? { ...before.world, plans: world.plans, weeks: world.weeks, logs: world.logs, lets: world.lets } : world;
    this.abilities = same ? before.abilities : abilitiesOf(world);
    if (!same) this.before = null;
  }

  kept(): Kept {
    return { declared: this.declared, world: this.world, abilities: this.abilities, plans: this.keptPlans, timelines: this.timelines, days: this.days, remembered: this.memory };
  }

  /** The plan a block declares, whatever others bear its name. */
  planOf(entry: Entry, line: PlanLine): PlanResult {
    const known = this.world.plans.get(line.name.text);
    if (known?.entry === entry) return this.named(line.name.text) ?? this.makePlan(entry, line);
    return this.makePlan(entry, line);
  }

  /** A plan by name; undefined if there is none or it is being worked out. */
  named(name: string): PlanResult | undefined {
    const known = this.plans.get(name);
    const declared = this.world.plans.get(name);
    if (known || !declared || this.open.includes(name)) return known;
    const made = this.within(name, () => this.makePlan(declared.entry, declared.line));
    this.plans.set(name, made);
    return made;
  }

  /** How a plan goes on many days, drawn when first asked for; null for a plan without a timeline. */
  daysOf({ resolved: { plan }, timeline }: PlanResult): Days | null {
    if (!plan || !timeline) return null;
    const known = this.days.get(timeline);
    if (known) return known;
    const days = runDays(plan, this.abilities, this.world.constants);
    this.days.set(timeline, days);
    return days;
  }

  /** A week worked out: what each of its sessions leaves in the body, and what is left of it. */
  week(line: WeekLine): WeekRun {
    const known = this.weeks.get(line);
    if (known) return known;
    const spec = readWeek(line);
    const made = runWeek(spec, (session) => this.freshRun(session, spec.sessions), (event) => this.world.events.get(event)?.capS ?? null, this.abilities, this.world.constants);
    this.weeks.set(line, made);
    return made;
  }

  /** The middle day's score of a plan under a load. */
  scoreUnder(run: FreshRun, load: Load): number {
    const key = [...load].map(([name, units]) => `${name} ${units.map((unit) => unit.toFixed(6)).join(" ")}`).join("\n");
    return this.remembered(run.timeline, key, () => [scoreUnder(run, load, this.abilities, this.world.constants)])[0] ?? Number.NaN;
  }

  /** Numbers made once for a timeline and a key, and kept as long as the timeline stands. */
  remembered(timeline: Timeline, key: string, make: () => readonly number[]): readonly number[] {
    const known = this.memory.get(timeline) ?? new Map(this.before?.remembered.get(timeline));
    this.memory.set(timeline, known);
    const numbers = known.get(key) ?? make();
    known.set(key, numbers);
    return numbers;
  }

  /** A session's own plan; else that of another try of the event in the week. */
  private freshRun(session: Session, all: readonly Session[]): FreshRun | null {
    const name = session.plan ?? all.find(({ event, plan }) => event === session.event && plan !== null)?.plan;
    const result = name ? this.named(name) : undefined;
    return result?.resolved.plan && result.timeline ? { plan: result.resolved.plan, timeline: result.timeline } : null;
  }

  /** The value of a `let` line. */
  valueOf(line: LetLine): Computed {
    const name = line.name.text;
    const known = this.values.get(name);
    if (known && this.world.lets.get(name)?.line === line) return known;
    this.workOutBefore(line);
    const made = this.within(name, () => this.evaluate(line.value));
    if (this.world.lets.get(name)?.line === line) this.values.set(name, made);
    return made;
  }

  /** Works out the values that a value hangs on, the deepest first: a chain of any length takes no deep stack. */
  private workOutBefore(line: LetLine): void {
    const waiting = [line];
    const met = new Set<LetLine>(waiting);
    for (let top = waiting.at(-1); top; top = waiting.at(-1)) {
      const before = namesIn(top.value).flatMap((name) => this.world.lets.get(this.spelled(name))?.line ?? []);
      // What comes round to itself is found, and told, by the ordinary way.
      if (before.some((other) => waiting.includes(other))) return;
      const next = before.find((other) => !met.has(other) && !this.values.has(other.name.text));
      if (next) {
        met.add(next);
        waiting.push(next);
        continue;
      }
      waiting.pop();
      if (top !== line && !this.open.includes(top.name.text)) this.values.set(top.name.text, this.within(top.name.text, () => this.evaluate(top.value)));
    }
  }

  /** What is wrong with a line that only the whole notebook can tell: its formula, the plans it compares. */
  problemsOf(line: Line): readonly Problem[] {
    const unless = (computed: Computed): readonly Problem[] => (computed.ok ? [] : [computed.problem]);
    switch (line.kind) {
      case "let": return unless(this.valueOf(line));
      case "expect": return [...unless(this.evaluate(line.left)), ...unless(this.evaluate(line.right))];
      case "compare": return line.plans.filter(({ text }) => !this.world.plans.has(text)).map((name) => unknownName("plan", name, this.world.plans.keys()));
      case "log": return this.problemsOfLog(line);
      case "week": return line.body.flatMap((day) => (day.kind === "day" ? this.problemsOfDay(day) : []));
      case "use": return this.problemsOfUse(line);
      default: return [];
    }
  }

  private problemsOfLog({ plan, body }: Extract<Line, { kind: "log" }>): readonly Problem[] {
    const { plans, athletes, events } = this.world;
    const declared = plans.get(plan.text);
    if (!declared) return [unknownName("plan", plan, plans.keys())];
    const stages = events.get(declared.line.event.text)?.stages.map(({ name }) => name) ?? [];
    return body.flatMap((line) => {
      if (line.kind === "log done") return stages.includes(line.stage.text) ? [] : [unknownName("stage", line.stage, stages)];
      if (line.kind !== "log broke" && line.kind !== "log dropped" && line.kind !== "log no-rep") return [];
      return athletes.has(line.athlete.text) ? [] : [unknownName("athlete", line.athlete, athletes.keys())];
    });
  }

  private problemsOfDay({ event, plan }: DayLine): readonly Problem[] {
    const { events, plans } = this.world;
    const unknownEvent = event && !events.has(event.text) ? [unknownName("event", event, events.keys())] : [];
    const unknownPlan = plan && !plans.has(plan.text) ? [unknownName("plan", plan, plans.keys())] : [];
    return [...unknownEvent, ...unknownPlan];
  }

  /** A document is named by its path from the notebook's folder, or by its file name. */
  private problemsOfUse({ path, span }: UseLine): readonly Problem[] {
    const wanted = path.split("/").at(-1) ?? path;
    const known = [...this.world.documents].map((document) => document.split("/").at(-1) ?? document);
    return known.includes(wanted) ? [] : [unknownName("document", { text: path, span }, known)];
  }

  evaluate(expression: Expression): Computed {
    return compute(expression, (path, span) => this.lookUp(path, span));
  }

  private within<T>(name: string, make: () => T): T {
    const outer = this.uses;
    this.uses = new Map();
    this.open.push(name);
    const made = make();
    this.open.pop();
    for (const [key, value] of this.uses) outer.set(key, value);
    this.uses = outer;
    return made;
  }

  private makePlan(entry: Entry, line: PlanLine): PlanResult {
    const kept = this.before?.plans.get(entry.read);
    if (kept && this.holds(kept)) {
      const result = { ...kept.result, entry };
      this.keep(entry, { ...kept, result });
      return result;
    }
    const resolved = resolvePlan(line, {
      world: this.world,
      evaluate: (expression) => this.evaluate(expression),
      unbroken: (athlete, { movement, load }) => {
        const category = this.world.athletes.get(athlete)?.category ?? "woman";
        return this.abilities.unbroken(athlete, movement, load && load[category]).reps;
      },
    });
    const key = resolved.plan && timelineKey(resolved.plan);
    const result = { entry, resolved, timeline: resolved.plan && this.timelineOf(resolved.plan, key ?? "") };
    this.keep(entry, { result, key, uses: new Map(this.uses) });
    return result;
  }

  private keep(entry: Entry, kept: KeptPlan): void {
    this.keptPlans.set(entry.read, kept);
    for (const [path, value] of kept.uses) this.uses.set(path, value);
    const { timeline } = kept.result;
    const days = timeline && this.before?.days.get(timeline);
    if (timeline && days) this.days.set(timeline, days);
    if (kept.key !== null && timeline) this.timelines.set(kept.key, timeline);
  }

  /** Whether every name a kept plan used still stands for the same. */
  private holds(kept: KeptPlan): boolean {
    for (const [path, value] of kept.uses) {
      if (print(this.lookUp(path.split("."), { from: 0, to: 0 })) !== value) return false;
    }
    return true;
  }

  private timelineOf(plan: PlanSpec, key: string): Timeline {
    const known = this.before?.timelines.get(key);
    if (known) return known;
    this.simulated += 1;
    return simulate(plan, this.abilities, this.world.constants);
  }

  private lookUp(path: readonly string[], span: Span): Computed {
    const found = this.find(path, span);
    this.uses.set(path.join("."), print(found));
    return found;
  }

  private find(path: readonly string[], span: Span): Computed {
    const [first = "", ...rest] = path;
    const { lets, plans, events, athletes } = this.world;
    const name = this.spelled(first);
    const value = lets.get(name);
    if (value && rest.length === 0) {
      if (this.open.includes(name)) return failed(this.cycleAt(name, span));
      return this.through(name, this.valueOf(value.line), span);
    }
    if (plans.has(name)) {
      if (this.open.includes(name)) return failed(this.cycleAt(name, span));
      return this.ofPlan(name, rest, span);
    }
    const event = events.get(name);
    if (event) return this.member(name, rest, span, { cap: event.capS === null ? null : { value: event.capS, dimension: "time" } });
    if (athletes.has(name)) return this.ofAthlete(name, rest, span);
    return failed(unknownName("plan, event, athlete or value", { text: first, span: { from: span.from, to: span.from + first.length } }, this.formulaNames()));
  }

  private formulaNames(): readonly string[] {
    const { lets, plans, events, athletes } = this.world;
    return [...lets.keys(), ...plans.keys(), ...events.keys(), ...athletes.keys()].map(formulaName);
  }

  /** The declared name that a formula's spelling stands for. */
  private spelled(first: string): string {
    const { lets, plans, events, athletes } = this.world;
    if (!first.includes("_")) return first;
    for (const names of [lets, plans, events, athletes]) for (const name of names.keys()) if (formulaName(name) === first) return name;
    return first;
  }

  private cycleAt(name: string, span: Span): Problem {
    return problem("cycle", span, { names: [...this.open.slice(this.open.indexOf(name)), name] });
  }

  /** Another line's value, its failure told at the place that asks for it. */
  private through(name: string, inner: Computed, span: Span): Computed {
    if (inner.ok) return inner;
    const names = inner.problem.values.names;
    const self = this.open.at(-1);
    if (inner.problem.rule === "cycle" && self !== undefined && Array.isArray(names) && names.includes(self)) return failed(problem("cycle", span, { names }));
    return failed(problem("does-not-compute", span, { reason: "depends", name }));
  }

  private ofPlan(name: string, rest: readonly string[], span: Span): Computed {
    const result = this.named(name);
    const timeline = result?.timeline;
    const cyclic = result?.resolved.problems.find(({ rule }) => rule === "cycle");
    if (cyclic) return this.through(name, { ok: false, problem: cyclic }, span);
    if (!timeline) return failed(problem("does-not-compute", span, { reason: "depends", name }));
    const [second = "", ...more] = rest;
    const athlete = timeline.athletes.find((one) => formulaName(one.name) === second);
    if (athlete) {
      return this.member(`${name}.${second}`, more, span, {
        reps: { value: athlete.reps, dimension: "count" },
        work: { value: athlete.work, dimension: "time" },
        hold: { value: athlete.hold, dimension: "time" },
        rest: { value: athlete.rest, dimension: "time" },
        share: { value: athlete.share, dimension: "share" },
      });
    }
    const { kind, finished } = timeline.score;
    if (rest[0] === "time" && kind === "time" && !finished) return failed(problem("does-not-compute", span, { reason: "not done", name }));
    return this.member(name, rest, span, {
      time: { value: timeline.endS, dimension: "time" },
      reps: { value: timeline.stages.reduce((sum, { reps }) => sum + reps, 0), dimension: "count" },
      ...Object.fromEntries(timeline.athletes.map((one) => [one.name, null])),
    });
  }

  private ofAthlete(name: string, [subject = "", ...rest]: readonly string[], span: Span): Computed {
    const known = [...(this.world.abilities.get(name)?.values() ?? [])];
    const tests = known.find((one) => formulaName(one.name) === subject);
    if (!tests) return this.member(name, [subject], span, Object.fromEntries(known.map((one) => [formulaName(one.name), null])));
    const dimension = { unbroken: "count", cycle: "time", hold: "time", max: "load", recovery: "number", fade: "share" } as const;
    const members: Record<string, Amount> = {};
    for (const [measure, tested] of tests.measures) members[measure] = { value: tested.value, dimension: dimension[measure] };
    return this.member(`${name}.${subject}`, rest, span, members);
  }

  private member(of: string, rest: readonly string[], span: Span, members: Readonly<Record<string, Amount | null>>): Computed {
    const [wanted = "", ...more] = rest;
    const amount = Object.hasOwn(members, wanted) ? members[wanted] : undefined;
    if (amount && more.length === 0) return { ok: true, amount };
    if (amount === null && wanted === "cap") return failed(problem("does-not-compute", span, { reason: "no cap", name: of }));
    return failed(problem("does-not-compute", span, { reason: "no such part", name: of, part: wanted, known: Object.keys(members) }));
  }
}

/** The first words of all names in an expression. */
function namesIn(expression: Expression): readonly string[] {
  return expression.kind === "reference" ? expression.path.slice(0, 1) : partsOf(expression).flatMap(namesIn);
}

/** Whether lines mean the same one by one, whatever their comments and blanks. */
function sayTheSame(some: readonly Line[], others: readonly Line[]): boolean {
  return some.length === others.length && some.every((line, at) => {
    const other = others[at];
    return line === other || (other !== undefined && printLine(line) === printLine(other));
  });
}

function failed(found: Problem): Computed {
  return { ok: false, problem: found };
}

function print(computed: Computed): string {
  return computed.ok ? `${computed.amount.value} ${computed.amount.dimension}` : `${computed.problem.rule} ${JSON.stringify(computed.problem.values)}`;
}

/** All of a plan that its timeline depends on: no spans, no rules. */
function timelineKey({ steps, event, team }: PlanSpec): string {
  const { stages, windows, capS, handoverS, setUpS, score } = event;
  return JSON.stringify([steps, stages, windows, capS, handoverS, setUpS, score, team.name, team.athletes]);
}
