import { type Problem, problem } from "../0-base/problem.js";
import type { CueLine, Line, PlanLine, RoundTurnLine, RuleLine, TurnLine } from "./ast.js";
import type { BrokenSet, Expression, How, RestSize, WhileClause, Word } from "./parts.js";
import { mostPasses } from "./reader.js";
import { categoryOf, categoryWord, type EventSpec, type Item, loadKg, type StageSpec } from "./event.js";
import type { Computed } from "./formula.js";
import { athleteNamed, twinDeclared, subjectKey, nameUnknown } from "./names.js";
import {
  type Cue,
  type Lane,
  type PlanPair,
  type PlanSpec,
  type ResolvedPlan,
  type Step,
  type Turn,
  withLeaves,
  type Work,
} from "./plan.js";
import { groupOf, isGroup } from "./groups.js";
import { differing } from "./loads.js";
import { countedOtherwise, sizesOf } from "./sizes.js";
import { inBase } from "./values.js";
import type { Team, World } from "./world.js";

/** What resolving a plan needs from beyond its own block. */
export interface Resolving {
  readonly world: World;
  readonly evaluate: (expression: Expression) => Computed;
  /** Most reps in a row of an athlete, tested or assumed. */
  readonly unbroken: (athlete: string, item: Item) => number;
}

/** AST → plan. What cannot be resolved is left out, each with a problem of its own. */
export function resolvePlan(line: PlanLine, resolving: Resolving): ResolvedPlan {
  const { world } = resolving;
  const problems: Problem[] = [];
  const report = (found: Problem): void => void problems.push(found);
  const event = world.events.get(line.event.text);
  if (!event) {
    report(nameUnknown("event", line.event, world.events.keys()));
    return { line, plan: null, problems };
  }
  const pairs = readPairs(line, world, report);
  const team = teamOf(line, pairs, world);
  if (!team) {
    report(problem("no-team", line.name.span, { name: line.name.text }));
    return { line, plan: null, problems };
  }
  const nodes: PlanSpec["nodes"][number][] = [];
  const cues: Cue[] = [];
  const builder = new Builder(resolving, event, team, pairs, report, nodes, cues);
  builder.node(line);
  const steps = builder.steps(line.body, onlyStage(event));
  const rules = line.body.filter((inner): inner is RuleLine => inner.kind === "rule");
  return { line, plan: { name: line.name.text, event, team, steps, pairs, rules, cues, nodes }, problems };
}

function onlyStage(event: EventSpec): number | null {
  return event.stages.length === 1 ? 0 : null;
}

function readPairs(line: PlanLine, world: World, report: (problem: Problem) => void): readonly PlanPair[] {
  const pairs: PlanPair[] = [];
  for (const inner of line.body) {
    if (inner.kind !== "pair") continue;
    if (pairs.some(({ name }) => name === inner.name.text)) report(twinDeclared("pair", inner.name));
    if (athleteNamed(inner.name.text, world.athletes) !== null) report(twinDeclared("athlete", inner.name));
    if (isGroup(inner.name.text)) report(twinDeclared("group", inner.name));
    for (const athlete of inner.athletes)
      if (athleteNamed(athlete.text, world.athletes) === null) report(nameUnknown("athlete", athlete, world.athletes.keys()));
    const [one, other] = inner.athletes;
    if (other && one?.text.toLowerCase() === other.text.toLowerCase()) report(problem("named-twice", other.span, { name: other.text }));
    const athletes = inner.athletes.flatMap(({ text }) => athleteNamed(text, world.athletes) ?? []);
    pairs.push({ name: inner.name.text, athletes, span: inner.span });
  }
  return pairs;
}

/** The team whose athlete the plan names first; with none named, the notebook's only team. */
function teamOf(line: PlanLine, pairs: readonly PlanPair[], world: World): Team | null {
  const named = [...pairs.flatMap(({ athletes }) => athletes), ...namesIn(line)];
  const first = named.map((name) => world.athletes.get(athleteNamed(name, world.athletes) ?? "")).find((athlete) => athlete !== undefined);
  if (first) return world.teams.get(first.team) ?? null;
  const [only, another] = [...world.teams.values()];
  return only && !another ? only : null;
}

function namesIn(line: Line): readonly string[] {
  const own = line.kind === "turn" || line.kind === "round turn" || line.kind === "named rest" ? line.who.map(({ text }) => text) : [];
  return [...own, ...line.body.flatMap(namesIn)];
}

class Builder {
  constructor(
    private readonly resolving: Resolving,
    private readonly event: EventSpec,
    private readonly team: Team,
    private readonly pairs: readonly PlanPair[],
    private readonly report: (problem: Problem) => void,
    private readonly nodes: PlanSpec["nodes"][number][],
    private readonly cues: Cue[],
  ) {}

  node(line: Line): number {
    const size = line.kind === "turn" && line.beside.length === 0 && line.size.kind === "number" ? line.size.span : null;
    const holders = line.kind === "turn" ? (line.clauses.hold?.who ?? []).map(({ span }) => span) : [];
    this.nodes.push({ span: line.span, size, holders });
    const id = this.nodes.length - 1;
    for (const inner of line.body) if (inner.kind === "cue") this.cues.push({ step: id, text: inner.text, fromS: this.cueFrom(inner) });
    return id;
  }

  private cueFrom({ when }: CueLine): number | null {
    const seconds = when && inBase(when.value, ["time"], this.report);
    return seconds === null ? null : when?.of === "last" ? -seconds : seconds;
  }

  steps(lines: readonly Line[], stage: number | null): readonly Step[] {
    const steps: Step[] = [];
    let lanes: Lane[] | null = null;
    for (const line of lines) {
      if (line.kind === "lane") {
        const lane = this.lane(line, stage);
        if (lanes) lanes.push(lane);
        else steps.push({ kind: "lanes", lanes: (lanes = [lane]) });
        continue;
      }
      lanes = null;
      const step = this.step(line, stage);
      if (step) steps.push(step);
    }
    return steps;
  }

  private lane(line: Extract<Line, { kind: "lane" }>, stage: number | null): Lane {
    const id = this.node(line);
    const { stations } = this.event;
    if (line.station && !stations.some(({ name }) => name === line.station?.text)) {
      this.report(
        nameUnknown(
          "station",
          line.station,
          stations.map(({ name }) => name),
        ),
      );
    }
    return { id, name: line.name.text, station: line.station?.text ?? null, body: this.steps(line.body, stage) };
  }

  private step(line: Line, stage: number | null): Step | null {
    switch (line.kind) {
      case "stage":
        return this.stage(line);
      case "window":
        return this.window(line, stage);
      case "repeat": {
        if (line.times !== null && (line.times < 1 || !Number.isInteger(line.times)))
          this.report(problem("size-not-whole", line.span, { size: line.times, least: 1, most: mostPasses }));
        const untilS = line.until && inBase(line.until, ["time"], this.report);
        const id = this.node(line);
        const body = this.steps(line.body, stage);
        // Said once at the head, it is a rest before each turn.
        const ready: Step = { kind: "rest", id, who: [], until: { kind: "ready" } };
        return {
          kind: "repeat",
          id,
          times: line.times,
          untilS,
          body: line.whenReady ? withLeaves(body, (leaf) => (leaf.kind === "turn" ? [ready, leaf] : [leaf])) : body,
        };
      }
      case "rest":
      case "named rest": {
        const until = this.until(line.rest);
        const who = line.kind === "rest" ? [] : this.athletes(line.who);
        return until && who ? { kind: "rest", id: this.node(line), who, until } : null;
      }
      case "turn":
      case "round turn":
        return this.turn(line, stage);
      default:
        return null;
    }
  }

  private stage(line: Extract<Line, { kind: "stage" }>): Step | null {
    const names = this.event.stages.map(({ name }) => name);
    const at = line.name ? names.indexOf(line.name.text) : -1;
    if (line.name && at < 0) this.report(nameUnknown("stage", line.name, names));
    const elsewhere = { under: "plan", owners: ["event"], below: 0 };
    if (line.count) this.report(problem("out-of-place", line.count.span, { what: "stage target", ...elsewhere }));
    if (line.within || line.rest || !line.scored)
      this.report(problem("out-of-place", line.span, { what: "stage's time, pause or score", ...elsewhere }));
    if (at < 0) return null;
    return { kind: "stage", id: this.node(line), stage: at, body: this.steps(line.body, at) };
  }

  private window(line: Extract<Line, { kind: "window" }>, stage: number | null): Step | null {
    const category = categoryOf(line.who.text);
    const at = this.event.windows.findIndex((window) => window.category === category);
    if (at < 0) {
      this.report(
        nameUnknown(
          "window",
          line.who,
          this.event.windows.map(({ category: whose }) => categoryWord(whose)),
        ),
      );
      return null;
    }
    return { kind: "window", id: this.node(line), window: at, body: this.steps(line.body, stage) };
  }

  private until(rest: RestSize): Extract<Step, { kind: "rest" }>["until"] | null {
    if (rest.kind === "ready") return { kind: "ready" };
    if (rest.kind === "ratio") return rest.work > 0 ? { kind: "ratio", factor: rest.rest / rest.work } : null;
    if (rest.kind === "share") {
      if (rest.fraction <= 0.99) return { kind: "share", fraction: rest.fraction };
      this.report(problem("rest-share", rest.span, { most: 99 }));
      return null;
    }
    const seconds = inBase(rest.value, ["time"], this.report);
    return seconds === null ? null : { kind: "time", seconds };
  }

  /** The athletes some words name, pairs opened; null where a name is not known. */
  private athletes(words: readonly Word[], working: readonly string[] = []): readonly string[] | null {
    const found: string[] = [];
    let known = true;
    for (const word of words) {
      const pair = this.pairs.find(({ name }) => name === word.text);
      const athlete = athleteNamed(word.text, this.resolving.world.athletes);
      const meant = pair?.athletes ?? (athlete !== null ? [athlete] : isGroup(word.text) ? groupOf(word.text, this.team, working) : null);
      const twin = meant?.find((name) => found.includes(name));
      if (twin !== undefined) this.report(problem("named-twice", word.span, { name: twin }));
      if (meant) found.push(...meant);
      else {
        known = false;
        this.report(nameUnknown("athlete or pair", word, [...this.pairs.map(({ name }) => name), ...this.resolving.world.athletes.keys()]));
      }
    }
    return known ? [...new Set(found)] : null;
  }

  private turn(line: TurnLine | RoundTurnLine, at: number | null): Turn | null {
    const who = this.athletes(workersOf(line));
    const holders = line.clauses.hold ? this.athletes(line.clauses.hold.who, who ?? []) : [];
    const stage = at === null ? undefined : this.event.stages[at];
    if (!stage) {
      this.report(problem("which-stage", line.span, { stages: this.event.stages.map(({ name }) => name) }));
      return null;
    }
    const works = who && (line.kind === "turn" ? this.work(line, stage, who) : this.round(line, stage, who));
    if (!who || !holders || !works || who.length === 0) return null;
    const id = this.node(line);
    return {
      kind: "turn",
      id,
      who,
      works,
      rounds: line.kind === "turn" ? null : line.count,
      holders,
      ...this.hold(line.clauses.hold, stage),
    };
  }

  private hold(clause: WhileClause | null, stage: StageSpec): Pick<Turn, "hold" | "holdLoad"> {
    const asked = stage.hold;
    if (clause?.hold && asked && subjectKey(clause.hold.text) !== subjectKey(asked.hold))
      this.report(nameUnknown("hold", clause.hold, [asked.hold]));
    const hold = asked?.hold ?? clause?.hold?.text ?? null;
    differing(clause?.load ?? null, asked?.load ?? null).forEach(this.report);
    if (clause && hold === null) this.report(problem("which-hold", clause.span, {}));
    return { hold, holdLoad: asked?.load ?? null };
  }

  private round(line: RoundTurnLine, stage: StageSpec, who: readonly string[]): readonly Work[] | null {
    if (!stage.rounds) {
      this.report(problem("no-round", line.span, { event: this.event.name, stage: stage.name }));
      return null;
    }
    if (line.clauses.broken)
      this.report(
        problem("which-movement", line.clauses.broken.span, {
          movements: stage.items.map(({ movement }) => movement),
          parts: line.clauses.broken.parts.join("+"),
        }),
      );
    const brokenOf = new Map(line.items.map(({ movement, broken }) => [this.itemNamed(movement, stage), broken] as const));
    return stage.items.map((item) => ({
      movement: item.movement,
      load: item.load,
      rhythm: this.rhythm(item.how, item, line, who),
      ladders: who.map(() => [item.count ?? 1]),
      again: false,
      broken: this.broken(brokenOf.get(item) ?? null, item.count ?? 1),
    }));
  }

  private work(line: TurnLine, stage: StageSpec, who: readonly string[]): readonly Work[] | null {
    const item = line.movement ? this.itemNamed(line.movement, stage) : stage.items.length === 1 ? stage.items[0] : undefined;
    if (!item) {
      if (!line.movement)
        this.report(problem("which-movement", line.span, { movements: stage.items.map(({ movement }) => movement), parts: null }));
      return null;
    }
    const { how, broken, load } = line.clauses;
    const shared = how === "shared";
    const asked = shared ? "each" : (item.how ?? (line.beside.length > 0 ? "each" : how));
    const rhythm = this.rhythm(asked, item, line, who);
    differing(load, item.load).forEach(this.report);
    const used = load ? { ...item, load: loadKg(load) } : item;
    const best = (athlete: string): number => this.resolving.unbroken(athlete, used);
    const own = [line, ...line.beside].map((cast) => {
      const athletes = line.beside.length === 0 ? who : (this.athletes(cast.who) ?? []);
      if (!stage.rounds) countedOtherwise(cast.size, stage.unit).forEach(this.report);
      return sizesOf({ ...line, size: cast.size }, athletes, { shared, rhythm }, best, this.resolving.evaluate, this.report);
    });
    if (!own.every((sizes) => sizes !== null)) return null;
    const said = item.how ?? how;
    if (line.beside.length > 0 && said !== null && said !== "each") this.report(problem("own-numbers", line.span, { how: said }));
    return [
      {
        movement: item.movement,
        load: used.load,
        rhythm,
        ladders: own.flat(),
        again: line.size.kind === "ladder" && line.size.again,
        broken: this.broken(broken, null),
      },
    ];
  }

  /** The parts of a set broken on purpose; `whole`: the reps that they have to come to, where no size has been asked already. */
  private broken(set: BrokenSet | null, whole: number | null): Work["broken"] {
    if (!set) return null;
    const sum = set.parts.reduce((total, part) => total + part, 0);
    if (whole !== null && sum !== whole) this.report(problem("broken-set-sum", set.span, { sum, size: whole, parts: set.parts.join("+") }));
    const restS = set.rest ? inBase(set.rest, ["time"], this.report) : this.resolving.world.constants["break rest"];
    return { parts: set.parts, restS: restS ?? 0 };
  }

  private itemNamed(word: Word, stage: StageSpec): Item | undefined {
    const found = stage.items.find(({ movement }) => subjectKey(movement) === subjectKey(word.text));
    if (!found)
      this.report(
        nameUnknown(
          `movement of ${stage.name}`,
          word,
          stage.items.map(({ movement }) => movement),
        ),
      );
    return found;
  }

  /** One athlete has an own rhythm. Two need a word for it: where none stands, each is taken and the plan is asked. */
  private rhythm(how: How | null, item: Item, line: TurnLine | RoundTurnLine, who: readonly string[]): Work["rhythm"] {
    if (who.length < 2) return "each";
    if (how === "in sync" || how === "together") return how;
    // A group is not asked “each or in all?”: everyone does the number.
    if (how === null && line.who.every(({ text }) => isGroup(text))) return "each";
    if (how === null) this.report(sayHow(item, line));
    return "each";
  }
}

/** All of a line's workers, in its order. */
function workersOf(line: TurnLine | RoundTurnLine): readonly Word[] {
  return line.kind === "turn" ? [line, ...line.beside].flatMap(({ who }) => who) : line.who;
}

function sayHow(item: Item, line: TurnLine | RoundTurnLine): Problem {
  const size = line.kind === "turn" ? line.size.span : line.span;
  const end = { from: size.to, to: size.to };
  const count = line.kind === "turn" && line.size.kind === "number" ? line.size.value.amount : 0;
  const fixes =
    line.kind === "turn" ? ["each", "shared"].map((text) => ({ title: `write ${text}`, edits: [{ span: end, text: ` ${text}` }] })) : [];
  return problem("say-how", size, { count, movement: item.movement, inRound: line.kind === "round turn" }, fixes);
}
