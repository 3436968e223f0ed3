import { either } from "../5-findings/rule.js";
import { clock, counted, plain } from "../0-base/quantity.js";
import type { LoadKg } from "../3-plan/event.js";
import { categoryIn, type PlanSpec, type Rest, type Step, type Turn, turnsOf, type Work } from "../3-plan/plan.js";
import { thingsToRemember } from "../3-plan/remember.js";
import { cardCaution } from "./cautions.js";
import type { Timeline, TurnRun } from "../4-timeline/timeline.js";
import { termsOf } from "./stage-terms.js";

/** What one athlete does at one line of a plan, or waits through. */
export interface CardItem {
  readonly kind: "work" | "hold" | "rest";
  /** In the athlete's own words. */
  readonly what: string;
  /** When it begins the first time, and what ends it; empty where no run tells. */
  readonly when: string;
  /** Who comes after; null where that is nobody, or no turn of one's own. */
  readonly next: string | null;
  readonly cues: readonly string[];
}

export type CardPart =
  | CardItem
  | {
      readonly kind: "stage";
      readonly title: string;
      readonly checks: readonly string[];
      readonly cues: readonly string[];
      readonly parts: readonly CardPart[];
    }
  | { readonly kind: "loop"; readonly head: string; readonly cues: readonly string[]; readonly parts: readonly CardPart[] };

/** A plan as one athlete keeps it in the head. Plain data. */
export interface Card {
  readonly athlete: string;
  readonly plan: string;
  readonly event: string;
  readonly score: string;
  readonly parts: readonly CardPart[];
  readonly cues: readonly string[];
  readonly standards: readonly string[];
  /** Things to remember: sizes, holds, rests with a number, words. */
  readonly remember: number;
}

/** A card for each athlete of the plan's team who has something to do, in the team's order; `spelt`: no loops, every turn one by one. */
export function cardsOf(plan: PlanSpec, timeline: Timeline, spelt = false): readonly Card[] {
  const busy = new Set(turnsOf(plan.steps).flatMap(({ who, holders }) => [...who, ...holders]));
  return plan.team.athletes.filter(({ name }) => busy.has(name)).map(({ name }) => cardOf(name, plan, timeline, spelt));
}

function cardOf(athlete: string, plan: PlanSpec, timeline: Timeline, spelt = false): Card {
  const { event } = plan;
  const writer = new CardWriter(athlete, plan, timeline);
  const parts = spelt ? writer.everyTurn() : writer.parts(plan.steps, event.stages.length === 1 ? 0 : null);
  const cues = [
    ...writer.cuesAt(0),
    ...plan.cues
      .filter(({ fromS }) => fromS !== null)
      .map(({ text, fromS }) => `${(fromS ?? 0) < 0 ? `the last ${clock(-(fromS ?? 0))}` : `from ${clock(fromS ?? 0)}`}: ${text}`),
  ];
  const only = event.stages.length === 1 && !plan.steps.some(({ kind }) => kind === "stage");
  const whole: readonly CardPart[] =
    only && !spelt ? [{ kind: "stage", title: writer.title(0), checks: writer.checks(0), cues: [], parts }] : parts;
  const { kind, value, finished } = timeline.score;
  const score = kind === "reps" ? counted(value, "rep") : finished ? clock(value) : `not done at ${clock(timeline.endS)}`;
  return {
    athlete,
    plan: plan.name,
    event: event.name,
    score,
    parts: whole,
    cues,
    standards: event.standards,
    remember: thingsToRemember(plan, athlete),
  };
}

class CardWriter {
  private readonly runs = new Map<number, TurnRun[]>();
  private readonly until = new Map<TurnRun, number>();

  constructor(
    private readonly athlete: string,
    private readonly plan: PlanSpec,
    private readonly timeline: Timeline,
  ) {
    timeline.turns.forEach((run, at) => {
      this.runs.set(run.step, [...(this.runs.get(run.step) ?? []), run]);
      this.until.set(run, timeline.standings[at]?.units ?? 0);
    });
  }

  cuesAt(step: number): readonly string[] {
    return this.plan.cues.filter((cue) => cue.step === step && cue.fromS === null).map(({ text }) => text);
  }

  /** A stage's work, at the athlete's own load; at both categories' where it is for all. */
  title(stage: number, forAll = false): string {
    const spec = this.plan.event.stages[stage];
    if (!spec) return "";
    const [item] = spec.items;
    const kg = (load: LoadKg | null): string =>
      load === null
        ? ""
        : ` @ ${forAll && load.man !== load.woman ? `${plain(load.man)}/${plain(load.woman)}` : plain(load[categoryIn(this.plan.team, this.athlete)])} kg`;
    const held = spec.hold
      ? `, ${spec.hold.count === 1 ? "one holds" : `${spec.hold.count} hold`} the ${spec.hold.hold}${kg(spec.hold.load)}`
      : "";
    const what = `${spec.unit === "rep" ? "" : `${spec.unit} `}${item?.movement ?? ""}`;
    const work = spec.rounds
      ? spec.target === null
        ? "as many rounds as you can"
        : counted(spec.target, "round")
      : `${spec.target === null ? `as many ${spec.unit === "rep" ? plural(what) : what} as you can` : `${spec.target} ${what}`}${kg(item?.load ?? null)}`;
    return `${spec.name === item?.movement || spec.name === "round" ? "" : `${spec.name}: `}${work}${held}${termsOf(spec, this.plan.event)}`;
  }

  /** Where the team should stand at a third, two thirds and the end of a stage. */
  checks(stage: number): readonly string[] {
    const target = this.plan.event.stages[stage]?.target;
    const turns = this.timeline.turns.filter((run) => run.stage === stage);
    const last = Math.max(0, ...turns.map((run) => this.until.get(run) ?? 0));
    return [1 / 3, 2 / 3, 1].flatMap((share) => {
      const wanted = share * (target ?? last);
      const run = turns.filter((one) => (this.until.get(one) ?? 0) >= wanted - 1e-9).sort((a, b) => a.endS - b.endS)[0];
      return run ? [`${this.until.get(run) ?? 0} by ${clock(run.endS)}`] : [];
    });
  }

  parts(steps: readonly Step[], stage: number | null): readonly CardPart[] {
    const parts: CardPart[] = [];
    for (const step of steps) {
      switch (step.kind) {
        case "turn":
          parts.push(this.turn(step, steps));
          break;
        case "rest":
          parts.push(...this.rest(step));
          break;
        case "repeat":
          parts.push({ kind: "loop", head: this.loopHead(step, stage), cues: this.cuesAt(step.id), parts: this.parts(step.body, stage) });
          break;
        case "lanes":
          for (const lane of step.lanes)
            if (turnsOf(lane.body).some((turn) => this.in(turn)))
              parts.push({
                kind: "loop",
                head: lane.station ?? lane.name,
                cues: this.cuesAt(lane.id),
                parts: this.parts(lane.body, stage),
              });
          break;
        case "stage":
          parts.push({
            kind: "stage",
            title: this.title(step.stage),
            checks: this.checks(step.stage),
            cues: this.cuesAt(step.id),
            parts: this.parts(step.body, step.stage),
          });
          break;
        case "window": {
          const window = this.plan.event.windows[step.window];
          if (window)
            parts.push({
              kind: "loop",
              head: `${clock(window.startS)}–${clock(window.endS)}, ${window.category === "woman" ? "the women" : "the men"}`,
              cues: this.cuesAt(step.id),
              parts: this.parts(step.body, stage),
            });
          break;
        }
      }
    }
    return merged(parts);
  }

  /** All that the athlete does, stage by stage, in the order of time, each turn as often as it comes. */
  everyTurn(): readonly CardPart[] {
    const turns = new Map(turnsOf(this.plan.steps).map((turn) => [turn.id, turn] as const));
    const own = this.timeline.turns
      .flatMap((run) => {
        const turn = turns.get(run.step);
        return turn && this.in(turn) ? [{ run, turn }] : [];
      })
      .sort((a, b) => a.run.startS - b.run.startS);
    return this.plan.event.stages.flatMap((_, stage): readonly CardPart[] => {
      const items = own.filter(({ run }) => run.stage === stage).map(({ run, turn }) => this.once(turn, run));
      return items.length === 0 ? [] : [{ kind: "stage", title: this.title(stage), checks: this.checks(stage), cues: [], parts: items }];
    });
  }

  /** One passage of a turn: how many it was in this one. */
  private once(turn: Turn, run: TurnRun): CardItem {
    const item = this.turn(turn, []);
    const when = `${clock(run.startS)}–${clock(run.endS)}`;
    if (item.kind !== "work" || turn.rounds !== null) return { ...item, when };
    const { reps = 0 } = run.athletes.find(({ name }) => name === this.athlete) ?? {};
    const [work] = turn.works;
    return {
      ...item,
      what: item.what.replace(
        work ? this.workWords(work, turn) : "",
        `${reps} ${reps === 1 ? (work?.movement ?? "") : plural(work?.movement ?? "")}`,
      ),
      when: `${when}, to ${this.until.get(run) ?? 0}`,
    };
  }

  private in({ who, holders }: Turn): boolean {
    return who.includes(this.athlete) || holders.includes(this.athlete);
  }

  private loopHead(step: Extract<Step, { kind: "repeat" }>, stage: number | null): string {
    const passes = this.timeline.repeats.filter((run) => run.step === step.id).reduce((sum, run) => sum + run.passes, 0);
    const ready = step.body.some((inner) => inner.kind === "rest" && inner.until.kind === "ready")
      ? ", each when ready for the whole set"
      : "";
    if (step.times !== null) return `${counted(step.times, "time")}${ready}:`;
    return `${step.untilS === null ? (this.plan.event.stages[stage ?? -1]?.target === null ? "until the time is up" : "until it is done") : `until ${clock(step.untilS)}`}, ${counted(passes, "time")} as planned${ready}:`;
  }

  private turn(turn: Turn, among: readonly Step[]): CardItem {
    const { who, holders, hold, id } = turn;
    const [first] = this.runs.get(id) ?? [];
    const following = nextTurn(turn, among);
    const next = following && following !== turn ? said(following.who) : null;
    const when = first ? `${clock(first.startS)}–${clock(first.endS)}` : "";
    if (who.includes(this.athlete)) {
      const others = who.filter((name) => name !== this.athlete);
      const [work] = turn.works;
      const how =
        others.length === 0
          ? ""
          : ` ${work?.rhythm === "in sync" ? "in step with" : work?.rhythm === "together" ? "together with" : "with"} ${said(others)}`;
      const what = `${turn.rounds === null ? turn.works.map((one) => this.workWords(one, turn)).join(", ") : `${turn.rounds === 1 ? "a round" : `${turn.rounds} rounds`}: ${turn.works.map((one) => this.workWords(one, turn)).join(", ")}`}${how}${holders.length > 0 ? `; ${said(holders)} ${holders.length > 1 ? "hold" : "holds"}` : ""}`;
      return { kind: "work", what, when: first ? `${when}, to ${this.until.get(first) ?? 0}` : "", next, cues: this.cuesAt(id) };
    }
    if (holders.includes(this.athlete)) {
      const seconds = first ? `, about ${Math.round(first.endS - first.startS)} s` : "";
      return {
        kind: "hold",
        what: `hold the ${hold ?? "weight"} while ${said(who)} ${who.length > 1 ? "work" : "works"}${seconds}`,
        when,
        next: null,
        cues: this.cuesAt(id),
      };
    }
    return { kind: "rest", what: `${idle}${said(who)} ${who.length > 1 ? "work" : "works"}`, when, next: null, cues: [] };
  }

  private sizes(work: Work | undefined, { who }: Turn): readonly number[] {
    return work?.ladders[Math.max(0, who.indexOf(this.athlete))] ?? work?.ladders[0] ?? [];
  }

  private workWords(work: Work, turn: Turn): string {
    const steps = this.sizes(work, turn);
    const size = steps.length > 1 ? `${steps.join(", then ")}${work.again ? ", and again" : ""}` : String(steps[0] ?? "");
    const broken = work.broken ? ` as ${work.broken.parts.join(" + ")}, ${plain(work.broken.restS)} s between` : "";
    const { unit } = this.plan.event.stages.find(({ items }) => items.some(({ movement }) => movement === work.movement)) ?? {
      unit: "rep",
    };
    return `${size} ${unit !== "rep" ? `${unit} ${work.movement}` : size === "1" ? work.movement : plural(work.movement)}${broken}`;
  }

  private rest({ who, until, id }: Rest): readonly CardItem[] {
    if (who.length > 0 && !who.includes(this.athlete)) return [];
    if (until.kind === "ready" && who.length === 0) return [];
    const words =
      until.kind === "time"
        ? `rest ${clock(until.seconds)}`
        : until.kind === "share"
          ? `rest until ${Math.round(100 * until.fraction)} % is back`
          : until.kind === "ready"
            ? "rest until you can do the whole next set"
            : `rest ${plain(until.factor)} times as long as the set took`;
    return [{ kind: "rest", what: words, when: "", next: null, cues: this.cuesAt(id) }];
  }
}

/** The turn after one among its neighbours; the first again after the last. */
function nextTurn(turn: Turn, among: readonly Step[]): Turn | null {
  const turns = among.filter((step) => step.kind === "turn");
  return turns[(turns.indexOf(turn) + 1) % turns.length] ?? null;
}

const idle = "rest; ";

/** Rests in a row are one, with all who work meanwhile. */
function merged(parts: readonly CardPart[]): readonly CardPart[] {
  const out: CardPart[] = [];
  for (const part of parts) {
    const last = out.at(-1);
    if (part.kind === "rest" && last?.kind === "rest" && part.what.startsWith(idle) && last.what.startsWith(idle)) {
      const [from, to] = [last.when.split("–")[0] ?? "", part.when.split("–")[1] ?? ""];
      out[out.length - 1] = {
        ...last,
        what: `${last.what.replace(/ works?$/, "")}, then ${part.what.slice(idle.length)}`,
        when: from && to ? `${from}–${to}` : last.when,
      };
    } else out.push(part);
  }
  return out;
}

/** `box jumps`, `push presses`. */
function plural(movement: string): string {
  return /(s|x|ch|sh)$/.test(movement) ? `${movement}es` : `${movement}s`;
}

/** `Ines`, `Ines and Bram`, `Ines, Marta and Bram`. */
function said(names: readonly string[]): string {
  return either(names, "and");
}

/** A line of the sheet on the wall: what each athlete does in it. */
export interface WallRow {
  readonly kind: "stage" | "loop" | "turn";
  readonly when: string;
  readonly words: string;
  /** By athlete, in the team's order; empty for heads. */
  readonly cells: readonly string[];
}

export interface Wall {
  readonly plan: string;
  readonly event: string;
  readonly score: string;
  readonly athletes: readonly string[];
  readonly rows: readonly WallRow[];
  readonly cautions: string;
}

/** The whole plan as a table: turns down, athletes across. */
export function wallOf(plan: PlanSpec, timeline: Timeline): Wall {
  const athletes = plan.team.athletes.map(({ name }) => name);
  const cards = athletes.map((athlete) => cardOf(athlete, plan, timeline));
  const firstRun = new Map<number, TurnRun>();
  for (const run of timeline.turns) if (!firstRun.has(run.step)) firstRun.set(run.step, run);
  const writer = new CardWriter(athletes[0] ?? "", plan, timeline);
  const rowsOf = (steps: readonly Step[]): readonly WallRow[] =>
    steps.flatMap((step): readonly WallRow[] => {
      const head = (kind: "stage" | "loop", words: string, body: readonly Step[], when = ""): readonly WallRow[] => [
        { kind, when, words, cells: [] },
        ...rowsOf(body),
      ];
      switch (step.kind) {
        case "turn":
          return [
            {
              kind: "turn",
              when: clock(firstRun.get(step.id)?.startS ?? 0),
              words: said(step.who),
              cells: athletes.map((athlete) => cellOf(athlete, step)),
            },
          ];
        case "stage":
          return head(
            "stage",
            `${writer.title(step.stage, true)}${writer.checks(step.stage).length > 0 ? `: ${writer.checks(step.stage).join(", ")}` : ""}`,
            step.body,
          );
        case "repeat":
          return head("loop", step.times === null ? "again and again:" : `${counted(step.times, "time")}:`, step.body);
        case "lanes":
          return step.lanes.flatMap((lane) => head("loop", lane.station ?? lane.name, lane.body));
        case "window":
          return rowsOf(step.body);
        case "rest":
          return step.who.length === 0 && step.until.kind === "time"
            ? [{ kind: "loop", when: "", words: `rest ${clock(step.until.seconds)}`, cells: [] }]
            : [];
      }
    });
  const only = plan.event.stages.length === 1 && !plan.steps.some(({ kind }) => kind === "stage");
  const first: readonly WallRow[] = only
    ? [{ kind: "stage", when: "", words: `${writer.title(0, true)}: ${writer.checks(0).join(", ")}`, cells: [] }]
    : [];
  return {
    plan: plan.name,
    event: plan.event.name,
    score: cards[0]?.score ?? "",
    athletes,
    rows: [...first, ...rowsOf(plan.steps)],
    cautions: cardCaution,
  };
}

function cellOf(athlete: string, { who, holders, works, rounds }: Turn): string {
  if (holders.includes(athlete)) return "hold";
  const place = who.indexOf(athlete);
  if (place < 0) return "";
  if (rounds !== null) return rounds === 1 ? "round" : `${rounds} rounds`;
  const [work] = works;
  return (work?.ladders[place] ?? work?.ladders[0] ?? []).join("-");
}
