import type { Problem } from "../0-base/problem.js";
import type { Span } from "../0-base/span.js";
import type { LetLine, Line, PlanLine, WeekLine } from "../3-plan/ast.js";
import type { Expression } from "../3-plan/parts.js";
import { compute, type Computed, partsOf } from "../3-plan/formula.js";
import type { PlanSpec } from "../3-plan/plan.js";
import { print as printLine } from "../3-plan/print.js";
import { resolvePlan } from "../3-plan/resolve.js";
import { unknownNamesIn } from "../3-plan/unknown-names.js";
import { readWeek, type Session } from "../3-plan/week.js";
import type { Entry, World } from "../3-plan/world.js";
import { type Abilities, abilitiesOf } from "./ability.js";
import { type FatigueLoad } from "./fatigue.js";
import { Drawn, type Kept, type KeptPlan, PlanResult } from "./kept.js";
import { lookUp, spelled } from "./look-up.js";
import { simulate } from "./simulate.js";
import { type Days, runDays } from "./spread.js";
import type { Timeline } from "./timeline.js";
import { type FreshRun, runWeek, scoreUnder, type WeekRun } from "./week.js";

/** Lines that declare nothing: what they come to hangs on the rest of the notebook. */
export const hangingKinds: ReadonlySet<Line["kind"]> = new Set(["let", "expect", "compare", "log", "week", "use"]);

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
  private readonly made = new Map<Entry["read"], KeptPlan>();
  /** Plans of the evaluation before, and its timelines by all that they depend on. */
  private readonly before: ReadonlyMap<Entry["read"], KeptPlan>;
  private readonly timelines: ReadonlyMap<string, Timeline>;
  private readonly drawn: Drawn;
  private readonly weeks = new Map<WeekLine, WeekRun>();
  private readonly values = new Map<string, Computed>();
  private readonly open: string[] = [];
  private uses = new Map<string, string>();

  constructor(
    world: World,
    private readonly entries: readonly Entry[],
    before: Kept | null,
  ) {
    this.declared = entries.map(({ read }) => read.line).filter(({ kind }) => kind !== "plan" && !hangingKinds.has(kind));
    const same = before !== null && sayTheSame(before.declared, this.declared) ? before : null;
    const { plans, weeks, logs, lets, documents } = world;
    this.world = same ? { ...same.world, plans, weeks, logs, lets, documents } : world;
    this.abilities = same ? same.abilities : abilitiesOf(world);
    this.before = same?.plans() ?? new Map();
    this.drawn = same?.drawn ?? new Drawn();
    this.timelines = timelinesOf(this.before);
  }

  kept(): Kept {
    const plans = (): ReadonlyMap<Entry["read"], KeptPlan> =>
      new Map(
        this.entries.flatMap(({ read }): readonly [Entry["read"], KeptPlan][] => {
          const kept = this.made.get(read) ?? this.before.get(read);
          return kept ? [[read, kept]] : [];
        }),
      );
    return { declared: this.declared, world: this.world, abilities: this.abilities, plans, drawn: this.drawn };
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
    return plan && timeline && this.drawn.daysOf(timeline, () => runDays(plan, this.abilities, this.world.constants));
  }

  /** A week worked out: what each of its sessions leaves in the body, and what is left of it. */
  week(line: WeekLine): WeekRun {
    const known = this.weeks.get(line);
    if (known) return known;
    const spec = readWeek(line);
    const capOf = (event: string): number | null => this.world.events.get(event)?.capS ?? null;
    const made = runWeek(spec, (session) => this.freshRun(session, spec.sessions), capOf, this.abilities, this.world.constants);
    this.weeks.set(line, made);
    return made;
  }

  /** The middle day's score of a plan under a load. */
  scoreUnder(run: FreshRun, load: FatigueLoad): number {
    const key = [...load].map(([name, units]) => `${name} ${units.map((unit) => unit.toFixed(6)).join(" ")}`).join("\n");
    const [score = Number.NaN] = this.remembered(run.timeline, key, () => [scoreUnder(run, load, this.abilities, this.world.constants)]);
    return score;
  }

  /** Numbers made once for a timeline and a key, and kept as long as the timeline stands. */
  remembered(timeline: Timeline, key: string, make: () => readonly number[]): readonly number[] {
    return this.drawn.numbersOf(timeline, key, make);
  }

  /** A session's own plan; else that of another try of the event in the week. */
  private freshRun(session: Session, all: readonly Session[]): FreshRun | null {
    const name = session.plan ?? all.find(({ event, plan }) => event === session.event && plan !== null)?.plan;
    const result = name ? this.named(name) : undefined;
    if (result?.resolved.plan?.event.name !== session.event) return null;
    return result.resolved.plan && result.timeline ? { plan: result.resolved.plan, timeline: result.timeline } : null;
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
      const before = namesIn(top.value).flatMap((name) => this.world.lets.get(spelled(name, this.world))?.line ?? []);
      // What comes round to itself is found, and told, by the ordinary way.
      if (before.some((other) => waiting.includes(other))) return;
      const next = before.find((other) => !met.has(other) && !this.values.has(other.name.text));
      if (next) {
        met.add(next);
        waiting.push(next);
        continue;
      }
      waiting.pop();
      const { name, value } = top;
      if (top !== line && !this.open.includes(name.text)) {
        this.values.set(
          name.text,
          this.within(name.text, () => this.evaluate(value)),
        );
      }
    }
  }

  /** What is wrong with a line that only the whole notebook can tell: its formula, the names it looks up. */
  problemsOf(line: Line): readonly Problem[] {
    const unless = (computed: Computed): readonly Problem[] => (computed.ok ? [] : [computed.problem]);
    if (line.kind === "let") return unless(this.valueOf(line));
    if (line.kind === "expect") return [...unless(this.evaluate(line.left)), ...unless(this.evaluate(line.right))];
    return unknownNamesIn(line, this.world);
  }

  evaluate(expression: Expression): Computed {
    return compute(expression, (path, span) => this.lookUp(path, span));
  }

  private lookUp(path: readonly string[], span: Span): Computed {
    const found = lookUp(path, span, {
      world: this.world,
      open: this.open,
      valueOf: (line) => this.valueOf(line),
      named: (name) => this.named(name),
    });
    this.uses.set(path.join("."), print(found));
    return found;
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
    const kept = this.before.get(entry.read);
    if (kept && this.holds(kept)) {
      const { resolved, known } = kept.result;
      return this.keep(entry, { ...kept, result: new PlanResult(entry, resolved, known ?? this.timing(resolved.plan, kept.key)) });
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
    return this.keep(entry, { result: new PlanResult(entry, resolved, this.timing(resolved.plan, key)), key, uses: new Map(this.uses) });
  }

  private keep(entry: Entry, kept: KeptPlan): PlanResult {
    this.made.set(entry.read, kept);
    for (const [path, value] of kept.uses) this.uses.set(path, value);
    return kept.result;
  }

  /** Whether every name a kept plan used still stands for the same. */
  private holds(kept: KeptPlan): boolean {
    for (const [path, value] of kept.uses) if (print(this.lookUp(path.split("."), { from: 0, to: 0 })) !== value) return false;
    return true;
  }

  /** A plan's timeline if one like it is known, else how it comes about. */
  private timing(plan: PlanSpec | null, key: string | null): Timeline | null | (() => Timeline) {
    if (!plan || key === null) return null;
    return (
      this.timelines.get(key) ??
      (() => {
        this.simulated += 1;
        return simulate(plan, this.abilities, this.world.constants);
      })
    );
  }
}

function timelinesOf(plans: ReadonlyMap<Entry["read"], KeptPlan>): ReadonlyMap<string, Timeline> {
  const found = new Map<string, Timeline>();
  for (const { key, result } of plans.values()) if (key !== null && result.known) found.set(key, result.known);
  return found;
}

/** The first words of all names in an expression. */
function namesIn(expression: Expression): readonly string[] {
  return expression.kind === "reference" ? expression.path.slice(0, 1) : partsOf(expression).flatMap(namesIn);
}

/** Whether lines mean the same one by one, whatever their comments and blanks. */
function sayTheSame(some: readonly Line[], others: readonly Line[]): boolean {
  const same = (line: Line, other: Line | undefined): boolean => line === other || (!!other && printLine(line) === printLine(other));
  return some.length === others.length && some.every((line, at) => same(line, others[at]));
}

function print(computed: Computed): string {
  return computed.ok
    ? `${computed.amount.value} ${computed.amount.dimension}`
    : `${computed.problem.rule} ${JSON.stringify(computed.problem.values)}`;
}

/** All of a plan that its timeline depends on: no spans, no rules. */
function timelineKey({ steps, event, team }: PlanSpec): string {
  const { stages, windows, capS, handoverS, setUpS, score } = event;
  return JSON.stringify([steps, stages, windows, capS, handoverS, setUpS, score, team.name, team.athletes]);
}
