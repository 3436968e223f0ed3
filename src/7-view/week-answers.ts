import { counted, percent, plain } from "../0-base/quantity.js";
import { addDays, momentOf, wallAt } from "../0-base/zoned.js";
import type { WeekLine } from "../3-plan/ast.js";
import type { WeekSpec } from "../3-plan/week.js";
import { bodyParts } from "../3-plan/world.js";
import type { Evaluation } from "../4-timeline/evaluate.js";
import { backAt, type FatigueLoad } from "../4-timeline/fatigue.js";
import { givenAway, leftAt, type SessionRun, trainingLoad, type WeekRun } from "../4-timeline/week.js";
import { type Answer, computedBy, type Input, shownAs } from "./answer.js";
import type { Field } from "./columns.js";
import { dayScore } from "./spread-words.js";

const weekModel = computedBy("the week model: half-lives by part of the body and a cost of what is left, both assumed");

/** A session's score with what the week has left, beside the fresh one; null where there is no plan, or no hour. */
export interface SessionScore {
  readonly kind: "time" | "reps";
  readonly tired: number;
  readonly fresh: number;
  /** Of the fresh score, 0 or more. */
  readonly lost: number;
}

export function scoreOf({ session, run, left }: SessionRun, evaluation: Evaluation): SessionScore | null {
  if (!run || !session.start) return null;
  const { kind } = run.timeline.score;
  const fresh = evaluation.scoreUnder(run, new Map());
  const tired = evaluation.scoreUnder(run, left);
  return { kind, tired, fresh, lost: Math.max(0, givenAway(kind, tired, fresh)) };
}

/** What stands beside the lines of a week. */
export function weekAnswers(line: WeekLine, evaluation: Evaluation, lineOf: (offset: number) => number): readonly Answer[] {
  const week = evaluation.week(line);
  const { spec } = week;
  const scores = week.sessions.map((run) => scoreOf(run, evaluation));
  return [
    headAnswer(week, scores, lineOf(line.span.from)),
    ...week.sessions.map((run, at) => sessionAnswer(run, scores[at] ?? null, evaluation, lineOf(run.session.span.from))),
    ...spec.rests.flatMap(({ date, span }) => restAnswer(date, week, evaluation, lineOf(span.from))),
    ...dueAnswer(week, lineOf),
  ];
}

function headAnswer(week: WeekRun, scores: readonly (SessionScore | null)[], line: number): Answer {
  const { spec, sessions } = week;
  const known = scores.filter((score) => score !== null);
  const lost = known.reduce((sum, score) => sum + score.lost, 0);
  const load = trainingLoad(week);
  const open = sessions.filter(({ session }) => !session.start).length;
  return {
    line,
    about: "plans",
    shown: shownAs(
      counted(sessions.length, "event"),
      known.length > 0 ? `${lossWords(lost)} in all` : null,
      open > 0 ? `${open} still to be placed` : null,
      spec.zoned ? null : "hours are UTC: the week has no zone",
      load && `load ${plain(load.sum, 0)}`,
      load && load.monotony !== null && load.strain !== null ? `monotony ${plain(load.monotony)}, strain ${plain(load.strain, 0)}` : null,
    ),
    values: {
      lost,
      ...(load && { load: load.sum }),
      ...(load?.monotony != null && { monotony: load.monotony }),
      ...(load?.strain != null && { strain: load.strain }),
    },
    origin: weekModel,
    formula:
      "of each event's score the share that is given away against a fresh team, summed; load: effort × minutes (Foster 1998), monotony its daily mean over its standard deviation, strain the two multiplied",
    inputs: [],
  };
}

/** Less than this of a score is noise of the days. */
const noise = 0.002;

function lossWords(lost: number): string {
  return lost < noise ? "nothing given away" : `${plain(100 * lost)} % given away`;
}

function sessionAnswer(
  { session, run, left, limit, lastsS }: SessionRun,
  score: SessionScore | null,
  { world }: Evaluation,
  line: number,
): Answer {
  const load = session.effort === null ? null : (session.effort * lastsS) / 60;
  const tired = score && score.lost >= noise;
  const words =
    score &&
    `${dayScore(score.kind, score.tired)}${score.kind === "reps" ? " reps" : ""}${tired ? `, fresh ${dayScore(score.kind, score.fresh)}` : " as when fresh"}`;
  const when = session.start && wallAt(session.start.atS, "UTC");
  const shownScore = (value: number): string => (score ? `${dayScore(score.kind, value)}${score.kind === "reps" ? " reps" : ""}` : "");
  const cells: readonly (Field | null)[] = [
    score && { column: "score", text: shownScore(score.tired) },
    score && { column: "fresh", text: tired ? shownScore(score.fresh) : "the same" },
    limit && tired ? { column: "limit", text: `${limit.athlete}'s ${limit.part}` } : null,
    limit && tired ? { column: "back", text: percent(limit.back), bar: limit.back } : null,
    load === null ? null : { column: "load", text: plain(load, 0) },
  ];
  return {
    line,
    about: "plans",
    shown: shownAs(
      when ? null : session.date === null ? "no day yet" : session.time === null ? "no hour yet" : "no such hour",
      words,
      limit && tired ? `${limit.athlete}'s ${limit.part} ${percent(limit.back)} back` : null,
      load === null ? null : `load ${plain(load, 0)}`,
      run || !when ? null : "no plan yet",
    ),
    ...(score && when && { row: { table: "week", cells: cells.filter((cell) => cell !== null) } }),
    values: {
      ...(score && { score: score.tired, fresh: score.fresh, lost: score.lost }),
      ...(limit && { back: limit.back }),
      ...(load !== null && { load }),
    },
    origin: weekModel,
    formula:
      "the score of the middle one of 200 days, with what the sessions before have left of everybody's capacity, and the same days fresh",
    inputs: inputsOf(left, world.constants),
  };
}

/** The three parts that are least back, whose they are, and how much. */
function inputsOf(left: FatigueLoad, constants: Evaluation["world"]["constants"]): readonly Input[] {
  const all = [...left].flatMap(([athlete, units]) =>
    units.map((unit, at) => ({ name: `${athlete}'s ${bodyParts[at] ?? ""}`, back: backAt(unit, constants) })),
  );
  return all
    .filter(({ back }) => back < 0.9995)
    .sort((a, b) => a.back - b.back)
    .slice(0, 3)
    .map(({ name, back }) => ({ name, value: `${plain(100 * back)} % back`, origin: { kind: "assumed", by: "half-lives and load cost" } }));
}

const restFormula = "from the day's first hour to its last, of the part that is least back";

/** What a day of rest gives back of the part that needs it most. */
function restAnswer(date: string, { spec, sessions }: WeekRun, { world: { constants } }: Evaluation, line: number): readonly Answer[] {
  const [from, to] = [momentOf(date, "00:00", spec.zone), momentOf(addDays(date, 1), "00:00", spec.zone)];
  if (!from || !to) return [];
  const [before, after] = [leftAt(from.atS, sessions, constants), leftAt(to.atS, sessions, constants)];
  const parts = bodyParts.map((part, at) => {
    const units = [...before]
      .map(([athlete, all]) => ({ athlete, had: all[at] ?? 0, has: after.get(athlete)?.[at] ?? 0 }))
      .sort((a, b) => b.had - a.had)[0];
    return { part, athlete: units?.athlete ?? "", had: backAt(units?.had ?? 0, constants), has: backAt(units?.has ?? 0, constants) };
  });
  const [most] = parts.sort((a, b) => a.had - b.had);
  if (!most || most.had > 0.9995)
    return [{ line, about: "rests", shown: "everybody is fresh", values: {}, origin: weekModel, formula: restFormula, inputs: [] }];
  const [whose, back] = [`${most.athlete}'s ${most.part}`, `${percent(most.had)} → ${percent(most.has)}`];
  return [
    {
      line,
      about: "rests",
      shown: `${whose} ${back} back`,
      row: {
        table: "week",
        cells: [
          { column: "limit", text: whose },
          { column: "back", through: "load", text: back },
        ],
      },
      values: { before: most.had, after: most.has },
      origin: weekModel,
      formula: restFormula,
      inputs: [],
    },
  ];
}

function dueAnswer({ spec, sessions }: WeekRun, lineOf: (offset: number) => number): readonly Answer[] {
  const { due } = spec;
  if (!due) return [];
  const lastS = Math.max(...sessions.flatMap(({ session: { start }, lastsS }) => (start ? [start.atS + lastsS] : [])));
  const leftS = due.atS - lastS;
  const own = hourIn(due.atS, spec);
  const there = due.zone === spec.zone ? null : `${wallAt(due.atS, due.zone).weekday} ${wallAt(due.atS, due.zone).time} in ${due.zone}`;
  const after = Number.isFinite(leftS)
    ? leftS >= 0
      ? `${durationWords(leftS)} after the last event`
      : `${durationWords(-leftS)} before the last event is over`
    : null;
  return [
    {
      line: lineOf(due.span.from),
      about: "plans",
      shown: shownAs(`${own} here`, there, after),
      values: { due: due.atS, ...(Number.isFinite(leftS) && { left: leftS }) },
      origin: { kind: "measured", by: "the published due time" },
      formula: "the same instant in both zones, by the zone data of this platform",
      inputs: [{ name: "zone here", value: spec.zone, origin: { kind: "measured", by: "the week" } }],
    },
  ];
}

/** `Thu 03-26 17:00`, without the year. */
export function hourIn(atS: number, { zone }: WeekSpec): string {
  const { date, time, weekday } = wallAt(atS, zone);
  return `${weekday} ${date.slice(5)} ${time}`;
}

/** `5 h 40 min`, `3 days 4 h`. */
export function durationWords(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  const [days, hours] = [Math.floor(minutes / 1440), Math.floor((minutes % 1440) / 60)];
  if (days > 1) return `${counted(days, "day")}${hours > 0 ? ` ${hours} h` : ""}`;
  return minutes < 60 ? `${minutes} min` : `${days * 24 + hours} h${minutes % 60 > 0 ? ` ${minutes % 60} min` : ""}`;
}
