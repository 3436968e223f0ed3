/** Logs of days whose truth is known: the clock runs a drawn day, and what a coach would write down of it is its log. */
import { subjectKey } from "../../src/3-plan/names.js";
import type { LogSpec, Seen } from "../../src/3-plan/log.js";
import type { PlanSpec } from "../../src/3-plan/plan.js";
import { Draw, spread } from "../../src/4-timeline/draw.js";
import { learn, type Learnt } from "../../src/4-timeline/learn.js";
import { simulate } from "../../src/4-timeline/simulate.js";
import { Simulator } from "../../src/4-timeline/simulator.js";
import { dropAt, repsAtMiss } from "../../src/4-timeline/strength.js";
import { compile } from "../../src/compile.js";
import { lighthouse } from "../notebook.js";

const own = `team Pine
  Ada  woman
  Eva  woman
  Olu  man
  Ben  man
ability          Ada  Eva  Olu  Ben
  box jump  unbroken  20  24  28  26  reps
  box jump  cycle  2.0  2.1  1.8  1.9  s
  burpee  unbroken  18  16  22  20  reps
  burpee  cycle  3.0  3.2  2.8  2.9  s
event Relay
  score time
  cap 20 min
  handover 3 s
  working at most 1
  stage jumps  180 box jump
  stage burpees  110 burpee
plan Four for Relay
  stage jumps
    repeat
      Ada 15
      Olu 15
      Eva 15
      Ben 15
  stage burpees
    repeat
      Ada 11
      Olu 11
      Eva 11
      Ben 11
`;

const compiled = compile([...lighthouse, { path: "own.rota", text: own }]);
export const {
  abilities,
  world: { constants },
} = compiled.kept;

export function planNamed(name: string): PlanSpec {
  const found = [...compiled.documents.values()]
    .flatMap(({ blocks }) => blocks.flatMap(({ plan }) => plan?.resolved.plan ?? []))
    .find((plan) => plan.name === name);
  if (!found) throw new Error(name);
  return found;
}

/** Plans of four kinds of events: stages with a hold, two stations to the cap, windows of rounds, one at a time without timed tests. */
export const kinds = ["Steady", "Ladder", "Even", "Four"] as const;

/** What a coach writes down of a drawn day: the stages, the board at two times, who broke or dropped first. */
export function logOf(plan: PlanSpec, day: Draw): LogSpec {
  const timeline = simulate(plan, abilities, constants, { chance: day });
  const span = { from: 0, to: 0 };
  const ends = new Map(timeline.stages.filter(({ reached }) => reached).map(({ name, endS }) => [name, endS]));
  const splits =
    plan.event.score === "time"
      ? [...ends].slice(0, -1).map(([stage, endS]): Seen => ({ kind: "done", stage, atS: Math.round(endS), span }))
      : [];
  const finish: readonly Seen[] =
    timeline.score.kind === "time" && timeline.score.finished ? [{ kind: "finish", atS: Math.round(timeline.endS), span }] : [];
  const rounds = plan.event.stages.some((stage) => stage.rounds);
  const boards =
    plan.event.score === "time"
      ? []
      : [0.35, 0.7, 1].map((part): Seen => {
          const atS = Math.round(part * timeline.endS);
          const { reps, stages } = new Simulator(plan, abilities, constants, atS).run(day);
          return { kind: "reps", atS, reps: rounds ? stages.reduce((sum, one) => sum + one.rounds, 0) : reps, span };
        });
  const trouble = new Simulator(plan, abilities, constants, null).subjects.flatMap((subject): readonly Seen[] => {
    if (subject.hold) {
      const atS = dropAt(timeline, subject.athlete);
      return Number.isFinite(atS) ? [{ kind: "dropped", athlete: subject.athlete, atS: Math.round(atS), span }] : [];
    }
    const after = repsAtMiss(timeline, subject);
    return Number.isFinite(after) ? [{ kind: "broke", athlete: subject.athlete, movement: subjectKey(subject.subject), after, span }] : [];
  });
  return { plan: plan.name, date: "2026-03-20", seen: [...splits, ...finish, ...boards, ...trouble], handoverS: null };
}

/** The true logarithms of a drawn day, apart: what was tested wrongly, and a recovery that nobody tested. */
export function truthOf(plan: PlanSpec, day: Draw, { unknown: { kind, athlete, subject, hold } }: Pick<Learnt, "unknown">): number {
  const found = new Simulator(plan, abilities, constants, null).subjects.find(
    (one) => one.athlete === athlete && one.subject === subject && one.hold === hold,
  );
  if (!found) throw new Error(athlete);
  if (kind === "recovery") return Math.log(day.recovery(found.place, found.number));
  const form = -Math.log(day.cycle(found.place)) / spread.cycle;
  return Math.log(day.ability(found.place, found.number)) - spread.form * form;
}

export interface Tally {
  told: number;
  inside: number;
  /** Squared errors of what was learnt, and of the test itself, in the same unknowns; and of all unknowns' numbers how many were told. */
  squared: number;
  squaredBefore: number;
}

/** Draws a day, writes its log, learns from it, and counts how often the truth lies in the stated 80 %. */
export function recover(name: string, seed: number, tally: Tally): void {
  const plan = planNamed(name);
  const day = new Draw(seed);
  day.go(seed % 1_000);
  const { learnt } = learn([{ log: logOf(plan, day), plan, ageDays: 0 }], abilities, constants, 1_000 + seed);
  for (const one of learnt) {
    const truth = truthOf(plan, day, one);
    tally.told += 1;
    if (truth >= Math.log(one.low) && truth <= Math.log(one.high)) tally.inside += 1;
    tally.squared += (truth - Math.log(one.factor)) ** 2;
    tally.squaredBefore += truth ** 2;
  }
}
