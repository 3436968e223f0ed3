import { once } from "../0-base/once.js";
import { type Problem, problem } from "../0-base/problem.js";
import { type AbilityTable, addAbilities } from "./abilities.js";
import { type AssumptionName, assumptionNames, assumptions, type Constants, constantsWith, isAssumption } from "./assumptions.js";
import type { AbilityLine, AssumeLine, EventLine, LetLine, Line, LogLine, PlanLine, RuleLine, WeekLine } from "./ast.js";
import type { Category, Word } from "./parts.js";
import { type EventSpec, readEvent } from "./event.js";
import { athleteNamed, freeName, twinDeclared, subjectKey, nameUnknown } from "./names.js";
import type { ReadBlock } from "./read.js";
import { inBase } from "./values.js";

/** A block of the notebook in its place. */
export interface Entry {
  readonly path: string;
  /** Offset of the block in its document. */
  readonly from: number;
  readonly read: ReadBlock;
}

export interface Athlete {
  readonly name: string;
  readonly category: Category;
  readonly team: string;
}

export interface Team {
  readonly name: string;
  readonly athletes: readonly Athlete[];
  readonly rules: readonly RuleLine[];
}

/** What a movement or a hold asks of the body: fractions by part. */
export interface Subject {
  readonly name: string;
  readonly asks: ReadonlyMap<string, number>;
}

interface Declared<L extends Line> {
  readonly entry: Entry;
  readonly line: L;
}

/** Everything the notebook's documents declare, by name. */
export interface World {
  readonly teams: ReadonlyMap<string, Team>;
  readonly athletes: ReadonlyMap<string, Athlete>;
  /** By name without plural s. */
  readonly movements: ReadonlyMap<string, Subject>;
  readonly holds: ReadonlyMap<string, Subject>;
  readonly abilities: AbilityTable;
  readonly events: ReadonlyMap<string, EventSpec>;
  readonly plans: ReadonlyMap<string, Declared<PlanLine>>;
  readonly weeks: readonly Declared<WeekLine>[];
  readonly logs: readonly Declared<LogLine>[];
  readonly lets: ReadonlyMap<string, Declared<LetLine>>;
  readonly constants: Constants;
  readonly documents: ReadonlySet<string>;
}

/** Parts of the body that work may ask of; `hands` is their skin. */
export const bodyParts = ["grip", "pull", "push", "squat", "hinge", "trunk", "engine", "hands"] as const;
export type BodyPart = (typeof bodyParts)[number];

export interface Surveyed {
  readonly world: World;
  readonly problems: ReadonlyMap<Entry, readonly Problem[]>;
}

/** Gathers all declarations of a notebook. Problems of names, places and units are given by block. */
export function survey(entries: readonly Entry[], documents: ReadonlySet<string>): Surveyed {
  const problems = new Map<Entry, Problem[]>();
  const { eventLines, abilityLines, assumed, ...gathered } = gather(entries, problems);
  const { athletes, movements } = gathered;
  const abilities: AbilityTable = new Map();
  for (const { entry, line } of [...abilityLines].sort((a, b) => compare(a.line.on ?? "", b.line.on ?? ""))) {
    addAbilities(abilities, line, athletes, reporter(problems, entry));
  }
  const events = readEvents(eventLines, problems);
  const world: World = { ...gathered, abilities, events, constants: constantsWith(assumed), documents };
  tellShadowed(world, problems);
  const subjects = [...movements.values(), ...[...abilities.values()].flatMap((known) => [...known.values()])].map(({ name }) => name);
  for (const { entry, line } of eventLines) misspelt(line, subjects).forEach(reporter(problems, entry));
  return { world, problems };
}

/** What single lines declare; events and abilities hang on others, and are read when all is gathered. */
interface Gathered extends Pick<World, "teams" | "athletes" | "movements" | "holds" | "plans" | "lets" | "weeks" | "logs"> {
  readonly eventLines: readonly Declared<EventLine>[];
  readonly abilityLines: readonly Declared<AbilityLine>[];
  readonly assumed: ReadonlyMap<AssumptionName, number>;
}

function gather(entries: readonly Entry[], problems: Map<Entry, Problem[]>): Gathered {
  const teams = new Map<string, Team>();
  const athletes = new Map<string, Athlete>();
  const movements = new Map<string, Subject>();
  const holds = new Map<string, Subject>();
  const plans = new Map<string, Declared<PlanLine>>();
  const lets = new Map<string, Declared<LetLine>>();
  const weeks: Declared<WeekLine>[] = [];
  const logs: Declared<LogLine>[] = [];
  const assumed = new Map<AssumptionName, number>();
  const eventLines: Declared<EventLine>[] = [];
  const abilityLines: Declared<AbilityLine>[] = [];
  const pathOf = new Map<Team | Subject, string>();
  const taken = once(
    () => new Set(entries.flatMap(({ read: { line } }) => (line.kind === "plan" || line.kind === "let" ? [line.name.text] : []))),
  );
  for (const entry of entries) {
    const report = reporter(problems, entry);
    const { line } = entry.read;
    /** The last of twins counts; a third one is told of the first. */
    const replace = <T extends Team | Subject>(known: Map<string, T>, key: string, made: T, what: string, name: Word): void => {
      const twin = known.get(key);
      if (twin) report(twinDeclared(what, name, pathOf.get(twin)));
      pathOf.set(made, (twin && pathOf.get(twin)) ?? entry.path);
      known.set(key, made);
    };
    if (line.kind === "team") replace(teams, line.name.text, readTeam(line, athletes, report), "team", line.name);
    else if (line.kind === "movement" || line.kind === "hold") {
      const known = line.kind === "movement" ? movements : holds;
      replace(known, subjectKey(line.name.text), readSubject(line, report), line.kind, line.name);
    } else if (line.kind === "week") {
      const twin = weeks.find((other) => other.line.name.text === line.name.text);
      if (twin) report(twinDeclared("week", line.name, twin.entry.path));
      weeks.push({ entry, line });
    } else if (line.kind === "ability") abilityLines.push({ entry, line });
    else if (line.kind === "event") eventLines.push({ entry, line });
    else if (line.kind === "log") {
      const twin = logs.find(
        ({ line: other }) => other.plan.text === line.plan.text && other.date === line.date && other.time === line.time,
      );
      if (twin) report(twinDeclared("log", { text: `${line.plan.text} on ${line.date}`, span: line.plan.span }, twin.entry.path));
      logs.push({ entry, line });
    } else if (line.kind === "plan") declare(plans, "plan", { entry, line }, report, taken);
    else if (line.kind === "let") declare(lets, "value", { entry, line }, report, taken);
    else if (line.kind === "assume") assume(line, assumed, report);
  }
  return { teams, athletes, movements, holds, plans, lets, weeks, logs, assumed, eventLines, abilityLines };
}

/** Values that bear another thing's name: a formula could not tell which of two is meant. */
function tellShadowed({ lets, plans, events, athletes }: World, problems: Map<Entry, Problem[]>): void {
  for (const { entry, line } of lets.values()) {
    const { text } = line.name;
    const what = plans.has(text) ? "plan" : events.has(text) ? "event" : athletes.has(text) ? "athlete" : null;
    if (what !== null) reporter(problems, entry)(twinDeclared(what, line.name));
  }
}

type Report = (problem: Problem) => void;

function reporter(problems: Map<Entry, Problem[]>, entry: Entry): Report {
  return (found) => {
    const list = problems.get(entry);
    if (list) list.push(found);
    else problems.set(entry, [found]);
  };
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function declare<L extends PlanLine | LetLine>(
  known: Map<string, Declared<L>>,
  what: string,
  declared: Declared<L>,
  report: Report,
  taken: () => ReadonlySet<string>,
): void {
  const { name } = declared.line;
  const twin = known.get(name.text);
  if (!twin) {
    known.set(name.text, declared);
    return;
  }
  report(twinDeclared(what, name, twin.entry.path, freeName(name.text, taken())));
}

function readTeam(line: Extract<Line, { kind: "team" }>, athletes: Map<string, Athlete>, report: Report): Team {
  const members: Athlete[] = [];
  for (const inner of line.body) {
    if (inner.kind !== "athlete") continue;
    if (inner.name.text.includes(" ")) {
      report(problem("athlete-one-word", inner.name.span, { name: inner.name.text }));
      continue;
    }
    const twin = athleteNamed(inner.name.text, athletes);
    if (twin !== null) report(twinDeclared("athlete", inner.name, `team ${athletes.get(twin)?.team ?? ""}`));
    const athlete = { name: inner.name.text, category: inner.category, team: line.name.text };
    athletes.set(athlete.name, athlete);
    members.push(athlete);
  }
  return { name: line.name.text, athletes: members, rules: line.body.filter((inner): inner is RuleLine => inner.kind === "rule") };
}

function readSubject(line: Extract<Line, { kind: "movement" | "hold" }>, report: Report): Subject {
  const asks = new Map<string, number>();
  for (const inner of line.body) {
    if (inner.kind !== "asks") continue;
    for (const { part, share } of inner.asks) {
      if (!bodyParts.some((known) => known === part.text)) report(nameUnknown("part of the body", part, bodyParts));
      else asks.set(part.text, inBase(share, ["share"], report) ?? 0);
    }
  }
  return { name: line.name.text, asks };
}

function assume(line: AssumeLine, assumed: Map<AssumptionName, number>, report: Report): void {
  const name = line.name.text;
  if (!isAssumption(name)) return report(nameUnknown("constant of the model", line.name, assumptionNames));
  const { dimension, least, most } = assumptions[name];
  const value = inBase(line.value, dimension === "count" ? ["count", "number"] : [dimension], report);
  if (value === null) return;
  if (assumed.has(name)) report(twinDeclared("constant", line.name, "this notebook"));
  if (value < least || value > most) report(problem("assumption-range", line.value.span, { name, least, most, dimension }));
  else assumed.set(name, value);
}

/** Movements of an event that nothing else names, though something close to them is. */
function misspelt(line: Extract<Line, { kind: "event" }>, known: readonly string[]): readonly Problem[] {
  const keys = new Set(known.map(subjectKey));
  const movements = line.body.flatMap((inner): readonly (Word | null)[] => {
    if (inner.kind === "stage") return [inner.movement ?? (inner.count ? null : inner.name)];
    return inner.kind === "round" ? inner.body.map((item) => (item.kind === "round item" ? item.movement : null)) : [];
  });
  return movements.flatMap((movement) => {
    if (!movement || keys.has(subjectKey(movement.text))) return [];
    const found = nameUnknown("movement", movement, known);
    return found.fixes.length > 0 ? [found] : [];
  });
}

/** Events in an order in which each follows the one it is like. */
function readEvents(
  lines: readonly Declared<Extract<Line, { kind: "event" }>>[],
  problems: Map<Entry, Problem[]>,
): ReadonlyMap<string, EventSpec> {
  const events = new Map<string, EventSpec>();
  const byName = new Map(lines.toReversed().map((declared) => [declared.line.name.text, declared]));
  const open = new Set<string>();
  const visit = (declared: Declared<Extract<Line, { kind: "event" }>>): EventSpec => {
    const { line, entry } = declared;
    const report = reporter(problems, entry);
    open.add(line.name.text);
    let like: EventSpec | null = null;
    if (line.like) {
      const base = byName.get(line.like.text);
      if (!base) report(nameUnknown("event", line.like, byName.keys()));
      else if (open.has(line.like.text)) report(problem("cycle", line.like.span, { names: [...open, line.like.text] }));
      else like = events.get(line.like.text) ?? visit(base);
    }
    const { event, problems: found } = readEvent(line, like);
    found.forEach(report);
    open.delete(line.name.text);
    if (!events.has(event.name)) events.set(event.name, event);
    return event;
  };
  for (const declared of lines) {
    const { line, entry } = declared;
    if (byName.get(line.name.text) !== declared)
      reporter(problems, entry)(twinDeclared("event", line.name, byName.get(line.name.text)?.entry.path ?? ""));
    else if (!events.has(line.name.text)) visit(declared);
  }
  return events;
}
