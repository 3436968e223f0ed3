import { clock, counted, percent, plain } from "../0-base/quantity.js";
import { loadFor, type PlanSpec, type Turn, turnsOf } from "../3-plan/plan.js";
import type { Abilities } from "../4-timeline/ability.js";
import type { RepeatRun, RestLeft, RestRun, StageRun, Standing, Timeline, TurnRun } from "../4-timeline/timeline.js";
import { type Answer, computedBy, type Input, shownAs } from "./answer.js";
import type { Field, Row } from "./columns.js";

const timelineModel = computedBy("the timeline: reserve model for reps, three-compartment model for holds");

/** Answers of a plan's lines. `lineOf` turns a node's place in the block's text into a line. */
export function planAnswers(
  plan: PlanSpec,
  timeline: Timeline,
  abilities: Abilities,
  lineOf: (offset: number) => number,
): readonly Answer[] {
  const lineOfStep = (step: number): number => lineOf(plan.nodes[step]?.span.from ?? 0);
  const repeats = new Set(timeline.repeats.map(({ step }) => step));
  const turns = new Map(turnsOf(plan.steps).map((turn) => [turn.id, turn]));
  return withWorst([
    planAnswer(plan, timeline, lineOfStep(0)),
    ...timeline.stages.filter(({ step }) => step !== 0).map((run) => stageAnswer(run, plan, lineOfStep(run.step))),
    ...grouped(timeline.repeats).map((runs) => repeatAnswer(runs, lineOfStep(runs[0].step))),
    ...grouped(timeline.rests.filter(({ step }) => !repeats.has(step))).map((runs) => restAnswer(runs, lineOfStep(runs[0].step))),
    ...grouped(timeline.turns).flatMap((runs) => {
      const turn = turns.get(runs[0].step);
      const standing = timeline.standings[timeline.turns.indexOf(runs[0])];
      return turn && standing ? [turnAnswer(runs, standing, turn, plan, abilities, lineOfStep(runs[0].step))] : [];
    }),
  ]);
}

/** Less left than this at worst is worth an eye. */
const little = 0.1;

/** Marks the turn that leaves least, where that is little. */
function withWorst(answers: readonly Answer[]): readonly Answer[] {
  const least = Math.min(...answers.map(({ values }) => values.least ?? 1));
  if (least >= little) return answers;
  const at = answers.findIndex(({ values }) => values.least === least);
  return answers.map((answer, index) =>
    index === at ? worstAt(answer, answer.row?.cells.some(({ column }) => column === "least") ? "least" : "left") : answer,
  );
}

/** The same answer, with one field marked as the plan's worst. */
export function worstAt(answer: Answer, column: Field["column"]): Answer {
  return answer.row
    ? {
        ...answer,
        row: { ...answer.row, cells: answer.row.cells.map((cell) => (cell.column === column ? { ...cell, worst: true } : cell)) },
      }
    : answer;
}

/** A row of a plan's table; what is not there is left out. */
function rowOf(startS: number, endS: number, ...cells: readonly (Field | null)[]): Row {
  return {
    table: "plan",
    cells: [{ column: "from", text: clock(startS) }, { column: "to", text: clock(endS) }, ...cells.filter((cell) => cell !== null)],
  };
}

/** Runs of the same step together, in the order of their first. */
function grouped<Run extends { readonly step: number }>(runs: readonly Run[]): readonly (readonly [Run, ...Run[]])[] {
  const groups = new Map<number, [Run, ...Run[]]>();
  for (const run of runs) {
    const group = groups.get(run.step);
    if (group) group.push(run);
    else groups.set(run.step, [run]);
  }
  return [...groups.values()];
}

function span(startS: number, endS: number): string {
  return `${clock(startS)}–${clock(endS)}`;
}

function planAnswer({ event }: PlanSpec, timeline: Timeline, line: number): Answer {
  const { score, stages, capS, athletes } = timeline;
  const reps = stages.reduce((sum, run) => sum + run.reps, 0);
  const open = stages.find(({ reached, target }) => target !== null && !reached);
  const result =
    score.kind === "reps"
      ? counted(score.value, "rep")
      : score.finished
        ? clock(score.value)
        : `not done at ${clock(timeline.endS)}${open ? `, ${open.name} at ${unitsOf(open)} of ${open.target ?? ""}` : ""}`;
  const margin = score.kind === "time" && score.finished && capS !== null ? `${clock(capS - score.value)} inside the cap` : null;
  return {
    line,
    about: "plans",
    shown: shownAs(`${result} on paper`, margin),
    values: { score: score.value, end: timeline.endS, reps },
    origin: timelineModel,
    formula:
      score.kind === "reps"
        ? "the reps that end by the cap, as the lines say, without chance"
        : "the end of the last rep of the last stage, as the lines say, without chance",
    inputs: [
      { name: "event", value: event.name, origin: { kind: "measured", by: "the published rules" } },
      ...athletes.map(({ name, reps: done, share }): Input => ({
        name,
        value: `${counted(done, "rep")}, ${percent(share)}`,
        origin: timelineModel,
      })),
    ],
  };
}

function unitsOf(run: StageRun): number {
  return run.rounds > 0 ? run.rounds : run.reps;
}

function stageAnswer(run: StageRun, plan: PlanSpec, line: number): Answer {
  const shares = plan.team.athletes.map(({ name }) => ({ name, reps: run.repsBy[name] ?? 0 }));
  const all = shares.reduce((sum, { reps }) => sum + reps, 0);
  const shown = shares.map(({ name, reps }) => `${name} ${reps}`).join(" ");
  const done = run.target === null ? counted(run.reps, "rep") : `${unitsOf(run)} of ${run.target}`;
  return {
    line,
    about: "stages",
    shown: shownAs(`ends ${clock(run.endS)}`, done, shown),
    row: rowOf(
      run.startS,
      run.endS,
      { column: "done", text: done },
      { column: "left", through: "passes", text: shown, shares: shares.map(({ name, reps }) => ({ name, value: reps })) },
    ),
    values: { start: run.startS, end: run.endS, reps: run.reps },
    origin: timelineModel,
    formula: "reps that count, by athlete",
    inputs: shares.map(({ name, reps }) => ({
      name,
      value: all > 0 ? `${counted(reps, "rep")}, ${percent(reps / all)}` : "no rep",
      origin: timelineModel,
    })),
  };
}

function repeatAnswer(runs: readonly [RepeatRun, ...RepeatRun[]], line: number): Answer {
  const [first] = runs;
  const passes = runs.reduce((sum, run) => sum + run.passes, 0);
  const last = runs.at(-1) ?? first;
  return {
    line,
    about: "turns",
    shown: shownAs(`${passes} ${passes === 1 ? "pass" : "passes"}`, span(first.startS, last.endS)),
    row: rowOf(first.startS, last.endS, { column: "passes", text: `×${passes}` }),
    values: { passes, start: first.startS, end: last.endS },
    origin: timelineModel,
    formula: "passes begun before the target or the cap",
    inputs: [],
  };
}

function restAnswer(runs: readonly [RestRun, ...RestRun[]], line: number): Answer {
  const [first] = runs;
  const { startS, endS, before, after } = first;
  const restored = before !== null && after !== null ? restoredWords(before, after) : "before the next turn";
  return {
    line,
    about: "rests",
    shown: shownAs(endS > startS ? span(startS, endS) : null, restored, runs.length > 1 ? `×${runs.length}` : null),
    row: rowOf(
      startS,
      endS,
      { column: "done", through: "least", text: restored },
      runs.length > 1 ? { column: "passes", text: `×${runs.length}` } : null,
    ),
    values: { start: startS, end: endS, ...(before && { before: before.left }), ...(after && { after: after.left }) },
    origin: computedBy("the reserve model"),
    formula: "the least reserve of those who worked last, before and after",
    inputs: [],
  };
}

function restoredWords(before: RestLeft, after: RestLeft): string {
  const then = after.athlete === before.athlete ? percent(after.left) : `${after.athlete} ${percent(after.left)}`;
  return `${before.athlete} ${percent(before.left)} → ${then}`;
}

/** All that is said is the first passage's; of the others, how many there are and the least that any leaves. */
function turnAnswer(
  runs: readonly [TurnRun, ...TurnRun[]],
  standing: Standing,
  turn: Turn,
  plan: PlanSpec,
  abilities: Abilities,
  line: number,
): Answer {
  const [first] = runs;
  const stage = plan.event.stages[first.stage];
  const least = leastOf(runs);
  const opening = leastOf([first]);
  const reps = first.athletes.reduce((sum, athlete) => sum + athlete.reps, 0);
  const unit = stage?.rounds ? " rounds" : stage && stage.unit !== "rep" ? ` ${stage.unit}` : "";
  const done = stage?.target == null ? counted(standing.reps, "rep") : `${standing.units} of ${stage.target}`;
  const count = stage?.target == null ? done : `${done}${unit}`;
  const left = `${turn.who.length > 1 ? `${opening.name} ` : ""}${percent(opening.left)} left`;
  const same = percent(least.left) === percent(opening.left);
  const again = runs.length > 1 ? `×${runs.length}${same ? "" : `, least ${percent(least.left)}`}` : null;
  const trouble = runs.some(({ misses }) => misses.length > 0) ? "miss" : runs.some(({ drops }) => drops.length > 0) ? "drop" : null;
  return {
    line,
    about: "turns",
    shown: shownAs(span(first.startS, first.endS), count, left, again, trouble),
    row: rowOf(
      first.startS,
      first.endS,
      { column: "done", text: done },
      { column: "left", text: percent(opening.left), bar: opening.left },
      same ? null : { column: "least", text: percent(least.left), bar: least.left },
      trouble && { column: "chance", text: trouble },
      runs.length > 1 ? { column: "passes", text: `×${runs.length}` } : null,
    ),
    values: {
      start: first.startS,
      end: first.endS,
      reps,
      total: standing.units,
      left: opening.left,
      least: least.left,
      passes: runs.length,
    },
    origin: timelineModel,
    formula: "the first passage: as long as the slowest of those who work; the reserve left after it; of all passages, the least",
    inputs: turn.who.flatMap((name) => inputsOf(name, turn, plan, abilities)),
  };
}

function leastOf(runs: readonly TurnRun[]): { readonly name: string; readonly left: number } {
  const all = runs.flatMap(({ athletes }) => athletes);
  return all.reduce((least, one) => (one.left < least.left ? one : least), { name: all[0]?.name ?? "", left: 1 });
}

function inputsOf(name: string, turn: Turn, plan: PlanSpec, abilities: Abilities): readonly Input[] {
  return turn.works.flatMap(({ movement, load }): readonly Input[] => {
    const { reserve, origins } = abilities.movement(name, movement, loadFor(plan.team, name, load));
    const of = `${name}, ${movement}`;
    return [
      { name: `${of}: unbroken`, value: counted(reserve.unbroken, "rep"), origin: origins.unbroken },
      { name: `${of}: cycle`, value: `${plain(reserve.cycleS, 2)} s a rep`, origin: origins.cycle },
      { name: `${of}: fade`, value: percent(reserve.fade), origin: origins.fade },
      { name: `${of}: recovery`, value: plain(reserve.recovery, 2), origin: origins.recovery },
    ];
  });
}
