import { clock, counted, plain } from "../0-base/quantity.js";
import type { LogLine } from "../3-plan/ast.js";
import { type LogSpec, readLog, type Seen } from "../3-plan/log.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Evaluation } from "../4-timeline/evaluate.js";
import { type Expected, expectedOf, readingOf } from "../4-timeline/log-reading.js";
import { dropAt, repsAtMiss } from "../4-timeline/strength.js";
import type { Timeline } from "../4-timeline/timeline.js";
import { type Answer, computedBy, shownAs } from "./answer.js";

/**
 * What stands beside the lines of a log: what the plan had there, how far off it was, and whether that is usual; at the
 * head where it was lost or won.
 */
export function logAnswers(line: LogLine, evaluation: Evaluation, lineOf: (offset: number) => number): readonly Answer[] {
  const result = evaluation.named(line.plan.text);
  const [plan, timeline] = [result?.resolved.plan, result?.timeline];
  if (!plan || !timeline) return [];
  const log = readLog(line, evaluation.world.athletes);
  const expected = expectedBy(log, plan, timeline, evaluation);
  const words = log.seen.flatMap((seen): readonly Answer[] => {
    const shown = seenWords(seen, expected.get(seen), timeline);
    return shown === "" ? [] : [answer(lineOf(seen.span.from), shown, valuesOf(expected.get(seen)))];
  });
  const handover = line.body.find((one) => one.kind === "log handover");
  const planned = plan.event.handoverS ?? evaluation.world.constants.handover;
  return [
    ...headAnswer(log, plan, timeline, expected, planned, lineOf(line.span.from)),
    ...words,
    ...(handover && log.handoverS !== null ? [answer(lineOf(handover.span.from), `planned ${plain(planned)} s`, { planned })] : []),
  ];
}

function answer(line: number, shown: string, values: Answer["values"] = {}): Answer {
  return {
    line,
    about: "plans",
    shown,
    values,
    origin: computedBy("the plan's own run, and 200 drawn days of it"),
    formula: "the plan's run beside what was seen; eight days of ten lie between the two that are named",
    inputs: [],
  };
}

function valuesOf(expected: Expected | undefined): Answer["values"] {
  return expected
    ? { planned: expected.planned, low: expected.low, high: expected.high, off: expected.reading.value - expected.planned }
    : {};
}

/** Made once for a plan's run: the days cost more than a key may. */
function expectedBy(log: LogSpec, plan: PlanSpec, timeline: Timeline, evaluation: Evaluation): ReadonlyMap<Seen, Expected> {
  const readings = log.seen.flatMap((seen) => readingOf(seen, plan) ?? []);
  const key = `log ${readings.map(({ seen: { kind, ...rest }, value }) => `${kind} ${"stage" in rest ? rest.stage : "atS" in rest ? rest.atS : ""} ${value}`).join("; ")}`;
  const numbers = evaluation.remembered(timeline, key, () =>
    expectedOf(log, plan, evaluation.abilities, evaluation.world.constants).flatMap(({ planned, low, high }) => [planned, low, high]),
  );
  return new Map(
    readings.map((reading, at) => [
      reading.seen,
      { reading, planned: numbers[3 * at] ?? Number.NaN, low: numbers[3 * at + 1] ?? Number.NaN, high: numbers[3 * at + 2] ?? Number.NaN },
    ]),
  );
}

function seenWords(seen: Seen, expected: Expected | undefined, timeline: Timeline): string {
  switch (seen.kind) {
    case "done":
    case "finish":
      return expected
        ? shownAs(`planned ${clock(expected.planned)}`, offBy(expected, "s", "sooner", "later"), usual(expected, "sooner", "later"))
        : "";
    case "reps":
      return expected
        ? shownAs(`planned ${plain(expected.planned)}`, offBy(expected, "reps", "fewer", "more"), usual(expected, "fewer", "more"))
        : "";
    case "broke": {
      const planned =
        seen.movement === null ? Number.POSITIVE_INFINITY : repsAtMiss(timeline, { athlete: seen.athlete, subject: seen.movement });
      return Number.isFinite(planned) ? `planned after ${planned}` : "no miss was planned";
    }
    case "dropped": {
      const planned = dropAt(timeline, seen.athlete);
      return Number.isFinite(planned) ? `planned at ${clock(planned)}` : "no drop was planned";
    }
    case "no-rep":
      return `${counted(seen.count, "rep")} to do again, not planned`;
  }
}

function offBy({ reading: { value }, planned }: Expected, unit: "s" | "reps", less: string, more: string): string {
  const off = Math.round(value - planned);
  if (off === 0) return "as planned";
  return `${unit === "s" ? `${Math.abs(off)} s` : Math.abs(off)} ${off < 0 ? less : more}`;
}

function usual({ reading: { value }, low, high }: Expected, less: string, more: string): string {
  if (value < low) return `${less} than nine days of ten`;
  return value > high ? `${more} than nine days of ten` : "as on eight days of ten";
}

/** Less than this of a stage is no loss, s. */
const worthSayingS = 3;

function headAnswer(
  log: LogSpec,
  plan: PlanSpec,
  timeline: Timeline,
  expected: ReadonlyMap<Seen, Expected>,
  handoverS: number,
  line: number,
): readonly Answer[] {
  const stages = stageParts(log, plan, timeline, expected, handoverS);
  const athletes = plan.team.athletes.flatMap(({ name }) => {
    const broke = log.seen.filter(
      (seen) =>
        seen.kind === "broke" &&
        seen.athlete === name &&
        !Number.isFinite(
          seen.movement === null ? Number.POSITIVE_INFINITY : repsAtMiss(timeline, { athlete: name, subject: seen.movement }),
        ),
    ).length;
    const noReps = log.seen.reduce((sum, seen) => sum + (seen.kind === "no-rep" && seen.athlete === name ? seen.count : 0), 0);
    return [
      ...(broke > 0 ? [`${name} ${counted(broke, "miss", "misses")} that ${broke === 1 ? "was" : "were"} not planned`] : []),
      ...(noReps > 0 ? [`${name} ${counted(noReps, "no-rep")}`] : []),
    ];
  });
  const shown = shownAs(...stages, ...athletes);
  return shown === "" ? [] : [answer(line, shown)];
}

/** Stage by stage what was lost or won against the plan, and how much of it in changes of hands. */
function stageParts(
  log: LogSpec,
  plan: PlanSpec,
  timeline: Timeline,
  expected: ReadonlyMap<Seen, Expected>,
  handoverS: number,
): readonly string[] {
  const last = plan.event.stages.at(-1)?.name ?? "";
  const ends = log.seen
    .flatMap((seen) => {
      const known = expected.get(seen);
      return known && (seen.kind === "done" || seen.kind === "finish")
        ? [{ stage: seen.kind === "done" ? seen.stage : last, seen: known.reading.value, planned: known.planned }]
        : [];
    })
    .sort((a, b) => a.planned - b.planned);
  return ends.flatMap(({ stage, seen, planned }, at) => {
    const before = ends[at - 1];
    const off = Math.round(seen - (before?.seen ?? 0) - (planned - (before?.planned ?? 0)));
    if (Math.abs(off) < worthSayingS) return [];
    const changes = new Set(
      timeline.segments
        .filter(({ activity, startS }) => activity === "handover" && startS >= (before?.planned ?? 0) && startS < planned)
        .map(({ step, startS }) => `${step} ${startS.toFixed(1)}`),
    ).size;
    const inChanges = log.handoverS === null ? 0 : Math.round(changes * (log.handoverS - handoverS));
    const ofThem =
      inChanges !== 0 && Math.sign(inChanges) === Math.sign(off)
        ? `, ${Math.min(Math.abs(inChanges), Math.abs(off))} of them in ${counted(changes, "handover")}`
        : "";
    return [`${stage}: ${Math.abs(off)} s ${off > 0 ? "lost" : "won"}${ofThem}`];
  });
}
